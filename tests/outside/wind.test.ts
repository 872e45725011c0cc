/**
 * Wind against published tables and against figures worked out by hand from published formulas. Each case carries its
 * basis: E from a published source, D derived from the cited formula, MEM from memory; "read", "second-hand" as to how
 * the source was come by. Tolerance 0.5 % unless a case says otherwise.
 */
import { describe, expect, it } from "vitest";
import classTable from "../../data/awning-wind-classes.json" with { type: "json" };
import beaufortTable from "../../data/beaufort.json" with { type: "json" };
import shelterTable from "../../data/shelter.json" with { type: "json" };
import { parseInterval } from "../../src/records/forecast/interval.ts";
import { readHourly } from "../../src/records/forecast/open-meteo-reply.ts";
import { readGridpoint } from "../../src/records/forecast/weather-service-reply.ts";
import { type AwningWind, gustAtAwning } from "../../src/wind/awning.ts";
import { levelOf, nominalPressure, nominalSpeed, safetyPressure } from "../../src/wind/awning-class.ts";
import { beaufortForce } from "../../src/wind/beaufort.ts";
import { gustFactor, knownGust } from "../../src/wind/gust.ts";
import { dynamicPressure } from "../../src/wind/pressure.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { bearingOfDegrees } from "../../src/wind/sector.ts";
import {
  exposureFactor,
  gustRatio,
  meanRatio,
  roughnessFactor,
  type TerrainCategory,
  terrainFactor,
  turbulenceIntensity,
} from "../../src/wind/terrain.ts";
import { dragOfPorosity, endlessWake, publishedBeltShare, wakeSpread, widthShare } from "../../src/wind/wake.ts";
import { area, box, compiled, HERE, line } from "../wind/places.ts";

const KMH = 1 / 3.6;
const MPH = 0.44704;
const SHARE = 0.005;

function near(actual: number | null | undefined, wanted: number, share = SHARE): void {
  expect(actual).not.toBeNull();
  expect(Math.abs((actual as number) - wanted)).toBeLessThanOrEqual(share * Math.abs(wanted));
}

/** Wake of an endless belt with the roughness of the published tables (0.03 m). */
function tableWake(distance: number, porosity: number, roughness = 0.03) {
  return endlessWake({ distance, height: 10, at: 2.5, drag: dragOfPorosity(porosity), roughness });
}

describe("Beaufort scale [WMO-No. 8 (2008, updated 2010) part I ch. 5 table 5.1, read]", () => {
  it.each([
    [7.9, 4],
    [8.0, 5],
    [10.8, 6],
  ])("case 1 (E): %d m/s is force %d", (speed, force) => {
    expect(beaufortForce(speed).force).toBe(force);
  });

  it.each([
    [38, 5],
    [39, 6],
  ])("case 2 (E): %d km/h is force %d in the printed whole numbers", (kmh, force) => {
    const row = beaufortTable.forces.find((one) => one.kmhTo === null || kmh <= one.kmhTo);
    expect(row?.force).toBe(force);
    // The table in metres per second says the same of the middle of that whole number.
    expect(beaufortForce(kmh * KMH).force).toBe(force);
  });

  it("has the printed limits of every force, in m/s and in km/h", () => {
    const printed = [0, 0.3, 1.6, 3.4, 5.5, 8, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7];
    const kmh = [5, 11, 19, 28, 38, 49, 61, 74, 88, 102, 117];
    for (const [force, from] of printed.entries()) {
      expect(beaufortForce(from).force).toBe(force);
      if (force > 0) expect(beaufortForce(from - 0.01).force).toBe(force - 1);
    }
    expect(beaufortTable.forces.slice(1, -1).map((one) => one.kmhTo)).toEqual(kmh);
  });
});

