/** axe-core on a page that stands open. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
  readonly passes: readonly unknown[];
}

const SHOWN = 160;

/** Each violation in one line; throws when axe looked at next to nothing. */
export async function axeViolations(page: Page): Promise<string[]> {
  await page.evaluate(await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
  const result = await page.evaluate(() => (globalThis as unknown as { axe: { run(): Promise<AxeResult> } }).axe.run());
  if (result.passes.length < 10) throw new Error("axe found hardly anything to look at.");
  return result.violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, SHOWN)).join(" | ")}`,
  );
}
