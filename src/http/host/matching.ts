/** If-Match and If-None-Match of writes (RFC 9110 section 13.1): strong comparison, never guessed. */
import { Problem } from "../problem.ts";
import { plainTag } from "../representation.ts";

const HEADER = "If-Match";

/**
 * Throws unless If-Match names the present tag, or that of its compressed form: 428 when it is missing, 412 when it names another or a weak one.
 *
 * @param present Strong entity tag, with its quotes.
 */
export function requireMatch(request: Request, present: string): void {
  const given = request.headers.get("if-match");
  if (given === null) {
    throw new Problem("precondition-required", "Send the ETag that you have seen as If-Match.", [
      { header: HEADER, code: "missing", message: "This header is missing.", expected: "the ETag of the last answer" },
    ]);
  }
  if (given.trim() === "*" || given.split(",").some((candidate) => plainTag(candidate) === present)) return;
  throw stale(present);
}

/** Throws unless the caller says that the thing must not be there yet. */
export function requireNew(request: Request): void {
  if (request.headers.has("if-match")) {
    throw new Problem("precondition-failed", "There is nothing at this address any more, or not yet.", [
      { header: HEADER, code: "changed", message: "Nothing is there that it could match." },
    ]);
  }
  if (wantsNew(request)) return;
  throw new Problem(
    "precondition-required",
    "There is nothing at this address yet: send If-None-Match: * to make it.",
    [{ header: "If-None-Match", code: "missing", message: "This header is missing.", expected: "*" }],
  );
}

/** True when the caller says that the thing must not be there yet. */
export const wantsNew = (request: Request): boolean => request.headers.get("if-none-match")?.trim() === "*";

export function stale(present: string): Problem {
  return new Problem(
    "precondition-failed",
    "It has changed since you looked.",
    [{ header: HEADER, code: "changed", message: "This is not the present ETag.", expected: present }],
    { ETag: present },
  );
}
