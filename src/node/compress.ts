/** Answers of the interface, compressed for who takes it: a campground's record is mostly repetition. */
import { promisify } from "node:util";
import { brotliCompress, constants } from "node:zlib";

/** Below this compressing costs more than it saves, bytes. */
const WORTH_COMPRESSING = 1024;
/** Fast: the answer is made for this one request. */
const QUALITY = 6;
const TEXT = /^(application\/([\w.-]+\+)?(json|yaml)|text\/|image\/svg)/;

const brotliAsync = promisify(brotliCompress);

function takesBrotli(request: Request): boolean {
  const accepted = (request.headers.get("accept-encoding") ?? "").split(",").map((one) => one.trim());
  return accepted.some((one) => one === "br" || (one.startsWith("br;") && !/;\s*q=0(\.0+)?$/.test(one)));
}

/**
 * The same response with its body compressed. A strong entity tag becomes a weak one, because the bytes are others;
 * If-None-Match compares weakly (RFC 9110 section 13.1.2), so that asking again still works.
 */
export async function compressed(request: Request, response: Response): Promise<Response> {
  const worth =
    request.method === "GET" &&
    response.status === 200 &&
    response.body !== null &&
    !response.headers.has("content-encoding") &&
    TEXT.test(response.headers.get("content-type") ?? "");
  if (!worth) return response;
  const headers = new Headers(response.headers);
  headers.append("Vary", "Accept-Encoding");
  if (!takesBrotli(request)) return new Response(response.body, { status: response.status, headers });
  const bytes = new Uint8Array(await response.arrayBuffer());
  if (bytes.length < WORTH_COMPRESSING) return new Response(bytes, { status: response.status, headers });
  const small = await brotliAsync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: QUALITY } });
  headers.set("Content-Encoding", "br");
  headers.delete("Content-Length");
  const tag = headers.get("etag");
  if (tag !== null && !tag.startsWith("W/")) headers.set("ETag", `W/${tag}`);
  return new Response(new Uint8Array(small), { status: response.status, headers });
}
