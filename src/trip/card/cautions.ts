/**
 * Cautions of the answer that a card prints: those of services that it joins, without what a step or a rule says
 * already, and in words that ask nobody to use a meter.
 */
import general from "../../../data/cautions.json" with { type: "json" };
import electrical from "../../../data/electrical-cautions.json" with { type: "json" };
import type { Service } from "../../rig/completed.ts";
import type { CardNote } from "./card.ts";
import { amount } from "./messages.ts";
import type { Told } from "./told.ts";

const OF_FACT: Readonly<Record<string, Service>> = {
  power: "power",
  water: "water",
  fill: "fill",
  sewer: "sewer",
  dump: "sewer",
};

/** Services of which a caution speaks; empty when it speaks of the rig as such. */
function servicesOf(id: string): readonly Service[] {
  if (electrical.cautions.some((one) => one.id === id)) return ["power"];
  const when = general.cautions.find((one) => one.id === id)?.when ?? [];
  return when.flatMap((fact) => OF_FACT[fact] ?? []);
}

/** @param said Ids of cautions that the card's steps and rules say. */
export function cautionsOfCard({ fit, served, speaker }: Told, said: ReadonlySet<string>): CardNote[] {
  const concerning = fit.cautions.filter(({ id }) => {
    const services = servicesOf(id);
    return services.length === 0 || services.some((service) => served.has(service));
  });
  return concerning.flatMap(({ id, source }) => {
    const key = `caution.${id}`;
    // A caution without words of its own is one that some step or rule always says.
    if (said.has(id) || !speaker.has(key)) return [];
    const words = speaker.say(key, { distance: amount("length", general.generatorDistance, "up") });
    return [{ id, text: words, cautions: [id], source }];
  });
}
