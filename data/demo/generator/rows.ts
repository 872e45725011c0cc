/** Rows of complete sites: two loops drawn once, and rows that are each drawn for themselves. */
import { bearing, type Feature, frameOf, headingOf, metres, onPad, outline, type PadPlace, type Properties } from "./camp.ts";
import {
  ALL_SERVICES,
  branch,
  fireRing,
  PLACED,
  power,
  receptacle,
  sewer,
  sitePost,
  TAPED,
  table,
  tree,
  water,
} from "./parts.ts";
import { CURLEW_PAD, PLOVER_PAD } from "./patterns.ts";

export interface PadSize {
  readonly length: number;
  readonly width: number;
}

export function siteFeature(id: string, name: string, place: PadPlace, size: PadSize, more: Properties): Feature {
  const pad = { place: PLACED, ...((more["pad"] as Properties | undefined) ?? {}) };
  return {
    type: "Feature",
    id,
    geometry: outline(place, size.length, size.width),
    properties: { kind: "site", name, heading: headingOf(place), headingAccuracy: 0.3, ...more, pad },
  };
}

/** A site with its own drawing: sizes and the origin stand in the record too. */
function drawnSite(id: string, name: string, place: PadPlace, size: PadSize, pad: Properties, more: Properties): Feature {
  const origin = onPad(frameOf(place, size.length), 0, 0);
  return siteFeature(id, name, place, size, { pad: { ...size, origin, ...TAPED, ...pad }, ...more });
}

interface Row {
  readonly count: number;
  readonly from: number;
  readonly spacing: number;
  readonly exitLeft: number;
  readonly turn: number;
}

function places({ count, from, spacing, exitLeft, turn }: Row): PadPlace[] {
  return Array.from({ length: count }, (_, index) => ({
    exit: { along: metres(from + spacing * index), left: exitLeft },
    turn,
  }));
}

/** Forty back-in sites on one drawing; the last ten are its mirror image, the first two are accessible. */
export function curlewLoop(): Feature[] {
  const rows: Row[] = [
    { count: 10, from: 26, spacing: 11.2, exitLeft: 56.4, turn: 90 },
    { count: 10, from: 26, spacing: 11.2, exitLeft: 63.6, turn: -90 },
    { count: 10, from: 26, spacing: 11.2, exitLeft: 104.4, turn: 90 },
    { count: 10, from: 26, spacing: 11.2, exitLeft: 111.6, turn: -90 },
  ];
  const firstMirrored = 30;
  return rows.flatMap(places).map((place, index) => {
    const number = index + 1;
    const id = `curlew-${number}`;
    const own = CURLEW_EXCEPTIONS[number] ?? {};
    const mirror = index >= firstMirrored ? { mirror: true } : {};
    const size = (own["pad"] as { width?: number } | undefined)?.width ?? CURLEW_PAD.width;
    const more = { pattern: "curlew", ...mirror, ...own };
    return siteFeature(id, `Curlew ${number}`, place, { length: CURLEW_PAD.length, width: size }, more);
  });
}

/** The accessible sites are wider, paved and nearly level, with the spout at hand height. */
const ACCESSIBLE: Properties = {
  accessible: "yes",
  pad: { width: 6.4, ...TAPED, surface: "concrete", grade: 0.004, crossfall: -0.008 },
  hookups: [
    { id: "power", at: { along: 4.4, left: 4.1, height: 0.95 }, service: "power", ...TAPED },
    { id: "tap", at: { along: 5.2, left: 4.05, height: 0.78 }, service: "water", ...TAPED },
    { id: "drain", at: { along: 5.9, left: 3.6, height: 0.04 }, service: "sewer", ...TAPED },
  ],
};

const FAILED_THIRTY: Properties = {
  hookups: [
    {
      id: "power",
      service: "power",
      receptacles: [
        receptacle("nema-14-50"),
        receptacle("nema-tt-30", { state: "failed", checkedAt: "2025-06-03" }),
        receptacle("nema-5-20"),
      ],
    },
  ],
};

/** What is different at single sites of the loop. */
const CURLEW_EXCEPTIONS: Readonly<Record<number, Properties>> = {
  1: ACCESSIBLE,
  2: ACCESSIBLE,
  12: FAILED_THIRTY,
  13: { ...FAILED_THIRTY, rules: { largerBreaker: "no" } },
  16: { limits: { length: 7.31 } },
  19: { closed: "closed while the drain is dug up, until 2025-09-30" },
  23: { limits: { length: 9.14, width: 4.9 } },
  27: { hookups: [{ id: "tap", service: "water", seasonal: "shut from October to April", pressure: 620000 }] },
  33: { facings: ["in"], rules: { noseIn: "yes" } },
  34: { facings: ["in"], rules: { noseIn: "yes" } },
  35: { facings: ["out"] },
  36: { facings: ["out"] },
};

