/**
 * Limits per caller, and the headers that tell of them: RateLimit-Policy and RateLimit as in the Internet-Draft
 * draft-ietf-httpapi-ratelimit-headers-10 (the names and that `t` counts until more is there read in the working
 * group's documents, the rest of the syntax from memory). The draft is no standard yet; the names may change with it.
 */
import { Problem } from "../problem.ts";
import { type RatePolicy, type Spending, spend, type WindowState } from "./window.ts";

/** Where the states are kept: in memory, or in what several processes share. */
export interface RateStore {
  /** Changes the state of a key in one step, and gives what the change gives. */
  change(key: string, change: (state: WindowState | null) => Spending): Promise<Spending>;
}

export interface RateLimiting {
  readonly policy: RatePolicy;
  readonly store: RateStore;
  /** Who asks: a token that is believed, or an address. */
  readonly keyOf: (request: Request) => Promise<string>;
}

const NAME = "default";

export class Meter {
  private spending: Spending | null = null;
  private readonly limiting: RateLimiting;
  private readonly request: Request;
  private readonly now: () => number;

  constructor(limiting: RateLimiting, request: Request, now: () => number) {
    this.limiting = limiting;
    this.request = request;
    this.now = now;
  }

  /** Throws a problem when the caller has used up what there is. */
  async take(units: number): Promise<void> {
    const { policy, store, keyOf } = this.limiting;
    const key = await keyOf(this.request);
    this.spending = await store.change(key, (state) => spend(state, this.now(), units, policy));
    if (this.spending.allowed) return;
    throw new Problem(
      "rate-limited",
      `More was asked than ${policy.quota} units in ${policy.window} seconds. Try again in ${this.spending.reset} seconds.`,
      [],
      { "Retry-After": String(this.spending.reset) },
    );
  }

  /** Empty before anything was taken. */
  headers(): Readonly<Record<string, string>> {
    const { policy } = this.limiting;
    if (this.spending === null) return {};
    return {
      "RateLimit-Policy": `"${NAME}";q=${policy.quota};w=${policy.window}`,
      RateLimit: `"${NAME}";r=${this.spending.remaining};t=${this.spending.reset}`,
    };
  }
}

/** Callers that are remembered in memory; of more, the one that was away longest begins anew. */
const CALLERS = 100_000;

export function memoryRates(most: number = CALLERS): RateStore {
  const states = new Map<string, WindowState>();
  return {
    change: async (key, change) => {
      const spending = change(states.get(key) ?? null);
      states.delete(key);
      states.set(key, spending.state);
      if (states.size > most) {
        const [oldest] = states.keys();
        if (oldest !== undefined) states.delete(oldest);
      }
      return spending;
    },
  };
}
