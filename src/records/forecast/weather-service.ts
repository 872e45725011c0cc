/** Forecast grids of the United States National Weather Service. */
import type { LonLat } from "../../geo/tangent-plane.ts";
import { inWeatherServiceArea } from "./areas.ts";
import { type Asking, ask } from "./ask.ts";
import { coordinateText, type Provider, unexpectedlyUnchanged, userAgent } from "./provider.ts";
import { ForecastRefusal } from "./refusal.ts";
import { readGridpoint, readPoint, WEATHER_SERVICE_ORIGIN } from "./weather-service-reply.ts";

export interface WeatherServiceOptions {
  /** Mail address or page by which the service can reach whoever runs this. */
  readonly contact: string;
}

const MEDIA_TYPE = "application/geo+json";
/** The grid of a place hardly ever moves; it is asked for again after a day. */
const GRID_KEPT = 86_400_000;
const MOST_GRIDS = 1000;
/** A grid holds some sixty layers for a week and can be larger than other replies (size from memory). */
const GRID_BYTES = 1_048_576;

/** The feed; `asking` holds the circuit of its one host. */
export function weatherService(options: WeatherServiceOptions, asking: Asking): Provider {
  const headers = { "User-Agent": userAgent(options.contact), Accept: MEDIA_TYPE };
  const grids = new Map<string, { readonly path: string; readonly at: number }>();

  async function gridOf(place: LonLat): Promise<string> {
    const key = `${coordinateText(place.latitude)},${coordinateText(place.longitude)}`;
    const kept = grids.get(key);
    if (kept !== undefined && asking.clock.now() - kept.at < GRID_KEPT) return kept.path;
    const reply = await ask({ address: `${WEATHER_SERVICE_ORIGIN}/points/${key}`, headers }, asking);
    if (reply.unchanged) throw unexpectedlyUnchanged();
    const path = readPoint(reply.json);
    if (grids.size >= MOST_GRIDS) grids.clear();
    grids.set(key, { path, at: asking.clock.now() });
    return path;
  }

  return {
    source: "US National Weather Service",
    attribution: "Forecast: US National Weather Service",
    covers: inWeatherServiceArea,
    async read(place, lastModified) {
      const path = await gridOf(place);
      const since = lastModified === null ? {} : { "If-Modified-Since": lastModified };
      const question = {
        address: `${WEATHER_SERVICE_ORIGIN}${path}`,
        headers: { ...headers, ...since },
        bytes: GRID_BYTES,
      };
      const reply = await ask(question, asking).catch((error: unknown) => {
        if (error instanceof ForecastRefusal && error.code === "not-covered") grids.clear();
        throw error;
      });
      if (reply.unchanged && lastModified === null) throw unexpectedlyUnchanged();
      const reading = reply.unchanged ? null : readGridpoint(reply.json);
      return { reading, lastModified: reply.lastModified ?? lastModified };
    },
  };
}
