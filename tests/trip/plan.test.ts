import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { Fitter, SiteBook } from "../../src/trip/fitter.ts";
import { serves } from "../../src/trip/kit/cover.ts";
import { coverProblem, wishTargets } from "../../src/trip/kit/pack.ts";
import { SUMS, thingsFor } from "../../src/trip/kit/things.ts";
import { atLeast, worthOf } from "../../src/trip/kit/worth.ts";
import type { Stay } from "../../src/trip/place.ts";
import { finish, planTrip, type TripPlan } from "../../src/trip/plan.ts";
import { settleStops, worksRank } from "../../src/trip/settle.ts";
import { atCamp, atSite, CAMP, type KitThing, offGrid, rigWith, siteNamed, tripInput } from "./camp.ts";

const items = (plan: TripPlan, where?: string) =>
  plan.kit.items
    .filter((one) => where === undefined || one.where === where)
    .map((one) => `${one.item}${one.length === null ? "" : ` ${one.length.toFixed(1)}`}`)
    .sort();
const HOSE = { item: "drinking-hose", length: "10 ft" };
const FIFTY = { item: "adapter", plug: "nema-14-50", receptacle: "nema-tt-30", rating: 30 };

describe("the kit of a trip", () => {
  it("is nothing beyond the base kit where everything reaches", () => {
    const plan = planTrip(tripInput(rigWith([]), [atSite(0, "near"), offGrid(1)]));
    expect(plan.works).toBe("yes");
    expect(plan.kit.items).toEqual([]);
    expect(plan.kit.proven).toBe(true);
    expect(plan.stops.map((stop) => [stop.kind, stop.works, stop.fit === null])).toEqual([
      ["site", "yes", false],
      ["off-grid", "yes", true],
    ]);
  });

  it("is one thing for each thing that is wanted, and one long hose where two sites want hoses", () => {
    const stops = [atSite(0, "fifty"), atSite(1, "far-power"), atSite(2, "far-water"), atSite(3, "farther-water")];
    const plan = planTrip(tripInput(rigWith([]), stops));
    expect(items(plan, "to buy")).toEqual(["adapter", "drinking-hose 15.2", "extension 7.6"]);
    expect(plan.works).toBe("yes");
    const needed = plan.kit.items.map((one) => [one.item, one.neededFor.map((need) => need.site)]);
    expect(needed).toEqual(
      expect.arrayContaining([
        ["adapter", ["FIFTY"]],
        ["extension", ["FAR-POWER"]],
        ["drinking-hose", ["FAR-WATER", "FARTHER-WATER"]],
      ]),
    );
    const cord = plan.kit.items.find((one) => one.item === "extension");
    expect(cord?.neededFor[0]?.verdictWithout).toBe("does not fit");
    expect(cord).toMatchObject({ plug: "nema-tt-30", receptacle: "nema-tt-30", rating: 30, box: "power" });
  });

  it("serves the next-best sites too", () => {
    const alone = planTrip(tripInput(rigWith([]), [atSite(0, "near")]));
    const spare = planTrip(tripInput(rigWith([]), [atSite(0, "near", ["far-drain", "fifty", "near-too"])]));
    expect(alone.kit.items).toEqual([]);
    expect(spare.stops[0]?.next.map((one) => [one.id, one.verdict, one.served])).toEqual([
      ["near-too", "fits", true],
      ["far-drain", "fits", true],
    ]);
    expect(items(spare)).toEqual(["sewer-hose 3.0"]);
    expect(spare.kit.items[0]?.neededFor).toMatchObject([{ stop: 0, site: "FAR-DRAIN", chosen: false }]);
  });

  it("takes two hoses from the depot before it buys one, and says that one would do", () => {
    const stock = [{ ...HOSE, length: 3.048, count: 2 }];
    const plan = planTrip(tripInput(rigWith([]), [atSite(0, "far-water")], stock));
    expect(items(plan, "to pack")).toEqual(["drinking-hose 3.0", "drinking-hose 3.0"]);
    expect(items(plan, "to buy")).toEqual([]);
    const [both] = plan.kit.alternatives.filter((one) => one.insteadOf.length === 2);
    expect(both).toMatchObject({ item: "drinking-hose", where: "to buy", why: "One thing in place of two." });
    expect(both?.insteadOf.slice().sort()).toEqual(plan.kit.items.map((one) => one.id).sort());
  });

  it("borrows where the campground lends, and only there", () => {
    const lending = { ...atSite(0, "fifty"), lends: [FIFTY] } as Stay;
    const lent = planTrip(tripInput(rigWith([]), [lending, atSite(1, "near")]));
    expect(lent.kit.items).toMatchObject([{ item: "adapter", where: "lent", lentAt: 0, path: "/stops/0/lends/0" }]);
    const elsewhere = planTrip(tripInput(rigWith([]), [lending, atSite(1, "fifty")]));
    expect(elsewhere.kit.items).toMatchObject([{ item: "adapter", where: "to buy", lentAt: null }]);
  });

  it("names what is aboard and needed, and does not pack it twice", () => {
    const plan = planTrip(tripInput(rigWith([{ ...FIFTY, where: "aboard" }]), [atSite(0, "fifty"), atSite(1, "near")]));
    expect(plan.kit.items).toMatchObject([
      { item: "adapter", where: "aboard", path: "/rig/kit/0", neededFor: [{ stop: 0, site: "FIFTY" }] },
    ]);
    const depot = planTrip(tripInput(rigWith([{ ...FIFTY, where: "depot" }]), [atSite(0, "fifty")]));
    expect(depot.kit.items).toMatchObject([{ item: "adapter", where: "to pack", path: "/rig/kit/0" }]);
  });
});