describe("Awning classes [EN 13561 by Regulation (EU) 2019/1188 annex table 1, read; 5 and 6 MEM]", () => {
  it.each([
    [1, 40, 8.0, 7.9],
    [2, 70, 10.583, 10.7],
    [3, 110, 13.266, 13.8],
  ])(
    "case 3: class %d, %d N/m², is %d m/s (D), within 4 %% of its Beaufort limit %d (E)",
    (of, pressure, speed, limit) => {
      expect(nominalPressure(of)).toBe(pressure);
      near(nominalSpeed(of), speed);
      near(nominalSpeed(of), limit, 0.04);
    },
  );

  it("case 4 (E, awning handbook table citing DIN EN 13561, read): 19, 28, 38, 49 km/h for classes 0 to 3", () => {
    expect(classTable.classes.slice(0, 4).map((one) => one.kmh)).toEqual([19, 28, 38, 49]);
    // The limit of class n is the top of Beaufort 3 + n.
    const forces = classTable.classes.slice(0, 4).map((one) => beaufortForce(one.speed as number).force);
    expect(forces).toEqual([3, 4, 5, 6]);
  });

  it.each([
    [1, 48],
    [2, 84],
    [3, 132],
    [4, 204],
    [5, 324],
    [6, 480],
  ])("case 5 (E; classes 5 and 6 MEM): safety pressure of class %d is %d N/m²", (of, pressure) => {
    near(safetyPressure(of), pressure, 1e-9);
  });
});

describe("Exposure factor [EN 1991-1-4 4.3 to 4.5, formulas second-hand in public code, table 4.1 read]", () => {
  it("case 6 (D): category II at 10 m", () => {
    near(exposureFactor("II", 10), 2.3523);
    near(roughnessFactor("II", 10), 1.0067);
    near(turbulenceIntensity("II", 10), 0.1887);
    near(terrainFactor(0.05), 0.19, 1e-12);
  });

  it.each<[TerrainCategory, number, number]>([
    ["0", 0.9775, 0.9972],
    ["I", 0.9203, 0.9422],
    ["II", 0.8094, 0.8349],
    ["III", 0.7379, 0.7379],
    ["IV", 7071 / 10_000, 7071 / 10_000],
  ])("case 7 (D): gust in category %s, %d of open country at 2.5 m and %d at 3 m", (category, low, high) => {
    near(gustRatio(category, 2.5), low);
    near(gustRatio(category, 3), high);
  });

  it("case 8 (E, clause 4.3.2): nothing is credited below the least height", () => {
    expect(gustRatio("III", 2.5)).toBe(gustRatio("III", 5));
    expect(gustRatio("III", 5.1)).toBeGreaterThan(gustRatio("III", 5));
  });
});

describe("Mean wind by way of 60 m [WMO-No. 8 exposure correction; the formula MEM]", () => {
  it.each([
    [0.0002, 0.9787],
    [0.005, 0.8657],
    [0.03, 0.7614],
    [0.1, 0.6584],
    [0.25, 0.5497],
    [0.5, 0.4399],
    [1, 0.2928],
  ])("case 9 (D): roughness %d m at 2.5 m is %d", (roughness, ratio) => {
    near(meanRatio(roughness, 2.5), ratio);
  });

  it("case 10 (identity): the station's own height and roughness", () => {
    near(meanRatio(0.03, 10), 1, 1e-12);
  });
});

