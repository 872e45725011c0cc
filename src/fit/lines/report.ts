/** Every line of the answer: numbers at the stance shown, certainty, verdict and the sentence made from them. */

import type { Service } from "../../rig/completed.ts";
import type { AnswerLine, LineVerdict } from "../answer.ts";
import { type Arrangement, isParked } from "../arrange.ts";
import { rigKeepOuts } from "../keep-outs.ts";
import { bestOver, isSolved } from "../park.ts";
import { type Say, sayer } from "../say.ts";
import { stanceProblem } from "../setup.ts";
import { evaluateStance } from "../stance/index.ts";
import type { LineRoute, RigKeepOut, StanceSolution } from "../stance/problem.ts";
import type { Certainty } from "../uncertainty/certainty.ts";
import { collectParameters } from "../uncertainty/parameters.ts";
import { valueWords } from "../value-words.ts";
import type { Candidate, ServiceCandidates } from "./candidates.ts";
import { type CertaintyByService, certainties, type Manner } from "./certain.ts";
import { type LineChoice, nominal, type Pick } from "./choice.ts";
import { fallIsKnown, type GroundAtFacing, reachLaw } from "./task.ts";
import { type LineFacts, lineVerdict } from "./verdict.ts";

export interface LineReport {
  readonly lines: readonly AnswerLine[];
  /** Routes at the stance shown, by service. */
  readonly routes: ReadonlyMap<Service, LineRoute>;
  /** Certainty of the required lines together; null when there is none to judge. */
  readonly required: Certainty | null;
  /** Certainty of all lines served. */
  readonly served: Certainty | null;
}

/** Standard deviation of a line's margin at a fixed stance: each value that it uses moved by one sigma in turn. */
function marginSigma(arrangement: Arrangement, line: LineChoice, stance: StanceSolution["stance"]): number {
  const build = (pick: Pick) => stanceProblem(arrangement.setup, arrangement.facing, [line], "laid", pick);
  const marginWith = (pick: Pick) => evaluateStance(build(pick), stance).lines[0]?.margin ?? Number.NaN;
  const base = marginWith(nominal);
  let variance = 0;
  for (const { estimate } of collectParameters(build).errors) {
    const sigma = Math.hypot(estimate.sigma, estimate.sigmaShared);
    const moved = marginWith((one) => (one === estimate ? one.value + sigma : one.value));
    if (Number.isFinite(moved)) variance += (moved - base) ** 2;
  }
  return Math.sqrt(variance);
}

/** Largest standard deviation among the values that place a line's two ends, metres. */
function decidingSigma(line: LineChoice): number {
  const estimates = [
    line.along,
    line.left,
    line.connection.fromRear,
    line.connection.left,
    line.own,
    line.inletHeight,
    line.hookupHeight,
  ];
  return Math.max(0, ...estimates.map((one) => (one === null ? 0 : Math.hypot(one.sigma, one.sigmaShared))));
}

/**
 * The numbers of a line. Always margin = available - needed; where the required slope permits less run than the hose
 * is long, `available` is the length that the slope permits.
 */
export interface Laid {
  readonly needed: number;
  readonly neededLeast: number;
  readonly available: number;
  readonly margin: number;
  /** True when the slope, not the hose, sets the limit. */
  readonly capped: boolean;
}

/** Differences below this are rounding, metres. */
const ROUNDING = 1e-9;

export function laidNumbers(line: LineChoice, ground: GroundAtFacing, laid: LineRoute, least: LineRoute): Laid {
  const own = line.own?.value ?? 0;
  const { budget } = reachLaw(line, ground, "laid");
  const needed = own - (budget - Math.hypot(laid.run, laid.fall));
  const capped = laid.margin < own - needed - ROUNDING;
  return {
    needed,
    neededLeast: own - least.margin,
    available: capped ? needed + laid.margin : own,
    margin: laid.margin,
    capped,
  };
}

export function routeWords(route: LineRoute): string {
  const ways = {
    direct: "straight from the wall",
    "around-rear": "around the rear of the rig",
    "around-front": "around the front of the rig",
    beneath: "beneath the rig",
  };
  const detour = route.detours.length > 0 ? ` and round ${route.detours.join(", ")}` : "";
  return `${ways[route.route]}${detour}`;
}

/** "The power line" is one word for a sentence; a drain hose is named as the trade does. */
export const NAMES: Readonly<Record<Service, string>> = {
  power: "Power cord",
  water: "Water hose",
  sewer: "Drain hose",
  cable: "Cable",
  fill: "Fill hose",
};

interface Told {
  readonly line: LineChoice;
  readonly laid: Laid;
  readonly route: LineRoute;
  readonly verdict: LineVerdict;
  readonly facts: LineFacts;
  readonly doubt: string | null;
  readonly fallKnown: boolean;
}

