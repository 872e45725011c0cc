/**
 * Resistance of copper conductors: NEC chapter 9 table 8 (stranded, 75 C) for American gauges and IEC 60228 class 5
 * (20 C, brought to a hot conductor) for square millimetres. Table and sources: data/conductors.json.
 */
import table from "../../../data/conductors.json" with { type: "json" };
import { METRES_PER_FOOT } from "../../units/factors.ts";
import type { Gauge } from "../../units/gauge.ts";

const THOUSAND = 1000;
/** One circular mil is the area of a circle of one thousandth of an inch: pi / 4 x 0.0254^2 square millimetres. */
const SQUARE_MILLIMETRES_PER_CIRCULAR_MIL = (Math.PI / 4) * 0.0254 ** 2;

/** Area of an American gauge of the table, square millimetres; null when the table has no such gauge. */
export function areaOfGauge(awg: number): number | null {
  const row = table.american.rows.find((each) => each.awg === awg);
  return row ? row.circularMils * SQUARE_MILLIMETRES_PER_CIRCULAR_MIL : null;
}

/** Ohms per 1,000 ft at 75 C of one stranded conductor; null when the table has no such gauge. */
export function strandedOhmsPerThousandFeet(awg: number): number | null {
  return table.american.rows.find((each) => each.awg === awg)?.stranded ?? null;
}

/** Ohms of copper at another temperature than the 75 C of the American table; degrees Celsius. From memory. */
export function atTemperature(ohmsAtTable: number, celsius: number): number {
  return ohmsAtTable * (1 + table.american.coefficientFromTable * (celsius - table.american.temperature));
}

/**
 * Ohms per metre of one hot conductor of a cord; null when the size is thinner than the tables. A size between two
 * rows takes the thinner row, so the drop is never told too small.
 */
export function ohmsPerMetre(gauge: Gauge): number | null {
  if ("awg" in gauge) {
    const rows = table.american.rows.filter((row) => row.awg >= gauge.awg);
    const row = rows.reduce<(typeof rows)[number] | null>(
      (best, each) => (!best || each.awg < best.awg ? each : best),
      null,
    );
    return row ? row.stranded / (THOUSAND * METRES_PER_FOOT) : null;
  }
  const rows = table.metric.rows.filter((row) => row.squareMillimetres <= gauge.squareMillimetres);
  const row = rows.at(-1);
  return row ? row.class5 / THOUSAND / table.metric.hotFactor : null;
}

/** The thickest conductor of the table of the same kind: the other end of a range when nobody knows the gauge. */
export function thickestLike(gauge: Gauge): Gauge {
  if ("awg" in gauge) return { awg: Math.min(...table.american.rows.map((row) => row.awg)) };
  return { squareMillimetres: Math.max(...table.metric.rows.map((row) => row.squareMillimetres)) };
}
