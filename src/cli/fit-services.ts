/** Power, water and sewer of an answer in words. */
import type { Fit, PowerAnswer } from "../fit/answer.ts";
import type { Say } from "../fit/say.ts";
import { formatCurrent, formatPercent, formatPower } from "../units/print.ts";
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
    ...(power.weakestLink === null ? [] : row(`Weakest link: ${power.weakestLink}.`)),
    ...(drop === null ? [] : row(`Drop: ${drop.status} (${formatPercent(drop.ratio, { round: "up" })}). ${drop.why}`)),
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
    ...(length === null || length === 0 ? [] : [say.available(length)]),
    ...(where === "rig" ? [] : [where]),
  ];
  return facts.length === 0 ? item : `${item} (${facts.join(", ")})`;
}

/** What trips is always told; what runs in full only when everything is asked for. */
function loadRows({ canRun }: PowerAnswer, row: (text: string) => string[], verbose: boolean): string[] {
  const line = ({ appliances, watts, runs, why }: PowerAnswer["canRun"][number]) => {
    const sum = `${appliances.join(" + ")}, ${formatPower(watts, { round: "up" })}.`;
    return row(`${runs ? "Runs" : "Trips"}: ${verbose ? why : sum}`);
  };
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

export function waterAndSewerRows({ sewer, stay }: Fit, { width }: ServiceOptions): string[] {
  const row = (text: string) => wrap(text, { width, first: INDENT, rest: DEEPER });
  return [
    ...(stay.water === null ? [] : row(`Water: ${stay.water}`)),
    ...(sewer.status === "none" ? [] : row(`Sewer: ${sewer.status}. ${sewer.why}`)),
  ];
}
