import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LabelRequest, labelSize, overlaps, placeLabels } from "../../src/draw/labels.ts";
import { lengthText } from "../../src/draw/lengths.ts";
import { splitPath } from "../../src/draw/lines.ts";
import { cutSegment, cutToBox, hatch } from "../../src/draw/polygon.ts";
import { chooseOrientation, northOnPage } from "../../src/draw/projection.ts";
import { cleanText, element, escapeText, numberText } from "../../src/draw/svg.ts";
import { scaleStep } from "../../src/draw/symbols.ts";
import { balanceText, shorten, textWidth, wrapText } from "../../src/draw/text.ts";

const plain = (text: string): string => text.replace(/\u00a0/g, " ");

describe("lengths", () => {
  it.each([
    [7.62, "metric", "nearest", "7.62 m"],
    [7.62, "us", "nearest", "25 ft"],
    [7.62, "us", "up", "25 ft"],
    [7.62, "us", "down", "25 ft"],
    [7.641, "metric", "up", "7.65 m"],
    [7.649, "metric", "down", "7.64 m"],
    [7.65, "us", "up", "25 ft 2 in"],
    [7.65, "us", "down", "25 ft 1 in"],
    [0.2, "us", "down", "7 in"],
    [0, "us", "nearest", "0 in"],
    [-0.305, "us", "down", "\u22121 ft 1 in"],
    [-0.305, "metric", "up", "\u22120.30 m"],
    [Number.POSITIVE_INFINITY, "metric", "up", "no limit"],
    [Number.NaN, "us", "up", "unknown"],
  ] as const)("%f in %s rounded %s is %s", (metres, units, rounding, expected) => {
    expect(plain(lengthText(metres, units, rounding))).toBe(expected);
  });
});

describe("north", () => {
  it.each([
    // A pad that runs north has north along itself; one that runs east has north on its left.
    [0, "exit-right", 1, 0],
    [Math.PI / 2, "exit-right", 0, -1],
    [Math.PI, "exit-right", -1, 0],
    [0, "exit-down", 0, 1],
    [Math.PI / 2, "exit-down", 1, 0],
    [-Math.PI / 2, "exit-down", -1, 0],
  ] as const)("of a pad that bears %f rad, %s, points to (%f, %f)", (heading, orientation, x, y) => {
    const way = northOnPage(heading, orientation);
    expect(way.x).toBeCloseTo(x, 9);
    expect(way.y).toBeCloseTo(y, 9);
  });
});

describe("orientation", () => {
  it("turns the longer side to where there is more room", () => {
    const long = { alongMin: 0, alongMax: 20, leftMin: -4, leftMax: 6 };
    expect(chooseOrientation(long, { width: 900, height: 500 })).toBe("exit-right");
    expect(chooseOrientation(long, { width: 350, height: 700 })).toBe("exit-down");
    const wide = { alongMin: 0, alongMax: 12, leftMin: -4, leftMax: 41 };
    expect(chooseOrientation(wide, { width: 900, height: 500 })).toBe("exit-down");
  });
});

describe("the scale bar", () => {
  it("takes the longest whole step that fits, and at least one", () => {
    expect(scaleStep(40, "metric", 210)).toEqual({ count: 5, width: 200 });
    expect(scaleStep(40, "us", 210).count).toBe(10);
    expect(scaleStep(40, "us", 210).width).toBeCloseTo(10 * 0.3048 * 40, 9);
    expect(scaleStep(400, "metric", 210).count).toBe(1);
  });
});

describe("a path that runs out", () => {
  it("is cut at the length, with the cut in both parts", () => {
    const path = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 3, y: 5 },
    ];
    expect(splitPath(path, 4)).toEqual({
      first: [
        { x: 0, y: 0 },
        { x: 3, y: 0 },
        { x: 3, y: 1 },
      ],
      rest: [
        { x: 3, y: 1 },
        { x: 3, y: 5 },
      ],
    });
    expect(splitPath(path, 8)).toEqual({ first: path, rest: [] });
  });
});

