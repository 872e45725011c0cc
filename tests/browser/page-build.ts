/** The page as it is shipped, built into tests/out, and the browser that opens it. */
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { type Browser, chromium } from "playwright-core";
import { build } from "vite";
import { type Service, serve } from "../../src/node/serve.ts";

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const CHROMIUM = "/usr/bin/chromium";

export const DEMO = at("data/demo");
export const OUT = at("tests/out/browser");

/** Without the services that a browser calls home for: a test reaches nothing but its own server. */
const ARGUMENTS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export async function buildPage(name: string): Promise<string> {
  const outDir = `${OUT}/${name}`;
  // The test runner says "test" here, and a page built under that name is not the one that is shipped.
  process.env["NODE_ENV"] = "production";
  await build({ configFile: at("src/web/vite.config.ts"), logLevel: "error", build: { outDir, emptyOutDir: true } });
  return outDir;
}

export function launch(): Promise<Browser> {
  if (!existsSync(CHROMIUM)) execFileSync("bash", [at(".ci/browser")], { stdio: "inherit" });
  return chromium.launch({ executablePath: CHROMIUM, args: ARGUMENTS });
}

/** Serves campgrounds and page from one port. */
export function start(folder: string, page: string): Promise<Service> {
  return serve({ folder, page, port: 0, host: "127.0.0.1", version: "0.0.0-test", log: () => {} });
}

interface Collection {
  readonly campground: Record<string, unknown>;
  readonly features: readonly { readonly id?: string; readonly properties: Readonly<Record<string, unknown>> }[];
}

/**
 * A folder with the demo campground cut down to these sites, everything round them kept, so that a ranking ends within
 * a test's patience.
 */
export async function fewSites(name: string, sites: readonly string[]): Promise<string> {
  const folder = `${OUT}/${name}`;
  await mkdir(folder, { recursive: true });
  const whole = JSON.parse(await readFile(`${DEMO}/campground.geojson`, "utf8")) as Collection;
  const features = whole.features.filter(
    ({ id, properties }) => properties["kind"] !== "site" || sites.includes(String(id)),
  );
  const kept = features.filter(({ properties }) => properties["kind"] === "site").length;
  if (kept !== sites.length) throw new Error(`The demo has ${kept} of the ${sites.length} sites that the tests name.`);
  await writeFile(`${folder}/campground.geojson`, JSON.stringify({ ...whole, features }));
  return folder;
}
