/**
 * Open map data to the record of a campground: OSM XML, Overpass JSON, or GeoJSON with OpenStreetMap's tags. Pure over
 * its input: nothing is read from a disk or fetched. What the data do not say stays unknown; every tag is kept under
 * `osm`; the result has passed the record's own reader. Never throws on any input.
 */

import table from "../../../data/osm-tags.json" with { type: "json" };
import type { CampgroundFeature } from "../../site/feature.ts";
import { CAMPGROUND_LIMITS, readCampground } from "../geojson.ts";
import { isPlainObject, readInput } from "../geojson-input.ts";
import { Findings } from "../geojson-report.ts";
import { assemble } from "./assemble.ts";
import { campgroundMember } from "./campground.ts";
import { type Classified, classify, replaceDeprecated } from "./classify.ts";
import type { OsmElement, OsmFormat, OsmSource } from "./element.ts";
import { readGeojson } from "./geojson-elements.ts";
import { OSM_LIMITS } from "./limits.ts";
import { warnOfUnlisted } from "./listed.ts";
import { type CampSitesArePitches, takePitches } from "./mistagged.ts";
import { type OsmError, OsmNotes, quoted } from "./notes.ts";
import { readOverpass } from "./overpass.ts";
import { assignPedestals } from "./pedestals.ts";
import { pitchSite } from "./pitch.ts";
import { boxRound } from "./place.ts";
import { type OsmReport, type OsmTally, reportOf } from "./report.ts";
import { surroundingsOf } from "./surroundings.ts";
import { readXml } from "./xml.ts";

export interface OsmOptions {
  /** Id of the campground in the record; default: made from its element, `osm-way-12`. */
  readonly campgroundId?: string;
  /** Its name; default: that of its element. */
  readonly name?: string;
  /** Default: told from the text. */
  readonly format?: OsmFormat;
  /** Element, `way/12`: only what lies in its box and 200 m round it is imported; a campground is then the one chosen. */
  readonly bboxOf?: string;
  /**
   * When a point tagged tourism=camp_site is a single pitch. by-rule (default): when its name is a bare number, or when
   * it is nameless in a file of fifty or more nameless ones.
   */
  readonly campSitesArePitches?: CampSitesArePitches;
}

interface OsmCollection {
  readonly type: "FeatureCollection";
  readonly campground: Readonly<Record<string, unknown>>;
  readonly features: readonly CampgroundFeature[];
}

export type OsmImport =
  | { readonly ok: true; readonly collection: OsmCollection; readonly report: OsmReport }
  | { readonly ok: false; readonly errors: readonly OsmError[] };

/** @param input The text, or the object that JSON text stands for. */
export function importOsm(input: unknown, options: OsmOptions = {}): OsmImport {
  const notes = new OsmNotes();
  const source = readSource(input, options.format, notes);
  if (source === null || notes.errors.length > 0) return { ok: false, errors: notes.errors };
  const tally: OsmTally = { withoutPart: 0, beyondBox: 0, takenForPitches: 0, assigned: 0, unassigned: 0 };
  const found = select(source, options, tally, notes);
  if (found === null) return { ok: false, errors: notes.errors };
  if (found.length > CAMPGROUND_LIMITS.features) return tooMany(found.length, notes);
  const { campground, features } = build(found, source, options, tally, notes);
  if (features.length > CAMPGROUND_LIMITS.features) return tooMany(features.length, notes);
  return checked({ type: "FeatureCollection", campground, features }, source, tally, notes);
}

function tooMany(count: number, notes: OsmNotes): OsmImport {
  const expected = `at most ${CAMPGROUND_LIMITS.features} features: name one campground in bboxOf`;
  notes.fail("too-many-features", `The record would have ${count} features.`, expected);
  return { ok: false, errors: notes.errors };
}

function readSource(input: unknown, wanted: OsmFormat | undefined, notes: OsmNotes): OsmSource | null {
  if (typeof input === "string" && input.length > OSM_LIMITS.bytes) {
    notes.fail("too-large", "The text is too large.", `at most ${OSM_LIMITS.bytes} bytes`);
    return null;
  }
  if (typeof input === "string" && (wanted === "xml" || (wanted === undefined && /^\ufeff?\s*</.test(input)))) {
    if (new TextEncoder().encode(input).byteLength > OSM_LIMITS.bytes) {
      notes.fail("too-large", "The text is too large.", `at most ${OSM_LIMITS.bytes} bytes`);
      return null;
    }
    const raw = readXml(input.replace(/^\ufeff/, ""), notes);
    return raw === null ? null : assemble(raw, "xml", notes);
  }
  const findings = new Findings(null, null, MOST_JSON_FAULTS);
  const value = readInput(input, CAMPGROUND_LIMITS, findings);
  for (const { code, message, expected, path } of findings.refused) notes.fail(code, message, expected, path);
  for (const { text } of findings.warnings) notes.warn("ignored-tag", null, null, text);
  if (findings.refused.length > 0) return null;
  const format = wanted ?? formatOf(value);
  if (format === null || format === "xml" || !isPlainObject(value)) {
    const expected = "OSM XML, Overpass JSON with elements, or a GeoJSON FeatureCollection";
    notes.fail("not-osm", "This is none of the forms of open map data that are read.", expected);
    return null;
  }
  if (format === "geojson") return readGeojson(value, notes);
  const raw = readOverpass(value, notes);
  return raw === null ? null : assemble(raw, "overpass", notes);
}

