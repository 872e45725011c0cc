/**
 * The whole search for a plan: greedy at once, then annealing, a bound by prices, annealing led by those prices, the
 * bound again, and repairs by an exact solver where there is one. The plan that leaves has passed the checker, and
 * says how far from the best it can be at most.
 */
import { Annealing, type Cooling } from "./anneal.ts";
import { BoundSearch, type Pricing, preparePricing } from "./bound.ts";
import { type Judgement, judgePlan } from "./check.ts";
import { type Compiled, compile, type Release } from "./compile.ts";
import type { ExactSolver, Stop } from "./exact.ts";
import { fillGreedily, keepAccepted } from "./greedy.ts";
import { optionLosses } from "./losses.ts";
import { PlanState, planOf } from "./plan-state.ts";
import type { AssignmentProblem, Plan } from "./problem.ts";
import { seededRandom } from "./random.ts";
import { repairExactly } from "./repair.ts";
import { startingPrices } from "./starting-prices.ts";

export interface SolveEffort {
  /** Rounds of the search, and evaluations of the bound; they, and not time, make a result repeatable. */
  readonly rounds: number;
  readonly evaluations: number;
  /** Neighbourhoods given to the exact solver, where there is one. */
  readonly repairs: number;
}

export type SolvePhase = "start" | "search" | "bound" | "led-search" | "repair" | "check";

export interface SolveProgress {
  readonly phase: SolvePhase;
  /** 0 to 1 over the whole of the work. */
  readonly done: number;
  readonly value: number;
  readonly bound: number | null;
  readonly unplaced: number;
}

export interface SolveSettings {
  readonly seed: number;
  readonly effort: SolveEffort;
  /** Milliseconds from any start, and how many the search may take: a cap, after which the best plan so far is given. */
  readonly clock?: () => number;
  readonly milliseconds?: number;
  readonly stop?: Stop;
  /** Called every few milliseconds of work, so that others get their turn. */
  readonly breathe?: () => Promise<void>;
  readonly progress?: (progress: SolveProgress) => void;
  readonly exact?: ExactSolver;
}

export interface Solution {
  readonly plan: Plan;
  readonly judgement: Judgement;
  /** No plan is worth more; null when it could not be computed. */
  readonly bound: number | null;
  /** `optimal`: value and bound meet. `feasible`: they are `gap` apart. `bound-unknown`: nothing can be said. */
  readonly status: "optimal" | "feasible" | "bound-unknown";
  /** Points from the value to the bound; and that as a share of the points of fit, when there are any. */
  readonly gap: number | null;
  readonly gapShare: number | null;
  readonly seed: number;
  readonly rounds: number;
  readonly evaluations: number;
  readonly repairs: number;
  /** True when time or a wish to stop ended it early. */
  readonly cutShort: boolean;
  readonly released: readonly Release[];
  /** Price of each stay at the bound, points: what a site more for it would be worth, roughly. */
  readonly losses: Float64Array | null;
  readonly compiled: Compiled;
}

export const EFFORTS = {
  quick: { rounds: 60_000, evaluations: 400, repairs: 0 },
  usual: { rounds: 400_000, evaluations: 1600, repairs: 40 },
  thorough: { rounds: 2_000_000, evaluations: 2500, repairs: 200 },
} as const satisfies Readonly<Record<string, SolveEffort>>;

/** Share of the rounds before the first bound, and of the evaluations in the first of its two runs. */
const UNLED_SHARE = 0.06;
const FIRST_BOUND_SHARE = 0.6;
const UNLED: Cooling = { from: 60, to: 1 };
/** Two led runs: stays that all fit want a cool start, stays that do not want a warm one. */
const LED: readonly Cooling[] = [
  { from: 30, to: 1 },
  { from: 12, to: 0.5 },
];
/** Work between two looks at clock and stop: some milliseconds, whatever the size of the campground. */
const ROUNDS_A_TURN = 2000;
const LEAST_ROUNDS_A_TURN = 50;
const USUAL_OPTIONS = 40_000;
const OPTIONS_A_TURN = 400_000;
/** Points within which value and bound are the same: the noise of adding up. */
const TOLERANCE = 1e-4;

