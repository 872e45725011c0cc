/** Two invented campgrounds with everything that geodata has to carry: odd ids, tape-only sites, regions, patterns. */

const curlew = {
  measuredOn: "3",
  layout: "back-in",
  pad: { length: 13.7, width: 4, basis: "measured", accuracy: 0.02, grade: 0.03 },
  services: { power: "yes", water: "yes", sewer: "no" },
  hookups: [
    {
      id: "post",
      service: "power",
      at: { along: 3.1, left: 4.2, height: 0.9 },
      basis: "measured",
      accuracy: 0.03,
      pedestal: "p",
      receptacles: [
        { id: "b", type: "nema-tt-30", amps: 30, state: "working" },
        { id: "a", type: "nema-14-50", amps: 50, state: "failed" },
      ],
    },
  ],
  obstacles: [
    {
      what: "table",
      outline: [
        { along: 7, left: -5.5 },
        { along: 9, left: -5.5 },
        { along: 9, left: -4 },
      ],
      to: 0.8,
    },
  ],
} as const;

/** About 20 m square round a corner in the south-west. */
function square(west: number, south: number, size = 0.0002) {
  const [east, north] = [west + size, south + size];
  return {
    type: "Polygon",
    coordinates: [
      [
        [west, south],
        [east, south],
        [east, north],
        [west, north],
        [west, south],
      ],
    ],
  };
}

const site = (id: string, geometry: object | null, properties: object) => ({
  type: "Feature",
  id,
  geometry,
  properties: { kind: "site", name: `Site ${id}`, ...properties },
});

export const ALDER = {
  type: "FeatureCollection",
  campground: {
    id: "alder:bend",
    name: "Alder Bend (invented)",
    timeZone: "America/Denver",
    electricalSystem: "120/240",
    drivesOn: "right",
    elevation: 1512,
    licence: "CC0-1.0",
    host: { unknown: ["kept", null, 1.5, { deep: true }] },
    patterns: { curlew },
  },
  features: [
    site(
      "3",
      { type: "Point", coordinates: [-105.2, 40.1] },
      {
        pattern: "curlew",
        heading: 100,
        pad: { origin: [-105.2, 40.1], place: { basis: "measured", accuracy: 0.1 } },
      },
    ),
    site(
      "4/b",
      { type: "Point", coordinates: [-105.2, 40.102] },
      {
        pattern: "curlew",
        mirror: true,
        heading: 100,
        pad: { origin: [-105.2, 40.102], place: { basis: "measured", accuracy: 0.1 } },
      },
    ),
    site("50%", square(-105.21, 40.11), {
      layout: "pull-through",
      services: { power: "no" },
      limits: { length: 12 },
      accessible: true,
      closed: "flood",
      ownMember: { nested: [1, 2.25, "x", null], empty: {}, list: [] },
    }),
    site("tape", null, {
      layout: "parallel",
      pad: { length: 11, width: 3.5, basis: "measured", accuracy: 0.05 },
      hookups: [
        { id: "tap", service: "water", at: { along: 2, left: -3, height: 0.5 }, basis: "measured", accuracy: 0.05 },
      ],
    }),
    site(
      "vague",
      { type: "Point", coordinates: [-105.2, 40.105] },
      {
        heading: 10,
        pad: { length: 12, width: 4, basis: "measured", accuracy: 0.05 },
        hookups: [{ id: "somewhere", service: "power", place: { side: "left", third: "rear" } }],
      },
    ),
    {
      type: "Feature",
      id: "oak",
      geometry: { type: "Point", coordinates: [-105.2005, 40.1005] },
      properties: { kind: "obstacle", what: "tree", radius: 0.4, to: 14 },
    },
    {
      type: "Feature",
      id: "walk",
      geometry: {
        type: "LineString",
        coordinates: [
          [-105.3, 40.2],
          [-105.1, 40.2],
        ],
      },
      properties: { kind: "obstacle", what: "walkway", width: 1.5 },
    },
  ],
} as const;

export const TERN = {
  type: "FeatureCollection",
  campground: { id: "tern-point", name: "Tern Point (invented)", electricalSystem: "230" },
  features: [
    site("east-of-the-line", { type: "Point", coordinates: [179.9995, -16.5] }, { layout: "back-in" }),
    site("west-of-the-line", { type: "Point", coordinates: [-179.9996, -16.5] }, { layout: "parallel" }),
  ],
} as const;

export const SOURCES = [
  { name: "alder", input: ALDER },
  { name: "tern", input: TERN },
];
