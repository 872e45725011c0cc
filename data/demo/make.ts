/**
 * Makes the invented campground of the demo: `npx tsx data/demo/make.ts` writes campground.geojson beside this file.
 * Deterministic: the same text every time.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type Feature, type Properties } from "./generator/camp.ts";
import { oldField } from "./generator/doubtful.ts";
import { PATTERNS } from "./generator/patterns.ts";
import {
  avocetShore,
  curlewLoop,
  dipperRow,
  grebeRow,
  pipitSlope,
  ploverRow,
  railLoop,
  siskinWood,
  wrenRow,
} from "./generator/rows.ts";
import { surroundings } from "./generator/surroundings.ts";

export const CAMPGROUND: Properties = {
  id: "quillfeather-flats",
  name: "Quillfeather Flats (invented)",
  invented: true,
  note: "An invented campground for trying things out. No such place, host, site or pedestal exists; the coordinates are made up.",
  place: "Near Ossaway Crossing, an invented town",
  timeZone: "America/Denver",
  electricalSystem: "120/240",
  drivesOn: "right",
  sitingCode: "NEC-551.77",
  elevation: 1512,
  licence: "CC0-1.0",
  sources: ["Invented for this project; nothing was surveyed and nothing was taken from a map."],
};

export function demoFeatures(): Feature[] {
  return [
    ...curlewLoop(),
    ...ploverRow(),
    ...railLoop(),
    ...wrenRow(),
    ...siskinWood(),
    ...grebeRow(),
    ...avocetShore(),
    ...pipitSlope(),
    ...dipperRow(),
    ...oldField(),
    ...surroundings(),
  ];
}

/** The file's text: one feature a line. */
export function demoText(): string {
  const head = JSON.stringify({ ...CAMPGROUND, patterns: PATTERNS }, null, 1);
  const lines = demoFeatures().map((feature) => JSON.stringify(feature));
  return `{\n"type": "FeatureCollection",\n"campground": ${head},\n"features": [\n${lines.join(",\n")}\n]\n}\n`;
}

const here = fileURLToPath(import.meta.url);
if (process.argv[1] === here) writeFileSync(fileURLToPath(new URL("campground.geojson", import.meta.url)), demoText());
