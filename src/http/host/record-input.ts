/** A campground record as a host sends it: read as strictly as one can, and taken apart for the ledger. */
import type { RecordFeature, RecordParts } from "../../ledger/records.ts";
import { readCampground } from "../../records/geojson.ts";
import { isSite, readStored, type StoredCampground } from "../../records/store.ts";
import { featureId } from "../../site/feature.ts";
import { Problem, type ProblemError } from "../problem.ts";
import { shortPointer } from "../validate.ts";

export interface ReadRecord {
  readonly stored: StoredCampground;
  readonly parts: RecordParts;
  readonly warnings: readonly { readonly code: string; readonly path: string; readonly text: string }[];
}

/**
 * Reads a document that is to become a record. Nothing of it may be refused: what a store leaves out when it reads a
 * file, a host has to put right before it is kept. Throws a problem that lists every fault.
 *
 * @param toBody From a pointer in the document to the pointer in the body.
 */
export async function readRecordDocument(
  document: unknown,
  campground: string,
  toBody: (path: string) => string = (path) => path,
): Promise<ReadRecord> {
  const reading = readCampground(document);
  const errors: ProblemError[] = reading.report.refused.map(({ path, code, message, expected }) => ({
    pointer: shortPointer(toBody(path)),
    code,
    message,
    expected,
  }));
  if (reading.campground !== null && reading.campground.id !== campground) {
    const message = "The id is not that of the address.";
    errors.push({ pointer: "/campground/id", code: "conflict", message, expected: campground });
  }
  if (reading.document !== null) errors.push(...idErrors(reading.features, toBody));
  if (errors.length > 0 || reading.document === null) {
    throw new Problem("invalid-record", errors[0]?.message ?? "The record cannot be read.", errors);
  }
  const stored = await readStored(reading.document);
  if (typeof stored === "string") throw new Problem("invalid-record", stored);
  return { stored, parts: recordParts(stored), warnings: reading.report.warnings };
}

/** A site without an id cannot be named by a stay, and two of one id cannot be told apart. */
function idErrors(features: StoredCampground["features"], toBody: (path: string) => string): ProblemError[] {
  const errors: ProblemError[] = [];
  const seen = new Map<string, number>();
  features.forEach((feature, index) => {
    if (!isSite(feature)) return;
    const id = featureId(feature);
    const pointer = toBody(`/features/${index}/id`);
    if (id === null || id === "") {
      errors.push({
        pointer,
        code: "missing",
        message: "A site that is kept has an id.",
        expected: "an id of its own",
      });
    } else if (seen.has(id)) {
      const message = `Feature ${seen.get(id)} is the site ${id} already.`;
      errors.push({ pointer, code: "duplicate-id", message, expected: "an id of its own for each site" });
    } else seen.set(id, index);
  });
  return errors;
}

export function recordParts(stored: StoredCampground): RecordParts {
  const { features: _features, ...head } = stored.document;
  const features = stored.features.map(
    (feature): RecordFeature => ({
      site: isSite(feature) ? featureId(feature) : null,
      body: JSON.stringify(feature),
    }),
  );
  return { head, features };
}
