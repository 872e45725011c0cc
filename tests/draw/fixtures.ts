/** Answers made by hand for the drawing: nothing here is solved, all places and names are invented. */
import type { Fit } from "../../src/fit/answer.ts";
import type { PadPoint, Stance } from "../../src/fit/stance/problem.ts";
import { hookup, line, makeFit, obstacle, type RigShape, rectangle, rigScene, stand } from "./makers.ts";

const HERON: RigShape = {
  length: 7.7,
  width: 2.5,
  slides: [{ id: "dinette", side: "left", fromRear: 3.1, length: 2.4, depth: 0.6 }],
  awnings: [{ id: "main", side: "right", fromRear: 2.2, length: 4.1, projection: 2.4, open: true }],
  doors: [{ id: "entry", side: "right", fromRear: 4.6, width: 0.7, given: true }],
  hot: [{ id: "furnace", what: "furnace", side: "right", fromRear: 1.4 }],
  connections: [
    { id: "rig-power", service: "power", fromRear: 1.2, left: 1.25 },
    { id: "rig-water", service: "water", fromRear: 2.2, left: 1.25 },
    { id: "rig-sewer", service: "sewer", fromRear: 1.7, left: 1.25 },
  ],
};

const BACK_IN_STANCE: Stance = { facing: "out", along: 1.1, left: -0.3, yaw: 0 };

/** A back-in site: three lines to the left, awning over the patio, a window to stop in. */
export function backIn(): Fit {
  return makeFit({
    stance: BACK_IN_STANCE,
    window: { along: { from: 0.62, to: 1.94 }, left: { from: -0.25, to: 0.4 }, why: "" },
    lines: [
      line(
        "power",
        [stand(BACK_IN_STANCE, 7.7, { fromRear: 1.2, left: 1.25 }), { along: 3.4, left: 2.9 }],
        4.7,
        7.62,
        "reaches",
      ),
      line(
        "water",
        [stand(BACK_IN_STANCE, 7.7, { fromRear: 2.2, left: 1.25 }), { along: 3.9, left: 2.8 }],
        3.66,
        7.62,
        "reaches",
      ),
      line(
        "sewer",
        [stand(BACK_IN_STANCE, 7.7, { fromRear: 1.7, left: 1.25 }), { along: 1.6, left: 2.2 }],
        2.31,
        2.74,
        "tight",
      ),
    ],
    scene: {
      pad: { length: 14.5, width: 4.4, heading: (35 * Math.PI) / 180 },
      stop: { kind: "wheelStop", along: 0.9 },
      rig: rigScene(HERON, BACK_IN_STANCE),
      hookups: [
        hookup("power", 3.4, 2.9, { pedestal: "A", label: "pedestal, 30 A and 50 A" }),
        hookup("water", 3.9, 2.8, { label: "tap" }),
        hookup("sewer", 1.6, 2.2, { sigma: 0.3, label: "riser" }),
      ],
      obstacles: [
        obstacle("table", "picnic table", rectangle(6.1, 7.9, -6.2, -4.7)),
        obstacle("oak", "oak branch", rectangle(9.5, 12.5, -4, 0.5), { from: 3.4, to: null, bars: "rig" }),
        obstacle("loop", "loop road", rectangle(15.2, 19, -60, 60), { bars: "line", to: null }),
        obstacle("ring", "fire ring", rectangle(3.6, 4.6, -6.4, -5.4), { to: 0.4 }),
      ],
      patio: "right",
    },
  });
}

/** Power on the wrong side: its cord goes around the rear; the sewer hose is short. */
export function aroundTheRear(): Fit {
  const stance: Stance = { facing: "out", along: 2.4, left: 0.2, yaw: (4 * Math.PI) / 180 };
  const inlet = stand(stance, 7.7, { fromRear: 1.2, left: 1.25 });
  const rearLeft = stand(stance, 7.7, { fromRear: 0, left: 1.25 });
  const rearRight = stand(stance, 7.7, { fromRear: 0, left: -1.25 });
  const outlet = stand(stance, 7.7, { fromRear: 1.7, left: 1.25 });
  return makeFit({
    verdict: "does not fit",
    headline:
      "Does not fit: the sewer hose is 1.42 m short whichever way the rig stands. Power reaches around the rear.",
    stance,
    lines: [
      line("power", [inlet, rearLeft, rearRight, { along: 3.3, left: -3.4 }], 8.3, 9.14, "reaches", {
        route: "around-rear",
      }),
      line("sewer", [outlet, { along: 4.1, left: 5.6 }], 4.16, 2.74, "short"),
    ],
    scene: {
      pad: { length: 13, width: 3.7, heading: (250 * Math.PI) / 180 },
      rig: rigScene(
        {
          ...HERON,
          awnings: [{ id: "main", side: "right", fromRear: 2.2, length: 4.1, projection: 2.4, open: false }],
        },
        stance,
      ),
      hookups: [
        hookup("power", 3.3, -3.4, { label: "pedestal behind the hedge" }),
        hookup("sewer", 4.1, 5.6, { sigma: 0.9, label: "riser" }),
      ],
      obstacles: [obstacle("hedge", "hedge", rectangle(4.2, 10, -3.9, -2.9))],
    },
  });
}

