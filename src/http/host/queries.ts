/** Query parameters of host routes that are dates or switches. */
import { nightOfDate } from "../../assign/nights.ts";
import { Problem } from "../problem.ts";

/** A date, or null when the parameter is not there. */
export function dateParameter(url: URL, parameter: string): string | null {
  const value = url.searchParams.get(parameter);
  if (value === null || nightOfDate(value) !== null) return value;
  throw badParameter(parameter, "a date such as 2027-06-01");
}

/** True when the parameter is `true`; false when it is `false` or not there. */
export function switchParameter(url: URL, parameter: string): boolean {
  return wordParameter(url, parameter, ["false", "true"]) === "true";
}

/** One of the words; the first when the parameter is not there. */
export function wordParameter<T extends string>(url: URL, parameter: string, words: readonly [T, ...T[]]): T {
  const value = url.searchParams.get(parameter) ?? words[0];
  const word = words.find((one) => one === value);
  if (word === undefined) throw badParameter(parameter, words.join(" or "));
  return word;
}

function badParameter(parameter: string, expected: string): Problem {
  return new Problem("invalid-parameter", "A query parameter is not accepted.", [
    { parameter, code: "bad-form", message: "This value is not accepted.", expected },
  ]);
}
