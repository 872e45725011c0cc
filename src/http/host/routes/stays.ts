/** Stays: listed, entered, changed, removed. */
import { createStay, listStays, readStay, removeStay, type Stay, updateStay } from "../../../ledger/stays.ts";
import { parseJsonText } from "../../body.ts";
import { pageSize } from "../../parameters.ts";
import { Problem } from "../../problem.ts";
import type { Route } from "../../route.ts";
import { jsonContent, part, query, readRoute, writeRoute } from "../describe.ts";
import { sha256 } from "../local-tokens.ts";
import { requireMatch } from "../matching.ts";
import { MERGE_PATCH_TYPE, mergePatch } from "../merge-patch.ts";
import { readPlace, writePlace } from "../pages.ts";
import { dateParameter } from "../queries.ts";
import { readStayEntry, stayAnswer, stayTag, wireOf } from "../stay-input.ts";
import type { WriteAnswer, Writing } from "../writing.ts";

const STAY = part("stay", "Id of the stay.");
const PATH = "/stays/{stay}";

const listRoute = readRoute(
  {
    path: "/stays",
    operationId: "listStays",
    summary: "Stays in the order of arrival",
    description: "Cancelled ones too. Narrow it to stays with a night in a span by `from` and `until`.",
    parameters: [
      query("from", "Stays with a night at or after this date.", { type: "string", format: "date" }),
      query("until", "Stays with a night before this date.", { type: "string", format: "date" }),
      query("limit", "Largest number of stays in this page.", { type: "integer", minimum: 1, default: 20 }),
      query("cursor", "The nextCursor of the page before."),
    ],
    answer: "StayList",
  },
  async ({ host, campground }, { url, limits }) => {
    const most = pageSize(url, limits);
    const cursor = url.searchParams.get("cursor");
    const [arrival, id] = cursor === null ? [] : (readPlace("cursor", cursor, ["string", "string"]) as string[]);
    const found = listStays(host.ledger, campground, {
      from: dateParameter(url, "from"),
      until: dateParameter(url, "until"),
      after: arrival === undefined || id === undefined ? null : { arrival, id },
      most: most + 1,
    });
    const page = found.slice(0, most);
    const last = page.at(-1);
    const nextCursor = found.length > most && last !== undefined ? writePlace([last.arrival, last.id]) : null;
    const body = { stays: page.map(stayAnswer), nextCursor };
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const getRoute = readRoute(
  {
    path: PATH,
    operationId: "getStay",
    summary: "One stay",
    description: "What was entered and where it stands. Its ETag is what a change wants as If-Match.",
    parameters: [STAY],
    answer: "Stay",
  },
  ({ host, campground }, { params }) => {
    const stay = readStay(host.ledger, campground, params["stay"] ?? "");
    if (stay === null) throw absentStay();
    return { body: stayAnswer(stay), tag: stayTag(stay) };
  },
);

const createRoute = writeRoute(
  {
    method: "POST",
    path: "/stays",
    operationId: "createStay",
    scope: "stays",
    summary: "Enter a stay",
    description: "It has no site yet. Dates are local to the campground; the night of the departure is not theirs.",
    body: { description: "The stay.", content: jsonContent("StayRequest"), most: "hostBodyBytes" },
    status: 201,
    answer: "Stay",
  },
  (writing) => {
    const { id, entry } = stayOf(parseJsonText(writing.text, writing.call.limits.jsonDepth));
    const fresh = id ?? writing.call.newId();
    return () => {
      const stay = createStay(writing.ledger, writing.act, fresh, entry);
      const address = `${writing.call.url.pathname}/${encodeURIComponent(fresh)}`;
      return { ...answer(stay, 201), headers: { ETag: stayTag(stay), Location: address } };
    };
  },
);

const CHANGE = {
  scope: "stays",
  description:
    "A stay that has a site keeps it for its new nights; when somebody else has one of them the change is refused (409). A stay that is cancelled gives its site back.",
  parameters: [STAY],
  matched: true,
  answer: "Stay",
} as const;

const putRoute = writeRoute(
  {
    ...CHANGE,
    method: "PUT",
    path: PATH,
    operationId: "putStay",
    summary: "Replace what was entered of a stay",
    body: { description: "The whole stay.", content: jsonContent("StayRequest"), most: "hostBodyBytes" },
  },
  (writing) => {
    const value = parseJsonText(writing.text, writing.call.limits.jsonDepth);
    return () => changed(writing, presentStay(writing), value);
  },
);

const patchRoute = writeRoute(
  {
    ...CHANGE,
    method: "PATCH",
    path: PATH,
    operationId: "patchStay",
    summary: "Change some of what was entered of a stay",
    body: {
      description: "A merge patch (RFC 7396): members that change; null removes one.",
      content: { [MERGE_PATCH_TYPE]: { schema: { type: "object" } } },
      most: "hostBodyBytes",
    },
  },
  (writing) => {
    const patch = parseJsonText(writing.text, writing.call.limits.jsonDepth);
    return () => {
      const before = presentStay(writing);
      return changed(writing, before, mergePatch(wireOf(before), patch));
    };
  },
);

const deleteRoute = writeRoute(
  {
    method: "DELETE",
    path: PATH,
    operationId: "deleteStay",
    scope: "stays",
    summary: "Remove a stay with all that is known of its guests",
    description: "Its site is free again. To keep the stay, set its status to cancelled instead.",
    parameters: [STAY],
    matched: true,
    answer: "Removed",
  },
  (writing) => () => {
    const stay = presentStay(writing);
    removeStay(writing.ledger, writing.act, stay);
    return { status: 200, body: { removed: stay.id } };
  },
);

function changed(writing: Writing, before: Stay, value: unknown): WriteAnswer {
  const { id, entry } = stayOf(value);
  if (id !== null && id !== before.id) {
    throw new Problem("invalid-request", "The id of a stay does not change.", [
      { pointer: "/id", code: "conflict", message: "Another id than that of the address.", expected: before.id },
    ]);
  }
  return answer(updateStay(writing.ledger, writing.act, before, entry), 200);
}

/** The stay of the address, when it is the one that the caller has seen. */
function presentStay({ ledger, campground, call }: Writing): Stay {
  const stay = readStay(ledger, campground, call.params["stay"] ?? "");
  if (stay === null) throw absentStay();
  requireMatch(call.request, stayTag(stay));
  return stay;
}

const absentStay = (): Problem => new Problem("not-found", "There is no stay of this id.");

const answer = (stay: Stay, status: number): WriteAnswer => ({
  status,
  body: stayAnswer(stay),
  headers: { ETag: stayTag(stay) },
});

function stayOf(value: unknown) {
  const read = readStayEntry(value);
  if (read.ok) return read;
  throw new Problem("invalid-request", "The stay cannot be used as it stands.", read.errors);
}

export const STAY_ROUTES: readonly Route[] = [listRoute, createRoute, getRoute, putRoute, patchRoute, deleteRoute];
