import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { Fit } from "../../src/fit/answer.ts";
import { type FitInput, fitRig } from "../../src/fit/fit.ts";
import { completeOptions } from "../../src/fit/options.ts";
import { tryStance } from "../../src/fit/try-stance.ts";
import { readCampground } from "../../src/records/geojson.ts";
import { completeRig } from "../../src/rig/complete.ts";
import { parseRig } from "../../src/rig/parse.ts";
import { completeSite } from "../../src/site/complete.ts";
import { featureId } from "../../src/site/feature.ts";

const read = (path: string) => readFileSync(new URL(`../../data/demo/${path}`, import.meta.url), "utf8");

let input: FitInput;
let fit: Fit;

beforeAll(() => {
  const { campground, features } = readCampground(read("campground.geojson"));
  const parsed = parseRig(JSON.parse(read("rigs/rental-coach.json")));
  const feature = features.find((one) => featureId(one) === "curlew-7");
  if (!parsed.ok || feature === undefined) throw new Error("The demo is not as these tests know it.");
  const rig = completeRig(parsed.rig, { drivesOn: "right", electricalSystem: "120/240" });
  const site = completeSite(feature, campground, features, { base: "/site" });
  input = { rig, site, options: completeOptions({ detail: "summary" }) };
  fit = fitRig(input);
});

const line = (lines: Fit["lines"], service: string) => lines.find((one) => one.service === service)!;

describe("a stance tried by hand", () => {
  test("at the answer's own stance every number is the answer's", () => {
    const tried = tryStance(input, fit, fit.stance!)!;
    expect(tried.stance).toEqual(fit.stance);
    expect(tried.contacts).toEqual([]);
    for (const before of fit.lines) {
      const after = line(tried.lines, before.service);
      expect(after.verdict).toBe(before.verdict);
      for (const key of ["needed", "neededLeast", "available", "margin"] as const) {
        if (before[key] === null) expect(after[key]).toBeNull();
        else expect(after[key]).toBeCloseTo(before[key], 9);
      }
    }
    expect(tried.drawn.scene).toEqual(fit.scene);
  });

  test("margin is available less needed, wherever the rig stands", () => {
    for (const [along, left] of [
      [1.3, 0.2],
      [-2.1, -0.35],
      [4.7, 0.05],
    ] as const) {
      const place = { along: fit.stance!.along + along, left: fit.stance!.left + left };
      for (const one of tryStance(input, fit, place)!.lines) {
        if (one.margin !== null) expect(one.margin).toBeCloseTo(one.available! - one.needed!, 9);
      }
    }
  });

  test("far up the pad the drain is short and says by how much; sideways towards the riser it gains", () => {
    const { stance } = fit;
    const far = tryStance(input, fit, { along: stance!.along + 6.4, left: stance!.left })!;
    const drain = line(far.lines, "sewer");
    expect(drain.margin).toBeLessThan(line(fit.lines, "sewer").margin!);
    expect(drain.verdict).toBe("short");
    expect(drain.why).toMatch(/short by .* here\.$/);
    const riser = fit.scene.hookups.find((hookup) => hookup.service === "sewer")!.at;
    const towards = Math.sign(riser.left - stance!.left) * 0.31;
    const nearer = tryStance(input, fit, { along: stance!.along, left: stance!.left + towards })!;
    expect(line(nearer.lines, "sewer").margin!).toBeGreaterThan(line(fit.lines, "sewer").margin!);
  });

  test("what stands in the way is named with the depth of the touch", () => {
    const tried = tryStance(input, fit, { along: -3.2, left: fit.stance!.left })!;
    const edge = tried.contacts.find((one) => /rear edge|wheel stop/.test(one.against));
    expect(edge?.depth).toBeGreaterThan(0.5);
    const nearer = tryStance(input, fit, { along: -2.7, left: fit.stance!.left })!;
    const same = nearer.contacts.find((one) => one.against === edge?.against && one.part === edge.part);
    expect(edge!.depth - same!.depth).toBeCloseTo(0.5, 9);
  });

  test("the rig of the picture moves by the same step, the ground stays", () => {
    const step = { along: 0.73, left: -0.19 };
    const tried = tryStance(input, fit, { along: fit.stance!.along + step.along, left: fit.stance!.left + step.left })!;
    const [before, after] = [fit.scene.rig!.body[0]!, tried.drawn.scene.rig!.body[0]!];
    expect(after.along - before.along).toBeCloseTo(step.along, 9);
    expect(after.left - before.left).toBeCloseTo(step.left, 9);
    expect(tried.drawn.scene.hookups).toEqual(fit.scene.hookups);
    expect(tried.drawn.window).toBeNull();
  });

  test("without a stance nothing is tried", () => {
    expect(tryStance(input, { ...fit, stance: null }, { along: 1, left: 0 })).toBeNull();
  });
});
