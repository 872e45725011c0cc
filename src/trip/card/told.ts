/** What every part of a card is made from, and the table of its steps and rules. */
import table from "../../../data/card-steps.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import type { CardNote, CardTrip } from "./card.ts";
import type { Speaker, Values } from "./messages.ts";

export interface Told {
  readonly fit: Fit;
  readonly rig: CompletedRig;
  readonly trip: CardTrip | null;
  /** Services that the card joins; empty on a card that approves nothing. */
  readonly served: ReadonlySet<Service>;
  readonly speaker: Speaker;
}

export interface StepRule {
  readonly service: Service | null;
  readonly bars: string | null;
  readonly cautions: readonly string[];
  readonly source: string;
}

type RuleEntry = Pick<StepRule, "cautions" | "source">;

const STEPS = table.steps as Readonly<Record<string, StepRule>>;
const RULES: Readonly<Record<string, RuleEntry>> = table.rules;

export function stepRule(id: string): StepRule {
  const found = STEPS[id];
  if (found === undefined) throw new Error(`data/card-steps.json has no step "${id}".`);
  return found;
}

/** Those cautions of the answer that a step or a rule says. */
export function saidOf(fit: Fit, cautions: readonly string[]): string[] {
  return cautions.filter((id) => fit.cautions.some((one) => one.id === id));
}

/** A rule as a note; `message` when its text is another than that of its id. */
export function ruleNote(told: Told, id: string, values: Values = {}, message = `rule.${id}`): CardNote {
  const rule = RULES[id];
  if (rule === undefined) throw new Error(`data/card-steps.json has no rule "${id}".`);
  const { cautions, source } = rule;
  return { id, text: told.speaker.say(message, values), cautions: saidOf(told.fit, cautions), source };
}

const OWN = "the answer's own reckoning";

/** A note of what the answer itself says. */
export const ownNote = (id: string, text: string): CardNote => ({ id, text, cautions: [], source: OWN });
