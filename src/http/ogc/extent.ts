/** The box that holds every geometry of a collection. */
import { type Box, boxOf, type Place } from "../../records/place.ts";
import type { WireGeometry, WirePosition } from "../../site/feature.ts";
import type { Call } from "../route.ts";
import { type Collection, featuresIn } from "./collections.ts";
import { widened } from "./scan.ts";

/**
 * Exact while there are few campgrounds; over a catalogue the box of all its campgrounds with room to spare, because
 * an extent that is stated must hold everything (requirement /req/core/fc-md-extent). Null without any geometry.
 */
export async function extentOf(
  call: Pick<Call, "store" | "limits" | "memory">,
  collection: Collection,
): Promise<Box | null> {
  const { store, limits, memory } = call;
  const key = `extent ${collection.id} ${await store.version()}`;
  const known = memory.get(key) as { readonly box: Box | null } | undefined;
  if (known !== undefined) return known.box;
  const all = await store.list();
  let box: Box | null;
  if (all.length > limits.campgroundsCounted) {
    const about = boxOf(all.flatMap((one) => (one.box === null ? [] : cornersOf(one.box))));
    box = about === null ? null : widened(about);
  } else {
    const places: Place[] = [];
    for (const { id } of all) {
      const stored = await store.get(id);
      if (stored === null) continue;
      for (const { geometry } of featuresIn(collection, stored))
        if (geometry !== null) places.push(...placesOf(geometry));
    }
    box = boxOf(places);
  }
  memory.set(key, { box });
  return box;
}

function cornersOf([west, south, east, north]: Box): Place[] {
  return [
    { longitude: west, latitude: south },
    { longitude: east, latitude: north },
  ];
}

function placesOf(geometry: WireGeometry): Place[] {
  if (geometry.type === "GeometryCollection") return geometry.geometries.flatMap(placesOf);
  return positionsOf(geometry.coordinates).map(([longitude = 0, latitude = 0]) => ({ longitude, latitude }));
}

type Nested = WirePosition | readonly Nested[];

function positionsOf(coordinates: Nested): WirePosition[] {
  const isPosition = typeof coordinates[0] === "number";
  return isPosition ? [coordinates as WirePosition] : (coordinates as readonly Nested[]).flatMap(positionsOf);
}