describe("polygons on the page", () => {
  const box = { x: 0, y: 0, width: 10, height: 6 };
  it("are cut to the field", () => {
    const cut = cutToBox(
      [
        { x: -5, y: 2 },
        { x: 30, y: 2 },
        { x: 30, y: 4 },
        { x: -5, y: 4 },
      ],
      box,
    );
    expect(cut).toEqual(
      expect.arrayContaining([
        { x: 0, y: 2 },
        { x: 10, y: 2 },
        { x: 10, y: 4 },
        { x: 0, y: 4 },
      ]),
    );
    expect(
      cutToBox(
        [
          { x: 20, y: 20 },
          { x: 25, y: 20 },
          { x: 25, y: 22 },
        ],
        box,
      ),
    ).toEqual([]);
  });

  it("lose the part of a segment that is outside", () => {
    expect(cutSegment({ from: { x: -4, y: 3 }, to: { x: 4, y: 3 } }, box)).toEqual({
      from: { x: 0, y: 3 },
      to: { x: 4, y: 3 },
    });
    expect(cutSegment({ from: { x: -4, y: 9 }, to: { x: 4, y: 9 } }, box)).toBeNull();
  });

  it("are hatched inside only, with as much ink as their area over the spacing", () => {
    const shape = [
      { x: 0, y: 0 },
      { x: 80, y: 0 },
      { x: 80, y: 40 },
      { x: 40, y: 40 },
      { x: 40, y: 100 },
      { x: 0, y: 100 },
    ];
    const area = 80 * 40 + 40 * 60;
    for (const angle of [0, Math.PI / 2, Math.PI / 4, -0.3]) {
      const strokes = hatch(shape, 2, angle);
      const ink = strokes.reduce((sum, { from, to }) => sum + Math.hypot(to.x - from.x, to.y - from.y), 0);
      expect((ink * 2) / area).toBeGreaterThan(0.95);
      expect((ink * 2) / area).toBeLessThan(1.05);
      for (const { from, to } of strokes) {
        const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
        expect(middle.x > 40 + 1e-6 && middle.y > 40 + 1e-6).toBe(false);
      }
    }
  });
});

describe("text", () => {
  it("wraps within the width and loses no word", () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[A-Za-z0-9.,]{1,30}$/), { minLength: 1, maxLength: 20 }), (list) => {
        const rows = wrapText(list.join(" "), 12, 120);
        expect(rows.every((row) => textWidth(row, 12) <= 120)).toBe(true);
        expect(rows.join("").replace(/ /g, "")).toBe(list.join(""));
      }),
      { seed: 11 },
    );
  });

  it("marks what it cuts", () => {
    expect(wrapText("one two three four five six seven", 12, 60, 2).at(-1)).toMatch(/\u2026$/);
    expect(shorten("picnic table", 12, 400)).toBe("picnic table");
    expect(shorten("picnic table", 12, 40)).toMatch(/^pi.*\u2026$/);
  });

  it("leaves no lone word on the last row of a label", () => {
    expect(balanceText("aaaa bbbb cccc dddd e", 10, textWidth("aaaa bbbb cccc dddd", 10), 2)).toEqual([
      "aaaa bbbb",
      "cccc dddd e",
    ]);
  });

  it("is cleaned of what XML forbids and escaped", () => {
    expect(cleanText("a\u0000b\u202e\n c\ud800")).toBe("ab c");
    expect(escapeText(`<&>"'`)).toBe("&lt;&amp;&gt;&quot;&apos;");
    expect(element("text", { x: 1, "data-a": '"><x' }, escapeText("<y>"))).toBe(
      '<text x="1" data-a="&quot;&gt;&lt;x">&lt;y&gt;</text>',
    );
    expect(cleanText("\ud83d\ude90 rig")).toBe("\ud83d\ude90 rig");
  });

  it("writes short numbers and refuses what is none", () => {
    expect(numberText(-0.001)).toBe("0");
    expect(numberText(1.005)).toMatch(/^1(\.0[01])?$/);
    expect(() => numberText(Number.NaN)).toThrow(RangeError);
  });
});

