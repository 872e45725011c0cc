/**
 * The HTTP application: one object for Node, workerd and the browser. It reads no clock, disk or environment of its
 * own; what it needs of the world comes in as dependencies.
 */
import { type Context, Hono } from "hono";
import { type Deprecation, tellDeprecation } from "./deprecation.ts";
import { DEFAULT_LIMITS, type Limits } from "./limits.ts";
import { buildDocument } from "./openapi/document.ts";
import { exampleAnswers, exampleDependencies } from "./openapi/example-answers.ts";
import { Problem, problemResponse } from "./problem.ts";
import { Meter } from "./rate/rate.ts";
import { SAFETY_HEADERS } from "./representation.ts";
import type { Call, Dependencies, LogEntry, Memory, OpenApiDocument, Route } from "./route.ts";
import { ALL_ROUTES, ROUTES } from "./routes/index.ts";

interface State {
  requestId: string;
  meter: Meter | null;
  deprecation: Deprecation | null;
  route: string | null;
  error: unknown;
}

export type App = Hono<{ Variables: State }>;

export function createApp(dependencies: Dependencies): App {
  const limits: Limits = { ...DEFAULT_LIMITS, ...dependencies.limits };
  const app: App = new Hono<{ Variables: State }>();
  const { host, hostsElsewhere = false, metrics } = dependencies;
  const routes = host === undefined && !hostsElsewhere ? ROUTES : ALL_ROUTES;
  const methodsAt = methodsOf(routes);
  let made: OpenApiDocument | undefined;
  const document = async (): Promise<OpenApiDocument> => {
    made ??= await describeApp(dependencies.version, routes);
    return made;
  };
  const shared: Shared = { limits, document, memory: memoryOf(REMEMBERED), clock: dependencies.clock };

  app.use("*", async (context, next) => {
    const started = dependencies.clock();
    metrics?.begin();
    const requestId = dependencies.requestId();
    context.set("requestId", requestId);
    context.set("route", null);
    context.set("deprecation", null);
    const { rate, now } = dependencies;
    context.set("meter", rate === undefined ? null : new Meter(rate, context.req.raw, now));
    const answer = crossOriginPreflight(context.req.raw, dependencies);
    if (answer === null) await next();
    else context.res = answer;
    const finished = finish(context, dependencies, requestId);
    // Hono merges the headers of a response that stands already into the new one; here the new one is complete.
    context.res = undefined;
    context.res = finished;
    const entry = logEntry(context, requestId, dependencies.clock() - started);
    metrics?.observe(entry);
    dependencies.log?.(entry);
  });

  for (const route of routes) {
    const paths = [route.path, ...(route.alias === undefined ? [] : [route.alias])];
    app.on(route.method, paths.map(honoPath), async (context) => {
      context.set("route", route.path);
      context.set("deprecation", route.deprecated ?? null);
      if (!UNCOUNTED.includes(route.path)) await context.get("meter")?.take(1);
      return route.handle(callOf(context, dependencies, shared));
    });
  }

  app.notFound((context) => {
    const methods = methodsAt(new URL(context.req.url).pathname);
    const problem =
      methods.length === 0
        ? new Problem("not-found", "No route of this interface has this path. They are listed at /docs.")
        : new Problem("method-not-allowed", `This address takes ${methods.join(", ")}.`, [], {
            Allow: methods.join(", "),
          });
    return problemResponse(problem, context.get("requestId"), limits.errorsListed);
  });

  app.onError((thrown, context) => {
    const known = thrown instanceof Problem;
    if (!known) context.set("error", thrown);
    const problem = known
      ? thrown
      : new Problem("internal-error", `Something broke here. The request id is ${context.get("requestId")}.`);
    return problemResponse(problem, context.get("requestId"), limits.errorsListed);
  });
  return app;
}

/** The description of the application; its examples are answered by the engine that answers everything else. */
export async function describeApp(version: string, routes: readonly Route[] = ALL_ROUTES): Promise<OpenApiDocument> {
  const example = createApp(await exampleDependencies(version));
  return buildDocument(routes, version, await exampleAnswers(example, ROUTES));
}

/** Hono's spelling of an OpenAPI path: `{id}` becomes `:id`, `{name}.json` a pattern that keeps its ending. */
function honoPath(path: string): string {
  return path.replace(/\{(\w+)\}\.json$/, ":$1{[A-Za-z0-9-]+\\.json}").replaceAll(/\{(\w+)\}/g, ":$1");
}

/** Whoever watches the service must not use up what others may ask. */
const UNCOUNTED: readonly string[] = ["/healthz", "/readyz", "/metrics"];

