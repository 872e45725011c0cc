import { beforeAll, describe, expect, it } from "vitest";
import type * as z from "zod";
import { EXAMPLE_CAMPGROUND, EXAMPLE_RIG, EXAMPLE_SITE } from "../../src/http/openapi/examples.ts";
import { searchAnswerSchema } from "../../src/http/schemas/search-answer.ts";
import { post, problemIn, type TestApp, testApp } from "./helpers.ts";

type Answer = z.infer<typeof searchAnswerSchema>;

/** A site like the example's, somewhere else, with some properties of its own. */
const siteAt = (id: string, longitude: number, latitude: number, properties: Record<string, unknown> = {}) => ({
  ...EXAMPLE_SITE,
  id,
  properties: {
    ...EXAMPLE_SITE.properties,
    name: id,
    pad: { ...EXAMPLE_SITE.properties.pad, origin: [longitude, latitude] },
    ...properties,
  },
});
const camp = (id: string, features: unknown[]) => ({
  name: id,
  input: { type: "FeatureCollection", campground: { ...EXAMPLE_CAMPGROUND, id, name: `${id} (invented)` }, features },
});

/** Two campgrounds inland and one on both sides of the antimeridian. */
const SOURCES = [
  camp("north", [
    siteAt("N1", -106.2, 39.9),
    siteAt("N2", -106.201, 39.901, { layout: "pull-through", facings: undefined }),
    siteAt("N3", -106.202, 39.902, { services: { power: "yes" }, accessible: "yes" }),
    { type: "Feature", id: "N4", geometry: null, properties: { kind: "site", name: "N4", services: { power: "no" } } },
    { type: "Feature", id: "N5", geometry: null, properties: { kind: "site", name: "N5", pad: { length: "long" } } },
  ]),
  camp("south", [siteAt("S10", -106.1, 38.5), siteAt("S9", -106.1, 38.501), siteAt("S2", -106.1, 38.502)]),
  camp("date-line", [siteAt("E", 179.999, -17), siteAt("W", -179.999, -17)]),
];

let app: TestApp;
beforeAll(async () => {
  app = await testApp(SOURCES);
});

const search = async (question: Record<string, unknown>): Promise<Answer> => {
  const response = await post(app, "/v1/search", { rig: EXAMPLE_RIG, ...question });
  const text = await response.text();
  expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
  expect(response.headers.get("content-type")).toBe("application/geo+json");
  const answer = JSON.parse(text) as unknown;
  expect(searchAnswerSchema.parse(answer)).toEqual(answer);
  return answer as Answer;
};
const idsOf = (answer: Answer) => answer.features.map((feature) => feature.id);