function rangeWords({ marginLow, marginHigh }: LineFacts, say: Say): string {
  const high = `${say.length(marginHigh, "down")}`;
  return Number.isFinite(marginLow)
    ? `the margin lies between ${say.length(marginLow, "down")} and ${high}`
    : `the margin is at most ${high}, and at one end of what it may be the rig cannot stand here at all`;
}

function sentence(told: Told, say: Say): string {
  const { line, laid, route, verdict, facts } = told;
  const added = line.added > 0 ? ` (counting ${say.available(line.added)} that kit adds)` : "";
  const what = laid.capped ? "permitted by the fall" : "available";
  // Where kit alone is longer than the way, nothing of the line's own length is needed.
  const numbers = `${NAMES[line.service]}: ${say.needed(Math.max(0, laid.needed))} needed ${routeWords(route)}${added}, ${say.available(laid.available)} ${what}`;
  switch (verdict) {
    case "reaches":
      return `${numbers}; ${say.available(laid.margin)} to spare.`;
    case "short":
      return `${numbers}; short by ${say.needed(-laid.margin)}, and even the shortest way through the air needs ${say.needed(laid.neededLeast)}.`;
    case "tight":
      return laid.margin >= 0
        ? `${numbers}; ${say.available(laid.margin)} to spare, less than its uncertainty allows for.`
        : `${numbers}; it would hang clear of the ground, do not rely on it (short by ${say.needed(-laid.margin)} when laid).`;
    default:
      return `${numbers}, but nobody can tell yet${told.doubt === null ? "" : `: measure ${valueWords(told.doubt, [line.connection, line.hookup])}`}${
        facts.hasRanges ? ` (${rangeWords(facts, say)})` : ""
      }.`;
  }
}

function unjudged(entry: ServiceCandidates, verdict: LineVerdict, why: string): AnswerLine {
  return {
    service: entry.service,
    need: entry.need,
    connection: null,
    hookup: null,
    side: null,
    route: null,
    path: [],
    needed: null,
    neededLeast: null,
    available: null,
    margin: null,
    verdict,
    why,
  };
}

function missingLine(entry: ServiceCandidates): AnswerLine {
  const missing = entry.missing!;
  const verdict = missing.kind === "unknown" ? "unknown" : missing.kind === "not needed" ? "not needed" : "absent";
  return unjudged(entry, verdict, missing.why);
}

interface Judged {
  readonly arrangement: Arrangement;
  readonly shown: StanceSolution;
  readonly laid: ReadonlyMap<Service, LineRoute>;
  readonly least: ReadonlyMap<Service, LineRoute>;
  readonly certainty: CertaintyByService;
  readonly say: Say;
  readonly full: boolean;
}

function factsOf(judged: Judged, line: LineChoice, laid: Laid): LineFacts {
  const entry = judged.certainty.get(line.service)!;
  const { index } = entry;
  return {
    margin: laid.margin,
    marginLow: entry.laid.marginLow[index]!,
    marginHigh: entry.laid.marginHigh[index]!,
    probability: entry.laid.lineProbability[index] ?? null,
    leastHigh: entry.least.marginHigh[index]!,
    leastLow: entry.least.marginLow[index]!,
    leastProbability: entry.least.lineProbabilityHigh[index] ?? null,
    decidingSigma: decidingSigma(line),
    hasRanges: entry.laid.hasRanges,
  };
}

/** A drain whose fall cannot be judged never reaches; one that runs uphill is short whatever its length. */
function drainVerdict(verdict: LineVerdict, line: LineChoice, judged: Judged, route: LineRoute): LineVerdict {
  if (line.service !== "sewer") return verdict;
  const ground = judged.arrangement.setup.groundAt(judged.arrangement.facing);
  if (!fallIsKnown(line, ground)) return verdict === "short" ? "short" : "unknown";
  return route.fall <= 0 ? "short" : verdict;
}

/** True when the inlet lies before a door or a hot outlet: there it may leave, because it can leave nowhere else. */
function holds(zone: RigKeepOut, line: LineChoice): boolean {
  const fromRear = line.connection.fromRear.value;
  const left = line.connection.left.value;
  return fromRear >= zone.fromRearMin && fromRear <= zone.fromRearMax && left >= zone.leftMin && left <= zone.leftMax;
}

/** No way along the ground is permitted: the line cannot be laid at the stance shown. */
function barredLine(judged: Judged, candidate: Candidate): AnswerLine {
  const line = candidate.choice;
  const entry = judged.arrangement.services.find((one) => one.service === line.service)!;
  const why = `${NAMES[line.service]}: no permitted way along the ground from the rig to the hookup.`;
  return {
    ...unjudged(entry, "short", why),
    connection: line.connection.id,
    hookup: line.hookup.id,
    side: line.connection.wall,
  };
}

