/** The views of hosts in a real browser, against a real server with a ledger: gate, office, proposals, records. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axeViolations } from "./axe-run.ts";
import { CAMPGROUND, type HostServer, seed, startHost } from "./host-start.ts";
import { buildPage, launch } from "./page-build.ts";
import { DESK, PHONE, type Visit, visit } from "./visit.ts";

const LONG = 60_000;

let browser: Browser;
let server: HostServer;

beforeAll(async () => {
  server = await startHost(await buildPage());
  await seed(server);
  browser = await launch();
}, LONG);

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** Refusals that a test is about are told in the console too. */
const complaintsOf = (one: Visit): string[] => one.complaints.filter((line) => !/Failed to load resource/.test(line));

async function come(view: string, width = DESK, token: string | null = null): Promise<Visit> {
  const one = await visit(browser, server.address, width);
  const own = token ?? (await server.token());
  await one.page.addInitScript((text) => sessionStorage.setItem("padwright-host-token", text), own);
  await one.open(`#/host/${view}`);
  await one.page.locator(".host[data-ready=true]").waitFor();
  return one;
}

async function axeInBoth(page: Page): Promise<string[]> {
  // Colours that are on their way from one scheme to the other are nobody's to read.
  await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
  const light = await axeViolations(page);
  await page.emulateMedia({ colorScheme: "dark", reducedMotion: "reduce" });
  const dark = await axeViolations(page);
  await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
  return [...light, ...dark];
}

/** The large receptacle of Curlew 4 fails, and the guests of otter-1 stay a night longer. */
async function changeOutletAndDeparture(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Failed outlet" }).click();
  await page.getByRole("combobox", { name: "Site", exact: true }).selectOption("curlew-4");
  await page.getByLabel("What failed").selectOption("curlew-4:post/14-50");
  await page.getByRole("button", { name: "Show the options" }).click();
  await page.locator("[data-part=options] button").first().click();
  await page.locator("[data-step=done]").waitFor();
  const { closures } = (await (await server.send("GET", "/closures")).json()) as { closures: object[] };
  expect(closures).toMatchObject([{ outlet: "curlew-4:post/14-50", site: null }]);
  await page.getByRole("button", { name: "Late departure" }).click();
  await page.getByLabel("Who stays longer").selectOption("otter-1");
  await page.getByRole("button", { name: "Show the options" }).click();
  await page.locator("[data-part=options] button").first().click();
  await page.locator("[data-step=done]").waitFor();
  expect((await server.stay("otter-1")).departure).toBe(server.day(4));
}

const siteOf = async (id: string) => (await server.stay(id)).place?.site ?? null;
const bar = (page: Page, id: string) => page.locator(`.bar[data-stay=${id}]`);
const rowOf = (page: Page, site: string) => page.locator(`[data-site-row="${site}"]`);

async function answerFour(page: Page): Promise<void> {
  for (const name of ["20 to 25", "30 A", "Street side", "Car behind"]) {
    await page.getByRole("radio", { name, exact: true }).check({ force: true });
  }
}

