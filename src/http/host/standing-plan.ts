/** The plan of the ledger as the engine sees it: to explain it, and to change it by a little. */
import type { AssignmentProblem, Plan } from "../../assign/problem.ts";
import { planFromWire } from "../assignment/answer.ts";
import { scoreStays } from "../assignment/propose.ts";
import { askedProblem } from "../assignment/read.ts";
import { Problem } from "../problem.ts";
import type { Call } from "../route.ts";
import { refuseTooMany, shopOf } from "../routes/assignment.ts";
import type { HostDependencies } from "./host.ts";
import { ledgerQuestion } from "./ledger-question.ts";

export interface StandingPlan {
  readonly problem: AssignmentProblem;
  readonly plan: Plan;
  readonly planVersion: number;
}

/** Fits every rig at every site, or takes the fits that were made before. Waits its turn among other searches. */
export async function standingPlan(call: Call, host: HostDependencies, campground: string): Promise<StandingPlan> {
  const { asked, parts, stays, kept, planVersion } = await ledgerQuestion(host, campground);
  const question = await askedProblem(parts, stays, asked.closures ?? [], { firstNight: asked.firstNight });
  refuseTooMany(question);
  const { queue, fits } = shopOf(call.memory);
  const leave = await queue.enter();
  try {
    const scored = await scoreStays(question, {
      clock: call.clock,
      breathe: () => new Promise((resolve) => setTimeout(resolve, 0)),
      memory: fits,
    });
    // Nothing asked it to stop.
    if (scored === null) throw new Problem("busy", "The search was stopped.", [], { "Retry-After": "1" });
    const entries = kept.flatMap(({ id, place }) =>
      place === null ? [] : [{ stay: id, site: place.site, outlets: place.outlets }],
    );
    const { plan } = planFromWire(scored, entries);
    return { problem: withHostsWord(scored), plan, planVersion };
  } finally {
    leave();
  }
}

/** Who stands where the fit says no is there by the host's word, and stays there while others are moved. */
function withHostsWord(problem: AssignmentProblem): AssignmentProblem {
  const stays = problem.stays.map((stay) => {
    const { accepted } = stay;
    const isAgainstFit = accepted !== null && (problem.options[stay.profile]?.[accepted]?.ways.length ?? 0) === 0;
    return isAgainstFit ? { ...stay, locked: accepted } : stay;
  });
  return { ...problem, stays };
}
