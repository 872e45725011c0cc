/**
 * The orders of arrival, of departure and of leaving fast: of all steps in data/card-steps.json those that this rig
 * at this site needs. Power steps keep their order whatever else is left out; each bars the next.
 */
import type { CardStep } from "./card.ts";
import { amount, text, type Values } from "./messages.ts";
import {
  applianceName,
  capital,
  hasGas,
  isAboard,
  isGreyOnly,
  isTrailer,
  receptacleName,
  wallName,
  wheelName,
} from "./names.ts";
import { supplyReading } from "./readings.ts";
import { saidOf, stepRule, type Told } from "./told.ts";

/** The power steps in the only order in which they are told. */
const POWER_STEPS = ["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"] as const;
const POWER_OFF_STEPS = ["power-loads-off", "power-breaker-off", "power-stow"] as const;
/** Loads named in a step; a longer list is not read at a pedestal. */
const LOADS_NAMED = 3;

/** What a step says when it is not the plain message of its id. */
interface Fill {
  readonly values?: Values;
  /** Which of several wordings: `do-legs` instead of `do`. */
  readonly wording?: string;
  readonly why?: string;
  readonly expected?: CardStep["expected"];
}

const slidesOut = ({ fit }: Told): boolean => (fit.scene.rig?.slides.length ?? 0) > 0;
const onBlocks = ({ fit }: Told): boolean => fit.level.blocks.length > 0;
const backsIn = ({ fit }: Told): boolean => fit.cautions.some(({ id }) => id === "reversing-spotter");
const hasLines = ({ served }: Told): boolean => served.has("water") || served.has("sewer") || served.has("fill");
const cordInBox = ({ rig }: Told): boolean => rig.generator?.suppliesThrough === "cord-in-box";

/** An awning that has room here and that no wind asked about bars. */
export const opens = ({ fit }: Told): boolean =>
  fit.awning.some(({ room, wind }) => (room === "pass" || room === "pass with kit") && wind?.level !== "retract");

function testFill(told: Told): Fill {
  const { rig, fit, speaker } = told;
  const [tester, protector] = [isAboard(rig, "tester"), isAboard(rig, "protector")];
  const named = tester ? (protector ? "both" : "tester") : protector ? "protector" : "bring";
  const values: Values = { tester: text(speaker.say(`tester.${named}`)) };
  const reading = supplyReading(told);
  if (reading === null || reading.low === null || reading.high === null) return { values, wording: "do-unknown" };
  const { low, high } = reading;
  return {
    values: { ...values, low: amount("volts", low, "up"), high: amount("volts", high, "down") },
    ...(fit.power.legs === 2 ? { wording: "do-legs" } : {}),
    expected: [reading],
  };
}

function loadWords({ rig, speaker }: Told): string {
  const drawing = rig.appliances.filter((one) => one.fuel !== "gas").sort((a, b) => b.watts - a.watts);
  const names = drawing.slice(0, LOADS_NAMED).map((one) => applianceName(one.name, speaker));
  return names.length === 0 ? speaker.say("loads.usual") : names.join(", ");
}

/** Adapter, protector, extension, cord, as they follow each other from the receptacle. */
function chainWords({ fit, speaker }: Told): string {
  const items = fit.power.chain.length === 0 ? [{ item: "cord" }] : fit.power.chain;
  return items.map(({ item }) => (speaker.has(`chain.${item}`) ? speaker.say(`chain.${item}`) : item)).join(", ");
}

function blockWords({ fit, speaker }: Told): string {
  return fit.level.blocks
    .map(({ wheel, height }) =>
      speaker.say("kit.block", { height: amount("length", height, "up"), wheel: text(wheelName(wheel, speaker)) }),
    )
    .join(", ");
}

function slideWords({ fit, rig, speaker }: Told): string {
  const out = rig.slideouts.filter((slide) => fit.scene.rig?.slides.some(({ id }) => id === slide.id));
  return [...new Set(out.map(({ wall }) => wallName(wall, speaker)))].join(", ");
}

/** What the walk round looks at, of what this rig has and this card joined. */
function walkWords(told: Told): string {
  const { served, fit, rig, speaker } = told;
  const parts = [
    ...(served.has("power") ? ["breaker", "cord"] : []),
    ...(hasLines(told) ? ["hoses"] : []),
    "step",
    "hatches",
    "antenna",
    ...(slidesOut(told) ? ["slides"] : []),
    ...(fit.awning.length > 0 ? ["awning"] : []),
    "chocks",
    ...(hasGas(rig) ? ["gas"] : []),
  ];
  return parts.map((part) => speaker.say(`walk.${part}`)).join(", ");
}

