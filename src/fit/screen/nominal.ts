/**
 * A quick nominal judgement of many completed sites: does a stance serve every required line by nominal values, and
 * with which margin. No probability, no ranges, no wanted line: what orders a long list before the sites on show get
 * the whole fit.
 */
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import { levelRig } from "../level/level.ts";
import { usualHeight } from "../lines/candidates.ts";
import type { LineChoice } from "../lines/choice.ts";
import type { GroundAtFacing } from "../lines/task.ts";
import type { FitOptions } from "../options.ts";
import { sayer } from "../say.ts";
import { recordedThings, type Setup, stanceProblem } from "../setup.ts";
import { bestMargin, compileStance } from "../stance/index.ts";
import type { Facing } from "../stance/problem.ts";
import { marginBound } from "./bound.ts";
import { isAsked, isTried, longest, serves } from "./columns-reading.ts";
import { type ScreenLine, type ScreenRig, screenRig } from "./rig.ts";
import { CANNOT, screen } from "./screen.ts";
import { FLAG, type ScreenSites, ScreenSitesBuilder } from "./sites.ts";
import { trialMargin } from "./trial.ts";

/** Completed sites of one campground with their columns: made once, used for every rig. */
export interface PreparedSites {
  readonly sites: readonly CompletedSite[];
  readonly columns: ScreenSites;
}

export function prepareSites(sites: readonly CompletedSite[]): PreparedSites {
  const builder = new ScreenSitesBuilder();
  for (const site of sites) builder.add(site);
  return { sites, columns: builder.build() };
}

/**
 * `reaches` and `short`: by nominal values; `cannot`: whatever the values truly are; `unknown`: the record lacks what
 * a stance needs. The margin is the largest worst one over the required lines, metres; null when none was computed.
 */
export interface NominalLook {
  readonly state: "reaches" | "short" | "cannot" | "unknown";
  readonly margin: number | null;
  /** Whether the margin is the largest there is, or only known to be no less (comfortable) or no more (short). */
  readonly bound: "exact" | "at least" | "at most";
  readonly facing: Facing | null;
}

const CANNOT_LOOK: NominalLook = { state: "cannot", margin: null, bound: "exact", facing: null };
const UNKNOWN_LOOK: NominalLook = { state: "unknown", margin: null, bound: "exact", facing: null };

/** One look per site, in their order. */
export function nominalLooks(rig: CompletedRig, prepared: PreparedSites, options: FitOptions): NominalLook[] {
  const { sites, columns } = prepared;
  const made = screenRig(rig, options, columns.kinds);
  const states = screen(made, columns);
  return sites.map((site, index) =>
    states[index] === CANNOT ? CANNOT_LOOK : lookAt({ rig, made, columns, options, site, index }),
  );
}

interface Case {
  readonly rig: CompletedRig;
  readonly made: ScreenRig;
  readonly columns: ScreenSites;
  readonly options: FitOptions;
  readonly site: CompletedSite;
  readonly index: number;
}

function lookAt(one: Case): NominalLook {
  const { rig, made, columns, options, site, index } = one;
  if (site.pad.length === null || site.pad.width === null) return UNKNOWN_LOOK;
  const flags = columns.flags[index] as number;
  const quick = quickLook(one, flags);
  if (quick !== null) return quick;
  const rows = choiceRows(one, flags);
  if (rows === null) return UNKNOWN_LOOK;
  const things = recordedThings(rig, site, options);
  const openAwnings = options.awning === "required" ? rig.awnings.map((awning) => awning.id) : [];
  let best: NominalLook = UNKNOWN_LOOK;
  for (const slidesOverEdge of rig.slideouts.length > 0 ? [false, true] : [false]) {
    const setup: Setup = {
      rig,
      site,
      options,
      ...things,
      parts: { closedSlides: options.closeSlides, slidesOverEdge, openAwnings },
      groundAt: (facing) => groundAt(one, facing),
    };
    for (const facing of ["out", "in"] as const) {
      if (!isTried(made, flags, facing === "out" ? 1 : -1)) continue;
      for (const row of rows) {
        const margin = bestMargin(compileStance(stanceProblem(setup, facing, row)));
        if (best === UNKNOWN_LOOK || margin > (best.margin ?? Number.NEGATIVE_INFINITY)) best = lookOf(margin, facing);
      }
    }
    if (best.state === "reaches") break;
  }
  return best;
}

