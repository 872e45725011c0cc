/** Requests that the description shows and the tests send. The campground and the rig are invented. */

/** The least that works: class, length, height, cord, hose and awning. */
export const EXAMPLE_RIG = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "25 ft" },
  sewerHose: "10 ft",
  awning: { projection: "8 ft" },
} as const;

export const EXAMPLE_CAMPGROUND = {
  id: "alder-flat",
  name: "Alder Flat (invented)",
  timeZone: "America/Denver",
  electricalSystem: "120/240",
  drivesOn: "right",
  licence: "Invented for this description; free to use",
  sources: ["invented"],
} as const;

export const EXAMPLE_SITE = {
  type: "Feature",
  id: "A7",
  geometry: null,
  properties: {
    kind: "site",
    name: "A7",
    layout: "back-in",
    facings: ["out"],
    heading: 212,
    pad: {
      origin: [-106.2071, 39.8412],
      length: "48 ft",
      width: "14 ft",
      basis: "measured",
      accuracy: 0.05,
      surface: "gravel",
      grade: 0.01,
      crossfall: 0.005,
    },
    services: { power: "yes", water: "yes", sewer: "yes" },
    hookups: [
      {
        id: "A7-power",
        service: "power",
        at: { along: 4.6, left: 3.6, height: 1 },
        basis: "measured",
        accuracy: 0.05,
        receptacles: [
          { id: "A7-30", type: "nema-tt-30", amps: 30, volts: 120, state: "working" },
          { id: "A7-50", type: "nema-14-50", amps: 50, volts: 120, state: "working" },
        ],
      },
      {
        id: "A7-water",
        service: "water",
        at: { along: 5.4, left: 3.4, height: 0.5 },
        basis: "measured",
        accuracy: 0.05,
        thread: "ght-3-4",
        drinkable: "yes",
      },
      {
        id: "A7-sewer",
        service: "sewer",
        at: { along: 2.9, left: 2.8, height: 0.02 },
        basis: "measured",
        accuracy: 0.05,
        diameter: "4 in",
        threaded: "yes",
      },
    ],
    patio: "right",
    accessible: "no",
  },
} as const;

export const EXAMPLE_FIT_REQUEST = {
  rig: EXAMPLE_RIG,
  site: EXAMPLE_SITE,
  campground: EXAMPLE_CAMPGROUND,
  options: { units: "us", needs: { sewer: "required" } },
} as const;

/** A second site, on which the pedestal was never measured. */
export const EXAMPLE_VAGUE_SITE = {
  type: "Feature",
  id: "B2",
  geometry: { type: "Point", coordinates: [-106.2079, 39.8409] },
  properties: { kind: "site", name: "B2", layout: "pull-through", services: { power: "yes", sewer: "no" } },
} as const;

export const EXAMPLE_COLLECTION = {
  type: "FeatureCollection",
  campground: EXAMPLE_CAMPGROUND,
  features: [EXAMPLE_SITE, EXAMPLE_VAGUE_SITE],
} as const;

export const EXAMPLE_SEARCH_REQUEST = {
  rig: EXAMPLE_RIG,
  campground: "alder-flat",
  needs: { power: "required", sewer: "wanted" },
  filters: { services: ["power"] },
  limit: 10,
} as const;
