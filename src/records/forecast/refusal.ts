/** Why a forecast could not be had. Never carries an address with a key, nor text of a reply beyond a short piece. */
export type ForecastProblemCode =
  | "bad-place"
  | "no-provider"
  | "not-covered"
  | "timed-out"
  | "unreachable"
  | "circuit-open"
  | "rate-limited"
  | "refused-by-service"
  | "service-failing"
  | "redirected"
  | "too-large"
  | "not-json"
  | "unreadable"
  | "unknown-unit"
  | "implausible";

export class ForecastRefusal extends Error {
  override readonly name = "ForecastRefusal";
  readonly code: ForecastProblemCode;

  constructor(code: ForecastProblemCode, message: string) {
    super(message);
    this.code = code;
  }
}

const LONGEST_QUOTE = 120;

/** A foreign word made fit to stand in a sentence. */
export function quoted(text: string): string {
  const plain = text.replace(/[^\x20-\x7e]+/g, " ").slice(0, LONGEST_QUOTE);
  return JSON.stringify(plain);
}
