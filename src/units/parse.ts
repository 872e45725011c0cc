/** Reading a quantity as people write it: `25 ft`, `11'2"`, `7.6 m`, `38 gal`, `1:48`. */
import { type Dimension, dimensionOf, dimensions, type Unit, unitOf } from "./dimension.ts";
import { INCHES_PER_FOOT, PERCENT } from "./factors.ts";
import { plainNumber } from "./number.ts";
import { tidyText } from "./tidy.ts";

/** Word codes of what can be wrong with a quantity. */
export type QuantityFault =
  | "empty"
  | "too-long"
  | "not-a-number"
  | "decimal-comma"
  | "exponent"
  | "range"
  | "no-unit"
  | "unknown-unit"
  | "wrong-dimension"
  | "unreadable"
  | "too-small"
  | "too-large";

export interface QuantityError {
  readonly ok: false;
  readonly code: QuantityFault;
  /** A sentence in the caller's own words and units that shows the right form. */
  readonly message: string;
  readonly expected: string;
}

export interface Quantity {
  readonly ok: true;
  /** SI: metres, litres, amperes, volts, watts, pascals, metres per second, ratio, radians. */
  readonly value: number;
  /** Unit that it was written in; messages about it use the same one. */
  readonly unit: Unit;
}

export type QuantityResult = Quantity | QuantityError;

const LONGEST_TEXT = 64;
const EXAMPLE_NUMBERS: Readonly<Record<Dimension, number>> = {
  length: 25,
  volume: 38,
  current: 30,
  voltage: 120,
  power: 1500,
  pressure: 45,
  speed: 20,
  slope: 2,
  angle: 10,
};

/** What to write instead: the same number with each customary unit, converted. */
export function rightForm(dimension: Dimension, number: number = EXAMPLE_NUMBERS[dimension]): string {
  const { offered } = dimensions[dimension];
  const first = offered[0];
  if (!first) return dimension;
  const si = first.toSi(number);
  return offered.map((unit) => `${plainNumber(unit.fromSi(si))} ${unit.name}`).join(" or ");
}

function fault(dimension: Dimension, code: QuantityFault, message: string): QuantityError {
  return { ok: false, code, message, expected: `${dimensions[dimension].noun}, for instance ${rightForm(dimension)}` };
}

interface Term {
  readonly number: number;
  readonly whole: boolean;
  readonly unit: string;
}

