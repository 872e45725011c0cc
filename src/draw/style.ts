/**
 * The look of the plan. Colours come from a set that people with any common colour vision tell apart, darkened until
 * they stand out from white by at least 4.5 to 1; every meaning is said a second time by a shape, a dash or a letter.
 */
import type { Service } from "../rig/completed.ts";

export type MarkShape = "square" | "circle" | "diamond" | "hexagon" | "house";

export interface ServiceStyle {
  readonly letter: string;
  readonly name: string;
  /** What the line of this service is called. */
  readonly lineName: string;
  readonly shape: MarkShape;
  readonly colour: string;
  readonly width: number;
  /** Dash pattern of the outer stroke; undefined for an unbroken one. */
  readonly dash: string | undefined;
  /** Width of the white core that makes a hose hollow; 0 for a cord. */
  readonly core: number;
  readonly legend: string;
}

export const SERVICE_STYLES: Readonly<Record<Service, ServiceStyle>> = {
  sewer: {
    letter: "S",
    name: "Sewer",
    lineName: "sewer hose",
    shape: "diamond",
    colour: "#5b3a1e",
    width: 7,
    dash: "9 2.5",
    core: 3.4,
    legend: "sewer hose: broken tube",
  },
  water: {
    letter: "W",
    name: "Water",
    lineName: "water hose",
    shape: "circle",
    colour: "#00508f",
    width: 4.6,
    dash: undefined,
    core: 1.9,
    legend: "water hose: unbroken tube",
  },
  fill: {
    letter: "F",
    name: "Fill",
    lineName: "fill hose",
    shape: "house",
    colour: "#00614f",
    width: 4.6,
    dash: "14 3 3 3",
    core: 1.9,
    legend: "fill hose: tube, long and short",
  },
  power: {
    letter: "P",
    name: "Power",
    lineName: "power cord",
    shape: "square",
    colour: "#a33b00",
    width: 2.6,
    dash: "11 4",
    core: 0,
    legend: "power cord: long dashes",
  },
  cable: {
    letter: "C",
    name: "Cable",
    lineName: "cable",
    shape: "hexagon",
    colour: "#7a2a70",
    width: 2.8,
    dash: "2 4.5",
    core: 0,
    legend: "cable: dots",
  },
};

/** Wide tubes first, thin cords last, so that lines lying on each other can all be seen. */
export const SERVICE_ORDER: readonly Service[] = ["sewer", "water", "fill", "power", "cable"];

export const INK = "#111111";
export const SOFT_INK = "#4d4d4d";
export const FAINT_INK = "#8a8a8a";
export const PAPER = "#ffffff";
export const PAD_FILL = "#f1efe9";
export const RIG_FILL = "#ffffff";
export const SLIDE_FILL = "#e3e3e3";
export const AWNING_INK = "#2f6f52";
export const OBSTACLE_INK = "#555555";
export const OVERHEAD_INK = "#356b1f";
export const BARRIER_INK = "#6b6b6b";
export const HOT_INK = "#a00f2a";

export const HAIRLINE = 0.8;
export const THIN = 1.2;
export const MEDIUM_STROKE = 2;
export const HEAVY = 4;

export const DASH = {
  middle: "12 3 2 3",
  region: "6 4",
  sigma: "1.5 3",
  overhead: "8 3",
  overheadHatch: "3 5",
  barrier: "10 3 2 3 2 3",
  barrierHatch: "1.5 6",
  awning: "5 3",
  given: undefined,
  assumed: "2.5 2.5",
  notPlaced: "7 5",
  missing: "1 6",
} as const;

/** Radii of marks, pixels. */
export const HOOKUP_RADIUS = 10;
export const LETTER_RADIUS = 8;
export const INLET_RADIUS = 5;
