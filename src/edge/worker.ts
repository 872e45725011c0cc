/** The application in workerd, over records that are bundled with it. Needs no compatibility flag and no binding. */

import packageFile from "../../package.json" with { type: "json" };
import { type App, createApp } from "../http/app.ts";
import { memoryStore } from "../records/store.ts";
import { bundledRecords } from "./bundled-records.ts";

let app: App | undefined;

/** Made at the first request, because a worker may not do such work while it is loaded. */
async function readyApp(): Promise<App> {
  if (app !== undefined) return app;
  const { store, refused } = await memoryStore(bundledRecords);
  for (const { name, why } of refused) console.warn(`Left out ${name}: ${why}`);
  app = createApp({
    store,
    clock: () => Date.now(),
    requestId: () => crypto.randomUUID(),
    version: packageFile.version,
    log: ({ requestId, error }) => {
      if (error !== undefined) console.error(requestId, error);
    },
  });
  return app;
}

export default {
  async fetch(request: Request): Promise<Response> {
    return (await readyApp()).fetch(request);
  },
};
