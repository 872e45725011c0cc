import { describe, expect, it } from "vitest";
import { drawWindRose } from "../../src/draw/rose.ts";
import { roseAt } from "../../src/wind/rose.ts";
import { bearingOfDegrees } from "../../src/wind/sector.ts";
import { area, box, compiled, HERE, line } from "../wind/places.ts";
import { all, having, type Node, one, readSvg } from "./svg-reading.ts";

const belt = line(
  "belt",
  [
    [-900, 60],
    [900, 60],
  ],
  { kind: "shelter", what: "trees", height: 10, porosity: 0.3, name: 'North "old" <belt>' },
);
const lake = area("lake", [box(-3000, -100, -2500, 2600)], { kind: "ground", what: "water" });
const ROSE = roseAt(compiled(belt, lake), HERE);
const OPTIONS = {
  name: "12 & 13",
  awning: bearingOfDegrees(120),
  prevailing: bearingOfDegrees(234),
  forecast: [bearingOfDegrees(20)],
};

function centreOf(svg: Node): { x: number; y: number } {
  const circle = all(one(svg, "data-part", "rings")).find(({ name }) => name === "circle")!;
  return { x: Number(circle.attributes["cx"]), y: Number(circle.attributes["cy"]) };
}

function spots(node: Node): { x: number; y: number }[] {
  return node.attributes["points"]!.split(" ").map((pair) => {
    const [x, y] = pair.split(",").map(Number);
    return { x: x!, y: y! };
  });
}

/** Degrees clockwise from up of the middle of some points about the centre. */
function bearing(points: readonly { x: number; y: number }[], centre: { x: number; y: number }): number {
  const east = points.reduce((sum, { x }) => sum + x - centre.x, 0);
  const south = points.reduce((sum, { y }) => sum + y - centre.y, 0);
  return (Math.round((Math.atan2(east, -south) * 180) / Math.PI) + 360) % 360;
}

