/** Every cap of the HTTP interface. Published at /v1/limits, quoted in problems, and stated here only. */
import { MOST_FORECAST_HOURS, MOST_STAY_DAYS } from "../fit/wind/when.ts";
import { MAX_JSON_DEPTH } from "../records/json.ts";
import { MOST_NIGHTS, TRIP_LISTS } from "../trip/request.ts";

const KIBIBYTE = 1024;
const MEBIBYTE = KIBIBYTE * KIBIBYTE;

export interface Limits {
  /** Bytes of a request body, counted as they arrive. */
  readonly fitBodyBytes: number;
  readonly searchBodyBytes: number;
  readonly importBodyBytes: number;
  /** Bytes of a stay, hold, closure or list of moves; of a record, a plan or a table of stays it is importBodyBytes. */
  readonly hostBodyBytes: number;
  readonly tripBodyBytes: number;
  /** A batch: its body, its lists, and pairs of a rig and a site. */
  readonly batchBodyBytes: number;
  readonly rigsPerBatch: number;
  readonly sitesPerBatch: number;
  readonly campgroundsPerBatch: number;
  readonly pairsPerBatch: number;
  /** Sites fitted for one trip, and pairs of unit and site fitted for one desk. */
  readonly sitesPerTrip: number;
  readonly pairsPerDesk: number;
  /** Lists of trips and desks; held by their schemas. */
  readonly stopsPerTrip: number;
  readonly nightsPerTrip: number;
  readonly unitsPerDesk: number;
  readonly tripsPerDesk: number;
  /** Levels of nesting in JSON. */
  readonly jsonDepth: number;
  /** Features sent beside a bare site. */
  readonly aroundFeatures: number;
  /** Sites fitted for one search. */
  readonly sitesPerSearch: number;
  /** Sites looked at by nominal values for one search. */
  readonly sitesPerLook: number;
  /** Time after which a search fits no further site. */
  readonly searchMilliseconds: number;
  /** Time for which a fit waits for a forecast. */
  readonly forecastMilliseconds: number;
  /** Days of a stay, and hours of a forecast that is handed in. */
  readonly stayDays: number;
  readonly forecastHours: number;
  /** Stays moved, released or locked by one request. */
  readonly movesAtOnce: number;
  /** Stays of one plan. */
  readonly planEntries: number;
  /** Rows of one table of stays. */
  readonly tableRows: number;
  /** Errors listed for the rows of a table. */
  readonly rowErrorsListed: number;
  /** Stays whose fit is compared before and after a change of the record. */
  readonly fitsCompared: number;
  /** Metres round a point. */
  readonly searchRadius: number;
  readonly pageSize: number;
  readonly pageSizeDefault: number;
  /** Features of one page of geodata. */
  readonly itemsPage: number;
  readonly itemsPageDefault: number;
  /** Records that one page of geodata reads, and records among which matches are counted. */
  readonly campgroundsPerPage: number;
  readonly campgroundsCounted: number;
  /** Errors listed in one problem. */
  readonly errorsListed: number;
  /** Characters of a query parameter or path part. */
  readonly parameterLength: number;
}

export const DEFAULT_LIMITS: Limits = {
  fitBodyBytes: MEBIBYTE,
  searchBodyBytes: MEBIBYTE,
  importBodyBytes: 10 * MEBIBYTE,
  hostBodyBytes: MEBIBYTE,
  tripBodyBytes: 2 * MEBIBYTE,
  batchBodyBytes: 8 * MEBIBYTE,
  rigsPerBatch: 200,
  sitesPerBatch: 5000,
  campgroundsPerBatch: 20,
  pairsPerBatch: 20_000,
  sitesPerTrip: 300,
  pairsPerDesk: 400,
  stopsPerTrip: TRIP_LISTS.stops,
  nightsPerTrip: MOST_NIGHTS,
  unitsPerDesk: TRIP_LISTS.units,
  tripsPerDesk: TRIP_LISTS.trips,
  jsonDepth: MAX_JSON_DEPTH,
  aroundFeatures: 200,
  sitesPerSearch: 300,
  sitesPerLook: 5000,
  searchMilliseconds: 20_000,
  forecastMilliseconds: 4000,
  stayDays: MOST_STAY_DAYS,
  forecastHours: MOST_FORECAST_HOURS,
  movesAtOnce: 200,
  planEntries: 10_000,
  tableRows: 20_000,
  rowErrorsListed: 2000,
  fitsCompared: 1000,
  searchRadius: 500_000,
  pageSize: 100,
  pageSizeDefault: 20,
  itemsPage: 1000,
  itemsPageDefault: 100,
  campgroundsPerPage: 200,
  campgroundsCounted: 50,
  errorsListed: 50,
  parameterLength: 512,
};

