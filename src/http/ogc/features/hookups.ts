/**
 * Collection `hookups`: pedestals, taps and sewer inlets, each on the earth where its place is a point and the pad's
 * place is on record. A place that is only a region has no geometry: the region is in its columns.
 */
import type { StoredCampground } from "../../../records/store.ts";
import type { CompletedHookup } from "../../../site/completed.ts";
import type { WireGeometry } from "../../../site/feature.ts";
import type { Estimate } from "../../../units/estimate.ts";
import { type Column, known, measure, RECORD_COLUMN, text, word } from "../columns.ts";
import { joinId, type OgcFeature } from "./feature.ts";
import { type PlacedSite, placedSites } from "./placed-sites.ts";
import { receptaclesOf } from "./sites.ts";

export const HOOKUP_COLUMNS: readonly Column[] = [
  word("campground", "Id of the campground."),
  word("site", "Id of the site in its campground."),
  word("hookup", "Id of the hookup at its site."),
  word("service", "What it gives.", ["power", "water", "fill", "sewer", "cable"]),
  word("basis", "How its place was come by.", ["measured", "mapped", "gps", "described", "code", "assumed"]),
  measure("accuracy", "m", "Standard deviation of its place on each axis, what it shares with its survey included."),
  measure("alongLow", "m", "From the pad's rear edge towards the exit, the least."),
  measure("alongHigh", "m", "From the pad's rear edge towards the exit, the most."),
  measure("leftLow", "m", "Left of the pad's axis, the least; right is negative."),
  measure("leftHigh", "m", "Left of the pad's axis, the most; right is negative."),
  measure("heightLow", "m", "Above its ground, the least."),
  measure("heightHigh", "m", "Above its ground, the most."),
  word("receptacles", "Its receptacles, in the order of the alphabet, with spaces between them."),
  { ...measure("maxAmps", "A", "Largest breaker of its receptacles."), queryable: true },
  word("pedestal", "Id of the pedestal that it stands on."),
  { name: "shared", type: "boolean", title: "Whether more than one site uses it.", queryable: true },
  word("thread", "Thread of the water outlet."),
  measure("pressure", "Pa", "Static water pressure."),
  known("drinkable", "Whether the water is recorded as drinkable."),
  measure("diameter", "m", "Inside diameter of the sewer inlet."),
  text("seasonal", "When it is shut, in words."),
  RECORD_COLUMN,
];

export function hookupFeatures(stored: StoredCampground): OgcFeature[] {
  return placedSites(stored).flatMap((placed) =>
    placed.site.hookups.map((hookup) => ({
      id: joinId(stored.summary.id, placed.id, hookup.id),
      geometry: geometryOf(hookup, placed),
      properties: {
        campground: stored.summary.id,
        site: placed.id,
        ...hookupColumns(hookup),
        record: recordAt(hookup.path, stored, placed),
      },
    })),
  );
}

function geometryOf({ along, left }: CompletedHookup, { toEarth }: PlacedSite): WireGeometry | null {
  if (toEarth === null || along === null || left === null || !isPoint(along) || !isPoint(left)) return null;
  return { type: "Point", coordinates: toEarth({ along: along.value, left: left.value }) };
}

const isPoint = ({ low, high }: Estimate): boolean => low === high;

function hookupColumns(hookup: CompletedHookup): Readonly<Record<string, unknown>> {
  const { along, left, height, water, sewer } = hookup;
  const { types, maxAmps } = receptaclesOf({ hookups: [hookup] });
  const sure = along !== null && isPoint(along);
  return {
    hookup: hookup.id,
    service: hookup.service,
    basis: along?.basis ?? null,
    accuracy: sure ? Math.hypot(along.sigma, along.sigmaShared) : null,
    alongLow: along?.low ?? null,
    alongHigh: along?.high ?? null,
    leftLow: left?.low ?? null,
    leftHigh: left?.high ?? null,
    heightLow: height?.low ?? null,
    heightHigh: height?.high ?? null,
    receptacles: types,
    maxAmps,
    pedestal: hookup.pedestal,
    shared: hookup.shared,
    thread: water?.thread ?? null,
    pressure: water?.pressure ?? null,
    drinkable: water?.drinkable ?? "unknown",
    diameter: sewer?.diameter ?? null,
    seasonal: water?.seasonal ?? null,
  };
}

/** What the record itself says at a JSON Pointer: of the site, or of a pattern of the campground. */
function recordAt(path: string, stored: StoredCampground, placed: PlacedSite): unknown {
  const root: unknown = path.startsWith("/campground") ? stored.document : placed.feature;
  const parts = path
    .split("/")
    .slice(1)
    .map((part) => part.replaceAll("~1", "/").replaceAll("~0", "~"));
  let value = root;
  for (const part of parts) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, part)) return null;
    value = (value as Readonly<Record<string, unknown>>)[part];
  }
  // A hookup that a siting code places has no record of its own but the word that the service is there.
  return typeof value === "object" ? value : null;
}