/** The work while it goes on. */
class Work {
  readonly compiled: Compiled;
  readonly state: PlanState;
  readonly settings: SolveSettings;
  best: Int32Array;
  bestValue: number;
  bound = Number.POSITIVE_INFINITY;
  rounds = 0;
  evaluations = 0;
  repairs = 0;
  cutShort = false;
  readonly #end: number;
  readonly #isWhole: boolean;

  constructor(problem: AssignmentProblem, settings: SolveSettings) {
    this.settings = settings;
    this.#end =
      settings.clock === undefined || settings.milliseconds === undefined
        ? Number.POSITIVE_INFINITY
        : settings.clock() + settings.milliseconds;
    this.compiled = compile(problem);
    this.#isWhole = isWhole(this.compiled);
    this.state = new PlanState(this.compiled);
    keepAccepted(this.state);
    fillGreedily(this.state);
    this.best = this.state.chosen.slice();
    this.bestValue = this.state.value;
  }

  /** True when the work should end. Gives others their turn. */
  async pause(phase: SolvePhase, done: number): Promise<boolean> {
    const { settings } = this;
    await settings.breathe?.();
    settings.progress?.({
      phase,
      done,
      value: this.bestValue,
      bound: Number.isFinite(this.bound) ? this.bound : null,
      unplaced: this.best.reduce((sum, option) => sum + (option < 0 ? 1 : 0), 0),
    });
    if (settings.stop?.aborted === true || this.timeLeft() <= 0) this.cutShort = true;
    return this.cutShort;
  }

  timeLeft(): number {
    return this.settings.clock === undefined ? Number.POSITIVE_INFINITY : this.#end - this.settings.clock();
  }

  keep(chosen: Int32Array, value: number): void {
    if (value <= this.bestValue) return;
    this.best = chosen.slice();
    this.bestValue = value;
  }

  /** The bound, brought down to a whole number where every plan has one. */
  get tightBound(): number {
    return this.#isWhole ? Math.floor(this.bound + TOLERANCE) : this.bound;
  }

  isBest(value: number): boolean {
    return value >= this.tightBound - TOLERANCE;
  }

  get isClosed(): boolean {
    return this.isBest(this.bestValue);
  }
}

async function anneal(
  work: Work,
  cooling: Cooling,
  rounds: number,
  losses: Float64Array | null,
  span: readonly [number, number],
): Promise<void> {
  const { state, settings } = work;
  state.restore(work.best);
  const annealing = new Annealing(state, seededRandom(settings.seed + work.rounds), cooling, rounds, losses);
  const size = Math.max(1, state.compiled.optionSite.length / USUAL_OPTIONS);
  const aTurn = Math.max(LEAST_ROUNDS_A_TURN, Math.floor(ROUNDS_A_TURN / size));
  while (!annealing.isDone && !work.cutShort && !work.isClosed) {
    annealing.advance(aTurn);
    work.keep(annealing.best, annealing.bestValue);
    const share = annealing.done / rounds;
    await work.pause(losses === null ? "search" : "led-search", span[0] + share * (span[1] - span[0]));
  }
  work.rounds += annealing.done;
}

async function tighten(
  work: Work,
  search: BoundSearch,
  evaluations: number,
  span: readonly [number, number],
): Promise<void> {
  const aTurn = Math.max(1, Math.floor(OPTIONS_A_TURN / (work.compiled.optionSite.length + 1)));
  work.bound = Math.min(work.bound, search.bound);
  for (let done = 0; done < evaluations && !work.isClosed && !work.cutShort; ) {
    for (let each = 0; each < aTurn && done < evaluations; each++, done++) search.advance(work.bestValue);
    work.bound = Math.min(work.bound, search.bound);
    await work.pause("bound", span[0] + (done / evaluations) * (span[1] - span[0]));
  }
  work.evaluations = search.evaluations;
}

