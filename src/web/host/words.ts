/** Stays, nights and what is in the way, in words. */
import { nightsOf } from "../../ledger/dates.ts";
import { formatLength } from "../../units/print.ts";
import { dayText } from "../desk/words.ts";
import { plural } from "../shared/words.ts";
import type { Units } from "../state/store.ts";
import type { HostStay, InTheWay, Span } from "./book.ts";

/** What the page calls a stay: its guests when they are known here, else its id. */
export const stayName = ({ id, party }: HostStay): string => (party?.name ? `${party.name} (${id})` : id);

export function nightsText({ arrival, departure }: Span, units: Units): string {
  return `${dayText(arrival, units)} to ${dayText(departure, units)}, ${plural(nightsOf(arrival, departure).length, "night")}`;
}

const CLASS_WORDS: Readonly<Record<string, string>> = {
  van: "van",
  "class-a": "class A motorhome",
  "class-b": "camper van",
  "class-c": "class C motorhome",
  "travel-trailer": "travel trailer",
  "fifth-wheel": "fifth wheel",
  "truck-camper": "truck camper",
  "folding-trailer": "folding trailer",
};

export function rigText(rig: Readonly<Record<string, unknown>>, units: Units): string {
  const { class: kind, length } = rig;
  const long = typeof length === "number" ? formatLength(length, units, { round: "up" }) : String(length ?? "");
  return [CLASS_WORDS[String(kind)] ?? String(kind ?? "rig"), long].filter(Boolean).join(", ");
}

export function wayText(way: InTheWay, units: Units): string {
  switch (way.kind) {
    case "stay":
      return `${stayName(way.stay)} has it, ${nightsText(way.stay, units)}.`;
    case "hold":
      return `It is held, ${nightsText(way.hold, units)}${way.hold.why === null ? "" : `: ${way.hold.why}`}.`;
    case "closure": {
      const { firstNight, until, why } = way.closure;
      const end = until === null ? "no end known" : `open again ${dayText(until, units)}`;
      return `It is closed from ${dayText(firstNight, units)}, ${end}${why === null ? "" : `: ${why}`}.`;
    }
  }
}

/** "9:04 PM": when a list was read. */
export const clockText = (at: number): string =>
  new Intl.DateTimeFormat(undefined, { hour: "numeric", minute: "2-digit" }).format(at);