describe("wind rose", () => {
  const svg = readSvg(drawWindRose(ROSE, OPTIONS));
  const centre = centreOf(svg);
  const shape = (node: Node, name: string): Node => all(node).find((each) => each.name === name)!;

  it("draws sixteen petals where their winds come from, as long as what is left of a gust", () => {
    const petals = having(svg, "data-sector");
    expect(petals).toHaveLength(16);
    const radius = Math.max(
      ...all(one(svg, "data-part", "rings")).map(({ attributes }) => Number(attributes["r"] ?? 0)),
    );
    petals.forEach((petal, index) => {
      const points = spots(shape(petal, "polygon"));
      expect(Math.abs(bearing(points, centre) - 22.5 * index)).toBeLessThan(1);
      const reach = Math.max(...points.map(({ x, y }) => Math.hypot(x - centre.x, y - centre.y)));
      expect(reach / radius).toBeCloseTo(ROSE.sectors[index]!.ratio, 2);
    });
  });

  it("shows what the belt takes, in dashes, on its side alone", () => {
    const taken = (word: string) => all(one(svg, "data-sector", word)).filter(({ name }) => name === "polygon").length;
    expect(taken("N")).toBe(2);
    expect(taken("S")).toBe(1);
  });

  it("marks awning, prevailing and forecast wind by letter where they are", () => {
    for (const [part, letter, degrees] of [
      ["prevailing", "P", 234],
      ["forecast", "F", 20],
    ] as const) {
      const group = one(svg, "data-part", part);
      const circle = shape(group, "circle").attributes;
      expect(bearing([{ x: Number(circle["cx"]), y: Number(circle["cy"]) }], centre)).toBe(degrees);
      expect(all(group).some(({ text }) => text === letter)).toBe(true);
    }
    const ends = all(one(svg, "data-part", "awning")).filter(({ name }) => name === "circle");
    const marks = ends.map(({ attributes }) => ({ x: Number(attributes["cx"]), y: Number(attributes["cy"]) }));
    expect(marks.map((mark) => bearing([mark], centre))).toEqual([75, 165]);
    const plain = readSvg(drawWindRose(ROSE, { name: "12" }));
    expect(having(plain, "data-part", "awning")).toHaveLength(0);
    expect(
      all(plain)
        .map(({ text }) => text)
        .join(" "),
    ).toMatch(/Where the awning opens is not known/);
  });

  it("a forecast wind from where the prevailing one comes covers it not, and both point along their winds", () => {
    const meeting = readSvg(
      drawWindRose(ROSE, { ...OPTIONS, prevailing: bearingOfDegrees(234), forecast: [bearingOfDegrees(230)] }),
    );
    const ringOf = (part: string) => shape(one(meeting, "data-part", part), "circle").attributes;
    const [p, f] = [ringOf("prevailing"), ringOf("forecast")];
    const apart = Math.hypot(Number(p["cx"]) - Number(f["cx"]), Number(p["cy"]) - Number(f["cy"]));
    expect(apart).toBeGreaterThanOrEqual(Number(p["r"]) + Number(f["r"]));
    for (const [part, degrees] of [
      ["prevailing", 234],
      ["forecast", 230],
    ] as const) {
      const [tip, ...neck] = spots(shape(one(meeting, "data-part", part), "polygon"));
      expect(bearing(neck, tip!)).toBe(degrees);
    }
  });

  it("an arrow points at the site", () => {
    const [tip, ...neck] = spots(shape(one(svg, "data-part", "prevailing"), "polygon"));
    const far = (spot: { x: number; y: number }) => Math.hypot(spot.x - centre.x, spot.y - centre.y);
    for (const corner of neck) expect(far(tip!)).toBeLessThan(far(corner));
  });

  it("names the shelter, escaped, in the drawing and in the description", () => {
    const desc = all(svg).find(({ name }) => name === "desc")!.text;
    expect(desc).toMatch(/trees "North "old" <belt>" \d+ m upwind/);
    expect(desc).toMatch(/The awning opens towards ESE/);
    const words = all(one(svg, "data-part", "notes"))
      .map(({ text }) => text)
      .join(" ");
    expect(words).toMatch(/takes up to \d+\s%/);
    expect(words).toMatch(/no permission/);
    expect(words).not.toMatch(/\bsafe\b/i);
  });

  it("keeps its text and marks on the sheet at any width", () => {
    for (const widthPx of [1, 240, 420, 1200, 9999, Number.NaN]) {
      const sheet = readSvg(drawWindRose(ROSE, { ...OPTIONS, widthPx }));
      const [, , width, height] = sheet.attributes["viewBox"]!.split(" ").map(Number);
      for (const { attributes } of all(sheet)) {
        for (const [name, most] of [
          ["x", width],
          ["cx", width],
          ["y", height],
          ["cy", height],
        ] as const) {
          const value = Number(attributes[name] ?? 0);
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThanOrEqual(most!);
        }
      }
    }
  });

  it("is deterministic and carries no script, style or outside reference", () => {
    const text = drawWindRose(ROSE, OPTIONS);
    expect(drawWindRose(ROSE, OPTIONS)).toBe(text);
    expect(text).not.toMatch(/<script|<style|href|url\(|\bid=/);
  });

  it("names every other direction at its petal, so that the rose is read without the north mark", () => {
    const texts = (word: string) =>
      all(one(svg, "data-sector", word))
        .map(({ text }) => text)
        .join(" ");
    for (const word of ["N", "NE", "E", "SE", "S", "SW", "W", "NW"])
      expect(texts(word)).toMatch(new RegExp(`${word} \\d+`));
    for (const word of ["NNE", "WSW"]) expect(texts(word)).toMatch(/^\D*\d+\D*$/);
  });

  it("bare, has the drawing and its description without title and sentences", () => {
    const bare = readSvg(drawWindRose(ROSE, { ...OPTIONS, bare: true }));
    expect(having(bare, "data-sector")).toHaveLength(16);
    expect(all(bare).find(({ name }) => name === "desc")!.text).toMatch(/The awning opens towards ESE/);
    const shown = all(bare)
      .filter(({ name }) => name === "text")
      .map(({ text }) => text)
      .join(" ");
    expect(shown).not.toMatch(/opens|Wind rose|permission/);
    const height = (sheet: Node) => Number(sheet.attributes["height"]);
    expect(height(bare)).toBeLessThan(height(svg) - 100);
  });

  it("says a guess with a question mark and a dashed edge", () => {
    const wood = roseAt(compiled(area("wood", [box(-400, 500, -450, 420)], { kind: "ground", what: "wood" })), HERE);
    const sheet = readSvg(drawWindRose(wood, { name: "7" }));
    const petal = one(sheet, "data-sector", "E");
    expect(all(petal).some(({ text }) => / \?$/.test(text))).toBe(true);
    expect(shape(petal, "polygon").attributes["stroke-dasharray"]).toBeDefined();
    expect(
      all(sheet)
        .map(({ text }) => text)
        .join(" "),
    ).toMatch(/limbs may fall/);
  });
});
