import { describe, expect, it } from "vitest";
import {
  canadianDemand2018,
  canadianLotWatts,
  demandFactor,
  demandOf,
  siteVoltAmperes,
} from "../../../src/fit/power/demand.ts";

describe("demand of a row of sites", () => {
  it("the plain product can fall below the large sites alone; the prudent one does not", () => {
    const demand = demandOf([
      { sites: 1, voltAmperes: 12000 },
      { sites: 2, voltAmperes: 600 },
    ]);
    expect(demand.voltAmperes).toBeCloseTo(10560, 6);
    expect(demand.prudentVoltAmperes).toBe(12000);
  });
  it("is the plain product where all sites are alike", () => {
    const demand = demandOf([{ sites: 20, voltAmperes: 3600 }]);
    expect(demand.prudentVoltAmperes).toBe(demand.voltAmperes);
  });
  it("covers every number of sites once", () => {
    const factors = Array.from({ length: 60 }, (_, index) => demandFactor(index + 1));
    for (const [index, factor] of factors.entries()) expect(factor).toBeLessThanOrEqual(factors[index - 1] ?? 1);
    expect(() => demandFactor(0)).toThrow(RangeError);
  });
  it("takes the edition in force", () => {
    expect([
      siteVoltAmperes(50, 2014),
      siteVoltAmperes(50, 2017),
      siteVoltAmperes(30, 2020),
      siteVoltAmperes(20, 2014),
    ]).toEqual([9600, 12000, 3600, 2400]);
    expect(siteVoltAmperes(15, 2020)).toBeNull();
  });
  it("Canada sums over receptacles, and knows only those of its list", () => {
    expect(canadianLotWatts(["nema-5-15", "nema-tt-30"])).toBe(5400);
    expect(canadianLotWatts(["nema-tt-30", "iec-60309-2p-e-16"])).toBeNull();
  });
  it("Canada 2018 steps down after five, fifteen and twenty-five receptacles, the highest first", () => {
    const watts = [...Array.from({ length: 26 }, () => 1000), 3000];
    expect(canadianDemand2018(watts)).toBe(3000 + 4 * 1000 + 10 * 750 + 10 * 500 + 2 * 250);
  });
});
