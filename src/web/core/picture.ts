/** The pictures of an answer. */
import { drawPlan, drawPlanKey, type PlanFrame, type PlanOptions, planFrame } from "../../draw/plan.ts";
import type { Fit } from "../../fit/answer.ts";

/** The page says title and cautions itself and folds the key away. */
const plain = (widthPx: number): PlanOptions => ({ widthPx, title: false, cautions: false, key: false });

/** The frame of the last answer: a rig that is dragged asks for it many times. */
let last: { readonly answer: Fit; readonly widthPx: number; readonly frame: PlanFrame | null } | null = null;

function frameFor(answer: Fit, widthPx: number): PlanFrame | null {
  if (last === null || last.answer !== answer || last.widthPx !== widthPx) {
    last = { answer, widthPx, frame: planFrame(answer, plain(widthPx)) };
  }
  return last.frame;
}

/** The plan in the frame of the answer's own plan, so that a rig that is moved does not move the ground. */
export function picture(drawn: Fit, answer: Fit, widthPx: number): { readonly plan: string } {
  const options = plain(widthPx);
  const frame = frameFor(answer, widthPx);
  const ghost = drawn === answer ? undefined : answer.scene.rig?.body;
  const plan = drawPlan(drawn, {
    ...options,
    ...(frame === null ? {} : { frame }),
    ...(ghost === undefined ? {} : { ghost }),
  });
  return { plan };
}

export const key = (fit: Fit, widthPx: number): string => drawPlanKey(fit, plain(widthPx));
