import { describe, expect, it } from "vitest";
import { bodyMediaType, bodyText, jsonBody } from "../../src/http/body.ts";
import { Problem } from "../../src/http/problem.ts";

const RULE = { mediaTypes: ["application/json"], maxBytes: 64 };
const post = (
  body: string | Uint8Array<ArrayBuffer> | ReadableStream | null,
  headers: Record<string, string> = { "Content-Type": "application/json" },
) =>
  new Request("http://pad.test/v1/fit", {
    method: "POST",
    body,
    headers,
    ...(body instanceof ReadableStream ? { duplex: "half" } : {}),
  });

async function problemOf(work: () => unknown): Promise<Problem> {
  try {
    await work();
  } catch (thrown) {
    if (thrown instanceof Problem) return thrown;
    throw thrown;
  }
  throw new Error("no problem arose");
}

describe("a request body", () => {
  it("is refused by media type, charset or encoding before a byte is read", async () => {
    let pulled = 0;
    const pull = () => {
      pulled += 1;
    };
    const body = new ReadableStream<Uint8Array>({ pull }, { highWaterMark: 0 });
    const problem = await problemOf(() => jsonBody(post(body, { "Content-Type": "text/plain" }), RULE, 32));
    expect(problem.code).toBe("unsupported-media-type");
    expect(pulled).toBe(0);
    const latin = post("{}", { "Content-Type": "application/json; charset=latin1" });
    expect((await problemOf(() => bodyMediaType(latin, RULE))).errors[0]?.code).toBe("unsupported-charset");
    const packed = post("{}", { "Content-Type": "application/json", "Content-Encoding": "gzip" });
    expect((await problemOf(() => bodyMediaType(packed, RULE))).code).toBe("unsupported-encoding");
    expect(bodyMediaType(post("{}", { "Content-Type": 'Application/JSON; charset="UTF-8"' }), RULE)).toBe(
      "application/json",
    );
  });

  it("is counted on the stream, whatever Content-Length says, and not read on after the cap", async () => {
    let sent = 0;
    const endless = new ReadableStream<Uint8Array>(
      {
        pull(controller) {
          sent += 16;
          controller.enqueue(new Uint8Array(16).fill(32));
        },
      },
      { highWaterMark: 0 },
    );
    const problem = await problemOf(() => bodyText(post(endless), RULE));
    expect(problem.code).toBe("body-too-large");
    expect(problem.headers["Connection"]).toBe("close");
    expect(sent).toBe(80);
    const honest = post("x", { "Content-Type": "application/json", "Content-Length": "65" });
    expect((await problemOf(() => bodyText(honest, RULE))).code).toBe("body-too-large");
    expect(await bodyText(post("x".repeat(64)), RULE)).toHaveLength(64);
  });

  it("must be there and must be UTF-8; a byte order mark is ignored", async () => {
    expect((await problemOf(() => bodyText(post(null), RULE))).code).toBe("empty-body");
    expect((await problemOf(() => bodyText(post(new Uint8Array([0x22, 0xff, 0x22])), RULE))).code).toBe(
      "invalid-encoding",
    );
    expect(await jsonBody(post(new Uint8Array([0xef, 0xbb, 0xbf, 0x7b, 0x7d])), RULE, 32)).toEqual({});
  });

  it("gives the position of malformed JSON and tells refused JSON from it", async () => {
    const malformed = await problemOf(() => jsonBody(post('{"rig":{\n"a":}}'), RULE, 32));
    expect(malformed.code).toBe("malformed-json");
    expect(malformed.errors).toEqual([expect.objectContaining({ pointer: "/rig/a", line: 2, column: 5 })]);
    expect((await problemOf(() => jsonBody(post('{"a":1,"a":2}'), RULE, 32))).code).toBe("refused-json");
    expect((await problemOf(() => jsonBody(post('{"a":1e999}'), RULE, 32))).code).toBe("invalid-request");
  });
});
