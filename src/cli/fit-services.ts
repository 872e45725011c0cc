/** Power, water and sewer of an answer in words. */
import type { Fit, PowerAnswer } from "../fit/answer.ts";
import type { Say } from "../fit/say.ts";
import { formatCurrent, formatPercent, formatPower, formatVoltage } from "../units/print.ts";
import { wrap } from "./layout.ts";

export interface ServiceOptions {
  readonly width: number;
  readonly say: Say;
  readonly verbose: boolean;
}

const INDENT = "  ";
const DEEPER = "    ";

export function powerRows({ power }: Fit, { width, say, verbose }: ServiceOptions): string[] {
  const { mating, why, chain, drop } = power;
  const row = (text: string) => wrap(text, { width, first: INDENT, rest: DEEPER });
  const using = power.receptacle === null ? "" : ` at ${power.receptacle} (${power.receptacleType ?? "type unknown"})`;
  return [
    ...row(`Mating: ${mating}${using}. ${why}`),
    ...(chain.length === 0
      ? []
      : row(`Chain from the receptacle: ${chain.map((link) => linkText(link, say)).join(" -> ")}.`)),
    ...supplyRows(power, row),
    ...(drop === null
      ? []
      : row(
          `Drop: ${formatVoltage(drop.volts, { round: "up" })} (${formatPercent(drop.ratio, { round: "up" })}), ${drop.status}. ${drop.why}`,
        )),
    ...loadRows(power, row, verbose),
    ...(verbose
      ? power.alternatives.flatMap((one) =>
          row(`Receptacle ${one.receptacle} (${one.type}): ${one.mating}. ${one.why}`),
        )
      : []),
  ];
}

function linkText({ item, amps, length, where }: PowerAnswer["chain"][number], say: Say): string {
  const facts = [
    ...(amps === null ? [] : [formatCurrent(amps, { round: "down" })]),
    ...(length === null ? [] : [say.available(length)]),
    ...(where === "rig" ? [] : [where]),
  ];
  return facts.length === 0 ? item : `${item} (${facts.join(", ")})`;
}

function supplyRows(
  { amps, legs, voltsToNeutral, voltAmperes, continuousVoltAmperes, weakestLink }: PowerAnswer,
  row: (text: string) => string[],
): string[] {
  if (amps === null || voltsToNeutral === null || voltAmperes === null) return [];
  const leg = legs === null ? "" : ` on ${legs === 1 ? "one leg" : `${legs} legs`}`;
  const long =
    continuousVoltAmperes === null ? "" : `, ${Math.floor(continuousVoltAmperes)} VA for three hours or more`;
  const weakest = weakestLink === null ? "" : ` Weakest link: ${weakestLink}.`;
  const supply = `${formatCurrent(amps, { round: "down" })}${leg} at ${formatVoltage(voltsToNeutral)}`;
  return row(`Supply: ${supply}, ${Math.floor(voltAmperes)} VA${long}.${weakest}`);
}

/** What trips is always told; what runs in full only when everything is asked for. */
function loadRows({ canRun }: PowerAnswer, row: (text: string) => string[], verbose: boolean): string[] {
  const line = ({ appliances, watts, runs, why }: PowerAnswer["canRun"][number]) =>
    row(
      `${runs ? "Runs" : "Trips"}: ${appliances.join(" + ")}, ${formatPower(watts, { round: "up" })}. ${verbose ? why : ""}`,
    );
  if (verbose) return canRun.flatMap(line);
  const size = (one: PowerAnswer["canRun"][number]) => one.watts;
  const largest = canRun
    .filter((one) => one.runs)
    .sort((a, b) => size(b) - size(a))
    .slice(0, 1);
  const smallest = canRun
    .filter((one) => !one.runs)
    .sort((a, b) => size(a) - size(b))
    .slice(0, 1);
  return [...largest, ...smallest].flatMap(line);
}

export function waterAndSewerRows({ sewer, stay }: Fit, { width, say }: ServiceOptions): string[] {
  const row = (text: string) => wrap(text, { width, first: INDENT, rest: DEEPER });
  const facts = [
    ...(sewer.fall === null ? [] : [`falls ${say.fine(sewer.fall, "down")}`]),
    ...(sewer.run === null ? [] : [`over a run of ${say.needed(sewer.run)}`]),
    ...(sewer.slope === null ? [] : [`${say.fall(sewer.slope, "down")}`]),
  ];
  const measured = facts.length === 0 ? "" : ` The hose ${sewer.fall === null ? "runs " : ""}${facts.join(", ")}.`;
  return [
    ...(stay.water === null ? [] : row(`Water: ${stay.water}`)),
    ...(sewer.status === "none" ? [] : row(`Sewer: ${sewer.status}.${measured} ${sewer.why}`)),
  ];
}