describe("Wake [Taylor and Salmon, J. Appl. Meteorol. 32 (1993) 1683-1694, formula second-hand in public code]", () => {
  it("case 11 (D): belt of 10 m, porosity 0.5, 100 m upwind", () => {
    const wake = tableWake(100, 0.5);
    near(wake.ca, 3.8692);
    near(wake.eta, 0.08536);
    near(wake.g, 0.29084);
    near(wake.share, 0.1858);
  });

  it("case 12 (D; published limit x/h >= 5): held within five heights", () => {
    near(tableWake(50, 0.5).share, 0.4744);
    expect(tableWake(10, 0.5).share).toBe(tableWake(50, 0.5).share);
  });

  it("case 13 (D): the cap", () => {
    near(tableWake(50, 0).raw, 0.9487);
    expect(tableWake(50, 0).share).toBe(0.8);
  });

  it("case 14 (E, two coded sources agree, second-hand): the drag of a solid fence gives Perera's 9.75", () => {
    near(shelterTable.wake.constant * dragOfPorosity(0), 9.75, 1e-12);
  });

  it("case 15 (D): shares of finite widths", () => {
    const spread = wakeSpread(100, 10);
    near(widthShare(-50, 50, spread), 0.9984);
    near(widthShare(-20, 20, spread), 0.7941);
    near(widthShare(0, 10_000, spread), 0.5);
    near(widthShare(20, 80, spread), 0.103);
  });

  it.each([
    [2, [0.6289, 0.4729, 0.3453, 0.285]],
    [4, [0.9264, 0.7941, 0.6289, 0.5348]],
    [10, [1, 0.9984, 0.9747, 0.9321]],
    [20, [1, 1, 1, 0.9997]],
  ])("widths of %d heights at 5, 10, 20 and 30 heights (D)", (heights, shares) => {
    for (const [index, at] of [5, 10, 20, 30].entries()) {
      near(widthShare(-5 * heights, 5 * heights, wakeSpread(10 * at, 10)), shares[index] as number);
    }
  });

  it.each([
    [0, [0.9487, 0.5046, 0.3716, 0.2116, 0.1412, 0.103, 0.0794]],
    [0.3, [0.6641, 0.3532, 0.2602, 0.1481, 0.0988, 0.0721, 0.0556]],
    [0.5, [0.4744, 0.2523, 0.1858, 0.1058, 0.0706, 0.0515, 0.0397]],
  ])("porosity %d at 5, 8, 10, 15, 20, 25 and 30 heights (D)", (porosity, shares) => {
    for (const [index, at] of [5, 8, 10, 15, 20, 25, 30].entries()) {
      near(tableWake(10 * at, porosity).raw, shares[index] as number);
    }
  });

  it("case 16 (E, Iowa State University Extension, Farmstead Windbreaks: Planning, table 1, read): never above it", () => {
    const published = [
      [5, 0.78],
      [10, 0.66],
      [15, 0.35],
      [20, 0.14],
      [25, 0.1],
    ] as const;
    for (const [heights, share] of published) {
      expect(publishedBeltShare(heights, 0.3)).toBeCloseTo(share, 12);
      expect(tableWake(10 * heights, 0.3).share).toBeLessThanOrEqual(share);
      // Production's roughness as well.
      expect(tableWake(10 * heights, 0.3, 0.05).share).toBeLessThanOrEqual(share);
    }
  });

  it("case 17 (D): a building of 4 m, 12 m wide, 30 m upwind", () => {
    const spread = wakeSpread(30, 4);
    near(spread, 5.477);
    near(widthShare(-6, 6, spread), 0.7267);
    const wake = endlessWake({ distance: 30, height: 4, at: 2.5, drag: 0.3, roughness: 0.03 });
    near(wake.share * widthShare(-6, 6, spread), 0.1978);
  });

  it("case 18 (D; published limit h >= 1 m): a hedge of 2 m, and one too low to count", () => {
    near(endlessWake({ distance: 10, height: 2, at: 2.5, drag: dragOfPorosity(0.35) }).share, 0.4098);
    expect(endlessWake({ distance: 10, height: 0.9, at: 2.5, drag: dragOfPorosity(0.35) }).share).toBe(0);
  });
});

/** An endless belt of 10 m to the north, as far away as asked. */
function beltRose(distance: number, properties: Readonly<Record<string, unknown>>, west = -4000, date = "2026-07-04") {
  const spots = [
    [west, distance],
    [4000, distance],
  ] as const;
  const belt = line("belt", spots, { kind: "shelter", what: "trees", height: 10, ...properties });
  return roseAt(compiled(belt), HERE, { height: 2.5, date, hemisphere: "north" });
}

describe("Belts through the map", () => {
  it("case 19 (D): deciduous in and out of leaf", () => {
    near(beltRose(100, { leaf: "deciduous" }).sectors[0]!.shelter, 0.2216);
    near(beltRose(100, { leaf: "deciduous" }, -4000, "2026-01-04").sectors[0]!.shelter, 0.1108);
  });
});

const OPEN = roseAt(compiled(area("meadow", [box(-4000, 5000, -4000, 5000)], { kind: "ground", what: "open" })), HERE);
const GUST = { gust: 50 * KMH, directions: [0] };

function ofClass(windClass: number, rose = OPEN, wind = GUST, azimuth = 0): AwningWind {
  return gustAtAwning(rose, wind, { azimuth, windClass });
}

/** All ground of one kind, so that every direction has its category. */
function everywhere(what: string, more: Readonly<Record<string, unknown>> = {}) {
  const ground = area("all", [box(-4000, 5000, -4000, 5000)], { kind: "ground", what, ...more });
  return roseAt(compiled(ground), HERE);
}

