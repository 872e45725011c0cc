import { describe, expect, it } from "vitest";
import { whenAsked, whenSchema } from "../../../src/fit/wind/when.ts";
import { toInputErrors } from "../../../src/units/input-error.ts";

const HOURS = [{ start: "2026-07-04T14:00-06:00", gust: "30 mph", from: "SW", hazards: ["gale"] }];
const FORECAST = { source: "invented", issuedAt: "2026-07-04T12:00Z", hours: HOURS };

const asked = (value: unknown) => whenAsked(whenSchema.parse(value));

function faults(value: unknown) {
  const read = whenSchema.safeParse(value);
  if (read.success) throw new Error(`${JSON.stringify(value)} is taken`);
  return toInputErrors(whenSchema, read.error, value).map(({ path, code }) => [path, code]);
}

describe("when", () => {
  it("is the days of a stay, a wind by hand, or days with a forecast", () => {
    expect(asked({ from: "2026-07-03", to: "2026-07-05" })).toEqual({
      kind: "stay",
      from: "2026-07-03",
      to: "2026-07-05",
    });
    expect(asked({ wind: "gusting 30 mph" })).toEqual({
      kind: "wind",
      wind: { gust: expect.closeTo(13.4112, 10), directions: [] },
    });
    expect(asked({ wind: { gust: 12.5, from: 90 } })).toEqual({
      kind: "wind",
      wind: { gust: 12.5, mean: null, directions: [Math.PI / 2], hazards: [] },
    });
    const given = asked({ from: "2026-07-04", to: "2026-07-04", forecast: FORECAST, asOf: "2026-07-04T13:00Z" });
    expect(given).toMatchObject({ kind: "forecast", asOf: Date.UTC(2026, 6, 4, 13) });
    if (given.kind !== "forecast") throw new Error("no forecast");
    const start = Date.UTC(2026, 6, 4, 20);
    expect(given.forecast).toMatchObject({ source: "invented", issuedAt: Date.UTC(2026, 6, 4, 12), notes: [] });
    expect(given.forecast.stretches).toEqual([
      {
        start,
        end: start + 3_600_000,
        gust: expect.closeTo(13.4112, 10),
        mean: null,
        directions: [expect.closeTo((225 * Math.PI) / 180, 12)],
        hazards: ["gale"],
      },
    ]);
  });

  it("does not know the age of a forecast that nobody dates", () => {
    const { issuedAt: _, ...undated } = FORECAST;
    const given = asked({ from: "2026-07-04", to: "2026-07-04", forecast: undated });
    expect(given).toMatchObject({ forecast: { issuedAt: null, checkedAt: Number.NaN } });
  });

  it("is exactly one of them, and every fault has its place", () => {
    expect(faults({})).toEqual([
      ["/from", "missing"],
      ["/to", "missing"],
    ]);
    expect(faults({ from: "2026-07-03" })).toEqual([["/to", "missing"]]);
    expect(faults({ wind: "20 mph from SW", from: "2026-07-03" })).toEqual([["/from", "conflict"]]);
    expect(faults({ wind: "20 mph", forecast: FORECAST })).toEqual([["/forecast", "conflict"]]);
    expect(faults({ from: "2026-07-05", to: "2026-07-03" })).toEqual([["/to", "conflict"]]);
    expect(faults({ from: "2026-07-01", to: "2026-09-01" })).toEqual([["/to", "conflict"]]);
    expect(faults({ from: "2026-07-03", to: "2026-07-04", asOf: "2026-07-03T00:00Z" })).toEqual([
      ["/asOf", "conflict"],
    ]);
    expect(faults({ from: "2026-02-30", to: "07/04/2026" })).toEqual([
      ["/from", "bad-form"],
      ["/to", "bad-form"],
    ]);
    expect(faults({ wind: "20 mhp from SW" })).toEqual([["/wind", "unknown-unit"]]);
    expect(faults({ wind: 20 })).toEqual([["/wind", "wrong-type"]]);
    expect(faults({ wind: "20 mph", winds: 1 })).toEqual([["/winds", "unknown-key"]]);
  });

  it("wants a forecast's hours with their offset, in order and apart", () => {
    const days = { from: "2026-07-04", to: "2026-07-04" };
    const withHours = (...hours: unknown[]) => faults({ ...days, forecast: { ...FORECAST, hours } });
    expect(withHours({ start: "2026-07-04T14:00" })).toEqual([["/forecast/hours/0/start", "bad-form"]]);
    expect(withHours({ start: "2026-07-04T14:00Z" }, { start: "2026-07-04T14:30Z" })).toEqual([
      ["/forecast/hours/1/start", "conflict"],
    ]);
    expect(withHours({ start: "2026-07-04T14:00Z", gust: "30" })).toEqual([["/forecast/hours/0/gust", "no-unit"]]);
    expect(withHours({ start: "2026-07-04T14:00Z", from: "up" })).toEqual([["/forecast/hours/0/from", "bad-form"]]);
  });
});
