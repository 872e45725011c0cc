/** The dimensions that a record may carry, and the units of each with every spelling that is read. */
import {
  CENTIMETRES_PER_METRE,
  INCHES_PER_FOOT,
  LITRES_PER_CUBIC_METRE,
  LITRES_PER_IMPERIAL_GALLON,
  LITRES_PER_US_GALLON,
  LITRES_PER_US_QUART,
  METRES_PER_MILE,
  METRES_PER_SECOND_PER_KMH,
  METRES_PER_SECOND_PER_KNOT,
  METRES_PER_SECOND_PER_MPH,
  MILLIMETRES_PER_METRE,
  PASCALS_PER_BAR,
  PASCALS_PER_KILOPASCAL,
  PASCALS_PER_MEGAPASCAL,
  PASCALS_PER_PSI,
  PERCENT,
  RADIANS_PER_DEGREE,
  TENTHS_OF_MILLIMETRE_PER_FOOT,
  TENTHS_OF_MILLIMETRE_PER_INCH,
  TENTHS_OF_MILLIMETRE_PER_METRE,
  TENTHS_OF_MILLIMETRE_PER_YARD,
  WATTS_PER_KILOWATT,
} from "./factors.ts";

export type Dimension =
  | "length"
  | "volume"
  | "current"
  | "voltage"
  | "power"
  | "pressure"
  | "speed"
  | "slope"
  | "angle";

export interface Unit {
  /** As it is printed. */
  readonly name: string;
  readonly toSi: (value: number) => number;
  readonly fromSi: (si: number) => number;
  /** Lower-case spellings without dots. */
  readonly spellings: readonly string[];
  /** Spellings in which upper and lower case differ in meaning (MPa is not mPa). */
  readonly exactSpellings?: readonly string[];
}

export interface DimensionEntry {
  /** With its article, for sentences: "a length". */
  readonly noun: string;
  readonly units: readonly Unit[];
  /** Unit that a bare number on the wire is in: SI, except the degree for angles. */
  readonly bare: Unit;
  /** Units offered when a caller wrote none: the customary one first. */
  readonly offered: readonly Unit[];
}

function linear(name: string, factor: number, spellings: readonly string[], exactSpellings?: readonly string[]): Unit {
  return {
    name,
    toSi: (value) => value * factor,
    fromSi: (si) => si / factor,
    spellings,
    ...(exactSpellings ? { exactSpellings } : {}),
  };
}

/** A unit of so many tenths of a millimetre: whole numbers keep the product exact (see the factors). */
function customaryLength(name: string, tenths: number, spellings: readonly string[]): Unit {
  return {
    name,
    toSi: (value) => (value * tenths) / TENTHS_OF_MILLIMETRE_PER_METRE,
    fromSi: (si) => (si * TENTHS_OF_MILLIMETRE_PER_METRE) / tenths,
    spellings,
  };
}

