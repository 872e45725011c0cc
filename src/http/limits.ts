/** Every cap of the HTTP interface. Published at /v1/limits, quoted in problems, and stated here only. */
import { MAX_JSON_DEPTH } from "../records/json.ts";

const KIBIBYTE = 1024;
const MEBIBYTE = KIBIBYTE * KIBIBYTE;

export interface Limits {
  /** Bytes of a request body, counted as they arrive. */
  readonly fitBodyBytes: number;
  readonly searchBodyBytes: number;
  readonly importBodyBytes: number;
  /** Levels of nesting in JSON. */
  readonly jsonDepth: number;
  /** Features sent beside a bare site. */
  readonly aroundFeatures: number;
  /** Sites fitted for one search. */
  readonly sitesPerSearch: number;
  /** Time after which a search fits no further site. */
  readonly searchMilliseconds: number;
  /** Time for which a fit waits for a forecast. */
  readonly forecastMilliseconds: number;
  /** Metres round a point. */
  readonly searchRadius: number;
  readonly pageSize: number;
  readonly pageSizeDefault: number;
  /** Errors listed in one problem. */
  readonly errorsListed: number;
  /** Characters of a query parameter or path part. */
  readonly parameterLength: number;
}

export const DEFAULT_LIMITS: Limits = {
  fitBodyBytes: MEBIBYTE,
  searchBodyBytes: MEBIBYTE,
  importBodyBytes: 10 * MEBIBYTE,
  jsonDepth: MAX_JSON_DEPTH,
  aroundFeatures: 200,
  sitesPerSearch: 300,
  searchMilliseconds: 20_000,
  forecastMilliseconds: 4000,
  searchRadius: 500_000,
  pageSize: 100,
  pageSizeDefault: 20,
  errorsListed: 50,
  parameterLength: 512,
};

/** What each cap means, for /v1/limits and the reference page. */
export const LIMIT_MEANINGS: Readonly<Record<keyof Limits, { readonly unit: string; readonly meaning: string }>> = {
  fitBodyBytes: { unit: "bytes", meaning: "Largest body of a fit request; a larger one is answered 413." },
  searchBodyBytes: { unit: "bytes", meaning: "Largest body of a search request; a larger one is answered 413." },
  importBodyBytes: { unit: "bytes", meaning: "Largest body of an import; a larger one is answered 413." },
  jsonDepth: { unit: "levels", meaning: "Deepest nesting of objects and arrays in JSON; deeper is answered 400." },
  aroundFeatures: { unit: "features", meaning: "Features sent as `around` beside a bare site." },
  sitesPerSearch: { unit: "sites", meaning: "Sites that one search may have to fit; more is answered 422." },
  searchMilliseconds: {
    unit: "milliseconds",
    meaning: "A search fits no further site after it; the answer says so and the same request goes on from there.",
  },
  forecastMilliseconds: {
    unit: "milliseconds",
    meaning: "A fit waits no longer for a forecast; then the hours of the stay are unknown and the answer says so.",
  },
  searchRadius: { unit: "metres", meaning: "Largest radius round a point." },
  pageSize: { unit: "items", meaning: "Largest page; a larger limit is lowered to it." },
  pageSizeDefault: { unit: "items", meaning: "Page when the request gives no limit." },
  errorsListed: { unit: "errors", meaning: "Errors listed in one problem; `errorCount` counts them all." },
  parameterLength: { unit: "characters", meaning: "Longest query parameter or path part." },
};
