/** The rig of a request: read, with every fault under /rig. */
import { parseRig } from "../rig/parse.ts";
import type { RigProfile } from "../rig/schema.ts";
import type { Warning } from "../units/estimate.ts";
import type { ProblemError } from "./problem.ts";
import { inputProblem } from "./validate.ts";

export interface ReadRig {
  readonly profile: RigProfile;
  readonly warnings: readonly Warning[];
}

/** Adds the rig's faults to `errors`; null when it has any or is missing (the envelope tells of a missing one). */
export function readRig(body: unknown, errors: ProblemError[]): ReadRig | null {
  if (typeof body !== "object" || body === null || !("rig" in body)) return null;
  const read = parseRig(body.rig);
  if (read.ok) return { profile: read.rig, warnings: read.warnings };
  errors.push(...read.errors.map((error) => inputProblem(error, "/rig")));
  return null;
}
