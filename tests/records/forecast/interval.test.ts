import { describe, expect, it } from "vitest";
import { parseInstant, parseInterval } from "../../../src/records/forecast/interval.ts";

const at = (text: string): number => Date.parse(text);

describe("stretches of time", () => {
  it.each([
    ["2019-07-04T18:00:00+00:00/2019-07-04T21:00:00+00:00", "2019-07-04T18:00:00Z", "2019-07-04T21:00:00Z"],
    ["2019-07-04T18:00:00+00:00/PT3H", "2019-07-04T18:00:00Z", "2019-07-04T21:00:00Z"],
    ["PT90M/2019-07-04T18:00:00Z", "2019-07-04T16:30:00Z", "2019-07-04T18:00:00Z"],
    ["2019-07-04T18:00:00-06:00/P1DT2H30M15S", "2019-07-05T00:00:00Z", "2019-07-06T02:30:15Z"],
    ["2024-01-31T00:00:00Z/P1Y2M", "2024-01-31T00:00:00Z", "2025-03-31T00:00:00Z"],
    ["2019-07-04T18:00:00+0530/PT1H", "2019-07-04T12:30:00Z", "2019-07-04T13:30:00Z"],
  ])("%s", (text, start, end) => {
    expect(parseInterval(text)).toEqual({ start: at(start), end: at(end) });
  });

  it.each([
    "",
    "/",
    "PT1H/PT1H",
    "2019-07-04T18:00:00Z",
    "2019-07-04T18:00:00/PT1H",
    "2019-07-04T18:00:00Z/P",
    "2019-07-04T18:00:00Z/PT",
    "2019-07-04T18:00:00Z/PT-3H",
    "2019-07-04T18:00:00Z/PT0H",
    "2019-07-04T18:00:00Z/P1W",
    "2019-07-04T18:00:00Z/2019-07-04T18:00:00Z",
    "2019-13-04T18:00:00Z/PT1H",
    "2019-07-04T18:00:00Z/PT1H/PT1H",
    `2019-07-04T18:00:00Z/PT${"9".repeat(200)}H`,
    "2019-07-04T18:00:00Z/P999999999Y",
  ])("refuses %j", (text) => {
    expect(() => parseInterval(text)).toThrow(/cannot be read/);
  });

  it("an instant needs its offset", () => {
    expect(parseInstant("2026-07-04T11:20:00")).toBeNull();
    expect(parseInstant("2026-07-04T11:20Z")).toBe(at("2026-07-04T11:20:00Z"));
  });
});
