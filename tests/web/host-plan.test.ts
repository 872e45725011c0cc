/** Small changes of the plan as the office works them out: who moves, who may not, and what the gate would offer. */
import { readFile } from "node:fs/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { type HostStay, inTheWay, meets } from "../../src/web/host/book.ts";
import { Planner } from "../../src/web/host/core/planner.ts";
import type { Edit, PlanBook } from "../../src/web/host/core/protocol.ts";

const PORTS = { breathe: async () => {}, progress: () => {} };
/** Two long sites with 50 A and sewer and one short site: invented, of the demo. */
const SITES = ["curlew-4", "curlew-21", "siskin-2"];
const coach = (length: string) => ({
  class: "class-a",
  length,
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "25 ft" },
  waterHose: "25 ft",
});
const LONG = coach("40 ft");
const SHORT = coach("22 ft");

function stay(id: string, from: number, until: number, rig: object, site: string | null, more = {}): HostStay {
  const day = (number: number) => `2027-06-${String(number).padStart(2, "0")}`;
  const place = site === null ? null : { site, locked: false, outlets: [] };
  return {
    id,
    version: 1,
    arrival: day(from),
    departure: day(until),
    status: "expected",
    rig: { ...rig },
    place,
    ...more,
  };
}

const book = (...stays: HostStay[]): PlanBook => ({ today: "2027-06-01", stays, holds: [], closures: [] });
const planner = new Planner();
const edit = (before: PlanBook, one: Edit) => planner.edit(before, one, PORTS);
const movesOf = (told: Awaited<ReturnType<typeof edit>>) =>
  told.options.map(({ moved, moves }) => ({ moved, moves: moves.map(({ stay: id, to }) => `${id} to ${to}`).sort() }));

beforeAll(async () => {
  const text = await readFile(new URL("../../data/demo/campground.geojson", import.meta.url), "utf8");
  const whole = JSON.parse(text) as { features: { id?: string; properties: { kind?: string } }[] };
  const features = whole.features.filter(
    ({ id, properties }) => properties.kind !== "site" || SITES.includes(String(id)),
  );
  await planner.open(JSON.stringify({ ...whole, features }));
});

describe("a walk-in", () => {
  it("gets a free site without anybody moving", async () => {
    const told = await edit(book(stay("a", 2, 5, LONG, "curlew-4")), {
      kind: "place",
      stay: stay("walk-in", 2, 4, LONG, null),
    });
    expect(movesOf(told)[0]).toEqual({ moved: 0, moves: ["walk-in to curlew-21"] });
  });

  it("gets the site of one who fits elsewhere when it fits nowhere else itself", async () => {
    const before = book(stay("a", 2, 5, LONG, "curlew-4"), stay("b", 2, 6, SHORT, "curlew-21"));
    const told = await edit(before, { kind: "place", stay: stay("walk-in", 2, 4, LONG, null) });
    expect(movesOf(told)).toEqual([{ moved: 1, moves: ["b to siskin-2", "walk-in to curlew-21"] }]);
  });

  it("gets none when those who would have to move are in house or promised", async () => {
    const place = { site: "curlew-21", locked: true, outlets: [] };
    const before = book(
      stay("a", 2, 5, LONG, "curlew-4", { status: "in-house" }),
      stay("b", 2, 6, SHORT, null, { place }),
    );
    const told = await edit(before, { kind: "place", stay: stay("walk-in", 2, 4, LONG, null) });
    expect(told.options).toEqual([]);
    expect(told.unplaced).toEqual(["walk-in"]);
  });
});

describe("a late departure", () => {
  it("moves whoever comes after and not the guests who stay", async () => {
    const before = book(stay("a", 1, 3, LONG, "curlew-4", { status: "in-house" }), stay("b", 3, 5, SHORT, "curlew-4"));
    const told = await edit(before, { kind: "later", stay: "a", departure: "2027-06-04" });
    expect(movesOf(told)[0]?.moves).toHaveLength(1);
    expect(movesOf(told)[0]?.moves[0]).toMatch(/^b to (curlew-21|siskin-2)$/);
  });

  it("asks nothing of anybody when the nights are free", async () => {
    const before = book(stay("a", 1, 3, LONG, "curlew-4"), stay("b", 5, 7, LONG, "curlew-4"));
    const told = await edit(before, { kind: "later", stay: "a", departure: "2027-06-05" });
    expect(told).toMatchObject({ nothingToDo: true, options: [] });
  });
});

describe("a closure", () => {
  const closure = { id: "new", outlet: null, site: "curlew-4", firstNight: "2027-06-02", until: null, why: null };

  it("moves whoever stands there, and says who of them is in house", async () => {
    const before = book(
      stay("a", 1, 3, LONG, "curlew-4", { status: "in-house" }),
      stay("b", 4, 6, LONG, "curlew-4"),
      stay("c", 4, 6, SHORT, "siskin-2"),
    );
    const told = await edit(before, { kind: "closure", closure, sites: ["curlew-4"] });
    expect(told.bound).toEqual(["a"]);
    expect(movesOf(told)[0]).toEqual({ moved: 0, moves: ["a to curlew-21", "b to curlew-21"] });
  });

  it("of one receptacle lets a stay be that can use another", async () => {
    const before = book(stay("a", 4, 6, LONG, "curlew-4"));
    const outlet = { ...closure, site: null, outlet: "curlew-4/power/5-20" };
    const told = await edit(before, { kind: "closure", closure: outlet, sites: ["curlew-4"] });
    expect(told).toMatchObject({ nothingToDo: true, bound: [] });
  });
});

describe("what is in the way", () => {
  it("counts nights and not days: one may leave and the next arrive on one day", () => {
    const a = stay("a", 1, 3, LONG, "curlew-4");
    expect(meets(a, stay("b", 3, 5, LONG, null))).toBe(false);
    expect(meets(a, stay("b", 2, 5, LONG, null))).toBe(true);
    const whole = {
      ...book(a),
      campground: "x",
      readAt: 0,
      timeZone: null,
      outlets: [],
      planTag: "",
      cursor: "",
    };
    expect(inTheWay(whole, "curlew-4", { arrival: "2027-06-03", departure: "2027-06-04" })).toBeNull();
    expect(inTheWay(whole, "curlew-4", { arrival: "2027-06-02", departure: "2027-06-04" })?.kind).toBe("stay");
    expect(inTheWay(whole, "curlew-4", a, "a")).toBeNull();
  });
});
