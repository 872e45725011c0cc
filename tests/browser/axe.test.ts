/** Every view under axe-core, light and dark, at both widths: no violation of any rule. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { buildPage, fewSites, launch, start } from "./page-build.ts";
import { visit, WIDTHS } from "./visit.ts";

const SITES = ["curlew-1", "curlew-16", "curlew-31", "field-5"];
const VIEWS = ["#/sites", "#/site/curlew-31", "#/site/field-5", "#/compare/curlew-1,curlew-16", "#/about"];

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
  readonly passes: readonly unknown[];
}

let browser: Browser;
let service: Service;
let axe: string;

beforeAll(async () => {
  axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
  service = await start(await fewSites("axe-records", SITES), await buildPage());
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

const CASES = WIDTHS.flatMap((width) =>
  (["light", "dark"] as const).map((scheme) => ({ width, scheme, name: width.name })),
);

test.each(CASES)("no violation on a $name in the $scheme", async ({ width, scheme }) => {
  const one = await visit(browser, service.address, width, { colorScheme: scheme });
  try {
    for (const hash of VIEWS) {
      await one.open(hash);
      if (hash === "#/sites") await one.ranked();
      if (hash.startsWith("#/site/")) await one.answered();
      if (hash.startsWith("#/compare"))
        await expect.poll(() => one.page.locator(".plan-picture svg").count(), { timeout: 30_000 }).toBe(2);
      await one.page.locator("details").evaluateAll((all) => {
        for (const one of all) one.setAttribute("open", "");
      });
      await one.page.evaluate(axe);
      const result = await one.page.evaluate(() =>
        (globalThis as unknown as { axe: { run(): Promise<AxeResult> } }).axe.run(),
      );
      const told = result.violations.map(
        ({ id, nodes }) => `${hash} ${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`,
      );
      expect(told).toEqual([]);
      expect(result.passes.length).toBeGreaterThan(10);
      if (scheme === "dark") await one.picture(`dark-${hash.replaceAll(/[^a-z0-9]+/g, "-")}`);
    }
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});
