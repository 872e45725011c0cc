/**
 * Open-Meteo. Without a key its terms allow only use that is not commercial, with attribution under CC BY 4.0; with a
 * key another host of theirs is asked (that host's name from memory).
 */
import { type Asking, ask } from "./ask.ts";
import { readHourly } from "./open-meteo-reply.ts";
import { coordinateText, type Provider, unexpectedlyUnchanged, userAgent } from "./provider.ts";

export interface OpenMeteoOptions {
  readonly contact: string;
  /** A paid key, or the statement that this deployment earns nothing. */
  readonly terms: { readonly apiKey: string } | "non-commercial";
}

export const OPEN_METEO_ORIGIN = "https://api.open-meteo.com";
export const OPEN_METEO_PAID_ORIGIN = "https://customer-api.open-meteo.com";
const DAYS = "7";

/** The feed; `asking` holds the circuit of its one host. */
export function openMeteo(options: OpenMeteoOptions, asking: Asking): Provider {
  const headers = { "User-Agent": userAgent(options.contact), Accept: "application/json" };
  const { terms } = options;
  const origin = terms === "non-commercial" ? OPEN_METEO_ORIGIN : OPEN_METEO_PAID_ORIGIN;
  return {
    source: "Open-Meteo",
    attribution: "Weather data by Open-Meteo.com (CC BY 4.0)",
    covers: () => true,
    async read(place, lastModified) {
      const query = new URLSearchParams({
        latitude: coordinateText(place.latitude),
        longitude: coordinateText(place.longitude),
        hourly: "wind_speed_10m,wind_gusts_10m,wind_direction_10m,weather_code",
        wind_speed_unit: "ms",
        timeformat: "iso8601",
        timezone: "GMT",
        forecast_days: DAYS,
        ...(terms === "non-commercial" ? {} : { apikey: terms.apiKey }),
      });
      const since = lastModified === null ? {} : { "If-Modified-Since": lastModified };
      const question = { address: `${origin}/v1/forecast?${query}`, headers: { ...headers, ...since } };
      const reply = await ask(question, asking);
      if (reply.unchanged && lastModified === null) throw unexpectedlyUnchanged();
      const reading = reply.unchanged ? null : readHourly(reply.json, place);
      return { reading, lastModified: reply.lastModified ?? lastModified };
    },
  };
}
