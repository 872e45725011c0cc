/**
 * How long a first visit takes: from the first request to the first list, to the first site with a verdict and to the
 * whole list ranked, with the core in the page; what it weighs as sent; and how smooth the page stays while 500 sites
 * are ranked. Figures of this machine at this moment: nothing passes or fails (the build refuses too much weight).
 */
import { mkdir, readFile, writeFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { buildPage, DEMO, launch, OUT, start } from "../browser/page-build.ts";

const MANY = 500;
const VISITS = 3;
const PATIENCE = 300_000;

interface Moments {
  readonly list: number;
  readonly first: number;
  readonly screen: number;
  readonly all: number;
  readonly longest: number;
  readonly bytes: number;
  readonly weights: ReadonlyMap<string, number>;
}

/**
 * Notes, inside the page, when the list and its verdicts appear and the longest task of its main thread. As text,
 * because what runs this file may add helpers to functions that the page does not have.
 */
const WATCH = `
  const seen = (globalThis.seen = { longest: 0 });
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) seen.longest = Math.max(seen.longest, entry.duration);
  }).observe({ type: "longtask", buffered: true });
  const look = () => {
    const items = document.querySelectorAll(".site-item").length;
    const waiting = document.querySelectorAll(".site-item .mark-waiting").length;
    if (items > 0) {
      seen.list ??= performance.now();
      if (waiting < items) seen.first ??= performance.now();
      if (items - waiting >= 5) seen.screen ??= performance.now();
      if (waiting === 0) seen.all ??= performance.now();
    }
    if (seen.all === undefined) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
`;

interface Seen {
  readonly seen: Partial<Record<"list" | "first" | "screen" | "all" | "longest", number>>;
}

/** Bytes of everything that the page and its workers loaded, compressed, by the browser's own account. */
async function visitOnce(browser: Browser, address: string): Promise<Moments> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    locale: "en-US",
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  const weights = new Map<string, number>();
  context.on("response", async (response) => {
    const sizes = await response
      .request()
      .sizes()
      .catch(() => null);
    // The browser tells no size for the file of a worker; the server does.
    const told = Number(
      (await response.allHeaders().catch(() => ({}) as Record<string, string>))["content-length"] ?? 0,
    );
    weights.set(response.url(), Math.max(sizes?.responseBodySize ?? 0, told));
  });
  await page.addInitScript(WATCH);
  await page.goto(`${address}/`);
  await page.waitForFunction(() => (globalThis as unknown as Seen).seen.all !== undefined, null, {
    timeout: PATIENCE,
    polling: 100,
  });
  const seen = await page.evaluate(() => (globalThis as unknown as Seen).seen);
  await context.close();
  const bytes = [...weights.values()].reduce((sum, one) => sum + one, 0);
  const { list = 0, first = 0, screen = 0, all = 0, longest = 0 } = seen;
  return { list, first, screen, all, longest, bytes, weights };
}

/** The demo's sites again and again until there are enough, each a little further north. */
async function manySites(): Promise<string> {
  const folder = `${OUT}/many`;
  await mkdir(folder, { recursive: true });
  const whole = JSON.parse(await readFile(`${DEMO}/campground.geojson`, "utf8")) as {
    features: { id: string; geometry: unknown; properties: Record<string, unknown> }[];
  };
  const sites = whole.features.filter(({ properties }) => properties["kind"] === "site");
  const copies = Array.from({ length: MANY }, (_, index) => {
    const site = sites[index % sites.length]!;
    const turn = Math.floor(index / sites.length);
    const north = turn * 0.004;
    const move = (value: unknown): unknown =>
      Array.isArray(value)
        ? typeof value[0] === "number"
          ? [value[0], (value[1] as number) + north]
          : value.map(move)
        : value;
    const geometry = site.geometry as { coordinates: unknown } | null;
    const moved = geometry === null ? null : { ...geometry, coordinates: move(geometry.coordinates) };
    const name = `${String(site.properties["name"])}${turn === 0 ? "" : ` ${"abcdefgh"[turn]}`}`;
    return { ...site, id: `${site.id}-${turn}`, geometry: moved, properties: { ...site.properties, name } };
  });
  const others = whole.features.filter(({ properties }) => properties["kind"] !== "site");
  await writeFile(`${folder}/campground.geojson`, JSON.stringify({ ...whole, features: [...others, ...copies] }));
  return folder;
}

const seconds = (milliseconds: number): string => `${(milliseconds / 1000).toFixed(2)} s`;

const built = await buildPage();
const browser = await launch();
const service = await start(DEMO, built);
const visits: Moments[] = [];
for (let turn = 0; turn < VISITS; turn++) visits.push(await visitOnce(browser, service.address));
await service.stop();
const best = visits.reduce((a, b) => (a.screen <= b.screen ? a : b));
console.log(`First view of the demo campground, best of ${VISITS} first visits, no cache, no service worker:`);
console.log(
  `  list drawn ${seconds(best.list)}, first verdict ${seconds(best.first)}, first five ${seconds(best.screen)}, all ranked ${seconds(best.all)}`,
);
console.log(`  longest task of the main thread ${Math.round(best.longest)} ms`);
console.log(`  weight as sent, map and campground included: ${(best.bytes / 1000).toFixed(1)} kB`);
for (const [url, weight] of best.weights) console.log(`    ${(weight / 1000).toFixed(1)} kB ${new URL(url).pathname}`);
const many = await start(await manySites(), built);
const crowd = await visitOnce(browser, many.address);
await many.stop();
await browser.close();
console.log(
  `${MANY} sites: list drawn ${seconds(crowd.list)}, all ranked ${seconds(crowd.all)}, longest task ${Math.round(crowd.longest)} ms`,
);