describe("POST /v1/search", () => {
  it("judges every site of a campground; a broken record comes last as an error in its row", async () => {
    const answer = await search({ campground: "north" });
    expect(idsOf(answer).sort()).toEqual(["north/N1", "north/N2", "north/N3", "north/N4", "north/N5"]);
    expect(answer.features.map((feature) => feature.properties.rank)).toEqual([1, 2, 3, 4, 5]);
    const last = answer.features.at(-1);
    expect(last).toMatchObject({ id: "north/N5", geometry: null, properties: { fit: null } });
    expect(last?.properties.errors[0]?.pointer).toBe("/features/4/properties/pad/length");
    for (const feature of answer.features.slice(0, -1)) {
      expect(feature.properties.fit?.verdict).toBeTypeOf("string");
      expect(feature.properties.errors).toEqual([]);
    }
  });

  it("says for each site what a fit of it alone says", async () => {
    const answer = await search({ campground: "north", needs: { sewer: "required" } });
    for (const { properties } of answer.features.filter((feature) => feature.properties.fit !== null)) {
      const site = { campground: properties.campground, site: properties.site };
      const response = await post(app, "/v1/fit", {
        rig: EXAMPLE_RIG,
        site,
        options: { needs: { sewer: "required" } },
      });
      const { verdict, headline, bestMargin } = (await response.json()) as Record<string, unknown>;
      expect(properties.fit).toMatchObject({ verdict, headline, bestMargin });
    }
  });

  it("finds by box, also across the antimeridian, and never a site without a place", async () => {
    const inland = await search({ bbox: [-106.2015, 39, -106, 40] });
    expect(idsOf(inland).sort()).toEqual(["north/N1", "north/N2", "north/N5"]);
    expect(inland.features.at(-1)?.properties.fit).toBeNull();
    expect(inland.notShown).toEqual({
      filteredOut: 0,
      filterUnknown: 0,
      withoutPlace: 1,
      cannotServe: { campgrounds: 0, sites: 0 },
    });
    expect(idsOf(await search({ bbox: [179.9, -18, -179.9, -16] })).sort()).toEqual(["date-line/E", "date-line/W"]);
    expect(idsOf(await search({ bbox: [179.9, -18, 180, -16] }))).toEqual(["date-line/E"]);
    expect(idsOf(await search({ bbox: [-179.9, -18, 179.9, -16] }))).toEqual([]);
  });

  it("finds by circle and sorts by distance", async () => {
    const answer = await search({ near: { longitude: -106.1, latitude: 38.503 }, radius: "180 m", sort: "distance" });
    expect(idsOf(answer)).toEqual(["south/S2"]);
    const wider = await search({ near: { longitude: -106.1, latitude: 38.503 }, radius: 400, sort: "distance" });
    expect(idsOf(wider)).toEqual(["south/S2", "south/S9", "south/S10"]);
    // 0.001 degrees of latitude are 111.2 m on a sphere of 6,371 km.
    expect(wider.features.map((feature) => Math.round(feature.properties.distance ?? 0))).toEqual([111, 222, 334]);
  });

  it("sorts by name as people count", async () => {
    expect(idsOf(await search({ campground: "south", sort: "name" }))).toEqual(["south/S2", "south/S9", "south/S10"]);
  });

  it("filters by the record; what the record does not say is left out and counted, or kept on demand", async () => {
    const sewer = await search({ campground: "north", filters: { services: ["power", "sewer"] } });
    expect(idsOf(sewer).slice(0, -1).sort()).toEqual(["north/N1", "north/N2"]);
    expect(sewer.notShown).toMatchObject({ filteredOut: 2, filterUnknown: 1 });
    const kept = await search({ campground: "north", filters: { services: ["power", "sewer"], unknown: "keep" } });
    expect(idsOf(kept).slice(0, -1).sort()).toEqual(["north/N1", "north/N2", "north/N3"]);
    expect(idsOf(await search({ campground: "north", filters: { layout: ["pull-through"] } }))[0]).toBe("north/N2");
    expect(idsOf(await search({ campground: "north", filters: { accessible: true } }))[0]).toBe("north/N3");
  });

  it("filters by the answer", async () => {
    const all = await search({ campground: "north" });
    const margins = all.features.map((feature) => feature.properties.fit?.bestMargin ?? null);
    const best = Math.max(...margins.filter((margin) => margin !== null));
    const none = await search({ campground: "north", filters: { minMargin: best + 0.001 } });
    expect(idsOf(none)).toEqual(["north/N5"]);
    const some = await search({ campground: "north", filters: { minMargin: best } });
    expect(some.features[0]?.properties.fit?.bestMargin).toBe(best);
    const verdict = all.features[0]?.properties.fit?.verdict;
    const same = await search({ campground: "north", filters: { verdicts: [verdict] } });
    for (const feature of same.features.slice(0, -1)) expect(feature.properties.fit?.verdict).toBe(verdict);
  });

  it("pages without overlap, by the body or by the next link, and refuses a cursor of another question", async () => {
    const whole = await search({ campground: "north" });
    const first = await search({ campground: "north", limit: 2 });
    expect([first.numberMatched, first.numberReturned]).toEqual([5, 2]);
    const second = await search({ campground: "north", limit: 2, cursor: first.nextCursor });
    const next = second.links.find((link) => link.rel === "next")?.href ?? "";
    const response = await post(app, next, { rig: EXAMPLE_RIG, campground: "north", limit: 2 });
    expect(response.headers.get("link")).toBe(`<${next}>; rel="self"`);
    const third = (await response.json()) as Answer;
    expect([...idsOf(first), ...idsOf(second), ...idsOf(third)]).toEqual(idsOf(whole));
    expect(third.nextCursor).toBeNull();
    const other = { rig: EXAMPLE_RIG, campground: "south", cursor: first.nextCursor };
    await problemIn(await post(app, "/v1/search", other), 400, "invalid-cursor");
    const changed = await testApp(SOURCES.slice(0, 2));
    const same = { rig: EXAMPLE_RIG, campground: "north", cursor: first.nextCursor };
    await problemIn(await post(changed, "/v1/search", same), 410, "stale-cursor");
  });

  it("stops when the time is over, says so, and goes on from there when asked again", async () => {
    let now = 0;
    // Every look at the clock takes a second: the start, one a site.
    const clock = () => (now += 1000);
    const slow = await testApp(SOURCES, { clock, limits: { searchMilliseconds: 2500 } });
    const question = { rig: EXAMPLE_RIG, campground: "south", limit: 2 };
    const ask = async () => (await (await post(slow, "/v1/search", question)).json()) as Answer;
    const first = await ask();
    expect([first.incomplete, first.nextCursor, first.numberMatched]).toEqual([true, null, 3]);
    const second = await ask();
    expect(second.incomplete).toBe(false);
    expect(second.nextCursor).not.toBeNull();
    expect(idsOf(second)).toEqual(idsOf(await search({ campground: "south", limit: 2 })));
    const whole = { ...question, limit: 3 };
    const late = (await (
      await post(await testApp(SOURCES, { clock, limits: { searchMilliseconds: 2500 } }), "/v1/search", whole)
    ).json()) as Answer;
    expect(late.features.map((feature) => feature.properties.errors[0]?.code)).toEqual([
      undefined,
      undefined,
      "out-of-time",
    ]);
  });

  it("refuses more sites than the limit", async () => {
    const small = await testApp(SOURCES, { limits: { sitesPerSearch: 2, sitesPerLook: 4 } });
    const refused = async (question: Record<string, unknown>) => {
      const reply = await post(small, "/v1/search", { rig: EXAMPLE_RIG, ...question });
      return (await problemIn(reply, 422, "too-many-sites")).errors[0]?.expected;
    };
    expect(await refused({ bbox: [-107, 38, -106, 40] })).toBe("at most 4 sites");
    expect(await refused({ campground: "south", ranking: "whole" })).toBe("at most 2 sites");
    expect(await refused({ campground: "south", sort: "exposure" })).toBe("at most 2 sites");
  });

  it("finds along a route, the nearest to it first", async () => {
    const route = [
      [-106.3, 39.9],
      [-106.1, 39.9],
    ];
    const wide = await search({ along: { route, corridor: "400 m" }, sort: "distance" });
    expect(idsOf(wide)).toEqual(["north/N1", "north/N2", "north/N3", "north/N5"]);
    expect(wide.features.slice(0, 3).map(({ properties }) => Math.round((properties.distance ?? 0) / 10))).toEqual([
      0, 11, 22,
    ]);
    expect(idsOf(await search({ along: { route, corridor: 150 } })).sort()).toEqual([
      "north/N1",
      "north/N2",
      "north/N5",
    ]);
  });

  it("ranks many sites by quick looks and fits those of the page alone", async () => {
    const small = await testApp(SOURCES, { limits: { sitesPerSearch: 1 } });
    const ask = async (question: Record<string, unknown>) => {
      const reply = await post(small, "/v1/search", { rig: EXAMPLE_RIG, ...question });
      return searchAnswerSchema.parse(await reply.json());
    };
    const first = await ask({ campground: "south", limit: 2 });
    expect([first.ranking, idsOf(first), first.numberMatched]).toEqual(["nominal", ["south/S2", "south/S9"], 3]);
    const second = await ask({ campground: "south", limit: 2, cursor: first.nextCursor });
    expect(idsOf(second)).toEqual(["south/S10"]);
    for (const { properties } of [...first.features, ...second.features]) {
      expect(properties.nominal?.state).toBe("reaches");
      expect(properties.fit?.verdict).toBe("fits");
      expect(properties.errors).toEqual([]);
    }
    const whole = await search({ campground: "south" });
    expect(whole.ranking).toBe("whole");
    expect(whole.features.every(({ properties }) => properties.nominal === null)).toBe(true);
    const named = await search({ campground: "south", ranking: "nominal", sort: "name" });
    expect(idsOf(named)).toEqual(["south/S2", "south/S9", "south/S10"]);
  });

  it("gives an error in its row for a site that breaks the engine, and logs it", async () => {
    const logged: unknown[] = [];
    const whole = await testApp(SOURCES);
    const { memoryStore } = await import("../../src/records/store.ts");
    const { store } = await memoryStore(SOURCES);
    const broken = await testApp(SOURCES, {
      log: (entry) => logged.push(entry.error),
      store: {
        ...store,
        get: async (id) => {
          const stored = await store.get(id);
          if (stored === null) return null;
          // A record that slipped past every check: its properties throw when they are looked at.
          const features = stored.features.map((feature) =>
            feature.id === "S9"
              ? {
                  ...feature,
                  get properties(): Record<string, unknown> {
                    return trap;
                  },
                }
              : feature,
          );
          return { ...stored, features };
        },
      },
    });
    const question = { rig: EXAMPLE_RIG, campground: "south" };
    const answer = (await (await post(broken, "/v1/search", question)).json()) as Answer;
    const good = (await (await post(whole, "/v1/search", question)).json()) as Answer;
    expect(answer.features.at(-1)).toMatchObject({
      id: "south/S9",
      properties: { fit: null, errors: [{ code: "internal-error" }] },
    });
    expect(idsOf(answer).slice(0, 2)).toEqual(idsOf(good).filter((id) => id !== "south/S9"));
    expect(logged).toEqual([expect.any(Error)]);
  });

  it.each([
    [{}, "", "where"],
    [{ campground: "north", bbox: [0, 0, 1, 1] }, "/bbox", "where"],
    [{ near: { longitude: 0, latitude: 0 } }, "/radius", "where"],
    [{ campground: "north", radius: 3 }, "/near", "where"],
    [{ bbox: [0, 2, 1, 1] }, "/bbox/1", "where"],
    [{ bbox: [39, -106, 40, -105] }, "/bbox/1", "too-small"],
    [{ bbox: [0, 0, 1] }, "/bbox", "too-short"],
    [{ campground: "nowhere" }, "/campground", "not-found"],
    [{ campground: "north", needs: {}, options: { needs: {} } }, "/options/needs", "where"],
    [{ campground: "north", sort: "distance" }, "/sort", "where"],
    [{ campground: "north", limit: 0 }, "/limit", "too-small"],
    [{ campground: "north", filter: {} }, "/filter", "unknown-key"],
  ])("refuses %j at %s", async (question, pointer, code) => {
    const { errors } = await problemIn(
      await post(app, "/v1/search", { rig: EXAMPLE_RIG, ...question }),
      422,
      "invalid-request",
    );
    expect(errors.map((error) => [error.pointer, error.code])).toContainEqual([pointer, code]);
  });
});

/** A site whose word for shade, which only its own fit reads, throws when it is looked at. */
const trap: Record<string, unknown> = new Proxy(
  { ...EXAMPLE_SITE.properties, name: "S9", shade: "none" },
  {
    get(target, key) {
      if (key === "shade") throw new Error("a fault of ours");
      return Reflect.get(target, key) as unknown;
    },
  },
);
