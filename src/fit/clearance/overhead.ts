/** What hangs over the rig: branches and roofs above the pad, and the lowest thing on the way in. */

import clearances from "../../../data/clearances.json" with { type: "json" };
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite, SiteObstacle } from "../../site/completed.ts";
import type { Check } from "../answer.ts";
import type { Say } from "../say.ts";
import { valueWords } from "../value-words.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import { type Judgement, judgeWithComfort, total } from "./compare.ts";
import type { PlacedPart, PlacedRig } from "./placed.ts";
import { nearest } from "./polygon.ts";

const MARGIN = clearances.heightMargin;
/** Standard deviations of a branch's place within which it counts as perhaps above the rig (0.95). */
const QUANTILE = 1.6448536269514722;

/** height.access: the rig's own height against the least clear height on the way in, with the published margin. */
export function accessHeight(rig: CompletedRig, site: CompletedSite, say: Say): Check {
  const clear = site.access.clearHeight;
  const init = {
    id: "height.access",
    family: "cannot" as const,
    unit: "m" as const,
    source: `the site's record, /access/clearHeight; margin ${say.fine(MARGIN.value)} (${MARGIN.source})`,
  };
  if (clear === null) {
    const why = `The rig stands ${say.needed(rig.height.value)}; the least clear height on the way in is not on record. No federal limit of height exists that would promise it.`;
    return unknownCheck(
      { ...init, deciding: false, value: rig.height.value, why },
      "Ask for the lowest branch, wire or bridge on the way in",
      "/site/properties/access/clearHeight",
    );
  }
  const margin = total([{ of: rig.height, times: -1 }], clear);
  const judged = judgeWithComfort(margin, MARGIN.value);
  const why = `The rig stands ${say.needed(rig.height.value)}, the way in clears ${say.available(clear)}: ${roomWords(margin.value, say)}.`;
  return check({
    ...init,
    deciding: true,
    status: judged,
    value: rig.height.value,
    limit: clear,
    why,
    ...(judged === "pass"
      ? {}
      : {
          change:
            judged === "unknown"
              ? `Measure ${valueWords(margin.doubt ?? "/height")}.`
              : "Another way in, or have it measured on the spot.",
        }),
  });
}

function roomWords(margin: number, say: Say): string {
  if (margin < 0) return `${say.needed(-margin)} too low`;
  const tight = margin < MARGIN.value ? ", tight" : "";
  return `${say.available(margin)} spare${tight}`;
}

interface Over {
  readonly obstacle: SiteObstacle;
  readonly part: PlacedPart;
  readonly status: Judgement;
  readonly spare: number;
}

const WORST: readonly Judgement[] = ["fail", "unknown", "tight", "pass"];

/** A thing above one part of the rig; null when it is not above it, even with the error of its place. */
function above(placed: PlacedRig, part: PlacedPart, obstacle: SiteObstacle): Over | null {
  const { distance } = nearest(part.outline, obstacle.outline);
  const reach = QUANTILE * Math.hypot(obstacle.sigma, obstacle.sigmaShared);
  if (distance > reach) return null;
  // The body's height is the rig's own with its error; slides are lower and count as read.
  const terms = part.kind === "body" ? [{ of: placed.rig.height, times: -1 }] : [];
  const margin = total(terms, obstacle.from - (part.kind === "body" ? placed.raised : part.to));
  const judged = judgeWithComfort(margin, MARGIN.value);
  // What is only perhaps above it cannot be a certain no.
  const perhaps = distance > 0 && judged === "fail";
  return { obstacle, part, status: perhaps ? "unknown" : judged, spare: margin.value };
}

/**
 * height.overhead: everything on record that begins above the ground and lies over body or open slides at this
 * stance. Nothing on record is "not applicable", never a pass: nobody has looked.
 */
export function overhead(placed: PlacedRig, site: CompletedSite, say: Say): Check {
  const id = "height.overhead";
  const hanging = site.obstacles.filter((obstacle) => obstacle.from > 0 && obstacle.bars !== "line");
  const found = hanging.flatMap((obstacle) =>
    [placed.body, ...placed.slides].map((part) => above(placed, part, obstacle)).filter((over) => over !== null),
  );
  if (found.length === 0)
    return notApplicable(
      id,
      "No branch or roof on record lies over the rig at this stance; look up before pulling in.",
    );
  const worst = found.reduce((best, over) => {
    const rank = WORST.indexOf(over.status) - WORST.indexOf(best.status);
    return rank < 0 || (rank === 0 && over.spare < best.spare) ? over : best;
  });
  const { obstacle, part } = worst;
  const height = part.kind === "body" ? placed.rig.height.value + placed.raised : part.to;
  const lifted = placed.raised > 0 ? ` with ${say.fine(placed.raised, "up")} of levelling` : "";
  const perhaps = worst.status === "unknown" ? " Its place or a height is not known well enough." : "";
  return check({
    id,
    family: "cannot",
    deciding: true,
    status: worst.status,
    value: height,
    limit: obstacle.from,
    unit: "m",
    source: `the ${obstacle.what} on record (${obstacle.path}); margin ${say.fine(MARGIN.value)} (${MARGIN.source})`,
    why: `The ${obstacle.what} ${obstacle.id} hangs ${say.available(obstacle.from)} over the ${part.id}, which stands ${say.needed(height)}${lifted}: ${roomWords(worst.spare, say)}.${perhaps}`,
    ...(worst.status === "pass"
      ? {}
      : {
          change:
            worst.status === "unknown"
              ? `Measure ${valueWords(`${obstacle.path}/from`)}.`
              : "Stand clear of it, or have it cut.",
        }),
  });
}
