/** The pad with its hookups, moved by hand or by the arrow keys: what is moved here is known as from a map. */
import { useRef } from "preact/hooks";
import { formatLength } from "../../../units/print.ts";
import { metresOf } from "../../measure/walk.ts";
import { useStore } from "../../state/store.ts";
import { type Json, valueAt, withValue } from "./merge.ts";

const MARGIN = 3;
/** Metres of one press of an arrow, and of one with Shift. */
const STEP = 0.1;
const FINE_STEP = 0.02;
/** Standard deviation of what is moved on a screen, metres; assumed. */
const MAP_ACCURACY = 0.5;
const DECIMALS = 2;

interface Placed {
  readonly id: string;
  readonly service: string;
  readonly along: number;
  readonly left: number;
}

/** Metres of a length as the record has it; null when it has none. */
export function metresIn(value: Json | undefined): number | null {
  if (typeof value === "number") return value;
  if (typeof value !== "string") return null;
  return value.startsWith("-") ? -(metresOf(value.slice(1)) ?? Number.NaN) || null : metresOf(value);
}

export function hookupsIn(draft: Json): readonly Json[] {
  const list = valueAt(draft, ["properties", "hookups"]);
  return Array.isArray(list) ? list : [];
}

function placedIn(draft: Json): readonly Placed[] {
  return hookupsIn(draft).flatMap((one) => {
    const [along, left] = [metresIn(valueAt(one, ["at", "along"])), metresIn(valueAt(one, ["at", "left"]))];
    const [id, service] = [valueAt(one, ["id"]), valueAt(one, ["service"])];
    return along === null || left === null || typeof id !== "string"
      ? []
      : [{ id, service: String(service), along, left }];
  });
}

function moved(draft: Json, { id }: Placed, along: number, left: number): Json {
  const path = ["properties", "hookups", `#${id}`];
  const round = (metres: number) => Number(metres.toFixed(DECIMALS));
  const steps: readonly (readonly [readonly string[], Json])[] = [
    [[...path, "at", "along"], round(along)],
    [[...path, "at", "left"], round(left)],
    [[...path, "basis"], "mapped"],
    [[...path, "accuracy"], MAP_ACCURACY],
  ];
  return steps.reduce<Json>((record, [step, value]) => withValue(record, step, value) ?? record, draft);
}

interface PadMapProps {
  readonly draft: Json;
  /** The pad's size where the site's own record has none. */
  readonly size: { readonly length: number | null; readonly width: number | null };
  readonly onChange: (draft: Json) => void;
}

export function PadMap({ draft, size, onChange }: PadMapProps) {
  const units = useStore((state) => state.kept.units);
  const svg = useRef<SVGSVGElement>(null);
  const held = useRef<Placed | null>(null);
  const length = metresIn(valueAt(draft, ["properties", "pad", "length"])) ?? size.length;
  const width = metresIn(valueAt(draft, ["properties", "pad", "width"])) ?? size.width;
  if (length === null || width === null) return <p class="quiet">Without length and width the pad cannot be drawn.</p>;
  const half = width / 2;
  const placed = placedIn(draft);
  const low = Math.min(0, ...placed.map(({ along }) => along)) - MARGIN;
  const high = Math.max(length, ...placed.map(({ along }) => along)) + MARGIN;
  const side = Math.max(half, ...placed.map(({ left }) => Math.abs(left))) + MARGIN;
  const toPad = (event: PointerEvent) => {
    const matrix = svg.current?.getScreenCTM()?.inverse();
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return { along: x, left: -y };
  };
  const move = (event: PointerEvent) => {
    if (held.current === null) return;
    const { along, left } = toPad(event);
    onChange(moved(draft, held.current, along, left));
  };
  const press = (event: KeyboardEvent, one: Placed) => {
    const step = event.shiftKey ? FINE_STEP : STEP;
    const by = { ArrowRight: [step, 0], ArrowLeft: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    onChange(moved(draft, one, one.along + (by[0] ?? 0), one.left + (by[1] ?? 0)));
  };
  return (
    <figure class="pad-map">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing cannot be a fieldset. */}
      <svg
        ref={svg}
        viewBox={`${low} ${-side} ${high - low} ${2 * side}`}
        role="group"
        aria-label="The pad from above, its exit to the right"
        onPointerMove={move}
        onPointerUp={() => {
          held.current = null;
        }}
      >
        <rect class="pad-map-pad" x={0} y={-half} width={length} height={width} />
        <path
          class="pad-map-axis"
          d={`M0 0H${length + 1.5}M${length + 0.8} -0.5L${length + 1.5} 0L${length + 0.8} 0.5`}
        />
        {placed.map((one) => (
          // biome-ignore lint/a11y/useSemanticElements: a part of a drawing cannot be a button.
          <g
            key={one.id}
            class="pad-map-hookup"
            data-hookup={one.id}
            transform={`translate(${one.along} ${-one.left})`}
            tabindex={0}
            role="button"
            aria-label={`${one.id}: ${formatLength(one.along, units)} along, ${sideText(one.left, units)}. Arrow keys move it.`}
            onPointerDown={(event) => {
              held.current = one;
              svg.current?.setPointerCapture(event.pointerId);
            }}
            onKeyDown={(event) => press(event, one)}
          >
            <rect x={-0.7} y={-0.7} width={1.4} height={1.4} rx={0.2} />
            <text y={0.35}>{one.service.slice(0, 1).toUpperCase()}</text>
          </g>
        ))}
      </svg>
      <figcaption class="quiet">
        Rear edge on the left, exit to the right. Drag a hookup, or take it with Tab and move it with the arrows. What
        is moved here counts as read from a map, good to {formatLength(MAP_ACCURACY, units)}.
      </figcaption>
    </figure>
  );
}

const sideText = (left: number, units: "us" | "metric"): string =>
  `${formatLength(Math.abs(left), units)} to the ${left < 0 ? "right" : "left"}`;
