/** Records as hosts and maps really have them: each lacks something, and says how well it knows the rest. */
import { type Feature, frameOf, headingOf, onPad, outline, type PadPlace, type Properties, spot } from "./camp.ts";
import { power, receptacle, sewer, TAPED, water } from "./parts.ts";
import { siteFeature } from "./rows.ts";

const ALONG = 196;
const place = (index: number): PadPlace => ({ exit: { along: ALONG + 0.5 * index, left: 40 + 13 * index }, turn: 8 });
const size = { length: 12, width: 3.8 };

function bare(id: string, name: string, geometry: Feature["geometry"], properties: Properties): Feature {
  return { type: "Feature", id, geometry, properties: { kind: "site", name, ...properties } };
}

/** A phone's fix and nothing more. */
function byPhone(): Feature {
  return bare("field-1", "Old Field 1", spot(180, 26), {
    layout: "back-in",
    pad: { basis: "gps", accuracy: 8, observedAt: "2024-08-17" },
    services: { power: "yes" },
    hookups: [{ id: "power", service: "power", receptacles: [{ type: "nema-tt-30" }] }],
  });
}

/** The hookup is told of in words. */
function inWords(): Feature {
  return siteFeature("field-2", "Old Field 2", place(0), size, {
    layout: "back-in",
    facings: ["out"],
    pad: { ...size, ...TAPED, surface: "grass" },
    services: { power: "yes", water: "yes", sewer: "no" },
    hookups: [
      {
        id: "power",
        service: "power",
        place: { side: "driver", third: "rear" },
        receptacles: [receptacle("nema-tt-30", { state: "unknown", checkedAt: undefined })],
      },
      { id: "tap", service: "water", place: { side: "driver" }, thread: "ght-3-4" },
    ],
  });
}

/** Nobody wrote the pad's width down; the middle of the pad is a fix by phone. */
function withoutWidth(): Feature {
  const middle = onPad(frameOf(place(1), size.length), size.length / 2, 0);
  return bare("field-3", "Old Field 3", { type: "Point", coordinates: middle }, {
    layout: "back-in",
    facings: ["out"],
    heading: headingOf(place(1)),
    pad: { length: 12.4, ...TAPED, place: { basis: "gps", accuracy: 4 } },
    services: { power: "yes", water: "no", sewer: "no" },
    hookups: [power({ along: 3, left: 3.3, height: 0.9 }, [receptacle("nema-tt-30")])],
  });
}

/** A pad on the map, and no word of what there is. */
function servicesUnknown(): Feature {
  return bare("field-4", "Old Field 4", outline(place(2), size.length, size.width), {
    layout: "back-in",
    heading: headingOf(place(2)),
    pad: { basis: "mapped", accuracy: 0.8, observedAt: "2022-06-11" },
  });
}

/** The pedestal was seen from the air. */
function fromTheAir(): Feature {
  const frame = frameOf(place(3), size.length);
  return siteFeature("field-5", "Old Field 5", place(3), size, {
    layout: "back-in",
    facings: ["out"],
    pad: { ...size, ...TAPED, surface: "gravel", grade: 0.005, crossfall: 0.002 },
    services: { power: "yes", water: "no", sewer: "no" },
    hookups: [
      {
        id: "power",
        service: "power",
        at: { position: onPad(frame, 6.9, 4.3), height: 1 },
        basis: "mapped",
        accuracy: 1.5,
        observedAt: "2023-07-02",
        receptacles: [receptacle("nema-tt-30"), receptacle("nema-5-20")],
      },
    ],
  });
}

/** Everything by tape from the kerb corners, and not on the map at all. */
function byTape(): Feature {
  const corners: Readonly<Record<string, readonly [number, number]>> = {
    "rear-left": [0, 1.95],
    "rear-right": [0, -1.95],
    "exit-left": [12.6, 1.95],
  };
  const marks: Readonly<Record<string, readonly [number, number]>> = {
    power: [3.4, 3.6],
    drain: [5.2, 2.7],
    tap: [4.1, 3.3],
    elm: [9.7, -3.1],
  };
  // What the tape read: to the centimetre, as a host writes it down.
  const read = (from: readonly [number, number], to: readonly [number, number]) =>
    Number(Math.hypot(from[0] - to[0], from[1] - to[1]).toFixed(2));
  const between = (from: string, to: string) => ({
    from,
    to,
    distance: read((marks[from] ?? corners[from])!, (marks[to] ?? corners[to])!),
  });
  const names = Object.keys(marks);
  return bare("field-6", "Old Field 6", null, {
    layout: "back-in",
    facings: ["out"],
    pad: { surface: "gravel", grade: 0.011, crossfall: -0.004, basis: "measured", accuracy: 0.03 },
    services: { power: "yes", water: "yes", sewer: "yes" },
    hookups: [
      placeless(power({ along: 0, left: 0 }, [receptacle("nema-14-50"), receptacle("nema-tt-30")]), 0.97, "left"),
      placeless(water({ along: 0, left: 0 }), 0.6, "left"),
      placeless(sewer({ along: 0, left: 0 }), 0.05, "left"),
    ],
    marks: [{ id: "elm", what: "tree", side: "right", radius: 0.35, from: 0, to: 12 }],
    measurements: [
      between("rear-left", "rear-right"),
      between("rear-left", "exit-left"),
      ...names.flatMap((name) => Object.keys(corners).map((corner) => between(name, corner))),
    ],
    patio: "right",
  });
}

/** A hookup whose place comes from the tapes alone; the height was read off the tape too. */
function placeless(hookup: Properties, height: number, side: string): Properties {
  const { at: _, ...rest } = hookup;
  return { ...rest, height, place: { side } };
}

/** A site whose only power is a dryer-like receptacle without ground: kept on record so that it is refused. */
function withoutGround(): Feature {
  return siteFeature("field-7", "Old Field 7", { exit: { along: 196, left: 8 }, turn: 38 }, size, {
    layout: "back-in",
    facings: ["out"],
    pad: { ...size, ...TAPED, surface: "gravel", grade: 0.004, crossfall: 0.003 },
    services: { power: "yes", water: "no", sewer: "no" },
    hookups: [power({ along: 2.9, left: 3.3, height: 0.9 }, [{ id: "old", type: "nema-10-30", amps: 30, state: "working" }])],
  });
}

/** The host's length and the outline on the map do not agree: the only record that should raise a question. */
function twoLengths(): Feature {
  return siteFeature("field-8", "Old Field 8", { exit: { along: 176, left: 8 }, turn: 38 }, size, {
    layout: "back-in",
    facings: ["out"],
    pad: { length: 10.4, width: size.width, ...TAPED, surface: "gravel", grade: -0.003, crossfall: 0.005 },
    services: { power: "yes", water: "no", sewer: "no" },
    hookups: [power({ along: 3.1, left: 3.5, height: 0.9 }, [receptacle("nema-5-20")])],
  });
}

export function oldField(): Feature[] {
  return [
    byPhone(),
    inWords(),
    withoutWidth(),
    servicesUnknown(),
    fromTheAir(),
    byTape(),
    withoutGround(),
    twoLengths(),
  ];
}
