/**
 * One rig on one site: the whole answer. Pure: the same input gives the same answer in Node, at the edge and in the
 * page.
 */
import type { AnswerLine, Fit, KitEntry, SewerAnswer } from "./answer.ts";
import { type Arrangement, arrange, type FitInput, isParked } from "./arrange.ts";
import { allChecks } from "./checks.ts";
import { type CautionFact, cautionsFor } from "./clearance/cautions.ts";
import { findFixes } from "./fixes.ts";
import { headline } from "./headline.ts";
import type { LineChoice } from "./lines/choice.ts";
import { type LineReport, reportLines } from "./lines/report.ts";
import { fallIsKnown } from "./lines/task.ts";
import { manoeuvreCheck } from "./manoeuvre/check.ts";
import { hasReverse, manoeuvreOf } from "./manoeuvre/of-fit.ts";
import { powerAnswer } from "./power-answer.ts";
import { type Say, sayer } from "./say.ts";
import { makeScene } from "./scene.ts";
import { stanceProblem, withoutWantedAwnings } from "./setup.ts";
import { drainAnswer } from "./sewer/drain.ts";
import type { Stance } from "./stance/problem.ts";
import { hookupsOfFit } from "./stay/connections.ts";
import { stayAnswer } from "./stay/stay.ts";
import { unknownsOf } from "./unknowns.ts";
import { siteVerdict } from "./verdict.ts";
import { ENGINE_VERSION } from "./version.ts";
import { waterAnswer } from "./water/water.ts";
import { windOfFit } from "./wind/of-fit.ts";
import { stanceWindow } from "./window.ts";

export type { FitInput } from "./arrange.ts";
export { applyFix } from "./fixes.ts";

function sewerAnswer(arrangement: Arrangement, report: LineReport, say: Say): SewerAnswer {
  const candidate = arrangement.chosen.find((one) => one.choice.service === "sewer");
  const route = report.routes.get("sewer");
  const { choice } = candidate ?? {};
  const ground = arrangement.setup.groundAt(arrangement.facing);
  const level = arrangement.levelling.get(arrangement.facing)!;
  const known = choice !== undefined && fallIsKnown(choice, ground);
  return drainAnswer(
    {
      outlet: choice?.connection.id ?? null,
      outletHeight: choice?.inletHeight ?? null,
      rimHeight: choice?.hookupHeight ?? null,
      raise:
        choice === undefined ? null : level.raiseAt(choice.connection.fromRear.value, choice.connection.left.value),
      groundKnown: ground.grade !== null && ground.crossfall !== null,
      fallAtStance: known && route !== undefined ? route.fall : null,
      run: route === undefined || !Number.isFinite(route.run) ? null : route.run,
      otherSide: route !== undefined && route.route !== "direct",
    },
    say,
  );
}

const HOURS_PER_DAY = 24;

function water(arrangement: Arrangement, say: Say) {
  const { rig, site, options } = arrangement.setup;
  const nights = options.party?.nights ?? null;
  const candidate = arrangement.chosen.find((one) => one.choice.service === "water");
  const connection = candidate?.choice.connection ?? rig.connections.find((one) => one.service === "water");
  const hookup = candidate?.choice.hookup ?? site.hookups.find((one) => one.service === "water") ?? null;
  return waterAnswer(
    {
      hookup: connection === undefined ? null : hookup,
      line: connection?.line ?? null,
      connectionPath: connection?.path ?? "/rig/connections",
      kit: rig.kit.map((item) => item.item),
      hours: nights === null ? null : nights * HOURS_PER_DAY,
    },
    say,
  );
}

function kitOf(
  arrangement: Arrangement,
  lines: readonly AnswerLine[],
  blocks: readonly number[],
  say: Say,
): KitEntry[] {
  const used = arrangement.chosen.filter((candidate) =>
    lines.some((line) => line.service === candidate.choice.service && line.verdict === "reaches"),
  );
  const entries = used.flatMap((candidate) => candidate.kit);
  if (blocks.length === 0) return entries;
  const aboard = arrangement.setup.rig.kit.some((item) => item.item === "blocks" && item.where === "aboard");
  const tallest = Math.max(...blocks);
  return [
    ...entries,
    {
      item: "blocks",
      description: `Levelling blocks up to ${say.fine(tallest, "up")}`,
      for: "level",
      where: aboard ? "aboard" : "to bring",
      why: "The pad slopes more than the rig may stand off level.",
      withoutIt: "The rig stands off level.",
    },
  ];
}

