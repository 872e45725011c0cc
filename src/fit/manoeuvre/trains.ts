/** From a completed rig to the vehicles that are driven, with the least and the most able ones that its gaps allow. */
import table from "../../../data/turning.json" with { type: "json" };
import type { CompletedRig } from "../../rig/completed.ts";
import type { Assumption } from "../../units/estimate.ts";
import { axleRadius, type Train, type Unit } from "./vehicle.ts";

const DEGREE = Math.PI / 180;

export const LIMITS = {
  parked: table.parkedHitchAngle.value * DEGREE,
  straight: table.straightHitchAngle.value * DEGREE,
  comfort: table.comfort.value,
} as const;

export type Coupling = keyof typeof table.couplings;
type Steering = keyof typeof table.steering;
type End = "low" | "high";

const TRAILERS: ReadonlySet<string> = new Set(["travel-trailer", "fifth-wheel", "folding-trailer"]);

export function isTrailer(rig: CompletedRig): boolean {
  return TRAILERS.has(rig.class);
}

/** Why a towed vehicle with this coupling is never reversed; null when it may be. */
export function neverReversed(coupling: string): string | null {
  return (table.neverReversed as Readonly<Record<string, string>>)[coupling] ?? null;
}

/** The train with the widest turns that the rig's gaps allow and the one with the tightest. */
export interface Trains {
  readonly worst: Train;
  readonly best: Train;
  /** Same when nothing is left open. */
  readonly settled: boolean;
  /** Fields that would settle it. */
  readonly measure: readonly string[];
  readonly assumed: readonly Assumption[];
}

interface Notes {
  readonly assumed: Assumption[];
  readonly measure: string[];
}

/** Turning radius of the rear axle at one end of what is known; `tight` takes the tightest. */
function radiusOf(
  given: number | undefined,
  wheelbase: number,
  width: number,
  steering: Steering,
  tight: boolean,
): number {
  const steer = table.steering[steering];
  const usual = wheelbase / Math.tan((tight ? steer.high : steer.low) * DEGREE);
  if (given === undefined) return usual;
  const radius = axleRadius(given, wheelbase, width / 2);
  return radius > 0 ? radius : usual;
}

function noteSteering(given: number | undefined, steering: Steering, path: string, notes: Notes): void {
  if (given !== undefined) return;
  const { low, high, source } = table.steering[steering];
  notes.assumed.push({ path, value: `front wheels steer ${low} to ${high} degrees`, source });
  notes.measure.push(path);
}

function rigUnit(rig: CompletedRig, wheelbase: number, name: string): Unit {
  const half = rig.width.value / 2;
  const overhang = Math.min(rig.rearOverhang.value, rig.length.value - wheelbase);
  return {
    name,
    body: { rear: -overhang, front: rig.length.value - overhang, half },
    wheels: { rear: 0, front: wheelbase, half },
    height: rig.height.high,
    underside: rig.groundClearance.low,
  };
}

function steeringOf(rig: CompletedRig): Steering {
  return ((table.steeringOfClass as Readonly<Record<string, string>>)[rig.class] ?? "motorhome") as Steering;
}

/** The rig driving by itself; `behind` gives what it draws. */
function motorTrains(rig: CompletedRig, drawn: Train["drawn"], notes: Notes): Trains {
  const steering = steeringOf(rig);
  noteSteering(rig.turningRadius, steering, "/rig/turningRadius", notes);
  const { low, high } = rig.wheelbase;
  if (low < high) notes.measure.push("/rig/wheelbase");
  const make = (wheelbase: number, tight: boolean): Train => ({
    drawing: rigUnit(rig, wheelbase, "rig"),
    drawn,
    radius: radiusOf(rig.turningRadius, wheelbase, rig.width.value, steering, tight),
    rigIsDrawn: false,
  });
  return { worst: make(high, false), best: make(low, true), settled: notes.measure.length === 0, ...notes };
}

export function aloneTrains(rig: CompletedRig): Trains {
  return motorTrains(rig, null, { assumed: [], measure: [] });
}

/** Length behind the rig of what it draws, drawbar included, metres. */
export function lengthBehind(rig: CompletedRig): number {
  const { towing } = rig;
  if (towing === null) return 0;
  const coupling = table.couplings[towing.coupling as Coupling];
  const length = towing.length?.value ?? table.towed.length.value;
  return length + sizeOf(coupling, "drawbar");
}

function sizeOf(coupling: object, key: "drawbar"): number {
  return (coupling as Readonly<Record<string, number>>)[key] ?? 0;
}