describe("the base kit", () => {
  const plan = () => planTrip(tripInput(rigWith([{ item: "gloves", where: "aboard" }]), [atSite(0, "near")]));

  it("is never taken away: regulator, supply check, both hoses, elbow, support, caps, gloves, chocks, blocks", () => {
    const { base } = plan().kit;
    const where = Object.fromEntries(base.map((entry) => [entry.id, entry.where]));
    expect(where).toEqual({
      regulator: "to buy",
      "supply-check": "to buy",
      "drinking-hose": "aboard",
      "rinse-hose": "to buy",
      "sewer-elbow": "to buy",
      "hose-support": "to buy",
      caps: "to buy",
      gloves: "aboard",
      chocks: "to buy",
      blocks: "to buy",
    });
    for (const entry of base) expect([entry.why, entry.source, entry.withoutIt]).not.toContain("");
  });

  it("wants a protector of the rig's plug, and takes a tester without a plug on record", () => {
    const supply = (kit: KitThing) =>
      planTrip(tripInput(rigWith([kit]), [offGrid(0)])).kit.base.find((entry) => entry.id === "supply-check")?.where;
    const protector = { item: "protector", receptacle: "nema-14-50", plug: "nema-14-50", where: "aboard" };
    expect(supply(protector)).toBe("to buy");
    expect(supply({ ...protector, plug: "nema-tt-30", receptacle: "nema-tt-30" })).toBe("aboard");
    expect(supply({ item: "tester", where: "aboard" })).toBe("aboard");
    expect(supply({ item: "tester", where: "depot" })).toBe("to pack");
  });

  it("leaves out what a rig without water and drain has no use for", () => {
    const bare = rigWith([], { connections: undefined, power: { plug: "nema-tt-30", cord: "25 ft" } });
    const { base } = planTrip(tripInput(bare, [offGrid(0)])).kit;
    expect(base.map((entry) => entry.id)).toEqual(["supply-check", "chocks", "blocks"]);
  });

  it("never boxes gloves or drain hoses with the drinking hose", () => {
    const { kit } = planTrip(tripInput(rigWith([]), [atSite(0, "far-drain"), atSite(1, "far-water")]));
    const named = new Map([...kit.base, ...kit.items].map((one) => [one.id, "item" in one ? [one.item] : one.items]));
    const contents = kit.boxes.map((box) => box.holds.flatMap((id) => named.get(id) ?? []));
    const clean = contents.filter((held) => held.includes("drinking-hose") || held.includes("water-regulator"));
    expect(clean.length).toBeGreaterThan(0);
    for (const held of clean) {
      for (const dirty of ["gloves", "sewer-hose", "rinse-hose", "sewer-elbow", "caps"])
        expect(held).not.toContain(dirty);
    }
    expect(contents.flat()).toEqual(expect.arrayContaining(["sewer-hose", "gloves", "drinking-hose"]));
  });
});

describe("the stops of a trip", () => {
  it("take the best free site of a campground and keep two in hand", () => {
    const plan = planTrip(tripInput(rigWith([]), [atCamp(0, ["far-power", "near-too", "near", "fifty", "far-drain"])]));
    const [stop] = plan.stops;
    // By verdict, then lines served, then margin: the drain at the third is too far, the fourth wants an adapter.
    expect(stop?.fit?.site.id).toBe("near");
    expect(stop?.next.map((one) => one.id)).toEqual(["near-too", "far-drain"]);
  });

  it("do not work where no site is free, and say so", () => {
    const plan = planTrip(tripInput(rigWith([]), [atSite(0, "near"), atCamp(1, [], 3)]));
    expect(plan.works).toBe("no");
    expect(plan.stops[1]?.blocking).toMatchObject({ stop: 1, site: null, check: "site.free" });
    expect(plan.headline).toContain("3 are taken");
  });

  it("name the check that blocks, with its numbers", () => {
    const long = rigWith([], { length: "33 ft", wheelbase: "20 ft" });
    const { stops, works } = planTrip(tripInput(long, [atSite(0, "near")]));
    expect(works).toBe("no");
    const { blocking, fit } = stops[0] ?? {};
    const check = fit?.checks.find((one) => one.id === blocking?.check);
    expect(check).toMatchObject({ deciding: true, status: "fail", value: blocking?.value, limit: blocking?.limit });
  });

  it("give a card and the tanks of each", () => {
    const plan = planTrip(tripInput(rigWith([]), [atSite(0, "near"), offGrid(1)]));
    expect(plan.stops.map((stop) => stop.card?.site ?? null)).toEqual(["NEAR", null]);
    expect(plan.supplies.stops.map((stop) => [stop.from, stop.to])).toEqual([
      [0, 1],
      [1, 2],
    ]);
    expect(plan.supplies.people).toBe(2);
  });
});

