/**
 * Replies of the forecast hosts, built by hand from their documented schemas (weather-gov/api openapi and gridpoints
 * page, Open-Meteo's forecast description); none is a captured reply. Times and winds are invented.
 */
export const GRID = "https://api.weather.gov/gridpoints/BOU/54,75";
export const NOON = Date.UTC(2026, 6, 4, 12);

export function pointReply(grid: unknown = GRID) {
  return {
    "@context": [],
    type: "Feature",
    properties: { gridId: "BOU", gridX: 54, gridY: 75, forecastGridData: grid },
  };
}

export interface Layer {
  readonly uom?: string;
  readonly values: readonly { readonly validTime: string; readonly value: unknown }[];
}

export function layer(uom: string, ...values: readonly (readonly [string, unknown])[]): Layer {
  return { uom, values: values.map(([validTime, value]) => ({ validTime, value })) };
}

export const KMH = "wmoUnit:km_h-1";
export const DEGREES = "wmoUnit:degree_(angle)";

/** Gust 36 km/h from 18:00 to 21:00; mean 18 km/h for two hours, then 14.4; west, then northwest. */
export const LAYERS: Readonly<Record<string, Layer>> = {
  windDirection: layer(DEGREES, ["2026-07-04T18:00:00+00:00/PT2H", 270], ["2026-07-04T20:00:00+00:00/PT1H", 315]),
  windSpeed: layer(KMH, ["2026-07-04T18:00:00+00:00/PT2H", 18], ["2026-07-04T20:00:00+00:00/PT1H", 14.4]),
  windGust: layer(KMH, ["2026-07-04T18:00:00+00:00/PT3H", 36]),
};

export function gridReply(layers: Readonly<Record<string, unknown>> = LAYERS) {
  return {
    "@context": [],
    id: GRID,
    type: "Feature",
    properties: {
      "@type": "wx:Gridpoint",
      updateTime: "2026-07-04T11:20:00+00:00",
      validTimes: "2026-07-04T12:00:00+00:00/P7DT12H",
      elevation: { unitCode: "wmoUnit:m", value: 1640.1 },
      ...layers,
    },
  };
}

export function hourlyReply(
  hourly: Readonly<Record<string, unknown>> = {},
  more: Readonly<Record<string, unknown>> = {},
) {
  return {
    latitude: 52.52,
    longitude: 13.419,
    elevation: 44.8,
    generationtime_ms: 0.2,
    utc_offset_seconds: 0,
    timezone: "GMT",
    timezone_abbreviation: "GMT",
    hourly_units: {
      time: "iso8601",
      wind_speed_10m: "m/s",
      wind_gusts_10m: "m/s",
      wind_direction_10m: "°",
      weather_code: "wmo code",
    },
    hourly: {
      time: ["2026-07-04T13:00", "2026-07-04T14:00", "2026-07-04T15:00"],
      wind_speed_10m: [6.4, 7.1, 7.7],
      wind_gusts_10m: [11.5, 12.9, 13.9],
      wind_direction_10m: [260, 265, 270],
      weather_code: [3, 3, 61],
      ...hourly,
    },
    ...more,
  };
}
