/** Query parameters: known ones, once each, short. */
import { nearest } from "../units/nearest.ts";
import type { Limits } from "./limits.ts";
import { Problem, type ProblemError } from "./problem.ts";

/** Throws when the query holds anything but the named parameters, or one of them twice. */
export function refuseParameters(url: URL, known: readonly string[], longest: number = LONGEST): void {
  const errors: ProblemError[] = [];
  const seen = new Set<string>();
  for (const [name, value] of url.searchParams) {
    const parameter = name.slice(0, LONGEST_NAME);
    if (!known.includes(name)) {
      const near = nearest(name, known);
      const hint = near === null ? "" : ` Did you mean "${near}"?`;
      const expected = known.length === 0 ? "no parameters" : known.join(", ");
      errors.push({ parameter, code: "unknown-parameter", message: `This parameter is not known.${hint}`, expected });
    } else if (seen.has(name)) {
      errors.push({ parameter, code: "repeated-parameter", message: "This parameter is given twice." });
    } else if (value.length > longest) {
      errors.push({
        parameter,
        code: "too-long",
        message: "This value is too long.",
        expected: `at most ${longest} characters`,
      });
    }
    seen.add(name);
  }
  if (errors.length > 0)
    throw new Problem("invalid-parameter", "The query holds parameters that are not accepted.", errors);
}

/** The page size asked for; more than the largest page is lowered to it, as trip tools expect. */
export function pageSize(url: URL, limits: Limits): number {
  const text = url.searchParams.get("limit");
  if (text === null) return limits.pageSizeDefault;
  const value = Number(text);
  if (!/^\d{1,9}$/.test(text) || value < 1) {
    throw new Problem("invalid-parameter", "The limit is not a whole number of at least 1.", [
      {
        parameter: "limit",
        code: "out-of-range",
        message: "A whole number is wanted.",
        expected: `1 to ${limits.pageSize}`,
      },
    ]);
  }
  return Math.min(value, limits.pageSize);
}

const LONGEST = 512;
const LONGEST_NAME = 60;
