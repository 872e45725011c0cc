/** What a legend can explain: each entry's words and a sample drawn as on the plan. */
import type { Service } from "../rig/completed.ts";
import { hatch, segmentsPath } from "./polygon.ts";
import {
  AWNING_INK,
  BARRIER_INK,
  DASH,
  FAINT_INK,
  HAIRLINE,
  HEAVY,
  INK,
  MEDIUM_STROKE,
  OBSTACLE_INK,
  OVERHEAD_INK,
  PAPER,
  SERVICE_ORDER,
  SERVICE_STYLES,
  SLIDE_FILL,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { type Attributes, element, line, polyline, type Spot } from "./svg.ts";
import { arrowHead, cross, hookupMark, hotMark } from "./symbols.ts";

export type LegendKey =
  | `line:${Service}`
  | `hookup:${Service}`
  | "inlet"
  | "short"
  | "sigma"
  | "region"
  | "obstacle:solid"
  | "obstacle:overhead"
  | "obstacle:barrier"
  | "awning:open"
  | "awning:in"
  | "door"
  | "door:assumed"
  | "hot"
  | "slide"
  | "window"
  | "stance"
  | "middle"
  | "rear-edge"
  | "stop"
  | "not-placed";

export const SAMPLE_WIDTH = 34;
export const SAMPLE_HEIGHT = 14;
const HATCH_SPACING = 5;
const WIDE_SPACING = 8;
const MARK_RADIUS = 7;
const CROSS_RADIUS = 4;
const HEAD = 6;

export interface Sample {
  readonly words: string;
  /** Draws in a box of SAMPLE_WIDTH by SAMPLE_HEIGHT whose left middle is `at`. */
  draw(at: Spot): string;
}

function flat(at: Spot, attributes: Attributes): string {
  return line(at, { x: at.x + SAMPLE_WIDTH, y: at.y }, attributes);
}

function patch(
  at: Spot,
  ink: string,
  dash: string | undefined,
  spacing: number,
  angle: number,
  hatchDash?: string,
): string {
  const top = at.y - SAMPLE_HEIGHT / 2;
  const box = [
    { x: at.x, y: top },
    { x: at.x + SAMPLE_WIDTH, y: top },
    { x: at.x + SAMPLE_WIDTH, y: top + SAMPLE_HEIGHT },
    { x: at.x, y: top + SAMPLE_HEIGHT },
  ];
  const strokes = spacing > 0 ? segmentsPath(hatch(box, spacing, angle)) : "";
  return (
    element("rect", {
      x: at.x,
      y: top,
      width: SAMPLE_WIDTH,
      height: SAMPLE_HEIGHT,
      fill: "none",
      stroke: ink,
      "stroke-width": THIN,
      "stroke-dasharray": dash,
    }) +
    (strokes === ""
      ? ""
      : element("path", {
          d: strokes,
          stroke: ink,
          "stroke-width": HAIRLINE,
          "stroke-dasharray": hatchDash,
          fill: "none",
        }))
  );
}

function middle(at: Spot): Spot {
  return { x: at.x + SAMPLE_WIDTH / 2, y: at.y };
}

function lineSample(service: Service): Sample {
  const style = SERVICE_STYLES[service];
  return {
    words: `${style.letter} ${style.legend}`,
    draw: (at) =>
      flat(at, { stroke: style.colour, "stroke-width": style.width, "stroke-dasharray": style.dash }) +
      (style.core > 0 ? flat(at, { stroke: PAPER, "stroke-width": style.core }) : ""),
  };
}

function hookupSample(service: Service): Sample {
  const style = SERVICE_STYLES[service];
  return {
    words: `${style.name.toLowerCase()} hookup of the site`,
    draw: (at) => hookupMark(service, middle(at), MARK_RADIUS),
  };
}

function doorSample(words: string, dash: string | undefined): Sample {
  return {
    words,
    draw: (at) => {
      const left = at.x + SAMPLE_WIDTH / 2 - MARK_RADIUS;
      const bottom = at.y + MARK_RADIUS;
      const ink = { stroke: INK, "stroke-dasharray": dash };
      return (
        line(
          { x: left, y: bottom },
          { x: left, y: bottom - 2 * MARK_RADIUS },
          { ...ink, "stroke-width": MEDIUM_STROKE },
        ) +
        polyline(
          [
            { x: left, y: bottom - 2 * MARK_RADIUS },
            { x: left + 2 * MARK_RADIUS, y: bottom },
          ],
          {
            ...ink,
            "stroke-width": HAIRLINE,
          },
        )
      );
    },
  };
}

export const SAMPLES: readonly (readonly [LegendKey, Sample])[] = [
  ...SERVICE_ORDER.map((service): [LegendKey, Sample] => [`line:${service}`, lineSample(service)]),
  [
    "short",
    {
      words: "\u00d7 the line runs out; dots: what is missing",
      draw: (at) =>
        flat(at, {
          stroke: INK,
          "stroke-width": MEDIUM_STROKE,
          "stroke-dasharray": DASH.missing,
          "stroke-linecap": "round",
        }) + cross({ x: at.x + CROSS_RADIUS, y: at.y }, CROSS_RADIUS, INK),
    },
  ],
  ...SERVICE_ORDER.map((service): [LegendKey, Sample] => [`hookup:${service}`, hookupSample(service)]),
  [
    "inlet",
    {
      words: "connection on the rig, in its service's shape",
      draw: (at) =>
        element("circle", {
          cx: at.x + SAMPLE_WIDTH / 2,
          cy: at.y,
          r: CROSS_RADIUS,
          fill: PAPER,
          stroke: SOFT_INK,
          "stroke-width": MEDIUM_STROKE,
        }),
    },
  ],
  [
    "sigma",
    {
      words: "how well a place is known (one standard deviation)",
      draw: (at) =>
        element("circle", {
          cx: at.x + SAMPLE_WIDTH / 2,
          cy: at.y,
          r: MARK_RADIUS,
          fill: "none",
          stroke: SOFT_INK,
          "stroke-width": THIN,
          "stroke-dasharray": DASH.sigma,
          "stroke-linecap": "round",
        }),
    },
  ],
  [
    "region",
    { words: "somewhere in here: place only described", draw: (at) => patch(at, SOFT_INK, DASH.region, 0, 0) },
  ],
  [
    "window",
    {
      words: "window: stop within this bracket",
      draw: (at) =>
        polyline(
          [
            { x: at.x, y: at.y + CROSS_RADIUS },
            { x: at.x, y: at.y - CROSS_RADIUS },
            { x: at.x + SAMPLE_WIDTH, y: at.y - CROSS_RADIUS },
            { x: at.x + SAMPLE_WIDTH, y: at.y + CROSS_RADIUS },
          ],
          { stroke: INK, "stroke-width": HEAVY / 2 },
        ),
    },
  ],
  [
    "stance",
    {
      words: "distance from the rear edge",
      draw: (at) =>
        flat(at, { stroke: INK, "stroke-width": THIN }) +
        arrowHead(at, { x: -1, y: 0 }, HEAD, INK) +
        arrowHead({ x: at.x + SAMPLE_WIDTH, y: at.y }, { x: 1, y: 0 }, HEAD, INK),
    },
  ],
  ["rear-edge", { words: "rear edge of the pad", draw: (at) => flat(at, { stroke: INK, "stroke-width": HEAVY }) }],
  [
    "middle",
    {
      words: "middle line of the pad",
      draw: (at) => flat(at, { stroke: FAINT_INK, "stroke-width": HAIRLINE, "stroke-dasharray": DASH.middle }),
    },
  ],
  [
    "stop",
    {
      words: "wheel stop or kerb",
      draw: (at) =>
        flat(at, { stroke: INK, "stroke-width": HEAVY }) +
        flat(at, { stroke: PAPER, "stroke-width": MEDIUM_STROKE, "stroke-dasharray": DASH.region }),
    },
  ],
  [
    "slide",
    {
      words: "slide",
      draw: (at) =>
        element("rect", {
          x: at.x,
          y: at.y - SAMPLE_HEIGHT / 2,
          width: SAMPLE_WIDTH,
          height: SAMPLE_HEIGHT,
          fill: SLIDE_FILL,
          stroke: INK,
          "stroke-width": THIN,
        }),
    },
  ],
  [
    "awning:open",
    { words: "awning, open", draw: (at) => patch(at, AWNING_INK, DASH.awning, WIDE_SPACING, Math.PI / 2) },
  ],
  ["awning:in", { words: "awning, kept in", draw: (at) => patch(at, AWNING_INK, DASH.awning, 0, 0) }],
  ["door", doorSample("door and its swing", undefined)],
  ["door:assumed", doorSample("door, place assumed", DASH.assumed)],
  ["hot", { words: "hot outlet: keep lines and hands away", draw: (at) => hotMark(middle(at), MARK_RADIUS) }],
  [
    "obstacle:solid",
    { words: "stands in the way", draw: (at) => patch(at, OBSTACLE_INK, undefined, HATCH_SPACING, -Math.PI / 4) },
  ],
  [
    "obstacle:overhead",
    {
      words: "overhead",
      draw: (at) => patch(at, OVERHEAD_INK, DASH.overhead, WIDE_SPACING, Math.PI / 4, DASH.overheadHatch),
    },
  ],
  [
    "obstacle:barrier",
    {
      words: "no line may cross",
      draw: (at) => patch(at, BARRIER_INK, DASH.barrier, HATCH_SPACING, 0, DASH.barrierHatch),
    },
  ],
  ["not-placed", { words: "rig to scale, not placed", draw: (at) => patch(at, INK, DASH.notPlaced, 0, 0) }],
];
