/** The forecast service of a running entry point: its settings, the runtime's own fetch and its clock. */
import { type ForecastSettings, forecastConfiguration } from "./configuration.ts";
import { type ForecastConfiguration, type ForecastService, forecastService } from "./service.ts";

/** Null when forecasts are off. Throws RangeError with a plain sentence for settings that make no sense. */
export function liveForecasts(
  settings: ForecastSettings,
  more: Pick<ForecastConfiguration, "shareWaiting"> = {},
): ForecastService | null {
  const configuration = forecastConfiguration(settings);
  if (configuration === null) return null;
  return forecastService(
    { ...configuration, ...more },
    {
      fetch: (address, init) => fetch(address, init),
      clock: {
        now: () => Date.now(),
        sleep: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
      },
    },
  );
}