/** A number at the start of a text: `25`, `7.6`, `.5`, `1/2`, `11 1/2`, `11-1/2`. */
const NUMBER = /^(?:(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\/(\d+)|(\d+\.?\d*|\.\d+))/;
/** Between a number and its unit a space or a hyphen may stand: `25-ft`. */
const UNIT = /^ ?-? ?([^\d\s.+-](?:[^\d+-]*[^\d\s+-])?)/;
/** Between feet and inches a hyphen may stand, `11'-2"`; a hyphen after a space alone would be a minus. */
const JOINT = /^(?: - |-| ?)/;

function readTerms(text: string): Term[] | null {
  const terms: Term[] = [];
  let rest = text;
  while (rest !== "") {
    if (terms.length > 0) rest = rest.replace(JOINT, "");
    const match = NUMBER.exec(rest);
    if (!match) return null;
    const [matched, wholePart, numerator, denominator, decimal] = match;
    rest = rest.slice(matched.length);
    const number =
      decimal === undefined ? Number(wholePart ?? 0) + Number(numerator) / Number(denominator) : Number(decimal);
    if (!Number.isFinite(number)) return null;
    const unit = UNIT.exec(rest);
    if (unit) rest = rest.slice(unit[0].length);
    terms.push({ number, whole: Number.isInteger(number), unit: unit?.[1]?.trim() ?? "" });
  }
  return terms;
}

function unitFault(dimension: Dimension, term: Term): QuantityError {
  const { noun, units } = dimensions[dimension];
  const written = `${plainNumber(term.number)} ${term.unit}`;
  const other = dimensionOf(term.unit);
  if (other) {
    return fault(
      dimension,
      "wrong-dimension",
      `"${written}" is ${dimensions[other].noun}, and ${noun} is wanted here: write ${rightForm(dimension)}.`,
    );
  }
  const known = units.map((unit) => unit.name).join(", ");
  return fault(dimension, "unknown-unit", `The unit "${term.unit}" is not known for ${noun}. Known units: ${known}.`);
}

function readFeetAndInches(feet: Term, inches: Term, text: string): QuantityResult {
  const foot = unitOf("length", feet.unit);
  // After a prime the inch mark is often left out: 11'2 can mean nothing else.
  const inch = inches.unit === "" && feet.unit === "'" ? unitOf("length", '"') : unitOf("length", inches.unit);
  if (foot?.name !== "ft" || inch?.name !== "in") {
    return fault("length", "unreadable", `"${text}" cannot be read as one length: write 11 ft 2 in or 3.4 m.`);
  }
  if (!feet.whole) {
    return fault(
      "length",
      "unreadable",
      `"${text}" has both a fraction of a foot and inches: write the feet whole, for instance 11 ft 6 in.`,
    );
  }
  if (inches.number >= INCHES_PER_FOOT) {
    const total = feet.number * INCHES_PER_FOOT + inches.number;
    const wholeFeet = Math.floor(total / INCHES_PER_FOOT);
    return fault(
      "length",
      "unreadable",
      `"${text}" has ${plainNumber(inches.number)} inches after the feet, and a foot has ${INCHES_PER_FOOT}: ` +
        `write ${wholeFeet} ft ${plainNumber(total - wholeFeet * INCHES_PER_FOOT)} in if that is what was meant.`,
    );
  }
  return { ok: true, value: inch.toSi(feet.number * INCHES_PER_FOOT + inches.number), unit: foot };
}

/** `1:48` and `1 in 48`. */
function readRatio(text: string): QuantityResult | null {
  const match = /^([+-]?)(\d+(?:\.\d+)?)\s*(?::|in)\s*(\d+(?:\.\d+)?)$/i.exec(text);
  if (!match) return null;
  const run = Number(match[3]);
  if (run === 0) return fault("slope", "unreadable", `"${text}" has no run after the colon: write 1:48 or 2 %.`);
  const value = Number(match[2]) / run;
  return { ok: true, value: match[1] === "-" ? 0 - value : value, unit: dimensions.slope.bare };
}

function refuseAtSight(dimension: Dimension, text: string): QuantityError | null {
  const { noun } = dimensions[dimension];
  if (text === "") return fault(dimension, "empty", `An empty text is not ${noun}: write ${rightForm(dimension)}.`);
  if (text.length > LONGEST_TEXT) {
    return fault(
      dimension,
      "too-long",
      `A text of ${text.length} characters is not ${noun}: write ${rightForm(dimension)}.`,
    );
  }
  if (/^[+-]?(nan|inf|infinity|infinite|∞)\b/i.test(text) || text.includes("∞")) {
    return fault(dimension, "not-a-number", `"${text}" is not a number: write ${rightForm(dimension)}.`);
  }
  const comma = /(\d+),(\d+)/.exec(text);
  if (comma) {
    const [, before = "", after = ""] = comma;
    const decimal = text.replace(`${before},${after}`, `${before}.${after}`);
    const thousands = text.replace(`${before},${after}`, `${before}${after}`);
    // A comma before three digits may part thousands or decimals; both are shown, neither is guessed.
    const advice = /^\d{3}$/.test(after) ? `write ${thousands} or ${decimal}` : `write ${decimal}`;
    return fault(dimension, "decimal-comma", `"${text}" has a comma in its number: ${advice}.`);
  }
  if (/\de[+-]?\d/i.test(text)) {
    return fault(
      dimension,
      "exponent",
      `"${text}" has an exponent: write the number in full, for instance ${rightForm(dimension)}.`,
    );
  }
  return null;
}

/**
 * Reads a quantity with its unit. Never throws. The sign is kept; limits belong to the field (see `checkLimits`).
 * A text without a unit is refused, because nobody can say whether 25 is feet or metres.
 */
export function parseQuantity(dimension: Dimension, written: string): QuantityResult {
  const text = tidyText(written);
  const refused = refuseAtSight(dimension, text);
  if (refused) return refused;
  if (dimension === "slope") {
    const ratio = readRatio(text);
    if (ratio) return ratio;
  }
  const sign = /^([+-])\s*/.exec(text);
  const terms = readTerms(sign ? text.slice(sign[0].length) : text);
  const first = terms?.[0];
  const second = terms?.[1];
  if (!terms || !first || terms.length > 2) {
    return fault(
      dimension,
      "unreadable",
      `"${text}" cannot be read as ${dimensions[dimension].noun}: write ${rightForm(dimension)}.`,
    );
  }
  let read: QuantityResult;
  if (second && (first.unit === "" || /^(to|…)$/i.test(first.unit) || / to$/i.test(first.unit))) {
    const unit = second.unit === "" ? (dimensions[dimension].offered[0]?.name ?? "") : second.unit;
    const ends = `["${plainNumber(first.number)} ${unit}", "${plainNumber(second.number)} ${unit}"]`;
    return fault(dimension, "range", `"${text}" looks like a range: where a range is allowed, write ${ends}.`);
  } else if (second) {
    read =
      dimension === "length"
        ? readFeetAndInches(first, second, text)
        : fault(
            dimension,
            "unreadable",
            `"${text}" cannot be read as ${dimensions[dimension].noun}: write ${rightForm(dimension)}.`,
          );
  } else if (first.unit === "") {
    // A slope below 1 was most likely meant as a ratio; a slope of 2 as per cent.
    const number = dimension === "slope" && first.number < 1 ? first.number * PERCENT : first.number;
    return fault(dimension, "no-unit", `${text} of what? Write ${rightForm(dimension, number)}.`);
  } else {
    const unit = unitOf(dimension, first.unit);
    read = unit ? { ok: true, value: unit.toSi(first.number), unit } : unitFault(dimension, first);
  }
  return read.ok && sign?.[1] === "-" ? { ...read, value: 0 - read.value } : read;
}
