import { describe, expect, test } from "vitest";
import { feederLoads } from "../../src/assign/feeder.ts";

const sites = (...amps: (number | null)[]) => amps.map((each, index) => ({ id: `p${index}`, amps: each }));
const feederOf = (count: number, capacity: number | null = null) => ({
  id: "row",
  name: "Row",
  sites: Array.from({ length: count }, (_, index) => `p${index}`),
  capacity,
});
const SPAN = { firstNight: 100, until: 102 };
const repeat = (count: number, amps: number) => new Array<number>(count).fill(amps);

describe("design load of a feeder", () => {
  test("42 sites of three kinds: 64,944 VA (published example, ecmweb.com/nec/code-calculations-2, read)", () => {
    const [load] = feederLoads(
      [feederOf(42)],
      sites(...repeat(3, 50), ...repeat(30, 30), ...repeat(9, 20)),
      [],
      SPAN,
      2014,
    );
    expect(load!.connected).toBe(158_400);
    expect(load!.factor).toBe(0.41);
    expect(load!.design).toBeCloseTo(64_944, 6);
  });

  test("20 sites of 30 A: 32,400 VA, 1,620 a site (the code's own example, NEC 551.73, read at solar365)", () => {
    const [load] = feederLoads([feederOf(20)], sites(...repeat(20, 30)), [], SPAN);
    expect(load!.design).toBeCloseTo(32_400, 6);
    expect(load!.design / load!.sites).toBeCloseTo(1620, 6);
  });

  test("a small site more lowers the plain figure and not the prudent one", () => {
    const [four] = feederLoads([feederOf(4)], sites(50, 50, 50, 50), [], SPAN);
    const [five] = feederLoads([feederOf(5)], sites(50, 50, 50, 50, 20), [], SPAN);
    expect(four!.design).toBeCloseTo(36_000, 6);
    expect(five!.design).toBeCloseTo(32_760, 6);
    expect(five!.prudent).toBeCloseTo(36_000, 6);
  });

  test("is told against the capacity given, and names sites that are not on record", () => {
    const [load] = feederLoads([feederOf(5, 34_000)], sites(50, 50, 50, 50, null), [], SPAN);
    expect(load!.designExceeds).toBe(true);
    expect(load!.unknownSites).toEqual(["p4"]);
    expect(load!.notes.join(" ")).toContain("licensed electrician");
    expect(feederLoads([feederOf(4)], sites(30, 30, 30, 30), [], SPAN)[0]!.designExceeds).toBeNull();
  });
});

test("a planned night is advice: who is there, and whether it is more than the feeder may carry", () => {
  const stays = [
    { site: "p0", arrival: 99, departure: 101, amps: 50 },
    { site: "p1", arrival: 100, departure: 102, amps: 30 },
    { site: "p2", arrival: 101, departure: 103, amps: null },
    { site: "p9", arrival: 100, departure: 102, amps: 50 },
  ];
  const [load] = feederLoads([feederOf(3, 13_000)], sites(50, 50, 50), stays, SPAN);
  // Two rigs: (12,000 + 3,600) x 0.9 = 14,040; then a 30 A rig and one that nobody knows.
  expect(load!.nights).toEqual([
    { night: 100, occupied: 2, unknownRigs: 0, voltAmperes: 14_040, exceeds: true },
    { night: 101, occupied: 2, unknownRigs: 1, voltAmperes: 3600, exceeds: null },
  ]);
});
