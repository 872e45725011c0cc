/**
 * Small changes of a plan: who has no site is put somewhere by moving no one, then one stay, two, three. Every answer
 * is a chain of moves found by trying, worth the most of its length, checked as a whole; guests in house and promised
 * sites never move.
 */
import { type Judgement, judgePlan } from "./check.ts";
import { type Compiled, compile } from "./compile.ts";
import { PlanState } from "./plan-state.ts";
import type { AssignmentProblem, Plan } from "./problem.ts";

export interface Move {
  readonly stay: number;
  /** Indices of sites; null for no site. */
  readonly from: number | null;
  readonly to: number | null;
}

export interface EditOption {
  /** Stays that leave a site that they could have kept. */
  readonly moved: number;
  readonly moves: readonly Move[];
  readonly plan: Plan;
  /** Points of the new plan above those of the old one. */
  readonly gain: number;
  readonly judgement: Judgement;
}

export interface Edit {
  /** Best first for each number of moves, fewest moves first. */
  readonly options: readonly EditOption[];
  /** Stays among those asked for that no answer places. */
  readonly unplaced: readonly number[];
  /** False when not every chain could be tried. */
  readonly complete: boolean;
}

export interface EditLimits {
  /** Most stays moved: 0 to 3. */
  readonly mostMoves: number;
  /** Answers without a move that are shown. */
  readonly free: number;
  /** Placements tried, over all. */
  readonly tries: number;
}

export const EDIT_LIMITS: EditLimits = { mostMoves: 3, free: 3, tries: 150_000 };

/** The plan as a state of a problem that may have changed since: what no longer holds is left without a site. */
export function stateOfPlan(compiled: Compiled, plan: Plan): PlanState {
  const state = new PlanState(compiled);
  const { optionStart, optionSite, optionWay, fixed } = compiled;
  plan.forEach((placement, stay) => {
    if (placement === null || fixed[stay]! >= 0) return;
    const open: number[] = [];
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (optionSite[option] === placement.site && state.isOpen(option)) open.push(option);
    }
    const option = open.find((each) => optionWay[each] === placement.way) ?? open[0];
    if (option !== undefined) state.place(option);
  });
  return state;
}

interface Found {
  readonly value: number;
  readonly chosen: Int32Array;
}

/** A search by depth for the best way to place some stays with a given number of moves at most. */
class ChainSearch {
  readonly state: PlanState;
  /** Best answers by number of moves. */
  readonly found: Found[][];
  #tries: number;
  readonly #limits: EditLimits;
  /** Stays placed in the chain: they are not moved a second time. */
  readonly #settled = new Set<number>();
  #allowed = 0;
  #base = 0;

  constructor(state: PlanState, limits: EditLimits) {
    this.state = state;
    this.#limits = limits;
    this.#tries = limits.tries;
    this.found = Array.from({ length: limits.mostMoves + 1 }, () => []);
  }

  get isComplete(): boolean {
    return this.#tries > 0;
  }

