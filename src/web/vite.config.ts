/** Builds the page into dist/web: hashed assets, one module worker with the core, and the service worker. */
import { fileURLToPath } from "node:url";
import preact from "@preact/preset-vite";
import { defineConfig } from "vite";
import { deferred } from "./build/deferred.ts";
import { compressed, serviceWorker, withoutDescriptions, withoutSchemaWriters } from "./build/plugins.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here("."),
  base: "./",
  publicDir: here("./public"),
  plugins: [
    preact({ devToolsEnabled: false, prefreshEnabled: false }),
    withoutSchemaWriters(),
    withoutDescriptions(),
    serviceWorker(),
    compressed(),
  ],
  resolve: { alias: [{ find: /^leaflet$/, replacement: here("./map/leaflet-parts.js") }] },
  worker: { format: "es", plugins: () => [deferred(), withoutSchemaWriters(), withoutDescriptions()] },
  build: {
    outDir: here("../../dist/web"),
    emptyOutDir: true,
    // A data: address in a style sheet would need an exception in the content security policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: "es2022",
    reportCompressedSize: false,
  },
});
