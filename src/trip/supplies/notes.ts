/** What season, forecast and connections of a stop call for. */
import table from "../../../data/supplies.json" with { type: "json" };
import { temperatureWords } from "../../fit/stay/say.ts";
import { backflowScope } from "../../fit/water/rules.ts";
import type { UnitSystem } from "../../units/print.ts";
import type { SupplyNote, SupplyStop } from "./types.ts";

const HOURS_PER_DAY = 24;
/** The device that a site's tap usually carries. */
const TAP_DEVICE = "asse-1011";
const NO_SOURCE = "common practice, no source";

function weather(stop: SupplyStop, units: UnitSystem): SupplyNote[] {
  const { temperature } = stop;
  const { freeze, hardFreeze, heat, freezeSource, heatSource } = table.temperature;
  if (temperature === null) return [{ id: "no-forecast", text: table.notes["no-forecast"], source: "the request" }];
  const low = temperatureWords(temperature.low, units, "down");
  const high = temperatureWords(temperature.high, units, "up");
  const made: SupplyNote[] = [];
  const add = (id: keyof typeof table.notes, source: string) =>
    made.push({ id, text: table.notes[id].replace("{low}", low).replace("{high}", high), source });
  if (temperature.low <= freeze) add(stop.hookups.water === "no" ? "freeze-unserved" : "freeze", freezeSource);
  if (temperature.low <= hardFreeze) add("hard-freeze", freezeSource);
  if (temperature.high >= heat) add("heat", heatSource);
  return made;
}

function water(stop: SupplyStop): SupplyNote[] {
  const made: SupplyNote[] = [];
  const { hookups } = stop;
  if (hookups.water === "yes") {
    made.push({ id: "site-water", text: table.notes["site-water"], source: NO_SOURCE });
    const scope = backflowScope(TAP_DEVICE, stop.nights * HOURS_PER_DAY);
    if (scope !== null && !scope.within) {
      made.push({ id: "backflow", text: table.notes.backflow.replace("{why}", scope.why), source: scope.source });
    }
  }
  if (hookups.water === "unknown") {
    made.push({ id: "tap-not-sure", text: table.notes["tap-not-sure"], source: "the site's record" });
  }
  if (hookups.water !== "no" && hookups.sewer !== "yes") {
    made.push({ id: "grey-backs-up", text: table.notes["grey-backs-up"], source: "derived from the plumbing" });
  }
  return made;
}

/** Notes of one stop. */
export function notesOf(stop: SupplyStop, dumpAhead: boolean, units: UnitSystem): readonly SupplyNote[] {
  const none: SupplyNote[] = dumpAhead
    ? []
    : [{ id: "no-dump-ahead", text: table.notes["no-dump-ahead"], source: "the records of the trip" }];
  return [...weather(stop, units), ...water(stop), ...none];
}
