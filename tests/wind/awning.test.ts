import { describe, expect, it } from "vitest";
import { type AwningAtSite, gustAtAwning, type Wind } from "../../src/wind/awning.ts";
import { awningClass, nominalPressure } from "../../src/wind/awning-class.ts";
import { AWNING_CAUTION, WIND_FLAG_TEXTS, WIND_NOT_MODELLED } from "../../src/wind/flags.ts";
import type { WindForecast, WindStretch } from "../../src/wind/forecast.ts";
import { awningHours, FRESH_HOURS, HORIZON_HOURS } from "../../src/wind/hours.ts";
import { dynamicPressure, orientationFactor } from "../../src/wind/pressure.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { bearingOfDegrees } from "../../src/wind/sector.ts";
import { area, box, compiled, HERE, line } from "./places.ts";

const meadow = area("meadow", [box(-4000, 5000, -4000, 5000)], { kind: "ground", what: "open" });
const OPEN = roseAt(compiled(meadow), HERE);
const belt = line(
  "belt",
  [
    [-900, 60],
    [900, 60],
  ],
  { kind: "shelter", what: "trees", height: 10, porosity: 0.2 },
);
const BEHIND = roseAt(compiled(meadow, belt), HERE);
const guessedBelt = line(
  "row",
  [
    [-900, 60],
    [900, 60],
  ],
  { kind: "shelter", what: "trees", porosity: 0.2 },
);
const GUESSED = roseAt(compiled(meadow, guessedBelt), HERE);
const AWNING: AwningAtSite = { azimuth: bearingOfDegrees(100), windClass: 2 };
const deg = bearingOfDegrees;

