import { describe, expect, it } from "vitest";
import { completeOptions } from "../../src/fit/options.ts";
import { type DeskInput, type DeskPlan, planDesk } from "../../src/trip/desk/desk.ts";
import type { Stay } from "../../src/trip/place.ts";
import { atSite, type KitThing, offGrid, rigWith } from "./camp.ts";

const FIFTY = { item: "adapter", plug: "nema-14-50", receptacle: "nema-tt-30", rating: 30, where: "aboard" };
const unit = (id: string, kit: readonly KitThing[] = [], more: Readonly<Record<string, unknown>> = {}) => ({
  id,
  name: `Unit ${id}`,
  rig: rigWith(kit, { id, name: `Unit ${id}`, ...more }),
});
const trip = (id: string, stops: readonly Stay[], given: string | null = null) => ({
  id,
  name: `Booking ${id}`,
  stops,
  party: { adults: 2 },
  unit: given,
});

function desk(more: Partial<DeskInput>): DeskPlan {
  const options = completeOptions({ detail: "summary" });
  return planDesk({ fleet: [], trips: [], stock: [], turnaroundDays: 1, options, roseOf: null, ...more });
}

const ranked = (plan: DeskPlan, index = 0) => plan.trips[index]?.units.map((cell) => [cell.unit, cell.works]);
/** Longer than every pad. */
const LONG = { length: "33 ft", wheelbase: "20 ft" };

describe("the desk", () => {
  it("ranks units by whether they work at all stops, then by the least kit, then by id", () => {
    const fleet = [unit("long", [], LONG), unit("b-bare"), unit("a-bare"), unit("ready", [FIFTY])];
    const plan = desk({ fleet, trips: [trip("one", [atSite(0, "near"), atSite(1, "fifty")])] });
    expect(ranked(plan)).toEqual([
      ["ready", "yes"],
      ["a-bare", "yes"],
      ["b-bare", "yes"],
      ["long", "no"],
    ]);
    const [ready, bare] = plan.trips[0]?.units ?? [];
    expect(ready?.kit).toEqual([]);
    expect(bare?.kit).toMatchObject([{ item: "adapter", where: "to buy" }]);
    expect(plan.trips[0]).toMatchObject({ unit: "ready", given: false, from: "2025-07-01", to: "2025-07-03" });
    const turned = desk({ fleet: fleet.toReversed(), trips: [trip("one", [atSite(0, "near"), atSite(1, "fifty")])] });
    expect(ranked(turned)).toEqual(ranked(plan));
  });

  it("says of the others which check at which stop keeps them from working, with its number", () => {
    const plan = desk({ fleet: [unit("long", [], LONG)], trips: [trip("one", [offGrid(0), atSite(1, "near")])] });
    const [cell] = plan.trips[0]?.units ?? [];
    expect(cell?.blocking).toHaveLength(1);
    expect(cell?.blocking[0]).toMatchObject({ stop: 1, site: "NEAR" });
    expect(cell?.blocking[0]?.value).toBeGreaterThan(cell?.blocking[0]?.limit ?? Number.POSITIVE_INFINITY);
    expect(plan.trips[0]).toMatchObject({ unit: null, pick: [] });
    expect(plan.trips[0]?.why).toContain("No unit works");
  });

  it("gives no unit twice at a time, and serves more trips rather than one trip better", () => {
    const fleet = [unit("ready", [FIFTY]), unit("bare")];
    // Both suit the first best with the adapter aboard; at the same time each trip gets one.
    const trips = [trip("x", [atSite(0, "fifty")]), trip("y", [atSite(0, "near")]), trip("z", [atSite(0, "near")])];
    const plan = desk({ fleet, trips });
    const given = plan.trips.map((one) => one.unit);
    expect(given.filter((one) => one !== null).sort()).toEqual(["bare", "ready"]);
    expect(plan.trips.find((one) => one.unit === null)?.why).toContain("on another trip");
    expect(plan.proven).toBe(true);
  });

  it("turns a unit round in the days that it takes", () => {
    const trips = [trip("first", [atSite(0, "near")]), trip("second", [atSite(1, "near")])];
    const units = (turnaroundDays: number) =>
      desk({ fleet: [unit("only")], trips, turnaroundDays }).trips.map((one) => one.unit);
    expect(units(0)).toEqual(["only", "only"]);
    expect(units(1).filter((one) => one !== null)).toEqual(["only"]);
  });

  it("keeps what a booking has, and names a clash", () => {
    const trips = [trip("first", [atSite(0, "near")], "only"), trip("second", [atSite(0, "near")], "only")];
    const plan = desk({ fleet: [unit("only")], trips });
    expect(plan.trips.map((one) => [one.unit, one.given, one.clashes])).toEqual([
      ["only", true, ["second"]],
      ["only", true, ["first"]],
    ]);
  });

  it("counts the stock by date, base kit and all, and says when it runs short", () => {
    const adapter = { item: "adapter", plug: "nema-14-50", receptacle: "nema-tt-30", rating: 30, count: 1 } as const;
    const stock = [adapter, { item: "chocks", count: 3 }];
    const fleet = [unit("a"), unit("b")];
    const trips = [trip("x", [atSite(0, "fifty")]), trip("y", [atSite(1, "fifty")])];
    const { stock: [shelf, chocks] = [], trips: plans } = desk({ fleet, trips, stock, turnaroundDays: 1 });
    expect(
      plans.map((one) => one.pick.filter((thing) => thing.path === "/stock/0").map((thing) => thing.where)),
    ).toEqual([["to pack"], ["to pack"]]);
    expect(shelf).toMatchObject({ count: 1, shortFrom: "2025-07-02" });
    expect(shelf?.periods.map(({ from, to, out, short }) => [from, to, out, short])).toEqual([
      ["2025-07-01", "2025-07-01", 1, 0],
      ["2025-07-02", "2025-07-02", 2, 1],
      ["2025-07-03", "2025-07-03", 1, 0],
    ]);
    expect(chocks).toMatchObject({ count: 3, shortFrom: null });
  });

  it("fits units that are alike once", () => {
    const trips = [trip("one", [atSite(0, "far-drain")])];
    const one = desk({ fleet: [unit("a")], trips });
    const three = desk({ fleet: [unit("a"), unit("b"), unit("c")], trips });
    expect(three.fits).toBe(one.fits);
    expect(three.trips[0]?.units.map((cell) => cell.unit)).toEqual(["a", "b", "c"]);
  });
});
