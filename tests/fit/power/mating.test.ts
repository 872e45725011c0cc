import { describe, expect, it } from "vitest";
import { ADAPTERS } from "../../../src/fit/power/adapters.ts";
import { crossEntry, DEVICES, deviceByOpenMapKey, deviceOf } from "../../../src/fit/power/devices.ts";
import { mate } from "../../../src/fit/power/mating.ts";

/**
 * Every pair decided, written out. D direct, A adapter, C adapter with caution, each with its amperes; v other volts,
 * g no ground, n no neutral, b cord below the breaker, p adapters not permitted, - no listed adapter.
 */
const COLUMNS =
  "nema-5-15 nema-5-20 nema-tt-30 nema-l5-30 nema-14-30 nema-14-50 nema-l14-30 ss2-50 nema-10-30 nema-10-50 nema-6-30 nema-6-50 " +
  "iec-60309-2p-e-16 iec-60309-2p-e-32 cee-7-3 bs-1363 as-3112-10 as-3112-15";
const MATRIX: Readonly<Record<string, string>> = {
  "nema-5-15": "D15 D15 b b b b b b g g n n v v v v v v",
  "nema-5-20": "A15 D20 b b b b b b g g n n v v v v v v",
  "nema-tt-30": "A15 A15 D30 A30 C30 C30 C30 b g g n n v v v v v v",
  "nema-l5-30": "A15 A15 A30 D30 - C30 - b g g n n v v v v v v",
  "nema-14-30": "- - - - D30 b - b g g n n v v v v v v",
  "nema-14-50": "A15 A15 A30 A30 C30 D50 C30 A50 g g n n v v v v v v",
  "nema-l14-30": "- - - - - b D30 b g g n n v v v v v v",
  "ss2-50": "- - - - - A50 - D50 g g n n v v v v v v",
  "nema-10-30": "g g g g g g g g g g n n v v v v v v",
  "nema-10-50": "g g g g g g g g g g n n v v v v v v",
  "nema-6-30": "n n n n n n n n g g n n v v v v v v",
  "nema-6-50": "n n n n n n n n g g n n v v v v v v",
  "iec-60309-2p-e-16": "v v v v v v v v v v v v D16 C16 C16 C13 p C15",
  "iec-60309-2p-e-32": "v v v v v v v v v v v v A16 D32 - - p -",
  "cee-7-3": "v v v v v v v v v v v v - b D16 - p -",
  "bs-1363": "v v v v v v v v v v v v b b b D13 p b",
  "as-3112-10": "v v v v v v v v v v v v b b b b D10 D10",
  "as-3112-15": "v v v v v v v v v v v v C15 b b - p D15",
};
const LETTERS: Readonly<Record<string, string>> = {
  voltage: "v",
  "no-ground": "g",
  "no-neutral": "n",
  "cord-below-breaker": "b",
  "adapter-not-permitted": "p",
  "no-listed-adapter": "-",
};

function letter(plug: string, receptacle: string): string {
  const mating = mate(plug, receptacle);
  if (mating.kind === "refused") return LETTERS[mating.reason] ?? mating.reason;
  return { direct: "D", adapter: "A", "adapter with caution": "C", unknown: "?" }[mating.kind] + String(mating.amps);
}

describe("every plug meets every receptacle", () => {
  const ids = DEVICES.map((device) => device.id);

  it("the written matrix has every device as a row and as a column", () => {
    expect(COLUMNS.split(" ")).toEqual(ids);
    expect(Object.keys(MATRIX)).toEqual(ids);
  });

  for (const plug of ids) {
    it(`${plug} plug`, () => {
      expect(ids.map((receptacle) => letter(plug, receptacle)).join(" ")).toBe(MATRIX[plug]);
    });
  }

  it("says why in a sentence that names both devices or the fact that decides", () => {
    for (const plug of ids) {
      for (const receptacle of ids) {
        const { why, kind } = mate(plug, receptacle);
        expect(why).toMatch(/^[A-Z].*\.$/);
        if (kind !== "refused") expect(why).toContain(deviceOf(receptacle)?.name ?? "nothing");
      }
    }
  });

  it("never gives more amperes or legs than either side has", () => {
    for (const plug of DEVICES) {
      for (const receptacle of DEVICES) {
        const mating = mate(plug.id, receptacle.id);
        expect(mating.amps ?? 0).toBeLessThanOrEqual(Math.min(plug.amps, receptacle.amps));
        expect(mating.legs ?? 0).toBeLessThanOrEqual(Math.min(plug.hots, receptacle.hots));
      }
    }
  });

  it("agrees over all the adapters of a pair whether the breaker is larger", () => {
    for (const plug of ids) {
      for (const receptacle of ids) {
        expect(new Set(mate(plug, receptacle).adapters.map((each) => each.largerBreaker)).size).toBeLessThanOrEqual(1);
      }
    }
  });
});

