import { describe, expect, it } from "vitest";
import { readDirection } from "../../src/geo/compass.ts";
import { parseWind } from "../../src/wind/wind-text.ts";

const MPH = 0.44704;
const SOUTH_WEST = (225 * Math.PI) / 180;

function windIn(text: string) {
  const read = parseWind(text);
  if (!read.ok) throw new Error(read.message);
  return read.wind;
}

function faultIn(text: string) {
  const read = parseWind(text);
  if (read.ok) throw new Error(`${text} is read as ${JSON.stringify(read.wind)}`);
  return read;
}

describe("a wind in words", () => {
  it("is a mean, a gust or both, with or without a direction", () => {
    expect(windIn("20 mph from SW")).toEqual({ mean: 20 * MPH, directions: [SOUTH_WEST] });
    expect(windIn("gusting 30 mph").gust).toBeCloseTo(30 * MPH, 12);
    expect(windIn("gusting 30 mph").directions).toEqual([]);
    const both = windIn("8 m/s gusting to 14 m/s from 225 deg");
    expect(both).toMatchObject({ mean: 8, gust: 14 });
    expect(both.directions![0]).toBeCloseTo(SOUTH_WEST, 12);
    expect(windIn("36 km/h").mean).toBeCloseTo(10, 12);
    expect(windIn("15 kn, gusts of 25 kn from the west").gust).toBeCloseTo(12.861, 3);
  });

  it.each([
    "20 mph SW",
    "20 mph out of the south-west",
    "SW 20 mph",
    "South West wind at 20 mph",
    "wind 20mph from 225°",
    "20 MPH from southwest",
  ])("%s is twenty miles an hour from the southwest", (text) => {
    const wind = windIn(text);
    expect(wind.mean).toBeCloseTo(20 * MPH, 12);
    expect(wind.gust).toBeUndefined();
    expect(wind.directions![0]).toBeCloseTo(SOUTH_WEST, 12);
  });

  it("takes one unit for both speeds", () => {
    expect(windIn("20 gusting 30 mph from SW")).toMatchObject({ mean: 20 * MPH, gust: expect.closeTo(30 * MPH, 12) });
    expect(windIn("8 m/s gusting 14").gust).toBe(14);
  });

  it("says what is wrong", () => {
    expect(faultIn("20 from SW")).toMatchObject({ code: "no-unit", message: expect.stringContaining("20 mph") });
    expect(faultIn("20 mhp from SW").code).toBe("unknown-unit");
    expect(faultIn("20 ft from SW").code).toBe("wrong-dimension");
    expect(faultIn("20 mph from upwind")).toMatchObject({
      code: "bad-form",
      message: expect.stringContaining("upwind"),
    });
    expect(faultIn("20 mph from 400 deg").code).toBe("bad-form");
    expect(faultIn("30 mph gusting 20 mph").code).toBe("conflict");
    expect(faultIn("300 m/s").code).toBe("too-large");
    expect(faultIn("-5 mph").code).toBe("too-small");
    expect(faultIn("15 to 20 mph").code).toBe("range");
    expect(faultIn("").code).toBe("empty");
    expect(faultIn("breezy").message).not.toBe("");
    expect(faultIn("x".repeat(200)).code).toBe("too-long");
  });
});

describe("a direction", () => {
  it("is a compass word, its name or degrees in one turn", () => {
    expect(["N", "nnw", "west-south-west", "east"].map((word) => readDirection(word))).toEqual(
      [0, 337.5, 247.5, 90].map((degrees) => expect.closeTo((degrees * Math.PI) / 180, 12)),
    );
    expect(readDirection(360)).toBe(0);
    expect(readDirection("12.5 degrees")).toBeCloseTo((12.5 * Math.PI) / 180, 12);
    expect([361, -1, Number.NaN, "NEN", "north-north", "1e2", ""].map((one) => readDirection(one))).toEqual(
      Array.from({ length: 7 }, () => null),
    );
  });
});
