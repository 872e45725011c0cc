/** From anything at all to a rig profile, or to every error in it at once. */
import type { Warning } from "../units/estimate.ts";
import { type InputError, toInputErrors } from "../units/input-error.ts";
import { implausibleValues } from "./plausible.ts";
import { brokenRules } from "./rules.ts";
import { type RigProfile, rigObject } from "./schema.ts";

export type RigResult =
  | { readonly ok: true; readonly rig: RigProfile; readonly warnings: readonly Warning[] }
  | { readonly ok: false; readonly errors: readonly InputError[] };

/** Errors on one record that are told; a record that is broken more often than this is not a rig record. */
const MOST_ERRORS = 100;

/**
 * Reads a rig record. Impossible values, unknown keys and contradictions between the short and the full form are
 * errors; unusual values are kept and asked about. Never throws, whatever the input.
 */
export function parseRig(input: unknown): RigResult {
  try {
    return readRig(input);
  } catch {
    // Only an object with code of its own (a getter or proxy that throws) leads here; JSON has none.
    const message = "This is not plain data: a rig record is a JSON object.";
    return { ok: false, errors: [{ path: "", code: "wrong-type", message, expected: "an object", got: typeof input }] };
  }
}

function readRig(input: unknown): RigResult {
  const parsed = rigObject.safeParse(input);
  const ruled = brokenRules(input);
  if (parsed.success && ruled.length === 0) {
    return { ok: true, rig: parsed.data, warnings: implausibleValues(input) };
  }
  const fields = parsed.success ? [] : toInputErrors(rigObject, parsed.error, input);
  const told = new Set(fields.map((error) => error.path));
  const errors = [...fields, ...ruled.filter((error) => !told.has(error.path))];
  return { ok: false, errors: errors.slice(0, MOST_ERRORS) };
}
