/** A small seeded generator of numbers, so that every case can be made again from its seed. */
export interface Random {
  /** A number in [0, 1). */
  readonly next: () => number;
  readonly between: (low: number, high: number) => number;
  /** A whole number from low to high, both included. */
  readonly whole: (low: number, high: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(from: readonly [T, ...T[]]) => T;
}

/** Mulberry32 (Tommy Ettinger, public domain; from memory): 32 bits of state, period 2^32. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number): number => low + (high - low) * next();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  return {
    next,
    between,
    whole,
    chance: (probability) => next() < probability,
    pick: (from) => from[whole(0, from.length - 1)] ?? from[0],
  };
}
