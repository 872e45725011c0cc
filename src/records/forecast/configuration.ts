/** The forecast feeds as somebody who runs this sets them up by named values: environment variables, or bindings. */
import type { ForecastConfiguration } from "./service.ts";

/** Names of the values and what they do, for help texts. */
export const FORECAST_SETTINGS = {
  FORECAST_CONTACT:
    "Mail address or page by which forecast hosts can reach whoever runs this; no forecast is fetched without it. With it the US National Weather Service is asked for places in its area.",
  FORECAST_OPEN_METEO:
    'The word "non-commercial" lets Open-Meteo be asked without a key for the rest of the world; its terms allow that only to those who earn nothing by it.',
  FORECAST_OPEN_METEO_KEY: "A paid key for Open-Meteo.",
} as const;

export type ForecastSettings = Readonly<Partial<Record<keyof typeof FORECAST_SETTINGS, string | undefined>>>;

const FREE = "non-commercial";

/** Null when forecasts are off. Throws RangeError with a plain sentence for values that make no sense. */
export function forecastConfiguration(settings: ForecastSettings): ForecastConfiguration | null {
  const contact = given(settings.FORECAST_CONTACT);
  const free = given(settings.FORECAST_OPEN_METEO);
  const apiKey = given(settings.FORECAST_OPEN_METEO_KEY);
  if (contact === null) {
    if (free === null && apiKey === null) return null;
    throw new RangeError("Open-Meteo is set up, but FORECAST_CONTACT is not: forecast hosts want to know who asks.");
  }
  if (free !== null && free !== FREE) {
    throw new RangeError(`FORECAST_OPEN_METEO must be "${FREE}"; a paid key belongs in FORECAST_OPEN_METEO_KEY.`);
  }
  const terms = apiKey !== null ? { apiKey } : free === null ? null : (FREE as "non-commercial");
  return { weatherService: { contact }, ...(terms === null ? {} : { openMeteo: { contact, terms } }) };
}

function given(value: string | undefined): string | null {
  return value === undefined || value.trim() === "" ? null : value.trim();
}
