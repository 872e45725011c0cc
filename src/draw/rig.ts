/** The rig seen from above: body, nose, slides, awnings, doors, hot outlets; at its stance or beside the pad. */
import type { Scene } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { boundsOf, edgesOf, hatch, middleOf, segmentsPath } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { addOutline, addWires, PRIORITY, reserveMark, type Sheet } from "./sheet.ts";
import {
  AWNING_INK,
  DASH,
  HAIRLINE,
  HOT_INK,
  INK,
  MEDIUM_STROKE,
  RIG_FILL,
  SLIDE_FILL,
  SOFT_INK,
  THIN,
} from "./style.ts";
import { cleanText, element, line, polygon, polyline, type Spot } from "./svg.ts";
import { arrowHead, hotMark } from "./symbols.ts";
import { LINE_HEIGHT, shorten, textRow, textWidth } from "./text.ts";

type RigScene = NonNullable<Scene["rig"]>;

/** Frame of the body on the page: `ahead` points from the rear to the nose, `side` to the rig's left. */
interface BodyFrame {
  readonly ahead: Spot;
  readonly side: Spot;
  readonly front: number;
  readonly rear: number;
  readonly low: number;
  readonly high: number;
  at(ahead: number, side: number): Spot;
}

/** Where the nose is, as a direction of the pad frame: from the middle of the body to the nose that the scene names. */
function noseDirection(rig: RigScene): PadPoint {
  const centre = (points: readonly PadPoint[]): PadPoint => ({
    along: points.reduce((sum, point) => sum + point.along, 0) / points.length,
    left: points.reduce((sum, point) => sum + point.left, 0) / points.length,
  });
  const body = centre(rig.body);
  if (rig.nose.length > 0) {
    const nose = centre(rig.nose);
    const length = Math.hypot(nose.along - body.along, nose.left - body.left);
    if (length > 0) {
      return { along: (nose.along - body.along) / length, left: (nose.left - body.left) / length };
    }
  }
  const theta = rig.stance.facing === "out" ? rig.stance.yaw : Math.PI - rig.stance.yaw;
  return { along: Math.cos(theta), left: Math.sin(theta) };
}

function bodyFrame(sheet: Sheet, rig: RigScene): BodyFrame {
  const nose = noseDirection(rig);
  const ahead = sheet.projection.turn(nose);
  const side = sheet.projection.turn({ along: -nose.left, left: nose.along });
  const page = rig.body.map((point) => sheet.projection.toPage(point));
  const forward = page.map((spot) => spot.x * ahead.x + spot.y * ahead.y);
  const across = page.map((spot) => spot.x * side.x + spot.y * side.y);
  return {
    ahead,
    side,
    front: Math.max(...forward),
    rear: Math.min(...forward),
    low: Math.min(...across),
    high: Math.max(...across),
    at: (u, v) => ({ x: u * ahead.x + v * side.x, y: u * ahead.y + v * side.y }),
  };
}

/** The windscreen: how far behind the nose it starts and ends, and how much it narrows, as shares. */
const SCREEN_START = 0.02;
const SCREEN_END = 0.085;
const SCREEN_WIDE = 0.46;
const SCREEN_NARROW = 0.34;
const NOSE_GAP = 5;
const NOSE_ARROW = 12;

/** Puts a word upright on the body, just behind `u`, and keeps labels off it. Returns where the word ends. */
function wordOnBody(sheet: Sheet, frame: BodyFrame, word: string, u: number, bold: boolean): number {
  const width = textWidth(word, sheet.fontSize, bold);
  const height = sheet.fontSize * LINE_HEIGHT;
  const reach = (Math.abs(frame.ahead.x) * width + Math.abs(frame.ahead.y) * height) / 2;
  const centre = frame.at(u - reach, (frame.low + frame.high) / 2);
  const box = { x: centre.x - width / 2, y: centre.y - height / 2, width, height };
  sheet.solids.push(box);
  sheet.layers.marks.push(
    textRow(word, centre.x, box.y, sheet.fontSize, {
      "text-anchor": "middle",
      "font-weight": bold ? "bold" : undefined,
      fill: INK,
      "data-word": word,
    }),
  );
  return u - 2 * reach;
}

function drawNose(sheet: Sheet, frame: BodyFrame): void {
  const length = frame.front - frame.rear;
  const width = frame.high - frame.low;
  const middle = (frame.low + frame.high) / 2;
  const start = frame.front - length * SCREEN_START;
  const end = frame.front - length * SCREEN_END;
  const screen = [
    frame.at(start, middle + width * SCREEN_NARROW),
    frame.at(start, middle - width * SCREEN_NARROW),
    frame.at(end, middle - width * SCREEN_WIDE),
    frame.at(end, middle + width * SCREEN_WIDE),
  ];
  const tip = frame.at(end - NOSE_GAP, middle);
  sheet.layers.rig.push(
    element(
      "g",
      { "data-part": "nose" },
      polygon(screen, { fill: INK, stroke: INK, "stroke-width": THIN, "stroke-linejoin": "round" }),
      arrowHead(tip, frame.ahead, NOSE_ARROW, INK),
    ),
  );
  sheet.solids.push(boundsOf([...screen, tip]));
  wordOnBody(sheet, frame, "nose", end - NOSE_GAP - NOSE_ARROW - NOSE_GAP, true);
}

