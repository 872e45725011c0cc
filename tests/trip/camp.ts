/** An invented campground whose pads are hardly longer than the rig, so that each site's wishes can be told by hand. */

import { completeOptions } from "../../src/fit/options.ts";
import { readCampground } from "../../src/records/geojson.ts";
import { isSite } from "../../src/records/store.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { compileAround } from "../../src/site/complete.ts";
import { type CampgroundFeature, featureId } from "../../src/site/feature.ts";
import type { CampgroundStay, OffGridStay, SiteStay, TripCampground, TripRig } from "../../src/trip/place.ts";
import type { TripInput } from "../../src/trip/plan.ts";

interface Places {
  readonly power: readonly [number, number];
  readonly water: readonly [number, number];
  readonly sewer: readonly [number, number];
  readonly plug?: string;
}

function siteOf(id: string, { power, water, sewer, plug = "nema-tt-30" }: Places) {
  const at = ([along, left]: readonly [number, number], height: number) => ({
    at: { along, left, height },
    basis: "measured",
    accuracy: 0.02,
  });
  const amps = plug === "nema-14-50" ? 50 : 30;
  return {
    type: "Feature",
    id,
    geometry: null,
    properties: {
      kind: "site",
      name: id.toUpperCase(),
      layout: "back-in",
      facings: ["out"],
      heading: 40,
      pad: { length: 9.1, width: 4.6, basis: "measured", accuracy: 0.02, grade: 0.004, crossfall: 0.002 },
      services: { power: "yes", water: "yes", sewer: "yes", cable: "no", fill: "no" },
      hookups: [
        {
          id: `${id}-p`,
          service: "power",
          ...at(power, 1),
          receptacles: [{ id: `${id}-r`, type: plug, amps, state: "working" }],
        },
        { id: `${id}-w`, service: "water", ...at(water, 0.5), thread: "ght", drinkable: "yes" },
        { id: `${id}-s`, service: "sewer", ...at(sewer, 0.05), diameter: 0.1 },
      ],
    },
  };
}

const NEAR: Places = { power: [2.6, 3.4], water: [4.2, 3.3], sewer: [2, 3.1] };

export const CAMP_DOCUMENT = {
  type: "FeatureCollection",
  campground: { id: "willow-bend", name: "Willow Bend (invented)", electricalSystem: "120/240", drivesOn: "right" },
  features: [
    siteOf("near", NEAR),
    siteOf("fifty", { ...NEAR, plug: "nema-14-50" }),
    siteOf("far-power", { ...NEAR, power: [10.4, 4.9] }),
    siteOf("far-water", { ...NEAR, water: [13.1, 3.9] }),
    siteOf("farther-water", { ...NEAR, water: [20.3, 4.4] }),
    siteOf("far-drain", { ...NEAR, sewer: [5.6, 3.7] }),
    siteOf("near-too", { ...NEAR, power: [2.9, 3.5] }),
  ],
};

const reading = readCampground(CAMP_DOCUMENT);
export const CAMP: TripCampground = {
  id: "willow-bend",
  name: "Willow Bend (invented)",
  campground: reading.campground,
  features: reading.features,
  around: compileAround(reading.features, undefined),
  version: "1",
};
export const SITES: readonly CampgroundFeature[] = reading.features.filter(isSite);

export function siteNamed(id: string): CampgroundFeature {
  const found = SITES.find((site) => featureId(site) === id);
  if (found === undefined) throw new Error(`no site ${id}`);
  return found;
}

export type KitThing = Readonly<Record<string, unknown>>;

export const RIG_RECORD = {
  id: "heron",
  name: "Heron (invented)",
  class: "class-c",
  length: "25 ft 4 in",
  width: "8 ft 4 in",
  height: "11 ft 2 in",
  connections: [
    {
      service: "power",
      side: "left",
      fromRear: 1.6,
      height: 0.8,
      plug: "nema-tt-30",
      line: { length: "25 ft", gauge: "10 AWG", rating: "30 A" },
    },
    { service: "water", side: "left", fromRear: 2.5, height: 0.75, line: { length: "25 ft", drinkingWater: true } },
    { service: "sewer", side: "left", fromRear: 2.1, left: 1.1, height: 0.4, line: { length: "10 ft" } },
  ],
  tanks: { fresh: "38 gal", grey: "31 gal", black: "27 gal" },
} as const;

export function rigWith(kit: readonly KitThing[], more: Readonly<Record<string, unknown>> = {}): TripRig {
  const read = parseRig({ ...RIG_RECORD, ...more, kit });
  if (!read.ok) throw new Error(JSON.stringify(read.errors));
  return { profile: read.rig, warnings: [] };
}

const FIRST = 1;
const stay = (index: number) => ({
  arrive: `2025-07-0${FIRST + index}`,
  leave: `2025-07-0${FIRST + index + 1}`,
  nights: 1,
  lends: [],
  needs: {},
  temperature: null,
});

export function atSite(index: number, id: string, others: readonly string[] = []): SiteStay {
  return { kind: "site", name: id, ...stay(index), place: CAMP, site: siteNamed(id), others: others.map(siteNamed) };
}

export function atCamp(index: number, free: readonly string[], taken = 0): CampgroundStay {
  return { kind: "campground", name: "Willow Bend", ...stay(index), place: CAMP, free: free.map(siteNamed), taken };
}

export function offGrid(index: number): OffGridStay {
  return { kind: "off-grid", name: "Nowhere", ...stay(index) };
}

export function tripInput(
  rig: TripRig,
  stops: TripInput["stops"],
  stock: TripInput["stock"] = [],
  detail: "summary" | "full" = "summary",
): TripInput {
  const options = completeOptions({ detail });
  return { rig, stops, stock, options, party: { adults: 2 }, roseOf: null, carried: {}, language: "en" };
}
