/**
 * Why a stay has its site and what the next ones would cost; why a stay has none and the smallest change that would
 * give it one. A change is only told after a plan with it has been made and has passed the checker.
 */
import { judgePlan } from "./check.ts";
import { compile } from "./compile.ts";
import { type EditOption, editPlan, type Move, stateOfPlan } from "./edit.ts";
import type { PlanState } from "./plan-state.ts";
import type { AssignmentProblem, Plan, RuleCode, ScoreTerm, SiteOption } from "./problem.ts";

/** Another site for a stay that has one. */
export interface Alternative {
  readonly site: number;
  /** Points that the plan would be worth less. */
  readonly cost: number;
  /** Stays that stand there now, and what becomes of them (a null `to`: no site is left for them). */
  readonly moves: readonly Move[];
}

export interface PlacedExplanation {
  readonly stay: number;
  readonly site: number;
  /** True when the host has promised the site, or the guests are on it: then nothing was weighed. */
  readonly isBound: boolean;
  readonly terms: readonly ScoreTerm[];
  /** Sites that the stay could have by its fit and its nights, this one included. */
  readonly possible: number;
  readonly alternatives: readonly Alternative[];
}

export type BlockingCode = RuleCode | "closed" | "outlet-closed" | "held" | "held-for-good";

export type Change =
  | { readonly kind: "place"; readonly option: EditOption }
  | { readonly kind: "move-others"; readonly option: EditOption }
  | { readonly kind: "other-nights"; readonly arrival: number; readonly departure: number; readonly site: number }
  | { readonly kind: "waive-rule"; readonly rule: RuleCode; readonly site: number }
  | { readonly kind: "none" };

export interface UnplacedExplanation {
  readonly stay: number;
  /** Sites that it may have by its fit and its own wishes, whoever stands there. */
  readonly eligible: number;
  /** Sites by what bars them; a site barred by two rules counts for both. */
  readonly blocking: readonly { readonly rule: BlockingCode; readonly sites: number }[];
  readonly change: Change;
}

const SHOWN_ALTERNATIVES = 2;
/** Options looked at for alternatives, best reward first. */
const LOOKED_AT = 60;
/** Changes of nights that are tried, in order: shifted, then shortened. */
const SHIFTS = [
  { arrival: 1, departure: 1 },
  { arrival: -1, departure: -1 },
  { arrival: 0, departure: -1 },
  { arrival: 1, departure: 0 },
  { arrival: 2, departure: 2 },
  { arrival: -2, departure: -2 },
] as const;

/** A plan made ready for questions; one serves all stays. */
export interface Explained {
  readonly problem: AssignmentProblem;
  readonly plan: Plan;
  readonly state: PlanState;
}

export function readyToExplain(problem: AssignmentProblem, plan: Plan): Explained {
  return { problem, plan, state: stateOfPlan(compile(problem), plan) };
}

/** Why the stay is where it is. Null when it has no site. */
export function explainPlaced({ problem, plan, state }: Explained, stay: number): PlacedExplanation | null {
  const placement = plan[stay];
  if (!placement) return null;
  const { optionStart, optionSite, fixed } = state.compiled;
  const asked = problem.stays[stay]!;
  const terms = problem.options[asked.profile]![placement.site]!.ways[placement.way]?.terms ?? [];
  const isBound = fixed[stay]! >= 0;
  const sites = new Set(optionSite.subarray(optionStart[stay], optionStart[stay + 1]));
  const alternatives = isBound || state.chosen[stay]! < 0 ? [] : alternativesOf(state, stay);
  return { stay, site: placement.site, isBound, terms, possible: sites.size, alternatives };
}

/** Among equals whoever makes fewer others move. */
const cheapest = (one: Alternative, other: Alternative): number =>
  one.cost - other.cost || one.moves.length - other.moves.length || one.site - other.site;

