/** The wind that the reader asks about: kept from site to site, so that sites are compared under one wind. */
import type { Units } from "../state/store.ts";

export type WindChoice =
  | { readonly kind: "none" }
  /** A gust that somebody expects; metres per second, and a compass word that it comes from. */
  | { readonly kind: "hand"; readonly speed: number; readonly from: string }
  /** One of the invented days. */
  | { readonly kind: "day"; readonly id: string }
  /** Local dates of a stay, answered by the server's forecast. */
  | { readonly kind: "dates"; readonly from: string; readonly to: string };

export const NO_WIND: WindChoice = { kind: "none" };

/** The core has the same list, but with it would come the reader of records; a test holds the two together. */
export const COMPASS = "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split(" ");

const METRES_PER_SECOND = { us: 0.44704, metric: 1 / 3.6 } as const;
const UNIT = { us: "mph", metric: "km/h" } as const;
/** Beyond this nobody asks about an awning; metres per second. */
export const FASTEST = 40;

export const speedUnit = (units: Units): string => UNIT[units];
export const shownSpeed = (speed: number, units: Units): number => Math.round(speed / METRES_PER_SECOND[units]);
export const speedOf = (shown: number, units: Units): number => shown * METRES_PER_SECOND[units];

/** "gusting 20 mph from SW", as a request writes it. */
export function windText(speed: number, from: string, units: Units): string {
  return `gusting ${shownSpeed(speed, units)} ${UNIT[units]} from ${from}`;
}
