/** Completed rigs and sites made by hand, asymmetric throughout, for tests of the fit itself. */
import type { FitInput } from "../../../src/fit/fit.ts";
import { completeOptions, type FitOptionsInput, fitOptionsSchema } from "../../../src/fit/options.ts";
import type { CompletedConnection, CompletedRig, RigWall, Service } from "../../../src/rig/completed.ts";
import type { CompletedHookup, CompletedReceptacle, CompletedSite, SiteObstacle } from "../../../src/site/completed.ts";
import type { Estimate } from "../../../src/units/estimate.ts";

export function exact(value: number, path = "/x"): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis: "measured", path };
}

export function measured(value: number, sigma: number, path = "/x"): Estimate {
  return { ...exact(value, path), sigma };
}

export function between(low: number, high: number, path = "/x"): Estimate {
  return { ...exact((low + high) / 2, path), low, high, basis: "described" };
}

export interface ConnectionSpec {
  readonly service: Service;
  readonly wall?: RigWall;
  readonly fromRear: number;
  readonly height?: number | null;
  readonly length: number;
  readonly plug?: string;
  readonly beneath?: boolean;
}

export function connection(spec: ConnectionSpec, width: number, rigLength: number): CompletedConnection {
  const wall = spec.wall ?? "left";
  const offset = { left: width / 2, right: -width / 2, rear: 0.3, front: 0.3 }[wall];
  const fromRear = wall === "rear" ? 0 : wall === "front" ? rigLength : spec.fromRear;
  const path = `/connections/${spec.service}`;
  return {
    id: spec.service,
    service: spec.service,
    wall,
    fromRear: exact(fromRear, `${path}/fromRear`),
    left: exact(offset, `${path}/left`),
    height: spec.height === null ? null : exact(spec.height ?? 0.8, `${path}/height`),
    plug: spec.service === "power" ? (spec.plug ?? "nema-tt-30") : null,
    line: {
      length: exact(spec.length, `${path}/line/length`),
      workingLength: exact(spec.length, `${path}/line/length`),
      gauge: spec.service === "power" ? { awg: 10 } : null,
      diameter: spec.service === "water" ? 0.0127 : null,
      drinkingWater: spec.service === "water" ? true : null,
      rating: spec.service === "power" ? 30 : null,
      fittings: 0,
    },
    mayRunBeneath: spec.beneath ?? false,
    path,
  };
}

export interface RigSpec {
  readonly length?: number;
  readonly width?: number;
  readonly connections: readonly ConnectionSpec[];
}

/** An invented class C: door and awning on the right. */
export function rig(spec: RigSpec, more: Partial<CompletedRig> = {}): CompletedRig {
  const length = spec.length ?? 7.6;
  const width = spec.width ?? 2.4;
  return {
    id: "rig-1",
    name: "Invented coach",
    class: "class-c",
    length: exact(length, "/length"),
    width: exact(width, "/width"),
    height: exact(3.4, "/height"),
    wheelbase: exact(4.2, "/wheelbase"),
    rearOverhang: exact(2.3, "/rearOverhang"),
    groundClearance: exact(0.25, "/groundClearance"),
    towing: null,
    connections: spec.connections.map((one) => connection(one, width, length)),
    slideouts: [],
    doors: [{ id: "door", wall: "right", fromRear: exact(4.4), width: exact(0.7), given: true, path: "/doors/0" }],
    hotOutlets: [],
    awnings: [
      {
        id: "awning",
        wall: "right",
        fromRear: exact(1.5),
        length: exact(4),
        projection: exact(2.4),
        height: exact(2.9),
        pitch: exact(0.15),
        windClass: null,
        path: "/awnings/0",
      },
    ],
    tanks: { fresh: 150, grey: 120, black: 110, propane: null },
    appliances: [],
    generator: null,
    kit: [],
    offLevelLimit: null,
    assumed: [],
    warnings: [],
    ...more,
  };
}

export function receptacle(
  id: string,
  type: string,
  amps: number,
  more: Partial<CompletedReceptacle> = {},
): CompletedReceptacle {
  return {
    id,
    type,
    amps,
    ampsGiven: true,
    volts: 120,
    state: "working",
    checkedAt: null,
    forSites: null,
    path: `/site/properties/hookups/${id}`,
    ...more,
  };
}

