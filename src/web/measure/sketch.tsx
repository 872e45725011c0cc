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
const RADIUS = 12;
const CORNER = 8;
/** From the middle of a circle to the line of its letter. */
const DROP = 5;

interface Ground {
  readonly corners: readonly Placed[];
  readonly x: (point: PadPoint) => number;
  readonly y: (point: PadPoint) => number;
}

/** The pad's corners, guessed where nothing is known, and where a place of the pad frame lies on the sketch. */
function groundOf(solved: Solved): Ground {
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
  const span = (pick: (point: PadPoint) => number) => {
    const values = points.map(pick);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    return { middle: (low + high) / 2, size: high - low };
  };
  const along = span((point) => point.along);
  const left = span((point) => point.left);
  const scale = Math.min((BOX.width - 2 * BOX.margin) / left.size, (BOX.height - 2 * BOX.margin) / along.size);
  return {
    corners,
    x: (point) => BOX.width / 2 + (left.middle - point.left) * scale,
    y: (point) => BOX.height / 2 + (along.middle - point.along) * scale,
  };
}

interface PartProps extends SketchProps {
  readonly ground: Ground;
}

export function Sketch({ walk, solved }: SketchProps) {
  const ground = groundOf(solved);
  const { corners, x, y } = ground;
  const guessed = solved.length === null || solved.width === null;
  const [rearLeft, rearRight, exitLeft, exitRight] = corners as [Placed, Placed, Placed, Placed];
  const outline = [rearLeft, rearRight, exitRight, exitLeft].map((point) => `${x(point)},${y(point)}`).join(" ");
  return (
    <figure class="sketch">
      <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} role="img" aria-label={sketchWords(walk, solved)}>
        <polygon class={`sketch-pad ${guessed ? "guessed" : ""}`} points={outline} />
        <text class="sketch-end" x={(x(exitLeft) + x(exitRight)) / 2} y={y(exitLeft) - OVER} text-anchor="middle">
          exit
        </text>
        <text class="sketch-end" x={(x(rearLeft) + x(rearRight)) / 2} y={y(rearLeft) + UNDER} text-anchor="middle">
          rear edge
        </text>
        <Tapes walk={walk} solved={solved} ground={ground} />
        {corners.map((corner) => (
          <rect
            key={corner.id}
            class="sketch-corner"
            x={x(corner) - CORNER / 2}
            y={y(corner) - CORNER / 2}
            width={CORNER}
            height={CORNER}
          />
        ))}
        <Places walk={walk} solved={solved} ground={ground} />
      </svg>
      {guessed && <figcaption class="quiet">Broken outline: sizes that nobody has measured yet.</figcaption>}
    </figure>
  );
}

function Tapes({ walk, solved, ground: { corners, x, y } }: PartProps) {
  const units = useStore((state) => state.kept.units);
  const placeOf = new Map([...corners, ...solved.places].map((one) => [one.id, one]));
  const wrong = new Set(solved.contradictions.map(({ reading }) => reading));
  return (
    <>
      {walk.readings.map((reading, index) => {
        const [from, to] = [placeOf.get(reading.from), placeOf.get(reading.to)];
        if (from === undefined || to === undefined) return null;
        const metres = metresOf(reading.distance);
        return (
          <g key={`${reading.from} ${reading.to}`} class={`sketch-tape ${wrong.has(index) ? "wrong" : ""}`}>
            <line x1={x(from)} y1={y(from)} x2={x(to)} y2={y(to)} />
            {metres !== null && (
              <text x={(x(from) + x(to)) / 2} y={(y(from) + y(to)) / 2} text-anchor="middle">
                {formatLength(metres, units)}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}

/** Marks that are fixed, and both places of those that are asked about. */
function Places({ walk, solved, ground: { x, y } }: PartProps) {
  return (
    <>
      {solved.questions.flatMap(({ id, places }) =>
        places.map((place, index) => (
          <g key={`${id} ${index}`} class="sketch-asked">
            <circle cx={x(place)} cy={y(place)} r={RADIUS} />
            <text x={x(place)} y={y(place) + DROP} text-anchor="middle">
              {index === 0 ? "A" : "B"}
            </text>
          </g>
        )),
      )}
      {solved.places.map((place) => {
        const mark = walk.marks.find(({ id }) => id === place.id);
        return (
          <g key={place.id} class="sketch-mark">
            <circle cx={x(place)} cy={y(place)} r={RADIUS} />
            <text class="sketch-letter" x={x(place)} y={y(place) + DROP} text-anchor="middle">
              {LETTER[mark?.service ?? ""] ?? (mark?.label ?? place.id).charAt(0).toUpperCase()}
            </text>
            <text
              class="sketch-name"
              x={x(place) + (place.left > 0 ? OVER : -OVER)}
              y={y(place) - OVER}
              text-anchor="middle"
            >
              {labelOf(walk, place.id)}
            </text>
          </g>
        );
      })}
    </>
  );
}

function sketchWords(walk: Walk, solved: Solved): string {
  const fixed = solved.places.map(({ id }) => labelOf(walk, id));
  return fixed.length === 0
    ? "Sketch of the pad; no mark is fixed yet."
    : `Sketch of the pad with ${fixed.join(", ")}.`;
}
