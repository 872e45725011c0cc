import { beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_CAMPGROUND, EXAMPLE_FIT_REQUEST, EXAMPLE_RIG, EXAMPLE_SITE } from "../../src/http/openapi/examples.ts";
import { post, problemIn, type TestApp, testApp } from "./helpers.ts";

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

const REQUEST = JSON.stringify(EXAMPLE_FIT_REQUEST);
const MEBIBYTE = 1_048_576;
const nested = (levels: number) => `{"rig":${'{"a":'.repeat(levels)}1${"}".repeat(levels)}}`;
const withRig = (text: string) => `{"rig":${text},"site":${JSON.stringify(EXAMPLE_SITE)}}`;
const rig = (more: string) => `${JSON.stringify(EXAMPLE_RIG).slice(0, -1)},${more}}`;
const withSite = (change: (site: Record<string, unknown> & { properties: Record<string, unknown> }) => void) => {
  const site = structuredClone(EXAMPLE_SITE) as unknown as Record<string, unknown> & {
    properties: Record<string, unknown>;
  };
  change(site);
  return JSON.stringify({ rig: EXAMPLE_RIG, site, campground: EXAMPLE_CAMPGROUND });
};

interface Row {
  readonly what: string;
  readonly body: string | Uint8Array<ArrayBuffer>;
  readonly headers?: Record<string, string>;
  readonly status: number;
  readonly code: string;
  readonly pointer?: string;
  readonly error?: string;
}

