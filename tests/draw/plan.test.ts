import { describe, expect, it } from "vitest";
import { drawPlan } from "../../src/draw/plan.ts";
import type { Fit } from "../../src/fit/answer.ts";
import type { PadPoint } from "../../src/fit/stance/problem.ts";
import * as fixtures from "./fixtures.ts";
import { makeFit } from "./makers.ts";
import { all, having, labelBoxes, type Node, one, pointsOf, readSvg, type Spot, words } from "./svg-reading.ts";

const WIDTHS = [1000, 640, 380, 280];
/** Coordinates are written with two decimals. */
const PIXEL = 0.02;

function plan(fit: Fit, options: Parameters<typeof drawPlan>[1] = { widthPx: 1000 }): Node {
  return readSvg(drawPlan(fit, options));
}

/** The map from the pad frame to the page, found from the drawn pad alone. */
function mapOf(root: Node, fit: Fit): { scale: number; toPage: (point: PadPoint) => Spot } {
  const pad = fit.scene.pad;
  const [rearRight, exitRight, , rearLeft] = pointsOf(one(root, "data-part", "pad"));
  if (!pad || !rearRight || !exitRight || !rearLeft) {
    throw new Error("no pad");
  }
  const along = { x: (exitRight.x - rearRight.x) / pad.length, y: (exitRight.y - rearRight.y) / pad.length };
  const left = { x: (rearLeft.x - rearRight.x) / pad.width, y: (rearLeft.y - rearRight.y) / pad.width };
  return {
    scale: Math.hypot(along.x, along.y),
    toPage: (point) => ({
      x: rearRight.x + along.x * point.along + left.x * (point.left + pad.width / 2),
      y: rearRight.y + along.y * point.along + left.y * (point.left + pad.width / 2),
    }),
  };
}

function lengthOf(path: Spot[]): number {
  return path.slice(1).reduce((sum, spot, index) => {
    const before = path[index] ?? spot;
    return sum + Math.hypot(spot.x - before.x, spot.y - before.y);
  }, 0);
}

function overlap(a: { x: number; y: number; width: number; height: number }, b: typeof a): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

