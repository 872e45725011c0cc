/**
 * The tangent plane about a point of the WGS 84 ellipsoid: metres east and north, by way of earth-centred coordinates.
 *
 * A point of the ellipsoid is projected at right angles onto the plane. Within 100 m of the origin the plane distance
 * from the origin differs from the geodesic by far less than 1 mm at any latitude and azimuth (checked against
 * geographiclib-geodesic). Heights are left out on purpose: a campground's positions carry none worth using.
 *
 * Ellipsoid: WGS 84, semi-major axis 6378137 m, inverse flattening 298.257223563 (the defining constants).
 */

/** Longitude and latitude in degrees, WGS 84. */
export interface LonLat {
  readonly longitude: number;
  readonly latitude: number;
}

/** Metres east and north of the origin of a tangent plane. */
export interface PlanePoint {
  readonly east: number;
  readonly north: number;
}

export interface TangentPlane {
  readonly origin: LonLat;
  /** Metres east and north of the origin; exact across the antimeridian and at the poles. */
  toPlane(position: LonLat): PlanePoint;
  /** The point of the ellipsoid that projects onto `point`; longitude in [-180, 180). */
  toLonLat(point: PlanePoint): LonLat;
}

type Vector = readonly [number, number, number];

const SEMI_MAJOR_AXIS = 6_378_137;
const FLATTENING = 1 / 298.257223563;
const ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);
const SEMI_MINOR_AXIS = SEMI_MAJOR_AXIS * (1 - FLATTENING);
const SECOND_ECCENTRICITY_SQUARED = ECCENTRICITY_SQUARED / (1 - ECCENTRICITY_SQUARED);
const HALF_TURN_DEGREES = 180;
const FULL_TURN_DEGREES = 360;
/** Each pass drops the height that is left by a factor of the distance over the earth's radius. */
const HEIGHT_PASSES = 4;

/** Degrees to radians. */
export function radians(degrees: number): number {
  return (degrees * Math.PI) / HALF_TURN_DEGREES;
}

/** Radians to degrees. */
export function degrees(angle: number): number {
  return (angle * HALF_TURN_DEGREES) / Math.PI;
}

/** A bearing in radians brought into [0, 2 pi). */
export function normaliseBearing(angle: number): number {
  const turn = 2 * Math.PI;
  const rest = angle % turn;
  return rest < 0 ? rest + turn : rest;
}

/** The smallest turn from bearing `from` to bearing `to`, radians in (-pi, pi], positive clockwise. */
export function turnBetween(from: number, to: number): number {
  const turn = normaliseBearing(to - from);
  return turn > Math.PI ? turn - 2 * Math.PI : turn;
}

function earthCentred(position: LonLat): Vector {
  const latitude = radians(position.latitude);
  const longitude = radians(position.longitude);
  const sine = Math.sin(latitude);
  const normal = SEMI_MAJOR_AXIS / Math.sqrt(1 - ECCENTRICITY_SQUARED * sine * sine);
  const ring = normal * Math.cos(latitude);
  return [ring * Math.cos(longitude), ring * Math.sin(longitude), normal * (1 - ECCENTRICITY_SQUARED) * sine];
}

/** Latitude, longitude and height of an earth-centred point close to the ellipsoid (Bowring's formula). */
function geodetic([x, y, z]: Vector): { readonly position: LonLat; readonly height: number } {
  const ring = Math.hypot(x, y);
  const parametric = Math.atan2(z * SEMI_MAJOR_AXIS, ring * SEMI_MINOR_AXIS);
  const latitude = Math.atan2(
    z + SECOND_ECCENTRICITY_SQUARED * SEMI_MINOR_AXIS * Math.sin(parametric) ** 3,
    ring - ECCENTRICITY_SQUARED * SEMI_MAJOR_AXIS * Math.cos(parametric) ** 3,
  );
  const sine = Math.sin(latitude);
  const height =
    ring * Math.cos(latitude) + z * sine - SEMI_MAJOR_AXIS * Math.sqrt(1 - ECCENTRICITY_SQUARED * sine * sine);
  return { position: { longitude: wrapLongitude(degrees(Math.atan2(y, x))), latitude: degrees(latitude) }, height };
}

/** A longitude brought into [-180, 180). */
export function wrapLongitude(longitude: number): number {
  if (longitude >= -HALF_TURN_DEGREES && longitude < HALF_TURN_DEGREES) return longitude;
  const turned = (((longitude + HALF_TURN_DEGREES) % FULL_TURN_DEGREES) + FULL_TURN_DEGREES) % FULL_TURN_DEGREES;
  return turned - HALF_TURN_DEGREES;
}

/** The tangent plane that touches the ellipsoid at `origin`. */
export function tangentPlane(origin: LonLat): TangentPlane {
  const base = earthCentred(origin);
  const latitude = radians(origin.latitude);
  const longitude = radians(origin.longitude);
  const east: Vector = [-Math.sin(longitude), Math.cos(longitude), 0];
  const north: Vector = [
    -Math.sin(latitude) * Math.cos(longitude),
    -Math.sin(latitude) * Math.sin(longitude),
    Math.cos(latitude),
  ];
  const up: Vector = [
    Math.cos(latitude) * Math.cos(longitude),
    Math.cos(latitude) * Math.sin(longitude),
    Math.sin(latitude),
  ];
  return {
    origin,
    toPlane(position) {
      const point = earthCentred(position);
      const offset: Vector = [point[0] - base[0], point[1] - base[1], point[2] - base[2]];
      return { east: dot(offset, east), north: dot(offset, north) };
    },
    toLonLat(point) {
      let rise = 0;
      let found = origin;
      for (let pass = 0; pass < HEIGHT_PASSES; pass += 1) {
        const here = geodetic([
          base[0] + east[0] * point.east + north[0] * point.north + up[0] * rise,
          base[1] + east[1] * point.east + north[1] * point.north + up[1] * rise,
          base[2] + east[2] * point.east + north[2] * point.north + up[2] * rise,
        ]);
        found = here.position;
        rise -= here.height;
      }
      return found;
    },
  };
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
