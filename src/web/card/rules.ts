/** Rules that stand beside the steps of a card: in which order to dump, when the awning may be out. */
import table from "../../../data/hookup-steps.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";

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
    ...(opens ? [judged === undefined ? rules["awning-not-judged"] : `Exposure to wind at this site: ${judged}.`] : []),
  ];
}
