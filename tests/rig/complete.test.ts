import fc from "fast-check";
import { describe, expect, it } from "vitest";
import table from "../../data/rig-classes.json" with { type: "json" };
import { completeRig, type RigContext } from "../../src/rig/complete.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { rigClasses } from "../../src/rig/vocabulary.ts";
import { fullRigInFeet, inMetres, leastRig } from "./rigs.ts";

function complete(input: unknown, context: RigContext = {}): CompletedRig {
  const read = parseRig(input);
  if (!read.ok) throw new Error(JSON.stringify(read.errors));
  return completeRig(read.rig, context);
}
const by = (rig: CompletedRig, id: string) => {
  const found = rig.connections.find((connection) => connection.id === id);
  if (!found) throw new Error(`no connection ${id}`);
  return found;
};
const sources = (rig: CompletedRig) => new Map(rig.assumed.map((one) => [one.path, one.source]));

describe("the least rig", () => {
  const rig = complete(leastRig);

  it("places the power inlet by the electrical code [NEC 2020 551.46(E), second-hand: within 15 ft of the rear, left]", () => {
    const power = by(rig, "power");
    expect(power).toMatchObject({ wall: "left", plug: "nema-tt-30", path: "/power", mayRunBeneath: false });
    expect(power.fromRear).toMatchObject({ low: 0, high: 4.572, basis: "code", sigma: 0, path: "/power/fromRear" });
    expect(power.fromRear.source).toContain("551.46(E)");
    expect(power.line?.length.value).toBe(7.62);
    expect(power.line?.workingLength.value).toBe(7.62);
  });

  it("places the sewer outlet on the left in the rear half, without a height", () => {
    const sewer = by(rig, "sewer");
    expect(sewer).toMatchObject({ wall: "left", height: null, path: "/sewerHose" });
    expect(sewer.fromRear).toMatchObject({ low: 0, high: 3.81, basis: "assumed" });
    expect(sewer.line?.length.value).toBeCloseTo(3.048, 12);
    expect(sewer.line?.workingLength).toMatchObject({ basis: "assumed", sigma: 0 });
    expect(sewer.line?.workingLength.value).toBeCloseTo(2.7432, 12);
  });

  it("puts what lies on a wall there, as far out as the width is known", () => {
    expect(by(rig, "power").left).toMatchObject({ low: rig.width.low / 2, high: rig.width.high / 2, path: "/width" });
    expect(rig.width.low).toBeLessThan(rig.width.high);
  });

  it("invents no water, fill or cable connection", () => {
    expect(rig.connections.map((connection) => connection.service)).toEqual(["power", "sewer"]);
  });

  it("has its door and awning on the kerb side, and says that nobody gave them", () => {
    expect(rig.doors).toMatchObject([{ wall: "right", given: false }]);
    expect(rig.awnings).toMatchObject([{ wall: "right", windClass: null }]);
    expect(rig.awnings[0]?.projection.value).toBeCloseTo(2.4384, 12);
    expect(rig.awnings[0]?.height.high).toBeLessThanOrEqual(rig.height.high);
    expect(rig.awnings[0]?.pitch.high).toBeCloseTo(Math.PI / 9, 12);
  });

  it("keeps what was given as it was", () => {
    expect(rig.length).toMatchObject({ value: 7.62, low: 7.62, high: 7.62, basis: "measured", sigma: 0 });
    expect(rig.height.value).toBeCloseTo(3.3528, 12);
    expect(rig.offLevelLimit).toBeNull();
    expect(rig.tanks).toEqual({ fresh: null, grey: null, black: null, propane: null });
  });

  it("lists every assumption with its source, and nothing that was given", () => {
    const listed = sources(rig);
    for (const path of [
      "/width",
      "/wheelbase",
      "/rearOverhang",
      "/groundClearance",
      "/power/side",
      "/power/fromRear",
      "/power/height",
      "/sewerHose",
      "/sewerHose/side",
      "/sewerHose/fromRear",
      "/slideouts",
      "/doors",
      "/hotOutlets",
      "/awning/side",
      "/awning/length",
      "/awning/fromRear",
      "/awning/height",
      "/awning/pitch",
    ]) {
      expect(listed.get(path), path).toMatch(/common practice, no source|from memory|read|second-hand/);
    }
    for (const path of ["/length", "/height", "/power/cord", "/awning/projection"])
      expect(listed.has(path)).toBe(false);
    expect(listed.get("/sewerHose/side")).toContain("Access Board");
  });

  it("says its assumptions in the units asked for", () => {
    const words = (units: "us" | "metric") =>
      complete(leastRig, { units }).assumed.find((one) => one.path === "/power/fromRear")?.value;
    expect(words("us")).toBe("0 in to 15 ft");
    expect(words("metric")).toBe("0.00 m to 4.58 m");
  });
});

