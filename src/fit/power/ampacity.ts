/**
 * What a cord may carry and how long it may be. NEC table 400.5(A)(1) for American gauges, EN 1648 (from memory) and
 * AS/NZS 3001 table 5.1 for square millimetres. Table and sources: data/cord-ampacity.json.
 */

import table from "../../../data/cord-ampacity.json" with { type: "json" };
import type { Gauge } from "../../units/gauge.ts";
import { areaOfGauge } from "./conductors.ts";
import type { LeadRule } from "./devices.ts";

/** Table values hold for nominal sizes; a stated area this much below the row still counts as the row. */
const AREA_TOLERANCE = 0.98;

type Carrying = "twoCarrying" | "threeCarrying" | "mining40C";

/**
 * Amperes of an American-gauge cord with two current-carrying conductors (column B), three (column A), or three
 * conductors at 40 C by 30 CFR 18. A gauge between two rows takes the thinner row; null when thinner than the table.
 */
export function americanAmpacity(awg: number, carrying: Carrying): number | null {
  const rows = table.american.rows.filter((row) => row.awg >= awg);
  const row = rows.reduce<(typeof rows)[number] | null>(
    (best, each) => (!best || each.awg < best.awg ? each : best),
    null,
  );
  return row ? row[carrying] : null;
}

/** Amperes that a cord may carry under the rule of its plug; null when the table does not reach so thin. */
export function cordAmpacity(gauge: Gauge, rule: LeadRule, carrying: Carrying = "twoCarrying"): number | null {
  if ("awg" in gauge) return americanAmpacity(gauge.awg, carrying);
  if (rule === "nec-400.5") {
    const awg = americanSizeWithin(gauge.squareMillimetres);
    return awg === null ? null : americanAmpacity(awg, carrying);
  }
  const rows = rule === "en-1648" ? table.en1648.rows : table.asNzs3001.rows;
  const amps = rows.filter((row) => row.squareMillimetres <= gauge.squareMillimetres).map((row) => row.amps);
  return amps.length > 0 ? Math.max(...amps) : null;
}

/**
 * The most that a conductor can carry by the rule: its row, or for an American gauge thinner than the table the
 * thinnest row, which is above its true value. Null for a metric size thinner than the table.
 */
export function mostAmpacity(gauge: Gauge, rule: LeadRule): number | null {
  const found = cordAmpacity(gauge, rule);
  if (found !== null || !("awg" in gauge)) return found;
  return Math.min(...table.american.rows.map((row) => row.twoCarrying));
}

/** The thickest American gauge whose area is within a stated area; null when none is. */
function americanSizeWithin(squareMillimetres: number): number | null {
  const sizes = table.american.rows
    .map((row) => row.awg)
    .filter((awg) => (areaOfGauge(awg) ?? Number.POSITIVE_INFINITY) * AREA_TOLERANCE <= squareMillimetres);
  return sizes.length > 0 ? Math.min(...sizes) : null;
}

/** The thinnest conductor of the tables that carries `amps` under a rule; null when none does. */
export function thinnestFor(amps: number, rule: LeadRule): Gauge | null {
  if (rule === "nec-400.5") {
    const sizes = table.american.rows.filter((row) => row.twoCarrying >= amps).map((row) => row.awg);
    return sizes.length > 0 ? { awg: Math.max(...sizes) } : null;
  }
  const rows = rule === "en-1648" ? table.en1648.rows : table.asNzs3001.rows;
  const sizes = rows.filter((row) => row.amps >= amps).map((row) => row.squareMillimetres);
  return sizes.length > 0 ? { squareMillimetres: Math.min(...sizes) } : null;
}

export interface LeadCheck {
  readonly ok: boolean | null;
  readonly reason: "within" | "too-long" | "joined-leads" | "conductor-too-thin" | "conductor-not-known";
  /** Greatest length, metres; null when the rule gives none. */
  readonly longest: number | null;
}

/**
 * AS/NZS 3001:2008 table 5.1: greatest length of a supply lead by rating (amperes) and conductor (mm²), one unbroken
 * piece. `length` in metres. `ok` is null when the conductor is not known and the length decides nothing by itself.
 */
export function leadLength(lead: {
  readonly amps: number;
  readonly squareMillimetres: number | null;
  readonly length: number;
  readonly pieces: number;
}): LeadCheck {
  if (lead.pieces > 1) return { ok: false, reason: "joined-leads", longest: null };
  const ratings = table.asNzs3001.rows.map((row) => row.amps).filter((amps) => amps >= lead.amps);
  const rating = Math.min(...ratings);
  const rows = table.asNzs3001.rows.filter((row) => row.amps === rating);
  const size = lead.squareMillimetres;
  if (size === null) {
    const limits = rows.map((row) => row.longest);
    if (lead.length <= Math.min(...limits)) return { ok: true, reason: "within", longest: Math.min(...limits) };
    if (lead.length > Math.max(...limits)) return { ok: false, reason: "too-long", longest: Math.max(...limits) };
    return { ok: null, reason: "conductor-not-known", longest: null };
  }
  const limits = rows.filter((row) => row.squareMillimetres <= size).map((row) => row.longest);
  if (limits.length === 0) return { ok: false, reason: "conductor-too-thin", longest: null };
  const longest = Math.max(...limits);
  return lead.length <= longest ? { ok: true, reason: "within", longest } : { ok: false, reason: "too-long", longest };
}
