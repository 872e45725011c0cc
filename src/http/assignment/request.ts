/** The body of a stateless assignment, read whole: every fault at once, each with its place. */
import { nightOfDate } from "../../assign/nights.ts";
import { readCampground } from "../../records/geojson.ts";
import { aroundOf, type CampgroundStore } from "../../records/store.ts";
import { parseRig } from "../../rig/parse.ts";
import { compileAround } from "../../site/complete.ts";
import type { ProblemError } from "../problem.ts";
import { type AssignmentRequest, assignmentRequestSchema } from "../schemas/assignment.ts";
import { check, inputProblem, shortPointer } from "../validate.ts";
import type { CampgroundParts, ReadStay } from "./read.ts";

export interface ReadRequest {
  readonly asked: AssignmentRequest;
  readonly parts: CampgroundParts;
  readonly stays: readonly ReadStay[];
  /** Records that could not be read: nobody is given such a site, and the answer names it. */
  readonly refused?: readonly RefusedRecord[];
}

export interface RefusedRecord {
  readonly site: string | null;
  readonly faults: readonly string[];
}

const LONGEST_STAY = 366;

/** Null when `errors` has grown. */
export async function readAssignmentRequest(
  body: unknown,
  store: CampgroundStore,
  errors: ProblemError[],
): Promise<ReadRequest | null> {
  const checked = check(assignmentRequestSchema, body);
  if (!checked.ok) {
    errors.push(...checked.errors);
    return null;
  }
  const asked = checked.value;
  const stays = readStays(asked, errors);
  const read = await readParts(asked.campground, store, errors);
  return read === null || errors.length > 0 ? null : { asked, stays, ...read };
}

function readStays(asked: AssignmentRequest, errors: ProblemError[]): ReadStay[] {
  const seen = new Map<string, number>();
  return asked.stays.flatMap((wire, index) => {
    const base = `/stays/${index}`;
    const before = seen.get(wire.id);
    if (before !== undefined) {
      const message = `The stay ${wire.id} is there twice, first at /stays/${before}.`;
      errors.push({ pointer: `${base}/id`, code: "duplicate", message, expected: "each id once" });
    }
    seen.set(wire.id, index);
    const nights = nightOfDate(wire.departure)! - nightOfDate(wire.arrival)!;
    if (nights < 1 || nights > LONGEST_STAY) {
      const message = nights < 1 ? "The departure is not after the arrival." : "This is longer than a year.";
      const expected = `1 to ${LONGEST_STAY} nights after the arrival`;
      errors.push({ pointer: `${base}/departure`, code: "impossible", message, expected });
    }
    const rig = parseRig(wire.rig);
    if (rig.ok) return [{ wire, rig: rig.rig }];
    errors.push(...rig.errors.map((error) => inputProblem(error, `${base}/rig`)));
    return [];
  });
}

async function readParts(
  campground: unknown,
  store: CampgroundStore,
  errors: ProblemError[],
): Promise<Pick<ReadRequest, "parts" | "refused"> | null> {
  if (typeof campground === "string") {
    const stored = await store.get(campground);
    if (stored === null) {
      const message = "There is no campground of this id.";
      errors.push({ pointer: "/campground", code: "not-found", message, expected: "an id from /v1/campgrounds" });
      return null;
    }
    const refused = stored.brokenSites.map(({ id, faults }) => ({
      site: id,
      faults: faults.map(({ message }) => message),
    }));
    return { parts: { campground: stored.campground, features: stored.features, around: aroundOf(stored) }, refused };
  }
  const reading = readCampground(campground);
  const { refused } = reading.report;
  if (reading.campground === null) {
    errors.push(
      ...refused.map(({ path, code, message, expected }) => ({
        pointer: shortPointer(`/campground${path}`),
        code,
        message,
        expected,
      })),
    );
    return null;
  }
  const around = compileAround(reading.features, reading.campground.patterns);
  const ids = [...new Set(refused.map(({ id }) => id))];
  return {
    parts: { campground: reading.campground, features: reading.features, around },
    refused: ids.map((id) => ({
      site: id,
      faults: refused
        .filter((fault) => fault.id === id)
        .map(({ path, message }) => `${shortPointer(path)}: ${message}`),
    })),
  };
}