describe("a missing height", () => {
  it("is a range of the class, never a value", () => {
    const { height: _, ...headless } = leastRig;
    const rig = complete(headless);
    expect(rig.height).toMatchObject({ low: 2.9, high: 3.8, basis: "assumed" });
    expect(sources(rig).has("/height")).toBe(true);
  });
});

describe("left-hand traffic", () => {
  const right = complete(leastRig);
  const left = complete(leastRig, { drivesOn: "left" });

  it("mirrors the sides that nobody gave", () => {
    expect(left.connections.map((one) => one.wall)).toEqual(["right", "right"]);
    expect(left.doors[0]?.wall).toBe("left");
    expect(left.awnings[0]?.wall).toBe("left");
    const from = by(right, "sewer").left;
    expect(by(left, "sewer").left).toMatchObject({ value: -from.value, low: -from.high, high: -from.low });
  });

  it("does not claim the code's place on the other wall", () => {
    expect(by(left, "power").fromRear).toMatchObject({ basis: "assumed", high: 7.62 });
    expect(sources(left).get("/power/side")).not.toContain("551.46");
  });

  it("leaves the sides that the record gives", () => {
    const given = complete(fullRigInFeet, { drivesOn: "left" });
    expect(given.connections.map((one) => one.wall)).toEqual(["left", "left", "left", "rear"]);
    expect(given.doors[0]?.wall).toBe("right");
    expect(given.awnings[0]?.wall).toBe("right");
  });

  it("is told by the plug when nobody said", () => {
    const australian = { ...leastRig, power: { plug: "as-3112-15", cord: "10 m" } };
    expect(by(complete(australian), "power").wall).toBe("right");
    expect(by(complete(australian, { drivesOn: "right" }), "power").wall).toBe("left");
  });
});

describe("a 230 V rig", () => {
  const rig = complete({ ...leastRig, power: { plug: "iec-60309-2p-e-16", cord: "25 m" } });
  it("has its inlet anywhere along the road side, not by the American code", () => {
    expect(by(rig, "power").fromRear).toMatchObject({ low: 0, high: 7.62, basis: "assumed" });
    expect(by(rig, "power").fromRear.source).not.toContain("NEC");
  });
  it("is told by the supply system of the place when the plug is not known", () => {
    const plugless = {
      class: "van",
      length: "19 ft",
      connections: [{ service: "power", side: "left", line: { length: "25 ft" } }],
    };
    expect(by(complete(plugless, { electricalSystem: "120/208" }), "power").fromRear.basis).toBe("code");
    expect(by(complete(plugless, { electricalSystem: "230" }), "power").fromRear.basis).toBe("assumed");
    expect(by(complete(plugless), "power").fromRear.basis).toBe("assumed");
  });
});