/** Slanted pull-through pads between the main road and a lane. */
export function ploverRow(): Feature[] {
  const turn = -60;
  return places({ count: 8, from: 34, spacing: 13, exitLeft: 5.2, turn }).map((place, index) => {
    const id = `plover-${index + 1}`;
    const entry = { bearing: bearing(headingOf(place) + 180) };
    const more: Properties = { pattern: "plover", entry, ...(index === 5 ? { limits: { height: 3.2 } } : {}) };
    return siteFeature(id, `Plover ${index + 1}`, place, PLOVER_PAD, more);
  });
}

/** Water and nothing else. */
export function railLoop(): Feature[] {
  const size = { length: 11.3, width: 4.2 };
  return places({ count: 6, from: 30, spacing: 10.6, exitLeft: -43.4, turn: 75 }).map((place, index) =>
    drawnSite(`rail-${index + 1}`, `Rail ${index + 1}`, place, size, { surface: "grass", grade: 0.007, crossfall: -0.004 }, {
      layout: "back-in",
      services: { power: "no", water: "yes", sewer: "no", cable: "no", fill: "no" },
      hookups: [water({ along: 6.4 + 0.5 * index, left: 3.1, height: 0.7 })],
      obstacles: [table(5.1, -4.4), fireRing(8.2, -4.9)],
      patio: "right",
      rules: { generatorHours: "none", maxVehicles: 1 },
    }),
  );
}

/** Power only, one pedestal for two neighbours: allotted in the first two pairs, not in the others. */
export function wrenRow(): Feature[] {
  const [size, spacing] = [{ length: 11.9, width: 3.9 }, 8.6];
  return places({ count: 8, from: 30, spacing, exitLeft: -36.6, turn: -90 }).map((place, index) => {
    const pair = Math.floor(index / 2) + 1;
    const first = index % 2 === 0;
    // The pad's left lies towards the higher numbers: the post stands between the two of a pair.
    const left = first ? spacing / 2 : -spacing / 2;
    const [one, two] = [`wren-${2 * pair - 1}`, `wren-${2 * pair}`];
    const mine = (id: string, type: string, site: string) =>
      receptacle(type, { id, ...(pair <= 2 ? { forSites: [site] } : {}) });
    const receptacles = [mine("30-a", "nema-tt-30", one), mine("30-b", "nema-tt-30", two), mine("20-a", "nema-5-20", one)];
    return drawnSite(`wren-${index + 1}`, `Wren ${index + 1}`, place, size, { surface: "gravel", grade: -0.007, crossfall: 0.004 }, {
      layout: "back-in",
      facings: ["out"],
      services: { power: "yes", water: "no", sewer: "no", cable: "no", fill: "no" },
      hookups: [power({ along: 3.6, left, height: 0.85 }, receptacles, { pedestal: `wren-post-${pair}`, shared: true })],
      obstacles: first ? [table(8.4, -4.1)] : [table(9.2, 4.1)],
      patio: first ? "right" : "left",
    });
  });
}

/** Trees close to the pads and branches low over them. */
export function siskinWood(): Feature[] {
  const size = { length: 10.7, width: 3.9 };
  const lows = [2.6, 4.4, 3.2, 2.9, 5.0, 3.7, 4.1, 2.2];
  return places({ count: 8, from: 30, spacing: 12.4, exitLeft: -81.2, turn: -68 }).map((place, index) =>
    drawnSite(`siskin-${index + 1}`, `Siskin ${index + 1}`, place, size, { surface: "bark", grade: 0.009, crossfall: -0.006 }, {
      layout: "back-in",
      services: { power: "yes", water: "yes", sewer: "no", cable: "no", fill: "no" },
      hookups: [
        power({ along: 1.8 + 0.4 * index, left: 3.4, height: 0.9 }, [receptacle("nema-tt-30"), receptacle("nema-5-20")]),
        water({ along: 5.9, left: 3.2, height: 0.5 }, { pressure: 300000 }),
      ],
      obstacles: [
        tree(1.1, -2.6),
        tree(5.8, index % 2 === 0 ? -3.1 : -5.9, 0.3),
        tree(9.6, 2.6 + 0.15 * index, 0.22),
        branch(4.2, -1.1, lows[index] ?? 4),
        fireRing(8.1, -5.2),
        table(2.8, -5.3),
        sitePost(10.4, -2.3),
      ],
      patio: "right",
      shade: "full",
    }),
  );
}

