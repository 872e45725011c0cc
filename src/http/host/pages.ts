/** Opaque cursors of lists that change while they are read: the place after which to go on, and nothing else. */
import { Problem } from "../problem.ts";

const LONGEST_CURSOR = 600;

export function writePlace(parts: readonly (string | number)[]): string {
  const binary = String.fromCharCode(...new TextEncoder().encode(JSON.stringify(parts)));
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** The parts of a cursor, when they are of the types that are named; refuses it otherwise. */
export function readPlace<T extends "string" | "number">(
  parameter: string,
  text: string,
  types: readonly T[],
): readonly (string | number)[] {
  try {
    if (text.length > LONGEST_CURSOR) throw new Error("too long");
    const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
    const parts: unknown = JSON.parse(new TextDecoder().decode(Uint8Array.from(binary, (one) => one.charCodeAt(0))));
    if (Array.isArray(parts) && parts.length === types.length && types.every((type, at) => typeof parts[at] === type)) {
      return parts as (string | number)[];
    }
  } catch {
    // Whatever it is, it is none of ours.
  }
  throw new Problem("invalid-cursor", "This cursor is not one of ours.", [
    { parameter, code: "bad-form", message: "Send back what the last answer gave." },
  ]);
}
