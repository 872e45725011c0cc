/** A lopsided rig and pad: nothing on the left equals anything on the right. Invented. */
import type {
  CompletedAwning,
  CompletedConnection,
  CompletedRig,
  CompletedSlideout,
} from "../../../src/rig/completed.ts";
import type { CompletedHookup, CompletedSite, SiteObstacle } from "../../../src/site/completed.ts";
import type { Estimate } from "../../../src/units/estimate.ts";

export const FOOT = 0.3048;
export const INCH = 0.0254;

/** An exact, measured value. */
export function known(value: number, path = "/test"): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis: "measured", path };
}

export function ranged(low: number, high: number, path = "/test"): Estimate {
  return { value: (low + high) / 2, low, high, sigma: 0, sigmaShared: 0, basis: "described", path };
}

export function measured(
  value: number,
  sigma: number,
  path = "/test",
  shared: { sigma: number; survey: string } | null = null,
): Estimate {
  const base = { ...known(value, path), sigma };
  return shared === null ? base : { ...base, sigmaShared: shared.sigma, survey: shared.survey };
}

export function connection(over: Partial<CompletedConnection> = {}): CompletedConnection {
  return {
    id: "sewer-1",
    service: "sewer",
    wall: "left",
    fromRear: known(2),
    left: known(1.3),
    height: known(0.4),
    plug: null,
    line: null,
    mayRunBeneath: false,
    path: "/rig/connections/0",
    ...over,
  };
}

export function slide(over: Partial<CompletedSlideout> = {}): CompletedSlideout {
  return {
    id: "kitchen",
    wall: "left",
    fromRear: known(3),
    length: known(2.2),
    depth: known(0.7),
    bottom: known(0.9),
    top: known(2.7),
    required: true,
    path: "/rig/slideouts/0",
    ...over,
  };
}

export function awning(over: Partial<CompletedAwning> = {}): CompletedAwning {
  return {
    id: "main",
    wall: "right",
    fromRear: known(2.5),
    length: known(4),
    projection: known(2.4),
    height: known(2.9),
    pitch: known(0.2),
    windClass: null,
    path: "/rig/awnings/0",
    ...over,
  };
}

export function rig(over: Partial<CompletedRig> = {}): CompletedRig {
  return {
    id: "test",
    name: null,
    class: "class-c",
    length: known(9, "/rig/length"),
    width: known(2.6, "/rig/width"),
    height: known(3.5, "/rig/height"),
    wheelbase: known(5, "/rig/wheelbase"),
    rearOverhang: known(3, "/rig/rearOverhang"),
    groundClearance: known(0.3, "/rig/groundClearance"),
    towing: null,
    connections: [connection()],
    slideouts: [slide()],
    doors: [{ id: "entry", wall: "right", fromRear: known(6.7), width: known(0.7), given: true, path: "/rig/doors/0" }],
    hotOutlets: [],
    awnings: [awning()],
    tanks: { fresh: null, grey: null, black: null, propane: null },
    appliances: [],
    generator: null,
    kit: [],
    offLevelLimit: null,
    assumed: [],
    warnings: [],
    ...over,
  };
}

export function obstacle(
  id: string,
  what: string,
  box: [number, number, number, number],
  over: Partial<SiteObstacle> = {},
): SiteObstacle {
  const [alongLow, alongHigh, leftLow, leftHigh] = box;
  return {
    id,
    what,
    outline: [
      { along: alongLow, left: leftLow },
      { along: alongHigh, left: leftLow },
      { along: alongHigh, left: leftHigh },
      { along: alongLow, left: leftHigh },
    ],
    from: 0,
    to: 6,
    heightGiven: true,
    bars: "both",
    sigma: 0,
    sigmaShared: 0,
    path: `/site/properties/obstacles/${id}`,
    ...over,
  };
}

export function hookup(over: Partial<CompletedHookup> = {}): CompletedHookup {
  return {
    id: "tap",
    service: "water",
    along: known(4),
    left: known(3),
    height: known(0.8),
    body: null,
    pedestal: null,
    shared: false,
    receptacles: [],
    sewer: null,
    water: { thread: "3/4-11.5NH", pressure: null, drinkable: "yes", seasonal: null },
    path: "/site/properties/hookups/0",
    ...over,
  };
}

export function site(over: Partial<CompletedSite> = {}): CompletedSite {
  return {
    id: "7",
    name: "7",
    campgroundId: null,
    layout: "back-in",
    facings: ["out", "in"],
    facingsStated: true,
    pad: {
      length: known(12, "/site/properties/pad/length"),
      width: known(4, "/site/properties/pad/width"),
      heading: null,
      origin: null,
      surface: null,
      grade: null,
      crossfall: null,
      overhangRear: null,
    },
    stop: null,
    services: { power: "unknown", water: "unknown", fill: "unknown", sewer: "unknown", cable: "unknown" },
    hookups: [],
    obstacles: [],
    patio: null,
    limits: { length: null, width: null, height: null, amps: null },
    access: { roadWidth: null, angle: null, exit: null, clearHeight: null },
    extraVehicle: null,
    rules: { noseIn: null, awning: null, generatorHours: null, maxVehicles: null, largerBreaker: null },
    accessible: "unknown",
    shade: null,
    closed: null,
    electricalSystem: null,
    drivesOn: null,
    sitingCode: null,
    elevation: null,
    sources: [],
    assumed: [],
    warnings: [],
    ...over,
  };
}

export function pad(over: Partial<CompletedSite["pad"]>): CompletedSite["pad"] {
  return { ...site().pad, ...over };
}
