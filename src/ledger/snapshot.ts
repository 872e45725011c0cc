/** Everything that decides an assignment, read at one moment. */
import { type Closure, listClosures } from "./closures.ts";
import { type Hold, listHolds } from "./holds.ts";
import type { Ledger } from "./ledger.ts";
import { planVersion } from "./plan-number.ts";
import { recordVersion } from "./records.ts";
import { currentStays, type Stay } from "./stays.ts";

export interface Snapshot {
  /** Version of the campground record to read the sites from. */
  readonly recordVersion: number;
  /** Number of the plan that `places` of the stays make up: send it back when a plan made from this is accepted. */
  readonly planVersion: number;
  /** Local date of the campground. */
  readonly today: string;
  /** Stays that are not over and not cancelled, with their places and locks. */
  readonly stays: readonly Stay[];
  readonly holds: readonly Hold[];
  readonly closures: readonly Closure[];
}

/** Null when the ledger does not hold the campground. */
export function snapshot(ledger: Ledger, campground: string, today: string): Snapshot | null {
  return ledger.sql.transaction(() => {
    const version = recordVersion(ledger, campground);
    if (version === null) return null;
    return {
      recordVersion: version,
      planVersion: planVersion(ledger, campground),
      today,
      stays: currentStays(ledger, campground, today),
      holds: listHolds(ledger, campground, today),
      closures: listClosures(ledger, campground, today),
    };
  });
}
