/** Answers of the interface, compressed for who takes it: a campground's record is mostly repetition. */
import { Duplex } from "node:stream";
import { promisify } from "node:util";
import { brotliCompress, constants, createBrotliCompress, createGzip, gzip } from "node:zlib";
import { codedTag } from "../http/representation.ts";

/** Below this compressing costs more than it saves, bytes. */
const WORTH_COMPRESSING = 1024;
/** Fast: the answer is made for this one request. */
const BROTLI = { [constants.BROTLI_PARAM_QUALITY]: 6 };
const TEXT = /^(application\/([\w.-]+\+)?(json|yaml)|text\/|image\/svg)/;
/** Answers that come row by row. */
const ROWS = /^application\/(x-ndjson|geo\+json-seq)/;

type Coding = "br" | "gzip";

const brotliAsync = promisify(brotliCompress);
const gzipAsync = promisify(gzip);

/** The better of those that the caller takes. */
function codingFor(request: Request): Coding | null {
  const accepted = (request.headers.get("accept-encoding") ?? "").split(",").map((one) => one.trim());
  const takes = (coding: Coding) =>
    accepted.some((one) => one === coding || (one.startsWith(`${coding};`) && !/;\s*q=0(\.0+)?$/.test(one)));
  return takes("br") ? "br" : takes("gzip") ? "gzip" : null;
}

/**
 * The same response with its body compressed. A strong entity tag becomes a weak one, because the bytes are others;
 * If-None-Match compares weakly (RFC 9110 section 13.1.2), so that asking again still works.
 */
export async function compressed(request: Request, response: Response): Promise<Response> {
  const type = response.headers.get("content-type") ?? "";
  const plain = response.status === 200 && !response.headers.has("content-encoding") ? response.body : null;
  if (plain !== null && ROWS.test(type)) return compressedRows(request, response, plain);
  if (plain === null || request.method !== "GET" || !TEXT.test(type)) return response;
  const headers = new Headers(response.headers);
  headers.append("Vary", "Accept-Encoding");
  const coding = codingFor(request);
  if (coding === null) return new Response(plain, { status: response.status, headers });
  const bytes = new Uint8Array(await response.arrayBuffer());
  if (bytes.length < WORTH_COMPRESSING) return new Response(bytes, { status: response.status, headers });
  const small = await (coding === "br" ? brotliAsync(bytes, { params: BROTLI }) : gzipAsync(bytes));
  headers.set("Content-Encoding", coding);
  headers.delete("Content-Length");
  const tag = headers.get("etag");
  if (tag !== null) headers.set("ETag", codedTag(tag, coding));
  return new Response(new Uint8Array(small), { status: response.status, headers });
}

/** Row by row: each goes out as soon as it is there, and a reader who goes away ends the making of more. */
function compressedRows(request: Request, response: Response, plain: ReadableStream<Uint8Array>): Response {
  const headers = new Headers(response.headers);
  headers.append("Vary", "Accept-Encoding");
  const coding = codingFor(request);
  if (coding === null) return new Response(plain, { headers });
  headers.set("Content-Encoding", coding);
  const { readable, writable } = Duplex.toWeb(
    coding === "br"
      ? createBrotliCompress({ params: BROTLI, flush: constants.BROTLI_OPERATION_FLUSH })
      : createGzip({ flush: constants.Z_SYNC_FLUSH }),
  );
  // Node's own streams and those of the platform differ in their types alone.
  const pair = { readable, writable } as unknown as Parameters<typeof plain.pipeThrough<Uint8Array>>[0];
  return new Response(plain.pipeThrough(pair) as ReadableStream<Uint8Array<ArrayBuffer>>, { headers });
}
