/** One visit to the page: a fresh device, its console and its requests watched. */
import { mkdir } from "node:fs/promises";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { OUT } from "./page-build.ts";

export interface Width {
  readonly name: string;
  readonly viewport: { readonly width: number; readonly height: number };
  readonly narrow: boolean;
}

export const WIDTHS: readonly Width[] = [
  { name: "desk", viewport: { width: 1280, height: 800 }, narrow: false },
  { name: "phone", viewport: { width: 390, height: 844 }, narrow: true },
];

export const [DESK, PHONE] = WIDTHS as [Width, Width];

/** Patience for what the core works out while the machine has other work. */
export const PATIENCE = 20_000;

export interface Visit {
  readonly page: Page;
  /** Requests to anywhere but the server, and whatever the console calls an error. Empty in a good visit. */
  readonly complaints: string[];
  readonly open: (hash: string) => Promise<void>;
  /** Waits until every site has its verdict. */
  readonly ranked: () => Promise<void>;
  /** Waits for the full answer of the site shown. */
  readonly answered: () => Promise<void>;
  readonly picture: (name: string) => Promise<void>;
  readonly end: () => Promise<void>;
}

export async function visit(
  browser: Browser,
  address: string,
  width: Width,
  options: BrowserContextOptions = {},
): Promise<Visit> {
  const context = await browser.newContext({
    viewport: { ...width.viewport },
    hasTouch: width.narrow,
    locale: "en-US",
    ...options,
  });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("pageerror", (fault) => complaints.push(`broke: ${fault.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(`console: ${message.text()}`);
  });
  context.on("request", (request) => {
    if (!request.url().startsWith(`${address}/`)) complaints.push(`asked elsewhere: ${request.url()}`);
  });
  return {
    page,
    complaints,
    open: async (hash) => {
      await page.goto(`${address}/${hash}`);
      await page.locator("h1").waitFor();
    },
    ranked: async () => {
      await page.locator(".site-item").first().waitFor();
      await page.waitForFunction(
        () =>
          document.querySelector(".site-item") !== null && document.querySelector(".site-item .mark-waiting") === null,
      );
    },
    answered: async () => {
      await page.locator(".verdict").waitFor();
      await page.waitForFunction(() => document.querySelector("[data-part=partial]") === null);
      await page.locator(".plan-drawing svg").waitFor();
    },
    picture: async (name) => {
      await mkdir(OUT, { recursive: true });
      await page.screenshot({ path: `${OUT}/${name}-${width.name}.png` });
    },
    end: () => context.close(),
  };
}