describe("Gust, pressure and level [D from the formulas above; the cut points of the levels are assumed]", () => {
  it("case 20: 50 km/h over open country, straight in", () => {
    const wind = ofClass(1);
    near(wind.speed, 11.242);
    near(wind.pressure, 78.98);
    near(wind.utilisation, 1.97);
    expect(wind.level).toBe("retract");
    near(ofClass(2).utilisation, 1.13);
    expect(ofClass(2).level).toBe("retract");
    near(ofClass(3).utilisation, 0.718);
    expect(ofClass(3).level).toBe("moderate");
  });

  it("case 21: the same over sea and over a lake", () => {
    const sea = everywhere("water", { water: "sea" });
    const lake = everywhere("water");
    near(ofClass(3, sea).pressure, 115.19);
    expect(ofClass(3, sea).level).toBe("retract");
    near(ofClass(3, lake).pressure, 102.11);
    near(ofClass(3, lake).utilisation, 0.928);
    expect(ofClass(3, lake).level).toBe("high");
  });

  it("case 22: behind a belt of 10 m, 100 m upwind", () => {
    const rose = beltRose(100, { porosity: 0.5 });
    near(rose.sectors[0]!.shelter, 0.1847);
    // Straight from the belt, apart from the neighbouring directions that a forecast may have meant.
    const speed = GUST.gust * rose.sectors[0]!.ratio;
    near(speed, 9.165);
    near(dynamicPressure(speed), 52.5);
    near(dynamicPressure(speed) / nominalPressure(2), 0.75);
    expect(levelOf(dynamicPressure(speed) / nominalPressure(2))).toBe("moderate");
    expect(ofClass(2, rose).level).toBe("moderate");
    near(ofClass(2, rose).expectedSpeed, 9.165);
    expect(ofClass(2, rose).speed!).toBeGreaterThan(9.165);
  });

  it("case 23: the same 50 m upwind", () => {
    const rose = beltRose(50, { porosity: 0.5 });
    near(rose.sectors[0]!.shelter, 0.4738);
    near(ofClass(1, rose).expectedSpeed, 5.915);
    near(dynamicPressure(GUST.gust * rose.sectors[0]!.ratio), 21.87);
    near(dynamicPressure(ofClass(1, rose).expectedSpeed!) / nominalPressure(1), 0.547);
    expect(ofClass(1, rose).level).toBe("moderate");
  });

  it("case 24: at the end of the belt", () => {
    const rose = beltRose(100, { porosity: 0.5 }, 0);
    near(rose.sectors[0]!.shelter, 0.0923);
    near(ofClass(2, rose).expectedSpeed, 10.203);
    near(dynamicPressure(ofClass(2, rose).expectedSpeed!), 65.07);
    const share = dynamicPressure(ofClass(2, rose).expectedSpeed!) / nominalPressure(2);
    near(share, 0.93);
    expect(levelOf(share)).toBe("high");
    // One direction beside it the belt is not there at all, so the headline is that of open country.
    expect(ofClass(2, rose).level).toBe("retract");
  });

  it.each([
    [45, 70.89],
    [90, 51.34],
    [180, 51.34],
  ])("case 25 (part MEM: EN 1991-1-4 table 7.6): wind %d degrees off the awning presses %d N/m²", (angle, pressure) => {
    near(ofClass(3, OPEN, GUST, bearingOfDegrees(angle)).pressure, pressure);
    near(ofClass(3, OPEN, GUST, bearingOfDegrees(-angle)).pressure, pressure);
  });

  it("case 26: 60 km/h with wood or houses upwind", () => {
    // Ground of houses: a wood would shelter as well.
    const wind = ofClass(3, everywhere("built"), { gust: 60 * KMH, directions: [0] });
    near(wind.speed, 12.299);
    near(wind.pressure, 94.53);
    near(wind.utilisation, 0.859);
    expect(wind.level).toBe("high");
  });

  it("case 27 (E, WMO/TD-No. 1555 table 1.1; 1.66 MEM, 1.23 second-hand): gust from a mean of 25 km/h", () => {
    near(25 * KMH * gustFactor("in-land"), 11.528);
    near(25 * KMH * gustFactor("at-sea"), 8.542);
    near(knownGust(null, 25 * KMH)?.speed, 11.528);
    expect(knownGust(null, 25 * KMH)?.estimated).toBe(true);
    expect(ofClass(1, OPEN, { mean: 25 * KMH, directions: [0] } as never).flags).toContain("gust-estimated");
  });

  it("case 31: 20 and 25 mph, the speeds of common practice without a source", () => {
    near(dynamicPressure(20 * MPH), 49.96);
    near(dynamicPressure(25 * MPH), 78.06);
    expect(dynamicPressure(20 * MPH)).toBeGreaterThan(nominalPressure(1));
    expect(dynamicPressure(25 * MPH)).toBeGreaterThan(nominalPressure(2));
  });

  it("case 32 (rule): a hazard means retract whatever the wind", () => {
    const wind = gustAtAwning(
      OPEN,
      { gust: 2, directions: [0], hazards: ["thunderstorm"] },
      { azimuth: 0, windClass: 3 },
    );
    expect(wind.utilisation!).toBeLessThan(0.1);
    expect(wind.level).toBe("retract");
  });
});

