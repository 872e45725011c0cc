/** What an obstacle of each word bars: the rig with its slides and awning, a line on the ground, or both. */

/** Places on which a rig may stand or drive, but over which no hose or cord is laid. */
const BARS_LINES: ReadonlySet<string> = new Set([
  "road",
  "walkway",
  "path",
  "footpath",
  "sidewalk",
  "site",
  "driveway",
]);
/** Things overhead, which a line on the ground passes beneath whether or not their lower edge is known. */
const BARS_RIG: ReadonlySet<string> = new Set(["branch", "wire", "pedestal", "riser", "device"]);

export function barsOf(what: string): "rig" | "line" | "both" {
  const word = what.toLowerCase();
  if (BARS_LINES.has(word)) return "line";
  return BARS_RIG.has(word) ? "rig" : "both";
}
