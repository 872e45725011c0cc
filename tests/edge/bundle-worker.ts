/** Bundles the worker into one module for workerd, with the records of a folder or without any. */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";

const ENTRY = fileURLToPath(new URL("../../src/edge/worker.ts", import.meta.url));
/** The module that the records take the place of. */
const RECORDS = /\/bundled-records\.ts$/;

const bundled = new Map<string | undefined, Promise<string>>();

/** Bundled once in a process for each folder. */
export function bundleWorker(folder?: string): Promise<string> {
  const text = bundled.get(folder) ?? bundle(folder);
  bundled.set(folder, text);
  return text;
}

/** @returns The module's text. Throws when the folder cannot be read or the source does not bundle. */
async function bundle(folder?: string): Promise<string> {
  const names = (folder === undefined ? [] : await readdir(folder)).filter((name) => name.endsWith(".geojson")).sort();
  const records: { name: string; input: string }[] = [];
  for (const name of names) records.push({ name, input: await readFile(join(folder ?? "", name), "utf8") });
  const withRecords: Plugin = {
    name: "bundled-records",
    setup({ onLoad }) {
      const contents = `export const bundledRecords = ${JSON.stringify(records)};`;
      onLoad({ filter: RECORDS }, () => ({ contents, loader: "js" }));
    },
  };
  const result = await build({
    entryPoints: [ENTRY],
    bundle: true,
    write: false,
    format: "esm",
    target: "es2023",
    platform: "neutral",
    mainFields: ["module", "main"],
    conditions: ["workerd", "worker", "browser", "import"],
    minify: true,
    plugins: [withRecords],
  });
  const [file] = result.outputFiles;
  if (file === undefined) throw new Error("The bundler gave no file.");
  return file.text;
}
