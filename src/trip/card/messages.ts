/**
 * Messages of the card: sentences of one language with typed gaps, `{margin:length}`. A gap says what kind of value
 * goes in, and the value says how it is rounded; numbers, units and lists are printed as the language does it. Shape
 * of a catalogue: data/messages/en.json.
 */
import { METRES_PER_FOOT } from "../../units/factors.ts";
import { plainNumber, type Rounding } from "../../units/number.ts";
import {
  formatCurrent,
  formatDegrees,
  formatLength,
  formatPercent,
  formatPower,
  formatPressure,
  formatVoltage,
  formatVolume,
  type UnitSystem,
} from "../../units/print.ts";
import type { Language } from "./card.ts";

export interface Catalogue {
  readonly language: Language;
  /** The language's name for itself. */
  readonly name: string;
  /** True once a practitioner with this mother tongue has read it. */
  readonly reviewed: boolean;
  readonly format: {
    /** Between whole and fraction. */
    readonly decimal: string;
    readonly foot: string;
    readonly inch: string;
    /** Letters of the wind's directions that differ. */
    readonly east: string;
    readonly west: string;
    readonly day: string;
    readonly days: string;
    /** Largest number of days of which `day` is said. */
    readonly dayUpTo: number;
    readonly and: string;
    readonly or: string;
  };
  readonly messages: Readonly<Record<string, string>>;
}

/** A value for a gap, SI. */
export type Value =
  | { readonly kind: "text"; readonly value: string }
  | { readonly kind: "and" | "or"; readonly value: readonly string[] }
  | {
      readonly kind:
        | "length"
        | "far"
        | "volume"
        | "volts"
        | "amps"
        | "watts"
        | "voltamperes"
        | "pressure"
        | "percent"
        | "degrees"
        | "days"
        | "count";
      readonly value: number;
      readonly round: Rounding;
    };
type Kind = Value["kind"];
export type Values = Readonly<Record<string, Value>>;

export const text = (value: string): Value => ({ kind: "text", value });
export const all = (value: readonly string[]): Value => ({ kind: "and", value });
export const any = (value: readonly string[]): Value => ({ kind: "or", value });
type Counted = Extract<Value, { readonly round: Rounding }>["kind"];
export const amount = (kind: Counted, value: number, round: Rounding = "nearest"): Value => ({ kind, value, round });

/** `{name}` is text, `{name:kind}` a value of that kind. */
const GAP = /\{(\w+)(?::(\w+))?\}/g;

/** Gaps of a message with their kinds, `margin:length`, in alphabetical order. */
export function gapsOf(message: string): string[] {
  return [...message.matchAll(GAP)].map(([, name, kind = "text"]) => `${name}:${kind}`).sort();
}

/** Speaks one language in one system of units. */
export class Speaker {
  constructor(
    readonly catalogue: Catalogue,
    private readonly units: UnitSystem,
  ) {}

  has(key: string): boolean {
    return Object.hasOwn(this.catalogue.messages, key);
  }

  /** The message with its gaps filled. A missing message or value is a fault of the program and throws. */
  say(key: string, values: Values = {}): string {
    const message = this.has(key) ? this.catalogue.messages[key] : undefined;
    if (message === undefined) throw new Error(`There is no message "${key}" in ${this.catalogue.language}.`);
    return message.replace(GAP, (_, name: string, kind: Kind = "text") => {
      const given = values[name];
      if (given === undefined) throw new Error(`The message "${key}" lacks its value "${name}".`);
      if (given.kind !== kind) throw new Error(`The message "${key}" wants ${name} as ${kind}, not ${given.kind}.`);
      return this.print(given);
    });
  }

  /** One value as the language prints it. */
  print(value: Value): string {
    const { format } = this.catalogue;
    switch (value.kind) {
      case "text":
        return value.value;
      case "and":
        return joined(value.value, format.and);
      case "or":
        return joined(value.value, format.or);
      case "days":
        return `${this.count(value.value, value.round)} ${value.value <= format.dayUpTo ? format.day : format.days}`;
      case "count":
        return this.count(value.value, value.round);
      default:
        return this.localised(this.quantity(value));
    }
  }

  /** A direction of the compass, `ENE`, by the language's own letters. */
  compass(word: string): string {
    const { east, west } = this.catalogue.format;
    return word.replace(/[EW]/g, (letter) => (letter === "E" ? east : west));
  }

  private quantity({ kind, value, round }: Extract<Value, { readonly round: Rounding }>): string {
    switch (kind) {
      case "length":
        return formatLength(value, this.units, { round });
      case "far":
        return this.units === "us"
          ? `${plainNumber(value / METRES_PER_FOOT, 0, round)} ft`
          : `${plainNumber(value, 0, round)} m`;
      case "volume":
        return formatVolume(value, this.units, { round });
      case "degrees":
        return formatDegrees(value, { round });
      case "volts":
        return formatVoltage(value, { round });
      case "amps":
        return formatCurrent(value, { round });
      case "watts":
        return formatPower(value, { round });
      case "pressure":
        return formatPressure(value, this.units, { round });
      case "percent":
        return formatPercent(value, { round });
      case "voltamperes":
        return `${plainNumber(value, 0, round)} VA`;
      default:
        return this.count(value, round);
    }
  }

  private count(value: number, round: Rounding): string {
    return this.localised(plainNumber(value, 1, round));
  }

  /** Decimal mark and the names of foot and inch as the language has them. */
  private localised(printed: string): string {
    const { decimal, foot, inch } = this.catalogue.format;
    return printed
      .replace(/(\d)\.(\d)/g, `$1${decimal}$2`)
      .replace(/\bft\b/g, foot)
      .replace(/\bin\b/g, inch);
  }
}

function joined(words: readonly string[], last: string): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}