describe("the full rig", () => {
  const rig = complete(fullRigInFeet);

  it("carries the error of its survey", () => {
    const inlet = by(rig, "inlet");
    expect(inlet.fromRear).toMatchObject({
      value: 1.9558,
      sigma: 0.0254,
      sigmaShared: 0.0127,
      survey: "rig",
      basis: "measured",
    });
    expect(inlet.height).toMatchObject({ value: 0.762, sigma: 0.0254 });
    expect(inlet.left).toMatchObject({ value: 1.2192, low: 1.2192, sigma: 0 });
    expect(inlet.line).toMatchObject({ gauge: { awg: 6 }, rating: 50 });
    expect(sources(rig).has("/connections/0/accuracy")).toBe(false);
  });

  it("takes a tape's error where none is told, and says so", () => {
    const sewer = by(rig, "sewer");
    expect(sewer.fromRear).toMatchObject({
      value: 2.8194,
      sigma: 0.02,
      sigmaShared: 0,
      path: "/connections/2/fromRear",
    });
    expect(sewer.fromRear).not.toHaveProperty("survey");
    expect(sources(rig).get("/connections/2/accuracy")).toContain("common practice, no source");
  });

  it("keeps a range a range", () => {
    expect(by(rig, "water").fromRear).toMatchObject({ low: 2.4384, high: 3.048, sigma: 0, basis: "described" });
  });

  it("counts a stated working length, and nine tenths of the label without one", () => {
    expect(by(rig, "sewer").line).toMatchObject({
      fittings: 0.1524,
      workingLength: { value: 4.2672, basis: "measured" },
    });
    expect(by(rig, "sewer-2").line?.workingLength).toMatchObject({ basis: "assumed" });
    expect(by(rig, "sewer-2").line?.workingLength.value).toBeCloseTo(2.7432, 12);
  });

  it("reads a hose's rating as pressure", () => {
    expect(by(rig, "water").line?.rating).toBeCloseTo(125 * 6894.757293168361, 3);
  });

  it("keeps the rear outlet on the rear wall, right of the centreline", () => {
    const rear = by(rig, "sewer-2");
    expect(rear.fromRear).toMatchObject({ value: 0, sigma: 0 });
    expect(rear.left).toMatchObject({ value: -0.3048 });
  });

  it("places slides, with the right edge of a rear one", () => {
    expect(rig.slideouts.map((slide) => [slide.id, slide.wall, slide.required])).toEqual([
      ["slide-1", "left", true],
      ["bed", "rear", false],
    ]);
    expect(rig.slideouts[1]?.fromRear.value).toBeCloseTo(-0.9144, 12);
    expect(rig.slideouts[1]?.top.low).toBeGreaterThanOrEqual(rig.slideouts[1]?.bottom.high ?? Number.POSITIVE_INFINITY);
    expect(rig.slideouts[1]?.top.high).toBeLessThan(rig.height.high);
    expect(sources(rig).has("/slideouts/0/required")).toBe(true);
    expect(sources(rig).has("/slideouts/1/required")).toBe(false);
  });

  it("carries kit, appliances and limits in SI", () => {
    expect(rig.kit).toMatchObject([
      { item: "power-adapter", rating: 30, addsLength: 0, length: null, where: "aboard", path: "/kit/0" },
      { item: "water-hose", addsLength: 3.048, length: 3.048, where: "depot", path: "/kit/1" },
    ]);
    expect(rig.appliances).toEqual([
      { name: "air conditioner", watts: 1500, starts: 2800, fuel: "electric", bothLegs: false },
    ]);
    expect(rig.offLevelLimit).toBeCloseTo(1 / 48, 12);
    expect(rig.tanks.fresh).toBeCloseTo(189.2705892, 9);
    expect(rig.awnings[0]?.pitch.value).toBeCloseTo(Math.PI / 18, 12);
    expect(rig.towing?.length?.value).toBeCloseTo(5.7912, 12);
  });

  it("keeps the warnings that it is handed", () => {
    const warning = { code: "implausible", path: "/length", text: "Long." } as const;
    expect(complete(leastRig, { warnings: [warning] }).warnings).toEqual([warning]);
  });
});

describe("a rear power inlet of a 120 V rig", () => {
  it("lies within 18 in of the left wall [NEC 551.46(E), from memory]", () => {
    const rig = complete({ ...leastRig, width: "8 ft", power: { ...leastRig.power, side: "rear" } });
    expect(by(rig, "power").fromRear.value).toBe(0);
    expect(by(rig, "power").left).toMatchObject({ basis: "code", high: 1.2192 });
    expect(by(rig, "power").left.low).toBeCloseTo(1.2192 - 0.4572, 12);
  });
});