/** What each cap means, for /v1/limits and the reference page. */
export const LIMIT_MEANINGS: Readonly<Record<keyof Limits, { readonly unit: string; readonly meaning: string }>> = {
  fitBodyBytes: { unit: "bytes", meaning: "Largest body of a fit request; a larger one is answered 413." },
  searchBodyBytes: { unit: "bytes", meaning: "Largest body of a search request; a larger one is answered 413." },
  importBodyBytes: { unit: "bytes", meaning: "Largest body of an import; a larger one is answered 413." },
  hostBodyBytes: { unit: "bytes", meaning: "Largest body of a stay, hold, closure or list of moves." },
  tripBodyBytes: { unit: "bytes", meaning: "Largest body of a trip or a desk request; a larger one is answered 413." },
  batchBodyBytes: { unit: "bytes", meaning: "Largest body of a batch; a larger one is answered 413." },
  rigsPerBatch: { unit: "rigs", meaning: "Rigs of one batch." },
  sitesPerBatch: { unit: "sites", meaning: "Sites of one batch." },
  campgroundsPerBatch: { unit: "campgrounds", meaning: "Campgrounds that one batch may name." },
  pairsPerBatch: { unit: "pairs", meaning: "Pairs of a rig and a site that one batch fits; more is answered 422." },
  sitesPerTrip: { unit: "sites", meaning: "Sites that one trip may have to fit; more is answered 422." },
  pairsPerDesk: {
    unit: "pairs",
    meaning: "Pairs of a unit and a site that one desk may have to fit; more is answered 422.",
  },
  stopsPerTrip: { unit: "stops", meaning: "Stops of one trip." },
  nightsPerTrip: { unit: "nights", meaning: "Nights of one trip." },
  unitsPerDesk: { unit: "units", meaning: "Units of a fleet in one request." },
  tripsPerDesk: { unit: "trips", meaning: "Bookings of one desk request." },
  jsonDepth: { unit: "levels", meaning: "Deepest nesting of objects and arrays in JSON; deeper is answered 400." },
  aroundFeatures: { unit: "features", meaning: "Features sent as `around` beside a bare site." },
  sitesPerSearch: {
    unit: "sites",
    meaning: "Sites that one search fits; more are ranked by nominal values, and only the page on show is fitted.",
  },
  sitesPerLook: { unit: "sites", meaning: "Sites that one search may have to look at; more is answered 422." },
  searchMilliseconds: {
    unit: "milliseconds",
    meaning: "A search fits no further site after it; the answer says so and the same request goes on from there.",
  },
  forecastMilliseconds: {
    unit: "milliseconds",
    meaning: "A fit waits no longer for a forecast; then the hours of the stay are unknown and the answer says so.",
  },
  movesAtOnce: { unit: "stays", meaning: "Stays moved, released or locked by one request." },
  planEntries: { unit: "stays", meaning: "Stays of one plan that is accepted." },
  tableRows: { unit: "rows", meaning: "Rows of one table of stays." },
  rowErrorsListed: { unit: "errors", meaning: "Errors listed for the rows of a table; `errorCount` counts them all." },
  fitsCompared: { unit: "stays", meaning: "Stays whose fit is compared before and after a change of the record." },
  stayDays: { unit: "days", meaning: "Longest stay whose hours are told; a longer one is answered 422." },
  forecastHours: { unit: "hours", meaning: "Hours of a forecast that is handed in." },
  searchRadius: { unit: "metres", meaning: "Largest radius round a point." },
  pageSize: { unit: "items", meaning: "Largest page; a larger limit is lowered to it." },
  pageSizeDefault: { unit: "items", meaning: "Page when the request gives no limit." },
  itemsPage: { unit: "features", meaning: "Largest page of geodata under /ogc; a larger limit is lowered to it." },
  itemsPageDefault: { unit: "features", meaning: "Page of geodata when the request gives no limit." },
  campgroundsPerPage: {
    unit: "campgrounds",
    meaning: "Records that one page of geodata reads; a page may end early because of it, with a link to the next.",
  },
  campgroundsCounted: {
    unit: "campgrounds",
    meaning: "With more campgrounds `numberMatched` is left out of filtered geodata, and extents have room to spare.",
  },
  errorsListed: { unit: "errors", meaning: "Errors listed in one problem; `errorCount` counts them all." },
  parameterLength: { unit: "characters", meaning: "Longest query parameter or path part." },
};
