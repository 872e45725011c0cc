/** The check of a way in and out that was worked out. */
import type { Check, CheckStatus } from "../answer.ts";
import { check } from "../clearance/check.ts";
import type { ManoeuvreAnswer } from "./answer.ts";
import { LIMITS } from "./trains.ts";

function statusOf(answer: ManoeuvreAnswer, least: number | null): CheckStatus {
  switch (answer.status) {
    case "ok in one move":
      return least !== null && least < LIMITS.comfort ? "tight" : "pass";
    case "needs a shunt":
      return "tight";
    case "cannot":
      return "fail";
    case "unknown":
      return "unknown";
  }
}

function changeOf(answer: ManoeuvreAnswer, status: CheckStatus): string | null {
  const { measure } = answer;
  if (status === "unknown") return measure.length === 0 ? "Ask the host." : `Measure ${measure.join(", ")}.`;
  if (status === "fail") return "Another site.";
  return status === "tight" ? "A spotter and several moves, or another site." : null;
}

export function judgedCheck(id: string, answer: ManoeuvreAnswer): Check {
  const margins = [answer.in.margin, answer.out.margin].filter((margin) => margin !== null);
  const least = answer.status === "ok in one move" && margins.length > 0 ? Math.min(...margins) : null;
  const status = statusOf(answer, least);
  const change = changeOf(answer, status);
  return check({
    id,
    family: status === "fail" ? "cannot" : "risk",
    deciding: false,
    status,
    value: least,
    limit: least === null ? null : LIMITS.comfort,
    least: true,
    unit: "m",
    source: answer.source,
    why: answer.why,
    ...(change === null ? {} : { change }),
  });
}