function facts(
  arrangement: Arrangement,
  lines: readonly AnswerLine[],
  blocks: readonly number[],
  reverses: boolean,
): Set<CautionFact> {
  const { rig } = arrangement.setup;
  const found = new Set<CautionFact>(["arriving"]);
  for (const line of lines) {
    const joined = line.connection !== null && line.verdict !== "short";
    if (joined && (line.service === "water" || line.service === "fill" || line.service === "sewer"))
      found.add(line.service);
  }
  if (rig.generator !== null) found.add("generator");
  if (rig.appliances.some((appliance) => appliance.fuel !== "electric") || rig.tanks.propane !== null)
    found.add("propane");
  if (rig.awnings.length > 0) found.add("awning");
  if (reverses || arrangement.setup.site.layout === "back-in" || arrangement.facing === "in") found.add("reversing");
  if (rig.class === "travel-trailer" || rig.class === "fifth-wheel" || rig.class === "folding-trailer")
    found.add("trailer");
  if (blocks.length > 0) found.add("blocks");
  return found;
}

/** Cautions of this rig at this site: power's own first, then the others that the facts call for. */
function cautions(
  arrangement: Arrangement,
  lines: readonly AnswerLine[],
  blocks: readonly number[],
  reverses: boolean,
): Fit["cautions"] {
  const power = arrangement.chosen.find((candidate) => candidate.choice.service === "power")?.power;
  return [...(power?.cautions ?? []), ...cautionsFor(facts(arrangement, lines, blocks, reverses))];
}

const NO_MANOEUVRE = { id: "manoeuvre", why: "Whether the rig can be driven in and out is not worked out here." };
const NOT_CHECKED: Fit["notChecked"] = [
  { id: "wiring", why: "A record cannot show whether the pedestal is wired right: test it." },
  { id: "terrain", why: "The ground is taken as one plane; bumps and soft spots are not on record." },
];

/** Probability that the required lines are served; none while a mere range decides, because a range has none. */
function probabilityOf(report: LineReport): number | null {
  const { required } = report;
  if (required === null || required.probabilityLow !== required.probabilityHigh) return null;
  return required.probabilityLow;
}

/** Least of the best margins over the required lines; over those served when none is required. */
function bestMargin(arrangement: Arrangement): number | null {
  const { parking, best } = arrangement;
  if (!isParked(parking) || !arrangement.padKnown) return null;
  if (Number.isFinite(best)) return best;
  const served = Math.min(
    ...parking.lines.map((_, index) => parking.shown.lines[index]?.margin ?? Number.POSITIVE_INFINITY),
  );
  return Number.isFinite(served) ? served : null;
}

function sourcesOf(arrangement: Arrangement, fit: Pick<Fit, "checks" | "assumed" | "cautions">): string[] {
  const all = [
    ...arrangement.setup.site.sources,
    ...fit.checks.filter((check) => check.status !== "not applicable").map((check) => check.source),
    ...fit.assumed.map((one) => one.source),
    ...fit.cautions.map((one) => one.source),
  ];
  return [...new Set(all)];
}

/** The words that must be shown with a forecast. */
function forecastSource(wind: Fit["wind"]): string[] {
  return wind?.forecast == null ? [] : [wind.forecast.attribution];
}

/** Pointers of the rig record, seen from the request. */
function ofRig<T extends { readonly path: string }>(entries: readonly T[]): T[] {
  return entries.map((entry) => ({ ...entry, path: `/rig${entry.path}` }));
}