describe("words outside the vocabulary", () => {
  it("is unknown, never refused and never accepted", () => {
    expect(mate(null, "nema-tt-30")).toMatchObject({ kind: "unknown", reason: "plug-not-known", amps: null });
    expect(mate("nema-tt-99", "nema-tt-30")).toMatchObject({ kind: "unknown", reason: "plug-not-known" });
    expect(mate("nema-tt-30", "blue one")).toMatchObject({ kind: "unknown", reason: "receptacle-not-known" });
  });
});

describe("the breaker counts", () => {
  it("a smaller breaker lowers the amperes", () => {
    expect(mate("nema-tt-30", "nema-tt-30", 20)).toMatchObject({ kind: "direct", amps: 20 });
  });
  it("a breaker above the receptacle's rating is a fault", () => {
    expect(mate("nema-tt-30", "nema-tt-30", 50)).toMatchObject({ kind: "refused", reason: "breaker-above-receptacle" });
  });
  it("a 14-50 behind a 30 A breaker is no larger breaker for a 30 A rig", () => {
    expect(mate("nema-tt-30", "nema-14-50", 30).reason).toBe("listed-adapter");
    expect(mate("nema-tt-30", "nema-14-50", 31).reason).toBe("listed-adapter-larger-breaker");
  });
  it("a 20 A cord stays refused on a TT-30 even behind 20 A, for want of a listed adapter", () => {
    expect(mate("nema-5-20", "nema-tt-30", 20)).toMatchObject({ kind: "refused", reason: "no-listed-adapter" });
  });
});

describe("the tables", () => {
  it("name known devices only, once a pair, each with source and mark", () => {
    const pairs = ADAPTERS.map((adapter) => `${adapter.plug} ${adapter.receptacle}`);
    expect(new Set(pairs).size).toBe(pairs.length);
    for (const adapter of ADAPTERS) {
      expect(deviceOf(adapter.plug)?.system).toBe(deviceOf(adapter.receptacle)?.system);
      expect(adapter.source.length * adapter.mark.length).toBeGreaterThan(0);
      expect(adapter.rating).toBeLessThanOrEqual(deviceOf(adapter.plug)?.amps ?? 0);
    }
    for (const device of DEVICES) expect(device.source.length * device.mark.length).toBeGreaterThan(0);
  });
  it("let only the two smaller plugs enter, and only that way round", () => {
    expect(crossEntry("nema-5-15", "nema-5-20")?.mark).toBe("read");
    expect(crossEntry("nema-5-20", "nema-5-15")).toBeNull();
    expect(crossEntry("as-3112-10", "as-3112-15")?.mark).toBe("from memory");
    expect(crossEntry("as-3112-15", "as-3112-10")).toBeNull();
  });
  it("read the spellings of open map keys", () => {
    expect(deviceByOpenMapKey("socket:nema_TT_30")?.id).toBe("nema-tt-30");
    expect(deviceByOpenMapKey("socket:tt_30")?.id).toBe("nema-tt-30");
    expect(deviceByOpenMapKey("socket:nema5_15")?.id).toBe("nema-5-15");
    expect(deviceByOpenMapKey("socket:cee_blue_32a")?.id).toBe("iec-60309-2p-e-32");
    expect(deviceByOpenMapKey("socket:type2")).toBeNull();
  });
});
