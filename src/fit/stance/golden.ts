const GOLDEN = (Math.sqrt(5) - 1) / 2;
const GOLDEN_STEPS = 70;

/** Least value of a convex function on [low, high], to the last digits that its rounding lets through. */
export function goldenSection(
  value: (t: number) => number,
  low: number,
  high: number,
): { readonly at: number; readonly value: number } {
  let a = low;
  let d = high;
  let b = d - GOLDEN * (d - a);
  let c = a + GOLDEN * (d - a);
  let atB = value(b);
  let atC = value(c);
  for (let step = 0; step < GOLDEN_STEPS && d - a > 1e-12; step++) {
    if (atB <= atC) {
      d = c;
      c = b;
      atC = atB;
      b = d - GOLDEN * (d - a);
      atB = value(b);
    } else {
      a = b;
      b = c;
      atB = atC;
      c = a + GOLDEN * (d - a);
      atC = value(c);
    }
  }
  // The ends themselves are tried too: the least value of a slope lies there.
  const ends = [
    { at: low, value: value(low) },
    { at: high, value: value(high) },
    { at: b, value: atB },
    { at: c, value: atC },
  ];
  return ends.reduce((best, end) => (end.value < best.value ? end : best));
}
