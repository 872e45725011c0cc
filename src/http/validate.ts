/** Checks a value against a zod schema; every fault becomes an error of a problem. */
import type * as z from "zod";
import { type InputError, toInputErrors } from "../units/input-error.ts";
import type { ProblemError } from "./problem.ts";

export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly errors: readonly ProblemError[] };

/** @param prefix JSON Pointer of `value` in the body. */
export function check<T extends z.ZodType>(schema: T, value: unknown, prefix = ""): Checked<z.output<T>> {
  const parsed = schema.safeParse(value);
  if (parsed.success) return { ok: true, value: parsed.data };
  return { ok: false, errors: toInputErrors(schema, parsed.error, value).map((error) => inputProblem(error, prefix)) };
}

/** An input error of a room as an error of a problem, with its pointer from the root of the body. */
export function inputProblem(error: InputError, prefix: string): ProblemError {
  return {
    pointer: shortPointer(prefix + error.path),
    code: error.code,
    message: error.message,
    expected: error.expected,
    got: error.got,
  };
}

const LONGEST_POINTER = 300;

/** A pointer that ends in a very long unknown key is cut, so that no big input is repeated. */
export function shortPointer(pointer: string): string {
  return pointer.length > LONGEST_POINTER ? `${pointer.slice(0, LONGEST_POINTER)}…` : pointer;
}
