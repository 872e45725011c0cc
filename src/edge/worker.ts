/**
 * The application in workerd, over records that are bundled with it. Needs no compatibility flag and no binding; text
 * bindings named like the forecast settings turn forecasts on.
 */

import packageFile from "../../package.json" with { type: "json" };
import { type App, createApp } from "../http/app.ts";
import type { ForecastSettings } from "../records/forecast/configuration.ts";
import { liveForecasts } from "../records/forecast/live.ts";
import type { ForecastService } from "../records/forecast/service.ts";
import { memoryStore } from "../records/store.ts";
import { bundledRecords } from "./bundled-records.ts";

let app: App | undefined;

/** Made at the first request, because a worker may not do such work while it is loaded. */
async function readyApp(settings: ForecastSettings): Promise<App> {
  if (app !== undefined) return app;
  const { store, refused } = await memoryStore(bundledRecords);
  for (const { name, why } of refused) console.warn(`Left out ${name}: ${why}`);
  const forecasts = forecastsOf(settings);
  app = createApp({
    store,
    ...(forecasts === null ? {} : { forecasts }),
    clock: () => Date.now(),
    now: () => Date.now(),
    requestId: () => crypto.randomUUID(),
    version: packageFile.version,
    log: ({ requestId, error }) => {
      if (error !== undefined) console.error(requestId, error);
    },
  });
  return app;
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

export default {
  async fetch(request: Request, settings: ForecastSettings): Promise<Response> {
    return (await readyApp(settings)).fetch(request);
  },
};
