/** Who stands where: the plan, moves by hand, locks, and plans that are accepted whole. */

import type * as z from "zod";
import { acceptPlan, lockStays, moveStays } from "../../../ledger/assignments.ts";
import { planVersion } from "../../../ledger/plan-number.ts";
import { listPlaced, readStay, type Stay } from "../../../ledger/stays.ts";
import type { StoredCampground } from "../../../records/store.ts";
import { siteOf } from "../../../records/store.ts";
import { parseJsonText } from "../../body.ts";
import { Problem, type ProblemError } from "../../problem.ts";
import type { Route } from "../../route.ts";
import {
  acceptRequestSchema,
  lockRequestSchema,
  movesRequestSchema,
  releaseRequestSchema,
} from "../../schemas/host.ts";
import { check } from "../../validate.ts";
import { jsonContent, query, readRoute, writeRoute } from "../describe.ts";
import { requireMatch } from "../matching.ts";
import { outletsOf, sharedChoices } from "../outlets.ts";
import { dateParameter } from "../queries.ts";
import { briefOf, type FitBrief, stayFit } from "../stay-fit.ts";
import { storedRecord } from "../stored.ts";
import type { Effect, WriteAnswer, Writing } from "../writing.ts";

const PLACED = "Placed";

const planRoute = readRoute(
  {
    path: "/assignment",
    operationId: "getAssignment",
    summary: "The plan: which stay stands where",
    description: "Every stay that has a site. The ETag is what accepting a plan wants as If-Match.",
    parameters: [query("from", "Stays with a night at or after this date.", { type: "string", format: "date" })],
    answer: "Plan",
  },
  ({ host, campground }, { url }) => {
    const version = planVersion(host.ledger, campground);
    const places = listPlaced(host.ledger, campground, dateParameter(url, "from")).map(
      ({ id, arrival, departure, place }) => ({ stay: id, arrival, departure, ...place }),
    );
    return { body: { planVersion: version, places }, tag: planTag(version) };
  },
);

const moveRoute = writeRoute(
  {
    method: "POST",
    path: "/assignment/move",
    operationId: "moveStays",
    scope: "stays",
    summary: "Give stays a site, or move them",
    description:
      "All moves or none; two stays may change places. Refused (409) when a stay is not where you have seen it, is locked, or the site or a shared outlet is taken or closed on one of its nights. The answer tells how each rig fits where it stands now; a fit that says no does not stop the host.",
    body: {
      description: "The moves.",
      content: jsonContent("MovesRequest"),
      most: "hostBodyBytes",
      base: "/moves",
    },
    answer: PLACED,
  },
  async (writing) => {
    const { moves } = read(writing, movesRequestSchema);
    refuseTwice(
      moves.map(({ stay }) => stay),
      "/moves",
    );
    const stored = await storedRecord(writing.host, writing.campground);
    refuseUnknown(
      stored,
      moves.map(({ to, outlets }) => ({ site: to, outlets })),
      "/moves",
      "/to",
    );
    const judged = moves.map(({ stay, to }) => judge(writing, stored, stay, to));
    return () => {
      const moved = moveStays(
        writing.ledger,
        writing.act,
        moves.map(({ stay, from, to, lock, outlets, hold }, index) => ({
          stay,
          hold: hold ?? null,
          from,
          to,
          lock: lock ?? false,
          outlets: outlets ?? judged[index]?.choices ?? [],
        })),
      );
      return placed(
        writing,
        moved,
        judged.map(({ brief }) => brief),
      );
    };
  },
);

const releaseRoute = writeRoute(
  {
    method: "POST",
    path: "/assignment/release",
    operationId: "releaseStays",
    scope: "stays",
    summary: "Take the site from stays",
    description: "All or none. Refused (409) when one is not where you have seen it, or is locked.",
    body: { description: "The stays.", content: jsonContent("ReleaseRequest"), most: "hostBodyBytes", base: "/stays" },
    answer: PLACED,
  },
  (writing) => {
    const { stays } = read(writing, releaseRequestSchema);
    refuseTwice(
      stays.map(({ stay }) => stay),
      "/stays",
    );
    return () => {
      const moves = stays.map(({ stay, from }) => ({ stay, from, to: null, outlets: [], lock: false, hold: null }));
      return placed(writing, moveStays(writing.ledger, writing.act, moves), []);
    };
  },
);

const lockRoute = (word: "lock" | "unlock", summary: string, description: string): Route =>
  writeRoute(
    {
      method: "POST",
      path: `/assignment/${word}`,
      operationId: `${word}Stays`,
      scope: "stays",
      summary,
      description,
      body: { description: "The stays.", content: jsonContent("LockRequest"), most: "hostBodyBytes", base: "/stays" },
      answer: PLACED,
    },
    (writing) => {
      const { stays } = read(writing, lockRequestSchema);
      refuseTwice(stays, "/stays");
      return () => placed(writing, lockStays(writing.ledger, writing.act, stays, word === "lock"), []);
    },
  );

