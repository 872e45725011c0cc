/** Roads of the map in the frame of a pad. */
import { describe, expect, it } from "vitest";
import { site } from "../demo/demo.ts";

describe("roads near a pad", () => {
  it("are in the pad frame, in their own direction, with width and spread", () => {
    const { access, pad } = site("curlew-7");
    const lane = access.roads?.find(({ id }) => id === "road-curlew");
    expect(lane).toMatchObject({ width: 5.2, oneWay: true });
    // The pad's exit lies 3.6 m from the middle of the lane, which runs across it towards the pad's right.
    const [from, to] = [lane!.line[1]!, lane!.line[2]!];
    expect(from.along - pad.length!.value).toBeCloseTo(3.6, 2);
    expect(to.along - pad.length!.value).toBeCloseTo(3.6, 2);
    expect(from.left).toBeGreaterThan(5);
    expect(to.left).toBeLessThan(-5);
    expect(lane!.sigma).toBeGreaterThan(0.05);
    expect(lane!.sigma).toBeLessThan(0.2);
  });

  it("leave out what is far", () => {
    const ids = site("curlew-7").access.roads?.map(({ id }) => id);
    expect(ids).not.toContain("road-shore");
    expect(ids).not.toContain("road-grebe");
  });

  it("carry the mouth of the record", () => {
    expect(site("curlew-7").access.mouth).toBe(8.2);
    expect(site("plover-3").access.mouth).toBeNull();
  });
});
