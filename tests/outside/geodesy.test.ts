/**
 * The tangent plane against an independent reference: geographiclib-geodesic 2.2.0 (C. F. F. Karney, MIT), which
 * solves the geodesic on the WGS 84 ellipsoid to nanometres. Karney's own first test case guards the reference itself.
 */
import geographiclib from "geographiclib-geodesic";
import { describe, expect, test } from "vitest";
import { roughDistance } from "../../src/geo/longitude-latitude.ts";
import { padFrame } from "../../src/geo/pad-frame.ts";
import { radians, tangentPlane } from "../../src/geo/tangent-plane.ts";

const earth = geographiclib.Geodesic.WGS84;
const ONE_MILLIMETRE = 0.001;

describe("WGS 84 geodesics (geographiclib-geodesic 2.2.0, Karney)", () => {
  test("the reference reproduces Karney's first test case (read in the package's own tests)", () => {
    const found = earth.Inverse(35.60777, -139.44815, -11.17491, -69.95921);
    expect(found.s12).toBeCloseTo(8_935_244.560_481_83, 6);
    expect(found.azi1).toBeCloseTo(111.098_748_429_560_33, 9);
  });

  test("a tangent plane is within 1 mm of the geodesic at 100 m, every latitude and azimuth", () => {
    let worstLength = 0;
    let worstPlace = 0;
    for (let latitude = -85; latitude <= 85; latitude += 5) {
      for (const longitude of [-110.5, 0, 179.9999]) {
        const plane = tangentPlane({ longitude, latitude });
        for (let azimuth = 0; azimuth < 360; azimuth += 7.5) {
          for (const distance of [10, 30, 100]) {
            const end = earth.Direct(latitude, longitude, azimuth, distance);
            const seen = plane.toPlane({ longitude: end.lon2 as number, latitude: end.lat2 as number });
            const east = distance * Math.sin(radians(azimuth));
            const north = distance * Math.cos(radians(azimuth));
            worstLength = Math.max(worstLength, Math.abs(Math.hypot(seen.east, seen.north) - distance));
            worstPlace = Math.max(worstPlace, Math.hypot(seen.east - east, seen.north - north));
          }
        }
      }
    }
    expect(worstLength).toBeLessThan(ONE_MILLIMETRE / 100);
    expect(worstPlace).toBeLessThan(ONE_MILLIMETRE / 100);
  });

  test("two points of one pad frame are as far apart as the geodesic says", () => {
    for (const latitude of [-62, -17, 8, 44.5, 71]) {
      const frame = padFrame({ longitude: -120.25, latitude }, radians(133));
      const inlet = { along: -35, left: 18 };
      const pedestal = { along: 41, left: -27 };
      const a = frame.toLonLat(inlet);
      const b = frame.toLonLat(pedestal);
      const geodesic = earth.Inverse(a.latitude, a.longitude, b.latitude, b.longitude).s12 as number;
      const plane = Math.hypot(pedestal.along - inlet.along, pedestal.left - inlet.left);
      expect(Math.abs(geodesic - plane)).toBeLessThan(ONE_MILLIMETRE / 100);
    }
  });
});

/** Short distances computed with geographiclib when the algorithm was prepared: derived, not a published table. */
const SHORT_CASES = [
  { from: [44.5, -110.5], to: [44.5001, -110.5], geodesic: 11.112201, sphere: 11.119508 },
  { from: [44.5, -110.5], to: [44.5, -110.4999], geodesic: 7.952956, sphere: 7.930994 },
  { from: [25, -80.5], to: [25.00008, -80.49994], geodesic: 10.734027, sphere: 10.756086 },
  { from: [60, -150], to: [60.00005, -149.9999], geodesic: 7.884675, sphere: 7.862677 },
] as const;

describe("short distances (derived: measured with geographiclib and Turf 7.4.0)", () => {
  test.each(SHORT_CASES)("$from to $to is $geodesic m", ({ from, to, geodesic, sphere }) => {
    const plane = tangentPlane({ latitude: from[0], longitude: from[1] });
    const seen = plane.toPlane({ latitude: to[0], longitude: to[1] });
    expect(Math.abs(Math.hypot(seen.east, seen.north) - geodesic)).toBeLessThan(1e-6);
    expect(earth.Inverse(from[0], from[1], to[0], to[1]).s12).toBeCloseTo(geodesic, 6);
    // The sphere is wrong by millimetres per metre, which is why it never measures a line.
    const rough = roughDistance({ latitude: from[0], longitude: from[1] }, { latitude: to[0], longitude: to[1] });
    expect(rough).toBeCloseTo(sphere, 5);
    expect(Math.abs(rough - geodesic)).toBeGreaterThan(0.005);
  });
});
