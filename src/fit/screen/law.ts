/** The reach law of one line at one hookup, from the columns: what the line may span on the ground. */
import { UNRECORDED_FALL } from "../lines/task.ts";
import { REQUIRED_SLOPE } from "../sewer/drain.ts";
import { longest } from "./columns-reading.ts";
import type { ScreenConnection, ScreenLine } from "./rig.ts";
import type { ScreenSites } from "./sites.ts";

/** Filled by `readLaw` and read by `marginOf`: one object for millions of lines. */
export interface LineLaw {
  budget: number;
  fall: number;
  /** Longest run that the required slope permits; Infinity where the fall cannot be judged and for dropped lines. */
  cap: number;
}

/** Reads the nominal law on level ground; false when the line may not be joined. */
export function readLaw(
  line: ScreenLine,
  connection: ScreenConnection,
  sites: ScreenSites,
  site: number,
  hookup: number,
  law: LineLaw,
): boolean {
  const laid = longest(line, connection.laid, sites, hookup, -1);
  if (laid < 0) return false;
  const recorded = sites.height[hookup] as number;
  if (line.service !== "sewer") {
    law.budget = laid - (Number.isNaN(recorded) ? line.usualHeight : recorded);
    law.fall = 0;
    law.cap = Infinity;
    return true;
  }
  law.budget = laid;
  const known = sites.slopeKnown[site] === 1 && !Number.isNaN(recorded) && !Number.isNaN(connection.outlet);
  law.fall = known ? connection.outlet - recorded : UNRECORDED_FALL;
  law.cap = known ? law.fall / REQUIRED_SLOPE : Infinity;
  return true;
}

/** Margin of a run of this length on the ground, metres. */
export function marginOf(law: LineLaw, run: number): number {
  const bridged = law.fall === 0 ? run : Math.sqrt(run * run + law.fall * law.fall);
  return Math.min(law.budget - bridged, law.cap - run);
}
