/** Which services a card may tell people to join, and what bars the others: from fields, in no language. */
import type { AnswerLine, Check, Fit } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";

/** What keeps a service off. */
export type Bar =
  | { readonly kind: "line"; readonly line: AnswerLine }
  | { readonly kind: "check"; readonly check: Check }
  | { readonly kind: "mating" | "drop" | "drain" };

const JOINED_MATINGS: readonly Fit["power"]["mating"][] = ["direct", "adapter", "adapter with caution"];
const DRAINING: readonly Fit["sewer"]["status"][] = ["drains", "marginal", "fall not checked"];

/** A line that reaches counts, and one that is tight only while nothing is missing. */
function lineHolds(line: AnswerLine): boolean {
  if (line.verdict === "reaches") return true;
  return line.verdict === "tight" && line.margin !== null && line.margin >= 0;
}

function barOf(fit: Fit, line: AnswerLine): Bar | null {
  if (!lineHolds(line)) return { kind: "line", line };
  const failed = fit.checks.find((check) => check.id.startsWith(`${line.service}.`) && check.status === "fail");
  if (failed !== undefined) return { kind: "check", check: failed };
  if (line.service === "power") {
    if (!JOINED_MATINGS.includes(fit.power.mating)) return { kind: "mating" };
    if (fit.power.drop?.status === "stop") return { kind: "drop" };
  }
  if (line.service === "sewer" && !DRAINING.includes(fit.sewer.status)) return { kind: "drain" };
  return null;
}

export const isAsked = ({ need, verdict }: AnswerLine): boolean =>
  need !== "ignored" && verdict !== "not needed" && verdict !== "absent";

/** Services that the steps join. */
export function servedBy(fit: Fit): ReadonlySet<Service> {
  return new Set(fit.lines.filter((line) => isAsked(line) && barOf(fit, line) === null).map((line) => line.service));
}

/** Services that are there and wanted and stay off all the same, each with what bars it. */
export function notServedBy(fit: Fit): { readonly service: Service; readonly bar: Bar }[] {
  return fit.lines.filter(isAsked).flatMap((line) => {
    const bar = barOf(fit, line);
    return bar === null ? [] : [{ service: line.service, bar }];
  });
}

/** Steps only for a rig that stands here and whose every required line may be joined. */
export function mayApprove(fit: Fit): boolean {
  if (fit.verdict === "does not fit" || fit.verdict === "unknown" || fit.stance === null) return false;
  const served = servedBy(fit);
  return fit.lines.every(({ need, service }) => need !== "required" || served.has(service));
}