describe.each(Object.entries(fixtures.FIXTURES))("the plan of %s", (_name, make) => {
  it.each(WIDTHS)("is XML that needs nothing from outside, %i px wide", (widthPx) => {
    const svg = drawPlan(make(), { widthPx });
    const root = readSvg(svg);
    expect(root.name).toBe("svg");
    expect(root.attributes.role).toBe("img");
    expect(root.attributes.viewBox).toMatch(new RegExp(`^0 0 ${widthPx} \\d+$`));
    expect(root.children[0]?.name).toBe("title");
    expect(root.children[1]?.name).toBe("desc");
    expect(root.children[1]?.text.length).toBeGreaterThan(40);
    const allowed = new Set("svg title desc g rect line polyline polygon circle path text".split(" "));
    for (const node of all(root)) {
      expect(allowed).toContain(node.name);
      for (const [key, value] of Object.entries(node.attributes)) {
        expect(key).not.toMatch(/^on|^style$|^id$|^class$|href|transform/);
        expect(key.startsWith("data-") || key === "aria-label" ? "" : value).not.toMatch(
          /NaN|Infinity|undefined|url\(/,
        );
      }
    }
    expect(svg).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });

  it.each(WIDTHS)("keeps its labels apart, off the marks and inside the field, %i px wide", (widthPx) => {
    const root = plan(make(), { widthPx });
    const labels = labelBoxes(root);
    for (const [index, label] of labels.entries()) {
      for (const other of labels.slice(index + 1)) {
        expect(overlap(label.box, other.box), `${label.key} on ${other.key}`).toBe(false);
      }
    }
    const marks = [...having(root, "data-hookup"), ...having(root, "data-inlet"), ...having(root, "data-hot")];
    for (const mark of marks) {
      const circles = all(mark).filter((node) => node.name === "text");
      for (const letter of circles) {
        const at = { x: Number(letter.attributes.x), y: Number(letter.attributes.y), width: 0, height: 0 };
        for (const label of labels) {
          expect(overlap(label.box, at), `${label.key} on a mark`).toBe(false);
        }
      }
    }
  });

  it("is the same each time", () => {
    expect(drawPlan(make(), { widthPx: 700 })).toBe(drawPlan(make(), { widthPx: 700 }));
  });
});

describe("to scale", () => {
  const cases = [fixtures.backIn, fixtures.aroundTheRear, fixtures.pullThrough, fixtures.described];
  it.each(cases.flatMap((make) => WIDTHS.map((widthPx) => ({ make, widthPx, name: make.name }))))(
    "each line of $name lies on its path, $widthPx px wide",
    ({ make, widthPx }) => {
      const fit = make();
      const root = plan(fit, { widthPx });
      const { toPage } = mapOf(root, fit);
      const drawn = fit.lines.filter((line) => line.path.length > 1);
      expect(drawn.length).toBeGreaterThan(0);
      for (const line of drawn) {
        const path = pointsOf(one(one(root, "data-line", line.service), "data-part", "path"));
        expect(path).toHaveLength(line.path.length);
        line.path.forEach((point, index) => {
          const expected = toPage(point);
          expect(Math.abs((path[index]?.x ?? 0) - expected.x)).toBeLessThan(PIXEL);
          expect(Math.abs((path[index]?.y ?? 0) - expected.y)).toBeLessThan(PIXEL);
        });
      }
      for (const point of ["body"]) {
        const body = pointsOf(one(root, "data-part", point));
        fit.scene.rig?.body.forEach((corner, index) => {
          expect(Math.abs((body[index]?.x ?? 0) - toPage(corner).x)).toBeLessThan(PIXEL);
          expect(Math.abs((body[index]?.y ?? 0) - toPage(corner).y)).toBeLessThan(PIXEL);
        });
      }
    },
  );

  it("keeps left on the left: up when the exit is right, right when the exit is down", () => {
    const fit = fixtures.backIn();
    const wide = plan(fit, { widthPx: 1000 });
    expect(one(wide, "data-part", "plan").attributes["data-orientation"]).toBe("exit-right");
    const narrow = plan(fit, { widthPx: 380 });
    expect(one(narrow, "data-part", "plan").attributes["data-orientation"]).toBe("exit-down");
    const origin = { along: 0, left: 0 };
    const wideMap = mapOf(wide, fit);
    expect(wideMap.toPage({ along: 0, left: 1 }).y).toBeLessThan(wideMap.toPage(origin).y);
    expect(wideMap.toPage({ along: 1, left: 0 }).x).toBeGreaterThan(wideMap.toPage(origin).x);
    const narrowMap = mapOf(narrow, fit);
    expect(narrowMap.toPage({ along: 0, left: 1 }).x).toBeGreaterThan(narrowMap.toPage(origin).x);
    expect(narrowMap.toPage({ along: 1, left: 0 }).y).toBeGreaterThan(narrowMap.toPage(origin).y);
  });

  it.each([
    ["metric", 1],
    ["us", 0.3048],
  ] as const)("the scale bar tells the truth in %s units", (units, metres) => {
    const fit = fixtures.backIn();
    const root = plan(fit, { widthPx: 1000, units });
    const bar = one(root, "data-scale");
    const count = Number.parseInt(bar.attributes["data-scale"] ?? "", 10);
    const width = all(bar)
      .filter((node) => node.name === "rect")
      .reduce((sum, rect) => sum + Number(rect.attributes.width), 0);
    expect(width).toBeCloseTo(count * metres * mapOf(root, fit).scale, 0);
    expect(words(bar)).toContain(units === "us" ? `${count} ft` : `${count} m`);
  });

  it("draws what a short line lacks as long as it lacks", () => {
    const fit = fixtures.aroundTheRear();
    const root = plan(fit);
    const sewer = one(root, "data-line", "sewer");
    const missing = lengthOf(pointsOf(one(sewer, "data-part", "missing")));
    expect(missing / mapOf(root, fit).scale).toBeCloseTo(4.16 - 2.74, 2);
    expect(having(one(root, "data-line", "power"), "data-part", "missing")).toHaveLength(0);
  });

  it("fits a hookup 40 m away into the field", () => {
    const root = plan(fixtures.noPadFarTap());
    for (const mark of having(root, "data-hookup")) {
      const x = Number(all(mark).find((node) => node.name === "text")?.attributes.x);
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(1000);
    }
  });

  it("puts the nose at the rear edge for a rig that stands nose in", () => {
    const fit = fixtures.described();
    const root = plan(fit);
    const { toPage } = mapOf(root, fit);
    const screen = all(one(root, "data-part", "nose")).find((node) => node.name === "polygon");
    const middle = pointsOf(screen as Node).reduce((sum, spot) => sum + spot.x / 4, 0);
    expect(middle).toBeLessThan(toPage({ along: 0.8 + 7.7 / 2, left: 0 }).x);
    expect(having(root, "data-word", "nose")).toHaveLength(1);
  });
});

describe("a mirrored scene", () => {
  it.each([1000, 380])("gives a mirrored drawing with upright text, %i px wide", (widthPx) => {
    const fit = fixtures.aroundTheRear();
    const mirror = fixtures.mirrored(fit);
    const root = plan(fit, { widthPx });
    const other = plan(mirror, { widthPx });
    const here = mapOf(root, fit);
    const there = mapOf(other, mirror);
    for (const line of fit.lines) {
      const path = pointsOf(one(one(other, "data-line", line.service), "data-part", "path"));
      line.path.forEach((point, index) => {
        const expected = there.toPage({ along: point.along, left: -point.left });
        expect(Math.hypot((path[index]?.x ?? 0) - expected.x, (path[index]?.y ?? 0) - expected.y)).toBeLessThan(PIXEL);
        expect(
          Math.abs(here.toPage(point).y - here.toPage({ along: point.along, left: -point.left }).y) +
            Math.abs(here.toPage(point).x - here.toPage({ along: point.along, left: -point.left }).x),
        ).toBeGreaterThan(1);
      });
    }
    expect(all(other).every((node) => node.attributes.transform === undefined)).toBe(true);
    expect(words(root)).toContain("left of the pad's middle line");
    expect(words(other)).toContain("right of the pad's middle line");
  });
});

describe("what the labels say", () => {
  it("gives needed, available and margin in the asked unit, rounded against the reader", () => {
    const metric = words(plan(fixtures.pullThrough(), { widthPx: 1000, units: "metric" }));
    expect(metric).toContain("W Water: reaches needs 3.60 m, has 7.62 m 4.02 m to spare");
    const us = words(plan(fixtures.pullThrough(), { widthPx: 1000 }));
    expect(us).toContain("W Water: reaches needs 11 ft 10 in, has 25 ft 13 ft 2 in to spare");
  });

  it("names the shortfall of a short line and the range of an unknown one", () => {
    expect(words(plan(fixtures.aroundTheRear()))).toContain("S Sewer: SHORT needs 4.16 m, has 2.74 m 1.42 m short");
    expect(words(plan(fixtures.described()))).toContain("margin \u22121.30 m to 3.90 m");
  });

  it("says why a line is not drawn", () => {
    expect(words(one(plan(fixtures.described()), "data-part", "notes"))).toContain("No tap is recorded.");
  });

  it("gives the window and the stance by the end that is nearer to the rear edge", () => {
    const out = words(plan(fixtures.backIn()));
    expect(out).toContain("1.10 m from rear edge to rear bumper, 0.30 m right of the pad's middle line");
    expect(out.replace(/\s+/g, " ")).toContain("Stop with the rear bumper 0.62 m to 1.94 m from the rear edge");
    expect(words(plan(fixtures.described()))).toContain("0.80 m from rear edge to nose");
  });

  it("draws the window's bracket from its near to its far end", () => {
    const fit = fixtures.backIn();
    const root = plan(fit);
    const bracket = all(one(root, "data-part", "window")).filter((node) => node.name === "line");
    const { toPage } = mapOf(root, fit);
    const main = bracket[0];
    expect(Number(main?.attributes.x1)).toBeCloseTo(toPage({ along: 0.62, left: 0 }).x, 1);
    expect(Number(main?.attributes.x2)).toBeCloseTo(toPage({ along: 1.94, left: 0 }).x, 1);
  });

  it("shows verdict, headline and cautions, and leaves the head out when asked", () => {
    const root = plan(fixtures.aroundTheRear());
    expect(words(one(root, "data-verdict-word"))).toBe("does not fit");
    expect(words(one(root, "data-part", "header"))).toContain("the sewer hose is 1.42 m short");
    expect(words(one(root, "data-part", "cautions"))).toContain("Test voltage, polarity and ground before connecting.");
    expect(having(plan(fixtures.aroundTheRear(), { title: false }), "data-part", "header")).toHaveLength(0);
  });

  it("says that north is unknown without a heading", () => {
    expect(words(one(plan(fixtures.described()), "data-part", "north"))).toBe("north unknown");
    expect(words(one(plan(fixtures.backIn()), "data-part", "north"))).toBe("N");
  });

  it("says that the rig is not placed and draws it clear of the pad, to scale", () => {
    const fit = fixtures.notPlaced();
    const root = plan(fit);
    expect(having(root, "data-word", "not placed")).toHaveLength(1);
    const body = pointsOf(one(root, "data-part", "body-not-placed"));
    const pad = pointsOf(one(root, "data-part", "pad"));
    expect(Math.max(...body.map((spot) => spot.x))).toBeLessThan(Math.min(...pad.map((spot) => spot.x)));
    const height = Math.max(...body.map((spot) => spot.y)) - Math.min(...body.map((spot) => spot.y));
    expect(height / mapOf(root, fit).scale).toBeCloseTo(7.7, 1);
    expect(having(root, "data-line")).toHaveLength(0);
  });

  it("says that the pad is not recorded", () => {
    const root = plan(fixtures.noPadFarTap());
    expect(having(root, "data-part", "pad")).toHaveLength(0);
    expect(words(one(root, "data-part", "notes"))).toContain("The pad's length, width or heading is not recorded");
  });

  it("describes the plan in words", () => {
    const text = plan(fixtures.aroundTheRear()).children[1]?.text.replace(/\u00a0/g, " ") ?? "";
    expect(text).toContain("The pad is 13.00 m long and 3.70 m wide.");
    expect(text).toContain(
      "P Power: reaches, needs 8.30 m, has 9.14 m, 0.84 m to spare, from the rig's left side, around the rear.",
    );
    expect(text).toContain("Sewer hookup 4.10 m from the rear edge, 5.60 m left of the middle.");
  });
});

describe("text from outside", () => {
  it("is text and nothing else", () => {
    const fit = fixtures.awkwardWords();
    const svg = drawPlan(fit, { widthPx: 1000 });
    const root = readSvg(svg);
    expect(svg).not.toMatch(/<script|<image|<b |<i>|<a>|\u202e/);
    expect(svg.includes("\u0000")).toBe(false);
    expect(root.children[0]?.text).toContain("<script>alert(\"rig\")</script> & 'sons'");
    expect(words(one(root, "data-part", "header"))).toContain("<script>alert");
  });

  it("is wrapped and cut rather than run out of the sheet", () => {
    for (const text of all(plan(fixtures.awkwardWords(), { widthPx: 380 })).filter((node) => node.name === "text")) {
      const size = Number(text.attributes["font-size"]);
      const anchored = text.attributes["text-anchor"] === "middle" ? 0.5 : 1;
      // Half the font size is less than any face gives per letter on average.
      const width = [...text.text].length * size * 0.5 * anchored;
      expect(Number(text.attributes.x) + width, text.text).toBeLessThanOrEqual(380);
    }
  });
});

describe("the legend", () => {
  const keys = (fit: Fit): string[] =>
    having(plan(fit), "data-legend")
      .map((node) => node.attributes["data-legend"] ?? "")
      .sort();

  it("lists what occurs on a full plan", () => {
    expect(keys(fixtures.backIn())).toEqual(
      [
        "line:power",
        "line:water",
        "line:sewer",
        "hookup:power",
        "hookup:water",
        "hookup:sewer",
        "inlet",
        "sigma",
        "window",
        "stance",
        "rear-edge",
        "middle",
        "stop",
        "slide",
        "awning:open",
        "door",
        "hot",
        "obstacle:solid",
        "obstacle:overhead",
        "obstacle:barrier",
      ].sort(),
    );
  });

  it("lists nothing else on an empty one", () => {
    const fit = makeFit({ scene: { pad: { length: 9, width: 3, heading: 0 } } });
    expect(keys(fit)).toEqual(["middle", "rear-edge"]);
  });

  it("tells an awning kept in, a region and a short line", () => {
    expect(keys(fixtures.aroundTheRear())).toEqual(expect.arrayContaining(["awning:in", "short"]));
    expect(keys(fixtures.aroundTheRear())).not.toContain("awning:open");
    expect(keys(fixtures.described())).toContain("region");
    expect(keys(fixtures.described())).not.toContain("short");
    expect(keys(fixtures.pullThrough())).toContain("door:assumed");
  });
});

describe("without colour", () => {
  it("gives every service its own dash or tube and its own letter", () => {
    const root = plan(fixtures.pullThrough());
    const looks = having(root, "data-line").map((group) => {
      const strokes = all(group).filter((node) => node.name === "polyline" && node.attributes["data-part"] !== "path");
      return strokes
        .map((node) => `${node.attributes["stroke-width"]}/${node.attributes["stroke-dasharray"] ?? "-"}`)
        .join("+");
    });
    expect(looks).toHaveLength(4);
    expect(new Set(looks).size).toBe(4);
    const letters = having(root, "data-hookup").map((mark) => words(mark));
    expect(letters).toEqual(["P", "C", "W", "S"]);
  });
});
