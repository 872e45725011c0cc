/**
 * A dump station or fill tap as a site: a lane that is driven through, with an inlet or tap at one edge. Where it stands
 * across the lane is seldom on record, so it is a range; along the lane a driver stops beside it.
 */
import table from "../../../data/supplies.json" with { type: "json" };
import type { CompletedHookup, CompletedSite, Service } from "../../site/completed.ts";
import type { Assumption, Estimate } from "../../units/estimate.ts";

/** Metres by which a driver may stop too early or too late beside an inlet; assumed. */
const STOPS_WITHIN = 1;

export interface Lane {
  readonly id: string;
  readonly name: string;
  readonly service: Extract<Service, "sewer" | "fill">;
  /** Side of the inlet as the lane is driven. */
  readonly side: "left" | "right";
  /** Metres; null when not on record. */
  readonly width: number | null;
  readonly clearHeight: number | null;
  readonly drinkable: "yes" | "no" | "unknown";
  readonly drivesOn: "right" | "left" | null;
  /** Of the rig, at its longest, metres. */
  readonly rigLength: number;
  /** Of the rig's outlet or inlet that is brought beside it, metres forward of the rear bumper. */
  readonly fromRear: number;
  /** JSON Pointer of the feature's properties. */
  readonly path: string;
}

function exactly(value: number, path: string): Estimate {
  return { value, low: value, high: value, sigma: 0, sigmaShared: 0, basis: "measured", path };
}

function between(range: { readonly low: number; readonly high: number }, path: string, source: string): Estimate {
  const { low, high } = range;
  return { value: (low + high) / 2, low, high, sigma: 0, sigmaShared: 0, basis: "assumed", path, source };
}

function hookupOf(lane: Lane, width: Estimate): CompletedHookup {
  const { inletBeyond, inletSource, rim, rimSource, tapHeight, tapSource } = table.lane;
  const sign = lane.side === "left" ? 1 : -1;
  const near = width.low / 2 + inletBeyond.low;
  const far = width.high / 2 + inletBeyond.high;
  const across = sign > 0 ? { low: near, high: far } : { low: -far, high: -near };
  const path = `${lane.path}/inlet`;
  const drain = lane.service === "sewer";
  const height = `${path}/height`;
  return {
    id: lane.id,
    service: lane.service,
    along: exactly(STOPS_WITHIN + lane.fromRear, `${path}/along`),
    left: between(across, `${path}/left`, inletSource),
    height: drain ? between(rim, height, rimSource) : between(tapHeight, height, tapSource),
    body: null,
    pedestal: null,
    shared: true,
    receptacles: [],
    sewer: lane.service === "sewer" ? { diameter: null, threaded: "unknown" } : null,
    water: lane.service === "fill" ? { thread: null, pressure: null, drinkable: lane.drinkable, seasonal: null } : null,
    path: lane.path,
  };
}

/** What is taken for granted about a lane. */
function laneAssumptions(lane: Lane): readonly Assumption[] {
  const { widthSource, inletSource, rimSource, slopeSource } = table.lane;
  const path = `${lane.path}/inlet`;
  const made: Assumption[] = [{ path: `${path}/left`, value: "beside the lane", source: inletSource }];
  if (lane.width === null) made.push({ path: `${lane.path}/width`, value: "a usual lane", source: widthSource });
  if (lane.service === "sewer") {
    made.push({ path: `${path}/height`, value: "a hatch level with its slab", source: rimSource });
    made.push({ path: `${lane.path}/grade`, value: "a slab that drains to its inlet", source: slopeSource });
  }
  return made;
}

/** Rise of the slab towards the lane's left: it falls to the inlet, on whichever side that is. */
function crossfall(lane: Lane): Estimate {
  const { fallToInlet, slopeSource } = table.lane;
  const { low, high } = fallToInlet;
  const rise = lane.side === "left" ? { low: -high, high: -low } : fallToInlet;
  return between(rise, `${lane.path}/crossfall`, slopeSource);
}

/** The lane as a site of its own. */
export function laneSite(lane: Lane): CompletedSite {
  const { width: usual, widthSource, slopeAlong, slopeSource } = table.lane;
  const path = `${lane.path}/width`;
  const width = lane.width === null ? between(usual, path, widthSource) : exactly(lane.width, path);
  const no = "no" as const;
  return {
    id: lane.id,
    name: lane.name,
    campgroundId: null,
    layout: "pull-through",
    facings: ["out"],
    facingsStated: true,
    pad: {
      length: exactly(lane.rigLength + 2 * STOPS_WITHIN, lane.path),
      width,
      heading: null,
      origin: null,
      surface: null,
      grade: between(slopeAlong, `${lane.path}/grade`, slopeSource),
      crossfall: crossfall(lane),
      overhangRear: null,
    },
    stop: null,
    services: { power: no, water: no, sewer: no, cable: no, fill: no, [lane.service]: "yes" },
    hookups: [hookupOf(lane, width)],
    obstacles: [],
    patio: null,
    limits: { length: null, width: null, height: null, amps: null },
    access: { roadWidth: null, angle: null, exit: null, clearHeight: lane.clearHeight },
    extraVehicle: null,
    rules: { noseIn: null, awning: null, generatorHours: null, maxVehicles: null, largerBreaker: null },
    accessible: "unknown",
    shade: null,
    closed: null,
    electricalSystem: null,
    drivesOn: lane.drivesOn,
    sitingCode: null,
    elevation: null,
    sources: [],
    assumed: laneAssumptions(lane),
    warnings: [],
  };
}
