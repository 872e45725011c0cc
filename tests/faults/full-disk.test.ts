import { describe, expect, it } from "vitest";
import { fullDiskCampaign } from "./full-disk.ts";

describe("a disk that is full", () => {
  it.each([undefined, "limit"] as const)(
    "refuses writes with 507, keeps everything acknowledged and nothing by half, and goes on reading (%s)",
    async (force) => {
      const report = await fullDiskCampaign(4, force);
      expect(report.odd).toEqual([]);
      expect(report.lost).toEqual([]);
      expect(report.breaches).toEqual([]);
      expect(report.refused).toBeGreaterThan(0);
      expect(report.acknowledged).toBeGreaterThan(0);
    },
  );
});
