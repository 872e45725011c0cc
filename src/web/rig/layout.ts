/** The drawing's geometry: rig frame to drawing units and back, and the outlines of what sticks out of the walls. */
import type { CompletedConnection, CompletedRig, RigWall } from "../../rig/completed.ts";
import type { RigSpot } from "./places.ts";

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Drawing units; the figure is scaled to its column as a whole. */
export const BOX = { width: 420, margin: 24, gap: 52, caption: 16, ground: 14 } as const;
/** Room beside the body for slides and awnings, metres, at least. */
const LEAST_ROOM = 0.35;

export interface Part {
  readonly key: string;
  readonly className: string;
  readonly d: string;
  readonly label?: { readonly x: number; readonly y: number; readonly text: string };
}

export interface Layout {
  /** Drawing units for a metre. */
  readonly scale: number;
  readonly height: number;
  readonly topCaption: number;
  readonly sideCaption: number;
  /** The middle line of the top view, and the ground of the side strip. */
  readonly middle: number;
  readonly ground: number;
  readonly x: (fromRear: number) => number;
  readonly onTop: (connection: CompletedConnection) => Spot;
  readonly onSide: (connection: CompletedConnection) => Spot;
  readonly spotOnTop: (spot: Spot) => RigSpot;
  readonly heightAt: (y: number) => number;
  readonly spread: (view: "top" | "side", connection: CompletedConnection) => string;
}

/** How far things come out of a wall, metres. */
function outOf(rig: CompletedRig, wall: RigWall): number {
  const slides = rig.slideouts.filter((one) => one.wall === wall).map((one) => one.depth.value);
  const awnings = rig.awnings.filter((one) => one.wall === wall).map((one) => one.projection.value);
  return Math.max(LEAST_ROOM, ...slides, ...awnings);
}

export function layoutOf(rig: CompletedRig): Layout {
  const { width, margin, gap, caption, ground: soil } = BOX;
  const behind = Math.max(
    0,
    ...rig.slideouts.filter((one) => one.wall === "rear").map((one) => one.depth.value),
    ...rig.awnings.filter((one) => one.wall === "rear").map((one) => one.projection.value),
  );
  const scale = (width - 2 * margin) / (rig.length.value + behind);
  const half = rig.width.value / 2;
  const topCaption = caption;
  const middle = topCaption + margin + (outOf(rig, "left") + half) * scale;
  const sideCaption = middle + (half + outOf(rig, "right")) * scale + gap / 2;
  const ground = sideCaption + gap / 2 + rig.height.value * scale;
  const x = (fromRear: number) => margin + (behind + fromRear) * scale;
  const heightOf = (connection: CompletedConnection) => connection.height?.value ?? rig.groundClearance.value;
  return {
    scale,
    height: ground + soil + margin / 2,
    topCaption,
    sideCaption,
    middle,
    ground,
    x,
    onTop: ({ fromRear, left }) => ({ x: x(fromRear.value), y: middle - left.value * scale }),
    onSide: (connection) => ({ x: x(connection.fromRear.value), y: ground - heightOf(connection) * scale }),
    spotOnTop: (spot) => ({ fromRear: (spot.x - margin) / scale - behind, left: (middle - spot.y) / scale }),
    heightAt: (y) => (ground - y) / scale,
    spread: (view, connection) => {
      const { fromRear, left, height } = connection;
      const y = view === "top" ? middle - left.value * scale : ground - heightOf(connection) * scale;
      const across = `M${x(fromRear.low)} ${y}H${x(fromRear.high)}`;
      if (view === "top")
        return left.low === left.high || connection.wall === "left" || connection.wall === "right"
          ? across
          : `${across}M${x(fromRear.value)} ${middle - left.low * scale}V${middle - left.high * scale}`;
      if (height === null)
        return `${across}M${x(fromRear.value)} ${ground}V${ground - rig.groundClearance.value * 2 * scale}`;
      return `${across}M${x(fromRear.value)} ${ground - height.low * scale}V${ground - height.high * scale}`;
    },
  };
}

/** Marks nearer to one another than this would cover each other, drawing units. */
const CLEAR = 27;
const MOST_STEPS = 8;

export interface Handle {
  /** The connection's own place. */
  readonly point: Spot;
  /** Where its mark is drawn: on the place, or beside it where another mark is. */
  readonly at: Spot;
}

const INWARD: Readonly<Record<RigWall, Spot>> = {
  left: { x: 0, y: 1 },
  right: { x: 0, y: -1 },
  rear: { x: 1, y: 0 },
  front: { x: -1, y: 0 },
};
const UP: Spot = { x: 0, y: -1 };

/** Marks that would cover each other step aside: into the body from above, upwards on the side. */
export function handlesOf(layout: Layout, rig: CompletedRig, view: "top" | "side"): ReadonlyMap<string, Handle> {
  const placed = new Map<string, Handle>();
  const free = (at: Spot) => [...placed.values()].every((one) => Math.hypot(one.at.x - at.x, one.at.y - at.y) >= CLEAR);
  const inOrder = [...rig.connections].sort((a, b) => a.fromRear.value - b.fromRear.value);
  for (const connection of inOrder) {
    const point = view === "top" ? layout.onTop(connection) : layout.onSide(connection);
    const way = view === "top" ? INWARD[connection.wall] : UP;
    let at = point;
    for (let step = 1; step <= MOST_STEPS && !free(at); step += 1) {
      at = { x: point.x + way.x * step * CLEAR, y: point.y + way.y * step * CLEAR };
    }
    placed.set(connection.id, { point, at });
  }
  return placed;
}

