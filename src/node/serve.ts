/** The server on Node: the application on one port, with time limits on slow clients and an orderly end. */
import { randomUUID } from "node:crypto";
import { STATUS_CODES } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import { fileURLToPath } from "node:url";
import { createAdaptorServer, type ServerType } from "@hono/node-server";
import { type App, createApp, type Dependencies, type LogEntry } from "../http/app.ts";
import type { HostDependencies } from "../http/host/host.ts";
import { logLine } from "../http/log-line.ts";
import { createMetrics } from "../http/metrics.ts";
import { PROBLEM_MEDIA_TYPE } from "../http/problem.ts";
import { callerKey } from "../http/rate/caller.ts";
import { memoryRates, type RateLimiting } from "../http/rate/rate.ts";
import type { RatePolicy } from "../http/rate/window.ts";
import type { ForecastSettings } from "../records/forecast/configuration.ts";
import { liveForecasts } from "../records/forecast/live.ts";
import type { CampgroundStore } from "../records/store.ts";
import { compressed } from "./compress.ts";
import { createExactSolver } from "./exact-solver.ts";
import { type OpenRecords, openRecords, type RecordOptions } from "./open-records.ts";
import { builtPage, openPage } from "./page.ts";

export interface ServeOptions extends RecordOptions {
  /** Default: PORT of the environment, else 8787; 0 takes any free port. */
  readonly port?: number;
  /** Default: HOST of the environment, else 127.0.0.1. */
  readonly host?: string;
  readonly version: string;
  /** Folder of the built page; default: the one beside the package, null for none. */
  readonly page?: string | null;
  readonly log?: (line: string) => void;
  /** `json`: every line of the log is an object of JSON, and every request has one. Default: sentences on faults. */
  readonly logForm?: "json" | "text";
  readonly crossOrigin?: Dependencies["crossOrigin"];
  /** How much one caller may ask; no limit when absent. Behind a proxy all callers without a token share one address. */
  readonly rate?: RatePolicy;
  /** Settings of the forecast feeds; default: the environment. */
  readonly settings?: ForecastSettings;
  /** Milliseconds for a client's headers and for its whole request; default 10 s and 30 s. */
  readonly patience?: { readonly headers: number; readonly request: number };
}

export interface Service {
  readonly address: string;
  /** Takes no new connection, lets what runs end, and cuts what has not ended after the grace. */
  readonly stop: () => Promise<void>;
  /** Looks for a newer catalogue now; what runs is answered from the old one. */
  readonly refresh: () => Promise<void>;
}

const DEFAULT_PORT = 8787;
const DEFAULT_HOST = "127.0.0.1";
const LARGEST_PORT = 65_535;
const PATIENCE = { headers: 10_000, request: 30_000 };
const KEEP_ALIVE = 5000;
const CHECK_EVERY = 1000;
const LARGEST_HEADER = 16_384;
const GRACE = 10_000;
const TIMED_OUT = "ERR_HTTP_REQUEST_TIMEOUT";
const HEADER_OVERFLOW = "HPE_HEADER_OVERFLOW";
const BAD_REQUEST = 400;
const REQUEST_TIMEOUT = 408;
const HEADERS_TOO_LARGE = 431;

/** Starts the server. Throws with a plain sentence when the folder cannot be read or the port is taken. */
export async function serve(options: ServeOptions): Promise<Service> {
  const say = options.log ?? ((line: string) => console.error(line));
  const log = options.logForm === "json" ? (line: string) => say(eventLine(line)) : say;
  const records = await openRecords(options, log);
  if (options.catalogue === undefined) {
    for (const { name, brokenSites } of await records.store().list()) {
      if (brokenSites > 0) log(`${name}: ${brokenSites} sites were refused; a search names them.`);
    }
  }
  const addresses: Addresses = new WeakMap();
  let isStopping = false;
  const appFor = appMaker(options, records, { say, log, addresses, isStopping: () => isStopping });
  const patience = options.patience ?? PATIENCE;
  const folder = options.page === undefined ? builtPage(fileURLToPath(import.meta.url)) : options.page;
  const page = folder === null ? null : await openPage(folder);
  const server = createAdaptorServer({
    fetch: async (request, bindings) => {
      addresses.set(request, remoteAddress(bindings));
      const response = (await page?.answer(request)) ?? (await compressed(request, await appFor().fetch(request)));
      return isStopping ? lastOne(response) : response;
    },
    serverOptions: {
      headersTimeout: patience.headers,
      requestTimeout: patience.request,
      keepAliveTimeout: KEEP_ALIVE,
      connectionsCheckingInterval: Math.min(CHECK_EVERY, patience.headers),
      maxHeaderSize: LARGEST_HEADER,
    },
  });
  server.on("clientError", answerBrokenRequest);
  const host = options.host ?? process.env["HOST"] ?? DEFAULT_HOST;
  await listen(server, options.port ?? portFrom(process.env["PORT"]), host).catch((fault: unknown) => {
    records.close();
    throw fault;
  });
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://${host.includes(":") ? `[${host}]` : host}:${port}`,
    stop: () => {
      isStopping = true;
      return stop(server).finally(records.close);
    },
    refresh: records.refresh,
  };
}

/** Addresses that requests come from. */
type Addresses = WeakMap<Request, string>;

function remoteAddress(bindings: object): string {
  const incoming = "incoming" in bindings ? (bindings.incoming as { socket?: { remoteAddress?: string } }) : {};
  return incoming.socket?.remoteAddress ?? "unknown";
}

