/** What is said beside a solved line: cautions, assumptions, and what nobody recorded. */
import type { Assumption } from "../../units/estimate.ts";
import { formatGauge } from "../../units/gauge.ts";
import { type AdapterChoice, type Cord, type ExtensionChoice, leadUndecided } from "./chain.ts";
import { deviceOf, type PowerDevice } from "./devices.ts";
import type { LineDrop } from "./drop.ts";
import type { LoadAnswer, LoadSupply } from "./load.ts";
import type { Mating } from "./mating.ts";
import type { Offer } from "./offer.ts";
import type { OfferedReceptacle, PowerInput, PowerUnknown } from "./problem.ts";
import type { Supply } from "./supply.ts";

const DEFAULT_CONNECTION_PATH = "/rig/power";

/** The parts of one receptacle that every way of joining shares. */
export interface Ground {
  readonly input: PowerInput;
  readonly offered: OfferedReceptacle;
  readonly offer: Offer;
  readonly mating: Mating;
  /** What may run on a supply. */
  readonly loadOf: (supply: LoadSupply) => LoadAnswer;
}

/** One way of joining the rig to a receptacle. */
export interface Joint {
  readonly plug: PowerDevice;
  readonly receptacle: PowerDevice;
  readonly adapter: AdapterChoice | null;
  readonly required: number;
  readonly cord: Cord | null;
  readonly extension: ExtensionChoice | null;
  readonly usable: boolean;
}

/** JSON Pointer of a member of the rig's power connection. */
export function connectionPath(input: PowerInput, member: string): string {
  return `${input.connectionPath ?? DEFAULT_CONNECTION_PATH}/${member}`;
}

/** Ids of the cautions that this line calls for, beside those that always go with one. */
export function cautionIds(ground: Ground, joint: Joint, supply: Supply): readonly string[] {
  const { input, offer } = ground;
  const { plug, receptacle, adapter, cord, extension } = joint;
  const entering = adapter ? deviceOf(adapter.mating.adapter.plug) : plug;
  const ids: string[] = [...receptacle.receptacleCautions, ...(entering?.plugCautions ?? [])];
  if (adapter) ids.push(...adapter.mating.adapter.cautions.filter((id) => id !== "larger-breaker"));
  if (adapter?.mating.largerBreaker) ids.push("larger-breaker");
  if (plug.hots > supply.legs) ids.push("one-hot");
  if (receptacle.groundFault === "class-a") ids.push("gfci-trip");
  if (receptacle.groundFault === "rcd-30-ma") ids.push("residual-current", "vehicle-end-first");
  if (adapter && extension) ids.push("adapter-and-extension");
  if (offer.contested) ids.push("contested");
  if (!offer.stateKnown) ids.push("works-not-known");
  if (cord?.gaugeAssumed) ids.push("cord-not-known");
  if (cord?.thinnerThanTable) ids.push("cord-thin");
  if (cord && leadUndecided(plug, cord)) ids.push("lead-length");
  const countsThree = input.electricalSystem === "120/208" && supply.legs > 1;
  if (countsThree && cord && cord.ampsThreeCarrying !== null && cord.ampsThreeCarrying < joint.required)
    ids.push("cord-208");
  const smaller = supply.amps < plug.amps || supply.legs < plug.hots;
  if (smaller && input.receptacles.length > 1) ids.push("one-supply-only");
  return ids;
}

/** What the line rests on although nobody gave it. */
export function assumptions(ground: Ground, joint: Joint): readonly Assumption[] {
  const { input, offered } = ground;
  const { cord, adapter, receptacle } = joint;
  const assumed: Assumption[] = [];
  if (!offered.receptacle.ampsGiven) {
    assumed.push({
      path: `${offered.receptacle.path}/amps`,
      value: `${receptacle.amps} A`,
      source: "the receptacle's own rating",
    });
  }
  if (cord?.gaugeAssumed && cord.gauge) {
    assumed.push({
      path: connectionPath(input, "line/gauge"),
      value: formatGauge(cord.gauge),
      source: "thinnest conductor of the table for the plug's rating",
    });
  }
  if (cord?.ampsAssumed) {
    assumed.push({
      path: connectionPath(input, "line/rating"),
      value: `${cord.amps} A`,
      source: "the plug's own rating",
    });
  }
  if (adapter && adapter.where === "to bring") {
    assumed.push({ path: "/rig/kit", value: "an adapter that adds no length", source: "common practice, no source" });
  }
  return assumed;
}

/** What nobody recorded, and what to look at. */
export function unknownsOf(
  ground: Ground,
  joint: Joint,
  supply: Supply,
  drop: LineDrop | null,
): readonly PowerUnknown[] {
  const { input, offered, offer } = ground;
  const unknowns: PowerUnknown[] = [];
  if (!joint.cord) {
    unknowns.push({ path: connectionPath(input, "line"), measure: "Say how long the rig's power cord is." });
  }
  if (drop?.status === "unknown" || (joint.cord && drop === null)) {
    unknowns.push({
      path: connectionPath(input, "line/gauge"),
      measure: "Read the conductor's size on the cord's jacket.",
    });
  }
  if (!offer.stateKnown) {
    unknowns.push({ path: `${offered.receptacle.path}/state`, measure: "Test whether the receptacle works." });
  }
  if (supply.legs > 1 && supply.voltsLegToLeg === null) {
    unknowns.push({
      path: "/campground/electricalSystem",
      measure: "Ask the host whether the supply is 120/240 V or 120/208 V.",
    });
  }
  return unknowns;
}
