/** A walk with the tape: solving, asking, contradicting, recording. Places are invented; distances are made from them. */

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { completeSite } from "../../src/site/complete.ts";
import { siteFeature } from "../../src/site/schema/campground.ts";
import { Engine } from "../../src/web/core/engine.ts";
import { isMeasured, keepMeasured, withMeasured } from "../../src/web/measure/measured.ts";
import { lackOf, nextReading } from "../../src/web/measure/next-reading.ts";
import { withRecord } from "../../src/web/measure/overlay.ts";
import { recordOf } from "../../src/web/measure/record.ts";
import { hasMeasured, type Shelf } from "../../src/web/measure/shelf.ts";
import { solveWalk } from "../../src/web/measure/solve-walk.ts";
import { newWalk, type Walk, withMark, withoutMark } from "../../src/web/measure/walk.ts";

const LENGTH = 13.4;
const WIDTH = 4.2;
const TRUE: Readonly<Record<string, readonly [number, number]>> = {
  "rear-left": [0, WIDTH / 2],
  "rear-right": [0, -WIDTH / 2],
  "exit-left": [LENGTH, WIDTH / 2],
  "exit-right": [LENGTH, -WIDTH / 2],
  power: [4.9, 3.3],
  drain: [2.2, -2.9],
  tree: [9.1, -4.4],
};
const NOTHING = { length: null, width: null };
const BARE = newWalk([
  { id: "power", service: "power" },
  { id: "drain", service: "sewer" },
]);

/** A tape between two marks at their true places, with an error of its own, as somebody would type it. */
function tape(from: string, to: string, error = 0) {
  const [a, b] = [TRUE[from]!, TRUE[to]!];
  return { from, to, distance: `${(Math.hypot(a[0] - b[0], a[1] - b[1]) + error).toFixed(3)} m` };
}
const walked = (...readings: Walk["readings"]): Walk => ({ ...BARE, readings });
const PAD = [tape("rear-left", "rear-right"), tape("rear-left", "exit-left")];
const placeIn = (walk: Walk, id: string, recorded = NOTHING as { length: number | null; width: number | null }) =>
  solveWalk(walk, recorded).places.find((one) => one.id === id);

describe("a walk", () => {
  it("finds a mark by tapes from three corners, on its own side", () => {
    const walk = walked(...PAD, tape("power", "rear-left"), tape("power", "rear-right"), tape("power", "exit-left"));
    const place = placeIn(walk, "power")!;
    expect(place.along).toBeCloseTo(4.9, 2);
    expect(place.left).toBeCloseTo(3.3, 2);
    expect(place.sigma).toBeLessThan(0.1);
  });

  it("takes what the record says of the pad where no tape does", () => {
    const walk = walked(tape("power", "rear-left"), tape("power", "rear-right"), tape("power", "exit-left"));
    expect(placeIn(walk, "power")).toBeUndefined();
    const solved = solveWalk(walk, { length: LENGTH, width: WIDTH });
    expect(solved.places[0]?.left).toBeCloseTo(3.3, 1);
    expect(solved.width?.taped).toBe(false);
  });

  it("asks on which side when two tapes leave two places, and takes the answer", () => {
    const walk = walked(...PAD, tape("power", "rear-left"), tape("power", "exit-left"));
    const { questions } = solveWalk(walk, NOTHING);
    expect(questions.map(({ id }) => id)).toEqual(["power"]);
    for (const place of questions[0]!.places) {
      const answered = placeIn({ ...walk, choices: { power: place } }, "power")!;
      expect(answered.along).toBeCloseTo(place.along, 2);
      expect(answered.left).toBeCloseTo(place.left, 2);
    }
    const sides = questions[0]!.places.map(({ left }) => left).sort((a, b) => a - b);
    expect(sides[1]).toBeCloseTo(3.3, 2);
    expect(sides[0]).toBeCloseTo(0.9, 2);
  });

  it("asks whether a mark lies before or behind the rear edge, and takes the answer", () => {
    const walk = walked(...PAD, tape("drain", "rear-left"), tape("drain", "rear-right"));
    const [question] = solveWalk(walk, NOTHING).questions;
    const before = question!.places.find(({ along }) => along > 0)!;
    const behind = question!.places.find(({ along }) => along < 0)!;
    expect(placeIn({ ...walk, choices: { drain: before } }, "drain")?.along).toBeCloseTo(2.2, 2);
    expect(placeIn({ ...walk, choices: { drain: behind } }, "drain")?.along).toBeCloseTo(-2.2, 2);
  });

  it("names the tape that contradicts the others, with its residual", () => {
    const good = [
      ...PAD,
      tape("rear-right", "exit-right"),
      tape("rear-left", "exit-right"),
      tape("power", "rear-left"),
      tape("power", "rear-right"),
      tape("power", "exit-left"),
    ];
    expect(solveWalk(walked(...good), NOTHING).contradictions).toEqual([]);
    const wrong = solveWalk(walked(...good, tape("power", "exit-right", 0.6)), NOTHING);
    expect(wrong.contradictions[0]).toMatchObject({ reading: 7, from: "power", to: "exit-right" });
    expect(wrong.contradictions[0]!.residual).toBeGreaterThan(0.2);
  });

  it("takes offsets from edges and from the middle line, to the side that was said", () => {
    const offset = (acrossFrom: Walk["offsets"][number]["acrossFrom"], along = "4.9 m") => ({
      ...walked(...PAD),
      offsets: [{ mark: "power", along, across: "1.2 m", acrossFrom }],
    });
    expect(placeIn(offset("left-edge"), "power")!.left).toBeCloseTo(3.3, 3);
    expect(placeIn(offset("right-edge"), "power")!.left).toBeCloseTo(-3.3, 3);
    expect(placeIn(offset("middle-left"), "power")!.left).toBeCloseTo(1.2, 3);
    expect(placeIn(offset("middle-right"), "power")!.left).toBeCloseTo(-1.2, 3);
    expect(placeIn(offset("left-edge", "-0.8 m"), "power")!.along).toBeCloseTo(-0.8, 3);
    const noWidth: Walk = {
      ...BARE,
      offsets: [{ mark: "power", along: "1 m", across: "2 m", acrossFrom: "middle-right" }],
    };
    expect(placeIn(noWidth, "power")).toMatchObject({ along: 1, left: -2 });
    expect(
      placeIn({ ...noWidth, offsets: [{ ...noWidth.offsets[0]!, acrossFrom: "left-edge" }] }, "power"),
    ).toBeUndefined();
  });

  it("checks an offset against tapes to the same mark", () => {
    const walk: Walk = {
      ...walked(...PAD, tape("power", "rear-left"), tape("power", "rear-right"), tape("power", "exit-left")),
      offsets: [{ mark: "power", along: "5.9 m", across: "1.2 m", acrossFrom: "left-edge" }],
    };
    expect(solveWalk(walk, NOTHING).contradictions.length).toBeGreaterThan(0);
  });
});

