/** The demo set as the product reads it: the campground's file, its sites completed, and the rental fleet. */
import { readdirSync, readFileSync } from "node:fs";
import { readCampground } from "../../src/records/geojson.ts";
import { completeRig } from "../../src/rig/complete.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { completeSite } from "../../src/site/complete.ts";

const DEMO = new URL("../../data/demo/", import.meta.url);
export const campgroundText = readFileSync(new URL("campground.geojson", DEMO), "utf8");
export const reading = readCampground(campgroundText);
export const sites = reading.features
  .filter((feature) => feature.properties["kind"] === "site")
  .map((feature) => completeSite(feature, reading.campground, reading.features));

export const DEMO_RIG = "rental-coach";
export const rigNames = readdirSync(new URL("rigs/", DEMO))
  .filter((file) => file.endsWith(".json"))
  .map((file) => file.replace(".json", ""))
  .sort();

export function rigRecord(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`rigs/${name}.json`, DEMO), "utf8"));
}

export function rig(name: string): CompletedRig {
  const parsed = parseRig(rigRecord(name));
  if (!parsed.ok) throw new Error(`${name}: ${JSON.stringify(parsed.errors)}`);
  const electricalSystem = reading.campground?.electricalSystem ?? null;
  return completeRig(parsed.rig, { drivesOn: "right", electricalSystem, units: "us", warnings: parsed.warnings });
}

export function site(id: string) {
  const found = sites.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no site ${id}`);
  return found;
}
