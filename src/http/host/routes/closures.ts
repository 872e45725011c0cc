/** Closures of sites and of single receptacles and tap outlets, and the list of those. */
import {
  type Closure,
  type ClosureEntry,
  createClosure,
  listClosures,
  readClosure,
  removeClosure,
  staysMet,
  updateClosure,
} from "../../../ledger/closures.ts";
import type { Ledger } from "../../../ledger/ledger.ts";
import { type StoredCampground, siteOf } from "../../../records/store.ts";
import { parseJsonText } from "../../body.ts";
import { Problem } from "../../problem.ts";
import type { Route } from "../../route.ts";
import { closureRequestSchema } from "../../schemas/host.ts";
import { check } from "../../validate.ts";
import { jsonContent, part, query, readRoute, writeRoute } from "../describe.ts";
import { sha256 } from "../local-tokens.ts";
import { requireMatch } from "../matching.ts";
import { MERGE_PATCH_TYPE, mergePatch } from "../merge-patch.ts";
import { outletsOf } from "../outlets.ts";
import { dateParameter } from "../queries.ts";
import { storedRecord } from "../stored.ts";
import { todayAt } from "../today.ts";
import type { WriteAnswer, Writing } from "../writing.ts";

const CLOSURE = part("closure", "Id of the closure.");
const PATH = "/closures/{closure}";

const outletsRoute = readRoute(
  {
    path: "/outlets",
    operationId: "listOutlets",
    summary: "Receptacles and tap outlets by their ids",
    description: "As the record has them: which sites each serves, and whether several share it.",
    answer: "OutletList",
  },
  async ({ host, campground }) => {
    const body = { outlets: outletsOf(await storedRecord(host, campground)) };
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const listRoute = readRoute(
  {
    path: "/closures",
    operationId: "listClosures",
    summary: "What is closed, and whom that meets",
    description: "Sites, and single receptacles and tap outlets: a failed receptacle closes itself and not its site.",
    parameters: [query("from", "Closures with a night at or after this date.", { type: "string", format: "date" })],
    answer: "ClosureList",
  },
  async ({ host, campground }, { url }) => {
    const today = todayAt(host.ledger, await storedRecord(host, campground));
    const closures = listClosures(host.ledger, campground, dateParameter(url, "from"));
    const body = { closures: closures.map((closure) => told(host.ledger, campground, closure, today)) };
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const createRoute = writeRoute(
  {
    method: "POST",
    path: "/closures",
    operationId: "createClosure",
    scope: "stays",
    summary: "Close a site, a receptacle or a tap outlet",
    description:
      "Never refused because somebody stands there: the answer names the stays that it meets, and moving them is another act.",
    body: { description: "The closure.", content: jsonContent("ClosureRequest"), most: "hostBodyBytes" },
    status: 201,
    answer: "Closure",
  },
  async (writing) => {
    const stored = await storedRecord(writing.host, writing.campground);
    const { id, entry } = entryOf(parseJsonText(writing.text, writing.call.limits.jsonDepth), stored);
    const fresh = id ?? writing.call.newId();
    return () => answer(writing, createClosure(writing.ledger, writing.act, fresh, entry), stored, 201);
  },
);

const patchRoute = writeRoute(
  {
    method: "PATCH",
    path: PATH,
    operationId: "patchClosure",
    scope: "stays",
    summary: "Change a closure",
    description: "For instance its end: `until` is the first night on which it is open again.",
    parameters: [CLOSURE],
    matched: true,
    body: {
      description: "A merge patch (RFC 7396).",
      content: { [MERGE_PATCH_TYPE]: { schema: { type: "object" } } },
      most: "hostBodyBytes",
    },
    answer: "Closure",
  },
  async (writing) => {
    const patch = parseJsonText(writing.text, writing.call.limits.jsonDepth);
    const stored = await storedRecord(writing.host, writing.campground);
    return () => {
      const before = present(writing);
      const { entry } = entryOf(mergePatch(wireOf(before), patch), stored);
      return answer(writing, updateClosure(writing.ledger, writing.act, before, entry), stored, 200);
    };
  },
);

const deleteRoute = writeRoute(
  {
    method: "DELETE",
    path: PATH,
    operationId: "deleteClosure",
    scope: "stays",
    summary: "Remove a closure",
    description: "As if it had never been; one that is over is better given its end.",
    parameters: [CLOSURE],
    matched: true,
    answer: "Removed",
  },
  (writing) => () => {
    const closure = present(writing);
    removeClosure(writing.ledger, writing.act, closure);
    return { status: 200, body: { removed: closure.id } };
  },
);

function present({ ledger, campground, call }: Writing): Closure {
  const closure = readClosure(ledger, campground, call.params["closure"] ?? "");
  if (closure === null) throw new Problem("not-found", "There is no closure of this id.");
  requireMatch(call.request, tagOf(closure));
  return closure;
}

const tagOf = (closure: Closure): string => `"${closure.version}"`;

function wireOf({ site, outlet, firstNight, until, why }: Closure): Record<string, unknown> {
  return {
    ...(site === null ? { outlet } : { site }),
    firstNight,
    ...(until === null ? {} : { until }),
    ...(why === null ? {} : { why }),
  };
}

function entryOf(
  value: unknown,
  stored: StoredCampground,
): { readonly id: string | null; readonly entry: ClosureEntry } {
  const checked = check(closureRequestSchema, value);
  if (!checked.ok) throw new Problem("invalid-request", "The closure cannot be used as it stands.", checked.errors);
  const { id = null, site = null, outlet = null, firstNight, until = null, why = null } = checked.value;
  const isKnown = site === null ? outletsOf(stored).some((one) => one.id === outlet) : siteOf(stored, site) !== null;
  if (!isKnown) {
    const message = site === null ? `There is no outlet ${outlet}.` : `There is no site ${site}.`;
    const pointer = site === null ? "/outlet" : "/site";
    throw new Problem("invalid-request", message, [{ pointer, code: "absent", message }]);
  }
  return { id, entry: { site, outlet, firstNight, until, why } };
}

const told = (ledger: Ledger, campground: string, closure: Closure, today: string) => ({
  ...closure,
  stays: staysMet(ledger, campground, closure, today),
});

function answer(
  { ledger, campground }: Writing,
  closure: Closure,
  stored: StoredCampground,
  status: number,
): WriteAnswer {
  const body = told(ledger, campground, closure, todayAt(ledger, stored));
  return { status, body, headers: { ETag: tagOf(closure) } };
}

export const CLOSURE_ROUTES: readonly Route[] = [outletsRoute, listRoute, createRoute, patchRoute, deleteRoute];
