/** Campground records as hosts write them: the whole collection, or one site of it. */
import { listVersions, readRecord, recordVersion, writeRecord } from "../../../ledger/records.ts";
import { currentStays } from "../../../ledger/stays.ts";
import type { StoredCampground } from "../../../records/store.ts";
import { parseJsonText } from "../../body.ts";
import { pageSize } from "../../parameters.ts";
import { Problem } from "../../problem.ts";
import { type Call, type Route, schemaRef } from "../../route.ts";
import { part, query, readRoute, writeRoute } from "../describe.ts";
import { documentTag } from "../ledger-store.ts";
import { sha256 } from "../local-tokens.ts";
import { requireMatch, requireNew, wantsNew } from "../matching.ts";
import { MERGE_PATCH_TYPE, mergePatch } from "../merge-patch.ts";
import { readPlace, writePlace } from "../pages.ts";
import { switchParameter } from "../queries.ts";
import { fitChanges } from "../record-difference.ts";
import { readRecordDocument } from "../record-input.ts";
import { keptRecord } from "../stored.ts";
import { todayAt } from "../today.ts";
import { type Effect, JSON_TYPE, MadeReadyTooEarly, type Writing } from "../writing.ts";

export const GEOJSON_TYPE = "application/geo+json";
export const PREVIEW = query("preview", "True to get the answer and write nothing.", {
  type: "boolean",
  default: false,
});
export const RECORD_ANSWER = "RecordWritten";
const DESCRIPTION =
  "The record must be whole: whatever a reader would leave out is refused here, every fault at once. The answer tells which sites change and for which stays with a site the verdict changes, before and after; with `preview` nothing is written. A site on which somebody stands today or later cannot go (409).";

const putRoute = writeRoute(
  {
    method: "PUT",
    path: "",
    operationId: "putCampground",
    scope: "records",
    summary: "Write a campground's record",
    description: `${DESCRIPTION} For a campground that is not there yet send If-None-Match: *.`,
    parameters: [PREVIEW],
    matched: true,
    mayBeNew: true,
    body: {
      description: "The whole collection.",
      content: {
        [GEOJSON_TYPE]: { schema: schemaRef("Campground") },
        [JSON_TYPE]: { schema: schemaRef("Campground") },
      },
      most: "importBodyBytes",
    },
    problems: ["invalid-record"],
    answer: RECORD_ANSWER,
  },
  async (writing) => {
    const { call, campground, host } = writing;
    const document: unknown = parseJsonText(writing.text, call.limits.jsonDepth);
    const kept = await host.records.kept(campground);
    if (kept === null) requireNew(call.request);
    else requirePresent(call.request, kept.tag);
    return recordEffect(writing, kept, document);
  },
);

const patchRoute = writeRoute(
  {
    method: "PATCH",
    path: "",
    operationId: "patchCampground",
    scope: "records",
    summary: "Change some members of a campground's record",
    description: `${DESCRIPTION} A list in the patch, \`features\` too, takes the place of the whole list: one site has an address of its own.`,
    parameters: [PREVIEW],
    matched: true,
    body: {
      description: "A merge patch (RFC 7396) of the collection.",
      content: { [MERGE_PATCH_TYPE]: { schema: { type: "object" } } },
      most: "importBodyBytes",
    },
    problems: ["invalid-record"],
    answer: RECORD_ANSWER,
  },
  async (writing) => {
    const { call, campground, host } = writing;
    const patch = parseJsonText(writing.text, call.limits.jsonDepth);
    const kept = await keptRecord(host, campground);
    requireMatch(call.request, kept.tag);
    return recordEffect(writing, kept, mergePatch(kept.stored.document, patch));
  },
);

const versionsRoute = readRoute(
  {
    path: "/versions",
    operationId: "listVersions",
    summary: "Versions of the record, newest first",
    description: "Who wrote which version when.",
    parameters: [
      query("limit", "Largest number of versions in this page.", { type: "integer", minimum: 1, default: 20 }),
      query("cursor", "The nextCursor of the page before."),
    ],
    answer: "VersionList",
  },
  async ({ host, campground }, { url, limits }) => {
    const most = pageSize(url, limits);
    const cursor = url.searchParams.get("cursor");
    const [below] = cursor === null ? [Number.MAX_SAFE_INTEGER] : readPlace("cursor", cursor, ["number"]);
    const found = listVersions(host.ledger, campground, below as number, most + 1);
    const versions = found.slice(0, most);
    const last = versions.at(-1);
    const nextCursor = found.length > most && last !== undefined ? writePlace([last.version]) : null;
    const body = { versions, nextCursor };
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const versionRoute = readRoute(
  {
    path: "/versions/{version}",
    operationId: "getVersion",
    summary: "One version of the record",
    description: "The collection as it was.",
    parameters: [part("version", "Number of the version.")],
    answer: "Campground",
  },
  ({ host, campground }, { params }) => {
    const text = params["version"] ?? "";
    const record = /^\d{1,9}$/.test(text) ? readRecord(host.ledger, campground, Number(text)) : null;
    if (record === null) throw new Problem("not-found", "There is no version of this number.");
    return { body: record.document, tag: `"version-${record.version}"` };
  },
);

/** If-Match of a thing that is there; whoever says that it must not be has not seen it. */
export function requirePresent(request: Call["request"], tag: string): void {
  if (wantsNew(request)) {
    throw new Problem("precondition-failed", "It is there already.", [
      { header: "If-None-Match", code: "changed", message: "It is there already." },
    ]);
  }
  requireMatch(request, tag);
}

/**
 * Makes a new version ready: reads the document, compares the fits, and leaves the writing to the transaction.
 *
 * @param toBody From a pointer in the document to the pointer in the body.
 * @param headersOf Headers of the answer, for a write of a part of the record.
 */
export async function recordEffect(
  writing: Writing,
  kept: { readonly version: number; readonly stored: StoredCampground } | null,
  document: unknown,
  toBody: (path: string) => string = (path) => path,
  headersOf: (after: StoredCampground) => Promise<Readonly<Record<string, string>>> = async (after) => ({
    ETag: await documentTag(after),
  }),
): Promise<Effect> {
  const { ledger, campground, call } = writing;
  const { stored, parts, warnings } = await readRecordDocument(document, campground, toBody);
  const today = todayAt(ledger, kept?.stored ?? stored);
  const stays = kept === null ? [] : currentStays(ledger, campground, today);
  const fits = await fitChanges(call, stays, kept?.stored ?? null, stored);
  const headers = await headersOf(stored);
  const isPreview = switchParameter(call.url, "preview");
  return () => {
    const expected = kept?.version ?? null;
    if (recordVersion(ledger, campground) !== expected) throw new MadeReadyTooEarly();
    const { version, added, changed, removed } = writeRecord(ledger, writing.act, parts, expected, today);
    return {
      status: kept === null ? 201 : 200,
      body: { written: !isPreview, version, sites: { added, changed, removed }, fits, warnings },
      headers: isPreview ? {} : headers,
      isPreview,
    };
  };
}

export const RECORD_ROUTES: readonly Route[] = [putRoute, patchRoute, versionsRoute, versionRoute];
