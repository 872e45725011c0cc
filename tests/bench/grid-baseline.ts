import booleanPointInPolygon from "@turf/boolean-point-in-polygon";
import distance from "@turf/distance";
import { point, polygon } from "@turf/helpers";
import {
  boxOutline,
  type PadPoint,
  padToRig,
  rigToPad,
  type Stance,
  type StanceProblem,
} from "../../src/fit/stance/index.ts";
import { shortestDepartures } from "../../src/fit/stance/routes.ts";

/** Metres between the stances of the grid. */
const STEP = 0.1;
/** Metres per degree on Turf's sphere, and an invented place at a middle latitude. */
const SPHERE_DEGREE = (6371008.8 * Math.PI) / 180;
const PLACE = { longitude: -110.5, latitude: 44.5 };

function onEarth(place: PadPoint): [number, number] {
  const { longitude, latitude } = PLACE;
  const shrink = Math.cos((latitude * Math.PI) / 180);
  return [longitude + place.along / (SPHERE_DEGREE * shrink), latitude + place.left / SPHERE_DEGREE];
}

function outlineOnEarth(outline: readonly PadPoint[]): ReturnType<typeof polygon> {
  const ring = outline.map(onEarth);
  return polygon([[...ring, ring[0] as [number, number]]]);
}

/**
 * What one would write with a general library: try stances on a grid, measure lines with haversine distances, reject
 * overlaps by points in polygons. Edges of obstacles crossing without a corner inside are missed, which flatters it.
 */
export function gridMargin(problem: StanceProblem): number {
  const [exit, , edge] = problem.parts[0]?.limits ?? [];
  const depth = exit?.max ?? 0;
  const half = edge?.max ?? 0;
  const obstacles = problem.obstacles.map((obstacle) => ({ obstacle, shape: outlineOnEarth(obstacle.outline) }));
  let best = -Infinity;
  for (const facing of problem.facings) {
    for (let along = 0; along <= depth - problem.length; along += STEP) {
      for (let left = problem.width / 2 - half; left <= half - problem.width / 2; left += STEP) {
        const stance: Stance = { facing, along, left, yaw: 0 };
        if (overlaps(problem, stance, obstacles)) continue;
        best = Math.max(best, marginAt(problem, stance));
      }
    }
  }
  return best;
}

function overlaps(
  problem: StanceProblem,
  stance: Stance,
  obstacles: readonly {
    readonly obstacle: StanceProblem["obstacles"][number];
    readonly shape: ReturnType<typeof polygon>;
  }[],
): boolean {
  return problem.parts.some((part) => {
    const outline = boxOutline(stance, problem.length, part);
    const shape = outlineOnEarth(outline);
    return obstacles.some(({ obstacle, shape: other }) => {
      if (part.from >= obstacle.to || obstacle.from >= part.to) return false;
      return (
        obstacle.outline.some((corner) => booleanPointInPolygon(point(onEarth(corner)), shape)) ||
        outline.some((corner) => booleanPointInPolygon(point(onEarth(corner)), other))
      );
    });
  });
}

function marginAt(problem: StanceProblem, stance: Stance): number {
  const half = problem.width / 2;
  let worst = Infinity;
  for (const line of problem.lines) {
    const target = padToRig(stance, problem.length, line.target);
    const beyond = [target.left >= half, target.fromRear <= 0, target.left <= -half, target.fromRear >= problem.length];
    let run = Infinity;
    for (const departure of shortestDepartures(line, problem.length, problem.width)) {
      if (departure.wall >= 0 && beyond[departure.wall] !== true) continue;
      const from = rigToPad(stance, problem.length, { fromRear: departure.x, left: departure.y });
      const leg = distance(point(onEarth(from)), point(onEarth(line.target)), { units: "meters" });
      run = Math.min(run, departure.length + leg);
    }
    worst = Math.min(worst, line.law.budget - run);
  }
  return worst;
}
