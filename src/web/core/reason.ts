/** A row of the ranked list from an answer: the deciding reason in words, and the line with the least margin. */
import type { Fit } from "../../fit/answer.ts";
import { PRECEDENCE, verdictRank } from "../../fit/verdict.ts";
import type { SiteRow } from "./protocol.ts";

/** More than the services that a rig can have, so that no number of lines outweighs a verdict. */
const VERDICT_WEIGHT = 10;

/** The first deciding check that made the verdict; for a yes what it takes and what of the wanted is not served. */
export function reasonOf(fit: Fit): string {
  const status = PRECEDENCE.find((one) => one.verdict === fit.verdict)?.status;
  const made = fit.checks.filter((check) => check.deciding && check.status === status).map((check) => check.why);
  if (fit.verdict !== "fits" && fit.verdict !== "fits with kit") return made[0] ?? fit.headline;
  const kit = [...new Set(fit.kit.map((entry) => `${entry.description} (${entry.where})`))];
  const lacking = fit.lines
    .filter((line) => line.need === "wanted" && ["short", "tight", "unknown", "absent"].includes(line.verdict))
    .map((line) => `${line.service} ${line.verdict === "absent" ? "not there" : line.verdict}`);
  const parts = [
    ...(kit.length > 0 ? [`With ${kit.join(", ")}`] : []),
    ...(lacking.length > 0 ? [`Not served: ${lacking.join(", ")}`] : []),
  ];
  return parts.length === 0 ? "Everything that is asked for is served." : `${parts.join(". ")}.`;
}

function worstOf(fit: Fit): SiteRow["worst"] {
  const joined = fit.lines.flatMap(({ service, margin, need }) =>
    margin === null || need === "ignored" || !Number.isFinite(margin) ? [] : [{ service, margin }],
  );
  return joined.length === 0 ? null : joined.reduce((least, one) => (one.margin < least.margin ? one : least));
}

export function rowOf(fit: Fit): SiteRow {
  return {
    id: fit.site.id,
    name: fit.site.name,
    verdict: fit.verdict,
    reason: reasonOf(fit),
    headline: fit.headline,
    worst: worstOf(fit),
    bestMargin: fit.bestMargin,
    probability: fit.probability ?? null,
    lines: fit.lines.map(({ service, need, verdict, margin }) => ({ service, need, verdict, margin })),
    mating: fit.power.mating,
    kit: fit.kit.map(({ description, where }) => ({ description, where })),
    rank: verdictRank(fit.verdict) * VERDICT_WEIGHT + fit.lines.filter((line) => line.verdict === "reaches").length,
  };
}
