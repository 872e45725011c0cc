/**
 * Writes `service-worker.js` at the end of the build: the worker's own source with the list of files of this build and
 * a version made from their content, so that a new build replaces the old one as a whole.
 */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type Plugin, transformWithOxc } from "vite";

const SOURCE = fileURLToPath(new URL("./worker.ts", import.meta.url));
const VERSION_LENGTH = 12;

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