function judgedLine(judged: Judged, candidate: Candidate): AnswerLine {
  const { arrangement, shown, say } = judged;
  const line = candidate.choice;
  const route = judged.laid.get(line.service)!;
  const ground = arrangement.setup.groundAt(arrangement.facing);
  if (!Number.isFinite(route.run)) return barredLine(judged, candidate);
  const laid = laidNumbers(line, ground, route, judged.least.get(line.service)!);
  const facts = factsOf(judged, line, laid);
  const fallKnown = fallIsKnown(line, ground);
  const verdict = drainVerdict(lineVerdict(facts), line, judged, route);
  const doubt = judged.certainty.get(line.service)!.laid.effects[0]?.estimate.path ?? null;
  const zone = rigKeepOuts(arrangement.setup.rig).find((one) => holds(one, line));
  const sigma = judged.full ? marginSigma(arrangement, line, shown.stance) : 0;
  const fallWords =
    line.service !== "sewer" || fallKnown
      ? line.service === "sewer" && route.fall <= 0
        ? " The drain would run uphill: it cannot drain."
        : ""
      : " Fall not checked: the outlet's height, the rim's height or the slope of the ground is not on record.";
  return {
    service: line.service,
    need: line.need,
    connection: line.connection.id,
    hookup: line.hookup.id,
    side: line.connection.wall,
    route: route.route,
    path: route.path,
    needed: laid.needed,
    neededLeast: laid.neededLeast,
    available: laid.available,
    margin: laid.margin,
    ...(sigma > 0 ? { sigma } : {}),
    // Where the rig cannot stand at all at one end of what it may be, there is no margin to tell.
    ...(facts.hasRanges && Number.isFinite(facts.marginLow) ? { marginLow: facts.marginLow } : {}),
    ...(facts.hasRanges && Number.isFinite(facts.marginHigh) ? { marginHigh: facts.marginHigh } : {}),
    ...(facts.probability === null || facts.hasRanges ? {} : { probability: facts.probability }),
    verdict,
    why: `${sentence({ line, laid, route, verdict, facts, doubt, fallKnown }, say)}${fallWords}${zone === undefined ? "" : ` It leaves the rig before ${zone.id}: keep it away from feet and heat.`}`,
  };
}

/** Without a known pad no stance is claimed: a line is short for any stance, or unknown. */
function withoutPad(arrangement: Arrangement, entry: ServiceCandidates, say: Say): AnswerLine {
  const [candidate] = entry.candidates;
  if (candidate === undefined) return missingLine(entry);
  const outcome = bestOver(arrangement.setup, arrangement.facing, [candidate.choice], "least");
  if (isSolved(outcome) && outcome.worst < 0) {
    return {
      ...unjudged(
        entry,
        "short",
        `${NAMES[entry.service]}: short by ${say.needed(-outcome.worst)} wherever the rig stands.`,
      ),
      margin: outcome.worst,
    };
  }
  return unjudged(
    entry,
    "unknown",
    `${NAMES[entry.service]}: the pad's length and width are not on record, so no stance is claimed.`,
  );
}

function routesAt(arrangement: Arrangement, lines: readonly LineChoice[], shown: StanceSolution, manner: Manner) {
  const problem = stanceProblem(arrangement.setup, arrangement.facing, lines, manner);
  return new Map(evaluateStance(problem, shown.stance).lines.map((route, index) => [lines[index]!.service, route]));
}

/** All lines of the answer, in the fixed order of the services. */
export function reportLines(arrangement: Arrangement, full: boolean): LineReport {
  const say = sayer(arrangement.setup.options.units);
  const { parking, services, chosen } = arrangement;
  if (!arrangement.padKnown || !isParked(parking)) {
    const lines = services.map((entry) =>
      arrangement.padKnown
        ? entry.candidates.length === 0
          ? missingLine(entry)
          : unjudged(entry, "unknown", `${NAMES[entry.service]}: not judged, because the rig cannot stand on this pad.`)
        : withoutPad(arrangement, entry, say),
    );
    return { lines, routes: new Map(), required: null, served: null };
  }
  const all = chosen.map((candidate) => candidate.choice);
  const served = parking.lines;
  const { required, served: together, entries } = certainties(arrangement, served, all, full);
  const judged: Judged = {
    arrangement,
    shown: parking.shown,
    laid: routesAt(arrangement, all, parking.shown, "laid"),
    least: routesAt(arrangement, all, parking.shown, "least"),
    certainty: entries,
    say,
    full,
  };
  const lines = services.map((entry) => {
    const candidate = chosen.find((one) => one.choice.service === entry.service);
    return candidate === undefined ? missingLine(entry) : judgedLine(judged, candidate);
  });
  return {
    lines,
    routes: judged.laid,
    required,
    served: together,
  };
}
