/** Dump stations and fill taps, solved as lanes. Invented coordinates. */
import { describe, expect, it } from "vitest";
import type { CampgroundFeature } from "../../../src/site/feature.ts";
import { solveStations } from "../../../src/trip/supplies/stations.ts";
import type { StationsInput } from "../../../src/trip/supplies/types.ts";
import { rig } from "../../fit/core/builders.ts";

const LATITUDE = 42.9163;
const METRES_PER_DEGREE = 111_100;

/** A station so many metres north of the others' origin. */
function feature(kind: "dump" | "fill", properties: Record<string, unknown> = {}, north = 0): CampgroundFeature {
  return {
    type: "Feature",
    id: kind,
    geometry: { type: "Point", coordinates: [-105.1, LATITUDE + north / METRES_PER_DEGREE] },
    properties: { kind, width: 3.6, inletSide: "left", ...properties },
  };
}

function coach(wall: "left" | "right", hose: number, more: { fill?: boolean; height?: number | null } = {}) {
  const drain = {
    service: "sewer",
    wall,
    fromRear: 2.1,
    length: hose,
    height: more.height === undefined ? 0.4 : more.height,
  } as const;
  const fill = { service: "fill", fromRear: 3.3, length: 7.6, height: 1.1 } as const;
  return rig({ connections: more.fill === false ? [drain] : [drain, fill] });
}

function solve(features: readonly CampgroundFeature[], more: Partial<StationsInput> = {}) {
  return solveStations({
    rig: coach("left", 4.1),
    campground: { drivesOn: "right" },
    features,
    kitPolicy: "any",
    units: "metric",
    ...more,
  });
}

describe("a dump station", () => {
  it("is solved with the hose's real length: the inlet 0 to 0.91 m beyond an edge 1.8 m from the middle", () => {
    const [visit] = solve([feature("dump")]);
    expect(visit).toMatchObject({ verdict: "fits", usable: "yes", inletSide: "left", available: 4.1 });
    // In the middle of the lane the run is 1.8 + 0.457 - 1.2 m, the fall 0.4 - 0.025 m and 1 % over the run; 0.3 m in hand.
    const run = 1.8 + 0.4572 - 1.2;
    const fall = 0.4 - 0.0254 + 0.01 * run;
    expect(visit!.needed!).toBeGreaterThan(0.3 + 0.6);
    expect(visit!.needed!).toBeCloseTo(Math.hypot(run, fall) + 0.3, 1);
    expect(visit!.margin!).toBeCloseTo(4.1 - visit!.needed!, 9);
    expect(visit!.assumed.map((one) => one.path)).toContain("/features/0/properties/inlet/left");
  });

  it("on the far side of the rig asks for more hose, and is told so", () => {
    const [right] = solve([feature("dump", { inletSide: "right" })]);
    const [left] = solve([feature("dump")]);
    expect(right!.needed!).toBeGreaterThan(left!.needed! + 2);
    expect(right!.usable).not.toBe("yes");
    expect(right!.why).toContain("on the right of the lane");
    const [own] = solve([feature("dump", { inletSide: "right" })], { rig: coach("right", 4.1) });
    expect(own!.usable).toBe("yes");
  });

  it("of which nobody knows the side is unknown when the side decides, with the side to drive by", () => {
    const [visit] = solve([feature("dump", { inletSide: undefined })]);
    expect(visit).toMatchObject({ verdict: "unknown", usable: "unknown", inletSide: null, needed: null });
    expect(visit!.why).toContain("With it on the rig's left it serves");
    const [long] = solve([feature("dump", { inletSide: undefined })], { rig: coach("left", 30) });
    expect(long!.usable).toBe("yes");
    expect(long!.why).toContain("not on record");
  });

  it("reads a driver's side by the side on which people drive", () => {
    const at = feature("dump", { inletSide: "driver" });
    expect(solve([at])[0]!.inletSide).toBe("left");
    expect(solve([at], { campground: { drivesOn: "left" } })[0]!.inletSide).toBe("right");
    expect(solve([at], { campground: null })[0]!.inletSide).toBeNull();
  });

  it("cannot be judged without the height of the rig's outlet, and says what to measure", () => {
    const [visit] = solve([feature("dump")], { rig: coach("left", 4.1, { height: null }) });
    expect(visit!.usable).toBe("unknown");
    expect(visit!.unknowns.join(" ")).toContain("drain outlet");
  });

  it("under a roof that is too low is of no use", () => {
    const [visit] = solve([feature("dump", { clearHeight: 3.1 })]);
    expect(visit).toMatchObject({ verdict: "does not fit", usable: "no" });
    expect(visit!.why).toContain("too low");
  });

  it("is nothing for a rig without a drain", () => {
    const dry = rig({ connections: [{ service: "power", fromRear: 1, length: 7 }] });
    expect(solve([feature("dump")], { rig: dry })[0]).toMatchObject({ verdict: "absent", usable: "no" });
  });

  it("is held to a side only by the rule that the campground names", () => {
    const at = feature("dump", { inletSide: "right" });
    expect(solve([at])[0]!.checks).toEqual([]);
    const named = { drivesOn: "right", sitingCode: "ms-15-18-77-3-2-9" } as const;
    expect(solve([at], { campground: named })[0]!.checks[0]).toMatchObject({ id: "drain-rule.side", status: "fail" });
    expect(solve([feature("dump")], { campground: named })[0]!.checks[0]!.status).toBe("pass");
  });
});

describe("a fill tap", () => {
  it("tells how far it stands from the dump station, and is judged only by a named rule", () => {
    const both = [feature("dump"), feature("fill", { drinkable: "yes" }, 12)];
    const [, tap] = solve(both);
    expect(tap!.apart!).toBeCloseTo(12, 1);
    expect(tap).toMatchObject({ kind: "fill", usable: "yes", drinkable: "yes", checks: [] });
    const named = { drivesOn: "right", sitingCode: "upc-e-506-1" } as const;
    expect(solve(both, { campground: named })[1]!.checks[0]).toMatchObject({ id: "fill-tap.distance", status: "fail" });
    const far = [feature("dump"), feature("fill", {}, 15.5)];
    expect(solve(far, { campground: named })[1]!.checks[0]!.status).toBe("pass");
    expect(solve([feature("fill")], { campground: named })[0]!.checks[0]!.status).toBe("unknown");
  });

  it("is nothing for a rig whose record names no inlet", () => {
    expect(solve([feature("fill")], { rig: coach("left", 4.1, { fill: false }) })[0]!.verdict).toBe("absent");
  });

  it("keeps hours, fee and season as the record words them", () => {
    const [tap] = solve([feature("fill", { hours: "08:00-18:00", fee: "4 a tank", season: "May to September" })]);
    expect(tap).toMatchObject({
      hours: "08:00-18:00",
      fee: "4 a tank",
      season: "May to September",
      drinkable: "unknown",
    });
  });
});

describe("a record", () => {
  it("without stations has none, and other features are passed over", () => {
    expect(solve([])).toEqual([]);
    expect(solve([{ ...feature("dump"), properties: { kind: "gate" } }])).toEqual([]);
  });
});
