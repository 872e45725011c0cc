/** The wind asked about, in the answer of a fit: hours, worst hour, check and headline; invented sites and winds. */
import { describe, expect, it } from "vitest";
import { azimuthOf, padSideAzimuth } from "../../../src/fit/clearance/awning-room.ts";
import { fitRig } from "../../../src/fit/fit.ts";
import type { StayWhen, When } from "../../../src/fit/wind/when.ts";
import type { WindForecast, WindStretch } from "../../../src/wind/forecast.ts";
import { dynamicPressure } from "../../../src/wind/pressure.ts";
import { roseAt } from "../../../src/wind/rose.ts";
import { area, box, compiled, HERE } from "../../wind/places.ts";
import { exact, options, rig, site } from "../core/builders.ts";

const HOUR = 3_600_000;
const OPEN = area("field", [box(-900, 900, -900, 900)], { kind: "ground", what: "open" });
/** No hookups; the pad's axis runs 17 degrees east of north. */
const BARE = site({ hookups: [] });
const ROSE = roseAt(compiled(OPEN), HERE);
const WEST = (3 * Math.PI) / 2;
/** Saturday, 4 July 2026, midnight in Denver. */
const MIDNIGHT = Date.UTC(2026, 6, 4, 6);

function stretch(hour: number, gust: number | null, more: Partial<WindStretch> = {}): WindStretch {
  const start = MIDNIGHT + hour * HOUR;
  return { start, end: start + HOUR, gust, mean: null, directions: [WEST], hazards: [], ...more };
}

function forecast(stretches: readonly WindStretch[], more: Partial<WindForecast> = {}): WindForecast {
  return {
    source: "invented",
    attribution: "Invented winds",
    issuedAt: MIDNIGHT - HOUR,
    checkedAt: MIDNIGHT,
    stretches,
    notes: [],
    ...more,
  };
}

function stay(more: Partial<StayWhen> = {}): StayWhen {
  return { kind: "stay", from: "2026-07-04", to: "2026-07-04", forecast: null, problem: null, now: MIDNIGHT, ...more };
}

function fitWith(when: When, more: Partial<ReturnType<typeof site>> = {}) {
  const pad = { ...BARE.pad, heading: exact(0.3) };
  return fitRig({
    rig: rig({ connections: [] }),
    site: { ...BARE, pad, timeZone: "America/Denver", ...more },
    options: options(),
    rose: ROSE,
    when,
  });
}

/** A calm day with a gale from 14:00 to 19:00 and a storm at 22:00. */
const DAY = Array.from({ length: 24 }, (_, hour) => {
  if (hour === 22) return stretch(hour, 3, { hazards: ["thunderstorm"] });
  return stretch(hour, hour >= 14 && hour < 19 ? 20 : 3);
});

