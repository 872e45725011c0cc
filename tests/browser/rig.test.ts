/** The rig in a real browser: four numbers, the drawing by pointer and by keys, errors, files, links, the device. */
import { readFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { axeViolations } from "./axe-run.ts";
import { buildPage, DEMO, fewSites, launch, start } from "./page-build.ts";
import { DESK, type Visit, visit, WIDTHS } from "./visit.ts";

let browser: Browser;
let service: Service;

beforeAll(async () => {
  service = await start(await fewSites("rig-records", ["curlew-12", "field-5"]), await buildPage());
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function come(width = DESK, options = {}): Promise<Visit> {
  const one = await visit(browser, service.address, width, options);
  await one.open("#/rig");
  await one.page.locator(".rig-drawing svg").waitFor();
  return one;
}

const kept = (one: Visit) =>
  one.page.evaluate(() => JSON.parse(localStorage.getItem("padwright") ?? "{}").rig as Record<string, unknown>);
const connection = async (one: Visit, service: string) =>
  ((await kept(one))["connections"] as Record<string, unknown>[]).find((entry) => entry["service"] === service);
const handle = (one: Visit, name: string) => one.page.locator(`[data-handle="${name}"]`);

async function during(made: Promise<Visit>, walk: (one: Visit) => Promise<void>): Promise<void> {
  const one = await made;
  try {
    await walk(one);
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
}

describe.each(WIDTHS)("at the width of a $name", (width) => {
  test("a new length is kept as typed and survives a new visit", () =>
    during(come(width), async (one) => {
      const length = one.page.locator("#rig-length");
      await length.fill("26");
      await length.blur();
      await expect.poll(() => length.inputValue()).toBe("26 ft");
      await expect.poll(async () => (await kept(one))["length"]).toBe("26 ft");
      await length.fill("7.9 m");
      await expect.poll(async () => (await kept(one))["length"]).toBe("7.9 m");
      await one.page.reload();
      await expect.poll(() => one.page.locator("#rig-length").inputValue()).toBe("7.9 m");
      await one.picture("rig");
    }));

  test("an error stands beside its field, is read with it, and the kept rig stays good", () =>
    during(come(width), async (one) => {
      const height = one.page.locator("#rig-height");
      await height.fill("tall");
      await height.blur();
      await one.page.locator(".rig-errors").waitFor();
      expect(await height.getAttribute("aria-invalid")).toBe("true");
      const ids = ((await height.getAttribute("aria-describedby")) ?? "").split(" ");
      const words = await Promise.all(ids.map((id) => one.page.locator(`[id="${id}"]`).textContent()));
      expect(words.join(" ")).toContain("cannot be read as a length");
      expect((await kept(one))["height"]).toBe("11 ft 2 in");
      await one.picture("rig-error");
      await height.fill("3.4 m");
      await expect.poll(() => one.page.locator(".rig-errors").count()).toBe(0);
      await one.page.locator("#rig-connections-0-line-length").first().fill("25 in");
      await one.page
        .getByText(/Did you mean 25 ft/)
        .first()
        .waitFor();
    }));

  test("a connection is dragged along its wall and its place is written as one by eye", () =>
    during(come(width), async (one) => {
      const mark = handle(one, "top-city-water").locator(".rig-hit");
      await mark.scrollIntoViewIfNeeded();
      const box = (await mark.boundingBox())!;
      expect(box.width).toBeGreaterThan(32);
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await one.page.mouse.move(x, y);
      await one.page.mouse.down();
      await one.page.mouse.move(x + 20, y, { steps: 4 });
      await one.page.mouse.move(x + 60, y, { steps: 4 });
      await one.page.mouse.up();
      // The first steps of the pointer move it by some inches only.
      const feet = async () => Number.parseInt(String((await connection(one, "water"))?.["fromRear"]), 10);
      await expect.poll(feet).toBeGreaterThan(8);
      expect(await connection(one, "water")).toMatchObject({ side: "left", accuracy: "6 in", height: "2 ft 5 in" });
      await one.picture("rig-dragged");
    }));
});

test("the arrow keys move a connection along its wall and up it, by an inch and by six", () =>
  during(come(), async (one) => {
    await handle(one, "top-inlet").focus();
    await one.page.keyboard.press("ArrowRight");
    await expect.poll(async () => (await connection(one, "power"))?.["fromRear"]).toBe("5 ft 5 in");
    await one.page.keyboard.press("Shift+ArrowLeft");
    await expect.poll(async () => (await connection(one, "power"))?.["fromRear"]).toBe("4 ft 11 in");
    await handle(one, "side-inlet").focus();
    await one.page.keyboard.press("ArrowUp");
    await expect.poll(async () => (await connection(one, "power"))?.["height"]).toBe("2 ft 8 in");
    expect(await handle(one, "side-inlet").getAttribute("aria-valuetext")).toContain("2 ft 8 in up");
  }));

test("a typed place takes the mark of the eye away", () =>
  during(come(), async (one) => {
    await handle(one, "top-inlet").focus();
    await one.page.keyboard.press("ArrowRight");
    await expect.poll(async () => (await connection(one, "power"))?.["accuracy"]).toBe("6 in");
    await one.page.locator("details[data-list=connections] > summary").click();
    const field = one.page.getByLabel("From the rear").first();
    await field.fill("5 ft 6 in");
    await field.blur();
    await expect.poll(async () => (await connection(one, "power"))?.["fromRear"]).toBe("5 ft 6 in");
    expect(await connection(one, "power")).not.toHaveProperty("accuracy");
  }));

test("a rig goes out as a file and comes back, and a broken file is refused in words", () =>
  during(come(), async (one) => {
    const saving = one.page.waitForEvent("download");
    await one.page.getByRole("button", { name: "Save as a file" }).click();
    const saved = await (await saving).path();
    expect(JSON.parse(await readFile(saved, "utf8"))).toEqual(await kept(one));
    const input = one.page.locator("input[type=file]");
    await input.setInputFiles(`${DEMO}/rigs/long-trailer.json`);
    await one.page.getByRole("button", { name: "Take it", exact: true }).click();
    await expect.poll(async () => (await kept(one))["class"]).toBe("travel-trailer");
    await input.setInputFiles({ name: "rig.json", mimeType: "application/json", buffer: Buffer.from("[1, 2") });
    await one.page.getByText("This is not JSON").waitFor();
    expect((await kept(one))["class"]).toBe("travel-trailer");
  }));

test("a link carries the rig to another device, which asks before it takes it, and trusts no link", () =>
  during(come(), async (one) => {
    await one.page.getByRole("button", { name: "Share as a link" }).click();
    const link = await one.page.getByLabel(/Link to this rig/).inputValue();
    const mine = await kept(one);
    const other = await visit(browser, service.address, DESK);
    try {
      await other.open("#/rig");
      await other.page.getByLabel("Example", { exact: true }).selectOption({ index: 4 });
      await other.page.getByRole("button", { name: "Take it", exact: true }).click();
      await expect.poll(async () => (await kept(other))["class"]).not.toBe(mine["class"]);
      const before = await kept(other);
      await other.page.goto(link);
      await other.page.getByText("from a link").waitFor();
      expect(await kept(other)).toEqual(before);
      await other.page.getByRole("button", { name: "Take it", exact: true }).click();
      await expect.poll(() => kept(other)).toEqual(mine);
      expect(new URL(other.page.url()).hash).toBe("#/rig");
      await other.page.goto(`${link.slice(0, -40)}`);
      await other.page.getByText(/damaged/).waitFor();
      expect(await kept(other)).toEqual(mine);
      expect(other.complaints).toEqual([]);
    } finally {
      await other.end();
    }
  }));

test.each(WIDTHS)("axe finds nothing on a $name, light or dark, with everything unfolded", async (width) => {
  for (const colorScheme of ["light", "dark"] as const) {
    const one = await come(width, { colorScheme });
    try {
      await one.picture(`rig-${colorScheme}`);
      await one.page.locator("details").evaluateAll((all) => {
        for (const fold of all) fold.setAttribute("open", "");
      });
      expect(await axeViolations(one.page)).toEqual([]);
    } finally {
      await one.end();
    }
  }
});

test("nothing is wider than the page at twice the size of text, nor on a narrow phone", async () => {
  const one = await visit(browser, service.address, {
    name: "small",
    viewport: { width: 320, height: 640 },
    narrow: true,
  });
  try {
    await one.open("#/rig");
    await one.page.locator(".rig-drawing svg").waitFor();
    expect(await one.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  } finally {
    await one.end();
  }
});
