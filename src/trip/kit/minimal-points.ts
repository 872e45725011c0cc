/**
 * Every smallest point of a grid at which a monotone question is answered yes. Of the points that no answer decides
 * yet one is asked; a yes is lowered to a smallest yes, a no is raised to a largest no, and what lies above the one
 * and below the other needs no question any more. So few questions are asked, and all smallest points are found.
 */

export type GridPoint = readonly number[];

export interface MinimalPoints {
  readonly points: readonly GridPoint[];
  /** False when questions ran out before every point was decided: then a smaller point may exist. */
  readonly complete: boolean;
}

const below = (a: GridPoint, b: GridPoint): boolean => a.every((value, index) => value <= (b[index] ?? 0));

/**
 * @param sizes Number of steps of each axis; coordinates run from 0 to one less.
 * @param holds Monotone: a yes stays a yes when a coordinate grows. No new seed is asked after `most` questions.
 * @param guess Where a smallest point probably lies; a good guess saves questions, a bad one costs some.
 */
export function minimalPoints(
  sizes: readonly number[],
  holds: (point: GridPoint) => boolean,
  most: number,
  guess: GridPoint | null = null,
): MinimalPoints {
  const yes: GridPoint[] = [];
  const no: GridPoint[] = [];
  let asked = 0;
  const ask = (point: GridPoint): boolean => {
    if (yes.some((known) => below(known, point))) return true;
    if (no.some((known) => below(point, known))) return false;
    asked += 1;
    const answer = holds(point);
    (answer ? yes : no).push([...point]);
    return answer;
  };
  if (guess !== null && ask(guess)) {
    // Once every coordinate is known to be as low as it goes even beside the largest others, nothing is left to lower.
    for (const [axis, value] of guess.entries())
      if (value > 0) ask(sizes.map((size) => size - 1).with(axis, value - 1));
    lower(guess, ask);
  }
  for (let seed = firstOpen(sizes, yes, no); seed !== null; seed = firstOpen(sizes, yes, no)) {
    if (asked >= most) return { points: smallestOf(yes), complete: false };
    if (ask(seed)) lower(seed, ask);
    else raise(seed, sizes, ask);
  }
  return { points: smallestOf(yes), complete: true };
}

/** The largest point first, so that a question which nothing answers costs one asking. */
function firstOpen(sizes: readonly number[], yes: readonly GridPoint[], no: readonly GridPoint[]): GridPoint | null {
  const point = sizes.map((size) => size - 1);
  for (;;) {
    if (!yes.some((known) => below(known, point)) && !no.some((known) => below(point, known))) return [...point];
    let axis = 0;
    while (axis < sizes.length && point[axis] === 0) {
      point[axis] = (sizes[axis] ?? 1) - 1;
      axis += 1;
    }
    if (axis === sizes.length) return null;
    point[axis] = (point[axis] ?? 0) - 1;
  }
}

type Ask = (point: GridPoint) => boolean;

/** Each coordinate in turn as low as it goes: one step, then all the way, then by halving. */
function lower(start: GridPoint, ask: Ask): void {
  const point = [...start];
  for (const axis of point.keys()) {
    const at = point[axis] ?? 0;
    if (at === 0 || !ask(point.with(axis, at - 1))) continue;
    let [low, high] = [1, at - 1];
    if (high > 0 && ask(point.with(axis, 0))) high = 0;
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (ask(point.with(axis, middle))) high = middle;
      else low = middle + 1;
    }
    point[axis] = high;
  }
}

/** Each coordinate in turn as high as the answer stays no: all the way, else by halving. */
function raise(start: GridPoint, sizes: readonly number[], ask: Ask): void {
  const point = [...start];
  for (const axis of point.keys()) {
    let [low, high] = [point[axis] ?? 0, (sizes[axis] ?? 1) - 1];
    if (low < high && !ask(point.with(axis, high))) low = high;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (ask(point.with(axis, middle))) high = middle - 1;
      else low = middle;
    }
    point[axis] = low;
  }
}

function smallestOf(points: readonly GridPoint[]): GridPoint[] {
  return points.filter(
    (point, index) => !points.some((other, place) => place !== index && below(other, point) && !below(point, other)),
  );
}
