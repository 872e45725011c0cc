/**
 * Zod schemas of quantities on the wire. Each takes a bare number in SI (degrees for an angle) or a text with its
 * unit, and gives SI. The JSON Schema of the input is `anyOf` number and string.
 */
import * as z from "zod";
import { type Dimension, dimensions, type Unit } from "./dimension.ts";
import { bareNumberHint, checkLimits, type Limits } from "./limits.ts";
import { parseQuantity, type QuantityError, rightForm } from "./parse.ts";

export interface QuantityOptions extends Limits {
  /** What the field means, for the JSON Schema. */
  readonly description?: string;
  readonly examples?: readonly (string | number)[];
}

/** Ends of a range, SI; both are the same when one value was given. */
export interface QuantityRange {
  readonly low: number;
  readonly high: number;
}

type Read = { readonly value: number; readonly unit: Unit } | QuantityError;

/** Reads a number or a text, with the limits of the field. Anything else is a wrong type. Never throws. */
export function readQuantity(dimension: Dimension, input: unknown, limits: Limits = {}): Read {
  const entry = dimensions[dimension];
  const expected = `${entry.noun}, for instance ${rightForm(dimension)}`;
  if (typeof input === "number") {
    if (!Number.isFinite(input)) {
      return {
        ok: false,
        code: "not-a-number",
        message: `${input} is not a number: write ${rightForm(dimension)}.`,
        expected,
      };
    }
    const value = entry.bare.toSi(input) + 0;
    const beyond = checkLimits(dimension, value, entry.bare, limits);
    return beyond
      ? { ...beyond, message: `${beyond.message} ${bareNumberHint(dimension)}` }
      : { value, unit: entry.bare };
  }
  if (typeof input !== "string") {
    const message = `This must be ${entry.noun}, as a number or a text: write ${rightForm(dimension)}.`;
    return { ok: false, code: "unreadable", message, expected };
  }
  const read = parseQuantity(dimension, input);
  if (!read.ok) return read;
  return checkLimits(dimension, read.value, read.unit, limits) ?? { value: read.value, unit: read.unit };
}

/**
 * Every text that is read matches it; a number without a unit does not. Which units a dimension has is said in the
 * description, because a pattern that lists all their spellings would be unreadable.
 */
export const TEXT_PATTERN = "[0-9½⅓⅔¼¾⅛⅜⅝⅞].*[^0-9.\\s]";
const EXAMPLES: Readonly<Record<Dimension, readonly string[]>> = {
  length: ["25 ft", "7.6 m", "11 ft 2 in"],
  volume: ["38 gal", "144 L"],
  current: ["30 A"],
  voltage: ["120 V"],
  power: ["1500 W", "1.5 kW"],
  pressure: ["45 psi", "310 kPa"],
  speed: ["20 mph", "32 km/h"],
  slope: ["2 %", "1:48"],
  angle: ["10 deg"],
};

function issueOf(failed: QuantityError): { code: "custom"; message: string; params: Record<string, unknown> } {
  return { code: "custom", message: failed.message, params: { fault: failed.code, expected: failed.expected } };
}

function numberSide(dimension: Dimension, limits: Limits) {
  const { bare } = dimensions[dimension];
  return z.number().meta({
    description: `In ${bare.name}.`,
    ...(limits.positive === true
      ? { exclusiveMinimum: 0 }
      : limits.min === undefined
        ? {}
        : { minimum: bare.fromSi(limits.min) }),
    ...(limits.max === undefined ? {} : { maximum: bare.fromSi(limits.max) }),
  });
}

function textSide(dimension: Dimension) {
  const { noun, units } = dimensions[dimension];
  const names = units.map((unit) => unit.name).join(", ");
  return z.string().meta({
    description: `${noun[0]?.toUpperCase()}${noun.slice(1)} with its unit: ${names}.`,
    pattern: TEXT_PATTERN,
    examples: [...EXAMPLES[dimension]],
  });
}

function wrongType(dimension: Dimension, also: string): (issue: { readonly input?: unknown }) => string {
  return ({ input }) =>
    input === undefined
      ? `${dimensions[dimension].noun} is missing here: write ${rightForm(dimension)}.`.replace(/^a/, "A")
      : `This must be ${dimensions[dimension].noun}, as a number or a text${also}: write ${rightForm(dimension)}.`;
}

/** A quantity of the given dimension; output SI. */
export function quantity(dimension: Dimension, options: QuantityOptions = {}) {
  return z
    .union([numberSide(dimension, options), textSide(dimension)], { error: wrongType(dimension, "") })
    .meta(documentation(dimension, options))
    .transform((input, context): number => {
      const read = readQuantity(dimension, input, options);
      if ("value" in read) return read.value;
      context.addIssue(issueOf(read));
      return z.NEVER;
    })
    .pipe(z.number());
}

function documentation(dimension: Dimension, options: QuantityOptions) {
  return {
    ...(options.description === undefined ? {} : { description: options.description }),
    examples: [...(options.examples ?? EXAMPLES[dimension])],
  };
}

/** One value, or `[low, high]` where it is only known to lie between two. Output `{low, high}` in SI. */
export function quantityOrRange(dimension: Dimension, options: QuantityOptions = {}) {
  const end = z.union([numberSide(dimension, options), textSide(dimension)], { error: wrongType(dimension, "") });
  const also = ", or a range [low, high] of them";
  return z
    .union([numberSide(dimension, options), textSide(dimension), z.array(end).length(2)], {
      error: wrongType(dimension, also),
    })
    .meta(documentation(dimension, options))
    .transform((input, context): QuantityRange => {
      const ends = Array.isArray(input) ? input : [input];
      const values: number[] = [];
      ends.forEach((one, index) => {
        const read = readQuantity(dimension, one, options);
        if ("value" in read) values.push(read.value);
        else context.addIssue({ ...issueOf(read), ...(Array.isArray(input) ? { path: [index] } : {}) });
      });
      const [low, high = low] = values;
      if (values.length !== ends.length || low === undefined || high === undefined) return z.NEVER;
      if (low > high) {
        const message = `The range runs backwards: write the lower end first, ["${ends[1]}", "${ends[0]}"].`;
        context.addIssue({ code: "custom", message, params: { fault: "range", expected: "[low, high], low first" } });
        return z.NEVER;
      }
      return { low, high };
    })
    .pipe(z.object({ low: z.number(), high: z.number() }));
}

/** Metres. */
export const length = (options: QuantityOptions = {}) => quantity("length", options);
/** Metres, one value or a range. */
export const lengthOrRange = (options: QuantityOptions = {}) => quantityOrRange("length", options);
/** Litres. */
export const volume = (options: QuantityOptions = {}) => quantity("volume", options);
/** Amperes. */
export const current = (options: QuantityOptions = {}) => quantity("current", options);
/** Volts. */
export const voltage = (options: QuantityOptions = {}) => quantity("voltage", options);
/** Watts. */
export const power = (options: QuantityOptions = {}) => quantity("power", options);
/** Pascals. */
export const pressure = (options: QuantityOptions = {}) => quantity("pressure", options);
/** Rise per run. */
export const slope = (options: QuantityOptions = {}) => quantity("slope", options);
/** Radians; a bare number is in degrees. */
export const angle = (options: QuantityOptions = {}) => quantity("angle", options);
