/** The stay or the wind that a command is asked about, from flags; forecasts by the settings of the environment. */
import { type When, type whenAsked, whenSchema } from "../fit/wind/when.ts";
import { DEFAULT_LIMITS } from "../http/limits.ts";
import { whenOf } from "../http/weather.ts";
import { FORECAST_SETTINGS } from "../records/forecast/configuration.ts";
import { liveForecasts } from "../records/forecast/live.ts";
import type { CampgroundFeature } from "../site/feature.ts";
import { toInputErrors } from "../units/input-error.ts";
import { inputError } from "./ending.ts";
import type { FlagSpec, Given } from "./flags.ts";
import { jsonOf, readText, refusalOf } from "./records.ts";
import type { Terminal } from "./terminal.ts";

export const WHEN_FLAGS: Readonly<Record<string, FlagSpec>> = {
  wind: { value: "wind", help: 'A wind by hand: "20 mph from SW", "gusting 30 mph", "8 m/s from 225 deg".' },
  from: { value: "date", help: "Day of arrival, YYYY-MM-DD: the hours of the stay are told." },
  to: { value: "date", help: "Day of departure. Default: the day of arrival." },
  forecast: {
    value: "file",
    help: "A forecast (JSON with source, issuedAt and hours), or a whole `when` with forecast, from, to and asOf.",
  },
};

/** How forecasts are turned on, for the help of the commands that use them. */
export const FORECAST_HELP: readonly string[] = [
  "Forecasts are off unless these stand in the environment. Without a forecast the hours of a stay are unknown, and everything else is answered.",
  ...Object.entries(FORECAST_SETTINGS).map(([name, meaning]) => `${name}: ${meaning}`),
];

type Members = Record<string, unknown>;

/** Null when no such flag is given. A forecast is fetched only for days without a forecast file. */
export async function readWhen(given: Given, feature: CampgroundFeature, terminal: Terminal): Promise<When | null> {
  const members = await membersOf(given, terminal);
  if (members === null) return null;
  const parsed = whenSchema.safeParse(members);
  if (!parsed.success) {
    throw refusalOf("The wind or the days are refused.", toInputErrors(whenSchema, parsed.error, members));
  }
  return fetched(parsed.data, feature);
}

async function membersOf(given: Given, terminal: Terminal): Promise<Members | null> {
  const file = given.value("forecast");
  const members: Members = file === null ? {} : forecastMembers(jsonOf(await readText(file, terminal), file), file);
  for (const flag of ["wind", "from", "to"] as const) {
    const value = given.value(flag);
    if (value !== null) members[flag] = value;
  }
  if (Object.keys(members).length === 0) return null;
  if (members["from"] !== undefined && members["to"] === undefined) members["to"] = members["from"];
  return members;
}

/** A file may hold the forecast alone, or days with their forecast. */
function forecastMembers(value: unknown, file: string): Members {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw inputError(`${file} holds no forecast: an object with source and hours is wanted.`);
  }
  return "forecast" in value ? { ...value } : { forecast: value };
}

async function fetched(asked: Parameters<typeof whenAsked>[0], feature: CampgroundFeature): Promise<When | null> {
  try {
    // Settings that make no sense matter only to those who need a forecast fetched.
    const needed = asked.wind === undefined && asked.forecast === undefined;
    const forecasts = needed ? liveForecasts(process.env) : null;
    return await whenOf(asked, feature, {
      forecasts,
      now: () => Date.now(),
      patience: DEFAULT_LIMITS.forecastMilliseconds,
    });
  } catch (fault) {
    if (fault instanceof RangeError) throw inputError(fault.message);
    throw fault;
  }
}
