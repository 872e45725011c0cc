/**
 * The built page, read once and answered from memory: hashed files may be kept for a year, the document and the service
 * worker are asked about each time. Compressed once, when a file is first asked for.
 */
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { dirname, extname, join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";
import { matchesTag } from "../http/representation.ts";

const BUILT = join("dist", "web");
const DOCUMENT = "index.html";
/** Ending of the compressed copies that the build writes. */
const READY = ".br";

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
};

/** Everything from this server and nothing inline; nothing may frame the page. */
export const PAGE_POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "worker-src 'self'",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

const HEADERS = {
  "Content-Security-Policy": PAGE_POLICY,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Permissions-Policy": "camera=(), microphone=(), payment=(), usb=()",
};

const KEPT_LONG = "public, max-age=31536000, immutable";
const ASKED_EACH_TIME = "public, no-cache";
const TAG_LENGTH = 32;
/** Below this compressing costs more than it saves, bytes. */
const WORTH_COMPRESSING = 1024;
const BROTLI_QUALITY = 9;

type Encoding = "br" | "gzip";

interface File {
  readonly bytes: Buffer;
  readonly type: string;
  readonly tag: string;
  readonly hashed: boolean;
  readonly compressed: Map<Encoding, Promise<Buffer>>;
}

export interface Page {
  /** The answer when the request is for a file of the page; null for everything else. */
  readonly answer: (request: Request) => Promise<Response | null>;
}

/** The folder of the built page beside the package, wherever the module at `start` lies in it; null when not built. */
export function builtPage(start: string): string | null {
  for (let folder = dirname(start); folder !== dirname(folder); folder = dirname(folder)) {
    const built = join(folder, BUILT);
    if (existsSync(join(built, DOCUMENT))) return built;
  }
  return null;
}

/** Reads the built page. Throws when the folder cannot be read. */
export async function openPage(folder: string): Promise<Page> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = new Map<string, File>();
  for (const entry of entries.filter((one) => one.isFile() && !one.name.endsWith(READY))) {
    const path = join(entry.parentPath, entry.name);
    const name = path.slice(folder.length + 1).replaceAll("\\", "/");
    const bytes = await readFile(path);
    files.set(`/${name === DOCUMENT ? "" : name}`, {
      bytes,
      type: MEDIA_TYPES[extname(name)] ?? "application/octet-stream",
      tag: createHash("sha256").update(bytes).digest("hex").slice(0, TAG_LENGTH),
      hashed: name.startsWith("assets/"),
      compressed: new Map(existsSync(path + READY) ? [["br", readFile(path + READY)]] : []),
    });
  }
  return {
    answer: async (request) => {
      if (request.method !== "GET" && request.method !== "HEAD") return null;
      const file = files.get(new URL(request.url).pathname);
      return file === undefined ? null : answerWith(file, request);
    },
  };
}

async function answerWith(file: File, request: Request): Promise<Response> {
  const encoding = encodingFor(file, request.headers.get("accept-encoding") ?? "");
  // Each coding is a representation of its own and has a tag of its own (RFC 9110 section 8.8.3).
  const tag = `"${file.tag}${encoding === null ? "" : `-${encoding}`}"`;
  const common = {
    ...HEADERS,
    ETag: tag,
    Vary: "Accept-Encoding",
    "Cache-Control": file.hashed ? KEPT_LONG : ASKED_EACH_TIME,
  };
  if (matchesTag(request.headers.get("if-none-match"), tag))
    return new Response(null, { status: 304, headers: common });
  const bytes = encoding === null ? file.bytes : await compress(file, encoding);
  const headers = {
    ...common,
    "Content-Type": file.type,
    "Content-Length": String(bytes.length),
    ...(encoding === null ? {} : { "Content-Encoding": encoding }),
  };
  return new Response(request.method === "HEAD" ? null : new Uint8Array(bytes), { status: 200, headers });
}

function encodingFor(file: File, accepted: string): Encoding | null {
  if (file.bytes.length < WORTH_COMPRESSING || file.type === "image/png") return null;
  const offered = accepted.split(",").map((one) => one.trim());
  const takes = (coding: string) =>
    offered.some((one) => one === coding || (one.startsWith(`${coding};`) && !/;\s*q=0(\.0+)?$/.test(one)));
  return takes("br") ? "br" : takes("gzip") ? "gzip" : null;
}

const brotliAsync = promisify(brotliCompress);
const gzipAsync = promisify(gzip);

function compress(file: File, encoding: Encoding): Promise<Buffer> {
  const known = file.compressed.get(encoding);
  if (known !== undefined) return known;
  const made =
    encoding === "br"
      ? brotliAsync(file.bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: BROTLI_QUALITY } })
      : gzipAsync(file.bytes);
  file.compressed.set(encoding, made);
  return made;
}
