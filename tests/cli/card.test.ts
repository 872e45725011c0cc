/** padwright card as a process: text, JSON, page and drawing in a language, and what it refuses. */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cardSchema } from "../../src/http/schemas/trip-card.ts";
import { type BuiltCommand, buildCommand } from "./run.ts";

const DEMO = ["--rig", "data/demo/rigs/rental-coach.json", "--campground", "data/demo/campground.geojson"];
const SITE = ["--site", "curlew-12"];

let command: BuiltCommand;
let folder: string;
beforeAll(async () => {
  [command, folder] = await Promise.all([buildCommand(), mkdtemp(`${tmpdir()}/padwright-card-`)]);
});
afterAll(async () => {
  await Promise.all([command.remove(), rm(folder, { recursive: true })]);
});

const card = (...flags: string[]) => command.run(["card", ...DEMO, ...flags]);

describe("padwright card", () => {
  it("tells arrival and departure in order, within the width", async () => {
    const { code, out } = await card(...SITE, "--units", "us");
    expect(code).toBe(0);
    expect(out).toMatch(/Power in exactly this order/);
    const flat = out.replace(/\s+/g, " ");
    const at = (words: string) => flat.indexOf(words);
    const order = [
      "switch off the breaker",
      "breaker on to read",
      "loads off",
      "fully home",
      "open loops",
      "Breaker on,",
    ];
    const places = order.map(at);
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(at("before the engine starts")).toBeGreaterThan(at("Leaving, in this order"));
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(100);
  });

  it("gives the card of the API as JSON, in the language asked for", async () => {
    const { code, out } = await card(...SITE, "--language", "de", "--json");
    expect(code).toBe(0);
    const read: unknown = JSON.parse(out);
    expect(cardSchema.parse(read)).toEqual(read);
    expect(read).toMatchObject({ language: "de", verdictText: "Passt mit Ausrüstung", units: "metric" });
  });

  it("writes page and drawing", async () => {
    const { code } = await card(...SITE, "--language", "es", "--html", `${folder}/a.html`, "--svg", `${folder}/a.svg`);
    expect(code).toBe(0);
    expect(await readFile(`${folder}/a.html`, "utf8")).toMatch(/^<!doctype html>.*lang="es".*disyuntor/s);
    expect(await readFile(`${folder}/a.svg`, "utf8")).toMatch(/^<svg .*disyuntor/s);
  });

  it("gives a card without steps where too little is known", async () => {
    const { code, out } = await card("--site", "field-5");
    expect(code).toBe(0);
    expect(out).toContain("This card has no steps");
    expect(out).not.toMatch(/Arriving|breaker/);
  });

  it("refuses a language that it does not have", async () => {
    const { code, error } = await card(...SITE, "--language", "la");
    expect(code).not.toBe(0);
    expect(error).toContain("Known are en, es, fr, de.");
  });
});
