/**
 * Many sites as columns of numbers, so that one rig can be held against a million of them: what bounds a reach, what
 * is stated as a limit, and which receptacles there are. Pad frame, metres. Nothing here is an answer by itself.
 */
import type { CompletedHookup, CompletedReceptacle, CompletedSite, Service } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import { type Device, devices } from "../devices.ts";
import { type Columns, growColumns } from "./columns.ts";

/** Numbers of the services in the columns. */
export const SERVICE_NUMBERS: readonly Service[] = ["power", "water", "sewer", "cable", "fill"];

/** Errors are looked at to this many standard deviations: a refusal must hold whatever the tape got wrong. */
const SIGMAS = 4;

export const FLAG = {
  out: 1,
  in: 2,
  closed: 4,
  /** The record says that there is power, or lists a power hookup. */
  hasPower: 8,
  /** Nobody said how far a rear end may hang over. */
  overhangUnknown: 16,
  /** Nothing on record but pad and hookups, all of them without error, on level or unmeasured ground. */
  plain: 32,
  /** A stance may be tried on the columns alone: level or unmeasured ground, no wheel stop, no stated width. */
  tryable: 64,
} as const;

/** What decides the mating of a receptacle with a rig; receptacles that agree in it are one kind. */
export interface ReceptacleKind {
  readonly receptacle: CompletedReceptacle;
  readonly shared: boolean;
  readonly largerBreaker: boolean | null;
  readonly electricalSystem: string | null;
}

export interface ScreenSites {
  readonly count: number;
  /** Per site; NaN where the record gives no pad. */
  readonly padLength: Float32Array;
  readonly padLengthHigh: Float32Array;
  readonly padWidth: Float32Array;
  readonly padWidthHigh: Float32Array;
  /** How far the body may hang behind the rear edge: nominal, and at the most. */
  readonly rear: Float32Array;
  readonly rearHigh: Float32Array;
  /** Stated limits at the most; Infinity without one. */
  readonly lengthLimit: Float32Array;
  readonly heightLimit: Float32Array;
  readonly flags: Float32Array;
  /** 1 where the pad's slope is on record. */
  readonly slopeKnown: Float32Array;
  /** Bit n: the record says that there is no service number n and lists no hookup of it. */
  readonly absent: Float32Array;
  /** Hookups of site i are numbers start[i] to start[i + 1]. */
  readonly hookupStart: Uint32Array;
  readonly service: Float32Array;
  /** NaN where nobody knows the place. */
  readonly along: Float32Array;
  readonly left: Float32Array;
  /** Farthest that the true place may be from there. */
  readonly spread: Float32Array;
  /** NaN where the record gives no height. */
  readonly height: Float32Array;
  /** Half sizes of the solid that stands there; 0 for none. */
  readonly halfDepth: Float32Array;
  readonly halfWidth: Float32Array;
  readonly solidHeight: Float32Array;
  /** Receptacles of hookup h are numbers start[h] to start[h + 1] of `receptacle`, which are places in `kinds`. */
  readonly receptacleStart: Uint32Array;
  readonly receptacle: Float32Array;
  readonly kinds: readonly ReceptacleKind[];
  /** Boxes about the things on record of site i are numbers start[i] to start[i + 1]. */
  readonly thingStart: Uint32Array;
  readonly thingAlongMin: Float32Array;
  readonly thingAlongMax: Float32Array;
  readonly thingLeftMin: Float32Array;
  readonly thingLeftMax: Float32Array;
  /** 1 for what only the rig keeps clear of, 2 for what only lines do, 3 for both. */
  readonly thingBars: Float32Array;
}

const SITE_COLUMNS = [
  "padLength",
  "padLengthHigh",
  "padWidth",
  "padWidthHigh",
  "rear",
  "rearHigh",
  "lengthLimit",
  "heightLimit",
  "flags",
  "slopeKnown",
  "absent",
] as const;
const HOOKUP_COLUMNS = [
  "service",
  "along",
  "left",
  "spread",
  "height",
  "halfDepth",
  "halfWidth",
  "solidHeight",
] as const;
const THING_COLUMNS = ["alongMin", "alongMax", "leftMin", "leftMax", "bars"] as const;

export const BARS = { rig: 1, line: 2, both: 3 } as const;

