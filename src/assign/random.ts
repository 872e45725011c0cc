/** Random numbers from a seed (Mulberry32), so that one seed always gives one plan. */

const TWO_TO_32 = 4_294_967_296;
const STEP = 0x6d2b79f5;
const SHIFTS = { first: 15, second: 7, third: 14 } as const;
const ODD = 61;

export interface Random {
  /** From 0 up to, and without, 1. */
  readonly next: () => number;
  /** Whole number from 0 up to, and without, `below`. */
  readonly whole: (below: number) => number;
}

export function seededRandom(seed: number): Random {
  let state = seed | 0;
  const next = (): number => {
    state = (state + STEP) | 0;
    let mixed = Math.imul(state ^ (state >>> SHIFTS.first), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> SHIFTS.second), ODD | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> SHIFTS.third)) >>> 0) / TWO_TO_32;
  };
  return { next, whole: (below) => Math.floor(next() * below) };
}
