/**
 * What the build adds to the page: compressed copies of its files, and the service worker. The latter plugin writes `service-worker.js` at the end of the build: the worker's own source with the list of files of this build and
 * a version made from their content, so that a new build replaces the old one as a whole.
 */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import { type Plugin, type Rolldown, transformWithOxc } from "vite";

const SOURCE = fileURLToPath(new URL("../service-worker/worker.ts", import.meta.url));
const VERSION_LENGTH = 12;

const SCHEMA_WRITERS = /\/zod\/v4\/core\/(to-json-schema|json-schema-processors)\.js$/;

/**
 * Leaves out the part of zod that writes JSON Schemas: the server publishes them, the page only reads records with the
 * same schemas. Whoever calls it in the page hears so.
 */
export function withoutSchemaWriters(): Plugin {
  return {
    name: "padwright-without-schema-writers",
    apply: "build",
    enforce: "pre",
    load(id) {
      if (!SCHEMA_WRITERS.test(id)) return null;
      const text = readFileSync(id, "utf8");
      const names = [...text.matchAll(/^export (?:function|const) (\w+)/gm)].map((match) => match[1] ?? "");
      const refuse = `const refuse = () => { throw new Error("The page writes no JSON Schema."); };`;
      // The makers of methods are called for every schema; only what they make is never called.
      const made = names.map(
        (name) => `export const ${name} = ${name.startsWith("create") ? "() => refuse" : "refuse"};`,
      );
      return [refuse, ...made, "export { refuse as process };"].join("\n");
    },
  };
}

const CORE_SOURCE = /\/src\/(?!web\/)[^?]*\.ts$/;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
}

/** Every node of a parsed module. */
function* nodesOf(value: unknown): Generator<Node & Readonly<Record<string, unknown>>> {
  if (Array.isArray(value)) for (const one of value) yield* nodesOf(one);
  if (typeof value !== "object" || value === null || !("type" in value)) return;
  yield value as Node & Readonly<Record<string, unknown>>;
  for (const part of Object.values(value)) yield* nodesOf(part);
}

/** Where a schema is given its description, as ranges of the text. */
function descriptionsIn(program: unknown): readonly (readonly [from: number, to: number])[] {
  return [...nodesOf(program)].flatMap((node) => {
    if (node.type !== "CallExpression") return [];
    const callee = node["callee"] as Node & { readonly object?: Node; readonly property?: { readonly name?: string } };
    if (callee.type !== "MemberExpression" || callee.property?.name !== "meta" || callee.object === undefined)
      return [];
    return [[callee.object.end, node.end] as const];
  });
}

/** Leaves out what the schemas say of themselves: only the JSON Schemas that the server publishes show it. */
export function withoutDescriptions(): Plugin {
  return {
    name: "padwright-without-descriptions",
    apply: "build",
    transform(code, id) {
      if (!CORE_SOURCE.test(id) || !code.includes(".meta(")) return null;
      const ranges = [...descriptionsIn(this.parse(code))].sort(([a], [b]) => a - b);
      let kept = "";
      let at = 0;
      for (const [from, to] of ranges) {
        if (from >= at) kept += code.slice(at, from);
        at = Math.max(at, to);
      }
      return { code: kept + code.slice(at), map: null };
    },
  };
}

const KILOBYTE = 1000;
const COMPRESSED = /\.(js|css|html|svg|webmanifest)$/;

/** Writes each file beside itself as small as brotli makes it, so that the server need not spend time on it. */
export function compressed(): Plugin {
  return {
    name: "padwright-compressed",
    apply: "build",
    writeBundle({ dir }, bundle) {
      const names = Object.keys(bundle).filter((name) => COMPRESSED.test(name));
      const sizes = new Map<string, number>();
      for (const name of names) {
        const bytes = readFileSync(`${dir}/${name}`);
        const params = {
          [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
          [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
        };
        const small = brotliCompressSync(bytes, { params });
        writeFileSync(`${dir}/${name}.br`, small);
        sizes.set(name, small.length);
      }
      const first = [...firstView(bundle)].reduce((sum, name) => sum + (sizes.get(name) ?? 0), 0);
      console.log(`The first view weighs ${(first / KILOBYTE).toFixed(1)} kB compressed.`);
    },
  };
}

/** Document, entry with what it imports, the core's worker and the map: what a first visit on a wide screen loads. */
function firstView(bundle: Rolldown.OutputBundle): Set<string> {
  const found = new Set<string>(["index.html"]);
  const add = (name: string): void => {
    if (found.has(name)) return;
    found.add(name);
    const made = bundle[name];
    // A worker is built apart and comes as text: what it imports at once is read from there.
    if (made?.type === "asset" && name.endsWith(".js")) {
      for (const [, other] of String(made.source).matchAll(/from\s*"\.\/([^"]+\.js)"/g)) add(`assets/${other}`);
    }
    if (made?.type !== "chunk") return;
    for (const sheet of made.viteMetadata?.importedCss ?? []) found.add(sheet);
    made.imports.forEach(add);
  };
  for (const [name, made] of Object.entries(bundle)) {
    if ((made.type === "chunk" && made.isEntry) || /^assets\/(worker|camp-map)-.*\.js$/.test(name)) add(name);
  }
  return found;
}

export function serviceWorker(): Plugin {
  let publicDir = "";
  return {
    name: "padwright-service-worker",
    apply: "build",
    configResolved(config) {
      publicDir = config.publicDir;
    },
    generateBundle: {
      order: "post",
      async handler(_, bundle) {
        const hash = createHash("sha256");
        const own = publicDir === "" ? [] : readdirSync(publicDir);
        const files = [...Object.keys(bundle), ...own].filter((name) => !name.endsWith(".map")).sort();
        for (const name of files) {
          const made = bundle[name];
          const content =
            made === undefined ? readFileSync(`${publicDir}/${name}`) : made.type === "chunk" ? made.code : made.source;
          hash.update(name).update(content);
        }
        const version = hash.digest("hex").slice(0, VERSION_LENGTH);
        const { code } = await transformWithOxc(readFileSync(SOURCE, "utf8"), SOURCE);
        const listed = ["./", ...files.filter((name) => name !== "index.html").map((name) => `./${name}`)];
        const source = code
          .replace('"BUILD_VERSION"', JSON.stringify(version))
          .replace('["BUILD_FILES"]', JSON.stringify(listed));
        this.emitFile({ type: "asset", fileName: "service-worker.js", source });
      },
    },
  };
}
