/**
 * Voltage drop of a line from the resistance of its conductors. Direct-current resistance is good enough up to 4 AWG
 * (from memory). The temperature that a resistance stands for is part of the answer.
 */

import { formatGauge, type Gauge } from "../../units/gauge.ts";
import { ohmsPerMetre, thickestLike } from "./conductors.ts";
import type { DeviceFamily } from "./devices.ts";
import { familyLimits, type SupplyLimits } from "./supply-limits.ts";
import { oneDecimal, twoDecimals } from "./words.ts";

const CONDUCTORS_OUT_AND_BACK = 2;

/** Volts lost out and back over one leg and neutral: 2 L R I. `length` one way and `ohmsPer` in the same unit. */
export function legToNeutralDrop(circuit: {
  readonly length: number;
  readonly ohmsPer: number;
  readonly amps: number;
}): number {
  return CONDUCTORS_OUT_AND_BACK * circuit.length * circuit.ohmsPer * circuit.amps;
}

/** Volts lost on each leg when both legs draw the same and the neutral carries nothing: L R I. */
export function balancedDrop(circuit: {
  readonly length: number;
  readonly ohmsPer: number;
  readonly amps: number;
}): number {
  return circuit.length * circuit.ohmsPer * circuit.amps;
}

/** The handbook form 2 K L I / circular mils; `k` in ohm-circular-mils per foot, `lengthFeet` one way. */
export function handbookDrop(circuit: {
  readonly k: number;
  readonly lengthFeet: number;
  readonly amps: number;
  readonly circularMils: number;
}): number {
  return (CONDUCTORS_OUT_AND_BACK * circuit.k * circuit.lengthFeet * circuit.amps) / circuit.circularMils;
}

export type DropStatus = "fine" | "watch" | "low" | "stop" | "unknown";

/** The word for volts at the rig: a design choice of this program, see data/supply-limits.json. */
export function dropStatus(volts: number, limits: SupplyLimits): Exclude<DropStatus, "unknown"> {
  if (volts >= limits.fine) return "fine";
  if (volts >= limits.watch) return "watch";
  return volts >= limits.stop ? "low" : "stop";
}

/** A piece of the line: metres of one conductor. */
export interface DropSegment {
  readonly length: number;
  readonly gauge: Gauge | null;
  /** True when the gauge is the thinnest that the plug's rating permits, because nobody recorded it. */
  readonly gaugeAssumed: boolean;
}

export interface LineDrop {
  /** Amperes for which it is computed: what the supply carries for hours. */
  readonly amps: number;
  /** Volts lost over one leg and neutral. */
  readonly volts: number;
  /** Volts lost on each leg when both draw the same; null with one leg. */
  readonly balancedVolts: number | null;
  /** Share of the nominal volts to neutral. */
  readonly ratio: number;
  readonly voltsAtRigFromNominal: number;
  readonly voltsAtRigFromLowest: number;
  readonly status: DropStatus;
  /** Volts at the rig from the lowest lawful supply, for the thickest and thinnest conductor; null when one is known. */
  readonly range: { readonly low: number; readonly high: number } | null;
  readonly why: string;
}

/**
 * Drop over the whole line at `amps`, from nominal and from the lowest lawful supply. Null when a conductor is beyond
 * the tables. With an assumed gauge the drop is the greatest that can be: a fine result stands, any other is
 * "unknown" with its range.
 */
export function lineDrop(line: {
  readonly segments: readonly DropSegment[];
  readonly amps: number;
  readonly legs: number;
  readonly family: DeviceFamily;
}): LineDrop | null {
  const limits = familyLimits(line.family);
  const resistance = oneWayOhms(line.segments, (gauge) => gauge);
  if (resistance === null) return null;
  const circuit = { length: 1, ohmsPer: resistance, amps: line.amps };
  const volts = legToNeutralDrop(circuit);
  const fromNominal = limits.voltsToNeutral - volts;
  const fromLowest = limits.lowest - volts;
  const judged = dropStatus(fromLowest, limits);
  const assumed = line.segments.some((segment) => segment.gaugeAssumed && segment.length > 0);
  const range = assumed ? assumedRange(line, limits, fromLowest) : null;
  const undecided = range !== null && dropStatus(range.high, limits) !== judged;
  const facts = { line, limits, volts, fromNominal, fromLowest, range };
  return {
    amps: line.amps,
    volts,
    balancedVolts: line.legs > 1 ? balancedDrop(circuit) : null,
    ratio: volts / limits.voltsToNeutral,
    voltsAtRigFromNominal: fromNominal,
    voltsAtRigFromLowest: fromLowest,
    status: undecided ? "unknown" : judged,
    range,
    why: dropSentence(facts),
  };
}

function oneWayOhms(
  segments: readonly DropSegment[],
  choose: (gauge: Gauge, segment: DropSegment) => Gauge,
): number | null {
  let total = 0;
  for (const segment of segments) {
    if (segment.length === 0) continue;
    const ohms = segment.gauge === null ? null : ohmsPerMetre(choose(segment.gauge, segment));
    if (ohms === null) return null;
    total += segment.length * ohms;
  }
  return total;
}

function assumedRange(
  line: { readonly segments: readonly DropSegment[]; readonly amps: number },
  limits: SupplyLimits,
  low: number,
): { readonly low: number; readonly high: number } {
  const best = oneWayOhms(line.segments, (gauge, segment) => (segment.gaugeAssumed ? thickestLike(gauge) : gauge));
  return { low, high: limits.lowest - legToNeutralDrop({ length: 1, ohmsPer: best ?? 0, amps: line.amps }) };
}

function dropSentence(facts: {
  readonly line: { readonly segments: readonly DropSegment[]; readonly amps: number };
  readonly limits: SupplyLimits;
  readonly volts: number;
  readonly fromNominal: number;
  readonly fromLowest: number;
  readonly range: { readonly low: number; readonly high: number } | null;
}): string {
  const { limits, volts, range } = facts;
  const assumed = facts.line.segments.find((segment) => segment.gaugeAssumed && segment.gauge !== null);
  const guess = assumed?.gauge
    ? ` Nobody recorded the cord's conductor: ${formatGauge(assumed.gauge)} is assumed, the thinnest for its rating` +
      (range ? `; a thicker one gives up to ${oneDecimal(range.high)} V.` : ".")
    : "";
  return (
    `At ${oneDecimal(facts.line.amps)} A the line loses ${twoDecimals(volts)} V with its conductors hot: ` +
    `${oneDecimal(facts.fromNominal)} V at the rig from ${limits.voltsToNeutral} V, and ${oneDecimal(facts.fromLowest)} V ` +
    `from the lowest lawful ${limits.lowest} V. Limits here are a design choice: fine at ${limits.fine} V, low below ` +
    `${limits.watch} V, no motors below ${limits.stop} V.${guess}`
  );
}
