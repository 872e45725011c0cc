/** Stops asking a host that keeps failing, for a while; then lets one question through. */

export interface CircuitOptions {
  /** Failures in a row after which the host is left alone. */
  readonly failures: number;
  /** Milliseconds that it is left alone. */
  readonly rest: number;
}

export class Circuit {
  readonly #options: CircuitOptions;
  #failed = 0;
  #openedAt = Number.NEGATIVE_INFINITY;

  constructor(options: CircuitOptions) {
    this.#options = options;
  }

  /** May the host be asked now? After the rest one question is let through, and the rest starts anew. */
  allows(now: number): boolean {
    if (this.#failed < this.#options.failures) return true;
    if (now - this.#openedAt < this.#options.rest) return false;
    this.#openedAt = now;
    return true;
  }

  succeeded(): void {
    this.#failed = 0;
  }

  failed(now: number): void {
    this.#failed += 1;
    if (this.#failed >= this.#options.failures) this.#openedAt = now;
  }
}
