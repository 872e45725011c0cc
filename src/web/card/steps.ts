/**
 * The order of arrival and of departure: of all steps in data/hookup-steps.json those that this rig at this site needs.
 * Power steps keep their order whatever else is left out; each bars the next.
 */
import table from "../../../data/hookup-steps.json" with { type: "json" };
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, Service } from "../../rig/completed.ts";
import { formatLength, formatVoltage } from "../../units/print.ts";
import { receptacleName } from "./names.ts";

export interface CardStep {
  readonly id: string;
  readonly text: string;
  readonly why: string;
  /** What stops the list here, and what to do then. */
  readonly ifNot: string | null;
}

type Written = { readonly do: string; readonly why: string; readonly ifNot?: string };
const ARRIVAL: Readonly<Record<string, Written>> = table.arrival;
const DEPARTURE: Readonly<Record<string, Written>> = table.departure;

/** The power steps in the only order in which they are told. */
export const POWER_STEPS = ["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"] as const;
const TRAILERS: readonly CompletedRig["class"][] = ["travel-trailer", "fifth-wheel", "folding-trailer"];
/** Loads named in a step; a longer list is not read at a pedestal. */
const LOADS_NAMED = 3;

export interface StepInput {
  readonly fit: Fit;
  readonly rig: CompletedRig;
  readonly served: ReadonlySet<Service>;
}

function filled(
  steps: Readonly<Record<string, Written>>,
  id: string,
  words: Readonly<Record<string, string>>,
): CardStep {
  const written = steps[id];
  if (written === undefined) throw new Error(`There is no step "${id}".`);
  const fill = (text: string) => text.replace(/\{(\w+)\}/g, (_, name: string) => words[name] ?? "");
  return {
    id,
    text: fill(written.do),
    why: fill(written.why),
    ifNot: written.ifNot === undefined ? null : fill(written.ifNot),
  };
}

export const isTrailer = (rig: CompletedRig): boolean => TRAILERS.includes(rig.class);
const aboard = (rig: CompletedRig, item: string): boolean =>
  rig.kit.some((one) => one.item === item && one.where === "aboard");

const CHAIN_WORDS: Readonly<Record<string, string>> = {
  cord: "the rig's cord",
  adapter: "adapter",
  protector: "protector",
  extension: "extension cord",
};

/** "Site's receptacle, adapter, protector, the rig's cord, in this order." */
function chainWords(fit: Fit): string {
  const items = fit.power.chain.map(({ item }) => CHAIN_WORDS[item] ?? item);
  return items.length < 2 ? "Plug in the rig's cord." : `From the receptacle on: ${items.join(", ")}.`;
}

function voltsWords(fit: Fit): string {
  const { voltsToNeutral, voltsLegToLeg, legs } = fit.power;
  if (voltsToNeutral === null) return "the right voltage";
  const near = `about ${formatVoltage(voltsToNeutral)}`;
  return legs === 2 && voltsLegToLeg !== null ? `${near} on each leg` : near;
}

function testerWords(rig: CompletedRig): string {
  const names = [
    ...(aboard(rig, "tester") ? ["plug-in tester"] : []),
    ...(aboard(rig, "protector") ? ["protector"] : []),
  ];
  return names.length === 0 ? "Plug-in tester (bring one that fits this receptacle)" : capital(names.join(" or "));
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function loadWords(rig: CompletedRig): string {
  const drawing = rig.appliances.filter((one) => one.fuel !== "gas").sort((a, b) => b.watts - a.watts);
  const names = drawing.slice(0, LOADS_NAMED).map((one) => one.name);
  return names.length === 0 ? "air conditioner, water heater, microwave" : names.join(", ");
}

/** Words that fill the gaps of the written steps. */
function wordsFor({ fit, rig }: StepInput): Record<string, string> {
  const slides = rig.slideouts.filter((slide) => fit.scene.rig?.slides.some(({ id }) => id === slide.id));
  return {
    receptacle:
      fit.power.receptacleType === null ? "receptacle" : `${receptacleName(fit.power.receptacleType)} receptacle`,
    tester: testerWords(rig),
    volts: voltsWords(fit),
    loads: loadWords(rig),
    chain: chainWords(fit),
    blocks: fit.level.blocks
      .map(({ wheel, height }) => `${formatLength(height, fit.units, { round: "up" })} under ${wheel}`)
      .join(", "),
    slides: slides.map((slide) => `${slide.id} (${slide.wall})`).join(", "),
    regulator: "regulator at the tap, then ",
    dump:
      rig.tanks.black === null && rig.tanks.grey !== null
        ? "Empty the grey tank."
        : "Black valve open until dry, shut; then the grey valve, shut.",
  };
}

const slidesOut = ({ fit }: StepInput): boolean => (fit.scene.rig?.slides.length ?? 0) > 0;
const onBlocks = ({ fit }: StepInput): boolean => fit.level.blocks.length > 0;
const backsIn = ({ fit }: StepInput): boolean => fit.cautions.some(({ id }) => id === "reversing-spotter");
/** An awning that has room here. */
const opens = ({ fit }: StepInput): boolean =>
  fit.awning.some(({ room }) => room === "pass" || room === "pass with kit");

/** The steps of arrival, in order. */
export function arrivalSteps(input: StepInput): CardStep[] {
  const { served, rig, fit } = input;
  const drain = served.has("sewer");
  const ids = [
    "look",
    ...(backsIn(input) ? ["spotter"] : []),
    "stop",
    isTrailer(rig) ? "chock-trailer" : "brake",
    ...(onBlocks(input) ? ["level"] : []),
    ...(slidesOut(input) ? ["slides"] : []),
    ...(served.has("power") ? POWER_STEPS : []),
    ...(served.has("water") ? ["water"] : served.has("fill") ? ["fill"] : []),
    ...(drain && fit.sewer.status === "fall not checked" ? ["sewer-look"] : []),
    ...(drain ? ["sewer"] : []),
    ...(served.has("cable") ? ["cable"] : []),
    ...(opens(input) ? ["awning"] : []),
  ];
  const words = wordsFor(input);
  return ids.map((id) => filled(ARRIVAL, id, words));
}

/** The steps of departure, in order. */
export function departureSteps(input: StepInput): CardStep[] {
  const { served, rig } = input;
  const ids = [
    ...(input.fit.awning.length > 0 ? ["awning-in"] : []),
    ...(served.has("sewer") ? ["dump", "sewer-off"] : []),
    ...(served.has("water") ? ["water-off"] : []),
    ...(served.has("power") ? ["power-loads-off", "power-breaker-off", "power-stow"] : []),
    ...(served.has("cable") ? ["cable-off"] : []),
    ...(slidesOut(input) ? ["slides-in"] : []),
    ...(isTrailer(rig) ? ["hitch"] : []),
    ...(onBlocks(input) || !isTrailer(rig) ? ["blocks-away"] : []),
    "walk",
  ];
  const words = wordsFor(input);
  return ids.map((id) => filled(DEPARTURE, id, words));
}
