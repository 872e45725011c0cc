/** From a completed rig, a completed site and the options to the solver's problem for one facing and one set of lines. */
import type { CompletedRig } from "../rig/completed.ts";
import type { CompletedSite } from "../site/completed.ts";
import { devices } from "./devices.ts";
import { rigKeepOuts } from "./keep-outs.ts";
import { type LineChoice, nominal, type Pick } from "./lines/choice.ts";
import { type GroundAtFacing, lineTask, type Manner } from "./lines/task.ts";
import type { FitOptions } from "./options.ts";
import { type PartOptions, rigParts, serviceStrips } from "./parts.ts";
import type { Facing, LineBarrier, Obstacle, StanceProblem } from "./stance/problem.ts";

/**
 * A line on the ground passes beneath what starts higher than this, metres: a branch or an awning bars no hose.
 * Assumed: a hose or cord with its coupling is less than a foot high.
 */
const BARRIER_HEIGHT = 0.3;

export interface Setup {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly options: FitOptions;
  readonly parts: PartOptions;
  readonly groundAt: (facing: Facing) => GroundAtFacing;
  /** One array for all problems of this set-up, so that the solver prepares it once. */
  readonly barriers: readonly LineBarrier[];
  /** True to keep the working space before pedestals and along the service side free as well. */
  readonly workspace?: boolean;
}

/** Obstacles of the record and the hookup devices, as solids that the rig keeps clear of. */
function solids(setup: Setup, pick: Pick): Obstacle[] {
  const { site, options } = setup;
  const clearance = options.clearance;
  const recorded = site.obstacles
    .filter((obstacle) => obstacle.bars !== "line")
    .map(({ id, what, outline, from, to }) => ({ id, what, outline, from, to, clearance }));
  const stands = devices(site, options.devices, pick).map((device) => ({
    id: device.id,
    what: device.service === "power" ? "pedestal" : "riser",
    outline: device.outline,
    from: 0,
    to: device.height,
    clearance: setup.workspace && device.service === "power" ? Math.max(clearance, options.workspace.pedestal) : clearance,
  }));
  return [...recorded, ...stands];
}

/** What lines on the ground go round. */
export function lineBarriers(site: CompletedSite): LineBarrier[] {
  return site.obstacles
    .filter((obstacle) => obstacle.bars !== "rig" && obstacle.from < BARRIER_HEIGHT)
    .map(({ id, what, outline }) => ({ id, what, outline }));
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
