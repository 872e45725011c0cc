/**
 * Wind forecasts by place, from the feeds that the configuration allows: the weather service in the United States,
 * Open-Meteo elsewhere or when the first does not answer. Kept for a while with its honest age; when nothing can be
 * had, the last one kept is given with its age, and the awning's hours judge by that age.
 */
import type { LonLat } from "../../geo/tangent-plane.ts";
import type { WindForecast } from "../../wind/forecast.ts";
import type { Asking, AskLimits, Clock, Fetch } from "./ask.ts";
import { Circuit, type CircuitOptions } from "./circuit.ts";
import { type OpenMeteoOptions, openMeteo } from "./open-meteo.ts";
import { coordinateText, type Provider } from "./provider.ts";
import { type ForecastProblemCode, ForecastRefusal } from "./refusal.ts";
import { type WeatherServiceOptions, weatherService } from "./weather-service.ts";

export interface ForecastConfiguration {
  /** Left out: not asked. */
  readonly weatherService?: WeatherServiceOptions;
  /** Left out: not asked. */
  readonly openMeteo?: OpenMeteoOptions;
  readonly limits?: Partial<AskLimits>;
  readonly circuit?: Partial<CircuitOptions>;
  /** Milliseconds for which a forecast is given again without asking. */
  readonly keepFor?: number;
  /**
   * Whether a question waits for the same one that is under way. Not at the edge, where one request must not wait for
   * work that belongs to another. Default true.
   */
  readonly shareWaiting?: boolean;
}

export type ForecastAnswer =
  | {
      readonly ok: true;
      readonly forecast: WindForecast;
      /** Seconds since the forecast was last known to be the newest. */
      readonly age: number;
      /** Why it is not newer; null when it is as new as can be. */
      readonly warning: string | null;
    }
  | { readonly ok: false; readonly code: ForecastProblemCode; readonly text: string };

export interface ForecastService {
  /** Names of the feeds that are set up, in the order in which they are asked. */
  readonly feeds: readonly string[];
  /** The wind at a place; never throws. */
  wind(place: LonLat): Promise<ForecastAnswer>;
}

export const FORECAST_LIMITS: AskLimits = { timeout: 2000, attempts: 3, backOff: 200, bytes: 262_144 };
const CIRCUIT: CircuitOptions = { failures: 5, rest: 60_000 };
const KEEP_FOR = 900_000;
const MOST_KEPT = 500;
const MILLISECONDS_PER_SECOND = 1000;
const HIGHEST_LATITUDE = 90;
const HIGHEST_LONGITUDE = 180;

interface Kept {
  readonly forecast: WindForecast;
  readonly lastModified: string | null;
}

/** A service of its own cache and circuits. Throws RangeError for a configuration that no host would take. */
export function forecastService(
  configuration: ForecastConfiguration,
  { fetch, clock }: { readonly fetch: Fetch; readonly clock: Clock },
): ForecastService {
  const limits = { ...FORECAST_LIMITS, ...configuration.limits };
  // Each feed has one host, so a circuit for each feed is a circuit for each host.
  const asking = (): Asking => ({
    fetch,
    clock,
    limits,
    circuit: new Circuit({ ...CIRCUIT, ...configuration.circuit }),
  });
  const providers: Provider[] = [];
  if (configuration.weatherService) providers.push(weatherService(configuration.weatherService, asking()));
  if (configuration.openMeteo) providers.push(openMeteo(configuration.openMeteo, asking()));
  const kept = new Map<string, Kept>();
  const underWay = new Map<string, Promise<ForecastAnswer>>();
  const keepFor = configuration.keepFor ?? KEEP_FOR;
  return {
    feeds: providers.map(({ source }) => source),
    wind(place) {
      if (!isPlace(place)) return Promise.resolve(problem("bad-place", "The place is no longitude and latitude."));
      const key = `${coordinateText(place.latitude)},${coordinateText(place.longitude)}`;
      const waiting = underWay.get(key);
      if (waiting !== undefined) return waiting;
      const able = providers.filter((provider) => provider.covers(place));
      const answer = answerFor(place, key, able, { kept, clock, keepFor }).finally(() => underWay.delete(key));
      if (configuration.shareWaiting ?? true) underWay.set(key, answer);
      return answer;
    },
  };
}

function isPlace({ longitude, latitude }: LonLat): boolean {
  return Math.abs(longitude) <= HIGHEST_LONGITUDE && Math.abs(latitude) <= HIGHEST_LATITUDE;
}

function problem(code: ForecastProblemCode, text: string): ForecastAnswer {
  return { ok: false, code, text };
}

interface Shelf {
  readonly kept: Map<string, Kept>;
  readonly clock: Clock;
  readonly keepFor: number;
}

async function answerFor(
  place: LonLat,
  key: string,
  providers: readonly Provider[],
  shelf: Shelf,
): Promise<ForecastAnswer> {
  const { kept, clock, keepFor } = shelf;
  const refusals: ForecastRefusal[] = [];
  for (const provider of providers) {
    const own = kept.get(`${provider.source} ${key}`);
    if (own !== undefined && clock.now() - own.forecast.checkedAt < keepFor) return given(own.forecast, clock, null);
    try {
      return given(await renewed(provider, place, key, own, shelf), clock, null);
    } catch (error) {
      refusals.push(asRefusal(error));
    }
  }
  const [first] = refusals;
  if (first === undefined) return problem("no-provider", "No forecast is set up for this place.");
  const old = providers.flatMap(({ source }) => kept.get(`${source} ${key}`)?.forecast ?? []);
  const [newest] = old.sort((a, b) => b.checkedAt - a.checkedAt);
  return newest === undefined ? problem(first.code, first.message) : given(newest, clock, first.message);
}

function given(forecast: WindForecast, clock: Clock, warning: string | null): ForecastAnswer {
  const age = Math.max(0, Math.round((clock.now() - forecast.checkedAt) / MILLISECONDS_PER_SECOND));
  return { ok: true, forecast, age, warning };
}

async function renewed(
  provider: Provider,
  place: LonLat,
  key: string,
  own: Kept | undefined,
  { kept, clock }: Shelf,
): Promise<WindForecast> {
  const { reading, lastModified } = await provider.read(place, own?.lastModified ?? null);
  const { source, attribution } = provider;
  const checkedAt = clock.now();
  const forecast: WindForecast =
    reading === null ? { ...(own as Kept).forecast, checkedAt } : { source, attribution, checkedAt, ...reading };
  const name = `${source} ${key}`;
  kept.delete(name);
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(name, { forecast, lastModified });
  return forecast;
}

function asRefusal(error: unknown): ForecastRefusal {
  if (error instanceof ForecastRefusal) return error;
  return new ForecastRefusal("unreadable", "The forecast's reply cannot be read.");
}
