/** One tank over the days of a trip: a band from low to high use, the expected line, where it is full or empty. */
import type { Band } from "../../fit/stay/types.ts";
import type { SupplyEvent } from "../../trip/supplies/types.ts";

export interface ChartPoint {
  readonly day: number;
  readonly level: Band;
}

interface ChartProps {
  readonly title: string;
  /** Null when it is not known; then the picture reaches up to the highest level. */
  readonly size: number | null;
  readonly points: readonly ChartPoint[];
  readonly stops: readonly { readonly from: number; readonly to: number; readonly title: string }[];
  readonly events: readonly SupplyEvent[];
  readonly amount: (value: number) => string;
}

const WIDTH = 360;
const HEIGHT = 150;
const EDGE = { left: 8, right: 8, top: 20, bottom: 24 } as const;
const MARK = 7;
/** Room for a few letters beside a mark. */
const WORD = 30;
const TEXT_BELOW = 16;

type Known = { readonly day: number; readonly low: number; readonly high: number; readonly expected: number | null };

/** Stretches in which the levels are known. */
function stretches(points: readonly ChartPoint[]): Known[][] {
  const found: Known[][] = [[]];
  for (const { day, level } of points) {
    const { low, high, expected } = level;
    if (low === null || high === null) {
      if (found.at(-1)?.length !== 0) found.push([]);
    } else found.at(-1)?.push({ day, low, high, expected });
  }
  return found.filter((one) => one.length > 0);
}

/** What the picture shows, in one sentence. */
function sentence({ title, points, amount }: ChartProps): string {
  const known = stretches(points).flat();
  const [first, last] = [known[0], known.at(-1)];
  if (first === undefined || last === undefined) return `${title}: not known.`;
  const band = ({ low, high }: Known) => (low === high ? amount(low) : `${amount(low)} to ${amount(high)}`);
  return `${title}: ${band(first)} at the start, ${band(last)} at the end of the trip.`;
}

export function TankChart(props: ChartProps) {
  const { size, points, stops, events, amount } = props;
  const end = Math.max(1, ...stops.map((stop) => stop.to));
  const known = stretches(points);
  const most = size ?? Math.max(1, ...known.flat().map((point) => point.high));
  const x = (day: number) => EDGE.left + (day / end) * (WIDTH - EDGE.left - EDGE.right);
  const y = (level: number) => HEIGHT - EDGE.bottom - (level / most) * (HEIGHT - EDGE.top - EDGE.bottom);
  const at = (day: number, level: number) => `${x(day).toFixed(1)},${y(level).toFixed(1)}`;
  return (
    <svg class="tank-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={sentence(props)}>
      <rect class="tank-room" x={x(0)} y={y(most)} width={x(end) - x(0)} height={y(0) - y(most)} />
      {known.map((run) => (
        <g key={run[0]?.day}>
          <polygon
            class="tank-band"
            points={[
              ...run.map((one) => at(one.day, one.high)),
              ...[...run].reverse().map((one) => at(one.day, one.low)),
            ].join(" ")}
          />
          <polyline
            class="tank-line"
            points={run.flatMap((one) => (one.expected === null ? [] : at(one.day, one.expected))).join(" ")}
          />
        </g>
      ))}
      {stops.map((stop) => (
        <g key={stop.from}>
          {stop.from > 0 && <line class="tank-stop" x1={x(stop.from)} x2={x(stop.from)} y1={y(most)} y2={y(0)} />}
          <text class="tank-text" x={x((stop.from + stop.to) / 2)} y={y(0) + TEXT_BELOW} text-anchor="middle">
            {stop.title}
          </text>
        </g>
      ))}
      <text class="tank-text" x={x(0)} y={y(most) - MARK}>
        {size === null ? amount(most) : `full: ${amount(size)}`}
      </text>
      {events.map((event) => (
        <EventMark key={`${event.kind} ${event.stop}`} event={event} x={x} y={y} most={most} />
      ))}
    </svg>
  );
}

interface MarkProps {
  readonly event: SupplyEvent;
  readonly x: (day: number) => number;
  readonly y: (level: number) => number;
  readonly most: number;
}

const TWO_THIRDS = 2 / 3;

function EventMark({ event, x, y, most }: MarkProps) {
  const day = event.day.expected ?? event.day.low ?? event.day.high;
  if (day === null) return null;
  const level = event.kind === "empty" ? 0 : event.kind === "full" ? most : most * TWO_THIRDS;
  const [cx, cy] = [x(day), y(level)];
  const tip = event.kind === "empty" ? MARK : -MARK;
  const near = cx > WIDTH - WORD ? -1 : 1;
  return (
    <g class="tank-event" data-event={event.kind}>
      <polygon points={`${cx},${cy} ${cx - MARK},${cy - tip * 1.6} ${cx + MARK},${cy - tip * 1.6}`} />
      <text class="tank-text" x={cx + near * (MARK + 2)} y={cy - tip} text-anchor={near > 0 ? "start" : "end"}>
        {event.kind === "two-thirds" ? "2/3" : event.kind}
      </text>
    </g>
  );
}