describe("labels", () => {
  const frame = { x: 0, y: 0, width: 400, height: 300 };
  const label = (key: string, x: number, y: number, priority = 1): LabelRequest => ({
    key,
    rows: [{ text: "needs 7.62 m" }],
    anchors: [{ x, y }],
    priority,
    fontSize: 12,
    colour: "#111111",
    otherwise: key,
  });

  it("never touch each other, a mark or the edge; none is lost", () => {
    const spot = fc.record({ x: fc.integer({ min: 0, max: 400 }), y: fc.integer({ min: 0, max: 300 }) });
    fc.assert(
      fc.property(fc.array(spot, { maxLength: 25 }), fc.array(spot, { maxLength: 8 }), (anchors, marks) => {
        const solids = marks.map((mark) => ({ x: mark.x - 10, y: mark.y - 10, width: 20, height: 20 }));
        const requests = anchors.map((anchor, index) => label(`${index}`, anchor.x, anchor.y));
        const { placed, unplaced } = placeLabels(requests, { frame, solids, wires: [], body: [] });
        expect(placed.length + unplaced.length).toBe(anchors.length);
        placed.forEach((one, index) => {
          expect(one.box.x >= 0 && one.box.x + one.box.width <= 400).toBe(true);
          expect(one.box.y >= 0 && one.box.y + one.box.height <= 300).toBe(true);
          expect(solids.some((solid) => overlaps(one.box, solid))).toBe(false);
          expect(placed.slice(index + 1).some((other) => overlaps(one.box, other.box))).toBe(false);
        });
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it("give way to a more urgent one, and are handed back when there is no room", () => {
    const { width, height } = labelSize(label("a", 0, 0));
    const tight = { x: 0, y: 0, width: width + 30, height: height + 6 };
    const requests = [label("later", 5, tight.height / 2, 1), label("first", 5, tight.height / 2, 9)];
    const { placed, unplaced } = placeLabels(requests, { frame: tight, solids: [], wires: [], body: [] });
    expect(placed.map((each) => each.request.key)).toEqual(["first"]);
    expect(unplaced.map((each) => each.key)).toEqual(["later"]);
  });

  it("keep off lines when there is room beside them", () => {
    const wires = [{ from: { x: 200, y: 0 }, to: { x: 200, y: 300 }, cost: 100 }];
    const { placed } = placeLabels([label("a", 190, 150)], { frame, solids: [], wires, body: [] });
    expect(cutSegment({ from: { x: 200, y: 0 }, to: { x: 200, y: 300 } }, placed[0]?.box ?? frame)).toBeNull();
  });

  it("of things outside keep off the rig's body", () => {
    const body = [
      { x: 100, y: 50 },
      { x: 300, y: 50 },
      { x: 300, y: 150 },
      { x: 100, y: 150 },
    ];
    const outside = { ...label("awning", 200, 149), offBody: true };
    const box = placeLabels([outside], { frame, solids: [], wires: [], body }).placed[0]?.box;
    expect((box?.y ?? 0) + (box?.height ?? 0) / 2).toBeGreaterThan(150);
  });

  it("have a leader when they stand away from their spot", () => {
    const solids = [{ x: 20, y: 20, width: 260, height: 200 }];
    const far = placeLabels([label("a", 150, 120)], { frame, solids, wires: [], body: [] }).placed[0];
    expect(far?.leader?.to).toEqual({ x: 150, y: 120 });
    const near = placeLabels([label("a", 150, 120)], { frame, solids: [], wires: [], body: [] }).placed[0];
    expect(near?.leader).toBeNull();
  });
});
