/** The plan on a card: cut to the rig, its lines and their marks, with the few words of the card's own language. */

import type { Fit } from "../../fit/answer.ts";
import type { PadPoint } from "../../fit/stance/problem.ts";
import type { Card } from "../../trip/card/card.ts";
import { drawField, fieldInk, type Measures } from "../field.ts";
import type { LabelRequest } from "../labels.ts";
import { picture } from "../picture.ts";
import { extentOf, northOnPage } from "../projection.ts";
import { subjectOf } from "../subject.ts";
import { element } from "../svg.ts";
import { northArrow, scaleBar } from "../symbols.ts";

const WIDTH = 380;
const FONT_SIZE = 11;
/** Room for labels round what is shown, pixels. */
const PADDING = 30;
const MARGIN = 2;
const STRIP = 38;
const NORTH_RADIUS = 13;
const NORTH_FROM_EDGE = 24;
const SCALE_SHARE = 0.5;
const SCALE_DROP = 14;

export interface CardPlan {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** Everything that a reader of the card looks for: the rig, what opens, the lines, their ends. */
function shown({ scene, lines }: Fit): PadPoint[] {
  const { rig, hookups } = scene;
  const used = new Set(lines.map(({ hookup }) => hookup));
  return [
    ...(rig === null
      ? []
      : [...rig.body, ...rig.slides.flatMap((one) => one.outline), ...rig.awnings.flatMap((one) => one.outline)]),
    ...lines.flatMap(({ path }) => path),
    ...hookups.filter(({ id }) => rig === null || used.has(id)).map(({ at }) => at),
    ...(scene.pad === null ? [] : [{ along: 0, left: 0 }]),
  ];
}

/** The label in the card's words; none when the card has none for it. */
function relabelled(request: LabelRequest, labels: Card["planLabels"]): LabelRequest[] {
  const [kind = "", part = ""] = request.key.split(":");
  const rows = labels[request.key] ?? labels[`${kind}:${part}`] ?? labels[kind];
  if (rows === undefined) return [];
  const bold = request.rows[0]?.bold === true;
  return [{ ...request, rows: rows.map((text, index) => ({ text, bold: bold && index === 0 })) }];
}

/** Null when nothing of the site has a known place. */
export function drawCardPlan(fit: Fit, card: Card): CardPlan | null {
  // A card that approves nothing shows no place to stop, though the rig stands where it would be tried.
  const told: Fit = card.approves ? fit : { ...fit, stance: null, window: null };
  const extent = extentOf(shown(fit));
  if (extent === null) return null;
  const measures: Measures = { width: WIDTH, margin: MARGIN, fontSize: FONT_SIZE, narrow: true, units: fit.units };
  const field = drawField(told, subjectOf(fit), measures, MARGIN, {
    frame: { extent, orientation: "exit-right", padding: PADDING },
    noseWord: card.planLabels["nose"]?.[0] ?? "",
    labels: (asked) => asked.flatMap((request) => relabelled(request, card.planLabels)),
  });
  if (field === null) return null;
  const { projection } = field.sheet;
  const top = MARGIN + projection.frame.height;
  const height = Math.ceil(top + STRIP);
  const heading = fit.scene.pad?.heading ?? null;
  const at = { x: WIDTH - NORTH_FROM_EDGE, y: top + STRIP / 2 };
  const north =
    heading !== null && Number.isFinite(heading)
      ? northArrow(at, NORTH_RADIUS, northOnPage(heading, projection.orientation))
      : "";
  const scale = scaleBar({ x: 2 * MARGIN, y: top + SCALE_DROP }, projection.scale, fit.units, WIDTH * SCALE_SHARE);
  const title = `${card.words.plan}${card.words.colon} ${card.site}`;
  const svg = picture(
    {
      width: WIDTH,
      height,
      title,
    },
    fieldInk(field),
    element("g", { "data-part": "north" }, north),
    scale,
  );
  return { svg, width: WIDTH, height };
}
