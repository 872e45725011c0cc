/** The wind through the whole HTTP path, the forecast hosts mocked. Sites, rigs and winds are invented. */
import { delay, HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type * as z from "zod";
import {
  EXAMPLE_CAMPGROUND,
  EXAMPLE_FIT_REQUEST,
  EXAMPLE_RIG,
  EXAMPLE_SITE,
  EXAMPLE_WIND_REQUEST,
} from "../../src/http/openapi/examples.ts";
import { fitAnswerSchema } from "../../src/http/schemas/answer.ts";
import { searchAnswerSchema } from "../../src/http/schemas/search-answer.ts";
import { windReportSchema } from "../../src/http/schemas/wind.ts";
import { type ForecastConfiguration, forecastService } from "../../src/records/forecast/service.ts";
import { GRID, gridReply, NOON, pointReply } from "../records/forecast/replies.ts";
import { post, problemIn, testApp } from "./helpers.ts";

const server = setupServer();
beforeAll(() => server.listen({ onUnhandledRequest: "error" }));
afterEach(() => server.resetHandlers());
afterAll(() => server.close());

const POINT = "https://api.weather.gov/points/39.84,-106.21";
const STAY = { from: "2026-07-04", to: "2026-07-05" };
const CONFIGURATION: ForecastConfiguration = {
  weatherService: { contact: "ops@campground.example" },
  limits: { timeout: 500, attempts: 1 },
};
const clock = { now: () => NOON, sleep: () => Promise.resolve() };

function feeds(configuration: ForecastConfiguration = CONFIGURATION) {
  return forecastService(configuration, { fetch: (address, init) => fetch(address, init), clock });
}

function weatherServiceAnswers() {
  server.use(
    http.get(POINT, () => HttpResponse.json(pointReply())),
    http.get(GRID, () => HttpResponse.json(gridReply())),
  );
}

type App = Awaited<ReturnType<typeof testApp>>;

async function fitOf(app: App, body: unknown) {
  const response = await post(app, "/v1/fit", body);
  const text = await response.text();
  expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
  const answer = JSON.parse(text) as z.infer<typeof fitAnswerSchema>;
  expect(fitAnswerSchema.strict().parse(answer)).toEqual(answer);
  return answer;
}

async function windOf(app: App, body: unknown) {
  const response = await post(app, "/v1/wind", body);
  const text = await response.text();
  expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
  const answer = JSON.parse(text) as z.infer<typeof windReportSchema>;
  expect(windReportSchema.strict().parse(answer)).toEqual(answer);
  return answer;
}

const hoursOf = ({ awning }: z.infer<typeof fitAnswerSchema>) => awning[0]!.hours!;

describe("a fit over the days of a stay", () => {
  it("fetches the forecast of the place and tells the hours in the campground's time zone", async () => {
    weatherServiceAnswers();
    const app = await testApp(undefined, { forecasts: feeds() });
    const fit = await fitOf(app, { ...EXAMPLE_FIT_REQUEST, when: STAY });
    const hours = hoursOf(fit);
    expect(hours).toHaveLength(48);
    // The feed has a gust of 36 km/h from 18:00 to 21:00 UTC, which is noon to three o'clock there.
    const known = hours.filter(({ gust }) => gust !== null);
    expect(known.map(({ local, gust, from }) => [local, gust, from])).toEqual([
      ["2026-07-04T12:00-06:00", 10, [270]],
      ["2026-07-04T13:00-06:00", 10, [270]],
      ["2026-07-04T14:00-06:00", 10, [315]],
    ]);
    expect(fit.wind).toMatchObject({
      asked: "stay",
      problem: null,
      forecast: { attribution: "Forecast: US National Weather Service", issuedAt: "2026-07-04T11:20:00.000Z" },
      stay: { timeZone: "America/Denver", timeZoneGiven: true, asOf: "2026-07-04T12:00:00.000Z" },
    });
    expect(fit.awning[0]!.wind).toMatchObject({ of: "worst hour", gust: 10 });
    expect(fit.sources).toContain("Forecast: US National Weather Service");
    // Of the three only the wind from the northwest blows into the awning, which opens to 302 degrees.
    expect(fit.headline).toContain("Awning in Saturday 14:00 to 15:00; 47 of 48 awning hours unknown");
  });

  const down: readonly (readonly [string, () => Response | Promise<Response>, string])[] = [
    ["fails", () => new HttpResponse(null, { status: 503 }), "service-failing"],
    ["cannot be reached", () => HttpResponse.error(), "unreachable"],
    ["answers with a page", () => HttpResponse.text("<p>later</p>"), "not-json"],
    ["does not cover the place", () => new HttpResponse(null, { status: 404 }), "not-covered"],
  ];
  it.each(down)("is answered all the same when the feed %s", async (_, resolver, code) => {
    server.use(http.get(POINT, resolver));
    const app = await testApp(undefined, { forecasts: feeds() });
    const fit = await fitOf(app, { ...EXAMPLE_FIT_REQUEST, when: STAY });
    const plain = await fitOf(app, EXAMPLE_FIT_REQUEST);
    expect(fit.wind).toMatchObject({ forecast: null, problem: { code } });
    expect(hoursOf(fit).every(({ signal, why }) => signal === "unknown" && why === fit.wind!.problem!.text)).toBe(true);
    expect(fit.headline).toContain("Awning hours unknown");
    expect([fit.verdict, fit.lines, fit.stance, fit.kit]).toEqual([
      plain.verdict,
      plain.lines,
      plain.stance,
      plain.kit,
    ]);
  });

  it("waits no longer than its patience for a host that is silent", async () => {
    server.use(http.get(POINT, () => delay("infinite")));
    const forecasts = feeds({ ...CONFIGURATION, limits: { timeout: 60_000, attempts: 1 } });
    const app = await testApp(undefined, { forecasts, limits: { forecastMilliseconds: 50 } });
    const fit = await fitOf(app, { ...EXAMPLE_FIT_REQUEST, when: STAY });
    expect(fit.wind!.problem).toMatchObject({ code: "timed-out" });
    expect(hoursOf(fit).every(({ signal }) => signal === "unknown")).toBe(true);
  });

  it("says so when no feed is set up, and asks no host", async () => {
    const fit = await fitOf(await testApp(), { ...EXAMPLE_FIT_REQUEST, when: STAY });
    expect(fit.wind!.problem).toMatchObject({ code: "no-provider" });
  });

  it("asks no host for a fit without days, nor for one that is refused", async () => {
    const app = await testApp(undefined, { forecasts: feeds() });
    const fit = await fitOf(app, EXAMPLE_FIT_REQUEST);
    expect([fit.wind, fit.awning[0]!.hours]).toEqual([null, null]);
    const body = { ...EXAMPLE_FIT_REQUEST, when: STAY, rig: { ...EXAMPLE_RIG, length: "long" } };
    await problemIn(await post(app, "/v1/fit", body), 422, "invalid-request");
  });

  it("is replayed with a forecast that the caller brings, and reads no clock then", async () => {
    const { when } = EXAMPLE_WIND_REQUEST;
    const at = async (now: number) =>
      fitOf(await testApp(undefined, { now: () => now }), { ...EXAMPLE_FIT_REQUEST, when });
    const fit = await at(0);
    expect(fit).toEqual(await at(NOON));
    expect(fit.headline).toContain("Awning in Saturday 14:00 to 16:00; 21 of 24 awning hours unknown");
    expect(hoursOf(fit)[14]).toMatchObject({ signal: "retract", from: [180], gust: expect.closeTo(15.1994, 3) });
    expect(hoursOf(fit)[13]).toMatchObject({ signal: "no retract signal" });
    expect(hoursOf(fit)[15]!.why).toContain("thunderstorm");
  });

  it("names every fault of `when` by its place", async () => {
    const of = async (when: unknown) =>
      (
        await problemIn(
          await post(await testApp(), "/v1/fit", { ...EXAMPLE_FIT_REQUEST, when }),
          422,
          "invalid-request",
        )
      ).errors;
    expect(await of({ wind: "20 mhp from SW" })).toMatchObject([{ pointer: "/when/wind", code: "unknown-unit" }]);
    expect(await of({ from: "2026-07-04" })).toMatchObject([{ pointer: "/when/to", code: "missing" }]);
    expect(await of({ ...STAY, wnd: 1 })).toMatchObject([{ pointer: "/when/wnd", code: "unknown-key" }]);
    expect((await of({ ...STAY, wind: "20 mph" })).map(({ pointer }) => pointer)).toEqual(["/when/from", "/when/to"]);
  });
});

describe("POST /v1/wind", () => {
  it("gives rose, exposure, prevailing wind and hours of one site alone", async () => {
    const report = await windOf(await testApp(), EXAMPLE_WIND_REQUEST);
    expect(report.exposureRose!.sectors.map(({ word }) => word).slice(0, 5)).toEqual(["N", "NNE", "NE", "ENE", "E"]);
    const west = report.exposureRose!.sectors[12]!;
    expect(west).toMatchObject({
      from: 270,
      word: "W",
      by: { id: "west-belt", kind: "trees", height: expect.closeTo(9, 9) },
    });
    expect(west.ratioLow).toBeLessThanOrEqual(west.ratio);
    expect(west.ratio).toBeLessThanOrEqual(west.ratioHigh);
    expect(west.ratio).toBeLessThan(report.exposureRose!.sectors[4]!.ratio);
    expect(report.exposure!.prevailing).toMatchObject({ from: 270, ratio: expect.any(Number) });
    // The pad's axis runs to 212 degrees; its right side looks to 302.
    expect(report.awning).toMatchObject({ azimuth: 302, windClass: 2, wind: { windClass: 2, classAssumed: false } });
    expect(report.awning.hours).toHaveLength(24);
    expect(report.exposureRose!.season).toBe("on");
    // Class 2 stands the gust from the south, within its limit but not within its band; the thunderstorm stands alone.
    expect(report.headline).toContain("Awning in Saturday 15:00 to 16:00; 22 of 24 awning hours unknown");
    expect(report.awning.hours![14]).toMatchObject({ signal: "unknown", level: "high" });
  });

  it("needs neither an awning nor days, and knows a stored site", async () => {
    const report = await windOf(await testApp(), { site: { campground: "alder-flat", site: "A7" } });
    expect(report).toMatchObject({ awning: { azimuth: null, windClass: null, wind: null, hours: null }, wind: null });
    expect(report.dataVersion).not.toBeNull();
    expect(report.exposure!.level).toBe("unknown");
  });

  it("judges a wind by hand, straight in where nobody knows the awning's side", async () => {
    const body = { site: EXAMPLE_SITE, when: { wind: "gusting 30 mph from SW" } };
    const open = await windOf(await testApp(), body);
    expect(open.awning.wind).toMatchObject({ level: "retract", gust: expect.closeTo(13.4112, 6), from: [225] });
    const behind = await windOf(await testApp(), { ...body, awning: { azimuth: "NE", class: 3, height: "8 ft" } });
    expect(behind.awning.wind!.pressure!).toBeLessThan(open.awning.wind!.pressure!);
    expect(behind.exposureRose!.height).toBeCloseTo(2.4384, 9);
  });

  it("draws the rose of the same answer", async () => {
    const response = await post(await testApp(), "/v1/wind", EXAMPLE_WIND_REQUEST, { Accept: "image/svg+xml" });
    expect(response.headers.get("content-type")).toBe("image/svg+xml");
    expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
    const drawing = await response.text();
    expect(drawing).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
    for (const part of ["awning", "prevailing", "forecast"]) expect(drawing).toContain(`data-part="${part}"`);
  });

  it("knows nothing of a site without a place, and draws nothing then", async () => {
    const { origin: _, ...pad } = EXAMPLE_SITE.properties.pad;
    const site = { ...EXAMPLE_SITE, properties: { ...EXAMPLE_SITE.properties, pad } };
    const app = await testApp(undefined, { forecasts: feeds() });
    const report = await windOf(app, { site, when: STAY, campground: EXAMPLE_CAMPGROUND });
    expect([report.exposure, report.exposureRose, report.wind!.problem?.code]).toEqual([null, null, "bad-place"]);
    expect(report.awning.hours!.every(({ signal }) => signal === "unknown")).toBe(true);
    const drawn = await post(app, "/v1/wind", { site }, { Accept: "image/svg+xml" });
    expect((await problemIn(drawn, 422, "invalid-request")).errors[0]!.pointer).toBe("/site");
  });

  it("lists every fault at once", async () => {
    const body = {
      site: { ...EXAMPLE_SITE, properties: { ...EXAMPLE_SITE.properties, heading: "north" } },
      awning: { padSide: "right", azimuth: "SW", clas: 2 },
      when: { wind: "breezy" },
    };
    const { errors } = await problemIn(await post(await testApp(), "/v1/wind", body), 422, "invalid-request");
    const pointers = errors.map(({ pointer }) => pointer);
    expect(pointers).toEqual(expect.arrayContaining(["/site/properties/heading", "/awning/clas", "/when/wind"]));
    const twice = { site: EXAMPLE_SITE, awning: { padSide: "right", azimuth: "SW" } };
    const conflict = await problemIn(await post(await testApp(), "/v1/wind", twice), 422, "invalid-request");
    expect(conflict.errors).toMatchObject([{ pointer: "/awning/azimuth", code: "conflict" }]);
  });
});

/** Two pads in open country, one behind a belt of trees to its southwest, one without a place. */
function windyCamp(prevailing: boolean) {
  const at = (id: string, longitude: number | null) => ({
    ...EXAMPLE_SITE,
    id,
    properties: {
      ...EXAMPLE_SITE.properties,
      name: id,
      pad:
        longitude === null ? { length: 14, width: 4 } : { ...EXAMPLE_SITE.properties.pad, origin: [longitude, 39.85] },
    },
  });
  const ring = (west: number, south: number, east: number, north: number) => ({
    type: "Polygon",
    coordinates: [
      [
        [west, south],
        [east, south],
        [east, north],
        [west, north],
        [west, south],
      ],
    ],
  });
  const belt = { kind: "shelter", what: "trees", height: 11, porosity: 0.4, leaf: "evergreen" };
  return {
    type: "FeatureCollection",
    campground: {
      ...EXAMPLE_CAMPGROUND,
      id: "windy",
      ...(prevailing ? { prevailingWind: { from: "SW", basis: "described" } } : {}),
    },
    features: [
      at("open", -106.22),
      at("lee", -106.2),
      at("nowhere", null),
      {
        type: "Feature",
        id: "field",
        geometry: ring(-106.24, 39.83, -106.18, 39.87),
        properties: { kind: "ground", what: "open" },
      },
      { type: "Feature", id: "belt", geometry: ring(-106.2012, 39.8484, -106.2006, 39.8512), properties: belt },
      { type: "Feature", id: "south", geometry: ring(-106.2012, 39.8484, -106.199, 39.8494), properties: belt },
    ],
  };
}

describe("a search in the wind", () => {
  const searchIn = async (prevailing: boolean, more: object) => {
    const app = await testApp([{ name: "windy", input: windyCamp(prevailing) }]);
    const response = await post(app, "/v1/search", { rig: EXAMPLE_RIG, campground: "windy", ...more });
    const text = await response.text();
    expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
    const answer = JSON.parse(text) as z.infer<typeof searchAnswerSchema>;
    expect(searchAnswerSchema.parse(answer)).toEqual(answer);
    return { ...answer, sites: answer.features.map(({ properties }) => properties.site) };
  };

  it("keeps the sites sheltered from a wind and counts those of which nothing is known", async () => {
    const found = await searchIn(false, { filters: { shelteredFrom: "SW" } });
    expect([found.sites, found.notShown]).toEqual([
      ["lee"],
      { filteredOut: 2, filterUnknown: 1, withoutPlace: 0, cannotServe: { campgrounds: 0, sites: 0 } },
    ]);
    const { sheltered, fit } = found.features[0]!.properties;
    expect(sheltered).toMatchObject({ from: 225, level: expect.stringMatching(/low|moderate/) });
    expect(fit!.exposure).toMatchObject({ level: "moderate", prevailing: null });
    const kept = await searchIn(false, { filters: { shelteredFrom: 225, unknown: "keep" } });
    expect([...kept.sites].sort()).toEqual(["lee", "nowhere"]);
  });

  it("knows the prevailing wind where the record states it, and nothing where it does not", async () => {
    const stated = await searchIn(true, { filters: { shelteredFrom: "prevailing" } });
    expect(stated.sites).toEqual(["lee"]);
    expect(stated.features[0]!.properties.fit!.exposure!.prevailing).toMatchObject({ from: 225 });
    const silent = await searchIn(false, { filters: { shelteredFrom: "prevailing" } });
    expect([silent.sites, silent.notShown.filterUnknown]).toEqual([[], 3]);
  });

  it("orders by exposure, unknown last, and filters by its word", async () => {
    expect((await searchIn(false, { sort: "exposure" })).sites).toEqual(["lee", "open", "nowhere"]);
    expect(
      (await searchIn(false, { sort: "exposure", filters: { shelteredFrom: "NE", unknown: "keep" } })).sites,
    ).toEqual(["nowhere"]);
    expect((await searchIn(false, { filters: { exposure: ["high"] } })).sites).toEqual(["open"]);
    expect((await searchIn(false, { filters: { exposure: ["low"] } })).sites).toEqual([]);
  });

  it("refuses a wind from nowhere", async () => {
    const app = await testApp();
    const body = { rig: EXAMPLE_RIG, campground: "alder-flat", filters: { shelteredFrom: "up" } };
    const { errors } = await problemIn(await post(app, "/v1/search", body), 422, "invalid-request");
    expect(errors).toMatchObject([
      { pointer: "/filters/shelteredFrom", message: expect.stringContaining("prevailing") },
    ]);
  });
});

describe("which feeds are set up", () => {
  it("is told among the limits", async () => {
    const feedsOf = async (app: App) =>
      ((await (await app.request("/v1/limits")).json()) as { forecastFeeds: string[] }).forecastFeeds;
    expect(await feedsOf(await testApp())).toEqual([]);
    const both = feeds({ ...CONFIGURATION, openMeteo: { contact: "ops@campground.example", terms: "non-commercial" } });
    expect(await feedsOf(await testApp(undefined, { forecasts: both }))).toEqual([
      "US National Weather Service",
      "Open-Meteo",
    ]);
  });
});