const metre = linear("m", 1, ["m", "metre", "metres", "meter", "meters"]);
const foot = customaryLength("ft", TENTHS_OF_MILLIMETRE_PER_FOOT, ["ft", "'", "foot", "feet"]);
const inch = customaryLength("in", TENTHS_OF_MILLIMETRE_PER_INCH, ["in", '"', "inch", "inches"]);
const centimetre: Unit = {
  name: "cm",
  toSi: (value) => value / CENTIMETRES_PER_METRE,
  fromSi: (si) => si * CENTIMETRES_PER_METRE,
  spellings: ["cm", "centimetre", "centimetres", "centimeter", "centimeters"],
};
const millimetre: Unit = {
  name: "mm",
  toSi: (value) => value / MILLIMETRES_PER_METRE,
  fromSi: (si) => si * MILLIMETRES_PER_METRE,
  spellings: ["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
};
const yard = customaryLength("yd", TENTHS_OF_MILLIMETRE_PER_YARD, ["yd", "yds", "yard", "yards"]);
const kilometre = linear("km", MILLIMETRES_PER_METRE, ["km", "kilometre", "kilometres", "kilometer", "kilometers"]);
const mile = linear("mi", METRES_PER_MILE, ["mi", "mile", "miles"]);

const litre = linear("L", 1, ["l", "litre", "litres", "liter", "liters", "ltr"]);
const gallon = linear("gal", LITRES_PER_US_GALLON, [
  "gal",
  "gals",
  "gallon",
  "gallons",
  "us gal",
  "us gallon",
  "us gallons",
  "gal us",
]);
const imperialGallon = linear("imp gal", LITRES_PER_IMPERIAL_GALLON, [
  "imp gal",
  "imperial gal",
  "imperial gallon",
  "imperial gallons",
  "uk gal",
  "uk gallon",
  "uk gallons",
]);
const quart = linear("qt", LITRES_PER_US_QUART, ["qt", "qts", "quart", "quarts", "us qt"]);
const cubicMetre = linear("m³", LITRES_PER_CUBIC_METRE, ["m³", "cubic metre", "cubic metres", "cubic meters"]);

const ampere = linear("A", 1, ["a", "amp", "amps", "ampere", "amperes"]);
const volt = linear("V", 1, ["v", "volt", "volts", "vac", "v ac"]);
const watt = linear("W", 1, ["watt", "watts"], ["W", "w"]);
const kilowatt = linear("kW", WATTS_PER_KILOWATT, ["kilowatt", "kilowatts"], ["kW", "KW", "kw", "Kw"]);

const pascal = linear("Pa", 1, ["pascal", "pascals"], ["Pa", "pa", "PA"]);
const kilopascal = linear("kPa", PASCALS_PER_KILOPASCAL, ["kpa", "kilopascal", "kilopascals"]);
const megapascal = linear("MPa", PASCALS_PER_MEGAPASCAL, ["megapascal", "megapascals"], ["MPa"]);
const bar = linear("bar", PASCALS_PER_BAR, ["bar", "bars"]);
const psi = linear("psi", PASCALS_PER_PSI, ["psi", "lb/in²", "lbf/in²", "lb per sq in"]);

const metrePerSecond = linear("m/s", 1, ["m/s", "mps", "metres per second", "meters per second"]);
const milePerHour = linear("mph", METRES_PER_SECOND_PER_MPH, ["mph", "mi/h", "miles per hour"]);
const kilometrePerHour = linear("km/h", METRES_PER_SECOND_PER_KMH, ["km/h", "kmh", "kph", "km/hr"]);
const knot = linear("kn", METRES_PER_SECOND_PER_KNOT, ["kn", "kt", "kts", "knot", "knots"]);

const degreeSpellings = ["deg", "degs", "degree", "degrees", "°"];
const percentSpellings = ["%", "percent", "per cent", "pct"];

const percentSlope: Unit = {
  name: "%",
  toSi: (value) => value / PERCENT,
  fromSi: (si) => si * PERCENT,
  spellings: percentSpellings,
};
const degreeSlope: Unit = {
  name: "deg",
  toSi: (value) => Math.tan(value * RADIANS_PER_DEGREE),
  fromSi: (si) => Math.atan(si) / RADIANS_PER_DEGREE,
  spellings: degreeSpellings,
};
/** The trade's unit for a drain: inches of fall for each foot of run. */
const inchPerFoot: Unit = {
  name: "in/ft",
  toSi: (value) => value / INCHES_PER_FOOT,
  fromSi: (si) => si * INCHES_PER_FOOT,
  spellings: ["in/ft", "in per ft", "inch per foot", "inches per foot", '"/ft', "\"/'", "in per foot"],
};
const centimetrePerMetre: Unit = { ...percentSlope, name: "cm/m", spellings: ["cm/m", "cm per m"] };
const ratio = linear("m/m", 1, ["m/m", "m per m"]);

const degree = linear("deg", RADIANS_PER_DEGREE, degreeSpellings);
const radian = linear("rad", 1, ["rad", "rads", "radian", "radians"]);
const percentAngle: Unit = {
  name: "%",
  toSi: (value) => Math.atan(value / PERCENT),
  fromSi: (si) => Math.tan(si) * PERCENT,
  spellings: percentSpellings,
};

export const dimensions: Readonly<Record<Dimension, DimensionEntry>> = {
  length: {
    noun: "a length",
    units: [metre, foot, inch, centimetre, millimetre, yard, kilometre, mile],
    bare: metre,
    offered: [foot, metre],
  },
  volume: {
    noun: "a volume",
    units: [litre, gallon, imperialGallon, quart, cubicMetre],
    bare: litre,
    offered: [gallon, litre],
  },
  current: { noun: "a current", units: [ampere], bare: ampere, offered: [ampere] },
  voltage: { noun: "a voltage", units: [volt], bare: volt, offered: [volt] },
  power: { noun: "a power", units: [watt, kilowatt], bare: watt, offered: [watt, kilowatt] },
  pressure: {
    noun: "a pressure",
    units: [pascal, kilopascal, megapascal, bar, psi],
    bare: pascal,
    offered: [psi, kilopascal],
  },
  speed: {
    noun: "a speed",
    units: [metrePerSecond, milePerHour, kilometrePerHour, knot],
    bare: metrePerSecond,
    offered: [milePerHour, kilometrePerHour],
  },
  slope: {
    noun: "a slope",
    units: [ratio, percentSlope, degreeSlope, inchPerFoot, centimetrePerMetre],
    bare: ratio,
    offered: [percentSlope, degreeSlope],
  },
  angle: { noun: "an angle", units: [degree, radian, percentAngle], bare: degree, offered: [degree] },
};

/** The unit of a dimension that a spelling names, or undefined. */
export function unitOf(dimension: Dimension, spelling: string): Unit | undefined {
  const plain = spelling.replaceAll(".", "").replace(/\s+/g, " ").trim();
  const lower = plain.toLowerCase();
  return dimensions[dimension].units.find(
    (unit) => (unit.exactSpellings ?? []).includes(plain) || unit.spellings.includes(lower),
  );
}

/** The dimension to which a spelling belongs, whichever it is. */
export function dimensionOf(spelling: string): Dimension | undefined {
  const names = Object.keys(dimensions) as Dimension[];
  return names.find((name) => unitOf(name, spelling) !== undefined);
}
