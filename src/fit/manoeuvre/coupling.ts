/**
 * Whether the second vehicle stays coupled. A car towed on its wheels or on a dolly is never reversed: before a back-in
 * it is uncoupled, which needs a place before the turn and a place for the car.
 */
import table from "../../../data/turning.json" with { type: "json" };
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { Say } from "../say.ts";
import type { Stance } from "../stance/problem.ts";
import type { ManoeuvreAnswer } from "./answer.ts";
import { isTrailer, lengthBehind, neverReversed } from "./trains.ts";

type Coupling = ManoeuvreAnswer["coupling"];

interface CouplingInput {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly stance: Stance;
  readonly pullThrough: boolean;
  /** True when the rig stands without blocks or jacks; null when the pad's slope is not known. */
  readonly level: boolean | null;
}

function placeFor(what: string, site: CompletedSite): string[] {
  switch (site.extraVehicle) {
    case "outline":
      return [];
    case "elsewhere":
      return [`a place for the ${what}: it is parked elsewhere, ask where`];
    case "none":
      return [`a place for the ${what}: the site has none of its own`];
    case null:
      return [`a place for the ${what}: none is on record`];
  }
}

function placesApart(other: string, site: CompletedSite): string[] {
  return [`a place to uncouple the ${other} before the turn: none is on record`, ...placeFor(other, site)];
}

/** The coupling where the rig gets through only without what it draws. */
export function apartFirst(coupling: Coupling, site: CompletedSite): Coupling {
  const other = coupling.other ?? "other vehicle";
  const why = `No path was found with the ${other} coupled: uncouple it before the turn.`;
  return { state: "uncouple before the turn", other, why, needs: placesApart(other, site) };
}

/** Back-in: the rig goes in alone unless it is itself drawn. */
function backIn({ rig, site }: CouplingInput): Coupling {
  const other = rig.towing?.what ?? null;
  if (isTrailer(rig)) {
    const what = other ?? "towing vehicle";
    const why = `The ${what} backs the rig in and is unhitched on the pad.`;
    return { state: "uncouple on the pad", other: what, why, needs: placeFor(what, site) };
  }
  if (other === null) return { state: "alone", other, why: "The rig comes alone.", needs: [] };
  const forbidden = neverReversed(rig.towing?.coupling ?? "");
  const why =
    forbidden === null
      ? `The pad holds the rig alone: the ${other} is uncoupled before the turn.`
      : `The ${other} is never reversed (${forbidden}; ${table.neverReversedSource}): uncouple it before the turn.`;
  return { state: "uncouple before the turn", other, why, needs: placesApart(other, site) };
}

/** Metres of pad that the other vehicle lacks beside the rig at this stance. */
function lacking({ rig, site, stance }: CouplingInput): number {
  const length = site.pad.length?.value ?? 0;
  const towing = rig.towing?.length?.value ?? table.towVehicle.length.value;
  const room = isTrailer(rig) ? length - stance.along - rig.length.value : stance.along;
  return (isTrailer(rig) ? towing : lengthBehind(rig)) - room;
}

/** Pull-through: coupled when length and levelling allow; the hitch angle is judged with the path. */
function pullThrough(input: CouplingInput, say: Say): Coupling {
  const { rig, site, level } = input;
  const other = rig.towing?.what ?? (isTrailer(rig) ? "towing vehicle" : null);
  if (other === null) return { state: "alone", other, why: "The rig comes alone.", needs: [] };
  const apart = isTrailer(rig) ? "uncouple on the pad" : "uncouple before the turn";
  const places = isTrailer(rig) ? placeFor(other, site) : placesApart(other, site);
  const lack = lacking(input);
  if (lack > 0) {
    const why = `At the stance shown the pad is ${say.needed(lack)} too short for the ${other} as well.`;
    return { state: apart, other, why, needs: places };
  }
  if (level === null) {
    const why = `The ${other} has room on the pad; whether levelling lets it stay coupled is not known: the slope is not on record.`;
    return { state: "unknown", other, why, needs: [] };
  }
  if (!level) {
    const why = `The ${other} has room on the pad, but levelling lifts the rig: uncouple first.`;
    return { state: apart, other, why, needs: places };
  }
  return {
    state: "stays coupled",
    other,
    why: `The ${other} has room on the pad and the rig needs no levelling.`,
    needs: [],
  };
}

export function couplingOf(input: CouplingInput, say: Say): Coupling {
  return input.pullThrough ? pullThrough(input, say) : backIn(input);
}

/** The coupling once the hitch angle at the stance is known. */
export function withHitchAngle(coupling: Coupling, bent: boolean): Coupling {
  if (coupling.state !== "stays coupled" || !bent) return coupling;
  const why = `The ${coupling.other} has room on the pad, but no path was found that brings the two into line at the stance.`;
  return { ...coupling, state: "unknown", why };
}
