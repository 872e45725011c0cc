/**
 * How much a caller may ask: so many units in a window of time that begins with the caller's first request. Pure: the
 * clock and the keeping of states are the caller's.
 */

export interface RatePolicy {
  /** Units in one window. */
  readonly quota: number;
  /** Seconds. */
  readonly window: number;
}

export interface WindowState {
  /** When the window began, milliseconds since 1970. */
  readonly start: number;
  readonly used: number;
}

export interface Spending {
  readonly allowed: boolean;
  /** Units left in this window. */
  readonly remaining: number;
  /** Seconds until the whole quota is there again, at least 1. */
  readonly reset: number;
  readonly state: WindowState;
}

const MILLISECONDS = 1000;

/** Takes `cost` units if they are there, else none. A cost above the quota counts as the quota. */
export function spend(before: WindowState | null, now: number, cost: number, policy: RatePolicy): Spending {
  const length = policy.window * MILLISECONDS;
  // A clock that was set back must not lock anybody out.
  const running = before !== null && now >= before.start && now < before.start + length;
  const here: WindowState = running ? before : { start: now, used: 0 };
  const wanted = Math.min(cost, policy.quota);
  const allowed = here.used + wanted <= policy.quota;
  const state = allowed ? { start: here.start, used: here.used + wanted } : here;
  const reset = Math.max(1, Math.ceil((state.start + length - now) / MILLISECONDS));
  return { allowed, remaining: policy.quota - state.used, reset, state };
}
