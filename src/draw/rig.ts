/** The rig seen from above: body, nose, slides, awnings, doors, hot outlets; at its stance or beside the pad. */
import type { Scene } from "../fit/answer.ts";
import type { PadPoint } from "../fit/stance/problem.ts";
import { boundsOf } from "./polygon.ts";
import { isPlaced } from "./projection.ts";
import { drawAwning, drawDoor, drawHotOutlet, drawSlide } from "./rig-parts.ts";
import { addOutline, PRIORITY, type Sheet } from "./sheet.ts";
import { DASH, INK, MEDIUM_STROKE, RIG_FILL, SOFT_INK, THIN } from "./style.ts";
import { cleanText, element, polygon, type Spot } from "./svg.ts";
import { arrowHead } from "./symbols.ts";
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
  const named = rig.nose.filter(isPlaced);
  if (named.length > 0) {
    const nose = centre(named);
    const length = Math.hypot(nose.along - body.along, nose.left - body.left);
    if (length > 0) {
      return { along: (nose.along - body.along) / length, left: (nose.left - body.left) / length };
    }
  }
  const yaw = Number.isFinite(rig.stance.yaw) ? rig.stance.yaw : 0;
  const theta = rig.stance.facing === "out" ? yaw : Math.PI - yaw;
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
  wordOnBody(sheet, frame, sheet.noseWord, end - NOSE_GAP - NOSE_ARROW - NOSE_GAP, true);
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

const LEAST_CORNERS = 3;

/** The rig at its stance, or (`placed` false) as an outline to scale that stands nowhere. */
export function drawRig(sheet: Sheet, rig: RigScene, name: string | null, placed: boolean): void {
  const body = rig.body.filter(isPlaced);
  if (body.length < LEAST_CORNERS) {
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
    for (const door of rig.doors) {
      drawDoor(sheet, door);
    }
    for (const outlet of rig.hotOutlets) {
      drawHotOutlet(sheet, outlet);
    }
    nameOnBody(sheet, frame, name ?? "");
  } else {
    wordOnBody(sheet, frame, "not placed", (frame.front + frame.rear) / 2, true);
    sheet.legend.add("not-placed");
  }
}
