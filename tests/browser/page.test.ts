/** The page in a real browser, from the built files and the real server. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { buildPage, fewSites, launch, start } from "./page-build.ts";
import { DESK, PATIENCE, PHONE, type Visit, visit, WIDTHS } from "./visit.ts";

/** Every verdict is among them, a pull-through and a site without hookups. */
const SITES = ["curlew-1", "curlew-12", "curlew-16", "curlew-31", "plover-1", "rail-1", "wren-5", "field-1", "field-5"];
const PULL_THROUGH = "plover-1";
const TIGHT = "curlew-31";

let browser: Browser;
let page: string;
let service: Service;

beforeAll(async () => {
  page = await buildPage();
  service = await start(await fewSites("records", SITES), page);
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

/** Runs a visit to its end and lets no complaint of the browser pass. */
async function during(made: Promise<Visit>, walk: (visit: Visit) => Promise<void>): Promise<void> {
  const one = await made;
  try {
    await walk(one);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
}

/** An expectation of something that comes with the core's next answer. */
const eventually = <Value>(read: () => Promise<Value> | Value) => expect.poll(read, { timeout: PATIENCE });

const names = (one: Visit) => one.page.locator(".site-name").allTextContents();
const marginOf = (one: Visit, name: string) =>
  one.page.locator(`.line[data-service=${name}] [data-part=margin]`).textContent();

describe.each(WIDTHS)("at the width of a $name", (width) => {
  const come = () => visit(browser, service.address, width);

  test("a site is chosen by looking: list with reasons, map with marks, filters, order", () =>
    during(come(), async (one) => {
      await one.open("#/sites");
      await one.ranked();
      await one.picture("sites");
      expect(await one.page.locator(".site-item").count()).toBe(SITES.length);
      const verdicts = await one.page.locator(".verdict-word").allTextContents();
      const order = ["Fits", "Fits with kit", "Tight", "Unknown", "Does not fit"];
      const ranks = verdicts.map((word) => order.indexOf(word));
      expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
      expect(new Set(verdicts)).toEqual(new Set(order));
      for (const reason of await one.page.locator(".reason").allTextContents())
        expect(reason.length).toBeGreaterThan(10);

      await one.page.getByLabel("Order").selectOption("name");
      expect((await names(one))[0]).toBe("Curlew 1");

      await one.page.getByLabel("Pull-through").check({ force: true });
      expect(await one.page.locator(".site-item").getAttribute("data-site")).toBe(PULL_THROUGH);
      expect(await one.page.locator("[data-part=count]").textContent()).toContain(`${SITES.length - 1} hidden`);
      await one.page.getByLabel("Pull-through").uncheck({ force: true });

      if (width.narrow) await one.page.getByRole("button", { name: "Map", exact: true }).click();
      await one.page.locator(".map-mark").first().waitFor();
      await eventually(() => one.page.locator(".map-mark .mark-tight").count()).toBeGreaterThan(0);
      await one.picture("map");
      await one.page.locator(".map-mark .mark-kit").first().click({ force: true });
      await one.page.locator("[data-part=picked]").getByText("Fits with kit").waitFor();
      await one.picture("map-picked");
      await one.page.getByRole("button", { name: "Look at it" }).click();
      await one.answered();
      expect(one.page.url()).toContain("#/site/curlew-12");
      expect(await one.page.locator("h1").textContent()).toBe("Curlew 12");
    }));

  test("the rig is dragged, margins follow, and one press brings it back", () =>
    during(come(), async (one) => {
      await one.open("#/site/curlew-1");
      await one.answered();
      await one.picture("site");
      const before = await marginOf(one, "power");
      const plan = await one.page.locator(".plan-drawing").innerHTML();
      const handle = one.page.locator("[data-part=rig-handle]");
      await handle.scrollIntoViewIfNeeded();
      const box = (await handle.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await one.page.mouse.move(x, y);
      await one.page.mouse.down();
      const along = width.narrow ? ([0, 40] as const) : ([60, 0] as const);
      await one.page.mouse.move(x + along[0], y + along[1], { steps: 6 });
      await one.page.mouse.up();
      await one.page.getByText("Lines at the place tried").waitFor();
      await eventually(() => marginOf(one, "power")).not.toBe(before);
      expect(await one.page.locator(".plan-drawing [data-part=ghost]").count()).toBe(1);
      await one.picture("site-dragged");
      await one.page.getByRole("button", { name: "Back to the place worked out" }).click();
      await eventually(() => marginOf(one, "power")).toBe(before);
      expect(await one.page.locator(".plan-drawing").innerHTML()).toBe(plan);
    }));

  test("a fix is tried with one press and taken back with another", () =>
    during(come(), async (one) => {
      await one.open(`#/site/${TIGHT}`);
      await one.answered();
      const verdict = () => one.page.locator(".verdict").getAttribute("data-verdict");
      expect(await verdict()).toBe("tight");
      const offer = one.page.locator(".offers > li").first();
      await one.picture("fixes");
      const promised = (await offer.locator(".quiet").last().textContent())!.replace("Then: ", "");
      await offer.getByRole("button", { name: "Try it" }).click();
      await eventually(verdict).toBe(promised);
      await one.answered();
      await one.picture("fix-tried");
      await one.page.getByRole("button", { name: "Take back" }).click();
      await eventually(verdict).toBe("tight");
    }));

  test("three sites are compared side by side, and no fourth", () =>
    during(come(), async (one) => {
      await one.open("#/sites");
      await one.ranked();
      for (const name of ["Curlew 1", "Plover 1", "Curlew 31"]) {
        await one.page.getByRole("button", { name: `Compare ${name}`, exact: true }).click();
      }
      expect(await one.page.getByRole("button", { name: "Compare Rail 1", exact: true }).isDisabled()).toBe(true);
      await one.page.getByRole("link", { name: "Compare 3" }).click();
      await eventually(() => one.page.locator(".column .plan-picture svg").count()).toBe(3);
      await one.picture("compare");
      const tops = await one.page
        .locator(".column")
        .evaluateAll((columns) => columns.map((column) => Math.round(column.getBoundingClientRect().top)));
      expect(new Set(tops).size).toBe(width.narrow ? 3 : 1);
      const shown = await one.page.locator(".column .column-verdict strong").allTextContents();
      expect(shown).toEqual(["Fits", "Fits", "Tight"]);
    }));

  test("nothing hangs over the side at 200 % zoom and at 320 pixels", () =>
    during(
      visit(browser, service.address, width, { viewport: { width: width.narrow ? 320 : 640, height: 400 } }),
      async (one) => {
        for (const hash of ["#/sites", "#/site/curlew-1", "#/compare/curlew-1,plover-1", "#/about"]) {
          await one.open(hash);
          if (hash.startsWith("#/site/")) await one.answered();
          const [wide, room] = await one.page.evaluate(
            () => [document.documentElement.scrollWidth, innerWidth] as const,
          );
          expect(`${hash} ${wide}`).toBe(`${hash} ${Math.min(wide, room)}`);
        }
        await one.picture("zoomed");
      },
    ));
});

test("after one visit everything works with the server gone", async () => {
  const away = await start(await fewSites("records", SITES), page);
  await during(visit(browser, away.address, PHONE), async (one) => {
    await one.open("#/sites");
    await one.ranked();
    await one.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await away.stop();
    await one.page.context().setOffline(true);
    // The server that is gone is the point here: the browser may say so in its console.
    one.complaints.length = 0;
    await one.page.reload();
    await one.ranked();
    await one.page.locator("[data-part=without-server]").waitFor();
    expect(await one.page.locator(".site-item").count()).toBe(SITES.length);
    await one.picture("without-signal");
    await one.page.getByRole("link", { name: "Curlew 1", exact: true }).click();
    await one.answered();
    expect(await one.page.locator(".verdict").getAttribute("data-verdict")).toBe("fits");
    await one.page.getByLabel("m", { exact: true }).check({ force: true });
    await eventually(() => marginOf(one, "power")).toMatch(/ m to spare$/);
    const told = one.complaints.filter(
      (line) => !/ERR_(INTERNET_DISCONNECTED|CONNECTION_REFUSED)|Failed to load/.test(line),
    );
    one.complaints.length = 0;
    one.complaints.push(...told);
  });
});

test("the whole way is walked with the keyboard alone", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    const { page: at } = one;
    const focused = () => at.evaluate(() => document.activeElement?.textContent?.trim() ?? "");
    const press = async (key: string, until: (text: string) => boolean, most = 60) => {
      for (let turn = 0; turn < most; turn++) {
        await at.keyboard.press(key);
        if (until(await focused())) return;
      }
      throw new Error(`The focus never came there; it is on "${await focused()}".`);
    };
    await one.open("#/sites");
    await one.ranked();
    await press("Tab", (text) => text === "Skip to the content");
    await at.keyboard.press("Enter");
    expect(await at.evaluate(() => document.activeElement?.id)).toBe("main");
    await at.getByLabel("Pull-through").focus();
    await at.keyboard.press("Space");
    expect(await at.locator(".site-item").count()).toBe(1);
    await press("Tab", (text) => text === "Plover 1");
    await at.keyboard.press("Enter");
    await one.answered();
    expect(await focused()).toBe("Plover 1");
    expect(await at.title()).toBe("Plover 1 - Padwright");
    const before = await marginOf(one, "power");
    await at.locator(".plan-stage").focus();
    await at.keyboard.press("Shift+ArrowRight");
    await eventually(() => marginOf(one, "power")).not.toBe(before);
    await at.waitForFunction(() => document.querySelector("[data-part=announcer]")?.textContent?.includes("Power"));
    await at.keyboard.press("Escape");
    await eventually(() => marginOf(one, "power")).toBe(before);
    await at.getByLabel("Along the pad").focus();
    const place = () => at.locator("[data-part=place]").textContent();
    const lines = () => at.locator(".lines").textContent();
    const [placeBefore, linesBefore] = [await place(), await lines()];
    for (let step = 0; step < 9; step++) await at.keyboard.press("ArrowLeft");
    await eventually(place).not.toBe(placeBefore);
    await eventually(lines).not.toBe(linesBefore);
    await at.locator(".plan-stage").focus();
    await at.keyboard.press("+");
    await eventually(() => at.locator(".plan-stage.zoomed").count()).toBe(1);
  }));

test("units change every length, and stay changed after a reload", () =>
  during(visit(browser, service.address, PHONE), async (one) => {
    await one.open("#/sites");
    await one.ranked();
    const worst = () => one.page.locator(".worst").first().textContent();
    expect(await worst()).toMatch(/ ft( \d+ in)? (to spare|short)$/);
    await one.page.getByLabel("m", { exact: true }).check({ force: true });
    await eventually(worst).toMatch(/\d\.\d\d m (to spare|short)$/);
    await one.ranked();
    await one.page.waitForTimeout(400);
    await one.page.reload();
    await one.ranked();
    expect(await worst()).toMatch(/ m (to spare|short)$/);
    expect(await one.page.getByLabel("m", { exact: true }).isChecked()).toBe(true);
  }));

test("the first view weighs less than 200 kB as sent, with the map, without the campground's record", () =>
  during(visit(browser, service.address, DESK, { serviceWorkers: "block" }), async (one) => {
    const sent = new Map<string, number>();
    one.page.context().on("response", async (response) => {
      const headers = await response.allHeaders().catch(() => ({}) as Record<string, string>);
      sent.set(new URL(response.url()).pathname, Number(headers["content-length"] ?? 0));
    });
    await one.open("#/sites");
    await one.ranked();
    await one.page.locator(".map-mark").first().waitFor();
    const files = [...sent].filter(([path]) => !path.startsWith("/v1/"));
    expect(files.some(([path, bytes]) => path.includes("/worker-") && bytes > 0)).toBe(true);
    expect(files.some(([path, bytes]) => path.includes("/camp-map-") && bytes > 0)).toBe(true);
    expect(files.reduce((sum, [, bytes]) => sum + bytes, 0)).toBeLessThan(200_000);
  }));

test("with reduced motion nothing moves by itself", () =>
  during(visit(browser, service.address, DESK, { reducedMotion: "reduce" }), async (one) => {
    await one.open("#/sites");
    await one.page.locator(".map-mark").first().waitFor();
    const durations = await one.page
      .locator(".button, .chip, .site-item")
      .evaluateAll((all) => all.map((element) => getComputedStyle(element).transitionDuration));
    expect(new Set(durations)).toEqual(new Set(["0s"]));
    expect(await one.page.locator(".leaflet-zoom-anim").count()).toBe(0);
  }));

test("what is unknown becomes a message that asks for it and nothing more", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await one.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await one.open("#/site/field-5");
    await one.answered();
    await one.page.getByRole("button", { name: "Copy the message" }).click();
    const copied = await one.page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toBe(await one.page.getByLabel("Message to the campground").inputValue());
    expect(copied).toContain("Quillfeather Flats");
    expect(copied).toMatch(/\n1\. /);
    expect(copied).not.toMatch(/\/site|\/rig|properties/);
    await one.picture("asking");
  }));

test("a campground comes from a file; one that is none is refused in words", () =>
  during(visit(browser, service.address, DESK), async (one) => {
    await one.open("#/sites");
    await one.page.locator(".site-item").first().waitFor();
    const give = (name: string, text: string) =>
      one.page
        .locator("#campground-file")
        .setInputFiles({ name, mimeType: "application/geo+json", buffer: Buffer.from(text) });
    await give("broken.geojson", `{"type": "Feature"}`);
    await one.page.getByRole("alert").getByText("FeatureCollection").waitFor();
    const pad = { length: 14.2, width: 4.1 };
    const site = {
      type: "Feature",
      id: "lone-3",
      geometry: null,
      properties: { kind: "site", name: "Lone 3", layout: "back-in", pad },
    };
    await give(
      "lone.geojson",
      JSON.stringify({
        type: "FeatureCollection",
        campground: { id: "lone", name: "Lone (invented)" },
        features: [site],
      }),
    );
    await one.page.getByRole("heading", { name: "Lone (invented)" }).waitFor();
    expect(await names(one)).toEqual(["Lone 3"]);
  }));
