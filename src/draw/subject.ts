/** What of an answer is drawn, where the rig goes when it has no stance, and the box that shows it all. */
import type { Fit, Scene } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { type Extent, extentOf, isPlaced } from "./projection.ts";

/** How far beyond pad, rig, hookups and lines an obstacle is still drawn, metres; one too long to show less far. */
const OBSTACLE_REACH = 4;
const LONG_OBSTACLE_REACH = 0.5;
/** Distance between everything else and a rig that stands nowhere, metres. */
const ASIDE = 1.5;

type RigScene = NonNullable<Scene["rig"]>;

function movePoint(point: PadPoint, by: PadPoint): PadPoint {
  return { along: point.along + by.along, left: point.left + by.left };
}

/** The rig to the right of everything, level with the rear edge. */
function putAside(rig: RigScene, others: Extent | null): RigScene {
  const own = extentOf([...rig.body, ...rig.slides.flatMap((slide) => slide.outline)]);
  if (!own) {
    return rig;
  }
  const by = { along: -own.alongMin, left: (others ? others.leftMin : 0) - ASIDE - own.leftMax };
  const move = (points: readonly PadPoint[]): PadPoint[] => points.map((point) => movePoint(point, by));
  return {
    ...rig,
    body: move(rig.body),
    nose: move(rig.nose),
    slides: rig.slides.map((slide) => ({ ...slide, outline: move(slide.outline) })),
  };
}

function padCorners(pad: Scene["pad"]): PadPoint[] {
  if (!pad) {
    return [];
  }
  const half = pad.width / 2;
  return [
    { along: 0, left: half },
    { along: 0, left: -half },
    { along: pad.length, left: half },
    { along: pad.length, left: -half },
  ];
}

/** Points that the extent takes in for an obstacle: the whole of a near one, the beginning of a far or long one. */
function nearPart(outline: readonly PadPoint[], core: Extent): PadPoint[] {
  const own = extentOf(outline);
  if (!own) {
    return [];
  }
  const clamp = (value: number, low: number, high: number, size: number): number => {
    const reach = size > 2 * OBSTACLE_REACH ? LONG_OBSTACLE_REACH : OBSTACLE_REACH;
    return Math.min(Math.max(value, low - reach), high + reach);
  };
  return outline.filter(isPlaced).map((point) => ({
    along: clamp(point.along, core.alongMin, core.alongMax, own.alongMax - own.alongMin),
    left: clamp(point.left, core.leftMin, core.leftMax, own.leftMax - own.leftMin),
  }));
}

export interface Subject {
  readonly scene: Scene;
  readonly extent: Extent | null;
  readonly placed: boolean;
}

/** What is to be drawn, with the rig where it goes, and the box that shows it all. */
export function subjectOf(fit: Fit): Subject {
  const { scene } = fit;
  const pad =
    scene.pad &&
    scene.pad.length > 0 &&
    scene.pad.width > 0 &&
    isPlaced({ along: scene.pad.length, left: scene.pad.width })
      ? scene.pad
      : null;
  const placed = fit.stance !== null && scene.rig !== null;
  const fixed = [
    ...padCorners(pad),
    ...(scene.stop ? [{ along: scene.stop.along, left: 0 }] : []),
    ...scene.hookups.map((hookup) => hookup.at),
    ...scene.hookups.flatMap(({ region }) =>
      region
        ? [
            { along: region.alongLow, left: region.leftLow },
            { along: region.alongHigh, left: region.leftHigh },
          ]
        : [],
    ),
  ];
  const rig = scene.rig && !placed ? putAside(scene.rig, extentOf(fixed)) : scene.rig;
  const standing = rig
    ? [
        ...rig.body,
        ...rig.slides.flatMap((slide) => slide.outline),
        ...(placed ? rig.awnings.flatMap((awning) => awning.outline) : []),
      ]
    : [];
  const core = extentOf([...fixed, ...standing, ...(placed ? fit.lines.flatMap((each) => each.path) : [])]);
  const near = scene.obstacles.flatMap((obstacle) => (core ? nearPart(obstacle.outline, core) : obstacle.outline));
  const corners = core
    ? [
        { along: core.alongMin, left: core.leftMin },
        { along: core.alongMax, left: core.leftMax },
      ]
    : [];
  return { scene: { ...scene, pad, rig }, extent: extentOf([...corners, ...near]), placed };
}
