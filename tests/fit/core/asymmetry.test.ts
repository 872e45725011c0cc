/** Left is not right, up is not down, before is not behind: what a swap anywhere in the fit would break. */
import { describe, expect, it } from "vitest";
import { heightsMeet } from "../../../src/fit/clearance/placed.ts";
import { fitRig } from "../../../src/fit/fit.ts";
import { levelRig } from "../../../src/fit/level/level.ts";
import { sayer } from "../../../src/fit/say.ts";
import { rankSites } from "../../../src/fit/search.ts";
import type { CompletedSite } from "../../../src/site/completed.ts";
import { BARE, exact, options, question, rig, site } from "./builders.ts";

const CORD = { service: "power", fromRear: 1, length: 9, height: 0.9 } as const;
const POST = { service: "power", along: 1.5, left: 3.4, height: 1 } as const;

describe("where the rig may stand", () => {
  it("a slide of the left wall moves the body to the right, and the other way round", () => {
    const placeOf = (wall: "left" | "right") => {
      const sizes = { fromRear: exact(4), length: exact(2), depth: exact(0.9), bottom: exact(0.8), top: exact(2.6) };
      const slide = { id: "slide", wall, required: true, path: "/slideouts/0", ...sizes };
      const asked = question({ width: 2.4, connections: [CORD] }, { width: 3.3, hookups: [POST] }, BARE);
      return fitRig({ ...asked, rig: { ...asked.rig, slideouts: [slide] } }).stance!.left;
    };
    expect(placeOf("left")).toBeCloseTo(-0.45, 6);
    expect(placeOf("right")).toBeCloseTo(0.45, 6);
  });

  it("a wheel stop takes room: the rear may hang behind the edge by what is clear behind the stop, less its distance", () => {
    const stands = (length: number) => {
      const asked = question({ length: 7.6, connections: [CORD] }, { length, hookups: [POST] }, BARE);
      const stop = { kind: "wheelStop", along: exact(0.5), height: exact(0.15), clearBehind: exact(1) } as const;
      const pad = { ...asked.site.pad, overhangRear: exact(0.8) };
      return fitRig({ ...asked, site: { ...asked.site, pad, stop } }).stance;
    };
    // The rig of 7.6 m hangs 0.5 m behind the edge at most.
    expect(stands(7.12)!.along).toBeCloseTo(-0.49, 1);
    expect(stands(7.08)).toBeNull();
  });

  it("a thing that begins and ends within the heights of a part meets it", () => {
    expect(heightsMeet({ from: 2, to: 3 }, { from: 2.4, to: 2.7 })).toBe(true);
    expect(heightsMeet({ from: 2.4, to: 2.7 }, { from: 2, to: 3 })).toBe(true);
    expect(heightsMeet({ from: 2, to: 3 }, { from: 3, to: 4 })).toBe(false);
    expect(heightsMeet({ from: 2, to: 3 }, { from: 0, to: 2 })).toBe(false);
  });
});

describe("ground", () => {
  const DRAIN = { service: "sewer", fromRear: 3, length: 3.4, height: 0.5 } as const;
  const fitOn = (grade: number, crossfall: number, facing: "out" | "in" = "out") => {
    const riser = { service: "sewer", along: 1, left: 2.7, height: 0.1 } as const;
    const asked = question(
      { length: 7.6, width: 2.4, connections: [DRAIN] },
      { length: 7.6, width: 2.4, hookups: [riser] },
      { ...BARE, needs: { sewer: "required" }, facings: [facing] },
    );
    const pad = { ...asked.site.pad, grade: exact(grade), crossfall: exact(crossfall) };
    return fitRig({ ...asked, site: { ...asked.site, pad } });
  };

  it("that rises towards the outlet helps the drain, and that rises towards the riser takes from it", () => {
    // The outlet stands at (3, 1.2), the riser at (1, 2.7): 2 m farther along, 1.5 m farther right.
    expect(fitOn(0.015, 0).sewer.fall).toBeCloseTo(0.4 + 0.03, 9);
    expect(fitOn(-0.015, 0).sewer.fall).toBeCloseTo(0.4 - 0.03, 9);
    expect(fitOn(0, 0.01).sewer.fall).toBeCloseTo(0.4 - 0.015, 9);
  });

  it("is the same ground to the solver as at the stance shown", () => {
    for (const [grade, crossfall] of [
      [0.015, 0.01],
      [-0.015, 0.004],
    ] as const) {
      const fall = 0.4 + 2 * grade - 1.5 * crossfall;
      expect(fitOn(grade, crossfall).bestMargin).toBeCloseTo(3.4 - 0.3 - Math.hypot(2.5, fall), 6);
    }
  });

  it("under a turned rig: the grade is climb along and slope across, with the sign of the turn", () => {
    const coach = rig({ connections: [CORD] });
    const across = (yaw: number, facing: "out" | "in") =>
      levelRig({ grade: exact(0.04), crossfall: exact(0), facing, yaw, rig: coach }, sayer("metric")).answer.acrossRig;
    // Nose out and turned to pad left, the rig's left looks back to the rear edge, down the grade.
    expect(across(Math.PI / 6, "out")).toBeCloseTo(-0.02, 12);
    expect(across(-Math.PI / 6, "out")).toBeCloseTo(0.02, 12);
    expect(across(Math.PI / 6, "in")).toBeCloseTo(-0.02, 12);
  });
});

describe("words", () => {
  it("what is needed rounds up, what is there rounds down", () => {
    expect([sayer("us").needed(7.63), sayer("us").available(7.63)]).toEqual(["25 ft 1 in", "25 ft"]);
    expect([sayer("metric").needed(7.631), sayer("metric").available(7.639)]).toEqual(["7.64 m", "7.63 m"]);
    const line = fitRig(question({ connections: [CORD] }, { hookups: [POST] }, { units: "us" })).lines[0]!;
    expect(line.why).toContain("29 ft 6 in available");
  });
});

describe("a list", () => {
  it("has the site that fits before the one that does not", () => {
    const named = (id: string, left: number): CompletedSite => ({
      ...site({ hookups: [{ ...POST, left }] }),
      id,
      name: id,
    });
    const ranked = rankSites(rig({ connections: [CORD] }), [named("A", 25), named("B", 3.4)], options());
    expect(ranked.map(({ fit }) => [fit.site.id, fit.verdict])).toEqual([
      ["B", "fits"],
      ["A", "does not fit"],
    ]);
  });
});
