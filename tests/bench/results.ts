/** Writes one section of tests/bench/RESULTS.md and leaves the others as they are. */
import { readFile, writeFile } from "node:fs/promises";

const FILE = new URL("RESULTS.md", import.meta.url);
const TITLE = "# Measured results\n\nWritten by the programs named in each section.\n";

export async function writeSection(heading: string, text: string): Promise<void> {
  const before = await readFile(FILE, "utf8").catch(() => TITLE);
  const sections = before.split(/^(?=## )/m);
  const section = `## ${heading}\n\n${text}\n`;
  const at = sections.findIndex((one) => one.startsWith(`## ${heading}\n`));
  if (at < 0) sections.push(`\n${section}`);
  else sections[at] = at === sections.length - 1 ? section : `${section}\n`;
  await writeFile(FILE, sections.join("").replace(/\n{3,}/g, "\n\n"));
}
