import { describe, expect, it } from "vitest";
import { countNights, localDate, nightsOf } from "../../src/ledger/dates.ts";

describe("nights", () => {
  it("are the dates from arrival up to, and without, departure", () => {
    expect(nightsOf("2027-05-30", "2027-06-02")).toEqual(["2027-05-30", "2027-05-31", "2027-06-01"]);
    expect(nightsOf("2027-12-31", "2028-01-01")).toEqual(["2027-12-31"]);
  });

  it("know the ends of months and leap years (Gregorian calendar: 1900 none, 2000 one)", () => {
    expect(nightsOf("2027-02-28", "2027-03-01")).toEqual(["2027-02-28"]);
    expect(nightsOf("2028-02-28", "2028-03-01")).toEqual(["2028-02-28", "2028-02-29"]);
    expect(countNights("1900-02-28", "1900-03-01")).toBe(1);
    expect(countNights("2000-02-28", "2000-03-01")).toBe(2);
    expect(() => nightsOf("2027-11-31", "2027-12-02")).toThrow("no date");
  });

  it("do not change with the clock: two nights over each change of 2027 in New York and Lord Howe", () => {
    // 14 March and 7 November 2027 (United States), 4 April and 3 October 2027 (Lord Howe, half an hour): from memory.
    for (const [arrival, departure] of [
      ["2027-03-13", "2027-03-15"],
      ["2027-11-06", "2027-11-08"],
      ["2027-04-03", "2027-04-05"],
      ["2027-10-02", "2027-10-04"],
    ] as const) {
      expect(countNights(arrival, departure)).toBe(2);
      expect(nightsOf(arrival, departure)).toHaveLength(2);
    }
  });

  it("give the same under every zone that the process may run in", () => {
    const before = process.env["TZ"];
    try {
      for (const zone of ["Pacific/Kiritimati", "Pacific/Pago_Pago", "America/New_York", "Africa/Cairo", "UTC"]) {
        process.env["TZ"] = zone;
        expect(nightsOf("2027-03-13", "2027-03-16")).toEqual(["2027-03-13", "2027-03-14", "2027-03-15"]);
        expect(localDate(Date.UTC(2027, 2, 14, 5, 30), "America/New_York")).toBe("2027-03-14");
      }
    } finally {
      if (before === undefined) delete process.env["TZ"];
      else process.env["TZ"] = before;
    }
  });
});

describe("today", () => {
  it("is the date on the campground's wall, also in the hour that the clock skips", () => {
    const instant = Date.UTC(2027, 0, 1, 4, 30);
    expect(localDate(instant, "America/New_York")).toBe("2026-12-31");
    expect(localDate(instant, "Europe/Berlin")).toBe("2027-01-01");
    // 2027-03-14 03:00 daylight time is 07:00 UTC; a minute before it is 01:59 standard time of the same day.
    expect(localDate(Date.UTC(2027, 2, 14, 6, 59), "America/New_York")).toBe("2027-03-14");
    expect(localDate(Date.UTC(2027, 2, 14, 4, 59), "America/New_York")).toBe("2027-03-13");
    expect(localDate(Date.UTC(2027, 2, 14, 5, 0), "America/New_York")).toBe("2027-03-14");
  });

  it("is that of the last place on earth when the zone is unknown or none", () => {
    const instant = Date.UTC(2027, 4, 20, 11, 59);
    expect(localDate(instant, null)).toBe("2027-05-19");
    expect(localDate(instant, "Nowhere/At_All")).toBe("2027-05-19");
    expect(localDate(instant + 60_000, null)).toBe("2027-05-20");
  });
});
