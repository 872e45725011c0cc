/** The wind at a site in a real browser: by hand, replayed, from the server, without signal, on paper. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { axeViolations } from "./axe-run.ts";
import { buildPage, fewSites, launch, start } from "./page-build.ts";
import { DESK, PATIENCE, type Visit, visit, WIDTHS } from "./visit.ts";

/** Behind the spruce belt, out by the lake, and one whose place nobody knows. */
const LEE = "curlew-25";
const OPEN = "pipit-3";
const NOWHERE = "field-1";
const SITES = [LEE, OPEN, NOWHERE];

let browser: Browser;
let service: Service;

beforeAll(async () => {
  service = await start(await fewSites("wind-records", SITES), await buildPage());
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function during(made: Promise<Visit>, walk: (visit: Visit) => Promise<void>): Promise<void> {
  const one = await made;
  try {
    await walk(one);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
}

const eventually = <Value>(read: () => Promise<Value> | Value) => expect.poll(read, { timeout: PATIENCE });
const wind = (one: Visit) => one.page.locator("[data-part=wind]");
const levelOf = (one: Visit) => wind(one).locator(".wind-word").getAttribute("data-level");

async function at(one: Visit, site: string): Promise<void> {
  await one.open(`#/site/${site}`);
  await one.answered();
  await wind(one).locator(".wind-caution").waitFor();
}

async function replay(one: Visit, day: string): Promise<void> {
  await wind(one).getByLabel("An invented day").check({ force: true });
  await wind(one).getByLabel("Day to replay").selectOption(day);
  await eventually(() => wind(one).locator("[data-part=wind-answer] > .quiet").first().textContent()).toMatch(
    day === "front" ? /front passage/ : /afternoon breeze/,
  );
}

/** Local hours of the strip with this signal. */
const hoursWith = (one: Visit, signal: string) =>
  wind(one).locator(`.hour-strip [data-signal="${signal}"] .hour-time`).allTextContents();

describe.each(WIDTHS)("at the width of a $name", (width) => {
  const come = () => visit(browser, service.address, width);

  test("the rose stands beside the plan with its words, and a wind by hand changes the level", () =>
    during(come(), async (one) => {
      await at(one, OPEN);
      const rose = wind(one).getByRole("img", { name: "Wind rose of site Pipit 3" });
      expect(await rose.locator("[data-sector]").count()).toBe(16);
      expect(await rose.locator("desc").textContent()).toMatch(/The awning opens towards \w+/);
      expect(await rose.locator("[data-part=prevailing]").count()).toBe(1);
      expect(await rose.locator("[data-part=forecast]").count()).toBe(0);
      await wind(one).getByLabel("A wind I expect").check({ force: true });
      expect(await wind(one).getByLabel("Wind from").inputValue()).toBe("W");
      await wind(one).getByLabel("Gusts up to (mph)").fill("45");
      await eventually(() => levelOf(one)).toBe("retract");
      expect(await rose.locator("[data-part=forecast]").count()).toBe(1);
      await wind(one).getByLabel("Gusts up to (mph)").fill("4");
      await eventually(() => levelOf(one)).toBe("low");
      expect(await wind(one).locator("[data-part=worst]").textContent()).toMatch(/^level low Gust 4 mph from W/);
      await one.page.getByText("m", { exact: true }).click();
      await eventually(() => wind(one).locator("[data-part=worst]").textContent()).toMatch(/m\/s|km\/h/);
      expect(await wind(one).textContent()).not.toMatch(/\bsafe\b/i);
    }));

  test("a replayed day has a cell for each hour, said by letter and in words, and goes along to another site", () =>
    during(come(), async (one) => {
      await at(one, OPEN);
      await replay(one, "front");
      await eventually(() => wind(one).locator(".hour-strip > li").count()).toBe(24);
      const retract = await hoursWith(one, "retract");
      expect(retract.slice(0, 2)).toEqual(["4 pm", "5 pm"]);
      expect(await hoursWith(one, "no retract signal")).toContain("12 am");
      const cell = wind(one).locator('.hour-strip [data-signal="retract"]').first();
      expect((await cell.textContent())!.replace(/\s+/g, " ")).toMatch(/^4 pmR?: retract, gust at the awning \d+ mph/);
      const look = (signal: string) =>
        wind(one)
          .locator(`.hour-key .hour-${signal}`)
          .evaluate((key) => {
            const { borderStyle, backgroundImage } = getComputedStyle(key);
            return `${key.textContent} ${borderStyle} ${backgroundImage === "none" ? "plain" : "striped"}`;
          });
      expect(await Promise.all(["retract", "unknown", "none"].map(look))).toEqual([
        "R solid striped",
        "? dashed plain",
        "– solid plain",
      ]);
      await wind(one).getByText("Every hour in words").click();
      expect(await wind(one).locator(".hour-words li", { hasText: "thunderstorm; retract" }).count()).toBe(2);
      expect(await wind(one).locator("[data-part=worst]").textContent()).toMatch(/Worst: Sunday, July 12, 4 pm/);
      expect(await wind(one).textContent()).toMatch(/never forecast anywhere/);
      await one.picture("wind-hours");
      if (width.narrow) {
        await one.page.setViewportSize({ width: 320, height: 640 });
        expect(await one.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
      }
      await at(one, LEE);
      await eventually(() => wind(one).locator(".hour-strip > li").count()).toBe(24);
      const behindTheBelt = await hoursWith(one, "retract");
      expect(behindTheBelt).toContain("4 pm");
      expect(behindTheBelt.length).toBeLessThan(retract.length);
    }));

  test.each(["light", "dark"] as const)("axe finds nothing in the %s, with hours and folds open", (colorScheme) =>
    during(visit(browser, service.address, width, { colorScheme }), async (one) => {
      await at(one, OPEN);
      await replay(one, "front");
      await wind(one).locator(".hour-strip > li").first().waitFor();
      await one.page.locator("details").evaluateAll((all) => {
        for (const fold of all) fold.setAttribute("open", "");
      });
      expect(await axeViolations(one.page)).toEqual([]);
      await one.picture(`wind-${colorScheme}`);
    }),
  );
});

test("without signal the wind is still worked out", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await at(one, OPEN);
    await one.page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await one.page.context().setOffline(true);
    await one.page.reload();
    await one.answered();
    await replay(one, "afternoon-breeze");
    await eventually(() => wind(one).locator(".hour-strip > li").count()).toBe(24);
    expect((await hoursWith(one, "retract")).length).toBeGreaterThan(0);
    await one.page.context().setOffline(false);
    one.complaints.splice(0, one.complaints.length, ...one.complaints.filter((text) => !/ERR_INTERNET/.test(text)));
  }));

test("with the keyboard alone a wind is chosen and its fields are filled", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await at(one, LEE);
    await wind(one).getByLabel("The site alone").focus();
    await one.page.keyboard.press("ArrowRight");
    await one.page.keyboard.press("Tab");
    await one.page.keyboard.type("60");
    await eventually(() => wind(one).getByLabel("Gusts up to (mph)").inputValue()).toMatch(/60/);
    await eventually(() => wind(one).locator("[data-part=worst]").textContent()).toMatch(/60 mph from W/);
  }));

