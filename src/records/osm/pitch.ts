/**
 * A pitch as a site of the record. A node stands at the identifying post, an area round the whole pitch: neither is the
 * pad, so that no length, width, heading or place of a hookup follows from it. What the tags do not say stays unknown.
 */
import table from "../../../data/osm-tags.json" with { type: "json" };
import { rightHanded } from "../../geo/longitude-latitude.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import { plainNumber } from "../../units/number.ts";
import { asArea, idOf, type OsmElement } from "./element.ts";
import { type OsmNotes, quoted } from "./notes.ts";
import { isSound, middleOf } from "./place.ts";
import { readSupply, type WireReceptacle } from "./power.ts";
import { TagReader } from "./tags.ts";
import { dayOf, inclineOf, limitOf } from "./values.ts";

export interface WireHookup {
  readonly id: string;
  readonly service: "power" | "water";
  readonly at?: { readonly position: readonly number[] };
  readonly pedestal?: string;
  readonly receptacles?: readonly WireReceptacle[];
  readonly [member: string]: unknown;
}

/** How well the place of a site is known. */
export interface SitePlace {
  readonly basis: "mapped" | "gps";
  readonly accuracy: number;
  readonly source: string;
  readonly observedAt?: string;
}

/** The radius that holds 68 % of fixes, in standard deviations per axis: sqrt(-2 ln(1 - 0.68)) = 1.510 (derived). */
const SHARE_OF_PHONES = 0.68;
const RADIUS_OF_PHONES = Math.sqrt(-2 * Math.log(1 - SHARE_OF_PHONES));
const LONGEST_PITCH = 500;
const TALLEST = 100;
const LONGEST_NAME = 200;
/** A value spread evenly over plus or minus L has the standard deviation L over the root of this. */
const EVEN_SPREAD = 3;

/** @param receptacles Of the supply found beside it; its place comes with it. */
export function pitchSite(element: OsmElement, pedestals: readonly WireHookup[], notes: OsmNotes): CampgroundFeature {
  const reader = new TagReader(element, notes);
  reader.get("tourism");
  const name = (reader.get("ref") ?? reader.get("name") ?? reader.get("addr:unit"))?.slice(0, LONGEST_NAME);
  const observedAt = dayOf(reader, table.survey.observed);
  const place = placeOf(reader, element, observedAt);
  const supply = readSupply(reader);
  const water = readWater(reader);
  const sewer = readDrain(reader);
  const power = supply.power ?? (pedestals.length > 0 ? "yes" : undefined);
  if (supply.power === "no" && pedestals.length > 0) {
    reader.remark("contradiction", "power_supply", "The pitch says that it has no power; a supply stands beside it.");
  }
  const services = {
    ...set("power", supply.power === "no" && pedestals.length > 0 ? undefined : power),
    ...set("water", water),
    ...set("sewer", sewer),
  };
  const hookups = [...powerHookups(reader, supply, pedestals, observedAt), ...waterHookups(reader, water, observedAt)];
  const limits = readLimits(reader, supply.amps);
  const surface = reader.get("surface")?.slice(0, LONGEST_NAME);
  noteWhatHasNoPlace(reader);
  const accessible = wheelchair(reader);
  const pad = { ...set("surface", surface), ...set("place", place?.record) };
  const properties = {
    kind: "site",
    ...set("name", name),
    ...(Object.keys(services).length > 0 ? { services } : {}),
    ...(hookups.length > 0 ? { hookups } : {}),
    ...(Object.keys(pad).length > 0 ? { pad } : {}),
    ...(Object.keys(limits).length > 0 ? { limits } : {}),
    ...set("accessible", accessible),
    ...set("observedAt", observedAt),
    osm: reader.kept({ place: place?.is ?? "none", ...set("outline", place?.outline) }),
  };
  reader.countKept();
  const geometry = place === null ? null : ({ type: "Point", coordinates: place.position } as const);
  return { type: "Feature", id: idOf(element.key), geometry, properties };
}

