/**
 * Repairs by an exact solver: a small campground is given to it whole, of a larger one a few neighbouring sites at a
 * time. Whatever comes back is placed stay by stay into the plan and kept only when the plan is worth more.
 */

import type { ExactAnswer, ExactSolver, Stop } from "./exact.ts";
import { type ExactPart, exactPart } from "./exact-model.ts";
import type { PlanState } from "./plan-state.ts";
import type { Random } from "./random.ts";

export interface RepairWork {
  readonly state: PlanState;
  readonly exact: ExactSolver;
  readonly losses: Float64Array;
  readonly random: Random;
  readonly repairs: number;
  readonly stop?: Stop;
  readonly timeLeft: () => number;
  readonly isClosed: (value: number) => boolean;
  /** Hears the share done and the value; true asks to end. */
  readonly tell: (done: number, value: number) => Promise<boolean>;
}

/** A campground up to this size is solved whole. */
const WHOLE_SITES = 30;
const WHOLE_OPTIONS = 6000;
const WHOLE_MILLISECONDS = 20_000;
const PART_SITES = 10;
const PART_MILLISECONDS = 3000;
/** How strongly the sites of a part crowd towards those where a stay costs least. */
const CROWDING = 4;
/** Answers in a row that failed before the solver is given up. */
const MOST_FAILURES = 3;

export async function repairExactly(
  work: RepairWork,
): Promise<{ readonly bound: number | null; readonly solved: number }> {
  const { state } = work;
  const { sites, optionSite } = state.compiled;
  if (sites <= WHOLE_SITES && optionSite.length <= WHOLE_OPTIONS) return repairWhole(work);
  let solved = 0;
  let failures = 0;
  for (let each = 0; each < work.repairs && failures < MOST_FAILURES; each++) {
    const part = exactPart(state, partSites(work));
    const milliseconds = Math.min(PART_MILLISECONDS, work.timeLeft());
    if (milliseconds <= 0) break;
    const answer = await work.exact.solve(part.model, milliseconds, work.stop);
    if (answer === null) failures++;
    else {
      failures = 0;
      solved++;
      adopt(state, part, answer);
    }
    if ((await work.tell((each + 1) / work.repairs, state.value)) || work.isClosed(state.value)) break;
  }
  return { bound: null, solved };
}

async function repairWhole(work: RepairWork): Promise<{ readonly bound: number | null; readonly solved: number }> {
  const { state } = work;
  const part = exactPart(state, null);
  const milliseconds = Math.min(WHOLE_MILLISECONDS, work.timeLeft());
  if (milliseconds <= 0) return { bound: null, solved: 0 };
  const answer = await work.exact.solve(part.model, milliseconds, work.stop);
  if (answer === null) return { bound: null, solved: 0 };
  adopt(state, part, answer);
  await work.tell(1, state.value);
  const bound = answer.bound === null ? null : answer.bound + part.constant;
  return { bound, solved: 1 };
}

/** Sites round a stay, mostly one without a site, chosen among those where it costs least. */
function partSites({ state, losses, random }: RepairWork): ReadonlySet<number> {
  const { stays, optionStart, optionSite, fixed } = state.compiled;
  const unplaced: number[] = [];
  const free: number[] = [];
  for (let stay = 0; stay < stays; stay++) {
    if (fixed[stay]! >= 0 || optionStart[stay + 1] === optionStart[stay]) continue;
    free.push(stay);
    if (state.chosen[stay]! < 0) unplaced.push(stay);
  }
  const pool = unplaced.length > 0 && random.next() < 1 / 2 ? unplaced : free;
  const chosen = new Set<number>();
  while (pool.length > 0 && chosen.size < PART_SITES && chosen.size < state.compiled.sites) {
    const stay = pool[random.whole(pool.length)]!;
    const options = Array.from(
      { length: optionStart[stay + 1]! - optionStart[stay]! },
      (_, index) => optionStart[stay]! + index,
    ).sort((one, other) => losses[one]! - losses[other]!);
    const current = state.chosen[stay]!;
    if (current >= 0) chosen.add(optionSite[current]!);
    for (let each = 0; each < PART_SITES / 2; each++) {
      chosen.add(optionSite[options[Math.floor(options.length * random.next() ** CROWDING)]!]!);
    }
  }
  return chosen;
}

/** Places the answer; when it is worth no more, or does not hold together, the plan stays as it was. */
function adopt(state: PlanState, part: ExactPart, answer: ExactAnswer): void {
  const before = state.value;
  const old = state.chosen.slice();
  const { fixed, optionStay, problem } = state.compiled;
  const movesBefore = state.moves;
  const members = part.stays.filter((stay) => fixed[stay]! < 0);
  for (const stay of members) if (state.chosen[stay]! >= 0) state.remove(stay);
  let holds = true;
  part.options.forEach((option, column) => {
    const value = answer.values[column];
    if (value === undefined || Number.isNaN(value)) holds = false;
    else if (value > 1 / 2 && fixed[optionStay[option]!]! < 0) {
      if (state.chosen[optionStay[option]!]! >= 0 || !state.isOpen(option)) holds = false;
      else state.place(option);
    }
  });
  const tooMany = problem.maxMoves !== null && state.moves > problem.maxMoves && state.moves > movesBefore;
  if (holds && !tooMany && state.value > before) return;
  state.restore(old);
  state.value = before;
}
