/**
 * A convex function touched from below: its value at a place, its slope along the search, and its slopes along two
 * other directions, which are carried so that the least value can itself be touched from below.
 */
export interface Touch {
  readonly value: number;
  readonly slope: number;
  readonly sideSlope: number;
  readonly markSlope: number;
}

/** The least value of a convex function on a range. */
export interface LeastTouch {
  readonly at: number;
  readonly value: number;
  /** The plane below the function through its least value, within `PRECISION`. */
  readonly floor: number;
  readonly sideSlope: number;
  readonly markSlope: number;
  /** The slope at the end of the range when the least value lies there; 0 inside. */
  readonly endSlope: number;
}

const PRECISION = 1e-12;
const MOST_STEPS = 80;

/**
 * Minimises a convex function by its tangents: between a falling and a rising tangent the least value cannot be below
 * where they meet. That meeting point finds a kink at once; the root of the slopes finds the bottom of a smooth bowl;
 * they take turns, and halving keeps them honest.
 */
export function leastTouch(low: number, high: number, touchAt: (t: number) => Touch): LeastTouch {
  let a = low;
  let left = touchAt(a);
  if (left.slope >= 0 || low === high) return atEnd(a, left);
  let b = high;
  let right = touchAt(b);
  if (right.slope <= 0) return atEnd(b, right);
  let width = b - a;
  for (let step = 0; ; step++) {
    const meeting = (right.value - left.value + a * left.slope - b * right.slope) / (left.slope - right.slope);
    const floor = left.value + left.slope * (meeting - a);
    const leftLower = left.value <= right.value;
    const value = leftLower ? left.value : right.value;
    if (value - floor <= PRECISION || step === MOST_STEPS) {
      const weight = right.slope / (right.slope - left.slope);
      return {
        at: leftLower ? a : b,
        value,
        floor,
        sideSlope: weight * left.sideSlope + (1 - weight) * right.sideSlope,
        markSlope: weight * left.markSlope + (1 - weight) * right.markSlope,
        endSlope: 0,
      };
    }
    let next = meeting;
    if (step % 3 === 1) next = a - (left.slope * (b - a)) / (right.slope - left.slope);
    else if (step % 3 === 2) {
      if (b - a > width / 2) next = (a + b) / 2;
      width = b - a;
    }
    if (!(next > a && next < b)) next = (a + b) / 2;
    const touch = touchAt(next);
    if (touch.slope < 0) {
      a = next;
      left = touch;
    } else if (touch.slope > 0) {
      b = next;
      right = touch;
    } else return { ...atEnd(next, touch), endSlope: 0 };
  }
}

function atEnd(at: number, touch: Touch): LeastTouch {
  const { value, slope, sideSlope, markSlope } = touch;
  return { at, value, floor: value, sideSlope, markSlope, endSlope: slope };
}
