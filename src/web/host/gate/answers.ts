/**
 * The four questions of the gate, and the rig that their answers describe: whatever they leave open is taken on the
 * large side, and said.
 */
import type { Units, WireRig } from "../../state/store.ts";

/** Marks on the ground beside the lane: the foremost point stands at the first one, the rearmost before another. */
const MARKS: Readonly<Record<Units, readonly number[]>> = {
  us: [20, 25, 30, 35, 40, 45],
  metric: [6, 7.5, 9, 10.5, 12, 13.5],
};

export const PLUGS = [
  { id: "nema-14-50", name: "50 A" },
  { id: "nema-tt-30", name: "30 A" },
  { id: "nema-5-20", name: "20 A" },
  { id: "none", name: "None" },
] as const;
export type PlugAnswer = (typeof PLUGS)[number]["id"];

export const SLIDES = [
  { id: "none", name: "None", sides: [] },
  { id: "left", name: "Street side", sides: ["left"] },
  { id: "right", name: "Door side", sides: ["right"] },
  { id: "both", name: "Both", sides: ["left", "right"] },
] as const;
export type SlideAnswer = (typeof SLIDES)[number]["id"];

export const SECONDS = [
  { id: "none", name: "None" },
  { id: "car", name: "Car behind" },
  { id: "truck", name: "Truck in front" },
] as const;
export type SecondAnswer = (typeof SECONDS)[number]["id"];

export interface GateAnswers {
  /** Length to the mark that the rig does not reach, as a text with its unit. */
  readonly length: string;
  readonly plug: PlugAnswer;
  readonly slides: SlideAnswer;
  readonly second: SecondAnswer;
}

export interface LengthChoice {
  /** The mark that the rig does not reach, as a text with its unit. */
  readonly length: string;
  readonly name: string;
}

/** Spaces between two marks; the first is everything before the first mark. */
export function lengthChoices(units: Units): readonly LengthChoice[] {
  const unit = units === "us" ? "ft" : "m";
  return MARKS[units].map((mark, index, all) => {
    const before = all[index - 1];
    return { length: `${mark} ${unit}`, name: before === undefined ? `under ${mark}` : `${before} to ${mark}` };
  });
}

/** Lengths below which a motorhome is not taken for the largest class, by unit. */
const SMALL: Readonly<Record<string, number>> = { ft: 32, m: 9.75 };

function classOf({ length, second }: GateAnswers): string {
  const [number = "0", unit = "ft"] = length.split(" ");
  if (second === "truck") return "travel-trailer";
  return Number(number) < (SMALL[unit] ?? 0) ? "class-c" : "class-a";
}

/**
 * Cords and hoses that are aboard as a rule, and a slide as deep as they come, along the middle half of the wall;
 * common practice, no source.
 */
const TAKEN = { cord: "25 ft", waterHose: "25 ft", sewerHose: "10 ft", slideDepth: "3 ft" } as const;
const SLIDE_SHARE = { fromRear: 0.25, length: 0.5 } as const;

/** A share of a length that is a text with its unit. */
function shareOf(length: string, share: number): string {
  const [number = "0", unit = "ft"] = length.split(" ");
  return `${Number(number) * share} ${unit}`;
}

export function rigOf(answers: GateAnswers): WireRig {
  const { length, plug, slides, second } = answers;
  const sides = SLIDES.find(({ id }) => id === slides)?.sides ?? [];
  return {
    name: "At the gate",
    class: classOf(answers),
    length,
    ...(plug === "none" ? {} : { power: { plug, cord: TAKEN.cord } }),
    waterHose: TAKEN.waterHose,
    sewerHose: TAKEN.sewerHose,
    slideouts: sides.map((side) => ({
      side,
      fromRear: shareOf(length, SLIDE_SHARE.fromRear),
      length: shareOf(length, SLIDE_SHARE.length),
      depth: TAKEN.slideDepth,
    })),
    ...(second === "car" ? { towing: { what: "car", coupling: "four-wheels-down" } } : {}),
    ...(second === "truck" ? { towing: { what: "truck", coupling: "ball" } } : {}),
  };
}

const CLASS_WORDS: Readonly<Record<string, string>> = {
  "class-a": "a large motorhome",
  "class-c": "a motorhome",
  "travel-trailer": "a trailer",
};

/** What the answers leave open and what is taken for it. */
export function takenWords(answers: GateAnswers): string {
  const cord = answers.plug === "none" ? "" : `${TAKEN.cord} of cord, `;
  return `Taken for ${CLASS_WORDS[classOf(answers)]}, ${answers.length} long, with ${cord}${TAKEN.waterHose} of water hose and ${TAKEN.sewerHose} of drain hose. Ask when it looks otherwise.`;
}

/** The answers in one line. */
export function answersText({ length, plug, slides, second }: GateAnswers): string {
  const name = (list: readonly { readonly id: string; readonly name: string }[], id: string) =>
    list.find((one) => one.id === id)?.name.toLowerCase() ?? id;
  const parts = [
    `up to ${length}`,
    plug === "none" ? "no plug" : (PLUGS.find(({ id }) => id === plug)?.name ?? plug),
    slides === "none" ? "no slides" : `slides: ${name(SLIDES, slides)}`,
    second === "none" ? "alone" : name(SECONDS, second),
  ];
  return parts.join(", ");
}
