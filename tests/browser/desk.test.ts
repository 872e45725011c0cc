/** Desk, trip, papers and the way in, in a real browser: from files to sheets of paper, worked out without the server. */
import { readFile, writeFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { axeViolations } from "./axe-run.ts";
import { buildPage, DEMO, fewSites, launch, OUT, start } from "./page-build.ts";
import { DESK, PHONE, type Visit, visit } from "./visit.ts";

const SITES = ["wren-1", "wren-2", "avocet-1"];
/** One that works at Wren 2 and one whose cord is rated below the breaker there. */
const UNITS = ["u-ibis", "u-finch"];
/** The machine may have other work. */
const LONG = 120_000;

/** Colours that are on their way from one scheme to the other have no contrast to judge. */
const STILL = { reducedMotion: "reduce" } as const;

let browser: Browser;
let service: Service;
let files: Readonly<Record<"fleet" | "trips" | "stock", string>>;

const camp = "quillfeather-flats";
const site = (id: string) => ({ site: { campground: camp, site: id }, among: [id] });
const TRIPS = [
  {
    id: "t-1",
    name: "Burnet party",
    party: { adults: 2, children: 1 },
    stops: [
      { arrive: "2031-05-02", leave: "2031-05-04", ...site("wren-2") },
      { name: "Shingle bank", arrive: "2031-05-04", leave: "2031-05-05", offGrid: true },
    ],
  },
  {
    id: "t-2",
    name: "Vetch party",
    party: { adults: 1 },
    stops: [{ arrive: "2031-05-03", leave: "2031-05-06", ...site("avocet-1") }],
  },
];
/** One rinse hose for two bookings that overlap. */
const STOCK = [
  {
    item: "extension",
    plug: "nema-tt-30",
    receptacle: "nema-tt-30",
    rating: 30,
    length: "25 ft",
    gauge: "10 AWG",
    count: 1,
  },
  { item: "rinse-hose", length: "25 ft", count: 1 },
];

async function write(name: string, value: unknown): Promise<string> {
  const path = `${OUT}/desk-${name}.json`;
  await writeFile(path, JSON.stringify(value));
  return path;
}

beforeAll(async () => {
  service = await start(await fewSites("desk-records", SITES), await buildPage());
  const { fleet } = JSON.parse(await readFile(`${DEMO}/fleet.json`, "utf8")) as { fleet: { id: string }[] };
  files = {
    fleet: await write("fleet", { fleet: fleet.filter(({ id }) => UNITS.includes(id)) }),
    trips: await write("trips", { note: "Bookings of this test, invented.", trips: TRIPS }),
    stock: await write("stock", { stock: STOCK }),
  };
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

const eventually = <Value>(read: () => Promise<Value> | Value) => expect.poll(read, { timeout: LONG });

/** Puts the three files in the place of the demo's and waits for the matrix. */
async function atDesk(one: Visit): Promise<void> {
  await one.open("#/desk");
  await one.page.locator("[data-part=files] summary").click();
  for (const part of ["fleet", "trips", "stock"] as const)
    await one.page.locator(`#desk-file-${part}`).setInputFiles(files[part]);
  await one.page.locator(".desk[data-state=done]").waitFor({ timeout: LONG });
}

const cell = (one: Visit, trip: string, unit: string) =>
  one.page.locator(`.matrix tr[data-trip=${trip}] td[data-unit=${unit}]`);

/** No violation of any rule in light and in dark. */
async function clean(one: Visit, name: string): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await one.page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    expect([name, colorScheme, await axeViolations(one.page)]).toEqual([name, colorScheme, []]);
    await one.picture(`${name}-${colorScheme}`);
  }
  await one.page.emulateMedia({ colorScheme: "light" });
}

const widthOf = (one: Visit) => one.page.evaluate(() => document.documentElement.scrollWidth);

/** Pages of a PDF, counted in its page tree. */
const pagesOf = (pdf: Buffer): number => pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;

test("the demo's own long work is cancelled, by keyboard", { timeout: LONG }, async () => {
  const whole = await start(DEMO, await buildPage());
  const { page, open, end } = await visit(browser, whole.address, DESK, STILL);
  try {
    await open("#/desk");
    await page.locator(".desk[data-state=running]").waitFor({ timeout: LONG });
    await page.getByRole("button", { name: "Cancel" }).focus();
    await page.keyboard.press("Enter");
    await page.locator(".desk[data-state=stopped]").waitFor();
  } finally {
    await end();
    await whole.stop();
  }
});

test("a clerk's morning: files in, units for bookings, a pick list ticked off, papers printed, all without signal", {
  timeout: LONG * 2,
}, async () => {
  const one = await visit(browser, service.address, DESK, STILL);
  const { page } = one;
  try {
    await one.open("#/desk");
    expect(await page.locator("[data-part=invented]").textContent()).toMatch(/invented/);
    await atDesk(one);
    expect(await page.locator("[data-part=invented]").count()).toBe(0);

    expect(await cell(one, "t-1", "u-ibis").getAttribute("data-works")).toBe("yes");
    expect(await cell(one, "t-1", "u-ibis").textContent()).toMatch(/works.*place 1, goes/);
    expect(await cell(one, "t-1", "u-finch").getAttribute("data-works")).toBe("no");
    await cell(one, "t-1", "u-finch").getByRole("button").focus();
    await page.keyboard.press("Enter");
    await eventually(() => page.locator("[data-part=matrix-why]").textContent()).toMatch(
      /Finch.*Burnet party.*rated 15 A.*30 A breaker/s,
    );
    // Ibis is out with the first booking until a day after its return.
    expect(await cell(one, "t-2", "u-finch").textContent()).toMatch(/goes/);

    const departure = page.locator("[data-trip=t-1].departure");
    await departure.waitFor();
    const holds = (box: string) => departure.locator(`[data-box=${box}] li b`).allTextContents();
    const boxes = await departure
      .locator("[data-box]")
      .evaluateAll((all) => all.map((box) => box.getAttribute("data-box")));
    expect(new Set(boxes).size).toBe(boxes.length);
    const drinking = await holds("drinking-water");
    const sewage = await holds("sewage");
    expect(sewage.join()).toMatch(/Gloves/);
    expect(drinking.join()).toMatch(/Drinking-water hose/);
    expect(drinking.join()).not.toMatch(/Gloves|Drain|Rinse/);
    const hose = departure.getByRole("checkbox", { name: /^Extension cord/ });
    await hose.focus();
    await page.keyboard.press("Space");
    expect(await departure.locator("[data-part=load-count]").textContent()).toMatch(/^1 of \d+ ticked$/);
    expect(await departure.locator("[data-box] li").first().textContent()).toMatch(/Without it: /);

    expect(await page.locator("[data-part=stock] [data-short]").allTextContents()).toEqual([
      expect.stringMatching(
        /1 missing: Rinse hose.*Sat, May 3 to Mon, May 5.*2 wanted, the depot has 1.*Burnet party, Vetch party/s,
      ),
    ]);
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: /Save as a file.*Bookings/ }).click();
    const path = await (await saved).path();
    expect(JSON.parse(await readFile(path, "utf8"))).toEqual(JSON.parse(await readFile(files.trips, "utf8")));
    await clean(one, "desk");
    await page.setViewportSize(PHONE.viewport);
    await clean(one, "desk-narrow");
    expect(await widthOf(one)).toBeLessThanOrEqual(PHONE.viewport.width);
    await page.setViewportSize(DESK.viewport);

    // From here on nobody answers: campground, files and core are on the device.
    await one.page.context().setOffline(true);
    await page.goto(`${service.address}/#/papers/t-1`);
    await page.locator(".papers[data-ready=true]").waitFor({ timeout: LONG });
    expect(await page.locator("[data-part=card-sheet]").count()).toBe(1);
    expect(await page.locator("[data-part=load-sheet]").textContent()).toMatch(
      /Pick list: Ibis.*no site to hook up at/s,
    );
    const pdf = await page.pdf({ format: "Letter" });
    await writeFile(`${OUT}/desk-papers.pdf`, pdf);
    expect(pagesOf(pdf)).toBe(2);
    await page.emulateMedia({ media: "print" });
    for (const part of [".frame-head", ".papers > .departure-head", ".papers-said"])
      expect(await page.locator(part).isVisible()).toBe(false);
    await page.emulateMedia({ media: null });
    await clean(one, "papers");

    await page.goto(`${service.address}/#/desk`);
    await page.locator(".desk[data-state=done]").waitFor();
    expect(await departure.locator("[data-part=load-count]").textContent()).toMatch(/^1 of \d+ ticked$/);
    // The trip's own list of the same unit has the same tick.
    await page.goto(`${service.address}/#/trip/t-1`);
    await page.locator(".trip[data-state=done]").waitFor();
    expect(await page.getByRole("checkbox", { name: /^Extension cord/ }).isChecked()).toBe(true);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});

