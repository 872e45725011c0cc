/** Which services a card may tell people to join, and why the others stay off. */
import type { AnswerLine, Fit } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";

export interface Refusal {
  readonly service: Service;
  readonly why: string;
}

const JOINED_MATINGS: readonly Fit["power"]["mating"][] = ["direct", "adapter", "adapter with caution"];
const DRAINING: readonly Fit["sewer"]["status"][] = ["drains", "marginal", "fall not checked"];

/** A line that reaches counts, and one that is tight only while nothing is missing. */
function lineHolds(line: AnswerLine): boolean {
  if (line.verdict === "reaches") return true;
  return line.verdict === "tight" && line.margin !== null && line.margin >= 0;
}

function barred(fit: Fit, line: AnswerLine): string | null {
  if (!lineHolds(line)) return line.why;
  const failed = fit.checks.find((check) => check.id.startsWith(`${line.service}.`) && check.status === "fail");
  if (failed !== undefined) return failed.why;
  if (line.service === "power") {
    if (!JOINED_MATINGS.includes(fit.power.mating)) return fit.power.why;
    if (fit.power.drop?.status === "stop") return fit.power.drop.why;
  }
  if (line.service === "sewer" && !DRAINING.includes(fit.sewer.status)) return fit.sewer.why;
  return null;
}

const asked = ({ need, verdict }: AnswerLine): boolean =>
  need !== "ignored" && verdict !== "not needed" && verdict !== "absent";

/** Services that the steps join. */
export function servedBy(fit: Fit): ReadonlySet<Service> {
  return new Set(fit.lines.filter((line) => asked(line) && barred(fit, line) === null).map((line) => line.service));
}

/** Services that are there and wanted and stay off all the same, each with its reason. */
export function notServedBy(fit: Fit): Refusal[] {
  return fit.lines.filter(asked).flatMap((line) => {
    const why = barred(fit, line);
    return why === null ? [] : [{ service: line.service, why }];
  });
}