/** The rig drawing a car or a trailer. */
export function drawingTrains(rig: CompletedRig): Trains {
  const notes: Notes = { assumed: [], measure: [] };
  const { towing } = rig;
  if (towing === null) return motorTrains(rig, null, notes);
  const coupling = table.couplings[towing.coupling as Coupling];
  const length = towing.length?.value ?? table.towed.length.value;
  if (towing.length === null) {
    notes.assumed.push({ path: "/rig/towing/length", value: `${length} m`, source: table.towed.length.source });
    notes.measure.push("/rig/towing/length");
  }
  const onWheels = neverReversed(towing.coupling) !== null;
  const overhang =
    towing.rearOverhang ??
    (onWheels ? table.towed.carRearOverhangOfLength.value * length : (1 - table.towed.axleOfLength.value) * length);
  const bar = sizeOf(coupling, "drawbar");
  // A car follows its drawbar by its rear axle; a trailer by its own axles.
  const axle = onWheels ? bar + length - overhang : (towing.wheelbase ?? length - overhang);
  const half = (towing.width ?? table.towVehicle.width.value) / 2;
  notes.assumed.push({
    path: "/rig/towing",
    value: `axle ${axle.toFixed(2)} m behind the coupling, ${(2 * half).toFixed(2)} m wide`,
    source: onWheels ? table.towed.carRearOverhangOfLength.source : table.towed.axleOfLength.source,
  });
  const unit: Unit = {
    name: towing.what,
    body: { rear: -overhang, front: length - overhang, half },
    wheels: { rear: 0, front: onWheels ? axle - bar : 0, half },
    height: rig.height.high,
    underside: rig.groundClearance.low,
  };
  const behind = "behindAxle" in coupling ? coupling.behindAxle : rig.rearOverhang.value + coupling.behindRearEnd;
  const hitch = { behind, length: axle };
  return motorTrains(rig, { unit, hitch, limit: coupling.limit * DEGREE }, notes);
}

/** A vehicle drawing the rig. */
export function drawnTrains(rig: CompletedRig): Trains {
  const notes: Notes = { assumed: [], measure: [] };
  const { towing } = rig;
  const { towVehicle } = table;
  const length = towing?.length?.value ?? towVehicle.length.value;
  const width = towing?.width ?? towVehicle.width.value;
  const share = towVehicle.wheelbaseOfLength;
  const base = towing?.wheelbase;
  const usual: Coupling = rig.class === "fifth-wheel" ? "fifth-wheel" : "ball";
  const coupling = table.couplings[(towing?.coupling ?? usual) as Coupling] ?? table.couplings[usual];
  const overhang = towing?.rearOverhang ?? towVehicle.rearOverhangOfLength.value * length;
  if (towing?.length === undefined || towing.length === null) {
    notes.assumed.push({ path: "/rig/towing/length", value: `${length} m`, source: towVehicle.length.source });
  }
  if (base === undefined) {
    const value = `wheelbase ${share.low} to ${share.high} of its length`;
    notes.assumed.push({ path: "/rig/towing/wheelbase", value, source: share.source });
    notes.measure.push("/rig/towing/wheelbase");
  }
  noteSteering(towing?.turningRadius, "car", "/rig/towing/turningRadius", notes);
  const behind = "behindAxle" in coupling ? coupling.behindAxle : overhang + coupling.behindRearEnd;
  const make = (end: End): Train => {
    const wheelbase = base ?? share[end] * length;
    const axle = rig.wheelbase[end];
    const drawing: Unit = {
      name: towing?.what ?? "towing vehicle",
      body: { rear: -overhang, front: length - overhang, half: width / 2 },
      wheels: { rear: 0, front: wheelbase, half: width / 2 },
      height: rig.height.high,
      underside: rig.groundClearance.low,
    };
    return {
      drawing,
      drawn: { unit: trailerUnit(rig, axle), hitch: { behind, length: axle }, limit: coupling.limit * DEGREE },
      radius: radiusOf(towing?.turningRadius, wheelbase, width, "car", end === "low"),
      rigIsDrawn: true,
    };
  };
  if (rig.wheelbase.low < rig.wheelbase.high) notes.measure.push("/rig/wheelbase");
  return { worst: make("high"), best: make("low"), settled: notes.measure.length === 0, ...notes };
}

/** A trailer about its axles; behind a ball coupling its tongue is left out of the body. */
function trailerUnit(rig: CompletedRig, axle: number): Unit {
  const half = rig.width.value / 2;
  const overhang = Math.min(rig.rearOverhang.value, rig.length.value - 1);
  const front = rig.length.value - overhang;
  const body = rig.class === "fifth-wheel" ? front : Math.min(front, axle - table.tongue.value);
  return {
    name: "rig",
    body: { rear: -overhang, front: body, half },
    wheels: { rear: 0, front: 0, half },
    height: rig.height.high,
    underside: rig.groundClearance.low,
  };
}