test("a trip on a phone: faults at their fields, then stops, tanks, kit and a card", {
  timeout: LONG * 2,
}, async () => {
  const one = await visit(browser, service.address, PHONE, STILL);
  const { page } = one;
  try {
    await one.open("#/trip/mine");
    const form = page.locator("[data-part=trip-form]");
    const wrong = (id: string) => page.locator(`#${id}-wrong`);
    await form.locator("#stop-0-arrive").fill("2031-05-02");
    await form.locator("#stop-0-leave").fill("2031-05-04");
    await form.locator("#stop-1-arrive").fill("2031-05-03");
    await form.locator("#stop-1-leave").fill("2031-05-05");
    await form.locator("#party-adults").fill("-2");
    await form.locator("#party-children").focus();
    await eventually(() => wrong("stop-1-arrive").textContent()).toMatch(/overlaps the stop before.*2031-05-04/);
    expect(await wrong("party-adults").textContent()).toMatch(/at least 0/);
    expect(await form.locator("#stop-1-arrive").getAttribute("aria-invalid")).toBe("true");
    expect(await form.locator("#stop-1-arrive").getAttribute("aria-describedby")).toBe("stop-1-arrive-wrong");
    await clean(one, "trip-form");
    await form.locator("#stop-1-arrive").fill("2031-05-05");
    await eventually(() => wrong("stop-1-leave").count()).toBe(1);
    await form.locator("#stop-1-arrive").fill("2031-05-04");
    await form.locator("#party-adults").fill("3");
    await form.locator("#stop-0-kind").selectOption("site");
    await form.locator("#stop-0-site").selectOption("wren-2");
    await eventually(() => page.locator(".form-wrong").count()).toBe(0);
    await page.getByRole("button", { name: "Work it out" }).click();
    await page.locator(".trip[data-state=done]").waitFor({ timeout: LONG });

    const stop = page.locator("[data-stop='1']");
    expect(await stop.locator("h3").textContent()).toBe("1. Wren 2");
    expect(await stop.locator(".next-sites li").count()).toBe(2);
    expect(await page.locator("[data-stop='2']").textContent()).toMatch(/No site and no hookups/);
    const fresh = page.locator("[data-store=fresh]");
    expect(await fresh.getByRole("img").getAttribute("aria-label")).toMatch(/^Fresh water: \d+ gal.* at the start/);
    expect(await fresh.locator("[data-event=empty]").count()).toBeGreaterThan(0);
    await stop.locator(".running summary").click();
    expect(await stop.locator(".running").textContent()).toMatch(/Runs for hours: .*Trips the breaker:.*W/s);
    expect(await page.locator("[data-part=load] [data-where='to buy']").first().textContent()).toMatch(/Without it: /);
    await stop.locator(".card-fold summary").click();
    await stop.locator("[data-part=card-sheet] [data-step=power-off]").waitFor();
    await clean(one, "trip");
    expect(await widthOf(one)).toBeLessThanOrEqual(PHONE.viewport.width);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});

test("the way in stands with the site, its picture when it is asked for", { timeout: LONG }, async () => {
  const one = await visit(browser, service.address, DESK, STILL);
  try {
    await one.open("#/site/wren-2");
    await one.answered();
    const way = one.page.locator("[data-part=way-in]");
    await way.waitFor();
    const status = await way.getAttribute("data-status");
    expect(await way.locator(".way-in-answer b").textContent()).toBe(status);
    expect(await way.locator("svg[role=img]").count()).toBe(0);
    await way.locator("summary").focus();
    await one.page.keyboard.press("Enter");
    const picture = way.getByRole("img", { name: /^Way in and out: / });
    await picture.waitFor();
    expect(await picture.locator("[data-part=status-in]").textContent()).toMatch(/^In: /);
    expect(await picture.evaluate((svg) => svg.getBoundingClientRect().width)).toBeGreaterThan(280);
    expect(await axeViolations(one.page)).toEqual([]);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});