/** Hookups on the passenger's side of a backed-in rig. */
export function grebeRow(): Feature[] {
  const size = { length: 12.8, width: 3.7 };
  return places({ count: 5, from: 150, spacing: 11, exitLeft: -88.6, turn: 90 }).map((place, index) =>
    drawnSite(`grebe-${index + 1}`, `Grebe ${index + 1}`, place, size, { surface: "gravel", grade: 0.009, crossfall: 0.003 }, {
      layout: "back-in",
      ...(index >= 3 ? { facings: ["out"] } : {}),
      services: ALL_SERVICES,
      hookups: [
        power({ along: 3.2 + 0.9 * index, left: -3.4, height: 1.1 }, [receptacle("nema-14-50"), receptacle("nema-tt-30")]),
        water({ along: 4.1, left: -3.1, height: 0.6 }),
        sewer({ along: 5.5, left: -2.6, height: 0.06 }),
      ],
      obstacles: [table(9.1, 4.6), fireRing(11.4, 5.3)],
      patio: "left",
    }),
  );
}

/** What two of the posts at the lake have instead of the usual pair. */
const SHORE_RECEPTACLES: Readonly<Record<number, readonly string[]>> = {
  3: ["nema-14-50", "nema-5-20"],
  4: ["nema-5-20"],
};

/** Along the lake: exit to the lane, rear to the water. */
export function avocetShore(): Feature[] {
  const size = { length: 12.2, width: 4.3 };
  return Array.from({ length: 6 }, (_, index) => ({ exit: { along: 243.4, left: -104 + 12.5 * index }, turn: 176 })).map(
    (place, index) =>
      drawnSite(`avocet-${index + 1}`, `Avocet ${index + 1}`, place, size, { surface: "gravel", grade: 0.008, crossfall: 0.004 }, {
        layout: "back-in",
        facings: ["out", "in"],
        services: { power: "yes", water: "yes", sewer: "no", cable: "no", fill: "no" },
        hookups: [
          power({ along: 5.4, left: 3.6, height: 1.2 }, (SHORE_RECEPTACLES[index] ?? ["nema-tt-30", "nema-5-20"]).map((type) => receptacle(type))),
          water({ along: 4.7, left: 3.3, height: 0.65 }, { pressure: 240000 }),
        ],
        obstacles: [table(2.2, -5), fireRing(-3.2, -1.5)],
        patio: "right",
        shade: "none",
        rules: { awning: index === 5 ? "no" : "yes", generatorHours: "none" },
      }),
  );
}

/** On the hill: slopes measured with a level, from easy to steep. */
export function pipitSlope(): Feature[] {
  const size = { length: 13.1, width: 4.3 };
  const grades = [0.0275, 0.028, 0.046, -0.025, 0.071];
  const crossfalls = [0.011, -0.025, 0.013, 0.015, -0.037];
  return Array.from({ length: 5 }, (_, index) => ({ exit: { along: 243.4, left: 46 + 11.5 * index }, turn: 172 })).map(
    (place, index) => {
      const pad = { surface: "asphalt", grade: grades[index], crossfall: crossfalls[index] };
      return drawnSite(`pipit-${index + 1}`, `Pipit ${index + 1}`, place, size, pad, {
        layout: "back-in",
        facings: ["out"],
        services: ALL_SERVICES,
        hookups: [
          power({ along: 3, left: 3.7, height: 1 }, [receptacle("nema-14-50"), receptacle("nema-tt-30"), receptacle("nema-5-20")]),
          water({ along: 3.6, left: 3.5, height: 0.6 }),
          sewer({ along: 4.6, left: 2.8, height: 0.22 }),
        ],
        obstacles: [table(8.8, -4.9)],
        patio: "right",
      });
    },
  );
}

/** Wheel stops and kerbs, with and without a clear strip behind them. */
export function dipperRow(): Feature[] {
  const size = { length: 6.4, width: 4.1 };
  const stops: Properties[] = [
    { kind: "wheelStop", along: 0.4, height: 0.14, clearBehind: 2.1 },
    { kind: "wheelStop", along: 0.4, height: 0.14, clearBehind: 0.6 },
    { kind: "kerb", along: 0, height: 0.16, clearBehind: 2.6 },
    { kind: "kerb", along: 0, height: 0.3, clearBehind: 2.6 },
    { kind: "wheelStop", along: 0.9, height: 0.12, clearBehind: 2.9 },
  ];
  const strips = [1.5, 0.5, 2.2, 2.2, 2.4];
  return stops.map((stop, index) => {
    const place = { exit: { along: 236.6, left: 48 + 10.4 * index }, turn: 0 };
    const pad = { surface: "asphalt", grade: 0.006, crossfall: 0.005, overhangRear: strips[index] };
    return drawnSite(`dipper-${index + 1}`, `Dipper ${index + 1}`, place, size, pad, {
      layout: "back-in",
      facings: ["out"],
      stop,
      services: { ...ALL_SERVICES, sewer: "no" },
      hookups: [
        power({ along: 1.5, left: 3.5, height: 1.05 }, [receptacle("nema-tt-30"), receptacle("nema-5-20")]),
        water({ along: 2.1, left: 3.2, height: 0.6 }),
      ],
      obstacles: [table(4.6, -4.4)],
      patio: "right",
    });
  });
}
