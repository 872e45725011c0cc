/** Bundles the worker with the records of a folder into one module for workerd. */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";

const ENTRY = fileURLToPath(new URL("../edge/worker.ts", import.meta.url));
const RECORDS = "bundled-records";

/** @returns The module's text. Throws when the folder cannot be read or the source does not bundle. */
export async function bundleWorker(folder: string): Promise<string> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".geojson")).sort();
  const records: { name: string; input: string }[] = [];
  for (const name of names) records.push({ name, input: await readFile(join(folder, name), "utf8") });
  const withRecords: Plugin = {
    name: RECORDS,
    setup({ onResolve, onLoad }) {
      onResolve({ filter: new RegExp(`^${RECORDS}$`) }, () => ({ path: RECORDS, namespace: RECORDS }));
      onLoad({ filter: /.*/, namespace: RECORDS }, () => ({ contents: JSON.stringify(records), loader: "json" }));
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
