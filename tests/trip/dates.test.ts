import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateOf, dayNumber, nightsBetween } from "../../src/trip/dates.ts";

const MILLISECONDS_PER_DAY = 86_400_000;

describe("dates", () => {
  it("counts days as the calendar of the runtime does, there and back", () => {
    const days = fc.date({ min: new Date("1600-01-01"), max: new Date("2999-12-31"), noInvalidDate: true });
    fc.assert(
      fc.property(days, days, (a, b) => {
        const [one, other] = [a.toISOString().slice(0, 10), b.toISOString().slice(0, 10)];
        const counted = (Date.parse(other) - Date.parse(one)) / MILLISECONDS_PER_DAY;
        expect(nightsBetween(one, other)).toBe(counted);
        expect(dateOf(dayNumber(one) ?? -1)).toBe(one);
      }),
    );
  });

  it.each(["2025-02-29", "2025-13-01", "2025-00-10", "2025-04-31", "1900-02-29", "0000-01-01", "2025-1-1", "tomorrow"])(
    "knows that there is no %s",
    (text) => expect(dayNumber(text)).toBeNull(),
  );

  it("has leap days where the Gregorian calendar has them", () => {
    expect(nightsBetween("2024-02-28", "2024-03-01")).toBe(2);
    expect(nightsBetween("2000-02-28", "2000-03-01")).toBe(2);
    expect(nightsBetween("2100-02-28", "2100-03-01")).toBe(1);
  });
});