describe("a wind at an awning", () => {
  it("is unknown without wind, never low", () => {
    for (const wind of [{}, { gust: null, mean: null }, { directions: [1] }] as Wind[]) {
      const answer = gustAtAwning(OPEN, wind, AWNING);
      expect(answer).toMatchObject({ level: "unknown", speed: null, pressure: null, band: null, utilisation: null });
      expect(answer.why).toMatch(/No wind is known/);
    }
  });

  it("takes a hazard before everything, also without wind", () => {
    const answer = gustAtAwning(OPEN, { hazards: ["tornado warning"] }, AWNING);
    expect(answer.level).toBe("retract");
    expect(answer.why).toMatch(/tornado warning; retract the awning/);
    expect(gustAtAwning(OPEN, { gust: 1, hazards: ["gale warning"] }, AWNING).level).toBe("retract");
  });

  it("takes the worst direction near the forecast's, and beside it the nearest", () => {
    const wind = { gust: 15, directions: [deg(70)] };
    const answer = gustAtAwning(BEHIND, wind, AWNING);
    expect(answer.speed).toBeCloseTo(15 * BEHIND.sectors[4]!.ratio, 12);
    expect(answer.expectedSpeed).toBeCloseTo(15 * BEHIND.sectors[3]!.ratio, 12);
    expect(answer.sector).toBe("E");
    expect(answer.expectedSpeed!).toBeLessThan(answer.speed!);
  });

  it("takes the worst of several directions, and of all sixteen when none is known", () => {
    const north = gustAtAwning(BEHIND, { gust: 15, directions: [0] }, AWNING);
    const turning = gustAtAwning(BEHIND, { gust: 15, directions: [0, deg(180)] }, AWNING);
    const none = gustAtAwning(BEHIND, { gust: 15 }, AWNING);
    expect(north.speed!).toBeLessThan(turning.speed!);
    expect(none.speed).toBe(turning.speed);
    expect(none.pressure).toBeCloseTo(dynamicPressure(none.speed!), 12);
    expect(none.flags).toContain("direction-unknown");
    expect(turning.pressure!).toBeLessThan(none.pressure!);
  });

  it("assumes the lowest class and the worst side, and says so", () => {
    const answer = gustAtAwning(OPEN, { gust: 9, directions: [0] }, { azimuth: null, windClass: null });
    expect(answer).toMatchObject({ windClass: 1, limit: 40 });
    expect(answer.flags).toEqual(["awning-side-unknown", "class-assumed"]);
    expect(answer.pressure).toBeCloseTo(dynamicPressure(answer.speed!), 12);
    expect(answer.why).toMatch(/class 1 \(assumed\)/);
  });

  it("asks about classes that folding arms do not have; class 0 has the handbook's speed", () => {
    expect(gustAtAwning(OPEN, { gust: 5 }, { azimuth: 0, windClass: 3 }).flags).toContain("class-unusual");
    expect(gustAtAwning(OPEN, { gust: 5 }, { azimuth: 0, windClass: 2 }).flags).not.toContain("class-unusual");
    expect(nominalPressure(0)).toBeCloseTo(dynamicPressure(5.4), 12);
    expect(awningClass(0).limit).toBeLessThan(awningClass(1).limit);
    expect(() => nominalPressure(7)).toThrow(RangeError);
  });

  it("estimates a gust from the mean inland, and never takes one below the mean", () => {
    expect(gustAtAwning(OPEN, { mean: 7, directions: [0] }, AWNING)).toMatchObject({ flags: ["gust-estimated"] });
    const odd = gustAtAwning(OPEN, { gust: 6, mean: 9, directions: [0] }, AWNING);
    expect(odd.speed).toBe(gustAtAwning(OPEN, { gust: 9, directions: [0] }, AWNING).speed);
  });

  it("never goes below moderate on shelter that is a guess", () => {
    const wind = { gust: 13, directions: [0] };
    const guessed = gustAtAwning(GUESSED, wind, AWNING);
    expect(guessed.utilisation!).toBeLessThan(0.5);
    expect(guessed.level).toBe("moderate");
    expect(guessed.flags).toContain("shelter-uncertain");
    expect(gustAtAwning(BEHIND, wind, AWNING).level).toBe("low");
    expect(gustAtAwning(GUESSED, { gust: 4, directions: [0] }, AWNING).level).toBe("low");
    // The upper end of the band does without it as well.
    expect(guessed.band!.high).toBeCloseTo(1.4 * dynamicPressure(1.2 * 13 * OPEN.sectors[0]!.ratio), 9);
  });

  it("brackets the pressure", () => {
    const { band, pressure } = gustAtAwning(BEHIND, { gust: 15, directions: [0] }, AWNING);
    expect(band!.low).toBeLessThan(pressure!);
    expect(band!.high).toBeGreaterThan(2 * pressure!);
  });

  it("explains itself in one sentence, rounded against the awning", () => {
    const { why } = gustAtAwning(BEHIND, { gust: 15, directions: [deg(202.5)] }, AWNING, { units: "us" });
    expect(why).toBe(
      "Gust 34 mph from SSW, judged from S, about 28 mph at the awning (open land with low plants upwind, nothing recorded that shelters): 60 N/m² against 70 N/m² of class 2.",
    );
    const turning = gustAtAwning(OPEN, { gust: 9, directions: [deg(265), deg(270), deg(300)] }, AWNING).why;
    expect(turning).toMatch(/^Gust 33 km\/h from W to WNW, judged from/);
    const metric = gustAtAwning(BEHIND, { gust: 15, directions: [0] }, AWNING).why;
    expect(metric).toMatch(
      /^Gust 54 km\/h from N, judged from \w+, about \d\d km\/h at the awning \(.*trees "belt" \d\d m upwind takes/,
    );
  });

  it("never says that anything is safe or permitted", () => {
    const said = [...Object.values(WIND_FLAG_TEXTS), ...WIND_NOT_MODELLED, AWNING_CAUTION].join(" ");
    expect(said).not.toMatch(/\bsafe\b|compliant|allowed/i);
    expect(AWNING_CAUTION).toMatch(/no permission/);
  });

  it("does not thin the air by default", () => {
    expect(dynamicPressure(10)).toBe(62.5);
    expect(dynamicPressure(10, 1600) / dynamicPressure(10)).toBeCloseTo(0.827, 3);
    expect(orientationFactor(0)).toBe(1);
  });
});

const HOUR = 3_600_000;
const NOW = Date.UTC(2026, 6, 4, 12);

function stretch(hour: number, gust: number | null, more: Partial<WindStretch> = {}): WindStretch {
  return {
    start: NOW + hour * HOUR,
    end: NOW + (hour + 1) * HOUR,
    gust,
    mean: null,
    directions: [0.3],
    hazards: [],
    ...more,
  };
}

function forecast(stretches: readonly WindStretch[], more: Partial<WindForecast> = {}): WindForecast {
  return { source: "test", attribution: "", issuedAt: NOW - HOUR, checkedAt: NOW, stretches, notes: [], ...more };
}

function signals(given: WindForecast | null, hours = 1, from = NOW, now = NOW) {
  return awningHours({ rose: OPEN, awning: AWNING, forecast: given, from, to: from + hours * HOUR, now });
}

/** Gusts at 10 m over open country: far below class 2, in its band, and above it. */
const CALM = 5;
const DOUBTFUL = 11;
const STRONG = 16;

describe("hours", () => {
  it("gives each hour one of three words", () => {
    const given = forecast([stretch(0, CALM), stretch(1, DOUBTFUL), stretch(2, STRONG), stretch(3, null)]);
    expect(signals(given, 5).map(({ signal }) => signal)).toEqual([
      "no retract signal",
      "unknown",
      "retract",
      "unknown",
      "unknown",
    ]);
    expect(signals(given, 5)[1]!.why).toMatch(/may reach the limit/);
    expect(signals(given, 5)[4]!.why).toMatch(/does not cover/);
  });

  it("clears an hour only when the upper end of the band stays below the limit", () => {
    for (let gust = 0; gust < 20; gust += 0.25) {
      const [hour] = signals(forecast([stretch(0, gust)]));
      const { band, level, limit } = gustAtAwning(OPEN, { gust, directions: [0.3] }, AWNING);
      const wanted = level === "retract" ? "retract" : band!.high < limit ? "no retract signal" : "unknown";
      expect(hour!.signal).toBe(wanted);
    }
  });

  it("clears nothing with an old forecast, but still calls for retracting", () => {
    const old = { issuedAt: NOW - FRESH_HOURS * HOUR - 1 };
    expect(signals(forecast([stretch(0, CALM)], old))[0]).toMatchObject({ signal: "unknown" });
    expect(signals(forecast([stretch(0, STRONG)], old))[0]).toMatchObject({ signal: "retract" });
    expect(signals(forecast([stretch(0, CALM)], { issuedAt: null, checkedAt: NOW - 7 * HOUR }))[0]!.signal).toBe(
      "unknown",
    );
    expect(signals(forecast([stretch(0, CALM)], { issuedAt: null }))[0]!.signal).toBe("no retract signal");
    expect(signals(forecast([stretch(0, CALM)], { issuedAt: NOW + HOUR, checkedAt: NOW + HOUR }))[0]!.signal).toBe(
      "unknown",
    );
  });

  it("clears nothing far ahead", () => {
    const far = HORIZON_HOURS + 1;
    expect(signals(forecast([stretch(far, CALM)]), 1, NOW + far * HOUR)[0]!.signal).toBe("unknown");
    expect(signals(forecast([stretch(far, STRONG)]), 1, NOW + far * HOUR)[0]!.signal).toBe("retract");
  });

  it("takes the worse of two stretches that share an hour, for places half an hour off", () => {
    const given = forecast([stretch(0, CALM), stretch(1, STRONG), stretch(2, CALM)]);
    expect(signals(given, 3, NOW - HOUR / 2).map(({ signal }) => signal)).toEqual(["unknown", "retract", "retract"]);
    const gap = forecast([stretch(0, CALM), stretch(0, CALM, { start: NOW + 1.2 * HOUR, end: NOW + 3 * HOUR })]);
    expect(signals(gap, 2).map(({ signal }) => signal)).toEqual(["no retract signal", "unknown"]);
  });

  it("calls for retracting in a hazard, and knows nothing without a forecast", () => {
    expect(signals(forecast([stretch(0, CALM, { hazards: ["thunderstorm"] })]))[0]!.signal).toBe("retract");
    expect(signals(null, 2).map(({ signal }) => signal)).toEqual(["unknown", "unknown"]);
  });

  it("refuses a stay that is none", () => {
    expect(() => signals(null, -2)).toThrow(RangeError);
    expect(() => signals(null, 1e6)).toThrow(RangeError);
    expect(() => signals(null, Number.NaN)).toThrow(RangeError);
  });
});
