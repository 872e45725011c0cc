/** Collection `campgrounds`: one point for each, in the middle of what is on record of it. */
import type { StoredCampground } from "../../../records/store.ts";
import type { WireGeometry } from "../../../site/feature.ts";
import { type Column, measure, RECORD_COLUMN, text, word } from "../columns.ts";
import { joinId, type OgcFeature } from "./feature.ts";
import { rounded } from "./placed-sites.ts";

export const CAMPGROUND_COLUMNS: readonly Column[] = [
  word("campground", "Id of the campground."),
  word("name", "Name of the campground."),
  { name: "sites", type: "integer", title: "Sites that can be fitted.", queryable: true },
  { name: "brokenSites", type: "integer", title: "Sites whose record was refused.", queryable: true },
  word("timeZone", "IANA name of the time zone."),
  word("electricalSystem", "Nominal volts."),
  word("drivesOn", "Side of the road that is driven on.", ["right", "left"]),
  word("sitingCode", "Siting rule that places hookups nobody measured."),
  measure("elevation", "m", "Above sea level."),
  text("licence", "Licence of the record."),
  text("version", "Changes whenever the record does."),
  RECORD_COLUMN,
];

export function campgroundFeatures({ summary, campground, document }: StoredCampground): OgcFeature[] {
  const properties = {
    campground: summary.id,
    name: summary.name,
    sites: summary.sites,
    brokenSites: summary.brokenSites,
    timeZone: campground.timeZone ?? null,
    electricalSystem: campground.electricalSystem ?? null,
    drivesOn: campground.drivesOn ?? null,
    sitingCode: campground.sitingCode ?? null,
    elevation: campground.elevation ?? null,
    licence: campground.licence ?? null,
    version: summary.version,
    record: document["campground"] ?? null,
  };
  return [{ id: joinId(summary.id), geometry: middleOf(summary.box), properties }];
}

const TURN = 360;
const HALF_TURN = 180;

function middleOf(box: StoredCampground["summary"]["box"]): WireGeometry | null {
  if (box === null) return null;
  const [west, south, east, north] = box;
  const middle = (west + (east < west ? east + TURN : east)) / 2;
  const longitude = middle >= HALF_TURN ? middle - TURN : middle;
  return { type: "Point", coordinates: [rounded(longitude), rounded((south + north) / 2)] };
}
