/** Rules that stand beside the steps: tanks, gas, hot outlets, awning and wind, whom to call. */
import { compassWord } from "../../wind/sector.ts";
import type { CardNote } from "./card.ts";
import { amount, text } from "./messages.ts";
import { hasGas, isGreyOnly, wallName } from "./names.ts";
import { opens } from "./steps.ts";
import { ruleNote, type Told } from "./told.ts";

/** Nights from which a stay is long enough for the black tank to want emptying. */
const LONG_STAY = 2;

/** None for a rig without tanks and without a drain. */
function tankRules(told: Told): CardNote[] {
  const { rig, served, fit, trip } = told;
  const drains = rig.connections.some(({ service }) => service === "sewer");
  if (!drains && rig.tanks.black === null && rig.tanks.grey === null) return [];
  if (!served.has("sewer")) return [ruleNote(told, "dump-station")];
  const { status, slope, requiredSlope } = fit.sewer;
  const shallow =
    status !== "marginal" || slope === null
      ? []
      : [
          ruleNote(told, "shallow", {
            slope: amount("percent", slope, "down"),
            wanted: amount("percent", requiredSlope, "up"),
          }),
        ];
  if (isGreyOnly(rig)) return [ruleNote(told, "dump-grey"), ...shallow];
  const short = trip !== null && trip.nights !== null && trip.nights < LONG_STAY;
  return [
    ruleNote(told, "dump-here"),
    ...shallow,
    ruleNote(told, "valves"),
    ...(short ? [] : [ruleNote(told, "long-stay")]),
  ];
}

function hotRules(told: Told): CardNote[] {
  const { rig, speaker } = told;
  if (rig.hotOutlets.length === 0) return hasGas(rig) ? [ruleNote(told, "hot-unknown")] : [];
  const outlets = rig.hotOutlets.map(({ what, wall, fromRear }) =>
    speaker.say("hot.at", {
      what: text(speaker.say(`hot.${what}`)),
      wall: text(wallName(wall, speaker)),
      from: amount("length", fromRear.value),
    }),
  );
  return [ruleNote(told, "hot", { outlets: text(outlets.join(", ")) })];
}

/** From where the site lies most open and most sheltered, and behind what; empty when that is not known. */
function openWords({ fit, speaker }: Told): string[] {
  const sorted = [...(fit.exposureRose?.sectors ?? [])].sort((a, b) => a.ratio - b.ratio);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (least === undefined || most === undefined || least.ratio === most.ratio) return [];
  const values = {
    most: text(speaker.compass(compassWord(most.from))),
    least: text(speaker.compass(compassWord(least.from))),
  };
  const { by } = least;
  if (by === null) return [speaker.say("wind.open", values)];
  const barrier = { ...values, what: text(speaker.say(`barrier.${by.kind}`)), name: text(by.name ?? by.id) };
  return by.distance > 0
    ? [speaker.say("wind.open-by", { ...barrier, distance: amount("far", by.distance, "up") })]
    : [speaker.say("wind.open-within", barrier)];
}

function windRule(told: Told): CardNote {
  const judged = told.fit.awning.find(({ exposure }) => exposure !== null)?.exposure ?? null;
  const note = ruleNote(told, "wind", {}, `rule.wind-${judged ?? "not-judged"}`);
  if (judged === null || judged === "unknown") return note;
  return { ...note, text: [note.text, ...openWords(told)].join(" ") };
}

/** None for a rig without an awning. */
function awningRules(told: Told): CardNote[] {
  const { fit, speaker } = told;
  if (fit.awning.length === 0) return [];
  const shut = fit.awning.filter(({ room }) => room === "fail" || room === "tight" || room === "unknown");
  const blown = fit.awning.filter((one) => !shut.includes(one) && one.wind?.level === "retract");
  const wallsOf = (some: typeof shut) => text([...new Set(some.map(({ side }) => wallName(side, speaker)))].join(", "));
  return [
    ...(opens(told) ? [ruleNote(told, "awning")] : []),
    ...(shut.length > 0 ? [ruleNote(told, "awning-stays", { walls: wallsOf(shut) })] : []),
    ...(blown.length > 0 ? [ruleNote(told, "awning-stays", { walls: wallsOf(blown) }, "rule.awning-forecast")] : []),
    ...(opens(told) ? [windRule(told)] : []),
  ];
}

/** The rules of a card that approves. */
export function standingRules(told: Told): CardNote[] {
  return [
    ...(told.served.has("power") ? [ruleNote(told, "call")] : []),
    ...tankRules(told),
    ...(hasGas(told.rig) ? [ruleNote(told, "gas")] : []),
    ...hotRules(told),
    ...awningRules(told),
  ];
}
