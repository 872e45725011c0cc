/** The sketch that grows: the pad as far as it is known, its marks, and the tapes between them. Rear edge below. */
import type { PadPoint } from "../../geo/pad-frame.ts";
import { formatLength } from "../../units/print.ts";
import { useStore } from "../state/store.ts";
import type { Placed, Solved } from "./solve-walk.ts";
import { labelOf, metresOf, type Walk } from "./walk.ts";

interface SketchProps {
  readonly walk: Walk;
  readonly solved: Solved;
}

/** Drawing units. */
const BOX = { width: 420, height: 520, margin: 46 } as const;
/** Sizes of a pad that nobody has measured yet, for the look only, metres. */
const GUESS = { length: 12, width: 5 } as const;
const LETTER: Readonly<Record<string, string>> = { power: "P", water: "W", fill: "F", sewer: "S", cable: "C" };
const OVER = 15;
const UNDER = 26;

export function Sketch({ walk, solved }: SketchProps) {
  const units = useStore((state) => state.kept.units);
  const length = solved.length?.value ?? GUESS.length;
  const width = solved.width?.value ?? GUESS.width;
  const corners: Placed[] = [
    { id: "rear-left", along: 0, left: width / 2, sigma: 0 },
    { id: "rear-right", along: 0, left: -width / 2, sigma: 0 },
    { id: "exit-left", along: length, left: width / 2, sigma: 0 },
    { id: "exit-right", along: length, left: -width / 2, sigma: 0 },
  ];
  const asked = solved.questions.flatMap(({ places }) => places);
  const points: readonly PadPoint[] = [...corners, ...solved.places, ...asked];
  const low = (pick: (point: PadPoint) => number) => Math.min(...points.map(pick));
  const high = (pick: (point: PadPoint) => number) => Math.max(...points.map(pick));
  const along = { low: low((point) => point.along), high: high((point) => point.along) };
  const left = { low: low((point) => point.left), high: high((point) => point.left) };
  const scale = Math.min(
    (BOX.width - 2 * BOX.margin) / (left.high - left.low),
    (BOX.height - 2 * BOX.margin) / (along.high - along.low),
  );
  const x = (point: PadPoint) => BOX.width / 2 + ((left.high + left.low) / 2 - point.left) * scale;
  const y = (point: PadPoint) => BOX.height / 2 + ((along.high + along.low) / 2 - point.along) * scale;
  const placeOf = new Map([...corners, ...solved.places].map((one) => [one.id, one]));
  const guessed = solved.length === null || solved.width === null;
  const wrong = new Set(solved.contradictions.map(({ reading }) => reading));
  const [rearLeft, rearRight, exitLeft, exitRight] = corners as [Placed, Placed, Placed, Placed];
  const outline = [rearLeft, rearRight, exitRight, exitLeft].map((point) => `${x(point)},${y(point)}`).join(" ");
  return (
    <figure class="sketch">
      <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} role="img" aria-label={sketchWords(walk, solved)}>
        <polygon class={`sketch-pad ${guessed ? "guessed" : ""}`} points={outline} />
        <line class="sketch-axis" x1={BOX.width / 2} y1={y(exitLeft)} x2={BOX.width / 2} y2={y(rearLeft)} hidden />
        <text class="sketch-end" x={(x(exitLeft) + x(exitRight)) / 2} y={y(exitLeft) - OVER} text-anchor="middle">
          exit
        </text>
        <text class="sketch-end" x={(x(rearLeft) + x(rearRight)) / 2} y={y(rearLeft) + UNDER} text-anchor="middle">
          rear edge
        </text>
        {walk.readings.map((reading, index) => {
          const [from, to] = [placeOf.get(reading.from), placeOf.get(reading.to)];
          if (from === undefined || to === undefined) return null;
          const metres = metresOf(reading.distance);
          return (
            <g key={`${reading.from} ${reading.to} ${index}`} class={`sketch-tape ${wrong.has(index) ? "wrong" : ""}`}>
              <line x1={x(from)} y1={y(from)} x2={x(to)} y2={y(to)} />
              {metres !== null && (
                <text x={(x(from) + x(to)) / 2} y={(y(from) + y(to)) / 2} text-anchor="middle">
                  {formatLength(metres, units)}
                </text>
              )}
            </g>
          );
        })}
        {solved.questions.flatMap(({ id, places }) =>
          places.map((place, index) => (
            <g key={`${id} ${index}`} class="sketch-asked">
              <circle cx={x(place)} cy={y(place)} r={12} />
              <text x={x(place)} y={y(place) + 5} text-anchor="middle">
                {index === 0 ? "A" : "B"}
              </text>
            </g>
          )),
        )}
        {corners.map((corner) => (
          <rect key={corner.id} class="sketch-corner" x={x(corner) - 4} y={y(corner) - 4} width={8} height={8} />
        ))}
        {solved.places.map((place) => {
          const mark = walk.marks.find(({ id }) => id === place.id);
          const inwards = place.left > 0 ? "end" : "start";
          return (
            <g key={place.id} class="sketch-mark">
              <circle cx={x(place)} cy={y(place)} r={12} />
              <text class="sketch-letter" x={x(place)} y={y(place) + 5} text-anchor="middle">
                {LETTER[mark?.service ?? ""] ?? (mark?.label ?? place.id).charAt(0).toUpperCase()}
              </text>
              <text
                class="sketch-name"
                x={x(place) + (place.left > 0 ? OVER : -OVER)}
                y={y(place) - OVER}
                text-anchor={inwards === "end" ? "middle" : "middle"}
              >
                {labelOf(walk, place.id)}
              </text>
            </g>
          );
        })}
      </svg>
      {guessed && <figcaption class="quiet">Broken outline: sizes that nobody has measured yet.</figcaption>}
    </figure>
  );
}

function sketchWords(walk: Walk, solved: Solved): string {
  const fixed = solved.places.map(({ id }) => labelOf(walk, id));
  return fixed.length === 0
    ? "Sketch of the pad; no mark is fixed yet."
    : `Sketch of the pad with ${fixed.join(", ")}.`;
}
