/** Between the pad's metres and the plan's pixels, as the plan itself says it. */
import type { PadPoint } from "../../fit/stance/problem.ts";

export interface PlanFrameOnPage {
  readonly exitRight: boolean;
  /** Pixels of the drawing for a metre. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Null for a drawing without ground. */
export function frameOf(svg: SVGSVGElement): PlanFrameOnPage | null {
  const plan = svg.querySelector("[data-part=plan]");
  const [x, y] = (plan?.getAttribute("data-origin") ?? "").split(" ").map(Number);
  const scale = Number(plan?.getAttribute("data-pixels-per-metre"));
  if (plan === null || x === undefined || y === undefined || !(scale > 0)) return null;
  const { width, height } = svg.viewBox.baseVal;
  return { exitRight: plan.getAttribute("data-orientation") === "exit-right", scale, x, y, width, height };
}

export function toPage(frame: PlanFrameOnPage, { along, left }: PadPoint): { x: number; y: number } {
  return frame.exitRight
    ? { x: frame.x + along * frame.scale, y: frame.y - left * frame.scale }
    : { x: frame.x + left * frame.scale, y: frame.y + along * frame.scale };
}

/** A step on the page, in pixels of the drawing, as a step on the pad. */
export function stepOnPad(frame: PlanFrameOnPage, x: number, y: number): PadPoint {
  return frame.exitRight
    ? { along: x / frame.scale, left: -y / frame.scale }
    : { along: y / frame.scale, left: x / frame.scale };
}

export interface View {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}

export const WHOLE: View = { x: 0, y: 0, zoom: 1 };
const LARGEST_ZOOM = 8;

/** Zooms by a factor and keeps the point of the drawing under the finger where it is. */
export function zoomAt(
  view: View,
  factor: number,
  at: { x: number; y: number },
  size: { width: number; height: number },
): View {
  const zoom = Math.min(LARGEST_ZOOM, Math.max(1, view.zoom * factor));
  const share = view.zoom / zoom;
  return inside({ x: at.x - (at.x - view.x) * share, y: at.y - (at.y - view.y) * share, zoom }, size);
}

/** Keeps the view within the drawing. */
export function inside(view: View, { width, height }: { width: number; height: number }): View {
  const clamp = (value: number, most: number) => Math.min(Math.max(value, 0), most);
  return {
    x: clamp(view.x, width - width / view.zoom),
    y: clamp(view.y, height - height / view.zoom),
    zoom: view.zoom,
  };
}

export function viewBoxOf(view: View, { width, height }: { width: number; height: number }): string {
  return `${view.x} ${view.y} ${width / view.zoom} ${height / view.zoom}`;
}
