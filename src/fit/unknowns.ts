/** What to measure first, and by how much it would decide. */

import type { Estimate } from "../units/estimate.ts";
import type { Unknown } from "./answer.ts";
import type { Arrangement } from "./arrange.ts";
import type { LineReport } from "./lines/report.ts";
import type { Sensitivity } from "./uncertainty/certainty.ts";
import { valueWords } from "./value-words.ts";

/** An effect below this share of all effects decides nothing worth a walk with the tape. */
const LEAST_SHARE = 0.02;

/** Estimates that stand anywhere in a completed record. */
function estimatesIn(value: unknown, found = new Set<unknown>()): Set<unknown> {
  if (typeof value !== "object" || value === null) return found;
  if ("basis" in value && "sigma" in value) found.add(value);
  else for (const member of Object.values(value)) estimatesIn(member, found);
  return found;
}

function missing(arrangement: Arrangement): Unknown[] {
  const found: Unknown[] = [];
  for (const entry of arrangement.services) {
    const gap = entry.missing;
    if (gap?.kind !== "unknown" || entry.need === "ignored") continue;
    found.push({
      path: gap.path ?? `/site/properties/services/${entry.service}`,
      measure: gap.measure ?? gap.why,
      decides: [entry.service],
      weight: null,
    });
  }
  return found;
}

function drainGaps(arrangement: Arrangement): Unknown[] {
  const candidate = arrangement.chosen.find((one) => one.choice.service === "sewer");
  if (candidate === undefined) return [];
  const { choice } = candidate;
  const { pad } = arrangement.setup.site;
  const gaps: [boolean, string, string][] = [
    [
      choice.inletHeight === null,
      `/rig${choice.connection.path}/height`,
      "Measure the height of the rig's drain outlet above the ground",
    ],
    [
      choice.hookupHeight === null,
      `${choice.hookup.path}/height`,
      "Measure the height of the riser's rim above the ground",
    ],
    [pad.grade === null, "/site/properties/pad/grade", "Measure the pad's slope along it"],
    [pad.crossfall === null, "/site/properties/pad/crossfall", "Measure the pad's slope across it"],
  ];
  return gaps
    .filter(([gone]) => gone)
    .map(([, path, measure]) => ({ path, measure, decides: ["sewer"], weight: null }));
}

function padGaps(arrangement: Arrangement): Unknown[] {
  const { pad } = arrangement.setup.site;
  return (["length", "width"] as const)
    .filter((side) => pad[side] === null)
    .map((side) => ({
      path: `/site/properties/pad/${side}`,
      measure: `Measure the pad's ${side}`,
      decides: ["fit.stand"],
      weight: null,
    }));
}

function weighed(arrangement: Arrangement, report: LineReport): Unknown[] {
  const { lines } = report;
  const ofRig = estimatesIn(arrangement.setup.rig);
  // A rig is completed without knowing where it stands in a request; a site record carries its whole pointer.
  const pathOf = (estimate: Estimate) => `${ofRig.has(estimate) ? "/rig" : ""}${estimate.path}`;
  const certainty = report.served;
  if (certainty === null) return [];
  const effects = certainty.effects.filter((one) => Number.isFinite(one.effect));
  const squares = effects.reduce((sum, one) => sum + one.effect ** 2, 0);
  if (squares === 0) return [];
  const open = lines
    .filter((line) => line.verdict === "unknown" || line.verdict === "tight")
    .map((line) => line.service);
  const share = (one: Sensitivity) => one.effect ** 2 / squares;
  const places = [...arrangement.setup.rig.connections, ...arrangement.setup.site.hookups];
  return effects
    .filter((one) => share(one) >= LEAST_SHARE)
    .map((one) => ({
      path: pathOf(one.estimate),
      measure: `Measure ${valueWords(pathOf(one.estimate), places)}`,
      decides: open.length > 0 ? open : ["margin"],
      weight: share(one),
    }));
}

/** Gaps that bar an answer first, then uncertain values by their share of the decision. */
export function unknownsOf(arrangement: Arrangement, report: LineReport): Unknown[] {
  const all = [
    ...padGaps(arrangement),
    ...missing(arrangement),
    ...drainGaps(arrangement),
    ...weighed(arrangement, report),
  ];
  const seen = new Set<string>();
  return all.filter((one) => {
    if (seen.has(one.path)) return false;
    seen.add(one.path);
    return true;
  });
}