test("dates are offered when a feed is set up, and the server's own words stand where it has no forecast", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await at(one, OPEN);
    expect(await wind(one).getByLabel("The forecast").count()).toBe(0);
    // Only the list of feeds is made up: the stay itself is asked of the real server, which has none.
    await one.page.route("**/v1/limits", (route) => route.fulfill({ json: { forecastFeeds: ["a feed"] } }));
    await one.page.reload();
    await one.answered();
    await wind(one).getByLabel("The forecast").check({ force: true });
    await wind(one).getByLabel("Arriving").fill("2026-07-11");
    await wind(one).getByLabel("Leaving").fill("2026-07-12");
    await eventually(() => wind(one).locator(".hour-strip > li").count()).toBe(48);
    expect(await wind(one).textContent()).toMatch(/No forecast is set up here/);
    expect(await hoursWith(one, "unknown")).toHaveLength(48);
    await one.page.route("**/v1/wind", (route) => route.abort());
    await wind(one).getByLabel("Leaving").fill("2026-07-11");
    await eventually(() => wind(one).locator(".trouble").textContent()).toMatch(/out of reach/);
    expect(await hoursWith(one, "unknown")).toHaveLength(24);
    one.complaints.splice(0, one.complaints.length, ...one.complaints.filter((text) => !/ERR_FAILED/.test(text)));
  }));

test("a site whose place is not on record says so and draws no rose", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await at(one, NOWHERE);
    expect(await wind(one).locator("svg").count()).toBe(0);
    await replay(one, "front");
    expect(await hoursWith(one, "unknown")).toHaveLength(24);
    expect(await wind(one).textContent()).toMatch(/not on record/);
  }));

test("sites are ordered by their exposure, to the wind that is chosen, and say it", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await one.open("#/sites");
    await one.ranked();
    const names = () => one.page.locator(".site-name").allTextContents();
    await one.page.getByLabel("Order").selectOption("shelter");
    expect(await names()).toEqual(["Curlew 25", "Pipit 3", "Old Field 1"]);
    expect(await one.page.locator(".row-wind").first().textContent()).toMatch(/exposure low, \d+ % of a gust is left/);
    expect(await one.page.locator(".row-wind").last().textContent()).toMatch(/not known/);
    await one.page.getByLabel("Sheltered when the wind is from").selectOption("SW");
    expect(await names()).toEqual(["Pipit 3"]);
    await one.picture("sites-by-wind");
  }));

test("the site prints on four sheets at most, with its wind and nothing to press", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await at(one, OPEN);
    await replay(one, "front");
    await eventually(() => wind(one).locator(".hour-strip > li").count()).toBe(24);
    const pdf = await one.page.pdf({ format: "Letter" });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length).toBeLessThanOrEqual(4);
    await one.page.emulateMedia({ media: "print" });
    for (const pressed of [".wind-choice", ".sliders", ".plan-tools", ".site-head .button", ".cautions summary"])
      expect(await one.page.locator(pressed).first().isVisible(), pressed).toBe(false);
    expect(await wind(one).locator(".hour-strip").isVisible()).toBe(true);
    expect(await one.page.locator(".cautions details li").first().isVisible()).toBe(true);
  }));
