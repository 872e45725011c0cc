/** The kit that the steps of a card ask for: what the answer names, and what every joined service takes. */
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import { kitTitle } from "./names.ts";
import { isTrailer } from "./steps.ts";

export interface CardKit {
  readonly text: string;
  readonly where: "aboard" | "to bring";
}

/** What the steps use, by service; item words of data/kit.json. One of several in a group is enough. */
const USED: Readonly<Partial<Record<Service, readonly (readonly string[])[]>>> = {
  power: [["tester", "protector"]],
  water: [["water-regulator"]],
  sewer: [["gloves"], ["sewer-elbow"], ["hose-support"], ["caps"]],
};

interface Input {
  readonly fit: Fit;
  readonly rig: CompletedRig;
  readonly served: ReadonlySet<Service>;
}

function entryOf(rig: CompletedRig, group: readonly string[]): CardKit {
  const found = group.filter((item) => rig.kit.some((one) => one.item === item && one.where === "aboard"));
  const named = found.length > 0 ? found : group;
  const joined = named.map(kitTitle).join(found.length > 0 ? ", " : " or ");
  return { text: joined, where: found.length > 0 ? "aboard" : "to bring" };
}

/** What is to bring stands first; each thing once. */
export function kitOfCard({ fit, rig, served }: Input): CardKit[] {
  const named = fit.kit.map(({ description, where }) => ({
    text: `${description.charAt(0).toUpperCase()}${description.slice(1)}`,
    where,
  }));
  const wheels = isTrailer(rig) || fit.level.blocks.length > 0 ? [["chocks"]] : [];
  const groups = [...[...served].flatMap((service) => USED[service] ?? []), ...wheels];
  const answered = new Set(fit.kit.map(({ item }) => item));
  const used = groups.filter((group) => !group.some((item) => answered.has(item))).map((group) => entryOf(rig, group));
  const all = new Map([...named, ...used].map((entry) => [entry.text, entry]));
  return [...all.values()].sort((a, b) => Number(b.where === "to bring") - Number(a.where === "to bring"));
}
