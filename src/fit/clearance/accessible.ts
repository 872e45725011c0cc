/** Figures of the accessible-site rule (ABA outdoor developed areas, federal sites), each as a check of that rule alone. */
import data from "../../../data/separation-rules.json" with { type: "json" };
import type { CompletedSite } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Check } from "../answer.ts";
import type { Say } from "../say.ts";
import { TOUCH_TOLERANCE } from "../stance/tolerance.ts";
import { check, notApplicable, unknownCheck } from "./check.ts";
import { exactly, judge, total } from "./compare.ts";

const RULE = data.accessible;
const PAVED = ["asphalt", "concrete", "paved", "paving_stones", "chipseal"];

interface Spec {
  readonly id: string;
  readonly what: string;
  readonly source: string;
}

function source(part: { readonly source: string; readonly mark: string }): string {
  return `${RULE.name}: ${part.source} (${part.mark})`;
}

/** accessible.width: an RV space alone, or the narrower of two adjacent ones. Metres. */
export function accessibleWidth(width: Estimate | null, adjacentWidth: number | null, say: Say): Check {
  const id = "accessible.width";
  const init = { id, family: "may-not" as const, deciding: false, unit: "m" as const, source: source(RULE.width) };
  // Of two spaces side by side one may be narrower, provided that the other has the full width.
  const limit =
    adjacentWidth !== null && adjacentWidth >= RULE.width.alone - TOUCH_TOLERANCE
      ? RULE.width.adjacent
      : RULE.width.alone;
  if (width === null)
    return unknownCheck(
      { ...init, limit, why: `The pad's width is not on record; the rule asks for ${say.length(limit)}.` },
      "Measure the pad",
      "/site/properties/pad/width",
    );
  const judged = judge(total([{ of: width, times: 1 }], -limit));
  return check({
    ...init,
    status: judged,
    value: width.value,
    limit,
    least: true,
    why: `The pad is ${say.available(width.value)} wide; the rule asks for ${say.length(limit)}.`,
  });
}

/** accessible.slope: steepest slope of the pad; 1:48 paved, 1:33 unpaved. */
export function accessibleSlope(pad: CompletedSite["pad"], say: Say): Check {
  const { grade, crossfall, surface } = pad;
  const init = {
    id: "accessible.slope",
    family: "may-not" as const,
    deciding: false,
    unit: "ratio" as const,
    source: source(RULE.slope),
  };
  if (grade === null || crossfall === null) {
    const gone = grade === null ? "grade" : "crossfall";
    return unknownCheck(
      { ...init, why: `The pad's ${gone} is not on record.` },
      "Measure it",
      `/site/properties/pad/${gone}`,
    );
  }
  const steep = Math.hypot(grade.value, crossfall.value);
  const most = (estimate: Estimate): number => Math.max(Math.abs(estimate.low), Math.abs(estimate.high));
  const least = (estimate: Estimate): number =>
    estimate.low <= 0 && estimate.high >= 0 ? 0 : Math.min(Math.abs(estimate.low), Math.abs(estimate.high));
  const sigma = Math.hypot(grade.sigma, grade.sigmaShared, crossfall.sigma, crossfall.sigmaShared);
  const judgeAgainst = (limit: number) =>
    judge({
      value: limit - steep,
      low: limit - Math.hypot(most(grade), most(crossfall)),
      high: limit - Math.hypot(least(grade), least(crossfall)),
      sigma,
      doubt: grade.path,
    });
  const paved = surface === null ? null : PAVED.includes(surface.toLowerCase());
  const limit = paved === false ? RULE.slope.unpaved : RULE.slope.paved;
  let judged = judgeAgainst(limit);
  // With an unknown surface a slope between the two limits is not judged.
  if (paved === null && judged === "fail" && judgeAgainst(RULE.slope.unpaved) !== "fail") judged = "unknown";
  const kind = paved === null ? "surface not on record" : paved ? "paved" : "unpaved";
  const why = `The pad slopes ${say.slope(steep, "up")} at its steepest; the rule asks for at most ${say.slope(limit, "down")} (${kind}).`;
  return check({
    ...init,
    status: judged,
    value: steep,
    limit,
    why,
    ...(judged === "unknown" ? { change: "Record /site/properties/pad/surface and slopes." } : {}),
  });
}

