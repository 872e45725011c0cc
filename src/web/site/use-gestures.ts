/** Pointers on the plan: one on the rig drags it, one beside it moves a zoomed plan, two zoom, and so does the wheel with control held. */
import { useRef } from "preact/hooks";
import type { Place } from "../../fit/try-stance.ts";
import { inside, type PlanFrameOnPage, stepOnPad, type View, zoomAt } from "./plan-frame.ts";

interface GestureInput {
  readonly frame: PlanFrameOnPage | null;
  readonly view: View;
  readonly setView: (view: View) => void;
  readonly at: Place | null;
  readonly onMove: (place: Place) => void;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

type Drag =
  | { readonly kind: "rig"; readonly start: Spot; readonly from: Place }
  | { readonly kind: "view"; readonly start: Spot; readonly from: View }
  | { readonly kind: "pinch"; readonly distance: number; readonly from: View; readonly middle: Spot };

const WHEEL = 0.0025;

export function useGestures({ frame, view, setView, at, onMove }: GestureInput) {
  const pointers = useRef(new Map<number, Spot>());
  const drag = useRef<Drag | null>(null);

  /** Pixels of the drawing under a place of the screen. */
  const onDrawing = (stage: Element, { x, y }: Spot): Spot => {
    const box = stage.getBoundingClientRect();
    const share = frame === null ? 1 : frame.width / view.zoom / box.width;
    return { x: view.x + (x - box.left) * share, y: view.y + (y - box.top) * share };
  };
  /** Pixels of the drawing for one pixel of the screen. */
  const shareOf = (stage: Element): number =>
    frame === null ? 1 : frame.width / view.zoom / stage.getBoundingClientRect().width;

  const onPointerDown = (event: PointerEvent) => {
    const stage = event.currentTarget as Element;
    if (frame === null || event.button > 0) return;
    const spot = { x: event.clientX, y: event.clientY };
    pointers.current.set(event.pointerId, spot);
    const [first, second] = [...pointers.current.values()];
    if (first !== undefined && second !== undefined) {
      const middle = onDrawing(stage, { x: (first.x + second.x) / 2, y: (first.y + second.y) / 2 });
      drag.current = {
        kind: "pinch",
        distance: Math.hypot(first.x - second.x, first.y - second.y),
        from: view,
        middle,
      };
    } else if ((event.target as Element).closest("[data-part=rig-handle]") !== null && at !== null) {
      drag.current = { kind: "rig", start: spot, from: at };
    } else if (view.zoom > 1) drag.current = { kind: "view", start: spot, from: view };
    else return;
    stage.setPointerCapture(event.pointerId);
  };

  const onPointerMove = (event: PointerEvent) => {
    const stage = event.currentTarget as Element;
    if (frame === null || !pointers.current.has(event.pointerId)) return;
    const spot = { x: event.clientX, y: event.clientY };
    pointers.current.set(event.pointerId, spot);
    const now = drag.current;
    if (now === null) return;
    if (now.kind === "pinch") {
      const [first, second] = [...pointers.current.values()];
      if (first === undefined || second === undefined) return;
      const distance = Math.hypot(first.x - second.x, first.y - second.y);
      setView(zoomAt(now.from, distance / now.distance, now.middle, frame));
      return;
    }
    const share = shareOf(stage);
    const x = (spot.x - now.start.x) * share;
    const y = (spot.y - now.start.y) * share;
    if (now.kind === "rig") {
      const step = stepOnPad(frame, x, y);
      onMove({ along: now.from.along + step.along, left: now.from.left + step.left });
    } else setView(inside({ ...now.from, x: now.from.x - x, y: now.from.y - y }, frame));
  };

  const onPointerEnd = (event: PointerEvent) => {
    pointers.current.delete(event.pointerId);
    drag.current = null;
  };

  const onWheel = (event: WheelEvent) => {
    // Without the key the wheel scrolls the page, as everywhere else.
    if (frame === null || !event.ctrlKey) return;
    event.preventDefault();
    const stage = event.currentTarget as Element;
    const middle = onDrawing(stage, { x: event.clientX, y: event.clientY });
    setView(zoomAt(view, Math.exp(-event.deltaY * WHEEL), middle, frame));
  };

  return { onPointerDown, onPointerMove, onPointerUp: onPointerEnd, onPointerCancel: onPointerEnd, onWheel };
}
