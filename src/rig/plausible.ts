/** What is unusual about a given value is asked about; the value is kept as it was written. */
import { type Dimension, dimensions, type Unit } from "../units/dimension.ts";
import type { Warning } from "../units/estimate.ts";
import { type PathSegment, pointer } from "../units/input-error.ts";
import { inUnit } from "../units/limits.ts";
import { type BandName, classDefaults, type PlausibleBand, plausibleBands } from "./defaults.ts";
import { fieldAt, listAt, type ReadField, wordAt } from "./reader.ts";
import type { rigListLimits } from "./schema.ts";
import { rigClasses } from "./vocabulary.ts";

/** Units that are mixed up for one another, likeliest first. */
const MISTAKEN: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  length: ["ft", "m", "in", "cm", "mm"],
  volume: ["gal", "L"],
  power: ["kW", "W"],
  slope: ["%"],
};

/** The unit in which the same number would be usual, or null. */
function otherUnit(field: ReadField, dimension: Dimension, band: PlausibleBand): Unit | null {
  for (const name of MISTAKEN[dimension] ?? []) {
    const unit = dimensions[dimension].units.find((one) => one.name === name);
    if (!unit || unit.name === field.unit.name) continue;
    const low = unit.toSi(field.unit.fromSi(field.low));
    const high = unit.toSi(field.unit.fromSi(field.high));
    if (low >= band.low && high <= band.high) return unit;
  }
  return null;
}

function question(label: string, field: ReadField, dimension: Dimension, band: PlausibleBand): string {
  const written = field.range
    ? `${inUnit(field.low, field.unit)} to ${inUnit(field.high, field.unit)}`
    : inUnit(field.low, field.unit);
  const bare = field.bare ? ` (a bare number is in ${field.unit.name})` : "";
  const other = otherUnit(field, dimension, band);
  if (other) {
    const meant = inUnit(other.toSi(field.unit.fromSi(field.low)), other);
    const same = inUnit(other.toSi(field.unit.fromSi(field.low)), field.unit);
    return `The ${label} is ${written} as written${bare}. Did you mean ${meant} (${same})?`;
  }
  const usual = `${inUnit(band.low, field.unit)} to ${inUnit(band.high, field.unit)}`;
  return `The ${label} is ${written} as written${bare}; usual is ${usual}. Please check the value and its unit.`;
}

class Questions {
  readonly warnings: Warning[] = [];
  readonly input: unknown;
  constructor(input: unknown) {
    this.input = input;
  }
  ask(path: readonly PathSegment[], label: string, band: PlausibleBand, dimension: Dimension = "length"): void {
    const field = fieldAt(this.input, path, dimension);
    if (!field) return;
    const bareHigh = field.bare ? Math.min(band.bareHigh ?? band.high, band.high) : band.high;
    if (field.low >= band.low && field.high <= bareHigh) return;
    this.warnings.push({ code: "implausible", path: pointer(path), text: question(label, field, dimension, band) });
  }
}

const LINE_BANDS: Readonly<Record<string, BandName>> = {
  power: "powerCord",
  water: "waterHose",
  fill: "waterHose",
  sewer: "sewerHose",
  cable: "cableCord",
};
const BODY: readonly (readonly [string, string, BandName])[] = [
  ["width", "rig's width", "width"],
  ["height", "rig's height", "height"],
  ["wheelbase", "wheelbase", "wheelbase"],
  ["rearOverhang", "rear overhang", "rearOverhang"],
  ["groundClearance", "ground clearance", "groundClearance"],
  ["waterHose", "water hose", "waterHose"],
  ["sewerHose", "sewer hose", "sewerHose"],
  ["cableCord", "television cable", "cableCord"],
];
const LISTED: readonly (readonly [keyof typeof rigListLimits, string, string, BandName])[] = [
  ["slideouts", "depth", "slide's depth", "slideDepth"],
  ["slideouts", "length", "slide's length", "slideLength"],
  ["doors", "width", "door's width", "doorWidth"],
  ["awnings", "projection", "awning's projection", "awningProjection"],
  ["awnings", "height", "height of the awning's rail", "awningHeight"],
  ["kit", "length", "length of this item", "kitLength"],
  ["kit", "addsLength", "length that this item adds", "kitLength"],
];

