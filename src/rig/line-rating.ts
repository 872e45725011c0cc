/** The rating of a line: amperes of a cord or pascals of a hose. */
import * as z from "zod";
import { readQuantity } from "../units/schema.ts";

export interface LineRating {
  /** Amperes, pascals, or the bare number of a caller who gave no unit. */
  readonly value: number;
  /** Null for a bare number: the service of the connection decides. */
  readonly dimension: "current" | "pressure" | null;
}

const EXPECTED = 'amperes of a cord or pressure of a hose, for instance "30 A" or "125 psi"';
const MESSAGE = 'A rating is amperes of a cord or the pressure of a hose: write "30 A" or "125 psi".';

/** Reads a rating, or gives the sentence that says what is wrong with it. */
export function readLineRating(input: unknown): LineRating | { readonly message: string } {
  if (typeof input === "number") {
    return Number.isFinite(input) && input > 0 ? { value: input, dimension: null } : { message: MESSAGE };
  }
  const asCurrent = readQuantity("current", input, { positive: true });
  if ("value" in asCurrent) return { value: asCurrent.value, dimension: "current" };
  const asPressure = readQuantity("pressure", input, { positive: true });
  if ("value" in asPressure) return { value: asPressure.value, dimension: "pressure" };
  const wrongKind =
    asCurrent.code === "wrong-dimension" || asCurrent.code === "unknown-unit" || asCurrent.code === "no-unit";
  return { message: wrongKind ? MESSAGE : asCurrent.message };
}

/** The rating on the wire; a bare number is amperes for a power cord and pascals for a hose. */
export const lineRating = z
  .union([z.number().meta({ exclusiveMinimum: 0 }), z.string()], { error: MESSAGE })
  .meta({
    description: "Rating of the line: amperes of a cord, pressure of a hose. A bare number is amperes or pascals.",
    examples: ["30 A", "125 psi"],
  })
  .transform((input, context): LineRating => {
    const read = readLineRating(input);
    if ("value" in read) return read;
    context.addIssue({ code: "custom", message: read.message, params: { fault: "unreadable", expected: EXPECTED } });
    return z.NEVER;
  })
  .pipe(z.object({ value: z.number(), dimension: z.enum(["current", "pressure"]).nullable() }));
