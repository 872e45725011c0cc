/** What the forecast service needs of each feed. */
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { WindForecast } from "../../wind/forecast.ts";
import { ForecastRefusal } from "./refusal.ts";

export type Reading = Pick<WindForecast, "issuedAt" | "stretches" | "notes">;

export interface Provider {
  readonly source: string;
  /** Words that must be shown with its forecasts. */
  readonly attribution: string;
  covers(place: LonLat): boolean;
  /**
   * Throws ForecastRefusal.
   *
   * @param lastModified Of the reading kept so far; null without one.
   * @returns Null reading when the one kept so far is still the newest.
   */
  read(
    place: LonLat,
    lastModified: string | null,
  ): Promise<{ readonly reading: Reading | null; readonly lastModified: string | null }>;
}

/** Decimals of a degree in a question, about 10 m; the weather service takes no more. */
const PLACE_DECIMALS = 4;

/** A coordinate without trailing zeros or exponent. */
export function coordinateText(value: number): string {
  return String(Number(value.toFixed(PLACE_DECIMALS)) + 0);
}

const CONTACT = /^[\x21-\x7e][\x20-\x7e]{2,199}$/;

/** The header by which hosts know who asks; a contact is an address or a page. Throws RangeError for another text. */
export function userAgent(contact: string): string {
  if (!CONTACT.test(contact)) throw new RangeError("the contact for forecast hosts must be one line of plain text");
  return `padwright (${contact})`;
}

/** A host that says "unchanged" although nothing was kept is at fault. */
export function unexpectedlyUnchanged(): ForecastRefusal {
  return new ForecastRefusal("unreadable", "The forecast host says that nothing has changed, but nothing was kept.");
}
