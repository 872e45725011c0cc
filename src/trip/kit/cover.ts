/**
 * The cheapest set of things that serves every target, by branch and bound: a target that is not served yet wants one
 * more thing of some group, and each thing that gives it is tried in turn. Nothing is left out but what costs at least
 * as much as a set that is known, so that the set found is the cheapest when the search ends by itself.
 */

export interface CoverThing {
  readonly id: string;
  readonly group: string;
  /** What it gives to its group: metres, or 1. */
  readonly amount: number;
  /** The stop for which alone it is there; null serves all. */
  readonly stop: number | null;
  /** Compared number by number, the first that differs decides; no number is negative and one is not 0. */
  readonly cost: readonly number[];
}

export interface CoverWish {
  readonly group: string;
  readonly least: number;
}

export interface CoverTarget {
  readonly stop: number;
  /** Any of these will do; each is a list of wishes that must all be met. */
  readonly options: readonly (readonly CoverWish[])[];
}

export interface CoverProblem {
  readonly things: readonly CoverThing[];
  readonly targets: readonly CoverTarget[];
  /** Groups in which two things together give the sum of their amounts; in the others the largest counts. */
  readonly sums: ReadonlySet<string>;
}

export interface Cover {
  readonly chosen: readonly CoverThing[];
  /** True when no cheaper set exists. */
  readonly proven: boolean;
}

/** Amounts in metres are sums of floats: what differs by less is the same. */
const SLACK = 1e-9;
const MOST_NODES = 200_000;

/** What a set gives of a group at a stop. */
function given(problem: CoverProblem, set: readonly CoverThing[], group: string, stop: number): number {
  const amounts = set.filter((thing) => thing.group === group && (thing.stop === null || thing.stop === stop));
  if (problem.sums.has(group)) return amounts.reduce((sum, thing) => sum + thing.amount, 0);
  return amounts.reduce((most, thing) => Math.max(most, thing.amount), 0);
}

function unmet(problem: CoverProblem, set: readonly CoverThing[], target: CoverTarget, option: readonly CoverWish[]) {
  return option.filter((wish) => given(problem, set, wish.group, target.stop) < wish.least - SLACK);
}

/** Whether the set serves the target. */
export function serves(problem: CoverProblem, set: readonly CoverThing[], target: CoverTarget): boolean {
  return target.options.some((option) => unmet(problem, set, target, option).length === 0);
}

export function compareCosts(a: readonly number[], b: readonly number[]): number {
  for (const [index, value] of a.entries()) {
    const difference = value - (b[index] ?? 0);
    if (Math.abs(difference) > SLACK) return difference;
  }
  return 0;
}

export function costOf(set: readonly CoverThing[]): number[] {
  const length = Math.max(0, ...set.map((thing) => thing.cost.length));
  return Array.from({ length }, (_, index) => set.reduce((sum, thing) => sum + (thing.cost[index] ?? 0), 0));
}

/** Null when not even all things together serve every target. */
export function cheapestCover(problem: CoverProblem): Cover | null {
  if (!problem.targets.every((target) => serves(problem, problem.things, target))) return null;
  const search = new Search(problem);
  search.visit([], problem.things);
  return { chosen: search.best ?? problem.things, proven: search.nodes < MOST_NODES };
}

class Search {
  best: readonly CoverThing[] | null = null;
  nodes = 0;
  private cost: readonly number[] = [];
  constructor(private readonly problem: CoverProblem) {}

  /** `allowed`: things that may still be added; those that were tried before in this place are left out. */
  visit(set: readonly CoverThing[], allowed: readonly CoverThing[]): void {
    this.nodes += 1;
    if (this.nodes >= MOST_NODES) return;
    if (this.best !== null && compareCosts(costOf(set), this.cost) >= 0) return;
    const open = this.problem.targets.filter((target) => !serves(this.problem, set, target));
    const [target] = open.sort((a, b) => a.options.length - b.options.length);
    if (target === undefined) {
      this.best = set;
      this.cost = costOf(set);
      return;
    }
    const useful = this.useful(set, allowed, target);
    let left = allowed;
    for (const thing of useful) {
      left = left.filter((other) => other !== thing);
      this.visit([...set, thing], left);
    }
  }

  /** Every set that serves the target holds one of these beyond `set`: the things of the groups that are unmet. */
  private useful(set: readonly CoverThing[], allowed: readonly CoverThing[], target: CoverTarget): CoverThing[] {
    const wishes = target.options.flatMap((option) => unmet(this.problem, set, target, option));
    const helps = (thing: CoverThing) =>
      (thing.stop === null || thing.stop === target.stop) &&
      wishes.some(
        (wish) =>
          wish.group === thing.group && (this.problem.sums.has(wish.group) || thing.amount >= wish.least - SLACK),
      );
    const byCost = (a: CoverThing, b: CoverThing) => compareCosts(a.cost, b.cost) || (a.id < b.id ? -1 : 1);
    return allowed.filter(helps).sort(byCost);
  }
}
