/**
 * The application in workerd. Records come from a catalogue in a bucket or on a static server, or are bundled with the
 * worker; what hosts write lies in one Durable Object for each campground and is believed before them.
 */

import packageFile from "../../package.json" with { type: "json" };
import { type App, createApp } from "../http/app.ts";
import type { WebTokens } from "../http/host/host.ts";
import { HOST_ROUTES } from "../http/host/routes/index.ts";
import { logLine } from "../http/log-line.ts";
import { createMetrics } from "../http/metrics.ts";
import { Problem } from "../http/problem.ts";
import type { ReadinessCheck } from "../http/route.ts";
import { type CurrentCatalogue, currentCatalogue } from "../records/catalogue/current.ts";
import { httpObjects } from "../records/catalogue/http-objects.ts";
import type { ForecastSettings } from "../records/forecast/configuration.ts";
import { liveForecasts } from "../records/forecast/live.ts";
import type { ForecastService } from "../records/forecast/service.ts";
import { overlaid } from "../records/overlay.ts";
import { type CampgroundStore, memoryStore } from "../records/store.ts";
import { bucketObjects } from "./bucket-objects.ts";
import { bundledRecords } from "./bundled-records.ts";
import { type HostRecords, hostRecords } from "./host-records.ts";
import { NOBODY } from "./names.ts";
import { type EdgeSettings, millisecondsOf, type ObjectNamespace } from "./settings.ts";
import { isKnownCaller, type ListedToken, listedTokens, webTokensOf } from "./tokens.ts";

export { CampgroundObject } from "./campground-object.ts";
export { DirectoryObject } from "./directory-object.ts";

/** Seconds. */
const CATALOGUE_SECONDS = 60;
const DIRECTORY_SECONDS = 5;
const LONGEST_ID = 200;

/** What one place of the edge keeps from request to request. */
interface Place {
  /** The application over the newest records. */
  readonly app: () => Promise<App>;
  readonly hosts: Hosts | null;
}

interface Hosts {
  readonly campgrounds: ObjectNamespace;
  readonly records: HostRecords;
  readonly tokens: readonly ListedToken[];
  readonly web: WebTokens | undefined;
}

let place: Place | undefined;

/** Made at the first request, because a worker may not do such work while it is loaded. */
function openPlace(settings: EdgeSettings): Place {
  const report = (fault: unknown) => console.error(String(fault));
  const hosts = hostsOf(settings, report);
  const catalogue = catalogueOf(settings, report);
  const forecasts = forecastsOf(settings);
  const metrics = createMetrics({ version: packageFile.version, now: Date.now() });
  let bundled: CampgroundStore | undefined;
  let made: { readonly base: CampgroundStore; readonly app: App } | undefined;
  const app = async (): Promise<App> => {
    bundled ??= catalogue === null ? await bundledStore() : undefined;
    const base = bundled ?? (await catalogue?.get().catch(outOfReach)) ?? outOfReach("There are no records.");
    if (made?.base === base) return made.app;
    // A new catalogue gets an application of its own: what runs in the old one keeps to the old records.
    const fresh = createApp({
      store: hosts === null ? base : overlaid(hosts.records, base),
      ...(hosts === null ? {} : { hostsElsewhere: true }),
      ...(forecasts === null ? {} : { forecasts }),
      metrics,
      readiness: () => readiness(hosts, catalogue, forecasts),
      clock: () => Date.now(),
      now: () => Date.now(),
      requestId: () => crypto.randomUUID(),
      version: packageFile.version,
      log: (entry) => console.log(logLine(entry, Date.now())),
    });
    made = { base, app: fresh };
    return fresh;
  };
  return { app, hosts };
}

function hostsOf(settings: EdgeSettings, report: (fault: unknown) => void): Hosts | null {
  const { CAMPGROUNDS: campgrounds, DIRECTORY: directory } = settings;
  if (campgrounds === undefined || directory === undefined) return null;
  const interval = millisecondsOf(settings.DIRECTORY_SECONDS, DIRECTORY_SECONDS);
  const records = hostRecords({ campgrounds, directory, interval, now: () => Date.now(), report });
  return { campgrounds, records, tokens: listedTokens(settings), web: webTokensOf(settings) };
}

