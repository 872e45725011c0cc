/**
 * Errors on the wire: RFC 9457 problem details, from one table. A problem never repeats a large input and never carries
 * a stack; what went wrong inside is logged under the request id that the problem gives.
 */

interface ProblemKind {
  readonly status: number;
  readonly title: string;
  /** One sentence for the reference page: when it arises and what to do. */
  readonly meaning: string;
}

export const PROBLEMS = {
  "malformed-json": {
    status: 400,
    title: "The body is not JSON",
    meaning: "The text breaks JSON's grammar. The error gives line and column.",
  },
  "refused-json": {
    status: 400,
    title: "The JSON is not accepted",
    meaning: "It is nested too deeply, gives a key twice in one object, or uses a key that reaches for a prototype.",
  },
  "malformed-xml": {
    status: 400,
    title: "The body is not XML that can be imported",
    meaning: "The text breaks XML's grammar, or declares entities or a document type, which are not read.",
  },
  "invalid-encoding": {
    status: 400,
    title: "The body is not UTF-8",
    meaning: "Send text as UTF-8 without invalid byte sequences.",
  },
  "empty-body": { status: 400, title: "The body is empty", meaning: "This route wants a body." },
  "invalid-parameter": {
    status: 400,
    title: "A query parameter is not accepted",
    meaning: "A parameter is unknown, given twice, or outside its range. Each error names it.",
  },
  "invalid-cursor": {
    status: 400,
    title: "The cursor is not one of ours",
    meaning: "Cursors are opaque: send back the one that the last page gave, with the same request.",
  },
  "idempotency-key-missing": {
    status: 400,
    title: "This write wants an Idempotency-Key",
    meaning: "Every write names a key of its own, so that it can be sent again when no answer came back.",
  },
  unauthorized: {
    status: 401,
    title: "The caller is not known",
    meaning: "Send a bearer token that is valid here. Tokens come from the command line or an identity provider.",
  },
  forbidden: {
    status: 403,
    title: "The token does not allow this",
    meaning: "It is valid for this campground and lacks the scope that the route wants.",
  },
  "not-found": { status: 404, title: "There is nothing at this address", meaning: "The detail says what is missing." },
  "method-not-allowed": {
    status: 405,
    title: "This address does not take this method",
    meaning: "The Allow header lists the methods that it takes.",
  },
  "not-acceptable": {
    status: 406,
    title: "None of the media types asked for can be given",
    meaning: "The detail lists the media types that this route gives.",
  },
  conflict: {
    status: 409,
    title: "Something is in the way",
    meaning:
      "A site or an outlet that is taken, closed or locked, or a thing that has changed or is there already. Each error says which and where. Nothing was changed.",
  },
  "request-in-progress": {
    status: 409,
    title: "The same request is still under way",
    meaning: "The first request under this Idempotency-Key has not been answered yet: wait and send it again.",
  },
  "stale-cursor": {
    status: 410,
    title: "The records have changed since this cursor was given",
    meaning: "Start again from the first page.",
  },
  "precondition-failed": {
    status: 412,
    title: "It has changed since you looked",
    meaning: "If-Match names an ETag that is not the present one. Read it again, and decide again.",
  },
  "body-too-large": {
    status: 413,
    title: "The body is too large",
    meaning: "Bytes are counted as they arrive, whatever Content-Length says. Limits are at /v1/limits.",
  },
  "unsupported-media-type": {
    status: 415,
    title: "The body's media type is not read here",
    meaning: "Judged before the body is read. The detail lists the media types that this route reads.",
  },
  "unsupported-encoding": {
    status: 415,
    title: "The body's content encoding is not read here",
    meaning: "Send bodies uncompressed.",
  },
  "invalid-request": {
    status: 422,
    title: "The request cannot be used as it stands",
    meaning: "Every fault is listed with its JSON Pointer, what was expected and, when short, what was found.",
  },
  "invalid-record": {
    status: 422,
    title: "The record cannot be read",
    meaning: "Every fault is listed with the feature and the path.",
  },
  "too-many-jobs": {
    status: 429,
    title: "Too many searches are waiting",
    meaning: "One search runs at a time and a few may wait. Retry-After says when to try again.",
  },
  "too-many-sites": {
    status: 422,
    title: "The search covers too many sites",
    meaning: "Narrow the area, name a campground or add filters. The limit is at /v1/limits.",
  },
  "idempotency-key-reused": {
    status: 422,
    title: "This Idempotency-Key was used for another request",
    meaning: "A key belongs to one request: the same method, address, conditions and body.",
  },
  "precondition-required": {
    status: 428,
    title: "This write wants to know what you have seen",
    meaning: "Send If-Match with the ETag that you have, or If-None-Match: * for something new.",
  },
  "rate-limited": {
    status: 429,
    title: "More was asked than a caller may ask",
    meaning: "Wait for the seconds of Retry-After. RateLimit says with every answer how much is left.",
  },
  "internal-error": {
    status: 500,
    title: "Something broke here",
    meaning: "Not the caller's fault. Report it with the request id.",
  },
  busy: {
    status: 503,
    title: "Not just now",
    meaning:
      "Others are writing, or something that is needed is out of reach. Nothing was changed; Retry-After says when.",
  },
  "storage-full": {
    status: 507,
    title: "The disk takes no more",
    meaning: "It is full, or failing. Nothing was changed; reading goes on.",
  },
} as const satisfies Readonly<Record<string, ProblemKind>>;

export type ProblemCode = keyof typeof PROBLEMS;

/** One fault of a request. */
export interface ProblemError {
  /** JSON Pointer in the body ("" is the whole body); absent for a parameter or header. */
  readonly pointer?: string;
  /** Name of the query or path parameter. */
  readonly parameter?: string;
  /** Name of the request header. */
  readonly header?: string;
  readonly code: string;
  readonly message: string;
  readonly expected?: string;
  /** What was found, when it is short. */
  readonly got?: string;
  /** Position in the text, counted from 1. */
  readonly line?: number;
  readonly column?: number;
}

/** Thrown by routes and turned into a response at one place. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly detail: string;
  readonly errors: readonly ProblemError[];
  readonly headers: Readonly<Record<string, string>>;

  constructor(
    code: ProblemCode,
    detail: string,
    errors: readonly ProblemError[] = [],
    headers: Readonly<Record<string, string>> = {},
  ) {
    super(detail);
    this.code = code;
    this.detail = detail;
    this.errors = errors;
    this.headers = headers;
  }
}

export const PROBLEM_MEDIA_TYPE = "application/problem+json";

/** Address of the paragraph about a problem on the reference page. */
export const problemType = (code: ProblemCode): string => `/docs#problem-${code}`;

/** The body of a problem. `requestId` is a UUID, so that `instance` is a registered URN. */
function problemBody(problem: Problem, requestId: string, listed: number): Record<string, unknown> {
  const kind = PROBLEMS[problem.code];
  return {
    type: problemType(problem.code),
    title: kind.title,
    status: kind.status,
    detail: problem.detail,
    instance: `urn:uuid:${requestId}`,
    code: problem.code,
    errors: problem.errors.slice(0, listed),
    errorCount: problem.errors.length,
  };
}

export function problemResponse(problem: Problem, requestId: string, listed: number): Response {
  return new Response(JSON.stringify(problemBody(problem, requestId, listed)), {
    status: PROBLEMS[problem.code].status,
    headers: { ...problem.headers, "Content-Type": PROBLEM_MEDIA_TYPE, "Cache-Control": "no-store" },
  });
}
