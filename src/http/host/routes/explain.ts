/** Why a stay stands where it does, and what a small change of the plan could be. Neither writes anything. */
import { EDIT_LIMITS, editPlan } from "../../../assign/edit.ts";
import { explainStay, movesToWire, outletsHeld } from "../../assignment/answer.ts";
import { Problem, type ProblemError } from "../../problem.ts";
import { computed } from "../../representation.ts";
import { type Route, schemaRef } from "../../route.ts";
import { optionsRequestSchema } from "../../schemas/assignment.ts";
import { askRoute } from "../asking.ts";
import { part, readRoute } from "../describe.ts";
import { sha256 } from "../local-tokens.ts";
import { standingPlan } from "../standing-plan.ts";
import { JSON_TYPE } from "../writing.ts";
import { planTag } from "./assignment.ts";

const explanationRoute = readRoute(
  {
    path: "/stays/{stay}/explanation",
    operationId: "explainStay",
    summary: "Why a stay has its site, or none",
    description:
      "In the plan as it stands: what its site is worth and what the next two would cost; or what bars it and the smallest change that would help. The first question after a change of the record fits every rig at every site and takes its time.",
    parameters: [part("stay", "Id of the stay.")],
    answer: "StayExplanation",
    problems: ["too-many-sites", "too-many-jobs", "invalid-request"],
  },
  async ({ host, campground }, call) => {
    const { problem, plan } = await standingPlan(call, host, campground);
    const body = explainStay(problem, plan, call.params["stay"] ?? "");
    if (body === null) throw new Problem("not-found", "There is no stay of this id with a night to come.");
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const optionsRoute = askRoute(
  {
    path: "/assignment/options",
    operationId: "optionsOfPlan",
    summary: "Small changes that place a walk-in, or stays whose site is closed",
    description:
      "A short list: by moving nobody, one other stay, two, three. Guests in house and promised sites never move, nor does who stands somewhere by the host's word against the fit. Nothing is written; the moves are those that …/assignment/move takes.",
    asks: "What is to be placed.",
    component: "OptionsRequest",
    schema: optionsRequestSchema,
    most: "hostBodyBytes",
    mediaTypes: [JSON_TYPE],
    answer: { description: "The options.", content: { [JSON_TYPE]: { schema: schemaRef("OptionsAnswer") } } },
  },
  async ({ call, host, campground, asked }) => {
    const { stays, mostMoves = EDIT_LIMITS.mostMoves } = asked;
    const { problem, plan, planVersion } = await standingPlan(call, host, campground);
    const index = new Map(problem.stays.map(({ id }, at) => [id, at]));
    const wanted = stays === undefined ? null : wantedStays(stays, index);
    const edit = editPlan(problem, plan, wanted, { ...EDIT_LIMITS, mostMoves });
    const options = edit.options.map((option) => ({
      moved: option.moved,
      gain: option.gain,
      moves: movesToWire(problem, option.moves).map((move) => {
        const stay = index.get(move.stay) ?? -1;
        const placement = option.plan[stay] ?? null;
        return { ...move, outlets: placement === null ? [] : outletsHeld(problem, stay, placement) };
      }),
    }));
    const unplaced = edit.unplaced.map((stay) => problem.stays[stay]?.id ?? "");
    const answer = { planVersion, options, unplaced, complete: edit.complete };
    return computed(JSON.stringify(answer), JSON_TYPE, { ETag: planTag(planVersion) });
  },
);

function wantedStays(stays: readonly string[], index: ReadonlyMap<string, number>): number[] {
  const errors: ProblemError[] = [];
  const found = stays.flatMap((stay, at) => {
    const known = index.get(stay);
    if (known !== undefined) return [known];
    const message = `There is no stay ${stay} with a night to come.`;
    errors.push({ pointer: `/stays/${at}`, code: "absent", message });
    return [];
  });
  if (errors.length > 0) throw new Problem("invalid-request", errors[0]?.message ?? "", errors);
  return [...new Set(found)];
}

export const EXPLAIN_ROUTES: readonly Route[] = [explanationRoute, optionsRoute];