describe("what is still to measure", () => {
  it("begins with the pad and goes on with the marks, two tapes each, then a check", () => {
    const pairs: string[] = [];
    let walk = BARE;
    for (let turn = 0; turn < 12; turn += 1) {
      const next = nextReading(walk, solveWalk(walk, NOTHING));
      if (next === null) break;
      pairs.push(`${next.from} ${next.to}`);
      walk = { ...walk, readings: [...walk.readings, tape(next.from, next.to)] };
    }
    expect(pairs.slice(0, 4)).toEqual([
      "rear-left rear-right",
      "rear-left exit-left",
      "power rear-left",
      "power rear-right",
    ]);
    expect(pairs.at(-1)).toBe("rear-left exit-right");
    const solved = solveWalk(walk, NOTHING);
    expect(solved.questions).toEqual([]);
    expect(solved.places.find(({ id }) => id === "drain")?.left).toBeCloseTo(-2.9, 2);
    expect(solved.places.find(({ id }) => id === "power")?.left).toBeCloseTo(3.3, 2);
  });

  it("says what a mark lacks", () => {
    const lack = (...readings: Walk["readings"]) => {
      const walk = walked(...readings);
      return lackOf(walk, solveWalk(walk, NOTHING), "power");
    };
    expect(lack(...PAD)).toBe("Two distances, from two corners.");
    expect(lack(...PAD, tape("power", "rear-left"))).toBe(
      "One more distance, from another corner than the rear left corner.",
    );
    expect(lack(...PAD, tape("power", "drain"))).toContain("sewer riser is needed first");
    expect(
      lack(...PAD, tape("power", "rear-left"), tape("power", "rear-right"), tape("power", "exit-left")),
    ).toBeNull();
  });

  it("keeps added marks apart by number and forgets all of a mark that is taken away", () => {
    const two = withMark(withMark(BARE, "tree"), "tree");
    expect(two.marks.slice(-2).map(({ id, label }) => [id, label])).toEqual([
      ["tree", "tree"],
      ["tree-2", "tree 2"],
    ]);
    const walk = {
      ...two,
      readings: [tape("tree", "rear-left"), tape("power", "rear-left")],
      choices: { tree: { along: 1, left: 2 } },
    };
    expect(withoutMark(walk, "tree")).toMatchObject({ readings: [tape("power", "rear-left")], choices: {} });
  });
});