/** A member, or none when there is no value. */
export function set<K extends string, V>(key: K, value: V | undefined): { [key in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { [key in K]: V });
}

interface PitchPlace {
  readonly is: "sign post" | "middle of the pitch" | "middle of a part of the pitch";
  readonly position: readonly number[];
  readonly record: SitePlace;
  readonly outline: unknown;
}

/** The pad's middle as well as the element tells it: its own error, and how far the pad may lie from post or middle. */
function placeOf(reader: TagReader, element: OsmElement, observedAt: string | undefined): PitchPlace | null {
  const middle = middleOf(element);
  if (middle === null) {
    reader.remark("bad-geometry", null, "The pitch has no place.");
    return null;
  }
  const own = ownAccuracy(reader);
  const day = set("observedAt", observedAt);
  if (element.geometry?.type === "Point" && !element.partial) {
    const { postToPad } = table.accuracy;
    const source =
      `OpenStreetMap ${element.key}: the identifying post, ${own.words}; ` +
      `the middle of the pad within ${postToPad} m of it per axis (standard deviation; ${table.accuracy.source})`;
    const accuracy = Math.hypot(own.accuracy, postToPad);
    return {
      is: "sign post",
      position: middle.position,
      record: { basis: own.basis, accuracy, source, ...day },
      outline: undefined,
    };
  }
  const area = asArea(element);
  const sound = area !== null && area.type === "Polygon" && isSound(area.coordinates);
  if (!sound) {
    const text = "The outline of the pitch is incomplete or faulty; only its middle is kept.";
    reader.remark("incomplete-geometry", null, text);
  }
  const even = middle.reach / Math.sqrt(EVEN_SPREAD);
  const within = sound ? even : Math.max(even, table.accuracy.postToPad);
  const extent = sound ? `its middle within ${Math.ceil(middle.reach)} m` : "how far from there is unknown";
  const source =
    `OpenStreetMap ${element.key}: the middle of the whole pitch, ${own.words}; the pad lies somewhere in it, ` +
    `${extent}`;
  return {
    is: sound ? "middle of the pitch" : "middle of a part of the pitch",
    position: middle.position,
    record: { basis: own.basis, accuracy: Math.hypot(own.accuracy, within), source, ...day },
    outline: sound ? { ...area, coordinates: rightHanded(area.coordinates) } : undefined,
  };
}

/** A survey's radius as a standard deviation per axis; else that of a place set by hand on a map. */
function ownAccuracy(reader: TagReader): { basis: "mapped" | "gps"; accuracy: number; words: string } {
  const { mapped, source } = table.accuracy;
  const drawn = { basis: "mapped", accuracy: mapped, words: `set on a map, ${mapped} m per axis (${source})` } as const;
  const found = reader.first(table.survey.accuracy);
  if (found === undefined) return drawn;
  const radius = /^\d+(\.\d+)?$/.test(found.value) ? Number(found.value) : null;
  if (radius === null || radius > LONGEST_PITCH * LONGEST_PITCH) {
    reader.unread(found.key);
    reader.warn("bad-value", found.key, `${found.key}=${quoted(found.value)} is no accuracy in metres.`);
    return drawn;
  }
  // A survey app writes 0 when the place was not measured but typed on its map.
  if (radius === 0) return drawn;
  const words = `by GPS, radius ${plainNumber(radius)} m taken as holding 68 % of fixes (assumed)`;
  return { basis: "gps", accuracy: Math.min(radius / RADIUS_OF_PHONES, MOST_METRES_OFF), words };
}

/** The widest accuracy that a record can hold, less room for the post. */
const MOST_METRES_OFF = 9000;

