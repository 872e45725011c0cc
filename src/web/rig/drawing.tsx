/**
 * The rig from above and from the side, to one scale, nose to the right. A connection is moved with the pointer, or
 * with the arrow keys when it has the focus; what is not known sharply is drawn as the stretch in which it may be.
 */
import { useRef } from "preact/hooks";
import { SERVICE_STYLES } from "../../draw/style.ts";
import type { CompletedConnection, CompletedRig } from "../../rig/completed.ts";
import { METRES_PER_INCH } from "../../units/factors.ts";
import { formatLength } from "../../units/print.ts";
import { announce } from "../shared/announce.tsx";
import { SERVICE_WORDS } from "../shared/words.ts";
import { type Units, useStore } from "../state/store.ts";
import { BOX, bodyParts, handlesOf, type Layout, layoutOf, type Handle as Placed } from "./layout.ts";
import { moved, type Target, targetOnSide, targetOnTop } from "./places.ts";
import type { Draft } from "./use-draft.ts";

interface DrawingProps {
  readonly draft: Draft;
  readonly rig: CompletedRig;
}

/** Metres for one press of an arrow key; with the shift key, six presses in one. */
const NUDGE: Readonly<Record<Units, number>> = { us: METRES_PER_INCH, metric: 0.02 };
const LONG_NUDGE = 6;
/** A handle is easier to hit than its mark is large, drawing units. */
const HIT = 23;
const RADIUS = 12;

export function Drawing({ draft, rig }: DrawingProps) {
  const units = useStore((state) => state.kept.units);
  const svg = useRef<SVGSVGElement>(null);
  const layout = layoutOf(rig);
  const apply = (connection: CompletedConnection, target: Target) => {
    draft.edit((wire) => moved(wire, connection.path, target, units).rig);
    announce(`${SERVICE_WORDS[connection.service]}: ${targetWords(target, units)}`);
  };
  const spotOf = (event: PointerEvent) => {
    const matrix = svg.current?.getScreenCTM()?.inverse();
    return matrix === undefined ? null : new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
  };
  const hand = { layout, rig, units, apply, spotOf };
  const handles = { top: handlesOf(layout, rig, "top"), side: handlesOf(layout, rig, "side") };
  return (
    <figure class="rig-drawing">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing cannot be a fieldset. */}
      <svg
        ref={svg}
        viewBox={`0 0 ${BOX.width} ${layout.height}`}
        role="group"
        aria-label="Drawing of the rig: connections from above and from the side"
      >
        <Body layout={layout} rig={rig} />
        <text class="rig-caption" x={BOX.margin} y={layout.topCaption}>
          From above, nose to the right
        </text>
        <text class="rig-caption" x={BOX.margin} y={layout.sideCaption}>
          Heights, both walls in one
        </text>
        {(["side", "top"] as const).map((view) =>
          rig.connections.map((connection) => {
            const placed = handles[view].get(connection.id);
            return placed === undefined ? null : (
              <Handle
                key={`${view} ${connection.id}`}
                view={view}
                connection={connection}
                placed={placed}
                hand={hand}
              />
            );
          }),
        )}
      </svg>
      <figcaption class="quiet">
        Drag a connection, or choose it and use the arrow keys (with shift: six steps). Broken strokes show where a
        place that nobody gave may be. Hollow marks are on the right wall.
      </figcaption>
    </figure>
  );
}

function targetWords({ side, fromRear, left, height }: Target, units: Units): string {
  const parts = [
    `${side} wall`,
    ...(fromRear === undefined ? [] : [`${formatLength(fromRear, units)} from the rear`]),
    ...(left === undefined
      ? []
      : [`${formatLength(Math.abs(left), units)} ${left < 0 ? "right" : "left"} of the middle`]),
    ...(height === undefined ? [] : [`${formatLength(height, units)} up`]),
  ];
  return parts.join(", ");
}

