/** An assignment from what was asked to what is answered. */
import type { AskedProblem } from "../../assign/assemble.ts";
import { Problem } from "../problem.ts";
import { refusal } from "../routes/fit.ts";
import type { AssignmentRequest } from "../schemas/assignment.ts";
import { givenToWire, planFromWire, solutionToWire } from "./answer.ts";
import { feedersToWire } from "./feeders.ts";
import { type ProposePorts, propose } from "./propose.ts";

/** Throws a Problem when the plan that was sent names strangers, or the search was stopped before it began. */
export async function runAssignment(asked: AssignmentRequest, problem: AskedProblem, ports: ProposePorts) {
  const proposed = await propose(problem, asked.options ?? {}, ports);
  if (proposed === null) throw new Problem("invalid-request", "The search was stopped before there was a plan.");
  const given = asked.plan === undefined ? null : planFromWire(proposed.problem, asked.plan);
  const strangers = given?.strangers ?? [];
  if (strangers.length > 0) {
    throw refusal(
      strangers.map(({ index, what }) => ({
        pointer: `/plan/${index}/${what}`,
        code: "not-found",
        message: `There is no ${what} of this id in the request.`,
        expected: `an id of a ${what}`,
      })),
    );
  }
  const { solution } = proposed;
  const plan = given?.plan ?? solution.plan;
  return {
    ...solutionToWire(proposed.problem, solution, ports.exact?.name ?? null),
    given: given === null ? null : givenToWire(proposed.problem, given.plan, solution.bound),
    feeders: feedersToWire(asked.feeders ?? [], problem, proposed.problem, plan, asked.options?.editionYear),
  };
}

export type AssignmentAnswer = Awaited<ReturnType<typeof runAssignment>>;