function powerHookups(
  reader: TagReader,
  { power, receptacles }: ReturnType<typeof readSupply>,
  pedestals: readonly WireHookup[],
  observedAt: string | undefined,
): WireHookup[] {
  const alone = pedestals.length === 1 ? pedestals[0] : undefined;
  if (alone !== undefined && receptacles.length > 0) {
    if (alone.receptacles === undefined) return [{ ...alone, receptacles }];
    if (JSON.stringify(alone.receptacles) !== JSON.stringify(receptacles)) {
      reader.remark("contradiction", null, "Pitch and supply name different sockets; those of the supply are taken.");
    }
    return [alone];
  }
  if (pedestals.length > 1 && receptacles.length > 0) {
    reader.remark(
      "contradiction",
      null,
      "The pitch names sockets and has several supplies; those of the supplies are taken.",
    );
  }
  if (pedestals.length > 0) return [...pedestals];
  if (power !== "yes") return [];
  const sockets = receptacles.length > 0 ? { receptacles } : {};
  return [{ id: "power", service: "power", ...sockets, ...provenance(reader, observedAt) }];
}

function waterHookups(
  reader: TagReader,
  water: "yes" | "no" | undefined,
  observedAt: string | undefined,
): WireHookup[] {
  return water === "yes" ? [{ id: "water", service: "water", ...provenance(reader, observedAt) }] : [];
}

function provenance(reader: TagReader, observedAt: string | undefined) {
  return { source: `tags of OpenStreetMap ${reader.key}; its place is unknown`, ...set("observedAt", observedAt) };
}

function readWater(reader: TagReader): "yes" | "no" | undefined {
  for (const key of table.drafts.water) {
    const value = reader.yesNo(key);
    if (value !== undefined) return value;
  }
  const drinking = reader.yesNo("drinking_water");
  if (drinking === "yes") {
    reader.remarks.push("drinking_water=yes: there is water; whether a hose can be connected is unknown.");
    return "yes";
  }
  if (drinking === "no") {
    reader.unread("drinking_water");
    reader.remarks.push("drinking_water=no does not say whether there is other water.");
  }
  return undefined;
}

/** There is no tag in use for a sewer inlet of a pitch: a drain may be for grey water alone. */
function readDrain(reader: TagReader): "no" | undefined {
  for (const key of table.drafts.drain) {
    const value = reader.yesNo(key);
    if (value === "no") return "no";
    if (value !== "yes") continue;
    reader.unread(key);
    reader.remark("not-a-hookup", key, `${key}=yes: a sewer inlet is possible and not verified; sewer stays unknown.`);
  }
  if (reader.tags.get("sanitary_dump_station") === "yes") {
    reader.remark(
      "not-a-hookup",
      "sanitary_dump_station",
      "A dump station is a place to drive to, no sewer inlet of the pitch.",
    );
  }
  return undefined;
}

function readLimits(reader: TagReader, amps: number | undefined) {
  const length = limitOf(reader, ["maxlength"], LONGEST_PITCH);
  const width = limitOf(reader, ["maxwidth", "maxwidth:physical"]);
  const height = limitOf(reader, ["maxheight", "maxheight:physical"], TALLEST);
  return { ...set("length", length), ...set("width", width), ...set("height", height), ...set("amps", amps) };
}

function wheelchair(reader: TagReader): "yes" | "no" | undefined {
  const value = reader.get("wheelchair");
  if (value === "yes" || value === "designated") return "yes";
  if (value === "no") return "no";
  if (value !== undefined) reader.unread("wheelchair");
  return undefined;
}

/** Facts that the record has no place for: they stay under `osm`, with a sentence for those that matter to a rig. */
function noteWhatHasNoPlace(reader: TagReader): void {
  const slope = inclineOf(reader);
  if (slope !== undefined) {
    reader.unread("incline");
    const text = "incline has no direction on a pitch: grade and crossfall stay unknown.";
    reader.remark("no-direction", "incline", text);
  }
  for (const key of [
    "caravans",
    "motorhome",
    "tents",
    "access",
    ...table.drafts.type,
    ...table.drafts.length,
    ...table.drafts.width,
  ]) {
    const value = reader.tags.get(key);
    if (value !== undefined) reader.remarks.push(`${key}=${value} is kept and has no effect: read it before you come.`);
  }
}
