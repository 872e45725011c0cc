/** Rules that stand beside the steps of a card: in which order to dump, when the awning may be out. */
import table from "../../../data/hookup-steps.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import { barrierText } from "../../wind/say.ts";
import { compassWord } from "../../wind/sector.ts";

const { rules } = table;

/** Null for a rig without tanks and without a drain. */
export function dumpRule(fit: Fit, rig: CompletedRig, served: ReadonlySet<Service>): string | null {
  const drains = rig.connections.some(({ service }) => service === "sewer");
  const { black, grey } = rig.tanks;
  if (!drains && black === null && grey === null) return null;
  if (!served.has("sewer")) return rules["dump-station"];
  const after = black === null && grey !== null ? rules["dump-grey"] : rules["dump-here"];
  return fit.sewer.status === "marginal" ? `${after} ${fit.sewer.why}` : after;
}

/** Empty for a rig without an awning. */
export function awningRules(fit: Fit): string[] {
  if (fit.awning.length === 0) return [];
  const shut = fit.awning.filter(({ room }) => room === "fail" || room === "tight" || room === "unknown");
  const opens = fit.awning.length > shut.length;
  const judged = fit.awning.find(({ exposure }) => exposure !== null)?.exposure;
  return [
    ...(opens ? [rules["awning-rule"]] : []),
    ...shut.map(({ why }) => rules["awning-no-room"].replace("{why}", why)),
    ...(opens ? [judged === undefined ? rules["awning-not-judged"] : exposureWords(fit, judged)] : []),
  ];
}

/** "Exposure to wind at this site: moderate, most from ENE, least from W: trees "Spruce belt" 122 ft upwind." */
function exposureWords({ exposureRose, units }: Fit, level: string | null): string {
  const lead = `Exposure to wind at this site: ${level}`;
  if (exposureRose === null || level === "unknown") return `${lead}.`;
  const sorted = [...exposureRose.sectors].sort((a, b) => a.ratio - b.ratio);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined || least.ratio === most.ratio) return `${lead}.`;
  const by = least.by === null ? "" : `: ${barrierText(least.by, units)}`;
  return `${lead}, most from ${compassWord(most.from)}, least from ${compassWord(least.from)}${by}.`;
}
