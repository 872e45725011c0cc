import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawPlan } from "../../src/draw/plan.ts";
import * as makers from "./makers.ts";
import { readSvg } from "./svg-reading.ts";

describe("strange answers", () => {
  it("draws any answer whose numbers are wild", () => {
    const wild = fc.oneof(
      fc.double({ min: -50, max: 50, noNaN: true }),
      fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e9, -1e9, 1e-9),
    );
    const point = fc.record({ along: wild, left: wild });
    const outline = fc.array(point, { maxLength: 6 });
    fc.assert(
      fc.property(
        fc.record({ length: wild, width: wild, heading: fc.option(wild) }),
        fc.array(fc.record({ at: point, sigma: wild, path: outline, margin: wild, outline }), { maxLength: 4 }),
        fc.record({ body: outline, nose: outline, along: wild, left: wild, yaw: wild, placed: fc.boolean() }),
        fc.integer({ min: 200, max: 1200 }),
        (pad, things, rig, widthPx) => {
          const stance = { facing: "out" as const, along: rig.along, left: rig.left, yaw: rig.yaw };
          const fit = makers.makeFit({
            stance: rig.placed ? stance : null,
            window: { along: { from: rig.left, to: rig.along }, left: { from: rig.yaw, to: rig.left }, why: "" },
            lines: things.map((each) => makers.line("sewer", each.path, each.margin, each.sigma, "short")),
            scene: {
              pad,
              stop: { kind: "kerb", along: rig.left },
              rig: { ...makers.rigScene({ length: 7, width: 2 }, stance), body: rig.body, nose: rig.nose },
              hookups: things.map((each, index) => ({ ...makers.hookup("sewer", 0, 0), ...each, id: `${index}` })),
              obstacles: things.map((each, index) => makers.obstacle(`${index}`, "thing", each.outline)),
            },
          });
          expect(readSvg(drawPlan(fit, { widthPx })).name).toBe("svg");
        },
      ),
      { numRuns: 150, seed: 20240607 },
    );
  });
});