describe("the gate on a phone", () => {
  test(
    "refuses a token that is over or of another campground, gives a site, and goes on without signal",
    async () => {
      const one = await visit(browser, server.address, PHONE);
      const { page } = one;
      try {
        await one.open("#/host/gate");
        const enter = async (token: string) => {
          await page.getByLabel("Token of this desk").fill(token);
          await page.getByRole("button", { name: "Sign in" }).click();
        };
        await page.getByRole("button", { name: "Sign in" }).waitFor();
        expect(await axeInBoth(page)).toEqual([]);
        await enter(await server.token(undefined, "2020-02-03T04:05:06.000Z"));
        await page.getByRole("alert").getByText("it has expired, was revoked").waitFor();
        await enter(await server.token({ "another-place": ["read", "stays"] }));
        await page.getByRole("alert").getByText("for another campground").waitFor();
        await enter(await server.token());
        await page.locator(".host[data-ready=true]").waitFor();
        expect(page.url()).not.toMatch(/padwright_/);
        await one.picture("gate-asks");
        await answerFour(page);
        await page.locator("[data-done=true]").waitFor();
        expect(await page.locator(".gate-offers li").count()).toBe(3);
        // Nobody is sent to a site that somebody has, nor to one that nobody can say fits.
        const offered = await page
          .locator(".gate-offers li")
          .evaluateAll((all) => all.map((li) => li.getAttribute("data-site")));
        for (const taken of ["curlew-4", "curlew-21", "siskin-1", "field-5"]) expect(offered).not.toContain(taken);
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("gate-offers");
        await page.evaluate(async () => {
          await navigator.serviceWorker.ready;
        });
        await page.context().setOffline(true);
        await page.reload();
        await page.getByText("No signal: the list of").waitFor();
        // The list on the device holds no names.
        const kept = await page.evaluate((id) => localStorage.getItem(`padwright-book-${id}`), CAMPGROUND);
        expect(kept).toContain("otter-1");
        expect(kept).not.toContain("Ada");
        await answerFour(page);
        await page.locator("[data-done=true]").waitFor();
        const first = page.locator(".gate-first");
        const site = await first.getAttribute("data-site");
        await first.getByRole("button").click();
        await page.locator("[data-how=waits]").waitFor();
        await page.locator(".card-sheet").waitFor();
        await page.getByRole("button", { name: "Next rig" }).click();
        await answerFour(page);
        await page.locator("[data-done=true]").waitFor();
        expect(await page.locator(".gate-first").getAttribute("data-site")).not.toBe(site);
        await one.picture("gate-without-signal");
        await page.context().setOffline(false);
        await page.evaluate(() => dispatchEvent(new Event("online")));
        await page.getByRole("button", { name: "Enter them now" }).click();
        await expect.poll(() => page.locator("[data-part=waiting]").count()).toBe(0);
        const { stays } = (await (await server.send("GET", "/stays?limit=100")).json()) as {
          stays: { id: string; place: { site: string } | null }[];
        };
        expect(stays.filter(({ id }) => id.startsWith("gate-")).map(({ place }) => place?.site)).toEqual([site]);
        expect(complaintsOf(one)).toEqual([]);
      } finally {
        await one.end();
      }
    },
    LONG,
  );
});

