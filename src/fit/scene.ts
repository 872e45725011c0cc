/** What a picture of the answer needs, in the pad frame, made once from the completed records and the stance shown. */
import type { CompletedDoor, CompletedRig, RigWall } from "../rig/completed.ts";
import type { CompletedHookup, CompletedSite } from "../site/completed.ts";
import type { Estimate } from "../units/estimate.ts";
import type { Scene } from "./answer.ts";
import { awningBox, slideBox } from "./parts.ts";
import { bodyOutline, boxOutline, rigToPad } from "./stance/index.ts";
import type { PadPoint, RigPoint, Stance } from "./stance/problem.ts";

/** Length of the nose mark as a share of the body's width. */
const NOSE_SHARE = 1 / 4;

function onWall(
  rig: CompletedRig,
  wall: RigWall,
  fromRear: number,
): { readonly at: RigPoint; readonly outward: RigPoint } {
  const half = rig.width.value / 2;
  const length = rig.length.value;
  switch (wall) {
    case "left":
      return { at: { fromRear, left: half }, outward: { fromRear: 0, left: 1 } };
    case "right":
      return { at: { fromRear, left: -half }, outward: { fromRear: 0, left: -1 } };
    case "rear":
      return { at: { fromRear: 0, left: fromRear }, outward: { fromRear: -1, left: 0 } };
    case "front":
      return { at: { fromRear: length, left: fromRear }, outward: { fromRear: 1, left: 0 } };
  }
}

function doorOf(door: CompletedDoor, rig: CompletedRig, stance: Stance) {
  const length = rig.length.value;
  const { at, outward } = onWall(rig, door.wall, door.fromRear.value + door.width.value / 2);
  const tip = { fromRear: at.fromRear + outward.fromRear, left: at.left + outward.left };
  const foot = rigToPad(stance, length, at);
  const end = rigToPad(stance, length, tip);
  return {
    id: door.id,
    at: foot,
    outward: { along: end.along - foot.along, left: end.left - foot.left },
    width: door.width.value,
    given: door.given,
  };
}

function noseMark(rig: CompletedRig, stance: Stance): readonly PadPoint[] {
  const length = rig.length.value;
  const half = rig.width.value / 2;
  const back = length - rig.width.value * NOSE_SHARE;
  return [
    { fromRear: back, left: -half },
    { fromRear: length, left: 0 },
    { fromRear: back, left: half },
  ].map((point) => rigToPad(stance, length, point));
}

function rigScene(
  rig: CompletedRig,
  stance: Stance,
  openAwnings: readonly string[],
  closedSlides: readonly string[],
): NonNullable<Scene["rig"]> {
  const length = rig.length.value;
  const width = rig.width.value;
  return {
    stance,
    length,
    width,
    body: bodyOutline(stance, length, width),
    nose: noseMark(rig, stance),
    slides: rig.slideouts
      .filter((slide) => !closedSlides.includes(slide.id))
      .map((slide) => ({ id: slide.id, outline: boxOutline(stance, length, slideBox(slide, rig)) })),
    awnings: rig.awnings.map((awning) => ({
      id: awning.id,
      outline: boxOutline(stance, length, awningBox(awning, rig)),
      open: openAwnings.includes(awning.id),
    })),
    doors: rig.doors.map((door) => doorOf(door, rig, stance)),
    hotOutlets: rig.hotOutlets.map((outlet) => ({
      id: outlet.id,
      what: outlet.what,
      at: rigToPad(stance, length, onWall(rig, outlet.wall, outlet.fromRear.value).at),
    })),
    connections: rig.connections.map((connection) => ({
      id: connection.id,
      service: connection.service,
      at: rigToPad(stance, length, { fromRear: connection.fromRear.value, left: connection.left.value }),
    })),
  };
}

function hasRange(estimate: Estimate): boolean {
  return estimate.low < estimate.high;
}

function hookupScene(hookup: CompletedHookup): Scene["hookups"] {
  const { along, left } = hookup;
  if (along === null || left === null) return [];
  const region =
    hasRange(along) || hasRange(left)
      ? { alongLow: along.low, alongHigh: along.high, leftLow: left.low, leftHigh: left.high }
      : null;
  const amps = hookup.receptacles.flatMap((receptacle) => (receptacle.amps === null ? [] : [`${receptacle.amps} A`]));
  return [
    {
      id: hookup.id,
      service: hookup.service,
      at: { along: along.value, left: left.value },
      sigma: Math.hypot(along.sigma, along.sigmaShared),
      region,
      pedestal: hookup.pedestal,
      label: hookup.service === "power" ? `power ${[...new Set(amps)].join("/")}`.trim() : hookup.service,
    },
  ];
}

export interface SceneInput {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly stance: Stance | null;
  readonly openAwnings: readonly string[];
  readonly closedSlides: readonly string[];
}

/** The scene of an answer; `heading` in radians. */
export function makeScene({ rig, site, stance, openAwnings, closedSlides }: SceneInput): Scene {
  const { pad } = site;
  return {
    pad:
      pad.length === null || pad.width === null
        ? null
        : { length: pad.length.value, width: pad.width.value, heading: pad.heading?.value ?? null },
    stop: site.stop === null ? null : { kind: site.stop.kind, along: site.stop.along.value },
    rig: stance === null ? null : rigScene(rig, stance, openAwnings, closedSlides),
    hookups: site.hookups.flatMap(hookupScene),
    obstacles: site.obstacles.map(({ id, what, outline, from, to, bars }) => ({
      id,
      what,
      outline,
      from,
      to: Number.isFinite(to) ? to : null,
      bars,
    })),
    patio: site.patio,
  };
}
