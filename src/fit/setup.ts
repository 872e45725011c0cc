/** From a completed rig, a completed site and the options to the solver's problem for one facing and one set of lines. */
import type { CompletedRig } from "../rig/completed.ts";
import type { CompletedSite, SiteObstacle } from "../site/completed.ts";
import type { Estimate } from "../units/estimate.ts";
import { devices } from "./devices.ts";
import { rigKeepOuts } from "./keep-outs.ts";
import { type LineChoice, nominal, type Pick } from "./lines/choice.ts";
import { type GroundAtFacing, lineTask, type Manner } from "./lines/task.ts";
import type { FitOptions } from "./options.ts";
import { type PartOptions, rigParts, serviceStrips } from "./parts.ts";
import { reachableBarriers, reachableSolids } from "./relevant.ts";
import type { Facing, LineBarrier, Obstacle, StanceProblem } from "./stance/problem.ts";

/**
 * A line on the ground passes beneath what starts higher than this, metres: a branch or an awning bars no hose.
 * Assumed: a hose or cord with its coupling is less than a foot high.
 */
const BARRIER_HEIGHT = 0.3;

/** A recorded solid whose place is too uncertain for the clearance to stand for its error. */
export interface LooseObstacle {
  readonly obstacle: Obstacle;
  /** Error of its place, value 0, metres. */
  readonly along: Estimate;
  readonly left: Estimate;
}

export interface RecordedThings {
  /** Of the record, those that can matter; one array each for all problems of a fit. */
  readonly recorded: readonly Obstacle[];
  readonly loose: readonly LooseObstacle[];
  readonly barriers: readonly LineBarrier[];
}

/** The set-up with only those awnings open that must be: what a driver's scatter and the window are judged by. */
export function withoutWantedAwnings(setup: Setup): Setup {
  const openAwnings = setup.options.awning === "required" ? setup.parts.openAwnings : [];
  return { ...setup, parts: { ...setup.parts, openAwnings } };
}

export interface Setup extends RecordedThings {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly options: FitOptions;
  readonly parts: PartOptions;
  readonly groundAt: (facing: Facing) => GroundAtFacing;
  /** True to keep the working space before pedestals and along the service side free as well. */
  readonly workspace?: boolean;
}

/** Up to this standard deviation the clearance stands for the error of an obstacle's place, metres. Assumed. */
const TIGHT_PLACE = 0.15;

function isLoose(obstacle: SiteObstacle): boolean {
  return Math.hypot(obstacle.sigma, obstacle.sigmaShared) > TIGHT_PLACE;
}

function placeError({ sigma, sigmaShared, path }: SiteObstacle, axis: "along" | "left"): Estimate {
  return { value: 0, low: 0, high: 0, sigma, sigmaShared, basis: "mapped", path: `${path}/${axis}` };
}

/** A weak store: what lines go round does not depend on the rig, so a site's next rig finds it ready. */
const readyBarriers = new WeakMap<CompletedSite, readonly LineBarrier[]>();

function barriersOf(site: CompletedSite): readonly LineBarrier[] {
  const known = readyBarriers.get(site);
  if (known !== undefined) return known;
  const low = site.obstacles.filter((obstacle) => obstacle.bars !== "rig" && obstacle.from < BARRIER_HEIGHT);
  const made = reachableBarriers(site, low).map(({ id, what, outline }) => ({ id, what, outline }));
  readyBarriers.set(site, made);
  return made;
}

/** What the record gives, ready for the solver: made once a fit. */
export function recordedThings(rig: CompletedRig, site: CompletedSite, options: FitOptions): RecordedThings {
  const solid = site.obstacles.filter((obstacle) => obstacle.bars !== "line");
  const { clearance } = options;
  const asSolid = ({ id, what, outline, from, to }: SiteObstacle): Obstacle => ({
    id,
    what,
    outline,
    from,
    to,
    clearance,
  });
  const reachable = reachableSolids(rig, site, options, solid);
  return {
    loose: reachable.filter(isLoose).map((one) => ({
      obstacle: asSolid(one),
      along: placeError(one, "along"),
      left: placeError(one, "left"),
    })),
    recorded: reachable.filter((one) => !isLoose(one)).map(asSolid),
    barriers: barriersOf(site),
  };
}

/** Obstacles of the record and the hookup devices, as solids that the rig keeps clear of. */
function solids(setup: Setup, pick: Pick): Obstacle[] {
  const { site, options } = setup;
  const { clearance } = options;
  const stands = devices(site, options.devices, pick).map((device) => ({
    id: device.id,
    what: device.service === "power" ? "pedestal" : "riser",
    outline: device.outline,
    from: 0,
    to: device.height,
    clearance:
      setup.workspace && device.service === "power" ? Math.max(clearance, options.workspace.pedestal) : clearance,
  }));
  const moved = setup.loose.map(({ obstacle, along, left }) => {
    const by = { along: pick(along), left: pick(left) };
    if (by.along === 0 && by.left === 0) return obstacle;
    const outline = obstacle.outline.map((corner) => ({ along: corner.along + by.along, left: corner.left + by.left }));
    return { ...obstacle, outline };
  });
  return [...setup.recorded, ...moved, ...stands];
}

/**
 * The solver's problem for one facing. `pick` reads every uncertain number, so that the same function builds the
 * nominal problem, the ends of the ranges and each draw.
 */
export function stanceProblem(
  setup: Setup,
  facing: Facing,
  lines: readonly LineChoice[],
  manner: Manner = "laid",
  pick: Pick = nominal,
): StanceProblem {
  const { rig, site, options } = setup;
  const ground = setup.groundAt(facing);
  const side = options.workspace.side;
  const strips = setup.workspace && side > 0 ? serviceStrips(rig, side, setup.parts.closedSlides, pick) : [];
  return {
    length: pick(rig.length),
    width: pick(rig.width),
    parts: [...rigParts(rig, site, setup.parts, pick), ...strips],
    keepOuts: rigKeepOuts(rig, pick),
    facings: [facing],
    yaws: options.yaws,
    obstacles: solids(setup, pick),
    barriers: setup.barriers,
    lines: lines.map((line) => lineTask(line, ground, manner, pick)),
  };
}
