/** The way in and out as a sheet: what it says, that it reads without colour, that nothing of a record gets loose in it. */
import { describe, expect, it } from "vitest";
import { drawWayIn } from "../../src/draw/way-in.ts";
import type { Fit } from "../../src/fit/answer.ts";
import { fitRig } from "../../src/fit/fit.ts";
import { DEFAULT_OPTIONS } from "../../src/fit/options.ts";
import { rig, site } from "../demo/demo.ts";

const fitOf = (one: string, place: string): Fit =>
  fitRig({ rig: rig(one), site: site(place), options: { ...DEFAULT_OPTIONS, units: "metric" } });
const backIn = fitOf("rental-coach", "curlew-7");
const through = fitOf("long-trailer", "plover-3");

/** Attributes of every element with this part. */
function parts(svg: string, part: string): string[] {
  return svg.match(new RegExp(`<[a-z]+ [^>]*data-part="${part}"[^>]*>`, "g")) ?? [];
}

describe("the way in", () => {
  it("shows both ways with their roads, swept ground, moves and least clearance", () => {
    const svg = drawWayIn(backIn);
    expect(svg).toMatch(/^<svg [\s\S]*<\/svg>$/);
    for (const part of ["way-in", "way-out", "status-in", "status-out"]) expect(parts(svg, part)).toHaveLength(1);
    expect(parts(svg, "road")).toHaveLength(4);
    expect(parts(svg, "mouth")).toHaveLength(4);
    expect(svg).toMatch(/In: ok in one move/);
    expect(svg).toMatch(/m clear here/);
    expect(svg).toMatch(/2\. Reverse, wheels to the (left|right)/);
  });

  it("tells reverse from forward by a dash, not by colour", () => {
    const svg = drawWayIn(backIn);
    const bodies = svg.match(/<polygon [^>]*data-gear="[a-z]+"[^>]*>/g) ?? [];
    const reverse = bodies.filter((one) => one.includes('data-gear="reverse"'));
    const dashed = reverse.filter((one) => one.includes("stroke-dasharray"));
    expect(dashed.length).toBe(reverse.length - 1);
    for (const one of bodies.filter((each) => each.includes('data-gear="forward"'))) {
      expect(one).not.toContain("stroke-dasharray");
    }
    const colours = new Set([...svg.matchAll(/(?:fill|stroke)="(#[0-9a-f]{6})"/g)].map(([, colour]) => colour!));
    const grey = [...colours].filter(
      (one) => one.slice(1, 3) === one.slice(3, 5) && one.slice(3, 5) === one.slice(5, 7),
    );
    expect([...colours].filter((one) => !grey.includes(one))).toEqual(["#f1efe9"]);
  });

  it("says the cautions of reversing beside a reverse, and what must be found before", () => {
    const svg = drawWayIn(backIn).replace(/<[^>]+>/g, " ");
    expect(svg).toMatch(/spotter/);
    expect(svg).toMatch(/Children/);
    expect(drawWayIn(through)).toMatch(/Needed: a place for the pickup/);
  });

  it("draws both vehicles of a train", () => {
    const names = new Set(through.manoeuvre!.in.outlines.map(({ unit }) => unit));
    expect(names).toEqual(new Set(["rig", "pickup"]));
  });

  it("says in words why nothing is drawn", () => {
    expect(drawWayIn({ ...backIn, manoeuvre: null })).toMatch(/no stance to drive to/);
    const shunt = drawWayIn(fitOf("long-trailer", "curlew-7"));
    expect(shunt).toMatch(/In: needs a shunt/);
    expect(parts(shunt, "way-in")).toHaveLength(0);
  });

  it("keeps words of a record as words", () => {
    const bad = { ...backIn, site: { ...backIn.site, name: '<script>"x"</script>' } };
    expect(drawWayIn(bad)).not.toContain("<script>");
  });

  it("gives the same sheet twice, and no number that is none", () => {
    expect(drawWayIn(through)).toBe(drawWayIn(through));
    expect(drawWayIn(through, { widthPx: 300 })).not.toMatch(/NaN|Infinity|undefined/);
    expect(drawWayIn(through, { widthPx: 300 })).toMatch(/width="300"/);
  });
});
