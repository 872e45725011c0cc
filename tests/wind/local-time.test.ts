import { describe, expect, it } from "vitest";
import { daysBetween, isDate, localDays, localMoment, localText, localZone } from "../../src/wind/local-time.ts";

const HOUR = 3_600_000;
const zone = (name: string) => localZone(name)!;
const hoursOf = (name: string, from: string, to = from) => {
  const { start, end } = localDays(zone(name), from, to);
  return (end - start) / HOUR;
};

/** Days on which the clock changes: the zone rules of the runtime (IANA data), dates as published by each government. */
describe("local days", () => {
  it("last 24 hours, 23 when the clock is put on and 25 when it is put back", () => {
    expect(hoursOf("America/Denver", "2026-07-04")).toBe(24);
    expect(hoursOf("America/Denver", "2026-03-08")).toBe(23);
    expect(hoursOf("America/Denver", "2026-11-01")).toBe(25);
    expect(hoursOf("America/Denver", "2026-10-30", "2026-11-02")).toBe(4 * 24 + 1);
    expect(hoursOf("Europe/Berlin", "2026-03-29")).toBe(23);
    // Lord Howe Island moves its clock by half an hour.
    expect(hoursOf("Australia/Lord_Howe", "2026-04-05")).toBe(24.5);
  });

  it("begin at the first moment of the date, also where the clock skips midnight", () => {
    expect(new Date(localDays(zone("America/Denver"), "2026-07-03", "2026-07-05").start).toISOString()).toBe(
      "2026-07-03T06:00:00.000Z",
    );
    expect(new Date(localDays(zone("Asia/Kathmandu"), "2026-07-03", "2026-07-03").start).toISOString()).toBe(
      "2026-07-02T18:15:00.000Z",
    );
    // In Cairo the clock went from 24 April 2026, 00:00, straight to 01:00.
    const cairo = zone("Africa/Cairo");
    expect(localText(cairo, localDays(cairo, "2026-04-24", "2026-04-24").start)).toBe("2026-04-24T01:00+03:00");
    expect(hoursOf("Africa/Cairo", "2026-04-24")).toBe(23);
  });
});

describe("local time in words", () => {
  it("carries the offset, so that the hour that comes twice is told apart", () => {
    const denver = zone("America/Denver");
    const { start } = localDays(denver, "2026-11-01", "2026-11-01");
    expect([0, 1, 2, 3].map((hour) => localText(denver, start + hour * HOUR))).toEqual([
      "2026-11-01T00:00-06:00",
      "2026-11-01T01:00-06:00",
      "2026-11-01T01:00-07:00",
      "2026-11-01T02:00-07:00",
    ]);
    expect(localText(zone("Asia/Kolkata"), Date.UTC(2026, 6, 4, 20))).toBe("2026-07-05T01:30+05:30");
    expect(localText(zone("America/St_Johns"), Date.UTC(2026, 0, 1, 2))).toBe("2025-12-31T22:30-03:30");
  });

  it("names the day by the local date", () => {
    expect(localMoment(zone("America/Denver"), Date.UTC(2026, 6, 5, 3))).toEqual({
      weekday: "Saturday",
      date: "2026-07-04",
      time: "21:00",
    });
  });

  it("knows only zones that there are", () => {
    expect(localZone("America/Nowhere")).toBeNull();
    expect(localZone("")).toBeNull();
  });
});

describe("dates", () => {
  it("must exist", () => {
    expect(["2026-02-28", "2028-02-29"].every(isDate)).toBe(true);
    expect(["2026-02-29", "2026-2-3", "2026-13-01", "tomorrow", "2026-07-04T00:00"].some(isDate)).toBe(false);
    expect(daysBetween("2026-10-30", "2026-11-02")).toBe(3);
  });
});