describe("the record of a walk", () => {
  const about = { site: "rail-3", name: "Rail 3", day: "2026-05-17" };
  const full: Walk = (() => {
    const walk = withMark(BARE, "tree");
    const to = (id: string) => ["rear-left", "rear-right", "exit-left"].map((corner) => tape(id, corner));
    const marks = walk.marks.map((mark) =>
      mark.id === "power" ? { ...mark, height: "3 ft" } : mark.id === "tree" ? { ...mark, radius: "1 ft" } : mark,
    );
    return { ...walk, marks, readings: [...PAD, ...to("power"), ...to("drain"), ...to("tree")] };
  })();
  const feature = recordOf(full, solveWalk(full, NOTHING), about);

  it("is a site of the schema, measured, dated, with its readings as typed", () => {
    expect(siteFeature.safeParse(feature).success).toBe(true);
    const hookups = feature.properties["hookups"] as Record<string, unknown>[];
    expect(hookups[0]).toMatchObject({ id: "power", service: "power", basis: "measured", observedAt: "2026-05-17" });
    expect((hookups[0]!["at"] as Record<string, number>)["height"]).toBeCloseTo(0.914, 3);
    expect((hookups[1]!["at"] as Record<string, number>)["left"]).toBeCloseTo(-2.9, 2);
    expect(hookups[0]!["accuracy"]).toBeGreaterThanOrEqual(0.02);
    expect(feature.properties["measurements"]).toEqual(full.readings);
    expect(feature.properties["obstacles"]).toMatchObject([{ what: "tree", radius: 0.305 }]);
  });

  it("is read back as the same places, without a warning about its tapes", () => {
    const site = completeSite(feature, null, [], { base: "/site" });
    const drain = site.hookups.find(({ id }) => id === "drain")!;
    expect(drain.along?.value).toBeCloseTo(2.2, 2);
    expect(drain.left?.value).toBeCloseTo(-2.9, 2);
    expect(drain.left?.basis).toBe("measured");
    expect(site.pad.length?.value).toBeCloseTo(LENGTH, 2);
    expect(site.warnings.filter(({ code }) => code === "contradiction")).toEqual([]);
  });

  it("names no place that the tapes left open", () => {
    const walk = walked(...PAD, tape("power", "rear-left"), tape("power", "exit-left"));
    expect(recordOf(walk, solveWalk(walk, NOTHING), about).properties).not.toHaveProperty("hookups");
  });

  it("lies over the recorded site: places give way, all else stays", () => {
    const recorded = {
      type: "Feature",
      id: "rail-3",
      geometry: null,
      properties: {
        kind: "site",
        name: "Rail 3",
        pad: { surface: "gravel", length: 12, basis: "described" },
        hookups: [
          { id: "power", service: "power", place: { side: "driver" }, receptacles: [{ type: "nema-tt-30" }] },
          { id: "tap", service: "water", at: { along: 1, left: 2 } },
        ],
      },
    } as const;
    const { properties } = withRecord(recorded, feature);
    expect(properties["pad"]).toMatchObject({ surface: "gravel", basis: "measured" });
    const hookups = properties["hookups"] as Record<string, unknown>[];
    expect(hookups.map(({ id }) => id)).toEqual(["power", "tap", "drain"]);
    expect(hookups[0]).toMatchObject({ receptacles: [{ type: "nema-tt-30" }], basis: "measured" });
    expect(hookups[0]).not.toHaveProperty("place");
    expect(hookups[1]).toEqual(recorded.properties.hookups[1]);
  });

  it("is laid over its own campground and site alone, and can be taken back", async () => {
    const kept = new Map<string, string>();
    const shelf: Shelf = {
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
    };
    const text = readFileSync(new URL("../../data/demo/campground.geojson", import.meta.url), "utf8");
    const placeOf = async (now: string, site: string) => {
      const engine = new Engine();
      engine.open(now);
      const { fit } = await engine.fit(
        {
          rig: { class: "class-c", length: "25 ft", height: "11 ft", power: { plug: "nema-tt-30", cord: "25 ft" } },
          options: { units: "us" },
          site,
          changes: [],
          planWidth: 600,
        },
        "summary",
      );
      return fit.scene.hookups.find(({ service }) => service === "power")?.at;
    };
    expect(hasMeasured(shelf)).toBe(false);
    expect(withMeasured(text, shelf)).toBe(text);
    keepMeasured("quillfeather-flats", "rail-3", feature, shelf);
    expect(hasMeasured(shelf)).toBe(true);
    expect(isMeasured("quillfeather-flats", "rail-3", shelf)).toBe(true);
    const now = withMeasured(text, shelf);
    expect((await placeOf(now, "rail-3"))?.along).toBeCloseTo(4.9, 2);
    expect(await placeOf(now, "rail-4")).toEqual(await placeOf(text, "rail-4"));
    keepMeasured("another", "rail-4", feature, shelf);
    keepMeasured("quillfeather-flats", "rail-3", null, shelf);
    expect(withMeasured(text, shelf)).toBe(text);
  });
});
