import { describe, expect, it } from "vitest";
import { exactly, judge, judgeWithComfort, total } from "../../../src/fit/clearance/compare.ts";
import { known, measured, ranged } from "./fixtures.ts";

describe("sums of estimates", () => {
  it("ranges add by their ends with the sign of the term", () => {
    const sum = total(
      [
        { of: ranged(2, 3), times: 1 },
        { of: ranged(0.5, 1.5), times: -1 },
      ],
      0.25,
    );
    expect(sum).toMatchObject({ value: 1.75, low: 0.75, high: 2.75, sigma: 0 });
  });

  it("own errors add in quadrature, an error shared in one survey cancels in a difference", () => {
    const survey = { sigma: 0.5, survey: "tape" };
    const apart = total([
      { of: measured(5, 0.03, "/a", survey), times: 1 },
      { of: measured(3, 0.04, "/b", survey), times: -1 },
    ]);
    expect(apart.sigma).toBeCloseTo(0.05, 12);
    const together = total([
      { of: measured(5, 0, "/a", survey), times: 1 },
      { of: measured(3, 0, "/b", survey), times: 1 },
    ]);
    expect(together.sigma).toBeCloseTo(1, 12);
  });

  it("names the value that carries most doubt", () => {
    expect(
      total([
        { of: measured(5, 0.03, "/a"), times: 1 },
        { of: ranged(1, 1.2, "/b"), times: -1 },
      ]).doubt,
    ).toBe("/b");
    expect(total([{ of: known(1), times: 1 }]).doubt).toBeNull();
  });
});

describe("judging a margin", () => {
  it("an exact margin passes from nothing up and fails below", () => {
    expect([0, 1e-12, -1e-12, 0.2].map((value) => judge(exactly(value)))).toEqual(["pass", "pass", "pass", "pass"]);
    expect(judge(exactly(-0.001))).toBe("fail");
  });

  it("a range passes when every value does, fails when none does, else nobody knows", () => {
    const margin = (low: number, high: number) => judge(total([{ of: ranged(low, high), times: 1 }]));
    expect([margin(0, 1), margin(0.1, 1), margin(-2, -0.1), margin(-0.1, 1), margin(-1, 0)]).toEqual([
      "pass",
      "pass",
      "fail",
      "unknown",
      "unknown",
    ]);
  });

  it("a standard deviation passes at 0.95 and fails at 0.05; between, a good survey is tight and a poor one unknown", () => {
    const margin = (value: number, sigma: number) => judge(total([{ of: measured(value, sigma), times: 1 }]));
    // 1.6449 sigma is the quantile at 0.95 (normal tables).
    expect([margin(0.165, 0.1), margin(0.164, 0.1), margin(-0.164, 0.1), margin(-0.165, 0.1)]).toEqual([
      "pass",
      "tight",
      "tight",
      "fail",
    ]);
    expect([margin(0.3, 0.2), margin(-0.3, 0.2), margin(0.33, 0.2)]).toEqual(["unknown", "unknown", "pass"]);
  });

  it("comfort turns a narrow pass into tight and never saves a fail", () => {
    expect([0.3, 0.1, -0.1].map((value) => judgeWithComfort(exactly(value), 0.15))).toEqual(["pass", "tight", "fail"]);
  });
});
