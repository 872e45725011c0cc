/** What can go wrong with a call, as exceptions with a type. */
import type { components } from "../../dist/client/api.d.ts";

export type ProblemDetails = components["schemas"]["Problem"];
export type ProblemCode = ProblemDetails["code"];

/** The service refused the request, or broke. */
export class PadwrightProblem extends Error {
  override readonly name = "PadwrightProblem";
  readonly status: number;
  /** Null when something between here and the service answered, and not the service. */
  readonly code: ProblemCode | null;
  /** Every fault that was found, with its place in the request. */
  readonly errors: ProblemDetails["errors"];
  /** Names the request in the service's log. */
  readonly requestId: string | null;
  /** Seconds after which to try again, where the service says so. */
  readonly retryAfter: number | null;
  readonly problem: ProblemDetails | null;

  constructor(response: Response, problem: ProblemDetails | null) {
    super(problem === null ? `The answer has status ${response.status}.` : `${problem.title}: ${problem.detail}`);
    this.status = response.status;
    this.code = problem?.code ?? null;
    this.errors = problem?.errors ?? [];
    this.requestId = response.headers.get("request-id");
    this.retryAfter = retryAfter(response.headers, Date.now());
    this.problem = problem;
  }
}

/** No answer came, or one that broke off. `cause` says why where that is known. */
export class PadwrightUnreachable extends Error {
  override readonly name = "PadwrightUnreachable";
}

const MILLISECONDS = 1000;

/** Seconds of Retry-After, which is a number or a date (RFC 9110 section 10.2.3, from memory). */
export function retryAfter(headers: Headers, now: number): number | null {
  const text = headers.get("retry-after");
  if (text === null) return null;
  if (/^\d+$/.test(text)) return Number(text);
  const time = Date.parse(text);
  return Number.isNaN(time) ? null : Math.max(0, Math.ceil((time - now) / MILLISECONDS));
}

/** The problem of an answer that is none of success; the answer's own body is left to be read. */
export async function problemOf(response: Response): Promise<PadwrightProblem> {
  const isProblem = response.headers.get("content-type")?.startsWith("application/problem+json") ?? false;
  const body = isProblem
    ? await response
        .clone()
        .json()
        .catch(() => null)
    : null;
  return new PadwrightProblem(response, body as ProblemDetails | null);
}