export interface HookupSpec {
  readonly service: Service;
  readonly along: number | Estimate;
  readonly left: number | Estimate;
  readonly height?: number | null;
  readonly receptacles?: readonly CompletedReceptacle[];
  readonly shared?: boolean;
}

function place(value: number | Estimate, path: string): Estimate {
  return typeof value === "number" ? exact(value, path) : { ...value, path };
}

export function hookup(spec: HookupSpec): CompletedHookup {
  const path = `/site/properties/hookups/${spec.service}`;
  const own = spec.service === "power" ? [receptacle("tt", "nema-tt-30", 30)] : [];
  return {
    id: spec.service,
    service: spec.service,
    along: place(spec.along, `${path}/at/along`),
    left: place(spec.left, `${path}/at/left`),
    height: spec.height === null ? null : exact(spec.height ?? 0.5, `${path}/at/height`),
    body: null,
    pedestal: null,
    shared: spec.shared ?? false,
    receptacles: spec.receptacles ?? own,
    sewer: spec.service === "sewer" ? { diameter: 0.1, threaded: "yes" } : null,
    water: spec.service === "water" ? { thread: null, pressure: null, drinkable: "yes", seasonal: null } : null,
    path,
  };
}

export function obstacle(
  id: string,
  alongs: readonly [number, number],
  lefts: readonly [number, number],
  more: Partial<SiteObstacle> = {},
): SiteObstacle {
  return {
    id,
    what: "post",
    outline: [
      { along: alongs[0], left: lefts[0] },
      { along: alongs[1], left: lefts[0] },
      { along: alongs[1], left: lefts[1] },
      { along: alongs[0], left: lefts[1] },
    ],
    from: 0,
    to: 3,
    heightGiven: true,
    bars: "both",
    sigma: 0,
    sigmaShared: 0,
    path: `/site/properties/obstacles/${id}`,
    ...more,
  };
}

export interface SiteSpec {
  readonly length?: number;
  readonly width?: number;
  readonly hookups: readonly HookupSpec[];
}

/** An invented level back-in site; people sit on the right. */
export function site(spec: SiteSpec, more: Partial<CompletedSite> = {}): CompletedSite {
  const has = (service: Service) => (spec.hookups.some((one) => one.service === service) ? "yes" : "no");
  return {
    id: "site-1",
    name: "Site 1",
    campgroundId: "invented",
    layout: "back-in",
    facings: ["out", "in"],
    facingsStated: false,
    pad: {
      length: exact(spec.length ?? 11, "/site/properties/pad/length"),
      width: exact(spec.width ?? 3.8, "/site/properties/pad/width"),
      heading: exact(0.7, "/site/properties/heading"),
      origin: null,
      surface: "gravel",
      grade: exact(0, "/site/properties/pad/grade"),
      crossfall: exact(0, "/site/properties/pad/crossfall"),
      overhangRear: null,
    },
    stop: null,
    services: { power: has("power"), water: has("water"), sewer: has("sewer"), cable: "no", fill: "no" },
    hookups: spec.hookups.map(hookup),
    obstacles: [],
    patio: "right",
    limits: { length: null, width: null, height: null, amps: null },
    access: { roadWidth: null, angle: null, exit: null, clearHeight: null },
    extraVehicle: null,
    rules: { noseIn: null, awning: null, generatorHours: null, maxVehicles: null, largerBreaker: null },
    accessible: "unknown",
    shade: null,
    closed: null,
    electricalSystem: "120/240",
    drivesOn: "right",
    sitingCode: null,
    elevation: null,
    sources: [],
    assumed: [],
    warnings: [],
    ...more,
  };
}

export function options(input: FitOptionsInput = {}) {
  return completeOptions(fitOptionsSchema.parse(input));
}

/** Options under which the geometry stands bare: no clearance, devices, working space or scatter. */
export const BARE: FitOptionsInput = {
  clearance: 0,
  devices: "ignore",
  workspace: false,
  parking: { along: 0, across: 0, yaw: 0 },
  comfort: 0,
};

export function question(rigSpec: RigSpec, siteSpec: SiteSpec, input: FitOptionsInput = {}): FitInput {
  return { rig: rig(rigSpec), site: site(siteSpec), options: options(input) };
}
