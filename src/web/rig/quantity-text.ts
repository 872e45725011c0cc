/**
 * Between a field's text and the value on the wire. What was typed is what is kept, unit and all; only a number without
 * a unit gets the one that stands beside the field, and the field then shows it.
 */
import type { Dimension } from "../../units/dimension.ts";
import { parseQuantity } from "../../units/parse.ts";

/** The unit that a bare number of a dimension is in on the wire. */
const WIRE_UNITS: Readonly<Record<Dimension, string>> = {
  length: "m",
  volume: "L",
  current: "A",
  voltage: "V",
  power: "W",
  pressure: "Pa",
  speed: "m/s",
  slope: "",
  angle: "deg",
};
const PERCENT = 100;
const BARE = /^[-+]?(\d+(\.\d*)?|\.\d+)$/;
const BETWEEN = /\s+(?:to|-|–)\s+|\s*(?:\.\.|…)\s*/;

function oneText(value: unknown, dimension: Dimension): string {
  if (typeof value !== "number") return typeof value === "string" ? value : "";
  if (dimension === "slope") return `${Number((value * PERCENT).toFixed(2))} %`;
  return `${value} ${WIRE_UNITS[dimension]}`;
}

/** A wire value as the field shows it: a text as it is, a bare number with the unit that it is in. */
export function textOf(value: unknown, dimension: Dimension): string {
  return Array.isArray(value) ? value.map((end) => oneText(end, dimension)).join(" to ") : oneText(value, dimension);
}

const unitIn = (text: string): string | null => /[^\d\s.+-].*$/.exec(text)?.[0] ?? null;

/** A text with its unit; a bare number gets `unit`. */
function withUnit(text: string, unit: string): string {
  return BARE.test(text) ? `${text} ${unit}` : text;
}

/** The wire value of what was typed; undefined for nothing. "2 to 3 ft" is a range where the field takes one. */
export function wireOf(typed: string, unit: string, ranged: boolean): string | readonly string[] | undefined {
  const text = typed.trim();
  if (text === "") return undefined;
  const ends = ranged ? text.split(BETWEEN) : [text];
  const [low = "", high = ""] = ends;
  if (ends.length !== 2 || low === "" || high === "") return withUnit(text, unit);
  return [withUnit(low, unitIn(high) ?? unit), withUnit(high, unit)];
}

/** True when every part of a wire value can be read, so that the drawing may follow while somebody still types. */
export function reads(value: string | readonly string[] | undefined, dimension: Dimension): boolean {
  if (value === undefined) return true;
  return [value].flat().every((part) => parseQuantity(dimension, part).ok);
}
