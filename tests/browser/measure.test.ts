/** The walk with the tape in a real browser: readings, questions, contradictions, the record, without signal. */
import { readFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Service } from "../../src/node/serve.ts";
import { axeViolations } from "./axe-run.ts";
import { buildPage, fewSites, launch, start } from "./page-build.ts";
import { DESK, PHONE, type Visit, visit, WIDTHS } from "./visit.ts";

const SITE = "curlew-31";
/** Invented places, feet: a pad of 45 by 20 and the pedestal beside it. */
const TRUE: Readonly<Record<string, readonly [number, number]>> = {
  "rear-left": [0, 10],
  "rear-right": [0, -10],
  "exit-left": [45, 10],
  "exit-right": [45, -10],
  power: [12, 14],
};

let browser: Browser;
let service: Service;

beforeAll(async () => {
  service = await start(await fewSites("measure-records", [SITE, "field-5"]), await buildPage());
  browser = await launch();
});

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function come(width = PHONE, options = {}): Promise<Visit> {
  const one = await visit(browser, service.address, width, options);
  await one.open(`#/measure/${SITE}`);
  await one.page.locator(".reading").waitFor();
  return one;
}

async function tape(one: Visit, from: string, to: string, error = 0): Promise<void> {
  const [a, b] = [TRUE[from]!, TRUE[to]!];
  const inches = Math.round((Math.hypot(a[0] - b[0], a[1] - b[1]) + error) * 12);
  await one.page.getByLabel("From", { exact: true }).selectOption(from);
  await one.page.getByLabel("To", { exact: true }).selectOption(to);
  const boxes = one.page.locator(".length input");
  await boxes.nth(0).fill(String(Math.floor(inches / 12)));
  await boxes.nth(1).fill(String(inches % 12));
  await one.page.keyboard.press("Enter");
  await expect.poll(() => boxes.nth(0).inputValue()).toBe("");
}

const placed = (one: Visit) => one.page.locator("[data-mark=power] [data-part=placed]");

