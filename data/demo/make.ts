/**
 * Makes the invented campground of the demo and its invented days of wind: `npx tsx data/demo/make.ts` writes
 * campground.geojson and wind/*.json beside this file. Deterministic: the same text every time.
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
import { WIND_DAYS, windDay } from "./generator/wind.ts";

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
  prevailingWind: { from: "W", basis: "described" },
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

/** The text of a wind day's file: one hour a line. */
export function windDayText(id: string): string {
  const day = WIND_DAYS.find((one) => one.id === id);
  if (day === undefined) throw new Error(`There is no day ${id}.`);
  const { forecast, ...asked } = windDay(day);
  const { hours, ...head } = forecast;
  const lines = hours.map((hour) => JSON.stringify(hour));
  const inner = (members: object): string => JSON.stringify(members).slice(1, -1);
  return `{\n${inner(asked)},\n"forecast": {${inner(head)}, "hours": [\n${lines.join(",\n")}\n]}\n}\n`;
}

const here = fileURLToPath(import.meta.url);
const beside = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

if (process.argv[1] === here) {
  writeFileSync(beside("campground.geojson"), demoText());
  for (const { id } of WIND_DAYS) writeFileSync(beside(`wind/${id}.json`), windDayText(id));
}
