/** Parts that the invented sites share: receptacles, devices, and what stands on a site. */
import type { Properties } from "./camp.ts";

const SURVEY_DAY = "2025-05-12";
/** One invented survey with a tape and a level: 2 cm on the pad, half a metre in common on the earth. */
export const TAPED = { basis: "measured", accuracy: 0.02, observedAt: SURVEY_DAY } as const;
export const PLACED = { basis: "measured", accuracy: 0.05, accuracyShared: 0.5, survey: "demo-2025" } as const;

export const AMPS: Readonly<Record<string, number>> = {
  "nema-14-50": 50,
  "nema-tt-30": 30,
  "nema-5-20": 20,
  "nema-5-15": 15,
};

export function receptacle(type: string, more: Properties = {}): Properties {
  return { id: type.replace("nema-", ""), type, amps: AMPS[type], state: "working", checkedAt: SURVEY_DAY, ...more };
}

interface Place {
  readonly along: number;
  readonly left: number;
  readonly height?: number;
}

export function power(at: Place, receptacles: readonly Properties[], more: Properties = {}): Properties {
  return {
    id: "power",
    service: "power",
    at,
    ...TAPED,
    body: { width: 0.32, depth: 0.24, height: 1.3 },
    receptacles,
    ...more,
  };
}

/** A tap on its own riser, 3/4 in garden hose thread. Pressure in pascals: 55 psi is 379 kPa. */
export function water(at: Place, more: Properties = {}): Properties {
  return { id: "tap", service: "water", at, ...TAPED, thread: "ght-3-4", pressure: 379000, drinkable: "yes", ...more };
}

export function sewer(at: Place, more: Properties = {}): Properties {
  return { id: "drain", service: "sewer", at, ...TAPED, diameter: 0.102, threaded: "yes", ...more };
}

export function table(along: number, left: number): Properties {
  const [halfLong, halfWide] = [0.95, 0.8];
  return {
    what: "table",
    outline: [
      { along: along - halfLong, left: left - halfWide },
      { along: along + halfLong, left: left - halfWide },
      { along: along + halfLong, left: left + halfWide },
      { along: along - halfLong, left: left + halfWide },
    ],
    from: 0,
    to: 0.8,
    ...TAPED,
  };
}

export function round(what: string, along: number, left: number, radius: number, from: number, to: number): Properties {
  return { what, at: { along, left }, radius, from, to, ...TAPED };
}

export const fireRing = (along: number, left: number): Properties => round("fire-ring", along, left, 0.55, 0, 0.4);
export const tree = (along: number, left: number, radius = 0.25): Properties =>
  round("tree", along, left, radius, 0, 14);
export const branch = (along: number, left: number, from: number, radius = 1.4): Properties =>
  round("branch", along, left, radius, from, from + 4);
export const sitePost = (along: number, left: number): Properties => round("post", along, left, 0.06, 0, 1.1);

export const ALL_SERVICES = { power: "yes", water: "yes", sewer: "yes", cable: "no", fill: "no" } as const;
