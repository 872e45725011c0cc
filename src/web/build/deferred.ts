/**
 * Keeps parts of the core out of the first view. Each listed module is imported by the core in the ordinary way, but
 * no ranking calls it: in the worker a stand-in takes its place, which passes every call on to the module itself, and
 * `withFullCore` (core/full.ts) loads the modules before the first full answer. A call that comes earlier throws.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const source = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Called for `detail: "full"` alone, for changes that are tried, or for a wind that is asked about. */
const DEFERRED: readonly string[] = [
  "fit/fixes.ts",
  "fit/manoeuvre/judged.ts",
  "fit/manoeuvre/of-fit.ts",
  "fit/wind/headline.ts",
  "fit/wind/judge.ts",
].map(source);
const LOADER = source("web/core/full.ts");
const PARTS = "virtual:deferred-parts";
const PARTS_ID = `\0${PARTS}`;
/** Marks the module itself, as against its stand-in. */
const ITSELF = "?itself";

function standIn(path: string): string {
  const names = [...readFileSync(path, "utf8").matchAll(/^export function (\w+)/gm)].map((match) => match[1]);
  const passed = names.map((name) => `export const ${name} = (...given) => parts.${name}(...given);`);
  return [`import { parts } from "${PARTS}";`, ...passed].join("\n");
}

function loader(): string {
  const imports = DEFERRED.map((path) => `import(${JSON.stringify(path + ITSELF)})`);
  return [
    `import { parts } from "${PARTS}";`,
    `export const withFullCore = async () => { Object.assign(parts, ...(await Promise.all([${imports.join(", ")}]))); };`,
  ].join("\n");
}

export function deferred(): Plugin {
  return {
    name: "padwright-deferred",
    apply: "build",
    enforce: "pre",
    resolveId(id) {
      if (id === PARTS) return PARTS_ID;
      return id.endsWith(ITSELF) ? id : null;
    },
    load(id) {
      if (id === PARTS_ID) return "export const parts = {};";
      if (id === LOADER) return loader();
      if (DEFERRED.includes(id)) return standIn(id);
      return id.endsWith(ITSELF) ? readFileSync(id.slice(0, -ITSELF.length), "utf8") : null;
    },
  };
}