type Shared = Pick<Call, "limits" | "document" | "memory" | "clock">;

/** Fits of a search that are kept, so that its next page, another order or a second try need not compute them. */
const REMEMBERED = 4000;

/** Only finished results are kept: at the edge one request must not wait for work that belongs to another. */
function memoryOf(most: number): Memory {
  const kept = new Map<string, unknown>();
  const set = (key: string, value: unknown): void => {
    kept.delete(key);
    kept.set(key, value);
    for (const oldest of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
  };
  const get = (key: string): unknown => {
    const value = kept.get(key);
    if (value !== undefined) set(key, value);
    return value;
  };
  return { get, set };
}

function callOf(context: Context<{ Variables: State }>, dependencies: Dependencies, shared: Shared): Call {
  const { forecasts = null, now } = dependencies;
  return {
    ...shared,
    weather: { forecasts, now, patience: shared.limits.forecastMilliseconds },
    request: context.req.raw,
    url: new URL(context.req.url),
    params: context.req.param(),
    store: dependencies.store,
    host: dependencies.host ?? null,
    ratePolicy: dependencies.rate?.policy ?? null,
    charge: async (units) => context.get("meter")?.take(units),
    ...(dependencies.exact === undefined ? {} : { exact: dependencies.exact }),
    newId: dependencies.requestId,
    metrics: dependencies.metrics ?? null,
    readiness: dependencies.readiness ?? (async () => []),
    version: dependencies.version,
    report: (fault) => context.set("error", fault),
  };
}

/** Methods that the routes at a path take; a route for GET takes HEAD too. */
function methodsOf(routes: readonly Route[]): (path: string) => string[] {
  const patterns = routes.flatMap(({ method, path, alias }) =>
    [path, ...(alias === undefined ? [] : [alias])].map((one) => ({
      method,
      pattern: new RegExp(`^${one.replaceAll(".", "\\.").replaceAll(/\{\w+\}/g, "[^/]+")}$`),
    })),
  );
  return (path) => {
    const methods = new Set<string>();
    for (const { method, pattern } of patterns) {
      if (!pattern.test(path)) continue;
      methods.add(method);
      if (method === "GET") methods.add("HEAD");
    }
    return [...methods];
  };
}

/** Adds what every response carries. The response is copied, because its headers may be sealed. */
function finish(context: Context<{ Variables: State }>, dependencies: Dependencies, requestId: string): Response {
  const response = new Response(context.res.body, context.res);
  for (const [name, value] of Object.entries(SAFETY_HEADERS)) {
    if (!response.headers.has(name)) response.headers.set(name, value);
  }
  response.headers.set("Request-Id", requestId);
  for (const [name, value] of Object.entries(context.get("meter")?.headers() ?? {})) response.headers.set(name, value);
  const deprecation = context.get("deprecation");
  if (deprecation !== null) tellDeprecation(response.headers, deprecation);
  const origin = allowedOrigin(context.req.raw, dependencies);
  if (dependencies.crossOrigin !== undefined) response.headers.append("Vary", "Origin");
  if (origin !== null) {
    response.headers.set("Access-Control-Allow-Origin", origin);
    response.headers.set("Access-Control-Expose-Headers", EXPOSED);
  }
  return response;
}

const EXPOSED = "ETag, Link, Request-Id, RateLimit, RateLimit-Policy, Retry-After, Deprecation, Sunset";

function allowedOrigin(request: Request, { crossOrigin }: Dependencies): string | null {
  const origin = request.headers.get("origin");
  return origin !== null && (crossOrigin?.origins.includes(origin) ?? false) ? origin : null;
}

/** A browser's question before a call from another origin; answered only for the origins that were named. */
function crossOriginPreflight(request: Request, dependencies: Dependencies): Response | null {
  if (request.method !== "OPTIONS" || allowedOrigin(request, dependencies) === null) return null;
  return new Response(null, {
    status: 204,
    headers: {
      "Access-Control-Allow-Methods": "GET, HEAD, POST, PUT, PATCH, DELETE",
      "Access-Control-Allow-Headers": "Content-Type, Accept, Authorization, Idempotency-Key, If-Match, If-None-Match",
    },
  });
}

function logEntry(context: Context<{ Variables: State }>, requestId: string, milliseconds: number): LogEntry {
  const error = context.get("error");
  return {
    requestId,
    method: context.req.method,
    route: context.get("route"),
    status: context.res.status,
    milliseconds,
    ...(error === undefined ? {} : { error }),
  };
}

export type { Dependencies, LogEntry };