function alternativesOf(state: PlanState, stay: number): Alternative[] {
  const { optionStart, optionSite } = state.compiled;
  const current = state.chosen[stay]!;
  const before = state.value;
  const found = new Map<number, Alternative>();
  state.remove(stay);
  const end = Math.min(optionStart[stay + 1]!, optionStart[stay]! + LOOKED_AT);
  for (let option = optionStart[stay]!; option < end; option++) {
    const site = optionSite[option]!;
    if (site === optionSite[current]) continue;
    const alternative = costOf(state, stay, option, before);
    const known = found.get(site);
    if (alternative !== null && (known === undefined || cheapest(alternative, known) < 0)) found.set(site, alternative);
  }
  state.place(current);
  return [...found.values()].sort(cheapest).slice(0, SHOWN_ALTERNATIVES);
}

/** What it would cost to put the stay there, everyone in its way going where most is left. Null when one may not move. */
function costOf(state: PlanState, stay: number, option: number, before: number): Alternative | null {
  const { holder, resourceHolder, compiled } = state;
  const { optionSite, optionResources, arrival, departure, nights, fixed } = compiled;
  const inTheWay = new Set<number>();
  for (let night = arrival[stay]!; night < departure[stay]!; night++) {
    inTheWay.add(holder[optionSite[option]! * nights + night]!);
    for (const resource of optionResources[option]!) inTheWay.add(resourceHolder[resource * nights + night]!);
  }
  inTheWay.delete(-1);
  if ([...inTheWay].some((each) => each < 0 || fixed[each]! >= 0)) return null;
  const old = [...inTheWay].map((each) => ({ stay: each, option: state.chosen[each]! }));
  for (const each of old) state.remove(each.stay);
  state.place(option);
  const placed: number[] = [];
  const moves: Move[] = old.map((each) => {
    const next = state.bestOpen(each.stay);
    if (next >= 0) {
      state.place(next);
      placed.push(each.stay);
    }
    return { stay: each.stay, from: optionSite[each.option]!, to: next < 0 ? null : optionSite[next]! };
  });
  const cost = before - state.value;
  for (const each of placed) state.remove(each);
  state.remove(stay);
  for (const each of old) state.place(each.option);
  return { site: optionSite[option]!, cost, moves };
}

/** Why the stay has no site, and the smallest change that would give it one. */
export function explainUnplaced(explained: Explained, stay: number): UnplacedExplanation {
  const { problem } = explained;
  const row = problem.options[problem.stays[stay]!.profile]!;
  return {
    stay,
    eligible: row.filter(({ ways }) => ways.length > 0).length,
    blocking: blockingRules(explained, stay, row),
    change: smallestChange(explained, stay),
  };
}

function blockingRules(
  { problem, state }: Explained,
  stay: number,
  row: readonly SiteOption[],
): UnplacedExplanation["blocking"] {
  const counts = new Map<BlockingCode, number>();
  const add = (rule: BlockingCode) => counts.set(rule, (counts.get(rule) ?? 0) + 1);
  const { optionStart, optionSite, fixed, nights } = state.compiled;
  const possible = new Set(optionSite.subarray(optionStart[stay], optionStart[stay + 1]));
  const asked = problem.stays[stay]!;
  row.forEach((option, site) => {
    if (option.ways.length === 0) {
      for (const rule of option.rules) add(rule);
      return;
    }
    if (possible.has(site)) {
      add("held");
      return;
    }
    const meets = (span: { readonly from: number; readonly until: number }) =>
      span.from < asked.departure && asked.arrival < span.until;
    const holder = (night: number) => state.holder[site * nights + night - problem.firstNight]!;
    const isShut = problem.sites[site]!.closures.some(meets);
    let isBound = false;
    for (let night = Math.max(asked.arrival, problem.firstNight); night < asked.departure; night++) {
      isBound ||= holder(night) >= 0 && fixed[holder(night)]! >= 0;
    }
    add(isShut ? "closed" : isBound ? "held-for-good" : "outlet-closed");
  });
  return [...counts]
    .map(([rule, sites]) => ({ rule, sites }))
    .sort((one, other) => other.sites - one.sites || (one.rule < other.rule ? -1 : 1));
}