describe.each(WIDTHS)("at the width of a $name", (width) => {
  test("the sketch grows, says what is missing, asks on which side, and fixes the pedestal", async () => {
    const one = await come(width);
    try {
      const row = one.page.locator("[data-mark=power]");
      await row.getByText("Two distances, from two corners.").waitFor();
      await one.picture("measure-begin");
      await tape(one, "rear-left", "rear-right");
      await tape(one, "rear-left", "exit-left");
      await tape(one, "power", "rear-left");
      await row.getByText("One more distance").waitFor();
      await tape(one, "power", "exit-left");
      await one.page.getByText("Where is the pedestal?").waitFor();
      await one.picture("measure-asks");
      await one.page.getByRole("button", { name: /Further from the pad's middle/ }).click();
      await expect
        .poll(() => placed(one).textContent())
        .toMatch(/1[12] ft( \d+ in)? from the rear edge, 1[34] ft( \d+ in)? left/);
      await tape(one, "power", "rear-right");
      await one.picture("measure-fixed");
      expect(one.complaints).toEqual([]);
    } finally {
      await one.end();
    }
  });
});

test("a wrong tape is named with its residual, and taking it back ends the complaint", async () => {
  const one = await come();
  try {
    for (const [from, to] of [
      ["rear-left", "rear-right"],
      ["rear-left", "exit-left"],
      ["rear-right", "exit-right"],
      ["rear-left", "exit-right"],
      ["power", "rear-left"],
      ["power", "rear-right"],
      ["power", "exit-left"],
    ] as const) {
      await tape(one, from, to);
    }
    expect(await one.page.locator("[data-part=contradiction]").count()).toBe(0);
    await tape(one, "power", "exit-right", 2.5);
    await one.page.locator("[data-part=contradiction]").first().waitFor();
    expect(await one.page.locator("[data-part=contradiction]").first().textContent()).toMatch(
      /from the pedestal to the exit right corner.*longer than the others allow/,
    );
    await one.picture("measure-wrong");
    await one.page.getByRole("button", { name: "Take back pedestal to exit right corner" }).click();
    await expect.poll(() => one.page.locator("[data-part=contradiction]").count()).toBe(0);
  } finally {
    await one.end();
  }
});

test("the walk survives a new visit, becomes a record, and its places are used and given back", async () => {
  const one = await come(DESK);
  try {
    for (const [from, to] of [
      ["rear-left", "rear-right"],
      ["rear-left", "exit-left"],
      ["power", "rear-left"],
      ["power", "rear-right"],
      ["power", "exit-left"],
    ] as const)
      await tape(one, from, to);
    await one.page.reload();
    await placed(one).waitFor();
    const saving = one.page.waitForEvent("download");
    await one.page.getByRole("button", { name: "Download the record" }).click();
    const record = JSON.parse(await readFile(await (await saving).path(), "utf8")) as {
      id: string;
      properties: {
        hookups: { id: string; basis: string; accuracy: number; at: { left: number } }[];
        measurements: unknown[];
      };
    };
    expect(record.id).toBe(SITE);
    expect(record.properties.hookups[0]).toMatchObject({ id: "power", basis: "measured" });
    expect(record.properties.hookups[0]!.at.left).toBeCloseTo(14 * 0.3048, 1);
    expect(record.properties.measurements.length).toBe(5);

    const verdict = async () => {
      await one.open(`#/site/${SITE}`);
      await one.answered();
      return one.page.locator(".verdict").getAttribute("data-verdict");
    };
    const before = await verdict();
    expect(before).toBe("tight");
    await one.open(`#/measure/${SITE}`);
    await one.page.getByRole("button", { name: "Use in this page" }).click();
    await one.page.getByText("are used in this page's answers").waitFor();
    // The pedestal now stands on the rig's own side: its cord reaches.
    expect(await verdict()).not.toBe("tight");
    await one.page.reload();
    expect(await verdict()).not.toBe("tight");
    await one.open(`#/measure/${SITE}`);
    await one.page.getByRole("button", { name: "go back to the recorded ones" }).click();
    await one.page.getByText("recorded places are used again").waitFor();
    expect(await verdict()).toBe("tight");
    expect(one.complaints).toEqual([]);
  } finally {
    await one.end();
  }
});

test("offsets from the pad's edges place a mark, in metres as well", async () => {
  const one = await come();
  try {
    await one.page.getByRole("radio", { name: "m", exact: true }).check({ force: true });
    await one.page.getByRole("button", { name: "From the pad's edges" }).click();
    await one.page.getByLabel("Mark", { exact: true }).selectOption("power");
    const boxes = one.page.locator(".length input");
    await boxes.nth(0).fill("3,6");
    await boxes.nth(1).fill("1.2");
    await one.page.getByLabel("Sideways is").selectOption("middle-right");
    await one.page.getByRole("button", { name: "Place this mark" }).click();
    await expect
      .poll(() => placed(one).textContent())
      .toContain("3.60 m from the rear edge, 1.20 m right of the middle");
  } finally {
    await one.end();
  }
});

test("without signal the walk goes on, from a cold start", async () => {
  const one = await come();
  try {
    await one.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await one.page.reload();
    await one.page.locator(".reading").waitFor();
    await one.page.context().setOffline(true);
    await one.page.reload();
    await one.page.locator(".reading").waitFor();
    await tape(one, "rear-left", "rear-right");
    await tape(one, "rear-left", "exit-left");
    await expect.poll(() => one.page.locator("[data-part=sizes]").textContent()).toContain("length 45 ft; width 20 ft");
  } finally {
    await one.end();
  }
});

test("everything is done with the keyboard, and a thumb finds large targets", async () => {
  const one = await come();
  try {
    const small = await one.page
      .locator(".measure button, .measure select, .measure input[type=text]")
      .evaluateAll((all) =>
        all
          .filter((element) => element.getBoundingClientRect().height < 44)
          .map((element) => element.outerHTML.slice(0, 80)),
      );
    expect(small).toEqual([]);
    await one.page.locator(".length input").first().focus();
    await one.page.keyboard.type("20");
    await one.page.keyboard.press("Tab");
    await one.page.keyboard.type("0");
    await one.page.keyboard.press("Enter");
    await expect.poll(() => one.page.locator(".mark-list").last().textContent()).toContain("20 ft 0 in");
    await one.page.keyboard.type("45");
    await one.page.keyboard.press("Enter");
    await expect.poll(() => one.page.locator("[data-part=sizes]").textContent()).toContain("length 45 ft; width 20 ft");
  } finally {
    await one.end();
  }
});

test.each(WIDTHS)("axe finds nothing on a $name, light or dark", async (width) => {
  for (const colorScheme of ["light", "dark"] as const) {
    const one = await come(width, { colorScheme });
    try {
      await tape(one, "rear-left", "rear-right");
      await tape(one, "rear-left", "exit-left");
      await tape(one, "power", "rear-left");
      await tape(one, "power", "exit-left");
      await one.page.getByText("Where is the pedestal?").waitFor();
      await one.picture(`measure-${colorScheme}`);
      expect(await axeViolations(one.page)).toEqual([]);
    } finally {
      await one.end();
    }
  }
});
