/** The invented days of wind: made by their script, read as a request reads them, and unlike each other in the hours. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { WIND_DAYS } from "../../data/demo/generator/wind.ts";
import { windDayText } from "../../data/demo/make.ts";
import { judgeAwning } from "../../src/fit/wind/judge.ts";
import { whenAsked, whenSchema } from "../../src/fit/wind/when.ts";
import { roseOf } from "../../src/records/surroundings.ts";
import { bearingOfDegrees } from "../../src/wind/sector.ts";
import { reading, site } from "./demo.ts";

/** Behind the spruce belt when the wind is westerly, and out on the slope by the lake. */
const LEE = "curlew-25";
const OPEN = "pipit-3";
const HOURS = 24;
const INTO_THE_WIND = bearingOfDegrees(281);

function dayFile(id: string): string {
  return readFileSync(new URL(`../../data/demo/wind/${id}.json`, import.meta.url), "utf8");
}

function hoursAt(siteId: string, day: string) {
  const asked = whenAsked(whenSchema.parse(JSON.parse(dayFile(day))));
  if (asked.kind !== "forecast" || asked.asOf === null) throw new Error(`${day} is no day to replay`);
  const { from, to, forecast, asOf } = asked;
  const when = { kind: "stay", from, to, forecast, problem: null, now: asOf } as const;
  const rose = roseOf(site(siteId), reading.features);
  const question = { when, rose, timeZone: "America/Denver", units: "us" } as const;
  const { hours, wind } = judgeAwning(question, { azimuth: INTO_THE_WIND, windClass: null });
  return { hours: hours ?? [], worst: wind };
}

/** Local hours with this signal. */
function clock(siteId: string, day: string, signal: string): number[] {
  const { hours } = hoursAt(siteId, day);
  return hours.filter((hour) => hour.signal === signal).map((hour) => Number(hour.local.slice(11, 13)));
}

describe("the invented days of wind", () => {
  it.each(WIND_DAYS.map((day) => day.id))("%s is what its script makes, and says that it is invented", (id) => {
    expect(windDayText(id)).toBe(dayFile(id));
    const { forecast, from, asOf } = JSON.parse(dayFile(id));
    expect(forecast.source).toMatch(/^Invented .*made up/);
    expect(forecast.hours).toHaveLength(HOURS);
    expect(asOf.startsWith(from)).toBe(true);
  });

  it("give one signal for each local hour of one day", () => {
    for (const { id, date } of WIND_DAYS) {
      const locals = hoursAt(LEE, id).hours.map((hour) => hour.local.slice(0, 13));
      expect(locals).toEqual(Array.from({ length: HOURS }, (_, hour) => `${date}T${String(hour).padStart(2, "0")}`));
    }
  });

  it("calm: no retract signal in any hour, at the open site either", () => {
    for (const id of [LEE, OPEN]) expect(clock(id, "calm", "no retract signal")).toHaveLength(HOURS);
  });

  it("afternoon breeze: retract on the slope in the afternoon, none behind the belt", () => {
    const open = clock(OPEN, "afternoon-breeze", "retract");
    expect(open.length).toBeGreaterThan(1);
    expect(Math.min(...open)).toBeGreaterThanOrEqual(12);
    expect(Math.max(...open)).toBeLessThan(21);
    expect(clock(LEE, "afternoon-breeze", "retract")).toEqual([]);
    expect(clock(OPEN, "afternoon-breeze", "no retract signal")).toContain(3);
    const [lee, slope] = [LEE, OPEN].map((id) => hoursAt(id, "afternoon-breeze").worst?.speed ?? 0);
    expect(lee!).toBeLessThan(slope! * 0.6);
  });

  it("front passage: thunder calls for retracting everywhere, the gusts behind it longer on the slope", () => {
    const [lee, open] = [LEE, OPEN].map((id) => clock(id, "front", "retract"));
    for (const hour of [16, 17]) {
      expect(lee).toContain(hour);
      expect(open).toContain(hour);
    }
    expect(open!.length).toBeGreaterThan(lee!.length);
    expect(hoursAt(OPEN, "front").worst).toMatchObject({ of: "worst hour", level: "retract" });
    expect(hoursAt(LEE, "front").worst?.why).toMatch(/thunderstorm; retract/);
    expect(JSON.stringify(hoursAt(OPEN, "front"))).not.toMatch(/\bsafe\b/i);
  });
});
