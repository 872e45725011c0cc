/** Caps on a campground document, published with the other limits of the service. */
import { MAX_JSON_DEPTH } from "./json.ts";

const MEBIBYTE = 1_048_576;
const BYTES = 10;

export interface CampgroundLimits {
  /** Bytes of the document in UTF-8. */
  readonly bytes: number;
  /** Nesting of objects and arrays. */
  readonly depth: number;
  readonly features: number;
  /** Positions in the whole document. */
  readonly positions: number;
  /** Positions of one ring: its sides are tried against each other. */
  readonly ringPositions: number;
  /** Rings of one polygon: the outline and its holes. */
  readonly rings: number;
  /** Faults told of one feature. */
  readonly faultsPerFeature: number;
  /** Objects, arrays and values of the document, when it comes as an object. */
  readonly values: number;
}

/** A campground of 500 sites with thirty obstacles and hookups each stays well below. */
export const CAMPGROUND_LIMITS: CampgroundLimits = {
  bytes: BYTES * MEBIBYTE,
  depth: MAX_JSON_DEPTH,
  features: 20_000,
  positions: 200_000,
  ringPositions: 1000,
  rings: 50,
  faultsPerFeature: 20,
  values: 3_000_000,
};
