/** Reads a request body: media type first, then bytes counted on the stream, then text, then JSON. */
import { type JsonFault, type JsonValue, readJson } from "../records/json.ts";
import { Problem, type ProblemCode, type ProblemError } from "./problem.ts";

/** What reading a body as JSON may refuse. */
export const BODY_PROBLEMS: readonly ProblemCode[] = [
  "empty-body",
  "malformed-json",
  "refused-json",
  "invalid-encoding",
  "body-too-large",
  "unsupported-media-type",
  "unsupported-encoding",
];

export interface BodyRule {
  /** Media types that the route reads; parameters other than charset are ignored. */
  readonly mediaTypes: readonly string[];
  readonly maxBytes: number;
}

/** The media type of a body, in lower case and without parameters; refuses what the rule does not list. */
export function bodyMediaType(request: Request, rule: BodyRule): string {
  const header = request.headers.get("content-type") ?? "";
  const [type = "", ...parameters] = header.split(";").map((part) => part.trim().toLowerCase());
  if (!rule.mediaTypes.includes(type)) {
    const given = type === "" ? "no media type" : type.length <= LONGEST_MEDIA_TYPE ? type : "another media type";
    throw new Problem(
      "unsupported-media-type",
      `This route reads ${rule.mediaTypes.join(", ")}; the body has ${given}.`,
      [
        {
          header: "Content-Type",
          code: "unsupported-media-type",
          message: "Not read here.",
          expected: rule.mediaTypes.join(", "),
        },
      ],
    );
  }
  for (const parameter of parameters) {
    const charset = /^charset="?([^"]*)"?$/.exec(parameter)?.[1];
    if (charset !== undefined && charset !== "utf-8" && charset !== "utf8" && charset !== "us-ascii") {
      throw new Problem("unsupported-media-type", "Bodies are read as UTF-8.", [
        {
          header: "Content-Type",
          code: "unsupported-charset",
          message: "This charset is not read.",
          expected: "utf-8",
        },
      ]);
    }
  }
  const encoding = request.headers.get("content-encoding")?.trim().toLowerCase() ?? "identity";
  if (encoding !== "identity" && encoding !== "") {
    throw new Problem("unsupported-encoding", "Bodies are read uncompressed.", [
      { header: "Content-Encoding", code: "unsupported-encoding", message: "Not read here.", expected: "identity" },
    ]);
  }
  return type;
}

/** The body as text. Bytes are counted as they come, because Content-Length may be absent or untrue. */
export async function bodyText(request: Request, rule: BodyRule): Promise<string> {
  const declared = Number(request.headers.get("content-length") ?? "0");
  if (declared > rule.maxBytes) throw tooLarge(rule);
  const bytes = await boundedBytes(request.body, rule);
  if (bytes.byteLength === 0) throw new Problem("empty-body", "This route wants a body, and none was sent.");
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Problem("invalid-encoding", "The body holds bytes that are not UTF-8.", [
      { pointer: "", code: "invalid-encoding", message: "Not UTF-8.", expected: "UTF-8" },
    ]);
  }
}

async function boundedBytes(body: ReadableStream<Uint8Array> | null, rule: BodyRule): Promise<Uint8Array> {
  if (body === null) return new Uint8Array(0);
  const reader = body.getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.byteLength;
    if (length > rule.maxBytes) {
      // The rest is never read; a client that keeps sending is cut off by the runtime.
      await reader.cancel().catch(() => undefined);
      throw tooLarge(rule);
    }
    pieces.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.byteLength;
  }
  return whole;
}

/** Reads the body as strict JSON. */
export async function jsonBody(request: Request, rule: BodyRule, maxDepth: number): Promise<JsonValue> {
  bodyMediaType(request, rule);
  return parseJsonText(await bodyText(request, rule), maxDepth);
}

export function parseJsonText(text: string, maxDepth: number): JsonValue {
  const reading = readJson(text, maxDepth);
  if (reading.ok) return reading.value;
  throw jsonProblem(reading.faults);
}

function jsonProblem(faults: readonly JsonFault[]): Problem {
  const errors: ProblemError[] = faults.map(({ code, pointer, line, column, message }) => ({
    pointer,
    code,
    message,
    line,
    column,
  }));
  const first = faults[0];
  const where = first === undefined ? "" : ` First at line ${first.line}, column ${first.column}: ${first.message}`;
  if (faults.some((fault) => fault.code === "malformed-json")) {
    return new Problem("malformed-json", `The body is not JSON.${where}`, errors);
  }
  // A number that overflows is well-formed JSON with a value that no field accepts.
  const onlyValues = faults.every((fault) => fault.code === "number-out-of-range");
  return new Problem(onlyValues ? "invalid-request" : "refused-json", `The JSON is not accepted.${where}`, errors);
}

function tooLarge(rule: BodyRule): Problem {
  return new Problem(
    "body-too-large",
    `The body is larger than ${rule.maxBytes} bytes.`,
    [{ pointer: "", code: "body-too-large", message: "Too many bytes.", expected: `at most ${rule.maxBytes} bytes` }],
    { Connection: "close" },
  );
}

const LONGEST_MEDIA_TYPE = 80;
