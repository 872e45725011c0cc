/**
 * The solid parts of a rig on a pad and the edges that each must keep: body inside the pad (with permitted rear
 * overhang), wheels before the wheel stop, slides open and clear, awnings open when they are asked for.
 */
import type { CompletedAwning, CompletedRig, CompletedSlideout, RigWall } from "../rig/completed.ts";
import type { CompletedSite } from "../site/completed.ts";
import { TYRE_RADIUS } from "./keep-outs.ts";
import { nominal, type Pick } from "./lines/choice.ts";
import type { HalfPlane, RigBox, RigPart } from "./stance/problem.ts";

export interface PartOptions {
  /** Ids of slides that stay closed. */
  readonly closedSlides: readonly string[];
  /** True when slides may hang over the pad's side edges where nothing on record is in the way. */
  readonly slidesOverEdge: boolean;
  /** Ids of awnings that must open; the others are not solid. */
  readonly openAwnings: readonly string[];
}

interface WallSpan {
  readonly wall: RigWall;
  /** Along the wall: from the rear on the sides, to the left of the centreline on the rear and front. */
  readonly start: number;
  readonly length: number;
  /** Metres outward from the wall. */
  readonly depth: number;
  readonly from: number;
  readonly to: number;
}

function boxOnWall(span: WallSpan, length: number, width: number): RigBox {
  const half = width / 2;
  const end = span.start + span.length;
  const heights = { from: span.from, to: span.to };
  switch (span.wall) {
    case "left":
      return { fromRearMin: span.start, fromRearMax: end, leftMin: half, leftMax: half + span.depth, ...heights };
    case "right":
      return { fromRearMin: span.start, fromRearMax: end, leftMin: -half - span.depth, leftMax: -half, ...heights };
    case "rear":
      return { fromRearMin: -span.depth, fromRearMax: 0, leftMin: span.start, leftMax: end, ...heights };
    case "front":
      return { fromRearMin: length, fromRearMax: length + span.depth, leftMin: span.start, leftMax: end, ...heights };
  }
}

export function slideBox(slide: CompletedSlideout, rig: CompletedRig, pick: Pick = nominal): RigBox {
  return boxOnWall(
    {
      wall: slide.wall,
      start: pick(slide.fromRear),
      length: pick(slide.length),
      depth: pick(slide.depth),
      from: pick(slide.bottom),
      to: pick(slide.top),
    },
    pick(rig.length),
    pick(rig.width),
  );
}

/** The open awning from its rail down to the front bar; what is lower than the bar may stand beneath it. */
export function awningBox(awning: CompletedAwning, rig: CompletedRig, pick: Pick = nominal): RigBox {
  const projection = pick(awning.projection);
  const rail = pick(awning.height);
  return boxOnWall(
    {
      wall: awning.wall,
      start: pick(awning.fromRear),
      length: pick(awning.length),
      depth: projection,
      from: Math.max(0, rail - projection * Math.tan(pick(awning.pitch))),
      to: rail,
    },
    pick(rig.length),
    pick(rig.width),
  );
}

/** How far behind the pad's rear edge the body may hang, metres (negative: it must stay before a stop). */
export function rearReach(rig: CompletedRig, site: CompletedSite, pick: Pick = nominal): number {
  const overhang = site.pad.overhangRear === null ? 0 : pick(site.pad.overhangRear);
  if (site.stop === null) return overhang;
  const { stop } = site;
  const clears = pick(rig.groundClearance) > pick(stop.height);
  const behind = stop.clearBehind === null || !clears ? 0 : pick(stop.clearBehind);
  return Math.min(Math.max(overhang, 0), behind - pick(stop.along));
}

/**
 * Where the rig's nearer end stands when its tyres touch the wheel stop, metres of `along`; null without a stop. A
 * driver backs until they touch, so nobody stands behind it by mistake.
 */
export function alongAtStop(
  rig: CompletedRig,
  site: CompletedSite,
  facing: "out" | "in",
  pick: Pick = nominal,
): number | null {
  if (site.stop === null) return null;
  const rear = pick(rig.rearOverhang);
  const front = Math.min(pick(rig.length), rear + pick(rig.wheelbase) + TYRE_RADIUS);
  const beyondTyres = facing === "out" ? Math.max(0, rear - TYRE_RADIUS) : pick(rig.length) - front;
  return pick(site.stop.along) - beyondTyres;
}

