/** Tokens that the command line makes: 256 random bits behind a prefix by which a leaked one can be found. */

const PREFIX = "padwright_";
const BYTES = 32;
const HEXADECIMAL = 16;
const SHAPE = /^padwright_[A-Za-z0-9_-]{43}$/;

export const isLocalToken = (token: string): boolean => SHAPE.test(token);

/** A fresh token. It is shown once and kept nowhere. */
export function freshToken(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(BYTES));
  const text = btoa(String.fromCharCode(...bytes));
  return PREFIX + text.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** SHA-256 in lower case hexadecimal: of a token as the ledger keeps it, and of whatever else is told by its digest. */
export async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(HEXADECIMAL).padStart(2, "0")).join("");
}
