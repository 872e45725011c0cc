/**
 * Pad frame to page. Seen from above and never mirrored: with the exit to the right, the pad's left is up; with the
 * exit down, the pad's left is to the right.
 */
import type { PadPoint } from "../fit/stance/problem.ts";
import type { Spot } from "./svg.ts";

export type Orientation = "exit-right" | "exit-down";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Extent {
  readonly alongMin: number;
  readonly alongMax: number;
  readonly leftMin: number;
  readonly leftMax: number;
}

export interface Projection {
  readonly orientation: Orientation;
  /** Pixels per metre. */
  readonly scale: number;
  /** The drawn field on the page, pixels. */
  readonly frame: Box;
  toPage(point: PadPoint): Spot;
  /** A direction of the pad frame as a direction of the page, same length. */
  turn(direction: PadPoint): Spot;
}

/** The plan never draws a metre larger than this, pixels. */
const LARGEST_SCALE = 80;
/** Shortest side of what is drawn, metres, so that a lone tap does not fill the page. */
const LEAST_EXTENT = 3;

export function isPlaced(point: PadPoint): boolean {
  return Number.isFinite(point.along) && Number.isFinite(point.left);
}

/** The box round the points, at least 3 m each way; null when there is no point. */
export function extentOf(points: readonly PadPoint[]): Extent | null {
  const placed = points.filter(isPlaced);
  if (placed.length === 0) {
    return null;
  }
  const along = placed.map((point) => point.along);
  const left = placed.map((point) => point.left);
  const widen = (low: number, high: number): [number, number] => {
    const lack = Math.max(0, LEAST_EXTENT - (high - low)) / 2;
    return [low - lack, high + lack];
  };
  const [alongMin, alongMax] = widen(Math.min(...along), Math.max(...along));
  const [leftMin, leftMax] = widen(Math.min(...left), Math.max(...left));
  return { alongMin, alongMax, leftMin, leftMax };
}

function scaleFor(across: number, down: number, room: { width: number; height: number }): number {
  return Math.min(LARGEST_SCALE, room.width / across, room.height / down);
}

/** The orientation that shows a metre larger within the room; the exit to the right when both are equal. */
export function chooseOrientation(extent: Extent, room: { width: number; height: number }): Orientation {
  const alongSize = extent.alongMax - extent.alongMin;
  const leftSize = extent.leftMax - extent.leftMin;
  return scaleFor(leftSize, alongSize, room) > scaleFor(alongSize, leftSize, room) ? "exit-down" : "exit-right";
}

export interface ProjectionRequest {
  readonly extent: Extent;
  readonly orientation: Orientation;
  /** Upper left corner and width of the field on the page, pixels; its height follows from the scale. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly maxHeight: number;
  /** Room round the extent for labels, pixels. */
  readonly padding: { readonly across: number; readonly down: number };
}

export function makeProjection(request: ProjectionRequest): Projection {
  const { extent, orientation, padding } = request;
  const alongSize = extent.alongMax - extent.alongMin;
  const leftSize = extent.leftMax - extent.leftMin;
  const [across, down] = orientation === "exit-right" ? [alongSize, leftSize] : [leftSize, alongSize];
  const room = { width: request.width - 2 * padding.across, height: request.maxHeight - 2 * padding.down };
  const scale = scaleFor(across, down, room);
  const frame = { x: request.x, y: request.y, width: request.width, height: down * scale + 2 * padding.down };
  const startX = frame.x + (frame.width - across * scale) / 2;
  const startY = frame.y + padding.down;
  const turn =
    orientation === "exit-right"
      ? (direction: PadPoint): Spot => ({ x: direction.along, y: -direction.left })
      : (direction: PadPoint): Spot => ({ x: direction.left, y: direction.along });
  const corner: PadPoint =
    orientation === "exit-right"
      ? { along: extent.alongMin, left: extent.leftMax }
      : { along: extent.alongMin, left: extent.leftMin };
  const toPage = (point: PadPoint): Spot => {
    const turned = turn({ along: point.along - corner.along, left: point.left - corner.left });
    return { x: startX + turned.x * scale, y: startY + turned.y * scale };
  };
  return { orientation, scale, frame, toPage, turn };
}

/**
 * Direction of true north on the page as a unit vector, for a pad whose `along` bears `heading` radians clockwise
 * from north.
 */
export function northOnPage(heading: number, orientation: Orientation): Spot {
  const alongFromUp = orientation === "exit-right" ? Math.PI / 2 : Math.PI;
  const northFromUp = alongFromUp - heading;
  return { x: Math.sin(northFromUp), y: -Math.cos(northFromUp) };
}
