/** A bounded queue: so many jobs run at once, so many wait, the next is refused. */
import { Problem } from "../problem.ts";

const RUNNING = 1;
const WAITING = 4;
const RETRY_SECONDS = "30";

export class JobQueue {
  #running = 0;
  readonly #waiting: (() => void)[] = [];

  /** Waits for a turn; refuses when too many wait. The job must call what it gets when it is over. */
  async enter(): Promise<() => void> {
    if (this.#running >= RUNNING) {
      if (this.#waiting.length >= WAITING) {
        throw new Problem("too-many-jobs", `${WAITING} searches wait already. Try again later.`, [], {
          "Retry-After": RETRY_SECONDS,
        });
      }
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
    } else {
      this.#running++;
    }
    let isOver = false;
    return () => {
      if (isOver) return;
      isOver = true;
      const next = this.#waiting.shift();
      if (next === undefined) this.#running--;
      else next();
    };
  }
}
