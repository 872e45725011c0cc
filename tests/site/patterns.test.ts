import { describe, expect, test } from "vitest";
import { completeSite } from "../../src/site/complete.ts";
import type { CampgroundFeature } from "../../src/site/feature.ts";
import { mirrored } from "../../src/site/patterns.ts";
import { campground, siteProperties } from "../../src/site/schema.ts";

const drawing = {
  layout: "back-in",
  measuredOn: "B2",
  patio: "right",
  pad: { length: "45 ft", width: "12 ft", crossfall: 0.015, grade: -0.01, origin: [1, 2] },
  hookups: [
    {
      id: "post",
      service: "power",
      pedestal: "P",
      at: { along: "8 ft", left: ["9 ft", "10 ft"], height: "36 in" },
      receptacles: [{ id: "r", type: "nema-14-50", state: "working", forSites: ["B2"] }],
    },
    { id: "drain", service: "sewer", at: { along: 5.5, left: 2.9, height: 0.1 }, accuracy: 0.04 },
    { id: "tv", service: "cable", place: { side: "driver", third: "rear" } },
  ],
  obstacles: [
    {
      what: "table",
      outline: [
        { along: 6, left: -5 },
        { along: 8, left: -5 },
        { along: 8, left: -4 },
      ],
    },
  ],
};
const park = campground.parse({ id: "invented", drivesOn: "right", patterns: { big: drawing } });

const copy = (more: object): CampgroundFeature => ({
  type: "Feature",
  id: "B9",
  geometry: null,
  properties: { kind: "site", heading: 90, pattern: "big", ...more },
});

describe("patterns", () => {
  test("a copy has the drawing, its survey and where it was measured; the state of a post is not copied", () => {
    const site = completeSite(copy({}), park);
    const [post, drain] = site.hookups;
    expect(site.pad.length?.value).toBeCloseTo(13.716, 9);
    expect(site.pad.origin).toBeNull();
    expect(site.patio).toBe("right");
    expect(drain?.left).toMatchObject({
      value: 2.9,
      sigma: 0.04,
      survey: "pattern:big",
      source: "measured on B2, copied here",
    });
    expect(drain?.path).toBe("/campground/patterns/big/hookups/1");
    expect(post?.pedestal).toBe("B9:P");
    expect(post?.receptacles[0]).toMatchObject({ id: "r", type: "nema-14-50", state: "unknown", forSites: null });
    expect(site.assumed.some(({ value }) => value === "measured on B2, copied here")).toBe(true);
  });

  test("the mirror image swaps left and right and nothing else", () => {
    const site = completeSite(copy({ mirror: true }), park);
    const [post, drain, tv] = site.hookups;
    expect(drain?.along?.value).toBe(5.5);
    expect(drain?.left?.value).toBe(-2.9);
    expect(post?.left?.low).toBeCloseTo(-3.048, 9);
    expect(post?.left?.high).toBeCloseTo(-2.7432, 9);
    expect(tv?.left?.high).toBeLessThan(0);
    expect(site.patio).toBe("left");
    expect(site.pad.crossfall?.value).toBe(-0.015);
    expect(site.pad.grade?.value).toBe(-0.01);
    expect(site.obstacles[0]?.outline.every(({ left }) => left >= 4)).toBe(true);
  });

  test("the copy's own members lie over it, hookups by id", () => {
    const site = completeSite(
      copy({
        mirror: true,
        pad: { length: "40 ft" },
        hookups: [
          { id: "drain", service: "sewer", at: { along: 6.5, left: 2.2 }, accuracy: 0.01 },
          { id: "post", service: "power", receptacles: [{ type: "nema-tt-30" }] },
          { id: "tap", service: "water", at: { along: 4, left: 3 } },
        ],
      }),
      park,
    );
    expect(site.pad.length?.value).toBeCloseTo(12.192, 9);
    expect(site.pad.width?.value).toBeCloseTo(3.6576, 9);
    expect(site.hookups.map(({ id }) => id)).toEqual(["post", "drain", "tv", "tap"]);
    const [post, drain] = site.hookups;
    // Its own place is in its own frame: not mirrored, and not of the pattern's survey; the rim's height stays.
    expect(drain?.left).toMatchObject({ value: 2.2, sigma: 0.01 });
    expect(drain?.left?.survey).toBeUndefined();
    expect(drain?.height?.value).toBe(0.1);
    expect(drain?.path).toBe("/properties/hookups/0");
    expect(post?.receptacles.map(({ type }) => type)).toEqual(["nema-tt-30"]);
    expect(post?.left?.high).toBeCloseTo(-2.7432, 9);
  });

  test("a pattern that is not there is told, and the site has its own members", () => {
    const site = completeSite(copy({ pattern: "small" }), park);
    expect(site.hookups).toEqual([]);
    expect(site.warnings[0]?.text).toContain('"small"');
    const inherited = completeSite(copy({ pattern: "toString" }), park);
    expect(inherited.warnings[0]?.text).toContain('"toString"');
  });

  test("mirrored twice is the same again", () => {
    const site = siteProperties.parse({
      ...drawing,
      measurements: [{ from: "rear-left", to: "post", distance: 3 }],
      marks: [{ id: "oak", side: "passenger" }],
      extraVehicle: {
        outline: [
          { along: 1, left: 2 },
          { along: 3, left: 2 },
          { along: 3, left: 4 },
        ],
      },
    });
    expect(mirrored(mirrored(site))).toEqual(site);
    expect(mirrored(site).measurements?.[0]?.from).toBe("rear-right");
    expect(mirrored(site).marks?.[0]?.side).toBe("driver");
  });
});