const ROWS: readonly Row[] = [
  {
    what: "plain text",
    body: REQUEST,
    headers: { "Content-Type": "text/plain" },
    status: 415,
    code: "unsupported-media-type",
  },
  {
    what: "no content type",
    body: new TextEncoder().encode(REQUEST),
    headers: { "Content-Type": "" },
    status: 415,
    code: "unsupported-media-type",
  },
  {
    what: "a wrong type and no JSON",
    body: "{",
    headers: { "Content-Type": "application/xml" },
    status: 415,
    code: "unsupported-media-type",
  },
  {
    what: "another charset",
    body: REQUEST,
    headers: { "Content-Type": "application/json; charset=utf-16" },
    status: 415,
    code: "unsupported-media-type",
  },
  {
    what: "compressed",
    body: REQUEST,
    headers: { "Content-Encoding": "gzip" },
    status: 415,
    code: "unsupported-encoding",
  },
  { what: "nothing", body: "", status: 400, code: "empty-body" },
  {
    what: "no JSON",
    body: '{"rig": nope}',
    status: 400,
    code: "malformed-json",
    pointer: "/rig",
    error: "malformed-json",
  },
  {
    what: "cut JSON",
    body: REQUEST.slice(0, -1),
    status: 400,
    code: "malformed-json",
    pointer: "",
    error: "malformed-json",
  },
  {
    what: "two values",
    body: `${REQUEST}{}`,
    status: 400,
    code: "malformed-json",
    pointer: "",
    error: "malformed-json",
  },
  {
    what: "NaN",
    body: withRig('{"length":NaN}'),
    status: 400,
    code: "malformed-json",
    pointer: "/rig/length",
    error: "malformed-json",
  },
  {
    what: "bytes that are not UTF-8",
    body: new Uint8Array([0x7b, 0xc3, 0x28, 0x7d]),
    status: 400,
    code: "invalid-encoding",
    pointer: "",
  },
  {
    what: "a mebibyte and a byte",
    body: `"${"x".repeat(MEBIBYTE)}"`,
    status: 413,
    code: "body-too-large",
    pointer: "",
  },
  { what: "33 levels", body: nested(32), status: 400, code: "refused-json", error: "too-deep" },
  { what: "100,000 levels", body: nested(100_000), status: 400, code: "refused-json", error: "too-deep" },
  {
    what: "a key twice",
    body: withRig('{"length":3,"length":4}'),
    status: 400,
    code: "refused-json",
    pointer: "/rig/length",
    error: "duplicate-key",
  },
  {
    what: "__proto__",
    body: withRig(rig('"__proto__":{"polluted":true}')),
    status: 400,
    code: "refused-json",
    pointer: "/rig/__proto__",
    error: "forbidden-key",
  },
  {
    what: "constructor.prototype",
    body: withRig(rig('"constructor":{"prototype":{"polluted":true}}')),
    status: 400,
    code: "refused-json",
    pointer: "/rig/constructor",
    error: "forbidden-key",
  },
  {
    what: "1e400",
    body: withRig(rig('"width":1e400')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
    error: "number-out-of-range",
  },
  { what: "1e308", body: withRig(rig('"width":1e308')), status: 422, code: "invalid-request", pointer: "/rig/width" },
  {
    what: "a tiny number",
    body: withRig(rig('"waterHose":-1e-320')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/waterHose",
  },
  {
    what: "the text NaN",
    body: withRig(rig('"width":"NaN"')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "the text Infinity m",
    body: withRig(rig('"width":"Infinity m"')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "a number in text without unit",
    body: withRig(rig('"width":"12"')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "true for a length",
    body: withRig(rig('"width":true')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "null for a length",
    body: withRig(rig('"width":null')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "a negative length",
    body: withRig(rig('"width":-2')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/width",
  },
  {
    what: "an unknown key",
    body: withRig(rig('"role":"admin"')),
    status: 422,
    code: "invalid-request",
    pointer: "/rig/role",
    error: "unknown-key",
  },
  {
    what: "an unknown key of the envelope",
    body: `${REQUEST.slice(0, -1)},"version":3}`,
    status: 422,
    code: "invalid-request",
    pointer: "/version",
    error: "unknown-key",
  },
  { what: "no object", body: "[]", status: 422, code: "invalid-request", pointer: "", error: "wrong-type" },
  { what: "null", body: "null", status: 422, code: "invalid-request", pointer: "", error: "wrong-type" },
  {
    what: "a site that is a text",
    body: `{"rig":${JSON.stringify(EXAMPLE_RIG)},"site":"A7"}`,
    status: 422,
    code: "invalid-request",
    pointer: "/site",
    error: "wrong-type",
  },
  {
    what: "longitude and latitude swapped",
    body: withSite((site) => {
      site["geometry"] = { type: "Point", coordinates: [39.84, -106.2] };
    }),
    status: 422,
    code: "invalid-request",
  },
  {
    what: "an outline that crosses itself",
    body: withSite((site) => {
      site["geometry"] = {
        type: "Polygon",
        coordinates: [
          [
            [0, 0],
            [0.0001, 0.0002],
            [0.0001, 0],
            [0, 0.0002],
            [0, 0],
          ],
        ],
      };
    }),
    status: 422,
    code: "invalid-request",
  },
  {
    what: "a pedestal a kilometre away",
    body: withSite((site) => {
      site.properties["hookups"] = [{ service: "power", at: { along: 1000, left: 3 } }];
    }),
    status: 422,
    code: "invalid-request",
    error: "pedestal-too-far",
  },
];

describe("bad input to /v1/fit", () => {
  it.each(ROWS)("$what: $status $code", async ({ body, headers, status, code, pointer, error }) => {
    const response = await app.request("/v1/fit", {
      method: "POST",
      body,
      headers: { "Content-Type": "application/json", ...headers },
    });
    const problem = await problemIn(response, status, code);
    expect(JSON.stringify(problem).length).toBeLessThan(20_000);
    if (pointer !== undefined) expect(problem.errors.map((one) => one.pointer)).toContain(pointer);
    if (error !== undefined) expect(problem.errors.map((one) => one.code)).toContain(error);
    if (status === 422) for (const one of problem.errors) expect(one.pointer).toBeTypeOf("string");
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  });

  it("reads exactly a mebibyte, a byte order mark, and a text that looks odd", async () => {
    const padded = `\ufeff${REQUEST}`;
    const full = padded + " ".repeat(MEBIBYTE - new TextEncoder().encode(padded).byteLength);
    expect((await post(app, "/v1/fit", full)).status).toBe(200);
    const odd = { ...EXAMPLE_FIT_REQUEST, rig: { ...EXAMPLE_RIG, name: "\u202eabc\u0000<b>\ud800" } };
    const response = await post(app, "/v1/fit", odd);
    expect([200, 422]).toContain(response.status);
    const plan = await post(app, "/v1/fit", odd, { Accept: "image/svg+xml" });
    expect(await plan.text()).not.toContain("<b>");
  });

  it("never repeats a huge input", async () => {
    const huge = "k".repeat(200_000);
    const response = await post(app, "/v1/fit", {
      ...EXAMPLE_FIT_REQUEST,
      [huge]: 1,
      rig: { ...EXAMPLE_RIG, name: huge, [huge]: 2 },
    });
    const text = JSON.stringify(await problemIn(response, 422, "invalid-request"));
    expect(text.length).toBeLessThan(20_000);
  });

  it("lists at most the published number of errors and counts all", async () => {
    const many = Object.fromEntries(Array.from({ length: 80 }, (_, index) => [`member${index}`, 1]));
    const body = await problemIn(
      await post(app, "/v1/fit", { ...EXAMPLE_FIT_REQUEST, ...many }),
      422,
      "invalid-request",
    );
    expect([body.errors.length, body.errorCount]).toEqual([50, 80]);
  });
});
