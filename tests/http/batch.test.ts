import { describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_FIT_REQUEST } from "../../src/http/openapi/examples.ts";
import { memoryRates } from "../../src/http/rate/rate.ts";
import type { BatchRow } from "../../src/http/schemas/batch.ts";
import { memoryStore } from "../../src/records/store.ts";
import { post, problemIn, testApp } from "./helpers.ts";

const { rig } = EXAMPLE_FIT_REQUEST;
const SHORT_CORD = {
  class: "travel-trailer",
  length: "6 m",
  height: "2.9 m",
  power: { plug: "nema-tt-30", cord: "1 ft" },
};
const A7 = { campground: "alder-flat", site: "A7" };
const B2 = { campground: "alder-flat", site: "B2" };
const SEQUENCE = { Accept: "application/geo+json-seq" };

const rowsOf = (text: string): BatchRow[] =>
  text
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as BatchRow);

async function rowsFor(body: unknown): Promise<BatchRow[]> {
  const response = await post(await testApp(), "/v1/fit/batch", body);
  if (response.status !== 200) throw new Error(await response.text());
  expect(response.headers.get("content-type")).toBe("application/x-ndjson");
  return rowsOf(await response.text());
}

describe("a batch", () => {
  it("answers every rig at every site, site by site, with the same fit as one alone", async () => {
    const app = await testApp();
    const rows = await rowsFor({ rigs: [rig, SHORT_CORD], sites: [A7, B2], answers: "full", options: { units: "us" } });
    expect(
      rows.map(({ row, of, rig: one, site, siteId, campground }) => [row, of, one, site, siteId, campground]),
    ).toEqual([
      [0, 4, 0, 0, "A7", "alder-flat"],
      [1, 4, 1, 0, "A7", "alder-flat"],
      [2, 4, 0, 1, "B2", "alder-flat"],
      [3, 4, 1, 1, "B2", "alder-flat"],
    ]);
    const pairs = [
      [rig, A7],
      [SHORT_CORD, A7],
      [rig, B2],
      [SHORT_CORD, B2],
    ] as const;
    for (const [index, [one, site]] of pairs.entries()) {
      const alone = await (await post(app, "/v1/fit", { rig: one, site, options: { units: "us" } })).json();
      expect(rows[index]?.fit).toEqual(alone);
    }
    expect(rows[0]?.fit?.verdict).not.toBe(rows[1]?.fit?.verdict);
  });

  it("takes sites that are sent, with their campground, and all sites of a stored one", async () => {
    const { site, campground } = EXAMPLE_FIT_REQUEST;
    const [sent] = await rowsFor({ rigs: [rig], sites: [site], campground });
    expect(sent).toMatchObject({ campground: null, siteId: "A7", errors: [] });
    const stored = await rowsFor({ rigs: [rig], campgrounds: ["alder-flat"] });
    expect(stored.map(({ siteId }) => siteId)).toEqual(["A7", "B2"]);
    const { lines, verdict } = sent?.fit ?? {};
    expect(stored[0]?.fit).toMatchObject({ lines, verdict });
    expect(stored[0]?.fit).toHaveProperty("bestMargin");
    expect(stored[0]?.fit).not.toHaveProperty("checks");
  });

  it("tells a bad rig or site in its rows, where it stands in the request, and answers the others", async () => {
    const bad = { ...rig, length: "long" };
    const rows = await rowsFor({ rigs: [rig, bad], sites: [A7, { campground: "alder-flat", site: "Z9" }, 5] });
    expect(rows.map(({ fit, errors }) => [fit !== null, errors.map(({ pointer }) => pointer)])).toEqual([
      [true, []],
      [false, ["/rigs/1/length"]],
      [false, ["/sites/1/site"]],
      [false, ["/rigs/1/length", "/sites/1/site"]],
      [false, ["/sites/2"]],
      [false, ["/rigs/1/length", "/sites/2"]],
    ]);
    expect(rows[2]?.errors[0]).toMatchObject({ code: "not-found" });
  });

  it("comes as a sequence of Features when asked (RFC 8142)", async () => {
    const response = await post(await testApp(), "/v1/fit/batch", { rigs: [rig], sites: [A7, B2] }, SEQUENCE);
    expect(response.headers.get("content-type")).toBe("application/geo+json-seq");
    const text = await response.text();
    const features = text
      .split("\u001e")
      .slice(1)
      .map((one) => {
        expect(one.endsWith("\n")).toBe(true);
        return JSON.parse(one);
      });
    expect(features.map(({ type, id, geometry }) => [type, id, geometry])).toEqual(
      EXAMPLE_COLLECTION.features.map(({ geometry }, index) => ["Feature", String(index), geometry]),
    );
    expect(features[1].properties).toMatchObject({ row: 1, of: 2, siteId: "B2", errors: [] });
  });

  it("computes what is read and no more, and stops when nobody reads", async () => {
    const { store } = await memoryStore([{ name: "example", input: EXAMPLE_COLLECTION }]);
    const asked: string[] = [];
    const counting = {
      list: store.list,
      version: store.version,
      get: (id: string) => {
        asked.push(id);
        return store.get(id);
      },
    };
    const app = await testApp(undefined, { store: counting });
    const response = await post(app, "/v1/fit/batch", { rigs: [rig], sites: Array.from({ length: 40 }, () => A7) });
    expect(asked).toHaveLength(0);
    const reader = (response.body as ReadableStream<Uint8Array>).getReader();
    await reader.read();
    await reader.read();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(asked).toHaveLength(2);
    await reader.cancel();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(asked).toHaveLength(2);
  });

  it("judges the wind of each site when asked", async () => {
    const body = { rigs: [rig], sites: [A7], answers: "full", when: { wind: "30 mph from SW" } };
    const alone = await (await post(await testApp(), "/v1/fit", { rig, site: A7, when: body.when })).json();
    expect((await rowsFor(body))[0]?.fit).toEqual(alone);
  });
});

describe("a batch that cannot be used", () => {
  it.each([
    ["no rig", { rigs: [], sites: [A7] }, 422, "invalid-request"],
    ["neither sites nor campgrounds", { rigs: [rig] }, 422, "invalid-request"],
    ["both", { rigs: [rig], sites: [A7], campgrounds: ["alder-flat"] }, 422, "invalid-request"],
    ["an unknown campground", { rigs: [rig], campgrounds: ["alder-flat", "nowhere"] }, 422, "invalid-request"],
    ["an unknown member", { rigs: [rig], sites: [A7], speed: 1 }, 422, "invalid-request"],
    ["no JSON", "{", 400, "malformed-json"],
  ])("is refused before the first row: %s", async (_, body, status, code) => {
    await problemIn(await post(await testApp(), "/v1/fit/batch", body), status, code);
  });

  it("is refused when it holds too many pairs, or more than the caller may ask", async () => {
    const small = await testApp(undefined, { limits: { pairsPerBatch: 3 } });
    const body = { rigs: [rig, rig], sites: [A7, B2] };
    await problemIn(await post(small, "/v1/fit/batch", body), 422, "too-many-sites");
    const rate = { policy: { quota: 4, window: 60 }, store: memoryRates(), keyOf: async () => "one" };
    const limited = await testApp(undefined, { rate });
    const many = { rigs: [rig], sites: Array.from({ length: 41 }, () => A7) };
    const first = await post(limited, "/v1/fit/batch", many);
    // Forty-one fits are three units.
    expect(first.headers.get("ratelimit")).toBe('"default";r=1;t=60');
    await first.body?.cancel();
    await problemIn(await post(limited, "/v1/fit/batch", many), 429, "rate-limited");
  });
});
