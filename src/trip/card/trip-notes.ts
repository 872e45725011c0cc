/** What a trip adds to a stop's card: how long supplies last, what the next stop lacks, what to do about it here. */
import type { Service } from "../../rig/completed.ts";
import type { CardNote, CardSupply } from "./card.ts";
import { all, amount, text } from "./messages.ts";
import { serviceName } from "./names.ts";
import type { Told } from "./told.ts";

const FILLING: readonly CardSupply["what"][] = ["grey", "black"];
const NAMED: readonly Service[] = ["power", "water", "sewer"];
const SOURCE = "the trip's own reckoning";

const note = (id: string, words: string): CardNote => ({ id, text: words, cautions: [], source: SOURCE });

function supplyNote({ speaker }: Told, { what, daysLow, daysHigh }: CardSupply): CardNote {
  const verb = FILLING.includes(what) ? "fills" : "lasts";
  const supply = text(speaker.say(`trip.${what}`));
  const low = amount("days", daysLow, "down");
  if (daysHigh === null) return note(what, speaker.say(`trip.${verb}-least`, { supply, low }));
  if (speaker.print(low) === speaker.print(amount("days", daysHigh, "down")))
    return note(what, speaker.say(`trip.${verb}`, { supply, low }));
  const band = { supply, low: amount("count", daysLow, "down"), high: amount("days", daysHigh, "up") };
  return note(what, speaker.say(`trip.${verb}-band`, band));
}

function nextNotes({ trip, served, speaker }: Told): CardNote[] {
  const next = trip?.next ?? null;
  if (next === null) return [];
  const lacking = NAMED.filter((service) => next.services[service] === false);
  const name = text(next.name);
  if (lacking.length === 0) return [note("next", speaker.say("trip.next", { next: name }))];
  const services = all(lacking.map((service) => serviceName(service, speaker)));
  const drinks = served.has("water") || served.has("fill");
  return [
    note("next", speaker.say("trip.next-lacks", { next: name, services })),
    ...(lacking.includes("water") && drinks ? [note("fill-first", speaker.say("trip.fill-first"))] : []),
    ...(lacking.includes("sewer") && served.has("sewer") ? [note("dump-first", speaker.say("trip.dump-first"))] : []),
  ];
}

/** Empty without a trip. */
export function tripNotes(told: Told): CardNote[] {
  const { trip, speaker } = told;
  if (trip === null) return [];
  const { party, nights } = trip;
  const reckoned =
    party === null || nights === null
      ? []
      : [note("party", speaker.say("trip.party", { party: amount("count", party), nights: amount("count", nights) }))];
  return [...reckoned, ...trip.supplies.map((supply) => supplyNote(told, supply)), ...nextNotes(told)];
}