  /** Tries with at most so many moves; more moves must be worth more than fewer. */
  run(wanted: readonly number[], allowed: number): void {
    this.#allowed = allowed;
    this.#base = Math.max(
      Number.NEGATIVE_INFINITY,
      ...this.found.slice(0, allowed).flatMap((found) => found.map(({ value }) => value)),
    );
    this.#place([...wanted], 0);
  }

  #place(queue: readonly number[], moved: number): void {
    const { state } = this;
    const [stay, ...rest] = queue;
    if (stay === undefined) {
      this.#note(moved);
      return;
    }
    const { optionStart, optionReward, penalty, problem } = state.compiled;
    // What the stays that wait can add at most, each at its best site.
    const others = rest.reduce((sum, each) => sum + this.#mostOf(each), 0);
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (this.#tries <= 0) return;
      const most = optionReward[option]! + penalty[stay]! + 2 * problem.weights.shortGap;
      if (state.value + most + others <= this.#least()) break;
      this.#try(option, stay, rest, moved);
    }
  }

  #mostOf(stay: number): number {
    const { optionStart, optionReward, penalty, problem } = this.state.compiled;
    const first = optionStart[stay]!;
    if (first === optionStart[stay + 1]) return 0;
    return optionReward[first]! + penalty[stay]! + 2 * problem.weights.shortGap;
  }

  /** Value that an answer must exceed to be of use. */
  #least(): number {
    const here = this.found[this.#allowed]!;
    const kept = this.#allowed === 0 ? this.#limits.free : 1;
    const worst = here.length < kept ? Number.NEGATIVE_INFINITY : here.at(-1)!.value;
    return Math.max(this.#base, worst);
  }

  #try(option: number, stay: number, rest: readonly number[], moved: number): void {
    const { state } = this;
    this.#tries--;
    const holders = this.#holders(option, stay);
    if (holders === null || moved + holders.length > this.#allowed) return;
    const old = holders.map((holder) => state.chosen[holder]!);
    for (const holder of holders) state.remove(holder);
    if (state.isOpen(option)) {
      state.place(option);
      this.#settled.add(stay);
      this.#place([...rest, ...holders], moved + holders.length);
      this.#settled.delete(stay);
      state.remove(stay);
    }
    for (const each of old) state.place(each);
  }

  /** Who stands in the way; null when one of them may not move. */
  #holders(option: number, stay: number): number[] | null {
    const { holder, resourceHolder, compiled } = this.state;
    const { optionSite, optionResources, arrival, departure, nights, fixed } = compiled;
    const found = new Set<number>();
    for (let night = arrival[stay]!; night < departure[stay]!; night++) {
      found.add(holder[optionSite[option]! * nights + night]!);
      for (const resource of optionResources[option]!) found.add(resourceHolder[resource * nights + night]!);
    }
    found.delete(-1);
    for (const each of found) {
      if (each < 0 || fixed[each]! >= 0 || this.#settled.has(each)) return null;
    }
    return [...found];
  }

  #note(moved: number): void {
    // An answer with fewer moves than are allowed has been found before.
    if (moved !== this.#allowed || this.state.value <= this.#least()) return;
    const here = this.found[moved]!;
    here.push({ value: this.state.value, chosen: this.state.chosen.slice() });
    here.sort((one, other) => other.value - one.value);
    here.length = Math.min(here.length, moved === 0 ? this.#limits.free : 1);
  }
}

/**
 * Ways to place some stays in a plan that is to change as little as may be. `problem` is the one that holds now (the
 * walk-in in it, the closure, the later departure); `plan` what was agreed, null for a stay without a site. `wanted`
 * are stays to be placed; null means all that had a site in the plan and cannot keep it, and no others.
 */
export function editPlan(
  problem: AssignmentProblem,
  plan: Plan,
  wanted: readonly number[] | null,
  limits: EditLimits = EDIT_LIMITS,
): Edit {
  const compiled = compile(problem);
  const state = stateOfPlan(compiled, plan);
  const asked =
    wanted ?? plan.flatMap((placement, stay) => (placement !== null && state.chosen[stay]! < 0 ? [stay] : []));
  const open = asked.filter((stay) => state.chosen[stay]! < 0);
  const { optionStart } = compiled;
  const count = (stay: number) => optionStart[stay + 1]! - optionStart[stay]!;
  const placeable = open.filter((stay) => count(stay) > 0).sort((one, other) => count(one) - count(other));
  const before = state.value;
  const search = new ChainSearch(state, limits);
  let complete = true;
  if (placeable.length > 0) {
    for (let moves = 0; moves <= limits.mostMoves; moves++) {
      search.run(placeable, moves);
      complete &&= search.isComplete;
    }
  }
  const options = search.found.flatMap((found, moved) =>
    found.map(({ value, chosen }) => optionOf(compiled, plan, chosen, moved, value - before)),
  );
  return {
    options: options.filter(({ judgement }) => judgement.isSound || isOnlyMoves(judgement)),
    unplaced: options.length > 0 ? open.filter((stay) => !placeable.includes(stay)) : open,
    complete,
  };
}

/** The number of moves is capped by the search itself; the cap of a whole plan is for the whole search. */
const isOnlyMoves = ({ breaches }: Judgement): boolean =>
  breaches.every(({ isHard, code }) => !isHard || code === "too-many-moves");

function optionOf(compiled: Compiled, before: Plan, chosen: Int32Array, moved: number, gain: number): EditOption {
  const { optionSite, optionWay, problem } = compiled;
  const plan: Plan = Array.from(chosen, (option) =>
    option < 0 ? null : { site: optionSite[option]!, way: optionWay[option]! },
  );
  const moves = plan.flatMap((placement, stay): Move[] => {
    const from = before[stay]?.site ?? null;
    const to = placement?.site ?? null;
    return from === to ? [] : [{ stay, from, to }];
  });
  return { moved, moves, plan, gain, judgement: judgePlan(problem, plan) };
}