/** Edges of the pad for the body. Null sizes of the pad give no edges: then no stance is claimed. */
export function padEdges(rig: CompletedRig, site: CompletedSite, pick: Pick = nominal): HalfPlane[] {
  const { length, width } = site.pad;
  const edges: HalfPlane[] = [];
  if (length !== null) {
    edges.push({ along: 1, left: 0, max: pick(length), what: "pad edge at the exit" });
    edges.push({ along: -1, left: 0, max: rearReach(rig, site, pick), what: "pad rear edge" });
  }
  if (width !== null) {
    const half = pick(width) / 2;
    edges.push({ along: 0, left: 1, max: half, what: "pad left edge" });
    edges.push({ along: 0, left: -1, max: half, what: "pad right edge" });
  }
  return edges;
}

/** Edges of the site's stated width, centred on the pad; slides and awnings must keep them even over grass. */
function statedWidth(site: CompletedSite, pick: Pick): HalfPlane[] {
  if (site.limits.width === null) return [];
  const half = pick(site.limits.width) / 2;
  return [
    { along: 0, left: 1, max: half, what: "stated width, left" },
    { along: 0, left: -1, max: half, what: "stated width, right" },
  ];
}

/** Body, wheels, open slides and open awnings with the edges that each keeps. */
export function rigParts(
  rig: CompletedRig,
  site: CompletedSite,
  options: PartOptions,
  pick: Pick = nominal,
): RigPart[] {
  const length = pick(rig.length);
  const half = pick(rig.width) / 2;
  const edges = padEdges(rig, site, pick);
  const lot = statedWidth(site, pick);
  const body = { fromRearMin: 0, fromRearMax: length, leftMin: -half, leftMax: half, from: 0, to: pick(rig.height) };
  const parts: RigPart[] = [{ id: "body", kind: "body", ...body, limits: edges }];
  if (site.stop !== null) {
    const rear = pick(rig.rearOverhang);
    const front = Math.min(length, rear + pick(rig.wheelbase) + TYRE_RADIUS);
    const stopLine = { along: -1, left: 0, max: -pick(site.stop.along), what: "wheel stop" };
    parts.push({
      id: "wheels",
      kind: "wheels",
      ...body,
      fromRearMin: Math.max(0, rear - TYRE_RADIUS),
      fromRearMax: front,
      to: 2 * TYRE_RADIUS,
      limits: [stopLine],
    });
  }
  for (const slide of rig.slideouts) {
    if (options.closedSlides.includes(slide.id)) continue;
    const limits = options.slidesOverEdge ? lot : [...edges, ...lot];
    parts.push({ id: slide.id, kind: "slide", ...slideBox(slide, rig, pick), limits });
  }
  for (const awning of rig.awnings) {
    if (!options.openAwnings.includes(awning.id)) continue;
    parts.push({ id: awning.id, kind: "awning", ...awningBox(awning, rig, pick), limits: lot });
  }
  return parts;
}

/** A person works upright beside the rig up to this height, metres. Assumed. */
const PERSON_HEIGHT = 2;

/**
 * Strips of working space along every wall that has connections, outward from the wall and from its open slides. They
 * keep clear of solids as a part does; they keep no edge.
 */
export function serviceStrips(
  rig: CompletedRig,
  depth: number,
  closedSlides: readonly string[],
  pick: Pick = nominal,
): RigPart[] {
  const length = pick(rig.length);
  const width = pick(rig.width);
  const walls = [...new Set(rig.connections.map((connection) => connection.wall))];
  return walls.flatMap((wall): RigPart[] => {
    const lengthwise = wall === "left" || wall === "right";
    const start = lengthwise ? 0 : -width / 2;
    const span = { wall, start, length: lengthwise ? length : width, depth, from: 0, to: PERSON_HEIGHT };
    const strip: RigPart = { id: `working space ${wall}`, kind: "body", ...boxOnWall(span, length, width), limits: [] };
    const slides = rig.slideouts.filter((slide) => slide.wall === wall && !closedSlides.includes(slide.id));
    const beside = slides.map((slide): RigPart => {
      const reach = {
        ...span,
        start: pick(slide.fromRear),
        length: pick(slide.length),
        depth: pick(slide.depth) + depth,
      };
      return { id: `working space ${slide.id}`, kind: "body", ...boxOnWall(reach, length, width), limits: [] };
    });
    return [strip, ...beside];
  });
}
