/** The invented campground's own plane: metres along its main road and to the left of it, and how they become lon/lat. */
import { type PadFrame, type PadPoint, padFrame } from "../../../src/geo/pad-frame.ts";
import type { LonLat } from "../../../src/geo/tangent-plane.ts";

export type Properties = Readonly<Record<string, unknown>>;
export interface Feature {
  readonly type: "Feature";
  readonly id: string;
  readonly geometry: Readonly<Record<string, unknown>> | null;
  readonly properties: Properties;
}

const RADIANS_PER_DEGREE = Math.PI / 180;
/** Where the main road leaves the county road: a made-up point in open country. */
const GATE: LonLat = { longitude: -105.1372, latitude: 42.9164 };
/** True bearing of the main road, degrees. */
export const MAIN_ROAD_BEARING = 23.4;
/** Decimals of a degree: a hundredth of a millimetre, so that drawn and stated sizes agree. */
const DECIMALS = 10;

const camp = padFrame(GATE, MAIN_ROAD_BEARING * RADIANS_PER_DEGREE);

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** Metres with millimetres, so that no sum leaves a tail of digits in the file. */
export function metres(value: number): number {
  return rounded(value, 3);
}

/** A bearing in degrees in [0, 360). */
export function bearing(degrees: number): number {
  return rounded(((degrees % 360) + 360) % 360, 2);
}

function coordinates(place: LonLat): [number, number] {
  return [rounded(place.longitude, DECIMALS), rounded(place.latitude, DECIMALS)];
}

/** A point of the campground's plane as [longitude, latitude]. */
export function at(along: number, left: number): [number, number] {
  return coordinates(camp.toLonLat({ along, left }));
}

export function line(...points: readonly (readonly [number, number])[]) {
  return { type: "LineString", coordinates: points.map(([along, left]) => at(along, left)) };
}

export function spot(along: number, left: number) {
  return { type: "Point", coordinates: at(along, left) };
}

/** A ring through the points, counter-clockwise as they are given. */
export function area(...points: readonly (readonly [number, number])[]) {
  const ring = points.map(([along, left]) => at(along, left));
  return { type: "Polygon", coordinates: [[...ring, ring[0]]] };
}

/** A rectangle of the campground's plane. */
export function block(alongMin: number, alongMax: number, leftMin: number, leftMax: number) {
  return area([alongMin, leftMin], [alongMax, leftMin], [alongMax, leftMax], [alongMin, leftMax]);
}

export interface PadPlace {
  /** Middle of the exit edge in the campground's plane. */
  readonly exit: PadPoint;
  /** Direction from the rear edge to the exit: degrees to the left of the main road. */
  readonly turn: number;
}

/** The frame of a pad of this length. */
export function frameOf(place: PadPlace, length: number): PadFrame {
  const angle = place.turn * RADIANS_PER_DEGREE;
  const rear = {
    along: place.exit.along - length * Math.cos(angle),
    left: place.exit.left - length * Math.sin(angle),
  };
  return padFrame(camp.toLonLat(rear), headingOf(place) * RADIANS_PER_DEGREE);
}

/** True bearing of a pad, degrees. */
export function headingOf(place: PadPlace): number {
  return bearing(MAIN_ROAD_BEARING - place.turn);
}

/** A point of a pad's frame as [longitude, latitude]. */
export function onPad(frame: PadFrame, along: number, left: number): [number, number] {
  return coordinates(frame.toLonLat({ along, left }));
}

/** The outline of a pad. */
export function outline(place: PadPlace, length: number, width: number) {
  const frame = frameOf(place, length);
  const half = width / 2;
  const ring = [
    onPad(frame, 0, -half),
    onPad(frame, length, -half),
    onPad(frame, length, half),
    onPad(frame, 0, half),
  ];
  return { type: "Polygon", coordinates: [[...ring, ring[0]]] };
}
