/** What would change an answer, what to measure first, and what nobody has checked. */
import type { Fit, FixChange, KitAddition } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import type { CardNote } from "./card.ts";
import { all, amount, type Speaker, text } from "./messages.ts";
import { capital, dashed, kitName, receptacleName, serviceName } from "./names.ts";
import { ownNote, type Told } from "./told.ts";

/** Measurements that are printed; the full answer has them all. */
const MOST_TO_MEASURE = 4;
const MOST_SURER = 2;

function additionWords({ item, plug, receptacle, rating, length }: KitAddition, speaker: Speaker): string {
  const ends = [plug, receptacle].flatMap((one) => (one === undefined ? [] : [receptacleName(one, speaker)]));
  return [
    kitName(item, speaker),
    ...(ends.length > 0 ? [[...new Set(ends)].join(" → ")] : []),
    ...(rating === undefined ? [] : [speaker.print(amount("amps", rating))]),
    ...(length === undefined ? [] : [speaker.print(amount("length", length, "up"))]),
  ].join(", ");
}

function changeWords({ options, kit }: FixChange, speaker: Speaker): string {
  if (kit !== undefined && kit.length > 0)
    return speaker.say("fix.bring", { items: all(kit.map((one) => additionWords(one, speaker))) });
  if (options?.facings !== undefined) return speaker.say("fix.facing");
  if (options?.awning !== undefined) return speaker.say("fix.awning-in");
  const { closeSlides } = options ?? {};
  return closeSlides === undefined
    ? speaker.say("fix.other")
    : speaker.say("fix.close-slide", { slides: text(closeSlides.join(", ")) });
}

function fixNotes({ fit, speaker }: Told): CardNote[] {
  return fit.fixes.map(({ kind, change, verdictAfter }) => {
    const verdict = text(speaker.say(`verdict.${dashed(verdictAfter)}`));
    const words = speaker.say("fix.then", { change: text(changeWords(change, speaker)), verdict });
    return ownNote(dashed(kind), words);
  });
}

const SERVICE_AT = /\/services\/(power|water|fill|sewer|cable)$/;
const CONNECTION_AT = /^\/rig\/connections\/(\d+)\//;
const SHORT_AT = /^\/rig\/(power|waterHose|sewerHose)\//;
/** The short keys of a rig's record. */
const OF_SHORT: Readonly<Record<string, Service>> = {
  power: "power",
  waterHose: "water",
  sewerHose: "sewer",
};

/** The service of a connection that a pointer into the rig lies in. */
function serviceAt(path: string, rig: CompletedRig): Service | undefined {
  const number = Number(CONNECTION_AT.exec(path)?.[1] ?? Number.NaN);
  return OF_SHORT[SHORT_AT.exec(path)?.[1] ?? ""] ?? rig.connections[number]?.service;
}

/** What a pointer into rig or record asks for, as part of a sentence. */
function measureWords({ path }: Fit["unknowns"][number], { rig, speaker }: Told): string {
  const asked = SERVICE_AT.exec(path)?.[1];
  if (asked !== undefined) return speaker.say("measure.ask", { service: text(speaker.say(`service.${asked}`)) });
  const last = `what.${path.slice(path.lastIndexOf("/") + 1)}`;
  const what = text(speaker.say(speaker.has(last) ? last : "what.other"));
  if (!path.startsWith("/rig")) return speaker.say("measure.site", { what });
  const service = serviceAt(path, rig);
  return service === undefined
    ? speaker.say("measure.rig-plain", { what })
    : speaker.say("measure.rig", { what, service: text(serviceName(service, speaker)) });
}

/** What to measure, most deciding first, each once. */
function toMeasure(told: Told): string[] {
  const words = told.fit.unknowns.map((unknown) => measureWords(unknown, told));
  return [...new Set(words)].slice(0, MOST_TO_MEASURE);
}

/** For a card that approves nothing. */
export function insteadNotes(told: Told): CardNote[] {
  if (told.fit.verdict !== "unknown") return fixNotes(told);
  const measure = toMeasure(told).map((what) =>
    ownNote("measure", told.speaker.say("measure.task", { what: text(what) })),
  );
  return [...measure, ...fixNotes(told)];
}

export function uncheckedNotes(told: Told): CardNote[] {
  const { fit, speaker } = told;
  const named = fit.notChecked.map(({ id }) => {
    const key = `unchecked.${id}`;
    return ownNote(id, speaker.say(speaker.has(key) ? key : "unchecked.other"));
  });
  const measure = toMeasure(told);
  const surer = measure.length === 0 || fit.verdict === "unknown" ? [] : [measure.slice(0, MOST_SURER).join("; ")];
  const taken = fit.assumed.length;
  return [
    ...new Map(named.map((note) => [note.text, note])).values(),
    ...surer.map((list) => ownNote("surer", capital(speaker.say("unchecked.surer", { list: text(list) })))),
    ...(taken === 0 ? [] : [ownNote("assumed", speaker.say("unchecked.assumed", { count: amount("count", taken) }))]),
  ];
}
