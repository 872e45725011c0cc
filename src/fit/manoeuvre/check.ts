/** Getting in and out as one check of the answer. It never decides: a search that finds no move proves no no. */
import type { Check } from "../answer.ts";
import { notApplicable } from "../clearance/check.ts";
import type { ManoeuvreAnswer } from "./answer.ts";
import { judgedCheck } from "./judged.ts";

const ID = "manoeuvre";

/** `asked`: false in a summary, which does not work it out. */
export function manoeuvreCheck(answer: ManoeuvreAnswer | null, asked: boolean): Check {
  if (answer !== null) return judgedCheck(ID, answer);
  return notApplicable(ID, asked ? "No stance to drive to." : "Worked out in the full answer only.");
}
