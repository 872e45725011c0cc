/** Answers and rigs by hand for the card; demo records and rigs are invented. */
import type { Fit } from "../../src/fit/answer.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import type { Card, CardInput, Language } from "../../src/trip/card/card.ts";
import { hookupCard } from "../../src/trip/card/hookup-card.ts";
import { catalogueOf } from "../../src/trip/card/languages.ts";
import { rig } from "../demo/demo.ts";
import { hookup, line, makeFit } from "../draw/makers.ts";

export const coach: CompletedRig = rig("rental-coach");
export const trailer: CompletedRig = rig("long-trailer");

export const STANCE = { facing: "out", along: 1.1, left: -0.35, yaw: 0 } as const;

export function cardOf(
  fit: Fit,
  own: CompletedRig = coach,
  language: Language = "en",
  more: Partial<CardInput> = {},
): Card {
  return hookupCard({ fit, rig: own, ...more }, catalogueOf(language));
}

/** An answer by hand in which power, water and sewer reach and nothing else is said. */
export function reaching(more: Partial<Fit> = {}): Fit {
  return makeFit({
    units: "us",
    stance: STANCE,
    window: { along: { from: 0.4, to: 1.84 }, left: { from: -0.16, to: 0.33 }, why: "" },
    lines: [
      line("power", [], 5.1, 7.62, "reaches"),
      line("water", [], 4.2, 7.62, "reaches", { need: "wanted" }),
      line("sewer", [], 2.2, 2.74, "reaches", { need: "wanted" }),
    ],
    power: {
      ...makeFit().power,
      mating: "direct",
      receptacleType: "nema-tt-30",
      voltsToNeutral: 120,
      legs: 1,
      amps: 30,
      voltAmperes: 3600,
      continuousVoltAmperes: 2880,
    },
    sewer: { ...makeFit().sewer, status: "drains" },
    scene: {
      ...makeFit().scene,
      hookups: [hookup("water", 0.2, 3.1), hookup("power", 1.75, 3.4), hookup("sewer", 2.9, 2.8)],
    },
    cautions: [
      { id: "test-first", text: "Test with a tester or meter.", source: "invented" },
      { id: "power-hot-skin", text: "Tingle.", source: "invented" },
      { id: "lost-neutral", text: "Measure each hot to neutral.", source: "invented" },
      { id: "reversing-spotter", text: "Spotter.", source: "invented" },
      { id: "sewer-rinse-water", text: "The rinse tap is not drinking water.", source: "invented" },
    ],
    ...more,
  });
}
