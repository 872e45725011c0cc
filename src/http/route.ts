/** What a route is: its handler and its description, side by side, so that neither can exist without the other. */

import type { ExactSolver } from "../assign/exact.ts";
import type { Scope } from "../ledger/tokens.ts";
import type { ForecastService } from "../records/forecast/service.ts";
import type { CampgroundStore } from "../records/store.ts";
import type { Deprecation } from "./deprecation.ts";
import type { HostDependencies } from "./host/host.ts";
import type { Limits } from "./limits.ts";
import type { Metrics } from "./metrics.ts";
import type { ProblemCode } from "./problem.ts";
import type { RateLimiting } from "./rate/rate.ts";
import type { RatePolicy } from "./rate/window.ts";
import type { Weather } from "./weather.ts";

export type JsonSchema = { readonly [key: string]: unknown };

/** What the application is given; nothing in it is taken from globals. */
export interface Dependencies {
  readonly store: CampgroundStore;
  /** Milliseconds from any start: for the log, and for the time that a search may take. */
  readonly clock: () => number;
  /** Milliseconds since 1970: the age of a forecast counts from it. */
  readonly now: () => number;
  /** Forecasts of the wind; absent, the hours of a stay are unknown. */
  readonly forecasts?: ForecastService;
  /** A fresh UUID for each request. */
  readonly requestId: () => string;
  readonly version: string;
  readonly log?: (entry: LogEntry) => void;
  readonly limits?: Partial<Limits>;
  /** What hosts keep and who may; absent, the routes for hosts are not there. */
  readonly host?: HostDependencies;
  /** Exact solver for assignments; absent, the search has to do alone. */
  readonly exact?: ExactSolver;
  /** How much a caller may ask; no limit when absent. */
  readonly rate?: RateLimiting;
  /** Origins that may call from a browser; none when absent. */
  readonly crossOrigin?: { readonly origins: readonly string[] };
  /** True where somebody else answers the routes for hosts: they are described and not answered here. */
  readonly hostsElsewhere?: boolean;
  /** Counts what is answered; absent, no figures are kept. */
  readonly metrics?: Metrics;
  /** Whether what the service needs is there; absent, nothing is needed but the records. */
  readonly readiness?: () => Promise<readonly ReadinessCheck[]>;
}

/** One thing that the service needs. */
export interface ReadinessCheck {
  readonly name: "ledger" | "catalogue" | "forecasts" | "service";
  readonly state: "ready" | "failing" | "not set up";
}

/** One line for the log. It holds no body, no query and no name of a person. */
export interface LogEntry {
  readonly requestId: string;
  readonly method: string;
  /** Path template of the route, or null when none was met. */
  readonly route: string | null;
  readonly status: number;
  readonly milliseconds: number;
  /** What was thrown: with status 500, or by one row of a list. */
  readonly error?: unknown;
}

/** Computed results that may be needed again; the ones used last are kept. */
export interface Memory {
  readonly get: (key: string) => unknown;
  readonly set: (key: string, value: unknown) => void;
}

/** One request on its way through a route. */
export interface Call {
  readonly request: Request;
  readonly url: URL;
  readonly params: Readonly<Record<string, string>>;
  readonly store: CampgroundStore;
  readonly limits: Limits;
  readonly version: string;
  /** Logs a fault that spoils a part of the answer and not the whole. */
  readonly report: (fault: unknown) => void;
  readonly memory: Memory;
  readonly weather: Weather;
  readonly clock: () => number;
  /** Null where nothing is kept for hosts. */
  readonly host: HostDependencies | null;
  /** Absent where there is none. */
  readonly exact?: ExactSolver;
  /** Null where no limit per caller is set. */
  readonly ratePolicy: RatePolicy | null;
  /** Takes more units from the caller's limit than the one of every request. Throws a problem when there are none. */
  readonly charge: (units: number) => Promise<void>;
  /** A fresh UUID. */
  readonly newId: () => string;
  /** Null where no figures are kept. */
  readonly metrics: Metrics | null;
  readonly readiness: () => Promise<readonly ReadinessCheck[]>;
  /** The OpenAPI document of the whole application. */
  readonly document: () => Promise<OpenApiDocument>;
}

export interface OpenApiDocument {
  readonly [key: string]: unknown;
  readonly paths: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  readonly components: {
    readonly schemas: Readonly<Record<string, JsonSchema>>;
    readonly [kind: string]: unknown;
  };
}

export interface Parameter {
  readonly name: string;
  readonly in: "query" | "path" | "header";
  /** Path parameters always are. */
  readonly required?: boolean;
  readonly description: string;
  readonly schema: JsonSchema;
  /** How a list or an object is written into the address; the usual way when absent. */
  readonly style?: "form";
  readonly explode?: boolean;
  readonly example?: unknown;
}

interface MediaContent {
  readonly schema: JsonSchema;
  /** Named examples of the body. */
  readonly examples?: Readonly<Record<string, { readonly summary: string; readonly value: unknown }>>;
}

export interface Route {
  readonly method: "GET" | "POST" | "PUT" | "PATCH" | "DELETE";
  /** OpenAPI path template. */
  readonly path: string;
  /** Another path that leads to the same; served and not described. */
  readonly alias?: string;
  readonly operationId: string;
  readonly tag: "Fit" | "Trips" | "Records" | "Geodata" | "Hosts" | "About";
  /** What a token must allow; absent for a route that everybody may use. */
  readonly scope?: Scope;
  readonly summary: string;
  readonly description: string;
  /** Present when the route will go. */
  readonly deprecated?: Deprecation;
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly description: string; readonly content: Readonly<Record<string, MediaContent>> };
  readonly answer: {
    readonly description: string;
    /** Default 200. */
    readonly status?: 200 | 201;
    readonly content: Readonly<Record<string, MediaContent>>;
  };
  /** True when the answer carries a strong ETag and honours If-None-Match. */
  readonly conditional: boolean;
  /** True when the answer comes in pages with Link headers. */
  readonly paged?: boolean;
  readonly problems: readonly ProblemCode[];
  readonly handle: (call: Call) => Promise<Response>;
}

/** Refers to a schema of the document's components. */
export const schemaRef = (name: string): JsonSchema => ({ $ref: `#/components/schemas/${name}` });
