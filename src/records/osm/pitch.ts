/**
 * A pitch as a site of the record. A node stands at the identifying post, an area round the whole pitch: neither is the
 * pad, so that no length, width, heading or place of a hookup follows from it. What the tags do not say stays unknown.
 */
import table from "../../../data/osm-tags.json" with { type: "json" };
import type { CampgroundFeature } from "../../site/feature.ts";
import { idOf, type OsmElement } from "./element.ts";
import { set } from "./member.ts";
import type { OsmNotes } from "./notes.ts";
import { placeOf } from "./pitch-place.ts";
import { powerHookups, readDrain, readWater, type WireHookup, waterHookups } from "./pitch-services.ts";
import { readSupply, type Supply } from "./power.ts";
import { TagReader } from "./tags.ts";
import { dayOf, inclineOf, limitOf } from "./values.ts";

const LONGEST_PITCH = 500;
const TALLEST = 100;
const LONGEST_NAME = 200;

/** @param pedestals Hookups of the supplies found beside it; their places come with them. */
export function pitchSite(element: OsmElement, pedestals: readonly WireHookup[], notes: OsmNotes): CampgroundFeature {
  const reader = new TagReader(element, notes);
  reader.get("tourism");
  const name = (reader.get("ref") ?? reader.get("name") ?? reader.get("addr:unit"))?.slice(0, LONGEST_NAME);
  const observedAt = dayOf(reader, table.survey.observed);
  const place = placeOf(reader, element, observedAt);
  const supply = readSupply(reader);
  const water = readWater(reader);
  const sewer = readDrain(reader);
  const services = {
    ...set("power", powerOf(reader, supply, pedestals.length > 0)),
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

/** A supply beside a pitch that says nothing gives it power; where the two disagree it is unknown. */
function powerOf(reader: TagReader, supply: Supply, beside: boolean): "yes" | "no" | undefined {
  if (!beside || supply.power === "yes" || supply.contradicted) return supply.power;
  if (supply.power === undefined) return "yes";
  reader.remark("contradiction", "power_supply", "The pitch says that it has no power; a supply stands beside it.");
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
