/** Are deciduous trees in leaf? By month and hemisphere; the caller knows the date, this room has no clock. */
import table from "../../data/shelter.json" with { type: "json" };

export type Hemisphere = "north" | "south";
export type LeafSeason = "on" | "off" | "unknown";

const MONTH = /^\d{4}-(\d{2})/;

/**
 * @param date Day as YYYY-MM-DD.
 * @returns Unknown without a date or hemisphere, or with a text that is no date.
 */
export function leafSeason(date: string | undefined, hemisphere: Hemisphere | undefined): LeafSeason {
  const month = Number(MONTH.exec(date ?? "")?.[1] ?? Number.NaN);
  if (hemisphere === undefined || Number.isNaN(month)) return "unknown";
  return table.season.leafMonths[hemisphere].includes(month) ? "on" : "off";
}
