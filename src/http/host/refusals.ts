/** From what the ledger and its database refuse to problems. */
import { SqlFault } from "../../ledger/driver.ts";
import type { LedgerRefusal } from "../../ledger/ledger.ts";
import { Problem, type ProblemCode } from "../problem.ts";

const CODES: Readonly<Record<LedgerRefusal["code"], ProblemCode>> = {
  absent: "invalid-request",
  exists: "conflict",
  changed: "conflict",
  taken: "conflict",
  closed: "conflict",
  locked: "conflict",
  "wrong-status": "conflict",
  "in-use": "conflict",
};

/** @param base JSON Pointer of what the ledger was given, in the body. */
export function refusalProblem(refusal: LedgerRefusal, base = ""): Problem {
  // What is wrong with the request itself is told before what is in its way.
  const isWrong = refusal.parts.some((part) => part.code === "absent");
  const code = isWrong ? "invalid-request" : CODES[refusal.code];
  const errors = refusal.parts.map((part) => ({
    pointer: base + part.pointer,
    code: part.code,
    message: part.message,
  }));
  return new Problem(code, refusal.message, errors);
}

/** What was thrown, as a problem where it is one that the caller should know of. */
export function databaseProblem(fault: unknown): unknown {
  if (!(fault instanceof SqlFault)) return fault;
  if (fault.kind === "disk") {
    return new Problem("storage-full", "The disk takes no more. Nothing was changed.", [], {
      "Retry-After": "60",
    });
  }
  if (fault.kind === "busy") {
    return new Problem("busy", "Others are writing. Nothing was changed; send it again.", [], { "Retry-After": "1" });
  }
  // The keys of the tables are the last word: whoever comes second gets the same answer as if it had been looked up.
  if (fault.kind === "taken") {
    return new Problem("conflict", "Somebody else was first. Nothing was changed.", [
      { pointer: "", code: "taken", message: "Somebody else was first." },
    ]);
  }
  return fault;
}
