/**
 * Cautions of the answer that a card prints: those of services that it joins, without what a step or a rule of the
 * card says already, and in words that ask nobody to use a meter.
 */
import general from "../../../data/cautions.json" with { type: "json" };
import electrical from "../../../data/electrical-cautions.json" with { type: "json" };
import table from "../../../data/hookup-steps.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";

const REPLACED: Readonly<Record<string, string>> = table.cautions;
const COVERED: Readonly<Record<string, string>> = table.covered;

const OF_GROUP: Readonly<Record<string, readonly Service[]>> = {
  electricity: ["power"],
  water: ["water", "fill"],
  sewer: ["sewer"],
};

/** Services of which a caution speaks; empty when it speaks of the rig as such. */
function servicesOf(id: string): readonly Service[] {
  if (electrical.cautions.some((one) => one.id === id)) return ["power"];
  const group = general.cautions.find((one) => one.id === id)?.group;
  return group === undefined ? [] : (OF_GROUP[group] ?? []);
}

/** @param said Ids of the steps and rules that the card prints. */
export function cautionsOfCard(fit: Fit, served: ReadonlySet<Service>, said: ReadonlySet<string>): string[] {
  return fit.cautions
    .filter(({ id }) => {
      const services = servicesOf(id);
      return services.length === 0 || services.some((service) => served.has(service));
    })
    .filter(({ id }) => !said.has(COVERED[id] ?? ""))
    .map(({ id, text }) => REPLACED[id] ?? text);
}
