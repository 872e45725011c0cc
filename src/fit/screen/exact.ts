/**
 * The exact nominal answer for a plain site (nothing but pad and hookups on record) straight from its columns: the
 * largest worst margin over the required lines, by the same solver as the whole fit. For what the first look leaves
 * undecided among many sites.
 */
import type { CompletedRig } from "../../rig/completed.ts";
import { slideBox } from "../parts.ts";
import { REQUIRED_SLOPE } from "../sewer/drain.ts";
import { bestMargin, compileStance } from "../stance/index.ts";
import type { HalfPlane, LineTask, Obstacle, RigBox, StanceProblem } from "../stance/problem.ts";
import { isAsked, isTried, serves } from "./columns-reading.ts";
import { type LineLaw, readLaw } from "./law.ts";
import type { ScreenConnection, ScreenLine, ScreenRig } from "./rig.ts";
import { FLAG, type ScreenSites } from "./sites.ts";

/** What of a rig the exact stage needs beside the screen's numbers. */
export interface ExactRig {
  readonly screen: ScreenRig;
  readonly body: RigBox;
  readonly slides: readonly (RigBox & { readonly id: string })[];
}

export function exactRig(rig: CompletedRig, screen: ScreenRig, closedSlides: readonly string[]): ExactRig {
  const half = rig.width.value / 2;
  const body = { fromRearMin: 0, fromRearMax: rig.length.value, leftMin: -half, leftMax: half };
  return {
    screen,
    body: { ...body, from: 0, to: rig.height.value },
    slides: rig.slideouts
      .filter((slide) => !closedSlides.includes(slide.id))
      .map((slide) => ({ id: slide.id, ...slideBox(slide, rig) })),
  };
}

/**
 * Largest worst margin of a plain site, metres: -Infinity when the rig does not stand, NaN when the site is not plain
 * or a required line has no hookup to join. A negative one leaves out what zones of the rig would add to the ways.
 */
export function plainMargin(rig: ExactRig, sites: ScreenSites, site: number): number {
  const problems = plainProblems(rig, sites, site);
  if (problems === null) return Number.NaN;
  let best = Number.NEGATIVE_INFINITY;
  for (const problem of problems) {
    // Without the rig's zones it is much faster and no worse: what is short then needs no second solve.
    const free = bestMargin(compileStance({ ...problem, keepOuts: [] }));
    const margin = free < 0 || problem.keepOuts.length === 0 ? free : bestMargin(compileStance(problem));
    best = Math.max(best, margin);
  }
  return best;
}

/** The solver's problem for every combination of connections and hookups; null where the columns do not tell all. */
export function plainProblems(rig: ExactRig, sites: ScreenSites, site: number): StanceProblem[] | null {
  const flags = sites.flags[site] as number;
  if ((flags & FLAG.plain) === 0 || !rig.screen.mayClaim || !rig.screen.applies) return null;
  const rows = linesAt(rig.screen, sites, site, flags);
  if (rows === null) return null;
  const edges = padEdges(sites, site);
  const parts = [
    { id: "body", kind: "body" as const, ...rig.body, limits: edges },
    ...rig.slides.map((slide) => ({ kind: "slide" as const, ...slide, limits: edges })),
  ];
  return rows.map((lines) => ({
    length: rig.screen.length,
    width: rig.screen.halfWidth * 2,
    parts,
    keepOuts: rig.screen.keepOuts,
    facings: (["out", "in"] as const).filter((facing) => isTried(rig.screen, flags, facing === "out" ? 1 : -1)),
    yaws: STRAIGHT,
    obstacles: rig.screen.solidDevices ? solidsAt(sites, site, rig.screen.clearance) : [],
    barriers: [],
    lines,
  }));
}

const law: LineLaw = { budget: 0, fall: 0, cap: 0 };
const STRAIGHT: readonly number[] = [0];

/** One list of tasks per combination of connection and hookup; null when some required line has none to try. */
function linesAt(rig: ScreenRig, sites: ScreenSites, site: number, flags: number): LineTask[][] | null {
  let rows: LineTask[][] = [[]];
  const end = sites.hookupStart[site + 1] as number;
  for (const line of rig.lines) {
    if (!isAsked(line, flags)) continue;
    const tasks: LineTask[] = [];
    for (const connection of line.connections) {
      for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
        if (!serves(line, sites.service[hookup] as number)) continue;
        const task = taskOf(line, connection, sites, site, hookup);
        if (task !== null) tasks.push(task);
      }
    }
    if (tasks.length === 0) return null;
    rows = rows.flatMap((row) => tasks.map((task) => [...row, task]));
  }
  return rows;
}

function taskOf(
  line: ScreenLine,
  connection: ScreenConnection,
  sites: ScreenSites,
  site: number,
  hookup: number,
): LineTask | null {
  const along = sites.along[hookup] as number;
  if (Number.isNaN(along) || !readLaw(line, connection, sites, site, hookup, law)) return null;
  return {
    id: line.service,
    inlet: { fromRear: connection.fromRear, left: connection.left },
    wall: connection.wall ?? "left",
    mayRunBeneath: connection.wall === null,
    target: { along, left: sites.left[hookup] as number },
    law: {
      budget: law.budget,
      fallAtLevel: law.fall,
      slopeAlong: 0,
      slopeLeft: 0,
      ...(law.cap < Infinity ? { requiredSlope: REQUIRED_SLOPE } : {}),
    },
  };
}

function padEdges(sites: ScreenSites, site: number): HalfPlane[] {
  const half = (sites.padWidth[site] as number) / 2;
  return [
    { along: 1, left: 0, max: sites.padLength[site] as number, what: "pad edge at the exit" },
    { along: -1, left: 0, max: sites.rear[site] as number, what: "pad rear edge" },
    { along: 0, left: 1, max: half, what: "pad left edge" },
    { along: 0, left: -1, max: half, what: "pad right edge" },
  ];
}

function solidsAt(sites: ScreenSites, site: number, clearance: number): Obstacle[] {
  const solids: Obstacle[] = [];
  const end = sites.hookupStart[site + 1] as number;
  for (let hookup = sites.hookupStart[site] as number; hookup < end; hookup++) {
    const depth = sites.halfDepth[hookup] as number;
    const width = sites.halfWidth[hookup] as number;
    if (depth === 0 && width === 0) continue;
    const along = sites.along[hookup] as number;
    const left = sites.left[hookup] as number;
    const outline = [
      { along: along - depth, left: left - width },
      { along: along + depth, left: left - width },
      { along: along + depth, left: left + width },
      { along: along - depth, left: left + width },
    ];
    solids.push({
      id: `device ${hookup}`,
      what: "device",
      outline,
      from: 0,
      to: sites.solidHeight[hookup] as number,
      clearance,
    });
  }
  return solids;
}