function between(
  spec: Spec,
  height: Estimate | null,
  range: { readonly low: number; readonly high: number },
  path: string,
  say: Say,
): Check {
  const init = { id: spec.id, family: "may-not" as const, deciding: false, unit: "m" as const, source: spec.source };
  const asks = `the rule asks for ${say.fine(range.low)} to ${say.fine(range.high)} above ground`;
  if (height === null)
    return unknownCheck({ ...init, why: `${spec.what} has no height on record; ${asks}.` }, "Measure its height", path);
  const overLow = judge(total([{ of: height, times: 1 }], -range.low));
  const underHigh = judge(total([{ of: height, times: -1 }], range.high));
  const status = overLow === "fail" || underHigh === "fail" ? "fail" : overLow !== "pass" ? overLow : underHigh;
  const nearLow = Math.abs(height.value - range.low) < Math.abs(range.high - height.value);
  return check({
    ...init,
    status,
    value: height.value,
    limit: nearLow ? range.low : range.high,
    ...(nearLow ? { least: true as const } : {}),
    why: `${spec.what} is ${say.fine(height.value)} above ground; ${asks}.`,
  });
}

/** accessible.water: the spout's height. */
export function accessibleWater(height: Estimate | null, path: string, say: Say): Check {
  return between(
    { id: "accessible.water", what: "The water spout", source: source(RULE.spout) },
    height,
    RULE.spout,
    path,
    say,
  );
}

/** accessible.controls: an operable part's height; sewage hatches are exempt. */
export function accessibleControls(height: Estimate | null, path: string, sewageHatch: boolean, say: Say): Check {
  if (sewageHatch)
    return notApplicable(
      "accessible.controls",
      "Sewage hatches are exempt from the rule on operable parts.",
      source(RULE.operable),
    );
  return between(
    { id: "accessible.controls", what: "The operable part", source: source(RULE.operable) },
    height,
    RULE.operable,
    path,
    say,
  );
}

/** accessible.ground: clear ground at a hookup, its long and short side in metres. */
export function accessibleGround(long: number, short: number, say: Say): Check {
  const { clearGround } = RULE;
  const worstLong = long - clearGround.long < short - clearGround.short;
  const value = worstLong ? long : short;
  const limit = worstLong ? clearGround.long : clearGround.short;
  return check({
    id: "accessible.ground",
    family: "may-not",
    deciding: false,
    status: judge(exactly(value - limit)),
    value,
    limit,
    least: true,
    unit: "m",
    source: source(clearGround),
    why: `Clear ground of ${say.fine(long)} by ${say.fine(short)}; the rule asks for ${say.fine(clearGround.long)} by ${say.fine(clearGround.short)}.`,
  });
}

/** How many of so many RV units have to be accessible under the rule. */
export function accessibleUnits(units: number): number {
  if (units <= 0) return 0;
  const step = RULE.count.steps.find((one) => units <= one.upTo);
  if (step !== undefined) return step.accessible;
  const last = RULE.count.steps[RULE.count.steps.length - 1] as (typeof RULE.count.steps)[number];
  return last.accessible + Math.ceil((units - last.upTo) * RULE.count.beyondShare - TOUCH_TOLERANCE);
}

/** The accessible figures of a site; without a claim of being accessible each is "not applicable". */
export function accessibleChecks(site: CompletedSite, asked: boolean, say: Say): Check[] {
  if (site.accessible !== "yes" && !asked) {
    const why = "The site is not recorded as accessible and nobody asked.";
    return ["accessible.width", "accessible.slope", "accessible.water", "accessible.controls"].map((id) =>
      notApplicable(id, why),
    );
  }
  const water = site.hookups.filter((hookup) => hookup.service === "water");
  const power = site.hookups.filter((hookup) => hookup.service === "power");
  const none = (id: string, what: string): Check[] => [notApplicable(id, `The site has no ${what} on record.`)];
  return [
    accessibleWidth(site.pad.width, null, say),
    accessibleSlope(site.pad, say),
    ...(water.length === 0
      ? none("accessible.water", "water outlet")
      : water.map((one) => accessibleWater(one.height, `${one.path}/height`, say))),
    ...(power.length === 0
      ? none("accessible.controls", "receptacle")
      : power.map((one) => accessibleControls(one.height, `${one.path}/height`, false, say))),
  ];
}