function smallestChange(explained: Explained, stay: number): Change {
  const { problem, plan } = explained;
  const { options } = editPlan(problem, plan, [stay]);
  const first = options[0];
  if (first?.moved === 0) return { kind: "place", option: first };
  if (first !== undefined) return { kind: "move-others", option: first };
  return otherNights(explained, stay) ?? waivedRule(explained, stay) ?? { kind: "none" };
}

/** The problem with every other stay kept where the plan has it, so that one question is answered quickly. */
function othersBound(problem: AssignmentProblem, plan: Plan, stay: number): AssignmentProblem {
  return {
    ...problem,
    stays: problem.stays.map((each, index) => (index === stay ? each : { ...each, locked: plan[index]?.site ?? null })),
  };
}

/** Whether the changed problem has room for the stay beside the plan as it is; the site of the best room, or null. */
function roomFor(changed: AssignmentProblem, plan: Plan, stay: number): number | null {
  const others = changed.stays.flatMap((_, index) => (index === stay || plan[index] ? [index] : []));
  const bound = othersBound(changed, plan, stay);
  const part = { ...bound, stays: others.map((index) => bound.stays[index]!) };
  const at = others.indexOf(stay);
  const compiled = compile(part);
  const state = stateOfPlan(
    compiled,
    others.map((index) => plan[index]!),
  );
  const option = state.bestOpen(at);
  if (option < 0) return null;
  const placement = { site: compiled.optionSite[option]!, way: compiled.optionWay[option]! };
  // Proven on the changed problem with the plan as it stands, by the checker.
  const whole = plan.map((each, index) => (index === stay ? placement : each));
  const before = hardBreaches(changed, plan);
  return hardBreaches(changed, whole) <= before ? placement.site : null;
}

const hardBreaches = (problem: AssignmentProblem, plan: Plan): number =>
  judgePlan(problem, plan).breaches.filter(({ isHard }) => isHard).length;

function withStay(problem: AssignmentProblem, stay: number, change: Partial<AssignmentProblem["stays"][number]>) {
  return { ...problem, stays: problem.stays.map((each, index) => (index === stay ? { ...each, ...change } : each)) };
}

function otherNights({ problem, plan }: Explained, stay: number): Change | null {
  const { arrival, departure } = problem.stays[stay]!;
  for (const shift of SHIFTS) {
    const nights = { arrival: arrival + shift.arrival, departure: departure + shift.departure };
    if (nights.arrival < problem.firstNight || nights.departure <= nights.arrival) continue;
    const site = roomFor(withStay(problem, stay, nights), plan, stay);
    if (site !== null) return { kind: "other-nights", ...nights, site };
  }
  return null;
}

/** A site that one rule alone bars and that is open for all the nights: the rule is the host's to waive, or not. */
function waivedRule({ problem, plan, state }: Explained, stay: number): Change | null {
  const asked = problem.stays[stay]!;
  const { mask, words } = state.compiled;
  const row = problem.options[asked.profile]!;
  for (const [site, { ways, rules }] of row.entries()) {
    const [rule] = rules;
    if (ways.length > 0 || rules.length !== 1 || rule === undefined || !isWaivable(rule)) continue;
    let isFree = true;
    for (let word = 0; word < words; word++) {
      if ((state.busy[site * words + word]! & mask[stay * words + word]!) !== 0) isFree = false;
    }
    if (!isFree) continue;
    const waived = row.map((option, at) =>
      at === site ? { ways: [{ resources: problem.sites[site]!.resources, score: 0, terms: [] }], rules: [] } : option,
    );
    const changed = {
      ...withStay(problem, stay, { profile: problem.options.length }),
      options: [...problem.options, waived],
    };
    if (roomFor(changed, plan, stay) === site) return { kind: "waive-rule", rule, site };
  }
  return null;
}

/** Only what a host or guest decides may be waived: never what the fit finds to be impossible, or does not know. */
function isWaivable(rule: RuleCode): boolean {
  return rule === "must-have" || rule === "tight" || rule === "needs-accessible";
}
