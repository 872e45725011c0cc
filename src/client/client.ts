/** The service as functions with types, for whoever calls it from JavaScript or TypeScript. */
import createClient, { type Client } from "openapi-fetch";
import type { components, paths } from "../../dist/client/api.d.ts";
import { PadwrightUnreachable, problemOf } from "./problem.ts";
import { type RetryOptions, retrying } from "./retry.ts";
import { readRows } from "./rows.ts";

type Schemas = components["schemas"];
export type FitRequest = Schemas["FitRequest"];
export type Fit = Schemas["Fit"];
export type SearchRequest = Schemas["SearchRequest"];
export type SearchAnswer = Schemas["SearchAnswer"];
export type BatchRequest = Schemas["BatchRequest"];
export type BatchRow = Schemas["BatchRow"];
export type Feature = Schemas["OgcFeature"];
export type CollectionId = paths["/ogc/collections/{collectionId}/items"]["get"]["parameters"]["path"]["collectionId"];
type CampgroundSummary = Schemas["CampgroundList"]["campgrounds"][number];

export interface ClientOptions extends RetryOptions {
  /** Where the service is, for instance http://127.0.0.1:8787. */
  readonly baseUrl: string;
  /** Bearer token of a host; not wanted for questions. */
  readonly token?: string;
  /** What asks; default the runtime's fetch. */
  readonly fetch?: (request: Request) => Promise<Response>;
}

export interface CallOptions {
  readonly signal?: AbortSignal;
}

export interface PadwrightClient {
  /** Every route, with the types of the description. An answer that is no success is thrown. */
  readonly api: Client<paths>;
  fit(request: FitRequest, options?: CallOptions): Promise<Fit>;
  /** The plan of a fit as SVG. */
  plan(request: FitRequest, options?: CallOptions): Promise<string>;
  /** Every rig at every site, row by row as the service computes them. Stopping early stops the service too. */
  fitBatch(request: BatchRequest, options?: CallOptions): AsyncGenerator<BatchRow>;
  search(request: SearchRequest, options?: CallOptions): Promise<SearchAnswer>;
  /** The features of all pages. */
  searchAll(request: SearchRequest, options?: CallOptions): AsyncGenerator<SearchAnswer["features"][number]>;
  wind(request: Schemas["WindRequest"], options?: CallOptions): Promise<Schemas["WindReport"]>;
  trip(request: Schemas["TripRequest"], options?: CallOptions): Promise<Schemas["TripAnswer"]>;
  desk(request: Schemas["DeskRequest"], options?: CallOptions): Promise<Schemas["DeskAnswer"]>;
  /** The stored campgrounds, page by page. */
  campgrounds(options?: CallOptions): AsyncGenerator<CampgroundSummary>;
  campground(id: string, options?: CallOptions): Promise<Schemas["Campground"]>;
  /** The features of a collection, page by page. `query` holds bbox, limit and properties to filter by. */
  features(
    collection: CollectionId,
    query?: Readonly<Record<string, string | number | boolean>>,
    options?: CallOptions,
  ): AsyncGenerator<Feature>;
}

const NOT_MODIFIED = 304;

export function createPadwrightClient(options: ClientOptions): PadwrightClient {
  const { baseUrl, token } = options;
  const fetchOne = options.fetch ?? ((request: Request) => fetch(request));
  const api = createClient<paths>({
    baseUrl,
    fetch: retrying(fetchOne, options),
    ...(token === undefined ? {} : { headers: { Authorization: `Bearer ${token}` } }),
  });
  api.use({
    onResponse: async ({ response }) => {
      if (!response.ok && response.status !== NOT_MODIFIED) throw await problemOf(response);
    },
  });
  return { api, ...questions(api), ...streams(api), ...lists(api) };
}

/** An answer of success always has its data; openapi-fetch does not know that others are thrown. */
async function dataOf<T>(answer: Promise<{ readonly data?: T }>): Promise<T> {
  const { data } = await answer;
  if (data === undefined) throw new PadwrightUnreachable("The answer has no body.");
  return data;
}

