/** Where campground records come from, as everything above sees it, and the store that holds them in memory. */
import { type Around, compileAround } from "../site/complete.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import type { Campground } from "../site/schema.ts";
import type { Area } from "./catalogue/area.ts";
import type { Envelope } from "./catalogue/entry.ts";
import { type CampgroundReading, type CampgroundReport, type Refusal, readCampground } from "./geojson.ts";
import { type Box, boxOf, placeOf } from "./place.ts";

export interface CampgroundSummary {
  readonly id: string;
  readonly name: string;
  /** Sites that can be fitted. */
  readonly sites: number;
  /** Sites whose record was refused. */
  readonly brokenSites: number;
  readonly box: Box | null;
  /** Changes whenever the record changes. */
  readonly version: string;
  /** The most that its sites offer, where a catalogue has worked it out. */
  readonly envelope?: Envelope;
}

/** A site that the record names and that could not be read. */
export interface BrokenSite {
  readonly id: string | null;
  readonly faults: readonly Refusal[];
}

export interface StoredCampground {
  readonly summary: CampgroundSummary;
  readonly campground: Campground;
  readonly features: readonly CampgroundFeature[];
  readonly brokenSites: readonly BrokenSite[];
  /** The GeoJSON document as it is kept and given out. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly report: CampgroundReport;
}

export interface CampgroundStore {
  /** Every campground, in the order of the ids. */
  list(): Promise<readonly CampgroundSummary[]>;
  /** Those whose box meets the area; absent where the list is short enough to be gone through. */
  meeting?(area: Area): Promise<readonly CampgroundSummary[]>;
  /** Null when there is no campground of this id. */
  get(id: string): Promise<StoredCampground | null>;
  /** Changes whenever any record changes. */
  version(): Promise<string>;
}

/** A record to be read: GeoJSON text, or the value that it stands for. */
export interface RecordSource {
  /** What the log calls it: a file name. */
  readonly name: string;
  readonly input: unknown;
}

export interface RefusedSource {
  readonly name: string;
  readonly why: string;
}

/**
 * Reads the records and keeps them in memory. A record that is no campground, or whose id another one has, is refused
 * and told of; the others load.
 */
export async function memoryStore(
  sources: readonly RecordSource[],
): Promise<{ readonly store: CampgroundStore; readonly refused: readonly RefusedSource[] }> {
  const kept = new Map<string, StoredCampground>();
  const refused: RefusedSource[] = [];
  for (const { name, input } of sources) {
    const stored = await readStored(input);
    if (typeof stored === "string") refused.push({ name, why: stored });
    else if (kept.has(stored.summary.id)) refused.push({ name, why: `The id "${stored.summary.id}" is taken.` });
    else kept.set(stored.summary.id, stored);
  }
  const all = [...kept.values()].sort((a, b) => (a.summary.id < b.summary.id ? -1 : 1));
  const version = await digest(all.map((one) => one.summary.version).join(" "));
  return {
    store: {
      list: async () => all.map((one) => one.summary),
      get: async (id) => kept.get(id) ?? null,
      version: async () => version,
    },
    refused,
  };
}

/** One record as it is kept, or the reason why it cannot be. Takes GeoJSON text, or the value that it stands for. */
export async function readStored(input: unknown): Promise<StoredCampground | string> {
  const reading: CampgroundReading = readCampground(input);
  const { campground, document, features, report } = reading;
  if (campground === null || document === null) {
    const first = report.refused[0];
    return first === undefined ? "It cannot be read." : `${first.message} (${first.path || "the document"})`;
  }
  const sites = features.filter(isSite);
  const brokenSites = findBrokenSites(reading, input);
  const places = features.map(placeOf).filter((place) => place !== null);
  const summary: CampgroundSummary = {
    id: campground.id,
    name: campground.name ?? campground.id,
    sites: sites.length,
    brokenSites: brokenSites.length,
    box: boxOf(places),
    version: await digest(JSON.stringify(document)),
  };
  return { summary, campground, features, brokenSites, document, report };
}

export const isSite = (feature: CampgroundFeature): boolean => feature.properties["kind"] === "site";

/** The fault that costs a site a hookup and not its life. */
const HOOKUP_ONLY = "pedestal-too-far";

function findBrokenSites({ report }: CampgroundReading, input: unknown): BrokenSite[] {
  const faults = new Map<number, Refusal[]>();
  for (const fault of report.refused) {
    if (fault.index === null || fault.code === HOOKUP_ONLY) continue;
    faults.set(fault.index, [...(faults.get(fault.index) ?? []), fault]);
  }
  if (faults.size === 0) return [];
  const raw = rawFeatures(input);
  return [...faults]
    .filter(([index]) => kindOf(raw[index]) === "site")
    .map(([, list]) => ({ id: list[0]?.id ?? null, faults: list }));
}

/** The features as they were written; only asked for when some were refused. */
function rawFeatures(input: unknown): readonly unknown[] {
  const value: unknown = typeof input === "string" ? JSON.parse(input.replace(/^\ufeff/, "")) : input;
  const features = typeof value === "object" && value !== null && "features" in value ? value.features : [];
  return Array.isArray(features) ? features : [];
}

function kindOf(feature: unknown): unknown {
  const properties =
    typeof feature === "object" && feature !== null && "properties" in feature ? feature.properties : null;
  return typeof properties === "object" && properties !== null && "kind" in properties ? properties.kind : undefined;
}

const compiled = new WeakMap<StoredCampground, Around>();

/** The campground's features, made ready once for the completion of each of its sites. */
export function aroundOf(stored: StoredCampground): Around {
  const known = compiled.get(stored) ?? compileAround(stored.features, stored.campground?.patterns);
  compiled.set(stored, known);
  return known;
}

/** A site of a campground by its id, or null. */
export function siteOf(stored: StoredCampground, id: string): CampgroundFeature | null {
  return stored.features.find((feature) => isSite(feature) && featureId(feature) === id) ?? null;
}

const HEXADECIMAL = 16;
const VERSION_BYTES = 12;

async function digest(text: string): Promise<string> {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return [...bytes.subarray(0, VERSION_BYTES)].map((byte) => byte.toString(HEXADECIMAL).padStart(2, "0")).join("");
}
