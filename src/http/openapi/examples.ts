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

/** Trees west of the site, so that the wind has something to meet. */
const EXAMPLE_SHELTER = {
  type: "Feature",
  id: "west-belt",
  geometry: {
    type: "LineString",
    coordinates: [
      [-106.2076, 39.8405],
      [-106.2076, 39.842],
    ],
  },
  properties: { kind: "shelter", what: "trees", height: "9 m", leaf: "evergreen", width: "6 m" },
} as const;

export const EXAMPLE_WIND_REQUEST = {
  site: EXAMPLE_SITE,
  campground: { ...EXAMPLE_CAMPGROUND, prevailingWind: { from: "W", basis: "described" } },
  around: [EXAMPLE_SHELTER],
  awning: { padSide: "right", class: 2 },
  when: {
    from: "2026-07-04",
    to: "2026-07-04",
    asOf: "2026-07-04T06:00-06:00",
    forecast: {
      source: "invented",
      issuedAt: "2026-07-04T05:00-06:00",
      hours: [
        { start: "2026-07-04T13:00-06:00", gust: "8 mph", from: "SW" },
        { start: "2026-07-04T14:00-06:00", gust: "34 mph", from: "S" },
        { start: "2026-07-04T15:00-06:00", gust: "20 mph", from: "SW", hazards: ["thunderstorm"] },
      ],
    },
  },
} as const;

export const EXAMPLE_SEARCH_REQUEST = {
  rig: EXAMPLE_RIG,
  campground: "alder-flat",
  needs: { power: "required", sewer: "wanted" },
  filters: { services: ["power"] },
  limit: 10,
} as const;

/** An invented campground of one pitch, as open map data. */
export const EXAMPLE_OSM_XML = `<osm version="0.6" generator="invented">
  <node id="1" lat="39.8410" lon="-106.2075"/>
  <node id="2" lat="39.8410" lon="-106.2069"/>
  <node id="3" lat="39.8414" lon="-106.2069"/>
  <node id="4" lat="39.8414" lon="-106.2075"/>
  <node id="5" lat="39.8412" lon="-106.2072">
    <tag k="tourism" v="camp_pitch"/>
    <tag k="ref" v="7"/>
    <tag k="power_supply" v="yes"/>
    <tag k="maxlength" v="12"/>
  </node>
  <way id="9">
    <nd ref="1"/><nd ref="2"/><nd ref="3"/><nd ref="4"/><nd ref="1"/>
    <tag k="tourism" v="camp_site"/>
    <tag k="name" v="Alder Flat (invented)"/>
  </way>
</osm>
`;

export const EXAMPLE_OVERPASS = {
  version: 0.6,
  generator: "invented",
  elements: [
    {
      type: "node",
      id: 5,
      lat: 39.8412,
      lon: -106.2072,
      tags: { tourism: "camp_pitch", ref: "7", power_supply: "yes", maxlength: "12" },
    },
  ],
} as const;

export const EXAMPLE_OSM_GEOJSON = {
  type: "FeatureCollection",
  features: [
    {
      type: "Feature",
      id: "node/5",
      geometry: { type: "Point", coordinates: [-106.2072, 39.8412] },
      properties: { tourism: "camp_pitch", ref: "7", power_supply: "yes", maxlength: "12" },
    },
  ],
} as const;
