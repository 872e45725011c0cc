/** Power supplies on the map: each goes to the one pitch that is near it, or stays unassigned. */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { radians } from "../../geo/tangent-plane.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import { idOf, type OsmElement, type Position } from "./element.ts";
import { set } from "./member.ts";
import type { OsmNotes } from "./notes.ts";
import type { WireHookup } from "./pitch-services.ts";
import { areaHolds, metresTo, middleOf } from "./place.ts";
import { readSupply } from "./power.ts";
import { TagReader } from "./tags.ts";
import { dayOf } from "./values.ts";

interface Pedestals {
  /** Hookups by the key of their pitch. */
  readonly byPitch: ReadonlyMap<string, readonly WireHookup[]>;
  /** Supplies that no pitch could be given: solid things of the map. */
  readonly unassigned: readonly CampgroundFeature[];
}

/** Hookups that one site can hold, with room for those of its tags. */
const MOST_OF_A_PITCH = 36;
/** Metres in a degree of latitude, rounded down. */
const METRES_PER_DEGREE = 110_000;
/** Pitches near one supply beyond which it is nobody's. */
const CROWD = 50;

interface Placed {
  readonly element: OsmElement;
  readonly longitude: number;
  readonly latitude: number;
  readonly reach: number;
}

export function assignPedestals(
  supplies: readonly OsmElement[],
  pitches: readonly OsmElement[],
  notes: OsmNotes,
): Pedestals {
  const placed = pitches
    .flatMap((element): Placed[] => {
      const middle = middleOf(element);
      return middle === null
        ? []
        : [{ element, longitude: middle.position[0], latitude: middle.position[1], reach: middle.reach }];
    })
    .sort((a, b) => a.latitude - b.latitude);
  const widest = placed.reduce((most, { reach }) => Math.max(most, reach), 0);
  const byPitch = new Map<string, WireHookup[]>();
  const unassigned: CampgroundFeature[] = [];
  for (const supply of supplies) {
    const reader = new TagReader(supply, notes);
    const middle = middleOf(supply);
    const pitch = middle === null ? null : onlyPitch(supply, middle.position, placed, widest, notes);
    const taken = pitch === null ? [] : (byPitch.get(pitch.key) ?? []);
    if (pitch !== null && middle !== null && taken.length < MOST_OF_A_PITCH) {
      byPitch.set(pitch.key, [...taken, hookupOf(supply, middle.position, reader)]);
    } else if (supply.geometry !== null && middle !== null) {
      unassigned.push(asThing(supply, middle.position, reader));
    }
    reader.countKept();
  }
  return { byPitch, unassigned };
}

/** The pitch that holds the place, or else the only one near it; null with a warning. */
function onlyPitch(
  supply: OsmElement,
  position: Position,
  placed: readonly Placed[],
  widest: number,
  notes: OsmNotes,
): OsmElement | null {
  const reach = table.judgement.pedestalReach;
  const window = (reach + widest) / METRES_PER_DEGREE;
  const near: OsmElement[] = [];
  const metresEast = METRES_PER_DEGREE * Math.cos(radians(position[1]));
  for (let at = firstFrom(placed, position[1] - window); at < placed.length; at += 1) {
    const { element, latitude, longitude, reach: extent } = placed[at] as Placed;
    if (latitude > position[1] + window || near.length >= CROWD) break;
    // A quick look before the distance is worked out; across the antimeridian it is worked out anyhow.
    const east = Math.abs(longitude - position[0]);
    const north = Math.abs(latitude - position[1]) * METRES_PER_DEGREE;
    if (east < 1 && Math.max(north, east * metresEast) > reach + extent) continue;
    if (metresTo(position, element) <= reach) near.push(element);
  }
  const holding = near.filter((element) => areaHolds(element, position));
  const chosen = holding.length === 1 ? holding : near;
  if (chosen.length === 1) return chosen[0] ?? null;
  const found =
    chosen.length === 0
      ? "no pitch"
      : `${chosen.length} pitches (${chosen
          .slice(0, 3)
          .map(({ key }) => key)
          .join(", ")})`;
  const text = `Within ${reach} m of this power supply there is ${found}: whose it is, is unknown.`;
  notes.warn("unassigned-pedestal", supply.key, null, text);
  return null;
}

/** The first place in the list from a latitude on. */
function firstFrom(placed: readonly Placed[], latitude: number): number {
  let low = 0;
  let high = placed.length;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if ((placed[middle] as Placed).latitude < latitude) low = middle + 1;
    else high = middle;
  }
  return low;
}

function hookupOf(supply: OsmElement, position: Position, reader: TagReader): WireHookup {
  reader.get("amenity");
  const { receptacles } = readSupply(reader);
  const id = idOf(supply.key);
  return {
    id,
    service: "power",
    at: { position },
    pedestal: id,
    ...(receptacles.length > 0 ? { receptacles } : {}),
    basis: "mapped",
    accuracy: table.accuracy.mapped,
    source: `OpenStreetMap ${supply.key}: the one pitch within ${table.judgement.pedestalReach} m, taken to be its own`,
    ...set("observedAt", dayOf(reader, table.survey.observed)),
    osm: reader.kept(),
  };
}

function asThing(supply: OsmElement, position: Position, reader: TagReader): CampgroundFeature {
  reader.get("amenity");
  const properties = {
    kind: "obstacle",
    what: "pedestal",
    basis: "mapped",
    accuracy: table.accuracy.mapped,
    osm: reader.kept({ unassigned: true }),
  };
  return { type: "Feature", id: idOf(supply.key), geometry: { type: "Point", coordinates: position }, properties };
}