describe("Forecast feeds", () => {
  it("case 28 (E, National Weather Service, gridpoints page, read): three hours from 18:00, without 21:00", () => {
    const interval = parseInterval("2019-07-04T18:00:00+00:00/PT3H");
    expect(interval).toEqual({ start: Date.UTC(2019, 6, 4, 18), end: Date.UTC(2019, 6, 4, 21) });
    const hours = readGridpoint({
      properties: {
        updateTime: "2019-07-04T12:00:00+00:00",
        windGust: { uom: "wmoUnit:km_h-1", values: [{ validTime: "2019-07-04T18:00:00+00:00/PT3H", value: 36 }] },
      },
    });
    expect(hours.stretches.map(({ start, gust }) => [new Date(start).getUTCHours(), gust])).toEqual([
      [18, 10],
      [19, 10],
      [20, 10],
    ]);
  });

  it("case 29 (E, National Weather Service, openapi, read): null is missing, absent falls back, a strange unit is refused", () => {
    const interval = "2019-07-04T18:00:00+00:00/PT1H";
    const reply = (gust: unknown) => ({
      properties: {
        updateTime: "2019-07-04T12:00:00+00:00",
        windSpeed: { uom: "wmoUnit:km_h-1", values: [{ validTime: interval, value: 18 }] },
        ...(gust === undefined ? {} : { windGust: gust }),
      },
    });
    const missing = readGridpoint(reply({ uom: "wmoUnit:km_h-1", values: [{ validTime: interval, value: null }] }));
    expect(missing.stretches[0]).toMatchObject({ gust: null, mean: 5 });
    const absent = readGridpoint(reply(undefined));
    expect(absent.stretches[0]).toMatchObject({ gust: null, mean: 5 });
    expect(absent.notes.join(" ")).toMatch(/no gusts/);
    expect(() => readGridpoint(reply({ uom: "foo", values: [{ validTime: interval, value: 3 }] }))).toThrow(
      /unit "foo"/,
    );
  });

  it("case 30 (E, Open-Meteo documentation, read): a gust stamped 15:00 is that of 14:00 to 15:00", () => {
    const forecast = readHourly({
      latitude: 52.52,
      longitude: 13.419,
      utc_offset_seconds: 0,
      hourly_units: { time: "iso8601", wind_speed_10m: "m/s", wind_gusts_10m: "m/s", wind_direction_10m: "°" },
      hourly: {
        time: ["2026-07-04T14:00", "2026-07-04T15:00"],
        wind_speed_10m: [7.1, 7.7],
        wind_gusts_10m: [12.9, 13.9],
        wind_direction_10m: [265, 270],
      },
    });
    expect(forecast.stretches).toHaveLength(1);
    const [stretch] = forecast.stretches;
    expect(stretch).toMatchObject({
      start: Date.UTC(2026, 6, 4, 14),
      end: Date.UTC(2026, 6, 4, 15),
      gust: 13.9,
      mean: 7.7,
    });
    expect(stretch!.directions).toEqual([bearingOfDegrees(265), bearingOfDegrees(270)]);
  });
});