const acceptRoute = writeRoute(
  {
    method: "POST",
    path: "/assignment/accept",
    operationId: "acceptPlan",
    scope: "stays",
    summary: "Accept a plan",
    description:
      "Every stay of the plan gets its site, all or none; stays that it does not name stay where they are. Of two plans that were made from the same plan one is accepted, the other is stale (412). Locked stays and guests in house are never moved by a plan (409).",
    matched: true,
    body: {
      description: "The plan.",
      content: jsonContent("AcceptRequest"),
      most: "importBodyBytes",
      base: "/entries",
    },
    answer: PLACED,
  },
  async (writing): Promise<Effect> => {
    const { entries, about } = read(writing, acceptRequestSchema);
    refuseTwice(
      entries.map(({ stay }) => stay),
      "/entries",
    );
    const stored = await storedRecord(writing.host, writing.campground);
    refuseUnknown(stored, entries, "/entries", "/site");
    return () => {
      const seen = planVersion(writing.ledger, writing.campground);
      requireMatch(writing.call.request, planTag(seen));
      const lines = entries.map(({ stay, site, outlets }) => ({ stay, site, outlets: outlets ?? [] }));
      const { moved } = acceptPlan(writing.ledger, writing.act, seen, lines, about ?? {});
      return placed(writing, moved, []);
    };
  },
);

export const planTag = (version: number): string => `"plan-${version}"`;

function placed(writing: Writing, stays: readonly Stay[], briefs: readonly (FitBrief | null)[]): WriteAnswer {
  const version = planVersion(writing.ledger, writing.campground);
  const told = stays.map(({ id, version, place }, index) => ({ id, version, place, fit: briefs[index] ?? null }));
  return { status: 200, body: { planVersion: version, stays: told }, headers: { ETag: planTag(version) } };
}

function read<T extends z.ZodType>(writing: Writing, schema: T): z.output<T> {
  const checked = check(schema, parseJsonText(writing.text, writing.call.limits.jsonDepth));
  if (checked.ok) return checked.value;
  throw new Problem("invalid-request", "The request cannot be used as it stands.", checked.errors);
}

function refuseTwice(stays: readonly string[], base: string): void {
  const errors: ProblemError[] = stays.flatMap((stay, index) =>
    stays.indexOf(stay) === index
      ? []
      : [{ pointer: `${base}/${index}`, code: "duplicate", message: `The stay ${stay} is named twice.` }],
  );
  if (errors.length > 0) throw new Problem("invalid-request", "A stay is named twice.", errors);
}

/** Sites and outlets are those of the record. */
function refuseUnknown(
  stored: StoredCampground,
  wishes: readonly { readonly site: string | null; readonly outlets?: readonly string[] | undefined }[],
  base: string,
  member: string,
): void {
  const errors: ProblemError[] = [];
  const known = wishes.some(({ outlets }) => (outlets ?? []).length > 0)
    ? new Map(outletsOf(stored).map((outlet) => [outlet.id, outlet.sites]))
    : new Map<string, readonly string[]>();
  wishes.forEach(({ site, outlets }, index) => {
    if (site === null) return;
    if (siteOf(stored, site) === null) {
      const message = `There is no site ${site}.`;
      errors.push({ pointer: `${base}/${index}${member}`, code: "absent", message });
      return;
    }
    (outlets ?? []).forEach((outlet, at) => {
      if (known.get(outlet)?.includes(site) === true) return;
      const message = `Site ${site} has no outlet ${outlet}.`;
      errors.push({ pointer: `${base}/${index}/outlets/${at}`, code: "absent", message });
    });
  });
  if (errors.length > 0) throw new Problem("invalid-request", errors[0]?.message ?? "", errors);
}

interface Judged {
  readonly brief: FitBrief | null;
  /** What the stay holds when the host does not say. */
  readonly choices: readonly (readonly string[])[];
}

const UNJUDGED: Judged = { brief: null, choices: [] };

/** How a stay's rig fits a site; kept, because the same stay is often tried on the same few sites. */
function judge({ call, ledger, campground }: Writing, stored: StoredCampground, id: string, site: string): Judged {
  const stay = readStay(ledger, campground, id);
  if (stay === null) return UNJUDGED;
  const { rig, needs, kitPolicy } = stay.asks;
  const key = `move ${stored.summary.version} ${JSON.stringify([site, rig, needs, kitPolicy])}`;
  const known = call.memory.get(key) as Judged | undefined;
  if (known !== undefined) return known;
  try {
    const fit = stayFit(stored, stay, site);
    const judged = { brief: briefOf(fit), choices: fit === null ? [] : sharedChoices(stored, site, fit) };
    call.memory.set(key, judged);
    return judged;
  } catch (fault) {
    // A rig that breaks the engine must not keep a guest from a site; the fault is logged.
    call.report(fault);
    return UNJUDGED;
  }
}

export const ASSIGNMENT_ROUTES: readonly Route[] = [
  planRoute,
  moveRoute,
  releaseRoute,
  lockRoute("lock", "Promise stays their sites", "A locked stay is moved by nobody until it is unlocked."),
  lockRoute("unlock", "Take such promises back", "The stays stay where they are."),
  acceptRoute,
];