/** A pull-through: nose to the exit, long coach, window, all lines near the middle. */
export function pullThrough(): Fit {
  const coach: RigShape = {
    length: 11.9,
    width: 2.6,
    slides: [
      { id: "living", side: "left", fromRear: 6.4, length: 3.6, depth: 0.8 },
      { id: "bed", side: "right", fromRear: 0.9, length: 2.1, depth: 0.6 },
    ],
    awnings: [{ id: "main", side: "right", fromRear: 4.2, length: 5.4, projection: 3, open: true }],
    doors: [{ id: "entry", side: "right", fromRear: 10.1, width: 0.75, given: false }],
    hot: [{ id: "exhaust", what: "generator-exhaust", side: "left", fromRear: 10.9 }],
    connections: [
      { id: "rig-power", service: "power", fromRear: 0.5, left: 1.3 },
      { id: "rig-water", service: "water", fromRear: 4.4, left: 1.3 },
      { id: "rig-sewer", service: "sewer", fromRear: 4.9, left: 1.3 },
      { id: "rig-cable", service: "cable", fromRear: 0.9, left: 1.3 },
    ],
  };
  const stance: Stance = { facing: "out", along: 4.6, left: 0.15, yaw: 0 };
  const from = (fromRear: number): PadPoint => stand(stance, 11.9, { fromRear, left: 1.3 });
  return makeFit({
    rig: { id: "coach", name: "Long coach 39" },
    site: { id: "P4", name: "P4", campground: "alder-bend", campgroundName: "Alder Bend (invented)" },
    verdict: "fits with kit",
    headline: "Fits with a 50 A to 30 A adapter, nose to the exit; every line reaches.",
    stance,
    window: { along: { from: 3.1, to: 6.2 }, left: { from: -0.5, to: 0.3 }, why: "" },
    lines: [
      line("power", [from(0.5), { along: 8.2, left: 3.3 }], 5.5, 10.66, "reaches"),
      line("cable", [from(0.9), { along: 8.25, left: 3.4 }], 5.1, 7.5, "reaches"),
      line("water", [from(4.4), { along: 8.3, left: 3.2 }], 3.6, 7.62, "reaches"),
      line("sewer", [from(4.9), { along: 10.3, left: 2.7 }], 2.1, 4.1, "reaches"),
    ],
    units: "us",
    scene: {
      pad: { length: 21, width: 4.9, heading: Math.PI },
      rig: rigScene(coach, stance),
      hookups: [
        hookup("power", 8.2, 3.3, { pedestal: "P4", label: "P4 pedestal" }),
        hookup("cable", 8.2, 3.3, { pedestal: "P4", label: "P4 pedestal" }),
        hookup("water", 8.2, 3.3, { pedestal: "P4", label: "P4 pedestal" }),
        hookup("sewer", 10.3, 2.7),
      ],
      patio: "right",
    },
  });
}

/** Hookups that are only described; power is unknown. */
export function described(): Fit {
  const stance: Stance = { facing: "in", along: 0.8, left: 0.25, yaw: 0 };
  return makeFit({
    verdict: "unknown",
    headline: "Unknown: measure from the pad's rear edge to the pedestal; it decides power.",
    stance,
    lines: [
      line(
        "power",
        [stand(stance, 7.7, { fromRear: 1.2, left: 1.25 }), { along: 4.9, left: -3.4 }],
        5.2,
        7.62,
        "unknown",
        {
          marginLow: -1.3,
          marginHigh: 3.9,
          side: "left",
        },
      ),
      line("water", [], null, 7.62, "unknown", { hookup: null, why: "No tap is recorded." }),
    ],
    scene: {
      pad: { length: 12, width: 4, heading: null },
      stop: { kind: "kerb", along: 0 },
      rig: rigScene(HERON, stance),
      hookups: [
        hookup("power", 4.9, -3.4, {
          sigma: 0,
          region: { alongLow: 2.5, alongHigh: 7.3, leftLow: -4.4, leftHigh: -2.4 },
          label: "pedestal, driver side, middle third",
        }),
      ],
    },
  });
}