function rateFor(policy: RatePolicy, addresses: Addresses, host: HostDependencies | null): RateLimiting {
  const keyOf = (request: Request) => callerKey(request, addresses.get(request) ?? "unknown", host);
  return { policy, store: memoryRates(), keyOf };
}

interface Surroundings {
  readonly say: (line: string) => void;
  readonly log: (line: string) => void;
  readonly addresses: Addresses;
  readonly isStopping: () => boolean;
}

/** The application over the newest records. A new catalogue gets one of its own: what runs keeps to the old records. */
function appMaker(options: ServeOptions, records: OpenRecords, around: Surroundings): () => App {
  const { say, log, addresses, isStopping } = around;
  const { host, checks } = records;
  const forecasts = liveForecasts(options.settings ?? process.env);
  const readiness: Dependencies["readiness"] = async () => [
    ...(await checks()),
    { name: "forecasts", state: forecasts === null ? "not set up" : "ready" },
    { name: "service", state: isStopping() ? "failing" : "ready" },
  ];
  const shared: Omit<Dependencies, "store"> = {
    ...(host === null ? {} : { host }),
    clock: () => performance.now(),
    now: () => Date.now(),
    ...(forecasts === null ? {} : { forecasts }),
    exact: createExactSolver({ report: (fault) => log(`The exact solver gave nothing: ${fault}`) }),
    metrics: createMetrics({ version: options.version, now: Date.now() }),
    readiness,
    requestId: randomUUID,
    version: options.version,
    log: (entry) => {
      if (options.logForm === "json") say(logLine(entry, Date.now()));
      else if (entry.error !== undefined) say(failureLine(entry));
    },
    ...(options.crossOrigin === undefined ? {} : { crossOrigin: options.crossOrigin }),
    ...(options.rate === undefined ? {} : { rate: rateFor(options.rate, addresses, host) }),
  };
  let made: { readonly store: CampgroundStore; readonly app: App } | undefined;
  return () => {
    const store = records.store();
    if (made?.store !== store) made = { store, app: createApp({ ...shared, store }) };
    return made.app;
  };
}

/** What is no request, as a line of the log in JSON. */
export const eventLine = (message: string): string =>
  JSON.stringify({ time: new Date().toISOString(), level: "info", event: "service", message });

/** Ends the service in order when the process is told to end. */
export function stopOnSignals(service: Service, log: (line: string) => void = console.error): void {
  const end = (signal: string) => {
    log(`${signal}: finishing what runs.`);
    service.stop().then(
      () => process.exit(0),
      (fault: unknown) => {
        log(messageOf(fault));
        process.exit(1);
      },
    );
  };
  process.once("SIGTERM", end);
  process.once("SIGINT", end);
  process.on("SIGHUP", () => void service.refresh());
}

function portFrom(text: string | undefined): number {
  if (text === undefined || text === "") return DEFAULT_PORT;
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > LARGEST_PORT) {
    throw new Error(`PORT is "${text}"; a whole number from 0 to ${LARGEST_PORT} is wanted.`);
  }
  return port;
}

function listen(server: ServerType, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", (fault: NodeJS.ErrnoException) => {
      const why: Readonly<Record<string, string>> = {
        EADDRINUSE: `Port ${port} on ${host} is taken. Stop what uses it, or set PORT to another one.`,
        EACCES: `Port ${port} needs rights that this user lacks. Set PORT to one above 1023.`,
        EADDRNOTAVAIL: `${host} is no address of this machine. Set HOST.`,
      };
      reject(new Error(why[fault.code ?? ""] ?? `Cannot listen on ${host}:${port}: ${fault.message}`));
    });
    server.listen(port, host, resolve);
  });
}

/** Ends the connection with this answer: a client that goes on asking on it would keep the process alive. */
function lastOne(response: Response): Response {
  const last = new Response(response.body, response);
  last.headers.set("Connection", "close");
  return last;
}

function stop(server: ServerType): Promise<void> {
  return new Promise((resolve, reject) => {
    const cut = setTimeout(() => "closeAllConnections" in server && server.closeAllConnections(), GRACE);
    cut.unref();
    server.close((fault) => {
      clearTimeout(cut);
      if (fault) reject(fault);
      else resolve();
    });
    if ("closeIdleConnections" in server) server.closeIdleConnections();
  });
}

/** What Node could not read as a request gets a problem too, written by hand because no request reached the routes. */
function answerBrokenRequest(fault: NodeJS.ErrnoException, socket: Duplex): void {
  if (fault.code === "ECONNRESET" || !socket.writable) {
    socket.destroy();
    return;
  }
  const status =
    fault.code === TIMED_OUT ? REQUEST_TIMEOUT : fault.code === HEADER_OVERFLOW ? HEADERS_TOO_LARGE : BAD_REQUEST;
  const title = STATUS_CODES[status] ?? "";
  const body = JSON.stringify({ type: "about:blank", title, status, instance: `urn:uuid:${randomUUID()}` });
  const head = [
    `HTTP/1.1 ${status} ${title}`,
    `Content-Type: ${PROBLEM_MEDIA_TYPE}`,
    `Content-Length: ${Buffer.byteLength(body)}`,
    "Connection: close",
  ];
  socket.end(`${head.join("\r\n")}\r\n\r\n${body}`);
}

function failureLine({ requestId, method, route, error }: LogEntry): string {
  return `${requestId} ${method} ${route ?? "no route"} broke: ${error instanceof Error ? error.stack : String(error)}`;
}

const messageOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
