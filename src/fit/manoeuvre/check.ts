/** Getting in and out as one check of the answer. It never decides: a search that finds no move proves no no. */
import type { Check, CheckStatus } from "../answer.ts";
import { check, notApplicable } from "../clearance/check.ts";
import type { ManoeuvreAnswer } from "./answer.ts";
import { LIMITS } from "./trains.ts";

const ID = "manoeuvre";

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

/** `asked`: false in a summary, which does not work it out. */
export function manoeuvreCheck(answer: ManoeuvreAnswer | null, asked: boolean): Check {
  if (answer === null) {
    return notApplicable(ID, asked ? "No stance to drive to." : "Worked out in the full answer only.");
  }
  const margins = [answer.in.margin, answer.out.margin].filter((margin) => margin !== null);
  const least = answer.status === "ok in one move" && margins.length > 0 ? Math.min(...margins) : null;
  const status = statusOf(answer, least);
  const change = changeOf(answer, status);
  return check({
    id: ID,
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