function askAboutLines(questions: Questions): void {
  listAt(questions.input, "connections").forEach((_, index) => {
    const path = ["connections", index] as const;
    const service = wordAt(questions.input, [...path, "service"]);
    const band = service === null ? undefined : LINE_BANDS[service];
    if (!band) return;
    questions.ask([...path, "line", "length"], `${service} line`, plausibleBands[band]);
    questions.ask([...path, "line", "diameter"], "hose's diameter", plausibleBands.hoseDiameter);
    const height = service === "sewer" ? plausibleBands.sewerHeight : plausibleBands.connectionHeight;
    questions.ask([...path, "height"], `height of the ${service} connection`, height);
  });
}

function contradictions(questions: Questions): void {
  const { input, warnings } = questions;
  const tapeLength = fieldAt(input, ["length"]);
  const model = fieldAt(input, ["modelLength"]);
  if (tapeLength && model && model.low > tapeLength.high) {
    const text =
      `The model's length, ${inUnit(model.low, model.unit)}, is more than the length by tape, ` +
      `${inUnit(tapeLength.high, model.unit)}. Was the tape laid from the foremost to the rearmost point?`;
    warnings.push({ code: "contradiction", path: "/modelLength", text });
  }
  listAt(input, "appliances").forEach((_, index) => {
    const running = fieldAt(input, ["appliances", index, "watts"], "power");
    const starting = fieldAt(input, ["appliances", index, "starts"], "power");
    if (running && starting && starting.high < running.low) {
      const text = `It starts with ${inUnit(starting.high, starting.unit)} and runs with ${inUnit(running.low, starting.unit)}. Are the two swapped?`;
      warnings.push({ code: "contradiction", path: `/appliances/${index}/starts`, text });
    }
  });
}

/** Every question that the values of a record call for. Never throws; fields that cannot be read are passed over. */
export function implausibleValues(input: unknown): Warning[] {
  const questions = new Questions(input);
  const name = wordAt(input, ["class"]);
  const rigClass = rigClasses.find((one) => one === name);
  if (rigClass) questions.ask(["length"], `length of this ${rigClass}`, classDefaults[rigClass].plausibleLength);
  for (const [key, label, band] of BODY) questions.ask([key], label, plausibleBands[band]);
  questions.ask(["towing", "length"], "length of the other vehicle", plausibleBands.towedLength);
  questions.ask(["power", "cord"], "power cord", plausibleBands.powerCord);
  questions.ask(["power", "height"], "height of the power inlet", plausibleBands.connectionHeight);
  questions.ask(["awning", "projection"], "awning's projection", plausibleBands.awningProjection);
  questions.ask(["awning", "height"], "height of the awning's rail", plausibleBands.awningHeight);
  askAboutLines(questions);
  for (const [list, key, label, band] of LISTED) {
    listAt(input, list).forEach((_, index) => {
      questions.ask([list, index, key], label, plausibleBands[band]);
    });
  }
  for (const key of ["fresh", "grey", "black", "propane"]) {
    questions.ask(["tanks", key], `${key} tank`, plausibleBands.tank, "volume");
  }
  listAt(input, "appliances").forEach((_, index) => {
    questions.ask(["appliances", index, "watts"], "appliance's power", plausibleBands.watts, "power");
  });
  questions.ask(["generator", "watts"], "generator's power", plausibleBands.watts, "power");
  questions.ask(["limits", "offLevel"], "largest slope", plausibleBands.offLevel, "slope");
  contradictions(questions);
  return questions.warnings;
}
