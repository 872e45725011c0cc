/** Collection `sites`: every site that can be fitted, with its pad's outline or centre as it is on record. */
import type { StoredCampground } from "../../../records/store.ts";
import type { CompletedSite } from "../../../site/completed.ts";
import type { Estimate } from "../../../units/estimate.ts";
import { degreesOf } from "../../degrees.ts";
import { type Column, known, measure, RECORD_COLUMN, text, word } from "../columns.ts";
import { joinId, type OgcFeature } from "./feature.ts";
import { placedSites } from "./placed-sites.ts";

export const SITE_COLUMNS: readonly Column[] = [
  word("campground", "Id of the campground."),
  word("site", "Id of the site in its campground."),
  word("name", "Name of the site."),
  word("layout", "How a rig gets in and out.", ["back-in", "pull-through", "parallel"]),
  known("power", "Whether the site has electric power."),
  known("water", "Whether the site has a water tap to stay connected to."),
  known("sewer", "Whether the site has a sewer inlet."),
  known("cable", "Whether the site has cable television or data."),
  known("fill", "Whether the site has a tap to fill a tank from."),
  known("accessible", "Whether the site is accessible."),
  word("receptacles", "Receptacles of the site, in the order of the alphabet, with spaces between them."),
  { ...measure("maxAmps", "A", "Largest breaker of its receptacles."), queryable: true },
  measure("padLengthLow", "m", "Length of the pad, the least that the record allows for."),
  measure("padLengthHigh", "m", "Length of the pad, the most that the record allows for."),
  measure("padWidthLow", "m", "Width of the pad, the least that the record allows for."),
  measure("padWidthHigh", "m", "Width of the pad, the most that the record allows for."),
  measure("heading", "deg", "True bearing from the pad's rear edge to its exit."),
  measure("grade", "1", "Rise per metre towards the exit."),
  measure("crossfall", "1", "Rise per metre towards the left of someone looking to the exit."),
  word("surface", "Surface of the pad."),
  measure("longestRig", "m", "Longest rig that the host allows."),
  measure("widestRig", "m", "Widest rig that the host allows."),
  measure("highestRig", "m", "Highest rig that the host allows."),
  word("patio", "Side of the pad on which people sit, looking to the exit.", ["left", "right"]),
  text("closed", "Why the site is closed; null when the record does not say that it is."),
  word("electricalSystem", "Nominal volts of the campground."),
  RECORD_COLUMN,
];

export function siteFeatures(stored: StoredCampground): OgcFeature[] {
  return placedSites(stored).map(({ id, feature, site }) => ({
    id: joinId(stored.summary.id, id),
    geometry: feature.geometry,
    properties: { ...siteColumns(stored.summary.id, site), record: feature.properties },
  }));
}

function siteColumns(campground: string, site: CompletedSite): Readonly<Record<string, unknown>> {
  const { pad, limits, services } = site;
  const { types, maxAmps } = receptaclesOf(site);
  return {
    campground,
    site: site.id,
    name: site.name,
    layout: site.layout,
    ...services,
    accessible: site.accessible,
    receptacles: types,
    maxAmps,
    padLengthLow: pad.length?.low ?? null,
    padLengthHigh: pad.length?.high ?? null,
    padWidthLow: pad.width?.low ?? null,
    padWidthHigh: pad.width?.high ?? null,
    heading: pad.heading === null ? null : degreesOf(pad.heading.value),
    grade: nominal(pad.grade),
    crossfall: nominal(pad.crossfall),
    surface: pad.surface,
    longestRig: nominal(limits.length),
    widestRig: nominal(limits.width),
    highestRig: nominal(limits.height),
    patio: site.patio,
    closed: site.closed,
    electricalSystem: site.electricalSystem,
  };
}

const nominal = (estimate: Estimate | null): number | null => estimate?.value ?? null;

interface Receptacles {
  readonly types: string | null;
  readonly maxAmps: number | null;
}

/** Null where no receptacle is on record: that is no statement that there is none. */
export function receptaclesOf({ hookups }: Pick<CompletedSite, "hookups">): Receptacles {
  const all = hookups.flatMap((hookup) => hookup.receptacles);
  const amps = all.flatMap((one) => one.amps ?? []);
  return {
    types: all.length === 0 ? null : [...new Set(all.map((one) => one.type))].sort().join(" "),
    maxAmps: amps.length === 0 ? null : Math.max(...amps),
  };
}
