/** Opaque page cursors: a position, tied to the request and to the version of the records it was made from. */
import { Problem } from "./problem.ts";

export interface Cursor {
  /** Items already given. */
  readonly after: number;
  /** Version of the records. */
  readonly version: string;
  /** Digest of the request without its cursor. */
  readonly query: string;
}

const LONGEST_CURSOR = 512;

export function writeCursor(cursor: Cursor): string {
  const text = JSON.stringify([cursor.after, cursor.version, cursor.query]);
  const binary = String.fromCharCode(...new TextEncoder().encode(text));
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** Items to skip. Refuses a cursor that was altered or belongs to another request, and one of older records. */
export function readCursor(text: string, expected: Omit<Cursor, "after">): number {
  const cursor = text.length <= LONGEST_CURSOR ? decode(text) : null;
  if (cursor === null || cursor.query !== expected.query) {
    throw new Problem("invalid-cursor", "This cursor was not given for this request.");
  }
  if (cursor.version !== expected.version) {
    throw new Problem("stale-cursor", "The records have changed since this cursor was given.");
  }
  return cursor.after;
}

function decode(text: string): Cursor | null {
  try {
    const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
    const parts: unknown = JSON.parse(new TextDecoder().decode(Uint8Array.from(binary, (c) => c.charCodeAt(0))));
    if (!Array.isArray(parts)) return null;
    const [after, version, query] = parts as unknown[];
    if (typeof after !== "number" || !Number.isSafeInteger(after) || after < 0) return null;
    return typeof version === "string" && typeof query === "string" ? { after, version, query } : null;
  } catch {
    return null;
  }
}

/** A short digest of a request, so that a cursor cannot wander to another one. */
export async function digestOf(value: unknown): Promise<string> {
  const bytes = new TextEncoder().encode(JSON.stringify(value));
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return btoa(String.fromCharCode(...digest.subarray(0, DIGEST_BYTES)));
}

const DIGEST_BYTES = 9;
