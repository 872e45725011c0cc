/** The page as it is shipped, built into tests/out, and the browser that opens it. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
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

/** Milliseconds between two looks whether another test file has finished the build. */
const LOOK_EVERY = 200;
const KEPT_DIGITS = 16;

/** What the page is made of, by names, sizes and times of change. */
async function mark(): Promise<string> {
  const hash = createHash("sha256");
  for (const folder of ["src", "data"]) {
    for (const name of (await readdir(at(folder), { recursive: true })).sort()) {
      const { size, mtimeMs } = await stat(join(at(folder), name));
      hash.update(`${name} ${size} ${mtimeMs}\n`);
    }
  }
  return hash.digest("hex").slice(0, KEPT_DIGITS);
}

const LONGEST_BUILD = 240_000;

/** True when a lock is gone, or too old to be anybody's; then it is taken away. */
async function isOver(lock: string): Promise<boolean> {
  const made = await stat(lock).catch(() => null);
  if (made !== null && Date.now() - made.mtimeMs < LONGEST_BUILD) return false;
  await rm(lock, { recursive: true, force: true });
  return true;
}

/** The built page; of several test files the first one builds it, and the others wait for it. */
export async function buildPage(): Promise<string> {
  const outDir = `${OUT}/page-${await mark()}`;
  const done = `${outDir}.done`;
  await mkdir(OUT, { recursive: true });
  const isFirst = await mkdir(`${outDir}.lock`).then(
    () => true,
    () => false,
  );
  if (!isFirst) {
    while (!existsSync(done)) {
      // Whoever was stopped in the middle of a build has left the lock behind.
      if (await isOver(`${outDir}.lock`)) return buildPage();
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY));
    }
    return outDir;
  }
  try {
    // The test runner says "test" here, and a page built under that name is not the one that is shipped.
    process.env["NODE_ENV"] = "production";
    await build({ configFile: at("src/web/vite.config.ts"), logLevel: "error", build: { outDir, emptyOutDir: true } });
    await writeFile(done, "");
  } catch (fault) {
    await rm(`${outDir}.lock`, { recursive: true });
    throw fault;
  }
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
