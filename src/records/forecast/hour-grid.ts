/** Values given for stretches of time, laid on whole hours of UTC. */
import type { Interval } from "./interval.ts";
import { ForecastRefusal } from "./refusal.ts";

export const MILLISECONDS_PER_HOUR = 3_600_000;
/** No feed looks further ahead than sixteen days; more is no forecast. */
const MOST_HOURS = 480;

/** All values that touch each hour, by the hour's start. */
export class HourGrid<Value> {
  readonly #hours = new Map<number, Value[]>();

  add(interval: Interval, value: Value): void {
    const first = Math.floor(interval.start / MILLISECONDS_PER_HOUR);
    const end = Math.ceil(interval.end / MILLISECONDS_PER_HOUR);
    if (end - first > MOST_HOURS) throw tooLong();
    for (let hour = first; hour < end; hour += 1) {
      const start = hour * MILLISECONDS_PER_HOUR;
      const values = this.#hours.get(start);
      if (values === undefined) this.#hours.set(start, [value]);
      else values.push(value);
    }
    if (this.#hours.size > MOST_HOURS) throw tooLong();
  }

  at(start: number): readonly Value[] {
    return this.#hours.get(start) ?? [];
  }

  starts(): readonly number[] {
    return [...this.#hours.keys()];
  }
}

function tooLong(): ForecastRefusal {
  return new ForecastRefusal("implausible", `The forecast claims to hold more than ${MOST_HOURS} hours.`);
}