const MOST_JSON_FAULTS = 50;

function formatOf(value: unknown): OsmFormat | null {
  if (!isPlainObject(value)) return null;
  if (Array.isArray(value["elements"])) return "overpass";
  return value["type"] === "FeatureCollection" || value["type"] === "Feature" ? "geojson" : null;
}

/** Elements with a part in the record, within the box that was asked for; null when that box cannot be had. */
function select(
  source: OsmSource,
  { bboxOf, campSitesArePitches = "by-rule" }: OsmOptions,
  tally: OsmTally,
  notes: OsmNotes,
): readonly Classified[] | null {
  const within = bboxOf === undefined ? () => true : insideBoxOf(bboxOf, source.elements, notes);
  if (within === null) return null;
  const found: Classified[] = [];
  for (const element of source.elements) {
    const read = replaceDeprecated(element, notes);
    const one = classify(read);
    if (one !== null && one.role !== "excluded" && within(read)) {
      warnOfUnlisted(one, notes);
      found.push(one);
      continue;
    }
    for (const key of element.tags.keys()) notes.count(key, "ignored");
    if (one === null) tally.withoutPart += 1;
    else if (one.role === "excluded") {
      notes.warn(
        "for-boats",
        element.key,
        one.by,
        `${one.by}=${element.tags.get(one.by)} is for boats and was left out.`,
      );
    } else tally.beyondBox += 1;
  }
  const taken = takePitches(found, campSitesArePitches, notes);
  tally.takenForPitches = taken.filter((one, index) => one.role !== found[index]?.role).length;
  return taken;
}

function insideBoxOf(
  key: string,
  elements: readonly OsmElement[],
  notes: OsmNotes,
): ((element: OsmElement) => boolean) | null {
  const asked = elements.find((element) => element.key === key);
  const box = asked === undefined ? null : boxRound(asked, table.judgement.surroundings);
  if (box === null) {
    const message = asked === undefined ? `The data have no element ${key} with tags.` : `${key} has no place.`;
    notes.fail("unknown-element", message, "the key of an element with tags and a place, such as way/12", "/bboxOf");
    return null;
  }
  const [west, south, east, north] = box;
  return (element) => {
    const own = boxRound(element, 0);
    if (own === null) return true;
    return own[0] <= east && own[2] >= west && own[1] <= north && own[3] >= south;
  };
}

function build(
  found: readonly Classified[],
  source: OsmSource,
  { campgroundId, name, bboxOf }: OsmOptions,
  tally: OsmTally,
  notes: OsmNotes,
) {
  const of = (role: Classified["role"]) => found.filter((one) => one.role === role);
  const pitches = of("pitch").map(({ element }) => element);
  const supplies = of("pedestal").map(({ element }) => element);
  const { byPitch, unassigned } = assignPedestals(supplies, pitches, notes);
  tally.unassigned = unassigned.length;
  tally.assigned = [...byPitch.values()].flat().length;
  if (pitches.length === 0) notes.warn("no-pitches", null, null, "The data have no pitch.");
  const sites = pitches.map((pitch) => pitchSite(pitch, byPitch.get(pitch.key) ?? [], notes));
  warnOfNames(sites, notes);
  const wish = { id: campgroundId, name, element: bboxOf };
  const campground = campgroundMember(of("campground"), pitches, wish, source, notes);
  const around = found.flatMap((one) => surroundingsOf(one, notes));
  return { campground, features: [...sites, ...unassigned, ...around] };
}

function warnOfNames(sites: readonly CampgroundFeature[], notes: OsmNotes): void {
  const seen = new Map<unknown, string>();
  for (const site of sites) {
    const { name } = site.properties;
    const before = seen.get(name);
    if (name === undefined) continue;
    if (before === undefined) seen.set(name, elementOf(site) ?? "");
    else {
      const text = `${before} has the name ${quoted(String(name))} too. Is one of them the same pitch?`;
      notes.warn("duplicate-name", elementOf(site), null, text);
    }
  }
}

/** The element that a feature of the record was made of. */
function elementOf(feature: CampgroundFeature | undefined): string | null {
  const osm = feature?.properties["osm"];
  return isPlainObject(osm) ? String(osm["id"]) : null;
}

/** The record as its own reader takes it: what that refuses is left out and told. */
function checked(collection: OsmCollection, source: OsmSource, tally: OsmTally, notes: OsmNotes): OsmImport {
  const reading = readCampground(collection);
  for (const { index, path, message } of reading.report.refused) {
    const element = index === null ? null : elementOf(collection.features[index]);
    notes.warn("refused-record", element, null, `${message} (${path.replace(FEATURE_PATH, "")})`);
  }
  for (const { code, path, text } of reading.report.warnings) {
    if (code !== "implausible") continue;
    notes.warn("far-apart", elementOf(collection.features[Number(FEATURE_PATH.exec(path)?.[1])]), null, text);
  }
  if (reading.document === null || reading.campground === null) {
    for (const { code, message, expected, path } of reading.report.refused) notes.fail(code, message, expected, path);
    return { ok: false, errors: notes.errors };
  }
  const kept = { ...collection, campground: collection.campground, features: reading.features };
  return { ok: true, collection: kept, report: reportOf(source, reading.features, tally, notes) };
}

const FEATURE_PATH = /^\/features\/(\d+)/;
