/** Which campground the record is of, and its own facts: name, electrical system, everything else under `osm`. */

import table from "../../../data/osm-tags.json" with { type: "json" };
import supply from "../../../data/supply-limits.json" with { type: "json" };
import type { Classified } from "./classify.ts";
import { idOf, type OsmElement, type OsmSource } from "./element.ts";
import { set } from "./member.ts";
import type { OsmNotes } from "./notes.ts";
import { areaHolds, type Middle, metresTo, middleOf } from "./place.ts";
import { readSupply, type Supply } from "./power.ts";
import { TagReader, tagObject } from "./tags.ts";

interface CampgroundWish {
  readonly id: string | undefined;
  readonly name: string | undefined;
  /** Key of the element that was asked for. */
  readonly element: string | undefined;
}

const MOST_OTHERS = 200;
const LONGEST_ID = 200;
const LICENCE = "Open Database License (ODbL) 1.0";

/** The campground member of the collection. */
export function campgroundMember(
  candidates: readonly Classified[],
  pitches: readonly OsmElement[],
  wish: CampgroundWish,
  source: OsmSource,
  notes: OsmNotes,
): Record<string, unknown> {
  const elements = candidates.map(({ element }) => element);
  const chosen = choose(elements, pitches, wish.element, notes);
  const others = elements.filter((element) => element !== chosen);
  for (const { tags, replaced } of others)
    for (const key of (replaced?.original ?? tags).keys()) notes.count(key, "kept");
  const facts = chosen === null ? { electricalSystem: undefined, osm: {} } : factsOf(chosen, pitches, notes);
  const rest = others.length === 0 ? {} : { others: others.slice(0, MOST_OTHERS).map(brief) };
  const osm = { ...facts.osm, ...rest };
  const name = wish.name ?? chosen?.tags.get("name");
  const id = wish.id ?? (chosen === null ? "osm-import" : `osm-${idOf(chosen.key)}`);
  return {
    id: id.slice(0, LONGEST_ID),
    ...set("name", name),
    ...set("electricalSystem", facts.electricalSystem),
    ...(source.isOpenStreetMap
      ? { licence: LICENCE, sources: [openStreetMap(source)] }
      : { sources: [unnamed(source, notes)] }),
    ...(Object.keys(osm).length > 0 ? { osm } : {}),
  };
}

function openStreetMap({ format, dataAsOf }: OsmSource) {
  return {
    name: "OpenStreetMap contributors",
    licence: LICENCE,
    address: "https://www.openstreetmap.org/copyright",
    format,
    ...set("dataAsOf", dataAsOf ?? undefined),
  };
}

function unnamed({ format }: OsmSource, notes: OsmNotes) {
  const text = "The data carry OpenStreetMap's tags but no reference to it: state their source and licence yourself.";
  notes.warn("no-licence", null, null, text);
  return { name: "data with OpenStreetMap tags, source not stated", format };
}

/** The one that was asked for, the only one, or the one whose area holds most pitches. */
function choose(
  elements: readonly OsmElement[],
  pitches: readonly OsmElement[],
  wanted: string | undefined,
  notes: OsmNotes,
): OsmElement | null {
  const asked = elements.find(({ key }) => key === wanted);
  if (asked !== undefined) return asked;
  const middles = pitches.map(middleOf).filter((middle) => middle !== null);
  const only = elements[0];
  if (only === undefined || elements.length === 1)
    return only !== undefined && isTheirs(only, middles, notes) ? only : null;
  let best: OsmElement | null = null;
  let most = 0;
  for (const element of elements.slice(0, MOST_OTHERS)) {
    if (element.geometry === null || element.geometry.type === "Point") continue;
    const held = middles.filter(({ position }) => areaHolds(element, position)).length;
    if (held > most) [best, most] = [element, held];
  }
  const taken = best === null ? "none was chosen" : `${best.key} holds most pitches and was chosen`;
  const text = `The data have ${elements.length} campgrounds; ${taken}. Name one to import it alone.`;
  notes.warn("several-campgrounds", best?.key ?? null, null, text);
  return best;
}

/** Metres from a campground's point within which a pitch may be its own. */
const WIDEST_CAMPGROUND = 2000;

/** A campground far from every pitch is another one: its name and facts are not theirs. */
function isTheirs(campground: OsmElement, middles: readonly Middle[], notes: OsmNotes): boolean {
  if (campground.geometry === null || middles.length === 0) return true;
  const near = middles.filter(({ position }) => metresTo(position, campground) <= WIDEST_CAMPGROUND).length;
  if (2 * near >= middles.length) return true;
  const text =
    `Of ${middles.length} pitches ${near} lie within ${WIDEST_CAMPGROUND} m of ${campground.key}: ` +
    "it was not taken for their campground. Name it to import it alone.";
  notes.warn("outside-campground", campground.key, null, text);
  return false;
}

function factsOf(element: OsmElement, pitches: readonly OsmElement[], notes: OsmNotes) {
  const reader = new TagReader(element, notes);
  reader.get("tourism");
  reader.get("name");
  warnOfOutsiders(element, pitches, notes);
  const electrical = readSupply(reader);
  const electricalSystem = systemOf(reader);
  if (electrical.power === "yes") {
    reader.remarks.push("The campground has power; which pitches have it is known only where a pitch says so.");
  }
  const middle = middleOf(element);
  const more = {
    ...set("position", middle?.position),
    ...(electrical.power === undefined && electrical.receptacles.length === 0
      ? {}
      : { electrical: plainSupply(electrical) }),
  };
  const osm = reader.kept(more);
  reader.countKept();
  return { electricalSystem, osm };
}

function plainSupply({ power, receptacles, amps, volts }: Supply) {
  return {
    ...set("power", power),
    ...(receptacles.length > 0 ? { receptacles } : {}),
    ...set("amps", amps),
    ...set("volts", volts),
  };
}

const SYSTEMS: ReadonlySet<string> = new Set(supply.systems.map(({ id }) => id));

/** Only what is written as one of the systems: 240 alone may be two legs of 120 or one of 240. */
function systemOf(reader: TagReader): string | undefined {
  for (const key of table.supply.voltage) {
    const value = reader.tags.get(key)?.replace(/\s*v$/i, "").trim();
    if (value !== undefined && SYSTEMS.has(value)) {
      reader.get(key);
      return value;
    }
  }
  return undefined;
}

function warnOfOutsiders(campground: OsmElement, pitches: readonly OsmElement[], notes: OsmNotes): void {
  if (campground.geometry === null || campground.geometry.type === "Point" || campground.partial) return;
  const outside = pitches.filter((pitch) => {
    const middle = middleOf(pitch);
    return middle !== null && !areaHolds(campground, middle.position);
  });
  for (const { key } of outside) {
    notes.warn(
      "outside-campground",
      key,
      null,
      `The pitch lies outside the area of ${campground.key}. Is it part of it?`,
    );
  }
}

function brief(element: OsmElement) {
  const middle = middleOf(element);
  return { id: element.key, ...set("position", middle?.position), tags: tagObject(element.tags) };
}