/** The rig cannot stand on this pad: it is drawn beside it. */
export function notPlaced(): Fit {
  return makeFit({
    verdict: "does not fit",
    headline: "Does not fit: the rig is 7.70 m long, the pad 6.20 m with 0.30 m of overhang.",
    stance: null,
    lines: [line("power", [], null, 7.62, "unknown", { route: null, why: "The rig does not stand on this pad." })],
    scene: {
      pad: { length: 6.2, width: 3.1, heading: 1.2 },
      rig: rigScene(HERON, BACK_IN_STANCE),
      hookups: [hookup("power", 2.1, 2.2, { label: "pedestal" })],
      obstacles: [obstacle("wall", "stone wall", rectangle(-0.9, -0.5, -2.4, 2.6))],
    },
  });
}

/** No pad, one tap far away, a hookup without a height limit on what hangs over it. */
export function noPadFarTap(): Fit {
  return makeFit({
    verdict: "unknown",
    headline: "Unknown: the pad has no length, width and heading.",
    scene: {
      hookups: [
        hookup("power", 1.2, 2.4, { sigma: 4 }),
        hookup("water", 8, 41, { label: "shared tap at the loop's end" }),
      ],
      obstacles: [
        obstacle("canopy", "canopy", rectangle(-2, 3, 0, 5), { from: 4.2, to: Number.POSITIVE_INFINITY, bars: "rig" }),
      ],
    },
  });
}

/** Words that no drawing should choke on. */
export function awkwardWords(): Fit {
  const long =
    "The Very Long Name Of A Site That Somebody Typed In Without Ever Thinking Of The Printer Or The Poor Reader Of It All Ok";
  const base = backIn();
  return {
    ...base,
    rig: { id: "x", name: `<script>alert("rig")</script> & 'sons' ${long}` },
    site: {
      id: "s",
      name: long,
      campground: "camp",
      campgroundName: `Camp\u0000ground\u202e ]]> <b onload="x()">${"W".repeat(120)}`,
    },
    headline: `</title><script>alert(1)</script> ${long} ${long}`,
    cautions: [{ id: "c", text: `"><image href="http://example.invalid/x"/> ${long}`, source: "" }],
    scene: {
      ...base.scene,
      hookups: base.scene.hookups.map((each) => ({ ...each, id: `"><g id='${each.id}`, label: `<a>${long}</a>` })),
      obstacles: base.scene.obstacles.map((each) => ({
        ...each,
        id: `<${each.id}>`,
        what: `${each.what} <i>&amp;</i> ${long}`,
      })),
    },
  };
}

/** A crowd: many obstacles and five lines about one rig. */
export function crowded(): Fit {
  const base = pullThrough();
  const trees = Array.from({ length: 14 }, (_, index) => {
    const along = -1 + index * 1.75;
    const left = index % 3 === 0 ? 6.5 + (index % 4) : -6.8 - (index % 2);
    return obstacle(`tree-${index}`, `tree ${index}`, rectangle(along, along + 0.6, left, left + 0.6));
  });
  return { ...base, scene: { ...base.scene, obstacles: trees } };
}

/** The same fit seen in a mirror along the pad's axis: left and right change places. */
export function mirrored(fit: Fit): Fit {
  const flip = (point: PadPoint): PadPoint => ({ along: point.along, left: -point.left });
  const flipAll = (points: readonly PadPoint[]): PadPoint[] => points.map(flip);
  const { scene } = fit;
  const stance = fit.stance ? { ...fit.stance, left: -fit.stance.left, yaw: -fit.stance.yaw } : null;
  return {
    ...fit,
    stance,
    lines: fit.lines.map((each) => ({ ...each, path: flipAll(each.path) })),
    scene: {
      ...scene,
      patio: scene.patio === "left" ? "right" : scene.patio === "right" ? "left" : null,
      rig: scene.rig && {
        ...scene.rig,
        stance: stance ?? scene.rig.stance,
        body: flipAll(scene.rig.body),
        nose: flipAll(scene.rig.nose),
        slides: scene.rig.slides.map((each) => ({ ...each, outline: flipAll(each.outline) })),
        awnings: scene.rig.awnings.map((each) => ({ ...each, outline: flipAll(each.outline) })),
        doors: scene.rig.doors.map((each) => ({ ...each, at: flip(each.at), outward: flip(each.outward) })),
        hotOutlets: scene.rig.hotOutlets.map((each) => ({ ...each, at: flip(each.at) })),
        connections: scene.rig.connections.map((each) => ({ ...each, at: flip(each.at) })),
      },
      hookups: scene.hookups.map((each) => ({
        ...each,
        at: flip(each.at),
        region: each.region && { ...each.region, leftLow: -each.region.leftHigh, leftHigh: -each.region.leftLow },
      })),
      obstacles: scene.obstacles.map((each) => ({ ...each, outline: flipAll(each.outline) })),
    },
  };
}

export const FIXTURES: Readonly<Record<string, () => Fit>> = {
  backIn,
  aroundTheRear,
  pullThrough,
  described,
  notPlaced,
  noPadFarTap,
  awkwardWords,
  crowded,
  nothing: () => makeFit({ verdict: "unknown", headline: "Unknown." }),
};