describe("the hours of a stay", () => {
  it("stand in local time with their offset, each with signal, level, gust, speed, band and reason", () => {
    const [awning] = fitWith(stay({ forecast: forecast(DAY) })).awning;
    const hours = awning!.hours!;
    expect(hours).toHaveLength(24);
    expect(hours[14]).toMatchObject({
      local: "2026-07-04T14:00-06:00",
      start: "2026-07-04T20:00:00.000Z",
      end: "2026-07-04T21:00:00.000Z",
      signal: "retract",
      level: "retract",
      gust: 20,
      from: [WEST],
    });
    expect(hours[14]!.speed).toBeCloseTo(20 * ROSE.sectors[12]!.ratio, 10);
    expect(hours[14]!.band!.low).toBeLessThan(hours[14]!.band!.high);
    expect(hours[14]!.why).toContain("class 1 (assumed)");
    expect(hours.map(({ signal }) => signal).filter((signal) => signal === "retract")).toHaveLength(6);
    expect(hours[3]).toMatchObject({ signal: "no retract signal", level: "low" });
  });

  it("give the worst hour as the wind at the awning, and name the hours in the headline", () => {
    const fit = fitWith(stay({ forecast: forecast(DAY) }));
    expect(fit.headline).toContain("Awning in Saturday 14:00 to 19:00, Saturday 22:00 to 23:00");
    expect(fit.awning[0]!.wind).toMatchObject({
      of: "worst hour",
      hour: "2026-07-04T14:00-06:00",
      level: "retract",
      windClass: 1,
      classAssumed: true,
      sector: expect.stringMatching(/W/),
      shelterBy: null,
    });
    const { pressure, speed, limit } = fit.awning[0]!.wind!;
    expect(pressure!).toBeLessThanOrEqual(dynamicPressure(speed!));
    expect(limit).toBe(40);
    expect(fit.checks.at(-1)).toMatchObject({
      id: "awning.wind",
      status: "fail",
      deciding: false,
      unit: "Pa",
      value: pressure,
    });
    expect(fit.wind).toMatchObject({ asked: "stay", forecast: { attribution: "Invented winds" }, problem: null });
    expect(fit.sources).toContain("Invented winds");
  });

  it("are told as one stretch over midnight, with the date in a long stay", () => {
    const night = [stretch(22, 20), stretch(23, 20), stretch(24, 20)];
    const over = fitWith(stay({ to: "2026-07-05", forecast: forecast(night) })).headline;
    expect(over).toContain("Awning in Saturday 22:00 to Sunday 01:00; 45 of 48 awning hours unknown");
    const long = fitWith(stay({ to: "2026-07-14", forecast: forecast(night) })).headline;
    expect(long).toContain("Awning in Saturday 4 July 22:00 to Sunday 5 July 01:00");
  });

  it("are unknown without a forecast, say why, and leave everything else as it is", () => {
    const problem = { code: "timed-out", text: "The forecast did not come in time." };
    const without = fitWith(stay({ problem }));
    const plain = fitRig({
      rig: rig({ connections: [] }),
      site: { ...BARE, pad: { ...BARE.pad, heading: exact(0.3) } },
      options: options(),
      rose: ROSE,
    });
    expect(without.awning[0]!.hours!.every(({ signal, why }) => signal === "unknown" && why === problem.text)).toBe(
      true,
    );
    expect(without.headline).toBe(plain.headline.replace(/\.$/, ". Awning hours unknown."));
    expect(without.wind!.problem).toEqual(problem);
    expect(without.awning[0]!.wind).toBeNull();
    expect([without.verdict, without.stance, without.exposure]).toEqual([plain.verdict, plain.stance, plain.exposure]);
    expect(plain).toMatchObject({ wind: null, awning: [{ hours: null, wind: null }] });
  });

  it("are never cleared by a forecast that is old, undated or far ahead", () => {
    const calm = Array.from({ length: 24 }, (_, hour) => stretch(hour, 2));
    const signals = (when: StayWhen) => new Set(fitWith(when).awning[0]!.hours!.map(({ signal }) => signal));
    expect(signals(stay({ forecast: forecast(calm) }))).toEqual(new Set(["no retract signal"]));
    expect(signals(stay({ forecast: forecast(calm), now: MIDNIGHT + 7 * HOUR }))).toEqual(new Set(["unknown"]));
    const undated = forecast(calm, { issuedAt: null, checkedAt: Number.NaN });
    expect(signals(stay({ forecast: undated }))).toEqual(new Set(["unknown"]));
    expect(fitWith(stay({ forecast: undated })).wind!.forecast).toMatchObject({ issuedAt: null, checkedAt: null });
    expect(signals(stay({ forecast: forecast(calm), now: MIDNIGHT - 2 * HOUR }))).toEqual(new Set(["unknown"]));
  });

  it("count 25 on the day on which the clock is put back, 01:00 twice with two offsets", () => {
    const { awning, wind } = fitWith(stay({ from: "2026-11-01", to: "2026-11-01" }));
    const hours = awning[0]!.hours!;
    expect(hours).toHaveLength(25);
    expect(hours.slice(1, 3).map(({ local }) => local)).toEqual(["2026-11-01T01:00-06:00", "2026-11-01T01:00-07:00"]);
    expect(wind!.stay).toMatchObject({ start: "2026-11-01T06:00:00.000Z", end: "2026-11-02T07:00:00.000Z" });
  });

  it("are counted in UTC, and said to be, where the record names no zone that is known", () => {
    for (const timeZone of [null, "America/Nowhere"]) {
      const { awning, wind } = fitWith(stay(), { timeZone });
      expect(wind!.stay).toMatchObject({ timeZone: "UTC", timeZoneGiven: false });
      expect(awning[0]!.hours![0]!.local).toBe("2026-07-04T00:00+00:00");
    }
  });
});