function receptacleWords({ fit, speaker }: Told): string {
  return fit.power.receptacleType === null ? "" : receptacleName(fit.power.receptacleType, speaker);
}

/** Gaps and wordings of the steps that have any. */
const FILLS: Readonly<Record<string, (told: Told) => Fill>> = {
  level: (told) => ({ values: { blocks: text(blockWords(told)) } }),
  slides: (told) => ({ values: { slides: text(slideWords(told)) } }),
  "power-off": (told) => ({ values: { receptacle: text(receptacleWords(told)) } }),
  "power-test": testFill,
  "power-loads": (told) => ({ values: { loads: text(loadWords(told)) } }),
  "power-plug": (told) => ({ values: { chain: text(chainWords(told)) } }),
  "generator-cord": ({ served }) => (served.has("power") ? {} : { wording: "do-alone" }),
  fill: ({ rig }) =>
    rig.tanks.fresh === null ? {} : { values: { tank: amount("volume", rig.tanks.fresh) }, wording: "do-size" },
  dump: ({ rig }) => (isGreyOnly(rig) ? { wording: "do-grey", why: "why-grey" } : {}),
  walk: (told) => ({ values: { list: text(walkWords(told)) } }),
  "fast-go": ({ rig }) => (isTrailer(rig) ? { wording: "do-trailer" } : {}),
};

function step(told: Told, id: string): CardStep {
  const { speaker, fit } = told;
  const { service, bars, cautions, source } = stepRule(id);
  const { values = {}, wording = "do", why = "why", expected = [] } = FILLS[id]?.(told) ?? {};
  const key = `step.${id}`;
  return {
    id,
    service,
    text: capital(speaker.say(`${key}.${wording}`, values)),
    why: speaker.say(`${key}.${why}`),
    ifNot: speaker.has(`${key}.not`) ? speaker.say(`${key}.not`) : null,
    bars,
    expected,
    cautions: saidOf(fit, cautions),
    source,
  };
}

/** The steps of arrival, in order. */
export function arrivalSteps(told: Told): CardStep[] {
  const { served, rig, fit } = told;
  const drain = served.has("sewer");
  const ids = [
    "look",
    ...(backsIn(told) ? ["spotter"] : []),
    "stop",
    isTrailer(rig) ? "chock-trailer" : "brake",
    ...(onBlocks(told) ? ["level"] : []),
    ...(slidesOut(told) ? ["slides"] : []),
    ...(served.has("power") ? POWER_STEPS : []),
    ...(cordInBox(told) ? ["generator-cord"] : []),
    ...(served.has("water") ? ["water"] : served.has("fill") ? ["fill"] : []),
    ...(drain && fit.sewer.status === "fall not checked" ? ["sewer-look"] : []),
    ...(drain ? ["sewer"] : []),
    ...(served.has("cable") ? ["cable"] : []),
    ...(opens(told) ? ["awning"] : []),
  ];
  return ids.map((id) => step(told, id));
}

/** The steps of departure, in order; the walk round is the last before the engine starts. */
export function departureSteps(told: Told): CardStep[] {
  const { served, rig, fit } = told;
  const ids = [
    ...(fit.awning.length > 0 ? ["awning-in"] : []),
    ...(served.has("sewer") ? ["dump", "sewer-off"] : []),
    ...(served.has("water") ? ["water-off"] : []),
    ...(served.has("power") ? POWER_OFF_STEPS : []),
    ...(served.has("cable") ? ["cable-off"] : []),
    ...(slidesOut(told) ? ["slides-in"] : []),
    ...(isTrailer(rig) ? ["hitch"] : []),
    ...(onBlocks(told) || !isTrailer(rig) ? ["blocks-away"] : []),
    "walk",
  ];
  return ids.map((id) => step(told, id));
}

/** The short order for storm and flood: people before power before things. */
export function leaveFastSteps(told: Told): CardStep[] {
  const { served, rig, fit } = told;
  const ids = [
    "fast-people",
    ...(served.has("power") ? ["fast-power"] : []),
    ...(hasGas(rig) ? ["fast-gas"] : []),
    ...(hasLines(told) ? ["fast-lines"] : []),
    ...(fit.awning.length > 0 || slidesOut(told) ? ["fast-awning"] : []),
    "fast-go",
  ];
  return ids.map((id) => step(told, id));
}
