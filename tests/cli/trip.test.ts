/** padwright trip and padwright desk as processes: reports, JSON, exit codes, and what they refuse. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { deskAnswerSchema } from "../../src/http/schemas/desk.ts";
import { tripAnswerSchema } from "../../src/http/schemas/trips.ts";
import { CAMP_DOCUMENT, RIG_RECORD } from "../trip/camp.ts";
import { type BuiltCommand, buildCommand } from "./run.ts";

const WIDEST = 80;
const STOPS = [
  {
    arrive: "2025-07-01",
    leave: "2025-07-03",
    site: { campground: "willow-bend", site: "far-power" },
    among: ["near"],
  },
  { arrive: "2025-07-03", leave: "2025-07-04", offGrid: true, name: "Gravel bar" },
];
const BOOKING = { id: "b-1", name: "Teal party", party: { adults: 3 }, stops: STOPS };
const CORD = {
  item: "extension",
  plug: "nema-tt-30",
  receptacle: "nema-tt-30",
  rating: 30,
  length: "25 ft",
  gauge: "10 AWG",
};
const FILES = {
  "camp.geojson": CAMP_DOCUMENT,
  "rig.json": RIG_RECORD,
  "trip.json": { party: { adults: 3 }, stops: STOPS },
  "trips.json": { trips: [BOOKING, { ...BOOKING, id: "b-2", name: "Wigeon party", unit: "u-2" }] },
  "fleet.json": {
    fleet: [
      { id: "u-1", name: "One", rig: RIG_RECORD },
      { id: "u-2", name: "Two", rig: { ...RIG_RECORD, kit: [CORD] } },
    ],
  },
  "stock.json": {
    stock: [
      { ...CORD, count: 1 },
      { item: "gloves", count: 1 },
    ],
  },
  "broken.json": {
    party: { adults: -1 },
    stops: [
      { ...STOPS[0], leave: "2025-06-31" },
      { ...STOPS[1], offGrid: undefined, campground: "lost" },
    ],
  },
};

let command: BuiltCommand;
let folder: string;
beforeAll(async () => {
  [command, folder] = await Promise.all([buildCommand(), mkdtemp(`${tmpdir()}/padwright-trip-`)]);
  for (const [name, value] of Object.entries(FILES)) await writeFile(`${folder}/${name}`, JSON.stringify(value));
});
afterAll(async () => {
  await Promise.all([command.remove(), rm(folder, { recursive: true })]);
});

const at = (name: string) => `${folder}/${name}`;
const camp = () => ["--campground", at("camp.geojson"), "--units", "us"];
const trip = (...flags: string[]) => command.run(["trip", ...camp(), ...flags]);
const desk = (...flags: string[]) =>
  command.run(["desk", ...camp(), "--fleet", at("fleet.json"), "--trips", at("trips.json"), ...flags]);
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("padwright trip", () => {
  it("reports stops, kit, base kit, boxes and tanks in 80 columns", async () => {
    const { code, out, error } = await trip(
      "--trip",
      at("trip.json"),
      "--rig",
      at("rig.json"),
      "--stock",
      at("stock.json"),
    );
    expect([code, error]).toEqual([0, ""]);
    const rows = out.split("\n");
    for (const heading of ["WORKS", "Stops", "Kit for these sites", "Base kit", "Boxes", "Tanks"])
      expect(rows).toContain(heading);
    expect(out).toMatch(/^Heron \(invented\), 2025-07-01 to 2025-07-04\n3 nights, 3 people$/m);
    expect(flat(out)).toContain(
      "to pack Extension cord, 30 A, 25 ft 1 FAR-POWER. Without it, FAR-POWER: does not fit.",
    );
    expect(out).toMatch(/^ {2}2 {2}2025-07-03 {7}1 {2}Gravel bar {2,}off grid/m);
    expect(Math.max(...rows.map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
  });

  it("gives the API's JSON for a booking and its unit, and ends with 4 when asked to be strict", async () => {
    const flags = ["--trip", at("trips.json"), "--booking", "b-2", "--fleet", at("fleet.json"), "--json"];
    const { code, out } = await trip(...flags, "--strict");
    const answer = JSON.parse(out) as Record<string, unknown>;
    expect(tripAnswerSchema.parse(answer)).toEqual(answer);
    expect(answer).toMatchObject({ works: "yes", kit: { items: [{ item: "extension", where: "aboard" }] } });
    expect(code).toBe(0);
    const aboard = ["--option", "kitPolicy=aboard", "--option", "parking.along=2", "--strict"];
    expect((await trip(...flags, ...aboard)).code).toBe(4);
  });

  it("lists every fault with its place", async () => {
    const { code, error } = await trip("--trip", at("broken.json"), "--rig", at("rig.json"));
    expect(code).toBe(3);
    for (const place of ["/party/adults", "/stops/0/leave", "/stops/1/campground"]) expect(error).toContain(place);
  });

  it.each([
    [["--trip", "trips.json", "--rig", "rig.json"], 3, "--booking b-1, b-2"],
    [["--trip", "trip.json", "--rig", "rig.json", "--booking", "b-1"], 2, "--booking wants"],
    [["--trip", "trip.json", "--rig", "rig.json", "--fleet", "fleet.json"], 2, "one rig"],
    [["--trip", "trip.json", "--fleet", "fleet.json", "--unit", "u-9"], 3, "/unit"],
    [["--trip", "trip.json", "--rig", "rig.json", "--stock", "trip.json"], 3, 'no list "stock"'],
  ])("refuses %j", async (words, code, message) => {
    const ran = await trip(...words.map((word) => (word.includes(".json") ? at(word) : word)));
    expect([ran.code, ran.out]).toEqual([code, ""]);
    expect(flat(ran.error)).toContain(message);
  });
});

describe("padwright desk", () => {
  it("reports departures with ranked units, what to load, and where the stock runs short", async () => {
    const { code, out, error } = await desk("--stock", at("stock.json"));
    expect([code, error]).toEqual([0, ""]);
    expect(out).toMatch(/^2025-07-01 Teal party: One$/m);
    expect(out).toMatch(/^2025-07-01 Wigeon party: Two \(booked\)$/m);
    expect(flat(out)).toContain("Gloves for the drain: 1 missing 2025-07-01 to 2025-07-04, wanted by b-1, b-2.");
    expect(Math.max(...out.split("\n").map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
    expect((await desk("--stock", at("stock.json"), "--strict")).code).toBe(4);
  });

  it("gives the API's JSON", async () => {
    const { code, out } = await desk("--json");
    const answer = JSON.parse(out) as Record<string, unknown>;
    expect([code, deskAnswerSchema.parse(answer)]).toEqual([0, answer]);
  });
});
