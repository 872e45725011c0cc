import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { DEFAULT_LIMITS } from "../../src/http/limits.ts";
import { EXAMPLE_RIG } from "../../src/http/openapi/examples.ts";
import { EXAMPLE_DESK_REQUEST, EXAMPLE_TRIP_REQUEST } from "../../src/http/openapi/trip-examples.ts";
import { deskAnswerSchema } from "../../src/http/schemas/desk.ts";
import { tripAnswerSchema } from "../../src/http/schemas/trips.ts";
import { deskPairs, readDeskInput, readTripInput } from "../../src/http/trip-input.ts";
import { memoryStore } from "../../src/records/store.ts";
import { CAMP_DOCUMENT, RIG_RECORD } from "../trip/camp.ts";
import { post, problemIn, testApp } from "./helpers.ts";

const DEMO = new URL("../../data/demo/", import.meta.url);
const demo = async (name: string) => JSON.parse(await readFile(new URL(name, DEMO), "utf8")) as Record<string, unknown>;
const CAMP = [{ name: "camp", input: CAMP_DOCUMENT }];
const nights = (index: number) => ({ arrive: `2025-07-0${1 + index}`, leave: `2025-07-0${2 + index}` });
const AT = (index: number, site: string) => ({ ...nights(index), site: { campground: "willow-bend", site } });
const TRIP = {
  rig: RIG_RECORD,
  party: { adults: 2 },
  stops: [
    AT(0, "far-power"),
    { ...nights(1), campground: "willow-bend", among: ["near", "near-too"], taken: ["near"] },
  ],
  options: { detail: "summary" },
};

async function answered(path: string, body: unknown, app = testApp(CAMP)) {
  const response = await post(await app, path, body);
  expect(response.status).toBe(200);
  return response.json() as Promise<Record<string, unknown>>;
}

const faults = async (path: string, body: unknown) => {
  const problem = await problemIn(await post(await testApp(CAMP), path, body), 422, "invalid-request");
  return problem.errors.map((error) => [error.pointer, error.code]);
};

describe("POST /v1/trips", () => {
  it("answers the example in the form that is described", async () => {
    const answer = await answered("/v1/trips", EXAMPLE_TRIP_REQUEST, testApp());
    expect(tripAnswerSchema.parse(answer)).toEqual(answer);
  });

  it("keeps what is taken out of the choice, and serves the next-best of a named site from its campground", async () => {
    const answer = tripAnswerSchema.parse(await answered("/v1/trips", TRIP));
    const [first, second] = answer.stops;
    expect(second?.fit).toMatchObject({ site: { id: "near-too" } });
    expect(second?.next).toEqual([]);
    expect(first?.next.map((one) => one.id)).toEqual(["near", "near-too"]);
    expect(answer.kit.items).toMatchObject([{ item: "extension", where: "to buy", neededFor: [{ stop: 0 }] }]);
    expect(answer.works).toBe("yes");
  });

  it("turns angles into degrees, in the blocking check too", async () => {
    const answer = await answered("/v1/trips", { ...TRIP, stops: [AT(0, "near")] });
    const stop = tripAnswerSchema.parse(answer).stops[0]?.fit as { checks: { id: string; unit: string | null }[] };
    expect(stop.checks.map((check) => check.unit)).not.toContain("rad");
  });

  it("takes a site that is sent along, without any campground", async () => {
    const [site] = CAMP_DOCUMENT.features;
    const answer = tripAnswerSchema.parse(await answered("/v1/trips", { ...TRIP, stops: [{ ...nights(0), site }] }));
    expect(answer.stops[0]).toMatchObject({ name: "NEAR", works: "yes", next: [] });
  });

  it("takes a unit of a fleet", async () => {
    const fleet = [
      { id: "other", rig: EXAMPLE_RIG },
      { id: "heron", rig: RIG_RECORD },
    ];
    const { rig: _rig, ...rest } = TRIP;
    const answer = tripAnswerSchema.parse(await answered("/v1/trips", { ...rest, fleet, unit: "heron" }));
    expect(answer.rig.id).toBe("heron");
  });

  it("tells every fault of rig, places, dates and tanks at once", async () => {
    const body = {
      rig: {
        class: "folding-trailer",
        length: "3 m",
        width: "1.9 m",
        height: "1.3 m",
        tanks: { fresh: "7500 L", grey: "31 gal" },
      },
      party: { adults: 2 },
      stops: [
        { ...nights(0), campground: "willow-bent" },
        AT(1, "nowhere"),
        { ...nights(1), campground: "willow-bend", among: ["near", "lost"], taken: ["gone"] },
      ],
      start: { grey: "40 gal", black: "3 gal" },
    };
    expect(await faults("/v1/trips", body)).toEqual(
      expect.arrayContaining([
        ["/rig/tanks/fresh", "impossible"],
        ["/start/grey", "impossible"],
        ["/start/black", "impossible"],
        ["/stops/0/campground", "not-found"],
        ["/stops/1/site/site", "not-found"],
        ["/stops/2/arrive", "conflict"],
        ["/stops/2/among/1", "not-found"],
        ["/stops/2/taken/0", "not-found"],
      ]),
    );
  });

  it("tells faults of rig and places also when the envelope is broken", async () => {
    const body = {
      ...TRIP,
      rig: { class: "boat" },
      party: { adults: -2 },
      stops: [{ ...nights(0), campground: "lost" }],
    };
    const found = await faults("/v1/trips", body);
    const pointers = found.map(([pointer]) => pointer);
    expect(pointers).toEqual(expect.arrayContaining(["/rig/class", "/party/adults", "/stops/0/campground"]));
  });

  it("refuses a named site that is taken", async () => {
    expect(await faults("/v1/trips", { ...TRIP, stops: [{ ...AT(0, "near"), taken: ["near"] }] })).toEqual([
      ["/stops/0/site", "conflict"],
    ]);
  });

  it("refuses to fit more sites than the published limit", async () => {
    const app = await testApp(CAMP, { limits: { sitesPerTrip: 3 } });
    const problem = await problemIn(await post(app, "/v1/trips", TRIP), 422, "too-many-sites");
    expect(problem.errors[0]?.expected).toBe("at most 3 sites");
  });

  it("asks whoever keeps the stays which sites are free", async () => {
    const { store } = await memoryStore(CAMP);
    const asked: string[][] = [];
    const read = await readTripInput(TRIP, store, async (...question) => {
      asked.push(question);
      return ["near-too"];
    });
    expect(asked).toEqual([
      ["willow-bend", "2025-07-01", "2025-07-02"],
      ["willow-bend", "2025-07-02", "2025-07-03"],
    ]);
    expect(read.input?.stops[1]).toMatchObject({ kind: "campground", free: [], taken: 2 });
  });
});