function catalogueOf(settings: EdgeSettings, report: (fault: unknown) => void): CurrentCatalogue | null {
  const { CATALOGUE: bucket, CATALOGUE_FOLDER: folder, CATALOGUE_ADDRESS: address } = settings;
  if (bucket === undefined && !address) return null;
  const source = bucket !== undefined ? bucketObjects(bucket, folder) : httpObjects(address ?? "", edgeFetch);
  const interval = millisecondsOf(settings.CATALOGUE_SECONDS, CATALOGUE_SECONDS);
  return currentCatalogue({ source, interval, now: () => Date.now(), report });
}

/** The runtime does not take `redirect: "error"`: here a redirect is an answer like others, and no object either. */
const edgeFetch: typeof fetch = (address, init) => fetch(address, { ...init, redirect: "manual" });

async function bundledStore(): Promise<CampgroundStore> {
  const { store, refused } = await memoryStore(bundledRecords);
  for (const { name, why } of refused) console.warn(`Left out ${name}: ${why}`);
  return store;
}

/** Before the first catalogue could be read: whatever wants records is told to come again, all else is answered. */
function outOfReach(fault: unknown): CampgroundStore {
  console.error(String(fault));
  const later = async (): Promise<never> => {
    throw new Problem("busy", "The records cannot be read now.", [], { "Retry-After": "5" });
  };
  return { list: later, get: later, version: later };
}

/** A wrong setting costs the forecasts and nothing else. */
function forecastsOf(settings: ForecastSettings): ForecastService | null {
  try {
    return liveForecasts(settings, { shareWaiting: false });
  } catch (fault) {
    console.warn(`No forecasts: ${fault instanceof Error ? fault.message : String(fault)}`);
    return null;
  }
}

async function readiness(
  hosts: Hosts | null,
  catalogue: CurrentCatalogue | null,
  forecasts: ForecastService | null,
): Promise<readonly ReadinessCheck[]> {
  const check = async (name: ReadinessCheck["name"], work: Promise<unknown> | undefined): Promise<ReadinessCheck> =>
    work === undefined
      ? { name, state: "not set up" }
      : work.then(
          () => ({ name, state: "ready" }),
          () => ({ name, state: "failing" }),
        );
  return [
    await check("ledger", hosts?.records.version()),
    await check("catalogue", catalogue?.get()),
    { name: "forecasts", state: forecasts === null ? "not set up" : "ready" },
  ];
}

/** A host's request goes to the campground's object; the object of nobody answers whoever is not known. */
async function toObject(hosts: Hosts, id: string, request: Request): Promise<Response> {
  const isKnown = await isKnownCaller(request, hosts.tokens, hosts.web);
  const { campgrounds, records } = hosts;
  const response = await campgrounds.get(campgrounds.idFromName(isKnown ? id : NOBODY)).fetch(request);
  if (request.method !== "GET" && response.ok) records.expire();
  return response;
}

/** Addresses of the routes that want a token, by method. */
const GUARDED = HOST_ROUTES.filter(({ scope }) => scope !== undefined).map(({ method, path }) => ({
  method,
  pattern: new RegExp(`^${path.replace("{id}", "([^/]+)").replaceAll(/\{\w+\}/g, "[^/]+")}$`),
}));

/** The id of the campground whose host asks; null for what everybody may ask. */
function hostedId({ method, url }: Request): string | null {
  const { pathname } = new URL(url);
  const asked = method === "HEAD" ? "GET" : method;
  const guarded = GUARDED.find((route) => route.method === asked && route.pattern.test(pathname));
  const [, part = ""] = guarded?.pattern.exec(pathname) ?? [];
  if (guarded === undefined) return null;
  try {
    const id = decodeURIComponent(part);
    return id.length > LONGEST_ID ? NOBODY : id;
  } catch {
    return NOBODY;
  }
}

export default {
  async fetch(request: Request, settings: EdgeSettings): Promise<Response> {
    place ??= openPlace(settings);
    const id = place.hosts === null ? null : hostedId(request);
    if (place.hosts !== null && id !== null) return toObject(place.hosts, id, request);
    return (await place.app()).fetch(request);
  },
};