/** Comfortable at a stance that was tried, or short by the bound; null when the solver is needed. */
function quickLook({ made, columns, options, index }: Case, flags: number): NominalLook | null {
  let most = Number.NEGATIVE_INFINITY;
  let at: Facing | null = null;
  for (const facing of ["out", "in"] as const) {
    const sign = facing === "out" ? 1 : -1;
    if (!isTried(made, flags, sign)) continue;
    if ((flags & FLAG.tryable) === 0) return null;
    const bound = marginBound(made, columns, index, sign);
    if (Number.isNaN(bound)) return UNKNOWN_LOOK;
    if (bound > most) [most, at] = [bound, facing];
    if (bound < options.comfort) continue;
    const margin = trialMargin(made, columns, index, sign, options.comfort);
    if (margin >= options.comfort) {
      return { state: "reaches", margin: Number.isFinite(margin) ? margin : null, bound: "at least", facing };
    }
  }
  if (!(most < -GUARD)) return null;
  return { state: "short", margin: Number.isFinite(most) ? most : null, bound: "at most", facing: at };
}

/** Metres by which a bound must miss: beyond the rounding of the columns. */
const GUARD = 0.001;

function lookOf(margin: number, facing: Facing): NominalLook {
  if (margin === Number.NEGATIVE_INFINITY) return { state: "short", margin: null, bound: "exact", facing };
  const state = margin >= 0 ? "reaches" : "short";
  return { state, margin: Number.isFinite(margin) ? margin : null, bound: "exact", facing };
}

/** On sloping ground the rig is levelled first; the sentences of the levelling are not used. */
function groundAt({ rig, site, options }: Case, facing: Facing): GroundAtFacing {
  const { grade, crossfall } = site.pad;
  if ((grade?.value ?? 0) === 0 && (crossfall?.value ?? 0) === 0) return { grade, crossfall, raiseAt: () => 0 };
  const level = levelRig({ grade, crossfall, facing, yaw: 0, rig }, sayer(options.units));
  return { grade, crossfall, raiseAt: (fromRear, left) => level.raiseAt(fromRear, left) ?? 0 };
}

/** Every combination of one connection and one hookup per required line; null when a line has no placed hookup. */
function choiceRows(one: Case, flags: number): LineChoice[][] | null {
  let rows: LineChoice[][] = [[]];
  for (const line of one.made.lines) {
    if (!isAsked(line, flags)) continue;
    const choices = choicesOf(one, line);
    if (choices.length === 0) return null;
    rows = rows.flatMap((row) => choices.map((choice) => [...row, choice]));
  }
  return rows;
}

function choicesOf({ rig, columns, options, site, index }: Case, line: ScreenLine): LineChoice[] {
  const { service } = line;
  const connections = rig.connections.filter((connection) => connection.service === service);
  const start = columns.hookupStart[index] as number;
  const drain = service === "sewer";
  return line.connections.flatMap((made, place) => {
    const connection = connections[place]!;
    const own = connection.line?.workingLength ?? null;
    return site.hookups.flatMap((hookup, number): LineChoice[] => {
      const { along, left } = hookup;
      if (along === null || left === null) return [];
      if (!serves(line, columns.service[start + number] as number)) return [];
      const length = longest(line, made.lengths, columns, start + number, -1);
      if (length < 0) return [];
      return [
        {
          service,
          need: "required",
          connection,
          hookup,
          own,
          added: length - (own?.value ?? 0),
          fittings: 0,
          allowance: options.allowance[service],
          inletHeight: connection.height,
          hookupHeight: hookup.height ?? (drain ? null : usualHeight(service, hookup.path)),
          along,
          left,
        },
      ];
    });
  });
}
