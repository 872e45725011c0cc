/** The hookup card in a real browser: on the screen, on paper, and what it must not print. */
import { writeFileSync } from "node:fs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { axeViolations } from "./axe-run.ts";
import { buildPage, fewSites, launch, OUT, start } from "./page-build.ts";
import { DESK, PHONE, type Visit, visit, WIDTHS } from "./visit.ts";

/** One that fits with kit, one whose cord must go round the rear, one that nobody can tell, one pull-through. */
const SITES = ["curlew-12", "curlew-31", "field-5", "plover-1"];
const APPROVED = ["curlew-12", "plover-1"];
const REFUSED = ["curlew-31", "field-5"];

let browser: Browser;
let service: Service;

beforeAll(async () => {
  service = await start(await fewSites("card-records", SITES), await buildPage());
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function shown(one: Visit, site: string): Promise<void> {
  await one.open(`#/card/${site}`);
  await one.page.locator(".card[data-ready=true] .card-plan svg").waitFor();
}

/** Pages of a PDF, counted in its page tree. */
function pagesOf(pdf: Buffer): number {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

describe.each(SITES)("the card of %s", (site) => {
  test.each(["Letter", "A4"] as const)("is one sheet of %s, of a size that can be read", async (format) => {
    const one = await visit(browser, service.address, DESK);
    try {
      await shown(one, site);
      const pdf = await one.page.pdf({ format, printBackground: false });
      const path = `${OUT}/card-${site}-${format}`;
      writeFileSync(`${path}.pdf`, pdf);
      expect(pagesOf(pdf)).toBe(1);
      const size = await one.page
        .locator(".card-sheet")
        .evaluate((sheet: HTMLElement) => sheet.style.getPropertyValue("--card-size"));
      expect(Number.parseFloat(size)).toBeGreaterThanOrEqual(7);
      // Nothing shrinks the sheet: as printed it is no higher than what Letter leaves.
      await one.page.emulateMedia({ media: "print" });
      expect(await one.page.locator(".card-sheet").evaluate((sheet) => sheet.scrollHeight)).toBeLessThanOrEqual(995);
      expect(one.complaints).toEqual([]);
    } finally {
      await one.end();
    }
  });
});

test("prints without a control of the page, from a phone too", async () => {
  const one = await visit(browser, service.address, PHONE);
  try {
    await shown(one, "curlew-12");
    await one.page.emulateMedia({ media: "print" });
    for (const part of [".frame-head", ".card-head", ".back"])
      expect(await one.page.locator(part).isVisible()).toBe(false);
    expect(await one.page.locator(".card-sheet").isVisible()).toBe(true);
    await one.page.emulateMedia({ media: null });
    expect(pagesOf(await one.page.pdf({ format: "A4" }))).toBe(1);
  } finally {
    await one.end();
  }
});

test.each(APPROVED)("%s: power steps in their order, where to stop, black before grey", async (site) => {
  const one = await visit(browser, service.address, DESK);
  try {
    await shown(one, site);
    const steps = await one.page
      .locator("[data-step]")
      .evaluateAll((all) => all.map((step) => step.getAttribute("data-step")));
    const power = steps.filter((step) => step?.startsWith("power-")).slice(0, 6);
    expect(power).toEqual(["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"]);
    const text = (await one.page.locator(".card-sheet").textContent()) ?? "";
    expect(text).toMatch(/Rear bumper anywhere .* from the pad's rear edge/);
    expect(text).toContain("Black first, then grey");
    expect(text).not.toMatch(/\/site\/|\/rig\/|undefined|NaN|\{/);
  } finally {
    await one.end();
  }
});

test.each(REFUSED)("%s: large words, no step, nowhere to stop", async (site) => {
  const one = await visit(browser, service.address, PHONE);
  try {
    await shown(one, site);
    expect(await one.page.locator("[data-step]").count()).toBe(0);
    const words = one.page.locator(".card-large");
    expect(await words.textContent()).toMatch(/Not known whether|cannot be relied on/);
    const size = await words.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(size).toBeGreaterThan(30);
    const text = (await one.page.locator(".card-sheet").textContent()) ?? "";
    expect(text).not.toMatch(/stop here|Where to stop|Arriving|\/site\//);
  } finally {
    await one.end();
  }
});

test("another system of units is another card", async () => {
  const one = await visit(browser, service.address, DESK);
  try {
    await shown(one, "curlew-12");
    await one.page.getByRole("radio", { name: "m", exact: true }).check({ force: true });
    await expect
      .poll(() => one.page.locator(".card-sheet").textContent())
      .toMatch(/between \d+\.\d\d\sm and \d+\.\d\d\sm/);
  } finally {
    await one.end();
  }
});

test("another language is another card, kept from visit to visit, with its messages loaded only then", async () => {
  const one = await visit(browser, service.address, DESK);
  const loaded: string[] = [];
  one.page.on("response", (response) => loaded.push(response.url()));
  const messages = (language: string) => loaded.filter((url) => new RegExp(`/${language}-[\\w-]+\\.js$`).test(url));
  try {
    await shown(one, "curlew-12");
    const steps = () =>
      one.page.locator("[data-step]").evaluateAll((all) => all.map((step) => step.getAttribute("data-step")));
    const english = await steps();
    expect([messages("en").length, messages("de").length]).toEqual([1, 0]);
    await one.page.getByLabel("Language of the card").selectOption("de");
    await one.page.locator('.card-sheet[lang="de"]').waitFor();
    expect(messages("de").length).toBe(1);
    expect(await steps()).toEqual(english);
    const text = (await one.page.locator(".card-sheet").textContent()) ?? "";
    expect(text).toMatch(/Stromsäule.*Schwarzwasserschieber.*Übersetzung des Projekts/);
    expect(text).not.toMatch(/\b(the|breaker|hose|spare|unknown)\b/);
    expect(pagesOf(await one.page.pdf({ format: "Letter" }))).toBe(1);
    await one.page.reload();
    await one.page.locator('.card[data-ready=true] .card-sheet[lang="de"]').waitFor();
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});

test.each(WIDTHS)("axe finds nothing on a $name, light or dark", async (width) => {
  for (const colorScheme of ["light", "dark"] as const) {
    const one = await visit(browser, service.address, width, { colorScheme });
    try {
      for (const site of ["curlew-12", "field-5"]) {
        await shown(one, site);
        await one.picture(`card-${site}-${colorScheme}`);
        expect(await axeViolations(one.page)).toEqual([]);
      }
    } finally {
      await one.end();
    }
  }
});
