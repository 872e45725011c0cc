/**
 * Where connections sit on the drawing, and what dragging one writes into the record. A place set by hand on a drawing
 * is no tape: it is written with an accuracy of its own, which a typed value takes away again.
 */
import type { CompletedConnection, CompletedRig, RigWall } from "../../rig/completed.ts";
import { formatLength } from "../../units/print.ts";
import type { Units, WireRig } from "../state/store.ts";
import { asConnection, shortKeyOf } from "./short-forms.ts";
import { listAt, type Path, valueAt, withValue } from "./wire.ts";

/** Standard deviation of a place set on the drawing (our choice). */
export const BY_EYE: Readonly<Record<Units, string>> = { us: "6 in", metric: "0.15 m" };
/** Metres by which another wall must be nearer before a dragged connection goes over to it. */
const STICKS = 0.25;
const PLACE_FIELDS: readonly string[] = ["fromRear", "left", "height"];
const RANGED = ["described", "code", "assumed"];

export interface RigSpot {
  readonly fromRear: number;
  readonly left: number;
}

export interface Target {
  readonly side: RigWall;
  readonly fromRear?: number;
  readonly left?: number;
  readonly height?: number;
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** The wall and place nearest to a spot of the top view. */
export function targetOnTop(rig: CompletedRig, connection: CompletedConnection, spot: RigSpot): Target {
  const length = rig.length.value;
  const half = rig.width.value / 2;
  const off: Readonly<Record<RigWall, number>> = {
    left: Math.abs(spot.left - half),
    right: Math.abs(spot.left + half),
    rear: Math.abs(spot.fromRear),
    front: Math.abs(length - spot.fromRear),
  };
  const walls = Object.keys(off) as RigWall[];
  const nearest = walls.reduce(
    (best, wall) => (off[wall] < off[best] - (best === connection.wall ? STICKS : 0) ? wall : best),
    connection.wall,
  );
  return nearest === "left" || nearest === "right"
    ? { side: nearest, fromRear: clamp(spot.fromRear, 0, length) }
    : { side: nearest, left: clamp(spot.left, -half, half) };
}

/** What a spot of the side strip says: height, and the place along where the wall has one. */
export function targetOnSide(
  rig: CompletedRig,
  connection: CompletedConnection,
  fromRear: number,
  height: number,
): Target {
  const along =
    connection.wall === "left" || connection.wall === "right" ? { fromRear: clamp(fromRear, 0, rig.length.value) } : {};
  return { side: connection.wall, ...along, height: clamp(height, 0, rig.height.value) };
}

/** The record with the connection that stands at `pointer` moved, and the pointer that it has then. */
export function moved(
  rig: WireRig,
  pointer: string,
  target: Target,
  units: Units,
): { readonly rig: WireRig; readonly pointer: string } {
  const short = shortKeyOf(pointer);
  const whole = short === null ? rig : asConnection(rig, short, target.side);
  const index = short === null ? Number(pointer.split("/")[2]) : listAt(whole, "connections").length - 1;
  const at = (...field: string[]): Path => ["connections", index, ...field];
  const text = (metres: number) => formatLength(metres, units);
  let next = whole;
  const set = (field: string, value: unknown) => {
    next = withValue(next, at(field), value);
  };
  if (valueAt(whole, at("side")) !== target.side) {
    // Places of the old wall mean nothing on the new one.
    set("left", undefined);
    set("fromRear", undefined);
    set("side", target.side);
  }
  if (target.fromRear !== undefined) set("fromRear", text(target.fromRear));
  if (target.left !== undefined) set("left", text(target.left));
  if (target.height !== undefined) set("height", text(target.height));
  if (RANGED.includes(String(valueAt(next, at("basis"))))) set("basis", undefined);
  set("accuracy", BY_EYE[units]);
  return { rig: next, pointer: `/connections/${index}` };
}

/** The record with a typed value; a typed place is no longer one set by eye. */
export function typed(rig: WireRig, path: Path, value: unknown): WireRig {
  const next = withValue(rig, path, value);
  const [list, index, field] = path;
  if (list !== "connections" || typeof index !== "number" || !PLACE_FIELDS.includes(String(field))) return next;
  const accuracy = valueAt(next, ["connections", index, "accuracy"]);
  const byEye = accuracy === BY_EYE.us || accuracy === BY_EYE.metric;
  return byEye ? withValue(next, ["connections", index, "accuracy"], undefined) : next;
}

/** True when the place was set on the drawing. */
export function isByEye(rig: WireRig, pointer: string): boolean {
  const index = Number(pointer.split("/")[2]);
  const accuracy = valueAt(rig, ["connections", index, "accuracy"]);
  return accuracy === BY_EYE.us || accuracy === BY_EYE.metric;
}
