/** What the plan on the card says, by the label of the plan; a label that is not named stays off it. */
import type { AnswerLine, Fit } from "../../fit/answer.ts";
import type { Card } from "./card.ts";
import { amount, type Speaker } from "./messages.ts";
import { serviceName } from "./names.ts";
import { isAsked } from "./served.ts";

type PlanLabels = Card["planLabels"];

function marginWords({ needed, margin }: AnswerLine, speaker: Speaker): string {
  if (needed === Number.POSITIVE_INFINITY) return speaker.say("line.none");
  if (margin === null || !Number.isFinite(margin)) return speaker.say("line.open");
  return margin < 0
    ? speaker.say("line.short", { missing: amount("length", -margin, "up") })
    : speaker.say("line.spare", { margin: amount("length", margin, "down") });
}

function stopLabels({ stance, window }: Fit, speaker: Speaker): PlanLabels {
  if (stance === null) return {};
  const best = { stance: [speaker.print(amount("length", stance.along))] };
  if (window === null) return best;
  const { from, to } = window.along;
  const range = { from: amount("length", from, "up"), to: amount("length", to, "down") };
  return { ...best, window: [speaker.say("plan.here"), speaker.say("plan.range", range)] };
}

/** @param approves False takes out where to stop. */
export function planLabels(fit: Fit, approves: boolean, speaker: Speaker): PlanLabels {
  const lines = fit.lines
    .filter(isAsked)
    .map((line) => [`line:${line.service}`, [serviceName(line.service, speaker), marginWords(line, speaker)]] as const);
  // A hookup that a line ends at is named by the line.
  const bare = fit.scene.hookups.filter(({ service }) => !lines.some(([key]) => key === `line:${service}`));
  const hookups = bare.map(({ id, service }) => [`hookup:${id}`, [serviceName(service, speaker)]] as const);
  return {
    exit: [speaker.say("plan.exit")],
    "rear-edge": [speaker.say("plan.rear-edge")],
    patio: [speaker.say("plan.patio")],
    nose: [speaker.say("plan.nose")],
    hot: [speaker.say("plan.hot")],
    awning: [speaker.say("plan.awning")],
    ...(approves ? stopLabels(fit, speaker) : {}),
    ...Object.fromEntries(lines),
    ...Object.fromEntries(hookups),
  };
}