const box = (x: number, y: number, width: number, height: number): string => `M${x} ${y}h${width}v${height}h${-width}Z`;

/** A box out of a wall of the top view: `along` from the rear, or for the rear wall from the middle line. */
function outOfWall(
  layout: Layout,
  rig: CompletedRig,
  wall: "left" | "right" | "rear",
  from: number,
  size: number,
  depth: number,
): string {
  const { x, scale, middle } = layout;
  const half = (rig.width.value / 2) * scale;
  if (wall === "rear") return box(x(-depth), middle - (from + size) * scale, depth * scale, size * scale);
  const out = depth * scale;
  return box(x(from), wall === "left" ? middle - half - out : middle + half, size * scale, out);
}

function wallSpot(layout: Layout, rig: CompletedRig, wall: RigWall, fromRear: number): Spot {
  const half = (rig.width.value / 2) * layout.scale;
  if (wall === "rear") return { x: layout.x(0), y: layout.middle };
  if (wall === "front") return { x: layout.x(rig.length.value), y: layout.middle };
  return { x: layout.x(fromRear), y: wall === "left" ? layout.middle - half : layout.middle + half };
}

function doorPath(layout: Layout, rig: CompletedRig, door: CompletedRig["doors"][number]): string {
  const start = wallSpot(layout, rig, door.wall, door.fromRear.value);
  const wide = door.width.value * layout.scale;
  if (door.wall === "rear" || door.wall === "front") return `M${start.x} ${start.y - wide / 2}v${wide}`;
  return `M${start.x} ${start.y}h${wide}`;
}

const HOT = 5;

/** Everything that is drawn beneath the handles, back to front. */
export function bodyParts(layout: Layout, rig: CompletedRig): Part[] {
  const { x, scale, middle, ground } = layout;
  const half = (rig.width.value / 2) * scale;
  const long = rig.length.value * scale;
  const name = (text: string, part: string): Part["label"] => {
    const [, left = "0", top = "0", wide = "0", high = "0"] =
      /^M([-\d.e]+) ([-\d.e]+)h([-\d.e]+)v([-\d.e]+)/.exec(part) ?? [];
    return { x: Number(left) + Number(wide) / 2, y: Number(top) + Number(high) / 2 + 4, text };
  };
  const awnings = rig.awnings.map((one) => {
    const d = outOfWall(layout, rig, one.wall, one.fromRear.value, one.length.value, one.projection.value);
    return { key: `awning ${one.id}`, className: "rig-awning", d, label: name("awning", d)! };
  });
  const slides = rig.slideouts.map((one) => {
    const d = outOfWall(layout, rig, one.wall, one.fromRear.value, one.length.value, one.depth.value);
    return { key: `slide ${one.id}`, className: "rig-slide", d, label: name("slide", d)! };
  });
  const nose = x(rig.length.value);
  const high = rig.height.value * scale;
  const clear = rig.groundClearance.value * scale;
  const axle = x(rig.rearOverhang.value);
  const front = x(Math.min(rig.length.value, rig.rearOverhang.value + rig.wheelbase.value));
  const wheel = (at: number) =>
    `M${at - clear} ${ground - clear}a${clear} ${clear} 0 1 0 ${2 * clear} 0a${clear} ${clear} 0 1 0 ${-2 * clear} 0Z`;
  const trailer = ["travel-trailer", "fifth-wheel", "folding-trailer"].includes(rig.class);
  return [
    ...awnings,
    ...slides,
    { key: "body", className: "rig-body", d: box(x(0), middle - half, long, 2 * half) },
    {
      key: "nose",
      className: "rig-nose",
      d: `M${nose - half / 2} ${middle - half}L${nose} ${middle}L${nose - half / 2} ${middle + half}`,
    },
    { key: "side", className: "rig-body", d: box(x(0), ground - high, long, high - clear) },
    { key: "ground", className: "rig-ground", d: `M${x(0) - BOX.margin / 2} ${ground}H${nose + BOX.margin / 2}` },
    { key: "axle", className: "rig-wheel", d: `${wheel(axle)}${trailer ? "" : wheel(front)}` },
    ...rig.doors.map((one) => ({
      key: `door ${one.id}`,
      className: `rig-door ${one.given ? "" : "rig-guess"}`,
      d: doorPath(layout, rig, one),
    })),
    ...rig.hotOutlets.map((one) => {
      const at = wallSpot(layout, rig, one.wall, one.fromRear.value);
      return {
        key: `hot ${one.id}`,
        className: "rig-hot",
        d: `M${at.x - HOT} ${at.y - HOT}l${2 * HOT} ${2 * HOT}m0 ${-2 * HOT}l${-2 * HOT} ${2 * HOT}`,
      };
    }),
  ];
}
