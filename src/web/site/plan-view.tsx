/**
 * The plan in the page: zoomed by buttons, keys, wheel and two fingers; the rig dragged along its pad with the pointer
 * or the arrow keys. The ground stays where it is while the rig moves.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Fit } from "../../fit/answer.ts";
import type { Place } from "../../fit/try-stance.ts";
import {
  frameOf,
  inside,
  type PlanFrameOnPage,
  stepOnPad,
  toPage,
  type View,
  viewBoxOf,
  WHOLE,
  zoomAt,
} from "./plan-frame.ts";
import { useGestures } from "./use-gestures.ts";

interface PlanViewProps {
  readonly fit: Fit;
  readonly svg: string;
  readonly place: Place | null;
  readonly onMove: (place: Place) => void;
  readonly onBack: () => void;
}

const ZOOM_STEP = 1.4;
/** Metres for one press of an arrow key, and with the shift key. */
const STEP = 0.1;
const LONG_STEP = 0.5;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowDown: [0, 1],
  ArrowUp: [0, -1],
};

/** Puts the drawing into the page as nodes: it comes from our own code, and text can make no element of itself. */
function useDrawing(svg: string) {
  const holder = useRef<HTMLDivElement>(null);
  const [drawing, setDrawing] = useState<SVGSVGElement | null>(null);
  // Before the browser paints: words and drawing of one answer appear together.
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (!(parsed instanceof SVGSVGElement)) return;
    const made = document.importNode(parsed, true);
    holder.current?.replaceChildren(made);
    setDrawing(made);
  }, [svg]);
  return { holder, drawing };
}

export function PlanView({ fit, svg, place, onMove, onBack }: PlanViewProps) {
  const { holder, drawing } = useDrawing(svg);
  const [view, setView] = useState<View>(WHOLE);
  const frame = drawing === null ? null : frameOf(drawing);
  useLayoutEffect(() => {
    if (frame !== null) drawing?.setAttribute("viewBox", viewBoxOf(view, frame));
  }, [drawing, view]);
  const size = useRef({ width: 0, height: 0 });
  if (frame !== null && size.current.width === 0) size.current = frame;
  const rig = fit.scene.rig;
  const at: Place | null = place ?? fit.stance;
  const step = (along: number, left: number) =>
    at !== null && onMove({ along: at.along + along, left: at.left + left });
  const zoomBy = (factor: number) => {
    if (frame === null) return;
    const middle = { x: view.x + frame.width / view.zoom / 2, y: view.y + frame.height / view.zoom / 2 };
    setView(zoomAt(view, factor, middle, frame));
  };
  const onKey = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key];
    if (arrow !== undefined && frame !== null) {
      const far = event.shiftKey ? LONG_STEP : STEP;
      const moved = stepOnPad(frame, arrow[0] * far * frame.scale, arrow[1] * far * frame.scale);
      step(moved.along, moved.left);
    } else if (event.key === "+" || event.key === "=") zoomBy(ZOOM_STEP);
    else if (event.key === "-") zoomBy(1 / ZOOM_STEP);
    else if (event.key === "0") setView(WHOLE);
    else if (event.key === "Escape") onBack();
    else return;
    event.preventDefault();
  };
  const gestures = useGestures({ frame, view, setView, at, onMove });
  return (
    <div class="plan">
      <div
        class={`plan-stage ${view.zoom > 1 ? "zoomed" : ""}`}
        role="application"
        aria-label={`Plan of ${fit.site.name}. Arrow keys move the rig, plus and minus change the scale, escape puts the rig back.`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plan is worked with keys.
        tabIndex={0}
        onKeyDown={onKey}
        {...gestures}
      >
        <div class="plan-drawing" ref={holder} />
        {frame !== null && rig !== null && at !== null && (
          <Handle frame={frame} view={view} body={rig.body} from={rig.stance} at={at} moved={place !== null} />
        )}
      </div>
      <fieldset class="plan-tools" aria-label="Scale of the plan">
        <button type="button" class="button" onClick={() => zoomBy(ZOOM_STEP)} aria-label="Larger">
          +
        </button>
        <button type="button" class="button" onClick={() => zoomBy(1 / ZOOM_STEP)} aria-label="Smaller">
          −
        </button>
        <button type="button" class="button" onClick={() => setView(WHOLE)}>
          Whole plan
        </button>
      </fieldset>
    </div>
  );
}

interface HandleProps {
  readonly frame: PlanFrameOnPage;
  readonly view: View;
  readonly body: readonly Place[];
  readonly from: Place;
  readonly at: Place;
  readonly moved: boolean;
}

/** The rig's outline over the drawing: follows the hand at once, while the drawing follows the core. */
function Handle({ frame, view, body, from, at, moved }: HandleProps) {
  const points = body
    .map(({ along, left }) => toPage(frame, { along: along + at.along - from.along, left: left + at.left - from.left }))
    .map(({ x, y }) => `${x},${y}`);
  return (
    <svg class="plan-handle" viewBox={viewBoxOf(inside(view, frame), frame)} aria-hidden="true">
      <polygon class={`rig-handle ${moved ? "moved" : ""}`} points={points.join(" ")} data-part="rig-handle" />
    </svg>
  );
}