function high(estimate: Estimate): number {
  return estimate.high + SIGMAS * Math.hypot(estimate.sigma, estimate.sigmaShared);
}

/** Farthest of the true value from the nominal one. */
function reachOf(estimate: Estimate): number {
  const range = Math.max(estimate.high - estimate.value, estimate.value - estimate.low);
  return range + SIGMAS * Math.hypot(estimate.sigma, estimate.sigmaShared);
}

function isExact(estimate: Estimate | null): boolean {
  return estimate !== null && reachOf(estimate) === 0;
}

function isLevel(slope: Estimate | null): boolean {
  return slope === null || slope.value === 0;
}

function isTryable(site: CompletedSite): boolean {
  const { pad } = site;
  return (
    site.stop === null &&
    site.limits.width === null &&
    pad.length !== null &&
    pad.width !== null &&
    isLevel(pad.grade) &&
    isLevel(pad.crossfall)
  );
}

/** Collects sites one after another; memory grows with the columns alone. */
export class ScreenSitesBuilder {
  readonly #sites: Columns = growColumns(SITE_COLUMNS);
  readonly #hookups: Columns = growColumns(HOOKUP_COLUMNS);
  readonly #starts: number[] = [];
  readonly #receptacleStarts: number[] = [];
  readonly #thingStarts: number[] = [];
  readonly #things: Columns = growColumns(THING_COLUMNS);
  readonly #receptacles: Columns = growColumns(["kind"]);
  readonly #kinds = new Map<string, number>();
  readonly #kindList: ReceptacleKind[] = [];