describe("a wind by hand", () => {
  it("is judged at the awning, from the side on which it opens", () => {
    const blow = (from: number) => fitWith({ kind: "wind", wind: { gust: 10, directions: [from] } }).awning[0]!;
    const azimuth = blow(0).azimuth!;
    const into = blow(azimuth).wind!;
    const behind = blow(azimuth + Math.PI).wind!;
    expect(into).toMatchObject({ of: "wind by hand", hour: null, gust: 10 });
    expect(behind.pressure! / into.pressure!).toBeLessThan(0.75);
    expect(blow(0).hours).toBeNull();
  });

  it("stands in the headline when it calls for anything", () => {
    const said = (gust: number) => fitWith({ kind: "wind", wind: { gust, directions: [WEST] } }).headline;
    expect(said(20)).toContain("In this wind the awning in");
    expect(said(9)).toMatch(/Awning level in this wind (moderate|high)/);
    expect(said(2)).not.toMatch(/this wind/);
  });

  it("is judged too where there is no stance, as if it blew straight in", () => {
    const small = { ...BARE.pad, length: exact(4), heading: exact(0.3) };
    const fit = fitWith({ kind: "wind", wind: { gust: 10, directions: [WEST] } }, { pad: small });
    expect(fit.stance).toBeNull();
    expect(fit.awning[0]).toMatchObject({ padSide: null, azimuth: null, room: "unknown" });
    expect(fit.awning[0]!.wind!.flags.map(({ id }) => id)).toContain("awning-side-unknown");
  });
});

describe("where an awning opens to", () => {
  const stance = { facing: "out", along: 1, left: 0, yaw: 0 } as const;
  it("is a bearing from the pad's heading, turned about when the rig is", () => {
    const heading = 0.4;
    expect(azimuthOf("right", stance, heading)).toBeCloseTo(heading + Math.PI / 2, 12);
    expect(azimuthOf("left", stance, heading)).toBeCloseTo(heading + (3 * Math.PI) / 2, 12);
    expect(azimuthOf("rear", stance, heading)).toBeCloseTo(heading + Math.PI, 12);
    expect(azimuthOf("right", { ...stance, facing: "in" }, heading)).toBeCloseTo(heading + (3 * Math.PI) / 2, 12);
    // A nose turned to the pad's left turns the awning on the right forward.
    expect(azimuthOf("right", { ...stance, yaw: 0.1 }, heading)).toBeCloseTo(heading + Math.PI / 2 - 0.1, 12);
    expect(padSideAzimuth("right", heading)).toBeCloseTo(azimuthOf("right", stance, heading), 12);
    expect(padSideAzimuth("rear", heading)).toBeCloseTo(azimuthOf("rear", stance, heading), 12);
    expect(padSideAzimuth("left", heading)).toBeCloseTo(azimuthOf("left", stance, heading), 12);
    expect(padSideAzimuth("exit", heading)).toBeCloseTo(heading, 12);
  });
});

describe("the rose of an answer", () => {
  it("stands in the full answer with a word for each direction, to the prevailing wind too", () => {
    const full = fitWith(stay(), { prevailingWind: WEST });
    expect(full.exposureRose!.sectors).toHaveLength(16);
    expect(full.exposureRose!.sectors[12]).toMatchObject({ from: WEST, level: "high", by: null });
    expect(full.exposure).toMatchObject({ level: "high", prevailing: { from: WEST, level: "high" } });
    const brief = fitRig({
      rig: rig({ connections: [] }),
      site: BARE,
      options: options({ detail: "summary" }),
      rose: ROSE,
    });
    expect(brief.exposureRose).toBeNull();
    expect(brief.exposure).toMatchObject({ level: "high", prevailing: null });
  });
});
