/**
 * What a hookup card says, as plain data made from one full answer and its rig. The view only lays it out. A card for
 * a site that does not fit, or of which too little is known, has no steps, no place to stop and no kit: nothing on it
 * can be taken for an approval.
 */
import table from "../../../data/hookup-steps.json" with { type: "json" };
import type { Fit, SiteVerdict } from "../../fit/answer.ts";
import { PRECEDENCE } from "../../fit/verdict.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import { plainNumber } from "../../units/number.ts";
import { formatPower } from "../../units/print.ts";
import { cautionsOfCard } from "./cautions.ts";
import { type CardKit, kitOfCard } from "./kit.ts";
import { whereToStop } from "./place.ts";
import { plainWords } from "./plain-words.ts";
import { awningRules, dumpRule } from "./rules.ts";
import { notServedBy, type Refusal, servedBy } from "./served.ts";
import { arrivalSteps, type CardStep, departureSteps } from "./steps.ts";

export type { CardStep };

export interface CardRun {
  readonly supply: string;
  /** Together for hours. */
  readonly hours: readonly string[];
  /** Together, but not for three hours or more. */
  readonly briefly: readonly string[];
  /** Never together. */
  readonly never: readonly string[];
}

export interface CardContent {
  readonly rig: string;
  readonly site: string;
  readonly campground: string | null;
  readonly verdict: SiteVerdict;
  readonly headline: string;
  /** Large words when this is no plain yes, with the reasons. */
  readonly banner: { readonly words: string; readonly reasons: readonly string[] } | null;
  /** False: a card without steps. */
  readonly approves: boolean;
  readonly stop: readonly string[];
  readonly arrival: readonly CardStep[];
  readonly departure: readonly CardStep[];
  readonly notServed: readonly Refusal[];
  readonly kit: readonly CardKit[];
  readonly run: CardRun | null;
  readonly dump: string | null;
  readonly awning: readonly string[];
  readonly cautions: readonly string[];
  /** For a no: changes that would mend it. For an unknown: what to measure. */
  readonly instead: readonly string[];
  readonly unchecked: readonly string[];
}

const BANNERS: Readonly<Partial<Record<SiteVerdict, string>>> = {
  "does not fit": "This rig does not fit this site",
  unknown: "Not known whether this rig fits",
  tight: "Tight: try every line before you settle",
};
/** A tight answer whose required line would be joined only by hanging. */
const NOT_JOINED = "Tight: a line that is needed cannot be relied on";
/** Reasons and measurements that are printed; the site's page has them all. */
const MOST_REASONS = 4;
const MOST_TO_MEASURE = 4;
const MOST_COMBINATIONS = 2;

function bannerOf(fit: Fit, approves: boolean): CardContent["banner"] {
  const words = approves || fit.verdict !== "tight" ? BANNERS[fit.verdict] : NOT_JOINED;
  if (words === undefined) return null;
  const status = PRECEDENCE.find(({ verdict }) => verdict === fit.verdict)?.status;
  const made = fit.checks.filter((check) => check.deciding && check.status === status).map((check) => check.why);
  const reasons = [...new Set(made.map(plainWords))];
  return { words, reasons: reasons.length === 0 ? [plainWords(fit.headline)] : reasons.slice(0, MOST_REASONS) };
}

function runOf(fit: Fit): CardRun {
  const { canRun, amps, voltAmperes, continuousVoltAmperes, voltsToNeutral } = fit.power;
  const listed = (chosen: Fit["power"]["canRun"]) =>
    chosen
      .slice(0, MOST_COMBINATIONS)
      .map(({ appliances, watts }) => `${appliances.join(" + ")} (${formatPower(watts)})`);
  const forHours = continuousVoltAmperes ?? 0;
  const runs = canRun.filter((one) => one.runs);
  const supply =
    amps === null || voltAmperes === null
      ? "What the supply gives is not known."
      : `${amps} A${voltsToNeutral === null ? "" : ` at ${voltsToNeutral} V`}: ${plainNumber(voltAmperes, 0, "down")} VA in all, ${plainNumber(forHours, 0, "down")} VA for three hours or more.`;
  return {
    supply,
    hours: listed(runs.filter((one) => one.watts <= forHours)),
    briefly: listed(runs.filter((one) => one.watts > forHours)),
    never: listed(canRun.filter((one) => !one.runs)),
  };
}

function insteadOf(fit: Fit): string[] {
  const fixes = fit.fixes.map((fix) => `${fix.title}: then ${fix.verdictAfter}.`);
  const measure = [...new Set(fit.unknowns.map((one) => `${plainWords(one.measure)}.`))];
  return fit.verdict === "unknown" ? [...measure.slice(0, MOST_TO_MEASURE), ...fixes] : fixes;
}

function uncheckedOf(fit: Fit): string[] {
  const measure = [...new Set(fit.unknowns.map((one) => plainWords(one.measure)))].slice(0, MOST_TO_MEASURE);
  const surer = measure.map((text) => `${text.charAt(0).toLowerCase()}${text.slice(1)}`).join("; ");
  const taken = fit.assumed.length;
  return [
    ...fit.notChecked.map((one) => plainWords(one.why)),
    ...(surer === "" || fit.verdict === "unknown" ? [] : [`Would make it surer: ${surer}.`]),
    ...(taken === 0
      ? []
      : [`Taken for granted: ${taken} ${taken === 1 ? "value" : "values"}, listed on the site's page.`]),
  ];
}

/** Steps only for a rig that stands here and whose every required line may be joined. */
function mayApprove(fit: Fit): boolean {
  if (fit.verdict === "does not fit" || fit.verdict === "unknown" || fit.stance === null) return false;
  const served = servedBy(fit);
  return fit.lines.every(({ need, service }) => need !== "required" || served.has(service));
}

/** The card of a full answer for its rig. */
export function cardContent(fit: Fit, rig: CompletedRig): CardContent {
  const approves = mayApprove(fit);
  const served: ReadonlySet<Service> = approves ? servedBy(fit) : new Set();
  const input = { fit, rig, served };
  const arrival = approves ? arrivalSteps(input) : [];
  const departure = approves ? departureSteps(input) : [];
  const awning = approves ? awningRules(fit) : [];
  const said = new Set([...arrival, ...departure].map(({ id }) => id));
  if (awning.length > 0) said.add("awning-rule");
  if (served.has("power")) said.add("call");
  return {
    rig: fit.rig.name ?? "This rig",
    site: fit.site.name,
    campground: fit.site.campground,
    verdict: fit.verdict,
    headline: plainWords(fit.headline),
    banner: bannerOf(fit, approves),
    approves,
    stop: approves ? whereToStop(fit) : [],
    arrival,
    departure,
    notServed: approves ? notServedBy(fit).map(({ service, why }) => ({ service, why: plainWords(why) })) : [],
    kit: approves ? kitOfCard(input) : [],
    run: served.has("power") ? runOf(fit) : null,
    dump: approves ? dumpRule(fit, rig, served) : null,
    awning,
    cautions: [
      ...(served.has("power") ? [table.rules.call] : []),
      ...(approves ? cautionsOfCard(fit, served, said) : []),
    ],
    instead: approves ? [] : insteadOf(fit),
    unchecked: uncheckedOf(fit),
  };
}