const NAME_MARGIN = 6;
/** A name cut to fewer letters than this says nothing. */
const LEAST_NAME = 8;
const NAME_MAX_DISTANCE = 12;
const NAME_SHARES = [0.5, 0.4, 0.6, 0.3, 0.7];

function nameOnBody(sheet: Sheet, frame: BodyFrame, name: string): void {
  const page = boundsOf([
    frame.at(frame.front, frame.low),
    frame.at(frame.front, frame.high),
    frame.at(frame.rear, frame.low),
    frame.at(frame.rear, frame.high),
  ]);
  const whole = cleanText(name);
  const text = shorten(whole, sheet.fontSize, Math.max(0, page.width - 2 * NAME_MARGIN));
  if (text === "" || (text !== whole && text.length < LEAST_NAME)) {
    return;
  }
  sheet.labels.push({
    key: "rig-name",
    rows: [{ text }],
    anchors: NAME_SHARES.map((share) =>
      frame.at(frame.rear + share * (frame.front - frame.rear), (frame.low + frame.high) / 2),
    ),
    priority: PRIORITY.rigName,
    fontSize: sheet.fontSize,
    colour: SOFT_INK,
    mayCover: true,
    maxDistance: NAME_MAX_DISTANCE,
  });
}

const AWNING_SPACING = 9;
const AREA_MAX_DISTANCE = 76;

function drawAwning(sheet: Sheet, awning: RigScene["awnings"][number]): void {
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

function drawSlide(sheet: Sheet, slide: RigScene["slides"][number]): void {
  const outline = slide.outline.filter(isPlaced).map(sheet.projection.toPage);
  if (outline.length < 2) {
    return;
  }
  const attributes = { fill: SLIDE_FILL, stroke: INK, "stroke-width": THIN, "data-slide": cleanText(slide.id) };
  sheet.layers.rig.push(polygon(outline, attributes));
  addOutline(sheet, outline);
  sheet.legend.add("slide");
  sheet.labels.push({
    key: `slide:${cleanText(slide.id)}`,
    rows: [{ text: "slide" }],
    offBody: true,
    anchors: [middleOf(outline)],
    priority: PRIORITY.slide,
    fontSize: sheet.fontSize,
    colour: INK,
    mayCover: true,
    maxDistance: NAME_MAX_DISTANCE,
  });
}

const ARC_STEPS = 8;
const DOOR_MAX_DISTANCE = 54;

function drawDoor(sheet: Sheet, door: RigScene["doors"][number]): void {
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
  addWires(sheet, edgesOf([at(hinge, 0), at(hinge, door.width), at(-hinge, 0)]), 2);
  sheet.legend.add(door.given ? "door" : "door:assumed");
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

function drawHotOutlet(sheet: Sheet, outlet: RigScene["hotOutlets"][number]): void {
  if (!isPlaced(outlet.at)) {
    return;
  }
  const what = cleanText(outlet.what).replace(/-/g, " ");
  const at = reserveMark(sheet, sheet.projection.toPage(outlet.at), HOT_RADIUS);
  sheet.layers.marks.push(element("g", { "data-hot": cleanText(outlet.id) }, hotMark(at, HOT_RADIUS)));
  sheet.legend.add("hot");
  sheet.labels.push({
    key: `hot:${cleanText(outlet.id)}`,
    rows: sheet.compact ? [{ text: "hot:" }, { text: what }] : [{ text: `hot: ${what}` }],
    anchors: [at],
    priority: PRIORITY.hot,
    fontSize: sheet.fontSize,
    colour: HOT_INK,
    otherwise: `Hot outlet: ${what}.`,
  });
}

const HITCH_POINTS = 3;

/** The rig at its stance, or (`placed` false) as an outline to scale that stands nowhere. */
export function drawRig(sheet: Sheet, rig: RigScene, name: string | null, placed: boolean): void {
  const body = rig.body.filter(isPlaced);
  if (body.length < HITCH_POINTS) {
    sheet.notes.push("The rig has no outline: it is not drawn.");
    return;
  }
  const frame = bodyFrame(sheet, { ...rig, body });
  const page = body.map(sheet.projection.toPage);
  if (placed) {
    for (const awning of rig.awnings) {
      drawAwning(sheet, awning);
    }
  }
  sheet.layers.rig.push(
    polygon(page, {
      fill: RIG_FILL,
      stroke: INK,
      "stroke-width": MEDIUM_STROKE,
      "stroke-dasharray": placed ? undefined : DASH.notPlaced,
      "data-part": placed ? "body" : "body-not-placed",
    }),
  );
  addOutline(sheet, page);
  sheet.body.push(...page);
  for (const slide of rig.slides) {
    drawSlide(sheet, slide);
  }
  drawNose(sheet, frame);
  if (placed) {
    rig.doors.forEach((door) => drawDoor(sheet, door));
    rig.hotOutlets.forEach((outlet) => drawHotOutlet(sheet, outlet));
    nameOnBody(sheet, frame, name ?? "");
  } else {
    wordOnBody(sheet, frame, "not placed", (frame.front + frame.rear) / 2, true);
    sheet.legend.add("not-placed");
  }
}