/** True when all points are whole numbers and nothing depends on distance: so is the value of every plan then. */
function isWhole({ optionReward, penalty, mates, problem }: Compiled): boolean {
  return (
    mates === null &&
    Number.isInteger(problem.weights.shortGap) &&
    penalty.every(Number.isInteger) &&
    optionReward.every(Number.isInteger)
  );
}

/** Searches for the best plan. Always gives a plan that has passed the checker. Throws a RangeError on a bad problem. */
export async function solveAssignment(problem: AssignmentProblem, settings: SolveSettings): Promise<Solution> {
  const work = new Work(problem, settings);
  const { effort } = settings;
  await work.pause("start", 0);
  const unled = Math.ceil(effort.rounds * UNLED_SHARE);
  await anneal(work, UNLED, unled, null, [0, 0.05]);
  const pricing = preparePricing(work.compiled);
  const search = new BoundSearch(pricing, startingPrices(work.compiled, work.bestValue));
  const first = Math.ceil(effort.evaluations * FIRST_BOUND_SHARE);
  await tighten(work, search, first, [0.05, 0.2]);
  const losses = optionLosses(pricing, search.best);
  const led = Math.floor((effort.rounds - unled) / LED.length);
  for (const [run, cooling] of LED.entries()) {
    if (!work.isClosed && !work.cutShort) await anneal(work, cooling, led, losses, [0.2 + 0.3 * run, 0.5 + 0.3 * run]);
  }
  await tighten(work, search, effort.evaluations - first, [0.8, 0.85]);
  if (settings.exact !== undefined && !work.isClosed && !work.cutShort) {
    await repair(work, pricing, search, settings.exact);
  }
  return finish(work, optionLosses(pricing, search.best));
}

async function repair(work: Work, pricing: Pricing, search: BoundSearch, exact: ExactSolver): Promise<void> {
  work.state.restore(work.best);
  const repaired = await repairExactly({
    state: work.state,
    exact,
    losses: optionLosses(pricing, search.best),
    random: seededRandom(work.settings.seed + work.rounds),
    repairs: work.settings.effort.repairs,
    ...(work.settings.stop === undefined ? {} : { stop: work.settings.stop }),
    timeLeft: () => work.timeLeft(),
    isClosed: (value) => work.isBest(value),
    tell: async (done, value) => {
      work.keep(work.state.chosen, value);
      return work.pause("repair", 0.85 + 0.15 * done);
    },
  });
  work.repairs = repaired.solved;
  if (repaired.bound !== null) work.bound = Math.min(work.bound, repaired.bound);
}

function finish(work: Work, losses: Float64Array): Solution {
  const { compiled, settings } = work;
  const { problem } = compiled;
  const plan = planOf(compiled, work.best);
  const judgement = judgePlan(problem, plan);
  // More moves than the cap stay in the plan only when closures leave no other way; the judgement says so.
  const first = judgement.breaches.find(({ isHard, code }) => isHard && code !== "too-many-moves");
  if (first !== undefined) {
    throw new Error(`The search made a plan that the checker refuses: ${JSON.stringify(first)}`);
  }
  const bound = Number.isFinite(work.bound) ? Math.max(work.tightBound, judgement.value) : null;
  const gap = bound === null ? null : bound - judgement.value;
  const { fit } = judgement.parts;
  return {
    plan,
    judgement,
    bound,
    status: gap === null ? "bound-unknown" : gap <= TOLERANCE ? "optimal" : "feasible",
    gap,
    gapShare: gap === null || fit <= 0 ? null : gap / fit,
    seed: settings.seed,
    rounds: work.rounds,
    evaluations: work.evaluations,
    repairs: work.repairs,
    cutShort: work.cutShort,
    released: compiled.released,
    losses,
    compiled,
  };
}