describe("the invented fleet, bookings and stock", () => {
  it("are read without a fault upon the invented campground, within the published limits", async () => {
    const { store } = await memoryStore([
      { name: "demo", input: await readFile(new URL("campground.geojson", DEMO), "utf8") },
    ]);
    const { note: _fleetNote, ...fleet } = await demo("fleet.json");
    const { note: _tripsNote, ...trips } = await demo("trips.json");
    const { note, ...stock } = await demo("stock.json");
    expect(note).toContain("Invented");
    const { input, errors } = await readDeskInput({ ...fleet, ...trips, ...stock }, store, null);
    expect(errors).toEqual([]);
    expect(input === null ? 0 : deskPairs(input)).toBeLessThanOrEqual(DEFAULT_LIMITS.pairsPerDesk);
  });
});

describe("POST /v1/desk", () => {
  it("answers the example in the form that is described", async () => {
    const answer = await answered("/v1/desk", EXAMPLE_DESK_REQUEST, testApp());
    expect(deskAnswerSchema.parse(answer)).toEqual(answer);
  });

  it("tells faults of units and bookings by their place", async () => {
    const fleet = [
      { id: "a", rig: RIG_RECORD },
      { id: "b", rig: { ...RIG_RECORD, length: "-3 ft" } },
    ];
    const trips = [{ id: "x", party: { adults: 1 }, stops: [{ ...nights(0), campground: "lost" }] }];
    expect(await faults("/v1/desk", { fleet, trips })).toEqual([
      ["/fleet/1/rig/length", "too-small"],
      ["/trips/0/stops/0/campground", "not-found"],
    ]);
  });

  it("refuses to fit more pairs than the published limit", async () => {
    const app = await testApp(CAMP, { limits: { pairsPerDesk: 6 } });
    const fleet = [{ id: "a", rig: RIG_RECORD }];
    const trips = [{ id: "x", party: { adults: 1 }, stops: [{ ...nights(0), campground: "willow-bend" }] }];
    const problem = await problemIn(await post(app, "/v1/desk", { fleet, trips }), 422, "too-many-sites");
    expect(problem.errors[0]?.pointer).toBe("/trips");
  });
});