  add(site: CompletedSite): void {
    this.#starts.push(this.#hookups.length);
    const { length, width, overhangRear } = site.pad;
    const rearHigh = overhangRear === null ? 0 : Math.max(0, high(overhangRear));
    this.#sites.push([
      length?.value ?? Number.NaN,
      length === null ? Number.NaN : high(length),
      width?.value ?? Number.NaN,
      width === null ? Number.NaN : high(width),
      overhangRear?.value ?? 0,
      rearHigh,
      site.limits.length === null ? Infinity : high(site.limits.length),
      site.limits.height === null ? Infinity : high(site.limits.height),
      flagsOf(site),
      site.pad.grade !== null && site.pad.crossfall !== null ? 1 : 0,
      absentOf(site),
    ]);
    this.#thingStarts.push(this.#things.length);
    for (const { outline, bars } of site.obstacles) {
      const alongs = outline.map((corner) => corner.along);
      const lefts = outline.map((corner) => corner.left);
      this.#things.push([Math.min(...alongs), Math.max(...alongs), Math.min(...lefts), Math.max(...lefts), BARS[bars]]);
    }
    const solids = new Map(devices(site, "assumed").map((device) => [device.id, device]));
    for (const hookup of site.hookups) {
      const id = hookup.pedestal ?? hookup.id;
      const solid = solids.get(id);
      solids.delete(id);
      this.#addHookup(site, hookup, solid === undefined ? NO_SOLID : solidOf(solid));
    }
  }

  #addHookup(site: CompletedSite, hookup: CompletedHookup, solid: Solid): void {
    const { along, left, height } = hookup;
    const known = along !== null && left !== null;
    this.#receptacleStarts.push(this.#receptacles.length);
    for (const receptacle of hookup.receptacles) this.#receptacles.push([this.#kindOf(site, hookup, receptacle)]);
    this.#hookups.push([
      SERVICE_NUMBERS.indexOf(hookup.service),
      known ? along.value : Number.NaN,
      known ? left.value : Number.NaN,
      known ? Math.hypot(reachOf(along), reachOf(left)) : Infinity,
      height?.value ?? Number.NaN,
      ...solid,
    ]);
  }

  #kindOf(site: CompletedSite, hookup: CompletedHookup, receptacle: CompletedReceptacle): number {
    const { type, amps, ampsGiven, volts, state, forSites } = receptacle;
    const allotted = forSites === null ? "unsaid" : forSites.includes(site.id) ? "here" : "elsewhere";
    const key = JSON.stringify([
      type,
      amps,
      ampsGiven,
      volts,
      state,
      allotted,
      hookup.shared,
      site.rules.largerBreaker,
      site.electricalSystem,
    ]);
    const known = this.#kinds.get(key);
    if (known !== undefined) return known;
    const place = this.#kindList.length;
    this.#kinds.set(key, place);
    this.#kindList.push({
      receptacle: { ...receptacle, forSites: allotted === "unsaid" ? null : allotted === "here" ? [HERE] : [] },
      shared: hookup.shared,
      largerBreaker: site.rules.largerBreaker,
      electricalSystem: site.electricalSystem,
    });
    return place;
  }

  build(): ScreenSites {
    const hookupStart = Uint32Array.from(this.#starts.concat(this.#hookups.length));
    const receptacleStart = Uint32Array.from(this.#receptacleStarts.concat(this.#receptacles.length));
    const thing = (name: (typeof THING_COLUMNS)[number]) => this.#things.column(THING_COLUMNS.indexOf(name));
    const site = (name: (typeof SITE_COLUMNS)[number]) => this.#sites.column(SITE_COLUMNS.indexOf(name));
    const hookup = (name: (typeof HOOKUP_COLUMNS)[number]) => this.#hookups.column(HOOKUP_COLUMNS.indexOf(name));
    return {
      count: this.#sites.length,
      padLength: site("padLength"),
      padLengthHigh: site("padLengthHigh"),
      padWidth: site("padWidth"),
      padWidthHigh: site("padWidthHigh"),
      rear: site("rear"),
      rearHigh: site("rearHigh"),
      lengthLimit: site("lengthLimit"),
      heightLimit: site("heightLimit"),
      flags: site("flags"),
      slopeKnown: site("slopeKnown"),
      absent: site("absent"),
      hookupStart,
      service: hookup("service"),
      along: hookup("along"),
      left: hookup("left"),
      spread: hookup("spread"),
      height: hookup("height"),
      halfDepth: hookup("halfDepth"),
      halfWidth: hookup("halfWidth"),
      solidHeight: hookup("solidHeight"),
      receptacleStart,
      receptacle: this.#receptacles.column(0),
      kinds: this.#kindList,
      thingStart: Uint32Array.from(this.#thingStarts.concat(this.#things.length)),
      thingAlongMin: thing("alongMin"),
      thingAlongMax: thing("alongMax"),
      thingLeftMin: thing("leftMin"),
      thingLeftMax: thing("leftMax"),
      thingBars: thing("bars"),
    };
  }
}

/** The site that a kind's receptacle is allotted to. */
export const HERE = "here";

/** Half depth, half width and height of what stands at a hookup. */
type Solid = readonly [number, number, number];
const NO_SOLID: Solid = [0, 0, 0];

function solidOf({ outline, height }: Device): Solid {
  const alongs = outline.map((corner) => corner.along);
  const lefts = outline.map((corner) => corner.left);
  return [(Math.max(...alongs) - Math.min(...alongs)) / 2, (Math.max(...lefts) - Math.min(...lefts)) / 2, height];
}

function flagsOf(site: CompletedSite): number {
  const facings = site.facingsStated ? site.facings : site.facings.slice(0, 1);
  const hasPower = site.services.power === "yes" || site.hookups.some((hookup) => hookup.service === "power");
  return (
    (facings.includes("out") ? FLAG.out : 0) +
    (facings.includes("in") ? FLAG.in : 0) +
    (site.closed === null ? 0 : FLAG.closed) +
    (hasPower ? FLAG.hasPower : 0) +
    (site.pad.overhangRear === null ? FLAG.overhangUnknown : 0) +
    (isPlain(site) ? FLAG.plain : 0) +
    (isTryable(site) ? FLAG.tryable : 0)
  );
}

function isPlain(site: CompletedSite): boolean {
  const { pad } = site;
  const places = site.hookups.flatMap((hookup) => [hookup.along, hookup.left]);
  const slopes = [pad.grade, pad.crossfall, pad.overhangRear].filter((one) => one !== null);
  return isTryable(site) && site.obstacles.length === 0 && [pad.length, pad.width, ...places, ...slopes].every(isExact);
}

function absentOf(site: CompletedSite): number {
  return SERVICE_NUMBERS.reduce((bits, service, number) => {
    const listed = site.hookups.some(
      (hookup) => hookup.service === service || (service === "fill" && hookup.service === "water"),
    );
    return bits + (!listed && site.services[service] === "no" ? 2 ** number : 0);
  }, 0);
}
