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
  const parts = await readParts(asked.campground, store, errors);
  return parts === null || errors.length > 0 ? null : { asked, parts, stays };
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
): Promise<CampgroundParts | null> {
  if (typeof campground === "string") {
    const stored = await store.get(campground);
    if (stored === null) {
      const message = "There is no campground of this id.";
      errors.push({ pointer: "/campground", code: "not-found", message, expected: "an id from /v1/campgrounds" });
      return null;
    }
    return { campground: stored.campground, features: stored.features, around: aroundOf(stored) };
  }
  const reading = readCampground(campground);
  errors.push(
    ...reading.report.refused.map(({ path, code, message, expected }) => ({
      pointer: shortPointer(`/campground${path}`),
      code,
      message,
      expected,
    })),
  );
  if (reading.campground === null || errors.length > 0) return null;
  const around = compileAround(reading.features, reading.campground.patterns);
  return { campground: reading.campground, features: reading.features, around };
}