/** Sites that want something, and things that a rig may carry. */
const WANTING = ["near", "fifty", "far-power", "far-water", "farther-water", "far-drain", "near-too"];
const CARRIED: readonly KitThing[] = [
  FIFTY,
  HOSE,
  { item: "drinking-hose", length: "25 ft" },
  { item: "sewer-hose", length: "10 ft" },
  { item: "extension", plug: "nema-tt-30", receptacle: "nema-tt-30", rating: 30, length: "25 ft", gauge: "10 AWG" },
];
const kits = fc.subarray([...CARRIED]);
const routes = fc.shuffledSubarray(WANTING, { minLength: 1, maxLength: 3 });
/** Each run fits many times. */
const RUNS = { numRuns: 12, seed: 7 };
const PATIENCE = 120_000;

describe("laws of a trip", () => {
  it(
    "more kit aboard never makes a trip worse, nor what is to be carried more",
    () => {
      fc.assert(
        fc.property(routes, kits, fc.constantFrom(...CARRIED), (ids, kit, more) => {
          const plan = (carried: readonly KitThing[]) =>
            planTrip(
              tripInput(
                rigWith(carried),
                ids.map((id, index) => atSite(index, id)),
              ),
            );
          const [less, rich] = [plan(kit), plan([...kit, more])];
          expect(worksRank(rich.works)).toBeGreaterThanOrEqual(worksRank(less.works));
          expect(items(rich, "to buy").length).toBeLessThanOrEqual(items(less, "to buy").length);
        }),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "the order of the stops changes nothing but what is carried over",
    () => {
      fc.assert(
        fc.property(routes, kits, (ids, kit) => {
          const plan = (order: readonly string[]) =>
            planTrip(
              tripInput(
                rigWith(kit),
                order.map((id, index) => atSite(index, id)),
              ),
            );
          const [forth, back] = [plan(ids), plan(ids.toReversed())];
          expect(items(back)).toEqual(items(forth));
          expect(back.works).toBe(forth.works);
          const verdicts = (one: TripPlan) =>
            one.stops.map((stop) => [stop.name, stop.fit?.verdict, stop.fit?.bestMargin]);
          expect(verdicts(back).toReversed()).toEqual(verdicts(forth));
        }),
        RUNS,
      );
    },
    PATIENCE,
  );

  it(
    "each thing to carry is needed: without it a site is worse, fitted again",
    () => {
      fc.assert(
        fc.property(routes, kits, (ids, kit) => {
          const rig = rigWith(kit);
          const stops = ids.map((id, index) => atSite(index, id));
          const plan = planTrip(tripInput(rig, stops));
          for (const thing of plan.kit.items) {
            expect(thing.neededFor.length).toBeGreaterThan(0);
            for (const need of thing.neededFor) {
              const stop = plan.stops[need.stop];
              const fit = stop?.fit;
              expect(need.headlineWithout).not.toBe(fit?.headline);
            }
          }
          expect(plan.stops.every((stop) => stop.served)).toBe(true);
        }),
        RUNS,
      );
    },
    PATIENCE,
  );
});

describe("wishes against fitting every kit", () => {
  const shelf = [
    { ...HOSE, length: 3.048 },
    { item: "drinking-hose", length: 7.62 },
    { item: "sewer-hose", length: 3.048 },
    { ...FIFTY, plug: "nema-14-50", receptacle: "nema-tt-30" },
  ] as const;
  let fitter: Fitter;
  beforeAll(() => {
    const { options } = tripInput(rigWith([]), []);
    fitter = new Fitter(rigWith([]), options, new SiteBook(null));
  });

  it.each(WANTING)("at %s a kit serves by its wishes exactly when it serves by being fitted", (id) => {
    const things = thingsFor(fitter.rigAt(null), shelf, []).filter((thing) => thing.origin === "depot");
    expect(things.length).toBe(shelf.length);
    const [settled] = finish(settleStops(fitter, [atSite(0, id)]));
    const targets = finish(wishTargets(fitter, settled?.targets ?? [], things));
    const [target] = targets;
    const problem = coverProblem(targets, things);
    expect(problem.sums).toBe(SUMS);
    for (let mask = 0; mask < 2 ** things.length; mask++) {
      const set = things.filter((_, index) => (mask >> index) % 2 === 1);
      const kit = set.map((thing) => thing.kit);
      const fit = fitter.fit(CAMP, siteNamed(id), { kit, detail: "summary", needs: {} });
      const byFit = atLeast(worthOf(fit, kit), target?.wishes.goal ?? { level: Number.POSITIVE_INFINITY, served: [] });
      expect([mask, problem.targets.every((one) => serves(problem, set, one))]).toEqual([mask, byFit]);
    }
  });
});