describe("the office", () => {
  test(
    "moves a stay by drag and by keys, refuses what cannot be and says why",
    async () => {
      const one = await come("office");
      const { page } = one;
      const drag = async (id: string, site: string) => {
        const from = (await bar(page, id).boundingBox())!;
        const to = (await rowOf(page, site).boundingBox())!;
        await page.mouse.move(from.x + 20, from.y + from.height / 2);
        await page.mouse.down();
        await page.mouse.move(from.x + 40, from.y + from.height / 2 + 20);
        await page.mouse.move(to.x + 300, to.y + to.height / 2, { steps: 4 });
        await page.mouse.up();
      };
      try {
        await bar(page, "otter-1").waitFor();
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("office");
        await drag("otter-1", "curlew-21");
        await page.locator("[data-part=refused]").getByText("Bo Vole (invented) (vole-2) has it").waitFor();
        expect(await siteOf("otter-1")).toBe("curlew-4");
        await one.picture("office-refused");
        expect(await axeViolations(page)).toEqual([]);
        await page.keyboard.press("Escape");
        await drag("otter-1", "plover-1");
        await expect.poll(() => siteOf("otter-1"), { timeout: LONG }).toBe("plover-1");
        await rowOf(page, "plover-1").locator("[data-stay=otter-1]").waitFor();
        // By keys: picked up, carried up one row, put down.
        await bar(page, "hare-4").focus();
        await page.keyboard.press("Enter");
        await page.keyboard.press("ArrowDown");
        await page.locator(".carry-over").getByText("Siskin 2").waitFor();
        await page.keyboard.press("Escape");
        expect(await siteOf("hare-4")).toBe("siskin-1");
        await page.keyboard.press("Enter");
        await page.keyboard.press("ArrowDown");
        await page.keyboard.press("Enter");
        await expect.poll(() => siteOf("hare-4"), { timeout: LONG }).toBe("siskin-2");
        // What the fit does not know is refused until the host insists; a promise is refused outright.
        await bar(page, "hare-4").click();
        await rowOf(page, "field-5").locator(".board-pick").click();
        await page.keyboard.press("Enter");
        await page.locator("[data-part=refused]").getByText("Unknown").waitFor();
        await page.getByRole("button", { name: "Put it there all the same" }).click();
        await expect.poll(() => siteOf("hare-4")).toBe("field-5");
        await bar(page, "mink-5").click();
        await rowOf(page, "curlew-4").locator(".board-pick").click();
        await page.getByRole("button", { name: "Put it down here" }).click();
        await page.locator("[data-part=refused]").getByText("promised its site").waitFor();
        expect(await siteOf("mink-5")).toBe("avocet-6");
        await page.keyboard.press("Escape");
        expect(complaintsOf(one)).toEqual([]);
      } finally {
        await one.end();
      }
    },
    LONG,
  );

  test(
    "proposes a plan, accepts none that is stale, places a walk-in, tells arrivals",
    async () => {
      const one = await come("office");
      const { page } = one;
      const propose = async () => {
        await page.getByRole("button", { name: "Propose", exact: true }).click();
        await page.locator("[data-part=plan]").waitFor({ timeout: LONG });
      };
      try {
        await page.getByRole("button", { name: /Why has newt-7/ }).click();
        await page.locator("[data-part=why]").waitFor({ timeout: LONG });
        await page.getByRole("button", { name: "Propose a plan" }).click();
        await propose();
        const status = await page.locator("[data-part=plan]").getAttribute("data-status");
        const words = { optimal: "Optimal", feasible: "Feasible", "bound-unknown": "Bound unknown" }[status ?? ""];
        expect(await page.locator("[data-part=plan] strong").first().textContent()).toMatch(new RegExp(`^${words}: `));
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("office-plan");
        // Somebody else changes the plan before it is accepted.
        await server.send("POST", "/assignment/lock", { stays: ["vole-2"] });
        await page.getByRole("button", { name: "Accept this plan" }).click();
        await page.getByRole("alert").getByText("Somebody has changed the plan").waitFor();
        expect(await siteOf("shrew-6")).toBeNull();
        await propose();
        await page.getByRole("button", { name: "Accept this plan" }).click();
        await page.locator("[data-step=accepted]").waitFor();
        expect(await siteOf("shrew-6")).not.toBeNull();
        await page.getByRole("button", { name: "Change", exact: true }).click();
        await answerFour(page);
        await page.getByRole("button", { name: "Show the options" }).click();
        await page.locator("[data-part=options]").waitFor({ timeout: LONG });
        expect(await axeViolations(page)).toEqual([]);
        await one.picture("office-walk-in");
        await page.getByRole("button", { name: "Take it" }).first().click();
        await page.locator("[data-step=done]").waitFor();
        const { stays } = (await (await server.send("GET", "/stays?limit=100")).json()) as {
          stays: { id: string; place: object | null }[];
        };
        expect(stays.filter(({ id, place }) => id.startsWith("walk-in-") && place !== null)).toHaveLength(1);
        await changeOutletAndDeparture(page);
        await page.getByRole("button", { name: "Arrivals" }).click();
        const arrival = page.locator(".arrival[data-stay=otter-1][data-done=true]");
        await arrival.waitFor();
        expect(await arrival.textContent()).toContain("Ada Otter (invented)");
        await arrival.getByRole("link", { name: "Card" }).click();
        await page.locator(".card-sheet").waitFor();
        expect(page.url()).toMatch(/#\/host\/card~otter-1$/);
        expect(complaintsOf(one)).toEqual([]);
      } finally {
        await one.end();
      }
    },
    LONG,
  );
});

describe("office and records on a phone", () => {
  test(
    "are worked by the thumb and read by everybody",
    async () => {
      const one = await come("office", PHONE);
      const { page } = one;
      try {
        await bar(page, "stoat-3").tap();
        await rowOf(page, "wren-1").locator(".board-pick").tap();
        await page.locator(".carry-over").getByText("Wren 1").waitFor();
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("office");
        await page.getByRole("button", { name: "Leave it" }).tap();
        expect(await siteOf("stoat-3")).toBe("siskin-1");
        await page.getByRole("button", { name: "Arrivals" }).tap();
        await page.locator(".arrival[data-done=true]").first().waitFor();
        expect(await axeViolations(page)).toEqual([]);
        await page.emulateMedia({ media: "print" });
        expect(await page.locator(".arrival").first().isVisible()).toBe(true);
        expect(await page.locator(".office-tools").isVisible()).toBe(false);
        await page.emulateMedia({ media: "screen" });
        await page.getByRole("link", { name: "Records" }).tap();
        await page.getByRole("combobox", { name: "Site", exact: true }).selectOption("siskin-2");
        await page.locator(".record-site[data-site=siskin-2] .pad-map").waitFor();
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("records");
        expect(complaintsOf(one)).toEqual([]);
      } finally {
        await one.end();
      }
    },
    LONG,
  );
});

describe("the records", () => {
  test(
    "of a site are moved by keys, written back, and settled when somebody else was first",
    async () => {
      const one = await come("records~siskin-1");
      const { page } = one;
      const read = async () => (await (await server.send("GET", "/sites/siskin-1")).json()) as Site;
      try {
        await page.locator("[data-hookup=tap]").focus();
        for (let press = 0; press < 5; press += 1) await page.keyboard.press("ArrowRight");
        await page.locator("[data-changes='3']").waitFor();
        await page.getByRole("button", { name: "See what it changes" }).click();
        await page.locator("[data-written=false]").waitFor();
        const before = await server.send("GET", "/sites/siskin-1");
        const tag = before.headers.get("etag")?.replace("W/", "") ?? "";
        const { properties } = (await before.json()) as Site;
        const hookups = properties.hookups.map((each) =>
          each.id === "tap" ? { ...each, at: { ...each.at, along: 4.1 } } : each,
        );
        expect(
          (await server.send("PATCH", "/sites/siskin-1", { properties: { hookups, shade: "oak" } }, tag)).status,
        ).toBe(200);
        await page.getByRole("button", { name: "Write the record" }).click();
        const member = page.locator("[data-member='hookups, tap, at, along']");
        await member.waitFor();
        expect(await member.textContent()).toMatch(/13 ft 5 in.*21 ft/);
        expect(await axeInBoth(page)).toEqual([]);
        await one.picture("record-conflict");
        expect((await read()).properties.hookups.find(({ id }) => id === "tap")?.at.along).toBe(4.1);
        await member.getByRole("radio").last().check();
        await page.getByRole("button", { name: "Write what is chosen" }).click();
        await page.locator("[data-written=true]").waitFor();
        const after = (await read()).properties;
        expect(after.shade).toBe("oak");
        expect(after.hookups.find(({ id }) => id === "tap")).toMatchObject({ at: { along: 6.4 }, basis: "mapped" });
        expect(complaintsOf(one)).toEqual([]);
      } finally {
        await one.end();
      }
    },
    LONG,
  );
});

interface Site {
  readonly properties: {
    readonly shade?: string;
    readonly hookups: readonly { readonly id: string; readonly at: { readonly along: number } }[];
  };
}
