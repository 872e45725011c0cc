/** Lays out the network of a survey: which marks can be solved, and what their unknowns are. */
import type { SurveyInput } from "./input.ts";
import type { Coordinate, Held, Mark, Network, Tape } from "./network.ts";

export interface NetworkPlan {
  readonly network: Network;
  /** Marks whose place is wanted. */
  readonly free: readonly Mark[];
  /** Place of the pad's length and width among the unknowns; null when no tape and no record speaks of them. */
  readonly length: number | null;
  readonly width: number | null;
  readonly undetermined: readonly string[];
}

export const CORNERS = ["rear-left", "rear-right", "exit-left", "exit-right"] as const;
export const WHEEL_STOP = "wheel-stop";
const CORNER_SET: ReadonlySet<string> = new Set(CORNERS);

/** Marks of one survey; those named later are not solved. The work grows with the cube. */
const MOST_MARKS = 24;

/** Metres below which a tape shows no direction between its marks and is of no use. */
const SHORTEST_TAPE = 0.01;

/** Tapes that fix a free mark: two, and one for the wheel stop, which lies on the axis. */
function needed(id: string): number {
  return id === WHEEL_STOP ? 1 : 2;
}

/** @param leftOut Marks that proved undetermined; they and their tapes are left out. */
export function buildNetwork(input: SurveyInput, tapeAccuracy: number, leftOut: ReadonlySet<string>): NetworkPlan {
  const all = input.measurements.map(
    ({ from, to, distance, accuracy }, index): Tape => ({
      from,
      to,
      distance,
      sigma: accuracy === undefined || accuracy === 0 ? tapeAccuracy : accuracy,
      index,
    }),
  );
  const names = [...new Set(all.flatMap(({ from, to }) => [from, to]))];
  const usable = new Set(names.filter((name) => !leftOut.has(name)).slice(0, MOST_MARKS));
  const tapes = solvable(
    all.filter(
      ({ from, to, distance }) => from !== to && distance > SHORTEST_TAPE && usable.has(from) && usable.has(to),
    ),
  );
  const used = new Set(tapes.flatMap(({ from, to }) => [from, to]));
  const needsLength = used.has("exit-left") || used.has("exit-right");
  const needsWidth = CORNERS.some((corner) => used.has(corner));
  let count = 0;
  const length = needsLength || input.length !== null ? count++ : null;
  const width = needsWidth || input.width !== null ? count++ : null;
  const marks = new Map<string, Mark>();
  for (const corner of CORNERS) {
    if (width === null || (corner.startsWith("exit") && length === null)) continue;
    const along: Coordinate = corner.startsWith("exit") ? { unknown: length as number, factor: 1 } : { fixed: 0 };
    marks.set(corner, {
      id: corner,
      along,
      left: { unknown: width, factor: corner.endsWith("left") ? 1 / 2 : -1 / 2 },
    });
  }
  const free: Mark[] = [];
  for (const id of used) {
    if (CORNER_SET.has(id)) continue;
    const along: Coordinate = { unknown: count++, factor: 1 };
    const left: Coordinate = id === WHEEL_STOP ? { fixed: 0 } : { unknown: count++, factor: 1 };
    const mark = { id, along, left };
    marks.set(id, mark);
    free.push(mark);
  }
  const undetermined = names.filter((name) => !marks.has(name) && !CORNER_SET.has(name));
  const held: Held[] = [];
  if (length !== null && input.length !== null) held.push({ unknown: length, ...input.length });
  if (width !== null && input.width !== null) held.push({ unknown: width, ...input.width });
  return { network: { marks, tapes, held, unknowns: count }, free, length, width, undetermined };
}

/** Drops marks that too few tapes reach, again and again, since each takes its tapes with it. */
function solvable(all: readonly Tape[]): readonly Tape[] {
  let tapes = all;
  for (;;) {
    const partners = new Map<string, Set<string>>();
    for (const { from, to } of tapes) {
      for (const [id, other] of [
        [from, to],
        [to, from],
      ] as const) {
        if (!CORNER_SET.has(id)) partners.set(id, (partners.get(id) ?? new Set()).add(other));
      }
    }
    const poor = [...partners].filter(([id, others]) => others.size < needed(id)).map(([id]) => id);
    if (poor.length === 0) return tapes;
    const gone = new Set(poor);
    tapes = tapes.filter(({ from, to }) => !gone.has(from) && !gone.has(to));
  }
}
