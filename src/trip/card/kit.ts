/** The kit that the steps of a card ask for: what the answer names, and what every joined service takes. */
import type { Fit } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";
import type { CardKit } from "./card.ts";
import { amount, any, text } from "./messages.ts";
import { ampsOf, isAboard, isTrailer, kitName, receptacleName } from "./names.ts";
import type { Told } from "./told.ts";

/** What the steps use, by service; item words of data/kit.json. One of several in a group is enough. */
const USED: Readonly<Partial<Record<Service, readonly (readonly string[])[]>>> = {
  power: [["tester", "protector"]],
  water: [["water-regulator"]],
  sewer: [["gloves"], ["sewer-elbow"], ["hose-support"], ["caps"]],
};

type Link = Fit["power"]["chain"][number];

function entry({ speaker }: Told, items: readonly string[], words: string, where: CardKit["where"]): CardKit {
  return { items, text: words, where, whereText: speaker.say(where === "aboard" ? "kit.aboard" : "kit.to-bring") };
}

function groupEntry(told: Told, group: readonly string[]): CardKit {
  const { rig, speaker } = told;
  const found = group.filter((item) => isAboard(rig, item));
  const names = (found.length > 0 ? found : group).map((item) => kitName(item, speaker));
  const words = found.length > 0 ? names.join(", ") : speaker.print(any(names));
  return entry(told, found.length > 0 ? found : group, words, found.length > 0 ? "aboard" : "to bring");
}

/** Amperes that the names of an item's ends say already. */
const rated = ({ from, to }: Link): (number | null)[] =>
  [from, to].map((plug) => (plug === null ? null : ampsOf(plug)));

/** "Adapter, 50 A (NEMA 14-50) → 30 A (NEMA TT-30)": an item of the power chain, from the receptacle on. */
function linkEntry(told: Told, link: Link): CardKit {
  const { speaker } = told;
  const ends = [link.from, link.to].flatMap((plug) => (plug === null ? [] : [receptacleName(plug, speaker)]));
  const details = [
    ...(ends.length > 0 ? [[...new Set(ends)].join(" → ")] : []),
    ...(link.amps === null || rated(link).includes(link.amps) ? [] : [speaker.print(amount("amps", link.amps))]),
    ...(link.item === "extension" && link.length !== null
      ? [speaker.print(amount("length", link.length, "down"))]
      : []),
  ];
  const words = [kitName(link.item, speaker), ...details].join(", ");
  return entry(told, [link.item], words, link.where === "aboard" ? "aboard" : "to bring");
}

/** Items that the answer calls for, other than those of the power chain. */
function calledEntry(told: Told, { item, where }: Fit["kit"][number]): CardKit {
  const { fit, speaker } = told;
  const name = kitName(item, speaker);
  const tallest = Math.max(0, ...fit.level.blocks.map(({ height }) => height));
  const words =
    item === "blocks" && tallest > 0
      ? speaker.say("kit.up-to", { item: text(name), height: amount("length", tallest, "up") })
      : name;
  return entry(told, [item], words, where);
}

/** What is to bring stands first; each thing once. */
export function kitOfCard(told: Told): CardKit[] {
  const { fit, rig, served } = told;
  const links = served.has("power") ? fit.power.chain.filter(({ item }) => item !== "cord") : [];
  const wanted = ({ for: use }: Fit["kit"][number]) => use === "level" || use === "all" || served.has(use);
  const called = fit.kit.filter((one) => one.for !== "power" && wanted(one));
  const named = [...links.map((link) => linkEntry(told, link)), ...called.map((one) => calledEntry(told, one))];
  const answered = new Set(named.flatMap(({ items }) => items));
  const wheels = isTrailer(rig) || fit.level.blocks.length > 0 ? [["chocks"]] : [];
  const groups = [...[...served].flatMap((service) => USED[service] ?? []), ...wheels];
  const used = groups
    .filter((group) => !group.some((item) => answered.has(item)))
    .map((group) => groupEntry(told, group));
  const once = new Map([...named, ...used].map((one) => [one.text, one]));
  return [...once.values()].sort((a, b) => Number(b.where === "to bring") - Number(a.where === "to bring"));
}
