import { describe, expect, it } from "vitest";
import { fitRig } from "../../src/fit/fit.ts";
import { readCampground } from "../../src/records/geojson.ts";
import { roseOf } from "../../src/records/surroundings.ts";
import { completeSite } from "../../src/site/complete.ts";
import { options, rig } from "../fit/core/builders.ts";

const LATITUDE = 41.5;
const LONGITUDE = -99.25;
/** Degrees of latitude of ten metres. */
const TEN_METRES = 9e-5;

function square(south: number, north: number, west: number, east: number) {
  const ring = [
    [LONGITUDE + west, LATITUDE + south],
    [LONGITUDE + east, LATITUDE + south],
    [LONGITUDE + east, LATITUDE + north],
    [LONGITUDE + west, LATITUDE + north],
    [LONGITUDE + west, LATITUDE + south],
  ];
  return { type: "Polygon", coordinates: [ring] };
}

/** An invented pad in open country, with a belt of trees to its north or without. */
function camp(belt: boolean, geometry: unknown = square(0, TEN_METRES, 0, TEN_METRES / 2)) {
  const trees = { kind: "shelter", what: "trees", name: "Belt", height: 12, porosity: 0.4, leaf: "evergreen" };
  const features = [
    {
      type: "Feature",
      id: "one",
      geometry,
      properties: { kind: "site", name: "One", layout: "back-in", heading: 180, pad: { length: 11, width: 4 } },
    },
    {
      type: "Feature",
      id: "field",
      geometry: square(-0.01, 0.01, -0.01, 0.01),
      properties: { kind: "ground", what: "open" },
    },
    ...(belt
      ? [
          {
            type: "Feature",
            id: "belt",
            geometry: square(5 * TEN_METRES, 6 * TEN_METRES, -0.002, 0.002),
            properties: trees,
          },
        ]
      : []),
  ];
  const reading = readCampground({
    type: "FeatureCollection",
    campground: { id: "invented", name: "Invented" },
    features,
  });
  expect(reading.report.refused).toEqual([]);
  return { reading, site: completeSite(reading.features[0]!, reading.campground, reading.features) };
}

describe("how a site lies to the wind", () => {
  it("is sheltered from the side of the trees and from no other", () => {
    const { reading, site } = camp(true);
    const sectors = roseOf(site, reading.features)!.sectors;
    const [north, south] = [sectors[0]!, sectors[8]!];
    expect(north.by?.name).toBe("Belt");
    expect(north.ratio).toBeLessThan(south.ratio - 0.1);
    expect(south.shelter).toBe(0);
  });

  it("is told in the answer as a risk that decides nothing", () => {
    const { reading, site } = camp(false);
    const coach = rig({ connections: [] });
    const fit = fitRig({ rig: coach, site, options: options(), rose: roseOf(site, reading.features) });
    expect(fit.awning[0]!.exposure).toBe("high");
    expect(fit.headline).toContain("Awning exposure high");
    expect(fit.checks.find((check) => check.id === "awning.exposure")).toMatchObject({
      family: "risk",
      deciding: false,
    });
    expect(fit.verdict).toBe("fits");
  });

  it("is not known where the pad's place is not on record", () => {
    const { reading, site } = camp(true, null);
    expect(roseOf(site, reading.features)).toBeNull();
    const fit = fitRig({ rig: rig({ connections: [] }), site, options: options(), rose: null });
    expect(fit.headline).toContain("Awning wind not judged");
    expect(fit.checks.find((check) => check.id === "awning.exposure")!.status).toBe("unknown");
  });
});