describe("a rear outlet whose offset nobody gave", () => {
  const rig = {
    class: "fifth-wheel",
    length: "34 ft",
    width: "8 ft",
    connections: [{ service: "sewer", side: "rear" }],
  };
  it("lies on the road side's half", () => {
    expect(by(complete(rig), "sewer").left).toMatchObject({ low: 0, high: 1.2192, basis: "assumed" });
    expect(by(complete(rig, { drivesOn: "left" }), "sewer").left).toMatchObject({ low: -1.2192, high: 0 });
  });
});

/** Every number of two values agrees; texts and structure too, except words in a unit system. */
function expectAlike(one: unknown, other: unknown, path = ""): void {
  if (typeof one === "number" && typeof other === "number") {
    expect(Math.abs(one - other), path).toBeLessThanOrEqual(1e-12);
  } else if (typeof one === "object" && one !== null && typeof other === "object" && other !== null) {
    expect(Object.keys(one), path).toEqual(Object.keys(other));
    for (const [key, value] of Object.entries(one)) {
      expectAlike(value, (other as Record<string, unknown>)[key], `${path}/${key}`);
    }
  } else {
    expect(one, path).toEqual(other);
  }
}

describe("feet and metres of one rig", () => {
  it("complete to the same rig within 1e-12", () => {
    const metric = inMetres(fullRigInFeet) as typeof fullRigInFeet;
    expect(metric.length).toBe("10.16000 m");
    expect(metric.connections[1]?.fromRear).toEqual(["2.43840 m", "3.04800 m"]);
    expectAlike(complete(fullRigInFeet), complete(metric));
    expectAlike(complete(leastRig), complete(inMetres(leastRig)));
  });
});

describe("laws of completion", () => {
  it("every estimate has its value between its ends, on every class and length", () => {
    const walk = (value: unknown): void => {
      if (typeof value !== "object" || value === null) return;
      if ("low" in value && "high" in value && "sigma" in value) {
        const estimate = value as unknown as { low: number; high: number; value: number; basis: string; path: string };
        expect(estimate.low).toBeLessThanOrEqual(estimate.value);
        expect(estimate.value).toBeLessThanOrEqual(estimate.high);
        if (estimate.low < estimate.high) expect(["described", "code", "assumed"]).toContain(estimate.basis);
        expect(estimate.path).toMatch(/^\//);
      }
      for (const inner of Object.values(value)) walk(inner);
    };
    const sample = fc.record({
      class: fc.constantFrom(...rigClasses),
      length: fc.double({ min: 2, max: 18, noNaN: true }),
      slideouts: fc.constant([{ side: "rear", length: 1, depth: 0.4 }]),
      connections: fc.array(
        fc.record({
          service: fc.constantFrom("power", "water", "fill", "sewer", "cable"),
          side: fc.constantFrom("left", "right", "rear", "front"),
        }),
        { maxLength: 5 },
      ),
      awning: fc.constant({ projection: 2 }),
    });
    fc.assert(
      fc.property(sample, fc.constantFrom("left" as const, "right" as const), (input, drivesOn) => {
        const rig = complete(input, { drivesOn, electricalSystem: "120/240" });
        walk(rig);
        expect(new Set(rig.connections.map((one) => one.id)).size).toBe(rig.connections.length);
        for (const connection of rig.connections) expect(connection.line).toBeNull();
      }),
      { numRuns: 300 },
    );
  });

  it("its table has an ordered range and a source for every default", () => {
    expect(Object.keys(table.classes).sort()).toEqual([...rigClasses].sort());
    const walk = (value: unknown): number => {
      if (typeof value !== "object" || value === null) return 0;
      let ranges = 0;
      if ("low" in value && "high" in value) {
        ranges += 1;
        expect(Number(value.low)).toBeLessThan(Number(value.high));
        expect(value).toHaveProperty("source", expect.stringMatching(/common practice|from memory|read|second-hand/));
      }
      return ranges + Object.values(value).reduce((sum: number, inner) => sum + walk(inner), 0);
    };
    expect(walk(table)).toBeGreaterThan(80);
  });
});
