/** What belongs to the rig besides its body: awnings, slides, doors, hot outlets, connections. */
import type { Scene } from "../fit/answer.ts";
import { edgesOf, hatch, middleOf, segmentsPath } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { addOutline, addWires, COST_EDGE, PRIORITY, reserveMark, type Sheet } from "./sheet.ts";
import { AWNING_INK, DASH, HAIRLINE, HOT_INK, INK, INLET_RADIUS, MEDIUM_STROKE, SLIDE_FILL, THIN } from "./style.ts";
import { cleanText, element, line, polygon, polyline, type Spot } from "./svg.ts";
import { hotMark, inletMark } from "./symbols.ts";

type RigScene = NonNullable<Scene["rig"]>;

const SLIDE_MAX_DISTANCE = 12;
const AWNING_SPACING = 9;
const AREA_MAX_DISTANCE = 76;

export function drawAwning(sheet: Sheet, awning: RigScene["awnings"][number]): void {
  const outline = awning.outline.filter(isPlaced).map(sheet.projection.toPage);
  if (outline.length < 2) {
    return;
  }
  const ink = { stroke: AWNING_INK, "stroke-width": THIN, "stroke-dasharray": DASH.awning };
  const stripes = awning.open ? segmentsPath(hatch(outline, AWNING_SPACING, Math.PI / 2)) : "";
  sheet.layers.rig.push(
    element(
      "g",
      { "data-awning": cleanText(awning.id), "data-open": awning.open ? "yes" : "no" },
      polygon(outline, { fill: "none", ...ink }),
      stripes === "" ? "" : element("path", { d: stripes, stroke: AWNING_INK, "stroke-width": HAIRLINE, fill: "none" }),
    ),
  );
  addOutline(sheet, outline);
  sheet.legend.add(awning.open ? "awning:open" : "awning:in");
  sheet.labels.push({
    key: `awning:${cleanText(awning.id)}`,
    rows: [{ text: awning.open ? "awning open" : "awning in" }],
    anchors: [middleOf(outline), ...edgesOf(outline).map((edge) => middleOf([edge.from, edge.to]))],
    priority: PRIORITY.area,
    fontSize: sheet.fontSize,
    colour: INK,
    mayCover: true,
    offBody: true,
    maxDistance: AREA_MAX_DISTANCE,
  });
}

export function drawSlide(sheet: Sheet, slide: RigScene["slides"][number]): void {
  const outline = slide.outline.filter(isPlaced).map(sheet.projection.toPage);
  if (outline.length < 2) {
    return;
  }
  const attributes = { fill: SLIDE_FILL, stroke: INK, "stroke-width": THIN, "data-slide": cleanText(slide.id) };
  sheet.layers.rig.push(polygon(outline, attributes));
  addOutline(sheet, outline);
  sheet.legend.add("slide");
  if (sheet.compact) {
    return;
  }
  sheet.labels.push({
    key: `slide:${cleanText(slide.id)}`,
    rows: [{ text: "slide" }],
    offBody: true,
    anchors: [middleOf(outline)],
    priority: PRIORITY.slide,
    fontSize: sheet.fontSize,
    colour: INK,
    mayCover: true,
    maxDistance: SLIDE_MAX_DISTANCE,
  });
}

const ARC_STEPS = 8;
const DOOR_MAX_DISTANCE = 54;

export function drawDoor(sheet: Sheet, door: RigScene["doors"][number]): void {
  const size = Math.hypot(door.outward.along, door.outward.left);
  if (!isPlaced(door.at) || !(size > 0) || !(door.width > 0)) {
    return;
  }
  const out = { along: door.outward.along / size, left: door.outward.left / size };
  const wall = { along: -out.left, left: out.along };
  const at = (across: number, outward: number): Spot =>
    sheet.projection.toPage({
      along: door.at.along + wall.along * across + out.along * outward,
      left: door.at.left + wall.left * across + out.left * outward,
    });
  const hinge = -door.width / 2;
  const swing = Array.from({ length: ARC_STEPS + 1 }, (_, step) => {
    const angle = ((Math.PI / 2) * step) / ARC_STEPS;
    return at(hinge + door.width * Math.cos(angle), door.width * Math.sin(angle));
  });
  const ink = { stroke: INK, "stroke-dasharray": door.given ? DASH.given : DASH.assumed };
  sheet.layers.rig.push(
    element(
      "g",
      { "data-door": cleanText(door.id) },
      polyline(swing, { ...ink, "stroke-width": HAIRLINE }),
      line(at(hinge, 0), at(hinge, door.width), { ...ink, "stroke-width": MEDIUM_STROKE }),
    ),
  );
  addWires(sheet, edgesOf([at(hinge, 0), at(hinge, door.width), at(-hinge, 0)]), COST_EDGE);
  sheet.legend.add(door.given ? "door" : "door:assumed");
  if (sheet.compact) {
    return;
  }
  sheet.labels.push({
    key: `door:${cleanText(door.id)}`,
    rows: [{ text: door.given ? "door" : "door (assumed)" }],
    anchors: [at(0, door.width / 2), at(0, door.width)],
    priority: PRIORITY.door,
    fontSize: sheet.fontSize,
    colour: INK,
    offBody: true,
    maxDistance: DOOR_MAX_DISTANCE,
  });
}

const HOT_RADIUS = 8;

export function drawHotOutlet(sheet: Sheet, outlet: RigScene["hotOutlets"][number]): void {
  if (!isPlaced(outlet.at)) {
    return;
  }
  const what = cleanText(outlet.what).replace(/-/g, " ");
  const at = reserveMark(sheet, sheet.projection.toPage(outlet.at), HOT_RADIUS);
  sheet.layers.marks.push(element("g", { "data-hot": cleanText(outlet.id) }, hotMark(at, HOT_RADIUS)));
  sheet.legend.add("hot");
  sheet.labels.push({
    key: `hot:${cleanText(outlet.id)}`,
    rows: sheet.compact ? [{ text: "hot" }] : [{ text: `hot: ${what}` }],
    anchors: [at],
    priority: PRIORITY.hot,
    fontSize: sheet.fontSize,
    colour: HOT_INK,
    otherwise: `Hot outlet: ${what}.`,
  });
}

export function drawInlets(sheet: Sheet, rig: RigScene): void {
  for (const connection of rig.connections.filter((each) => isPlaced(each.at))) {
    const at = reserveMark(sheet, sheet.projection.toPage(connection.at), INLET_RADIUS);
    sheet.layers.marks.push(
      element("g", { "data-inlet": cleanText(connection.id) }, inletMark(connection.service, at, INLET_RADIUS)),
    );
    sheet.legend.add("inlet");
  }
}