type Questions = Pick<PadwrightClient, "fit" | "plan" | "search" | "wind" | "trip" | "desk" | "campground">;

function questions(api: Client<paths>): Questions {
  return {
    fit: (body, options = {}) => dataOf<unknown>(api.POST("/v1/fit", { body, ...options })) as Promise<Fit>,
    plan: (body, options = {}) =>
      dataOf(api.POST("/v1/fit", { body, parseAs: "text", headers: { Accept: "image/svg+xml" }, ...options })),
    search: (body, options = {}) => dataOf(api.POST("/v1/search", { body, ...options })),
    wind: (body, options = {}) =>
      dataOf<unknown>(api.POST("/v1/wind", { body, ...options })) as Promise<Schemas["WindReport"]>,
    trip: (body, options = {}) => dataOf(api.POST("/v1/trips", { body, ...options })),
    desk: (body, options = {}) => dataOf(api.POST("/v1/desk", { body, ...options })),
    campground: (id, options = {}) =>
      dataOf(api.GET("/v1/campgrounds/{id}", { params: { path: { id } }, ...options })) as Promise<
        Schemas["Campground"]
      >,
  };
}

function streams(api: Client<paths>): Pick<PadwrightClient, "fitBatch"> {
  async function* fitBatch(body: BatchRequest, options: CallOptions = {}): AsyncGenerator<BatchRow> {
    const headers = { Accept: "application/x-ndjson" };
    const stream = await dataOf(api.POST("/v1/fit/batch", { body, parseAs: "stream", headers, ...options }));
    let [next, all] = [0, 1];
    try {
      for await (const row of readRows<BatchRow>(stream as ReadableStream<Uint8Array>)) {
        options.signal?.throwIfAborted();
        yield row;
        next = row.row + 1;
        all = row.of;
      }
    } catch (cause) {
      if (options.signal?.aborted === true) throw cause;
      throw new PadwrightUnreachable(`The rows broke off after ${next} of ${all}.`, { cause });
    }
    if (next !== all) throw new PadwrightUnreachable(`The rows broke off after ${next} of ${all}.`);
  }
  return { fitBatch };
}

type Lists = Pick<PadwrightClient, "searchAll" | "campgrounds" | "features">;

function lists(api: Client<paths>): Lists {
  async function* searchAll(body: SearchRequest, options: CallOptions = {}) {
    let cursor: string | null | undefined = body.cursor;
    do {
      const page: SearchAnswer = await dataOf(
        api.POST("/v1/search", { body: cursor == null ? body : { ...body, cursor }, ...options }),
      );
      yield* page.features;
      cursor = page.nextCursor;
    } while (cursor !== null);
  }

  async function* campgrounds(options: CallOptions = {}): AsyncGenerator<CampgroundSummary> {
    let cursor: string | null = null;
    do {
      const query: { cursor?: string } = cursor === null ? {} : { cursor };
      const page: Schemas["CampgroundList"] = await dataOf(
        api.GET("/v1/campgrounds", { params: { query }, ...options }),
      );
      yield* page.campgrounds;
      cursor = page.nextCursor;
    } while (cursor !== null);
  }

  async function* features(
    collection: CollectionId,
    query: Readonly<Record<string, string | number | boolean>> = {},
    options: CallOptions = {},
  ): AsyncGenerator<Feature> {
    let asked: Readonly<Record<string, string | number | boolean>> | null = query;
    while (asked !== null) {
      const params = { path: { collectionId: collection }, query: asked as Record<string, never> };
      const page: Schemas["OgcItems"] = await dataOf(
        api.GET("/ogc/collections/{collectionId}/items", { params, ...options }),
      );
      yield* page.features;
      const next = page.links.find(({ rel }) => rel === "next");
      asked = next === undefined ? null : Object.fromEntries(new URL(next.href).searchParams);
    }
  }

  return { searchAll, campgrounds, features };
}
