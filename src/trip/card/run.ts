/** What may run together on this supply. */
import type { Fit } from "../../fit/answer.ts";
import type { CardRun } from "./card.ts";
import { amount } from "./messages.ts";
import { applianceName } from "./names.ts";
import type { Told } from "./told.ts";

/** Combinations that are printed; the full answer has them all. */
const MOST_FOR_HOURS = 2;
const MOST_OTHERS = 1;

function supplyWords({ fit, speaker }: Told): string {
  const { amps, voltAmperes, continuousVoltAmperes, voltsToNeutral } = fit.power;
  if (amps === null || voltAmperes === null) return speaker.say("run.unknown");
  const values = {
    amps: amount("amps", amps),
    all: amount("voltamperes", voltAmperes, "down"),
    hours: amount("voltamperes", continuousVoltAmperes ?? 0, "down"),
  };
  return voltsToNeutral === null
    ? speaker.say("run.supply-plain", values)
    : speaker.say("run.supply", { ...values, volts: amount("volts", voltsToNeutral) });
}

export function runOf(told: Told): CardRun {
  const { fit, speaker } = told;
  const { canRun, continuousVoltAmperes } = fit.power;
  const listed = (chosen: Fit["power"]["canRun"], most: number) =>
    chosen.slice(0, most).map(({ appliances, watts }) => {
      const names = appliances.map((name) => applianceName(name, speaker)).join(" + ");
      return `${names} (${speaker.print(amount("watts", watts))})`;
    });
  const forHours = continuousVoltAmperes ?? 0;
  const runs = canRun.filter((one) => one.runs);
  return {
    supply: supplyWords(told),
    hours: listed(
      runs.filter((one) => one.watts <= forHours),
      MOST_FOR_HOURS,
    ),
    briefly: listed(
      runs.filter((one) => one.watts > forHours),
      MOST_OTHERS,
    ),
    never: listed(
      canRun.filter((one) => !one.runs),
      MOST_OTHERS,
    ),
  };
}
