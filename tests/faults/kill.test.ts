import { describe, expect, it } from "vitest";
import { killCampaign } from "./kill.ts";

describe("a server that is killed while it writes", () => {
  it("has lost nothing that it acknowledged, kept nothing by half, and answers repeats with one effect", async () => {
    const report = await killCampaign(4, 7);
    expect(report.lost).toEqual([]);
    expect(report.breaches).toEqual([]);
    expect(report.cycles).toBe(4);
    expect(report.acknowledged).toBeGreaterThan(20);
  });
});