function Body({ layout, rig }: { readonly layout: Layout; readonly rig: CompletedRig }) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus.
    <g aria-hidden="true">
      {bodyParts(layout, rig).map(({ key, className, d, label }) => (
        <g key={key}>
          <path class={className} d={d} />
          {label !== undefined && (
            <text class="rig-part-name" x={label.x} y={label.y} text-anchor="middle">
              {label.text}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

interface Hand {
  readonly layout: Layout;
  readonly rig: CompletedRig;
  readonly units: Units;
  readonly apply: (connection: CompletedConnection, target: Target) => void;
  readonly spotOf: (event: PointerEvent) => DOMPoint | null;
}
interface HandleProps {
  readonly view: "top" | "side";
  readonly connection: CompletedConnection;
  readonly placed: Placed;
  readonly hand: Hand;
}

const SHAPES: Readonly<Record<string, string>> = {
  square: "M-11-11H11V11H-11Z",
  circle: "M0-12a12 12 0 1 1 0 24a12 12 0 1 1 0-24Z",
  diamond: "M0-15L15 0L0 15L-15 0Z",
  hexagon: "M-7-12H7L14 0L7 12H-7L-14 0Z",
  house: "M-11 12V-4L0-14L11-4V12Z",
};

function Handle({ view, connection, placed, hand }: HandleProps) {
  const { layout, rig, units, apply, spotOf } = hand;
  /** While it is dragged: from the connection's place to where it was taken hold of. */
  const grip = useRef<{ readonly x: number; readonly y: number } | null>(null);
  const { point, at } = placed;
  const style = SERVICE_STYLES[connection.service];
  const targetOf = (spot: { readonly x: number; readonly y: number }): Target =>
    view === "top"
      ? targetOnTop(rig, connection, layout.spotOnTop(spot))
      : targetOnSide(rig, connection, layout.spotOnTop(spot).fromRear, layout.heightAt(spot.y));
  const move = (event: PointerEvent) => {
    const spot = grip.current === null ? null : spotOf(event);
    if (spot !== null && grip.current !== null)
      apply(connection, targetOf({ x: spot.x - grip.current.x, y: spot.y - grip.current.y }));
  };
  const down = (event: PointerEvent) => {
    const spot = spotOf(event);
    if (spot === null) return;
    grip.current = { x: spot.x - point.x, y: spot.y - point.y };
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };
  const key = (event: KeyboardEvent) => {
    const step = NUDGE[units] * (event.shiftKey ? LONG_NUDGE : 1) * layout.scale;
    const by = { ArrowRight: [step, 0], ArrowLeft: [-step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    apply(connection, targetOf({ x: point.x + (by[0] ?? 0), y: point.y + (by[1] ?? 0) }));
  };
  const { fromRear, height } = connection;
  const words = targetWords(
    { side: connection.wall, fromRear: fromRear.value, ...(height === null ? {} : { height: height.value }) },
    units,
  );
  const unsure = fromRear.low !== fromRear.high || (view === "side" && (height === null || height.low !== height.high));
  const value = view === "top" ? fromRear.value : (height?.value ?? 0);
  const most = view === "top" ? rig.length.value : rig.height.value;
  return (
    <g
      class={`rig-handle-mark service-${connection.service} ${connection.wall === "right" ? "on-right" : ""} ${unsure ? "unsure" : ""}`}
      role="slider"
      tabindex={0}
      aria-label={`${SERVICE_WORDS[connection.service]} connection ${view === "top" ? "from above" : "height"}`}
      aria-orientation={view === "top" ? "horizontal" : "vertical"}
      aria-valuemin={0}
      aria-valuemax={Number(most.toFixed(2))}
      aria-valuenow={Number(value.toFixed(2))}
      aria-valuetext={unsure ? `${words}, not given` : words}
      data-handle={`${view}-${connection.id}`}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={() => {
        grip.current = null;
      }}
      onPointerCancel={() => {
        grip.current = null;
      }}
      onKeyDown={key}
    >
      <path class="rig-spread" d={layout.spread(view, connection)} />
      {at !== point && <path class="rig-leader" d={`M${point.x} ${point.y}L${at.x} ${at.y}`} />}
      <circle class="rig-point" cx={point.x} cy={point.y} r={3.5} />
      <circle class="rig-hit" cx={at.x} cy={at.y} r={HIT} />
      <path
        class="rig-mark"
        d={SHAPES[style.shape]}
        transform={`translate(${at.x} ${at.y})`}
        stroke={style.colour}
        fill={style.colour}
      />
      <text class="rig-letter" x={at.x} y={at.y + RADIUS / 2} text-anchor="middle">
        {style.letter}
      </text>
    </g>
  );
}