function windowAt(arrangement: Arrangement, stance: Stance, served: readonly LineChoice[]): Fit["window"] {
  const { facing } = arrangement;
  const setup = withoutWantedAwnings(arrangement.setup);
  const required = served.filter((line) => line.need === "required");
  return stanceWindow({
    served: stanceProblem(setup, facing, served),
    required: stanceProblem(setup, facing, required),
    stance,
    ...setup.options.parking,
  });
}

interface Answered {
  readonly fit: Fit;
  readonly arrangement: Arrangement;
}

function answer(input: FitInput): Answered {
  const { rig, site, options } = input;
  const say = sayer(options.units);
  const full = options.detail === "full";
  const arrangement = arrange(input);
  const report = reportLines(arrangement, full);
  const { lines } = report;
  const power = powerAnswer(arrangement);
  const tap = water(arrangement, say);
  const { checks, awnings, level, stance } = allChecks({ arrangement, lines, power, water: tap.checks });
  const blocks = level.answer.blocks.map((block) => block.height);
  const kit = kitOf(arrangement, lines, blocks, say);
  const { checks: windChecks, words: windWords, ...wind } = windOfFit(input, awnings, stance);
  const manoeuvre = full && stance !== null ? manoeuvreOf(input, stance, level, say) : null;
  const all = [...checks, manoeuvreCheck(manoeuvre, full), ...windChecks];
  // Blocks or a jack are called for: then the level is part of the verdict.
  const decided =
    level.stays === null ? all : all.map((one) => (one.id === "level" ? { ...one, deciding: true } : one));
  const verdict = siteVerdict(decided);
  const probability = probabilityOf(report);
  const served = isParked(arrangement.parking) ? arrangement.parking.lines : [];
  const sewer = sewerAnswer(arrangement, report, say);
  const tanks = stayAnswer(rig, options.party, hookupsOfFit({ lines, power, sewer, checks: decided }));
  const assumed = [...ofRig(rig.assumed), ...site.assumed, ...tanks.assumed];
  const hazards = cautions(arrangement, lines, blocks, manoeuvre !== null && hasReverse(manoeuvre));
  const parts = { checks: decided, assumed, cautions: hazards };
  const fit: Fit = {
    rig: { id: rig.id, name: rig.name },
    site: {
      id: site.id,
      name: site.name,
      campground: site.campgroundId,
      campgroundName: site.campgroundName ?? null,
    },
    verdict,
    headline: headline({ verdict, stance, lines, checks: decided, kit, awning: wind.awning, windWords, say }),
    ...(probability === null ? {} : { probability }),
    bestMargin: bestMargin(arrangement),
    proven: arrangement.proven,
    bestMarginBound: arrangement.proven || !Number.isFinite(arrangement.bound) ? null : arrangement.bound,
    stance,
    window: full && stance !== null ? windowAt(arrangement, stance, served) : null,
    lines,
    power,
    sewer,
    kit,
    ...wind,
    level: level.answer,
    stay: { water: tap.words, tanks: tanks.tanks, why: tanks.why },
    fixes: [],
    unknowns: unknownsOf(arrangement, report),
    manoeuvre,
    notChecked: manoeuvre === null ? [NO_MANOEUVRE, ...NOT_CHECKED] : NOT_CHECKED,
    warnings: [...ofRig(rig.warnings), ...site.warnings],
    ...parts,
    sources: [...sourcesOf(arrangement, parts), ...forecastSource(wind.wind)],
    scene: makeScene({ rig, site, stance, openAwnings: arrangement.openAwnings, closedSlides: options.closeSlides }),
    units: options.units,
    engineVersion: ENGINE_VERSION,
    dataVersion: null,
  };
  return { fit, arrangement };
}

/** The answer for one rig at one site, fixes included when `options.detail` is full. Never throws on completed input. */
export function fitRig(input: FitInput): Fit {
  const { fit, arrangement } = answer(input);
  if (input.options.detail !== "full") return fit;
  const summarise = (changed: FitInput) =>
    answer({ ...changed, when: null, options: { ...changed.options, detail: "summary" } }).fit;
  return { ...fit, fixes: findFixes(input, arrangement, fit, summarise) };
}
