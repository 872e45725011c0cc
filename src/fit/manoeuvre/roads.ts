/** The road before one end of the pad: from the map where it crosses the pad's axis, else from the record's words. */
import type { CompletedSite, SiteRoad } from "../../site/completed.ts";
import type { PadPoint } from "../stance/problem.ts";
import { type End, type Road, seenFrom } from "./ground.ts";

export type RoadFinding =
  | {
      readonly known: true;
      /** One road, or the two ways in which a stated angle can lie. */
      readonly roads: readonly Road[];
      readonly source: string;
      readonly assumed: readonly { readonly path: string; readonly value: string; readonly source: string }[];
    }
  | { readonly known: false; readonly why: string; readonly measure: readonly string[] };

const DEGREE = Math.PI / 180;
/** A road farther from the pad's edge than this is not the one that the pad opens to, metres. Assumed. */
const FARTHEST = 15;
/** Bends up to this count as straight, and a stated angle may differ from the map by it, radians. Assumed. */
const STRAIGHT = 10 * DEGREE;
/** Nearer to the pad's own direction than this a road runs along the pad, radians. */
const LEAST_ANGLE = 15 * DEGREE;

interface Crossing {
  readonly road: SiteRoad;
  readonly width: number;
  readonly angle: number;
  readonly out: number;
  readonly from: number;
  readonly to: number;
  readonly oneWay: Road["oneWay"];
}

function headingOf(a: PadPoint, b: PadPoint): number {
  return Math.atan2(b.left - a.left, b.along - a.along);
}

/** Metres from corner `index` outwards in steps of `step` while the line stays straight. */
function straightOn(line: readonly PadPoint[], index: number, step: 1 | -1, heading: number): number {
  let metres = 0;
  for (let at = index; ; at += step) {
    const [here, next] = [line[at], line[at + step]];
    if (here === undefined || next === undefined) return metres;
    const way = step === 1 ? headingOf(here, next) : headingOf(next, here);
    if (Math.abs(Math.atan2(Math.sin(way - heading), Math.cos(way - heading))) > STRAIGHT) return metres;
    metres += Math.hypot(next.along - here.along, next.left - here.left);
  }
}

function crossings(road: SiteRoad, width: number, line: readonly PadPoint[]): Crossing[] {
  return line.flatMap((b, index): Crossing[] => {
    const a = line[index - 1];
    if (a === undefined || a.left === b.left || a.left * b.left > 0) return [];
    const share = a.left / (a.left - b.left);
    const out = a.along + share * (b.along - a.along);
    const heading = headingOf(a, b);
    const toLeft = b.left > a.left;
    const size = Math.hypot(b.along - a.along, b.left - a.left);
    // A bend or an end of the line is still road for half its width.
    const before = size * share + straightOn(line, index - 1, -1, heading) + width / 2;
    const after = size * (1 - share) + straightOn(line, index, 1, heading) + width / 2;
    return [
      {
        road,
        width,
        angle: toLeft ? heading : heading + (heading > 0 ? -Math.PI : Math.PI),
        out,
        from: toLeft ? -before : -after,
        to: toLeft ? after : before,
        oneWay: road.oneWay ? (toLeft ? "left" : "right") : null,
      },
    ];
  });
}

function onMap(
  site: CompletedSite,
  end: End,
  length: number,
  recorded: number | null,
): (Crossing & { readonly gap: number }) | null {
  const found = (site.access.roads ?? []).flatMap((road) => {
    const width = recorded ?? road.width;
    if (width === null) return [];
    return crossings(
      road,
      width,
      road.line.map((point) => seenFrom(end, length, point)),
    );
  });
  const before = found
    .map((one) => ({ ...one, gap: one.out - one.width / 2 / Math.sin(one.angle) }))
    .filter((one) => one.out > 0 && one.gap < FARTHEST && one.gap > -one.width / 2)
    .sort((a, b) => a.gap - b.gap);
  return before[0] ?? null;
}

const PATHS = { width: "/site/properties/access/roadWidth", angle: "/site/properties/access/angle" };

function fromMap(found: Crossing & { readonly gap: number }, stated: number | null): RoadFinding {
  const { angle, gap, width, oneWay } = found;
  if (Math.min(angle, Math.PI - angle) < LEAST_ANGLE) {
    return {
      known: false,
      why: "The road runs along the pad, and turning into such a pad is not judged.",
      measure: [],
    };
  }
  const off = stated === null ? 0 : Math.min(Math.abs(stated - angle), Math.abs(Math.PI - stated - angle));
  if (off > STRAIGHT) {
    const words = `${Math.round((stated ?? 0) / DEGREE)} degrees, the map ${Math.round(angle / DEGREE)}`;
    const why = `The record's angle between road and pad is ${words}: one of them is wrong.`;
    return { known: false, why, measure: [PATHS.angle] };
  }
  // From the crossing of the road's middle to that of its near edge, along the road.
  const shift = (width / 2) * (Math.cos(angle) / Math.sin(angle));
  const road = { gap, angle, width, from: found.from + shift, to: found.to + shift, oneWay, sigma: found.road.sigma };
  return { known: true, roads: [road], source: `the map's road ${found.road.id}`, assumed: [] };
}

/** The road before an end. `recorded`: whether the record's words on access hold for this end. */
export function roadBefore(
  site: CompletedSite,
  end: End,
  length: number,
  width: number,
  recorded: boolean,
): RoadFinding {
  const { roadWidth, angle } = site.access;
  const found = onMap(site, end, length, recorded ? roadWidth : null);
  if (found !== null) return fromMap(found, recorded ? angle : null);
  if (!recorded) {
    return {
      known: false,
      why: `The road at the pad's ${end === "rear" ? "entry" : "exit"} is not on record.`,
      measure: [],
    };
  }
  if (roadWidth === null || angle === null) {
    const lacking = [...(roadWidth === null ? ["width"] : []), ...(angle === null ? ["angle to the pad"] : [])];
    const measure = [...(roadWidth === null ? [PATHS.width] : []), ...(angle === null ? [PATHS.angle] : [])];
    return { known: false, why: `The road's ${lacking.join(" and ")} is not on record.`, measure };
  }
  if (Math.min(angle, Math.PI - angle) < LEAST_ANGLE) {
    return {
      known: false,
      why: "The road runs along the pad, and turning into such a pad is not judged.",
      measure: [],
    };
  }
  // The near edge touches the corner of the pad that stands out furthest towards it.
  const road = (way: number): Road => ({
    gap: Math.abs(Math.cos(way) / Math.sin(way)) * (width / 2),
    angle: way,
    width: roadWidth,
    from: Number.NEGATIVE_INFINITY,
    to: Number.POSITIVE_INFINITY,
    oneWay: null,
    sigma: 0,
  });
  const both = Math.abs(angle - Math.PI / 2) > DEGREE ? [road(angle), road(Math.PI - angle)] : [road(angle)];
  const assumed = [
    {
      path: "/site/properties/access",
      value:
        "the road is straight, driven both ways, and its edge touches the pad" +
        (both.length > 1 ? "; it may lean to either side, and the worse counts" : ""),
      source: "assumed",
    },
  ];
  return { known: true, roads: both, source: "the site's record, /access", assumed };
}
