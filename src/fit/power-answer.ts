/** The power part of the answer, taken from the receptacle chosen and from all that were weighed. */
import type { PowerAnswer } from "./answer.ts";
import type { Arrangement } from "./arrange.ts";
import { powerAnswer as answerOf } from "./power/solve.ts";

/** Power of an arrangement; `none` when the rig has no cord or the site no power. */
export function powerAnswer(arrangement: Arrangement): PowerAnswer {
  const entry = arrangement.services.find((service) => service.service === "power")!;
  const chosen = arrangement.chosen.find((candidate) => candidate.choice.service === "power")?.power ?? null;
  const answer = answerOf(entry.power ?? { candidates: [], best: null }, chosen ?? entry.power?.best ?? null);
  if (entry.power !== null && entry.power.candidates.length > 0) return answer;
  return {
    ...answer,
    mating: entry.missing?.kind === "unknown" ? "unknown" : "none",
    why: entry.missing?.why ?? answer.why,
  };
}
