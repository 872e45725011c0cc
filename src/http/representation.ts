/** Responses: entity tags, conditional requests, cache and safety headers. */

const HEXADECIMAL = 16;
const TAG_BYTES = 16;

/** Answers to GET: may be kept, but are asked about again each time, so that a changed record shows at once. */
const REVALIDATE = "public, no-cache";
/** Answers to POST: made for one caller. */
const NO_STORE = "no-store";

/** A strong entity tag: the first half of the SHA-256 of the bytes, which depend on the media type and nothing else. */
export async function entityTag(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const text = [...digest.subarray(0, TAG_BYTES)].map((byte) => byte.toString(HEXADECIMAL).padStart(2, "0")).join("");
  return `"${text}"`;
}

/**
 * The tag of a representation that is compressed on its way: strong like the plain one, and another, because its bytes
 * are others (RFC 9110 section 8.8.3.3).
 */
export function codedTag(tag: string, coding: string): string {
  return tag.startsWith("W/") ? tag : `${tag.slice(0, -1)};${coding}"`;
}

/** The tag of the plain representation that a coded one was made of. */
export const plainTag = (tag: string): string => tag.trim().replace(/;(?:br|gzip)"$/, '"');

/** True when If-None-Match names the tag (RFC 9110 section 13.1.2: weak comparison; `*` matches anything). */
export function matchesTag(ifNoneMatch: string | null, tag: string): boolean {
  if (ifNoneMatch === null) return false;
  if (ifNoneMatch.trim() === "*") return true;
  return ifNoneMatch.split(",").some((candidate) => plainTag(candidate).replace(/^W\//, "") === tag);
}

/** A cacheable answer to GET or HEAD with a strong ETag; 304 when the caller already has it. */
export async function cacheable(
  request: Request,
  body: string,
  mediaType: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<Response> {
  const bytes = new TextEncoder().encode(body);
  const tag = await entityTag(bytes);
  const common = { ...headers, ETag: tag, "Cache-Control": REVALIDATE, Vary: "Accept" };
  if (matchesTag(request.headers.get("if-none-match"), tag)) {
    return new Response(null, { status: 304, headers: common });
  }
  return new Response(bytes, { status: 200, headers: { ...common, "Content-Type": mediaType } });
}

/** An answer made for one caller. */
export function computed(body: string, mediaType: string, headers: Readonly<Record<string, string>> = {}): Response {
  return new Response(body, {
    status: 200,
    headers: { ...headers, "Content-Type": mediaType, "Cache-Control": NO_STORE, Vary: "Accept" },
  });
}

/** A drawing styles its own parts and loads nothing. */
export const DRAWING_POLICY = {
  "Content-Security-Policy": "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
} as const;

/** Headers of every response; a route that needs another policy (the reference page, a plan) sets its own first. */
export const SAFETY_HEADERS: Readonly<Record<string, string>> = {
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
};
