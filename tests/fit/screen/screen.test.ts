/**
 * The first look against the whole fit: what it refuses is never a yes there, what it claims stands there. Both on
 * random sites made by hand and on the invented campground with its whole fleet.
 */
import { expect, test } from "vitest";
import { fitRig } from "../../../src/fit/fit.ts";
import { completeOptions } from "../../../src/fit/options.ts";
import { exactRig, plainMargin } from "../../../src/fit/screen/exact.ts";
import { nominalLooks, prepareSites } from "../../../src/fit/screen/nominal.ts";
import { screenRig } from "../../../src/fit/screen/rig.ts";
import { CAN, CANNOT, screen, UNDECIDED } from "../../../src/fit/screen/screen.ts";
import { ScreenSitesBuilder } from "../../../src/fit/screen/sites.ts";
import type { CompletedRig } from "../../../src/rig/completed.ts";
import type { CompletedSite } from "../../../src/site/completed.ts";
import { seeded } from "../../bench/random-stances.ts";
import * as demo from "../../demo/demo.ts";
import { between, exact, hookup, measured, obstacle, receptacle, rig, site } from "../core/builders.ts";

const SEED = 20260719;
const random = seeded(SEED);
const from = (low: number, high: number): number => low + (high - low) * random();
const oneOf = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

const TYPES: readonly (readonly [string, number])[] = [
  ["nema-tt-30", 30],
  ["nema-14-50", 50],
  ["nema-5-20", 20],
  ["cee-7-3", 16],
  ["a-word-nobody-knows", 30],
];

/** A coordinate, often exact, sometimes only measured or described. */
function place(low: number, high: number, exactOnly: boolean) {
  const value = from(low, high);
  const kind = exactOnly ? 0 : random();
  if (kind < 0.6) return exact(value);
  return kind < 0.8 ? measured(value, oneOf([0.05, 0.5, 3])) : between(value - 1, value + 1);
}

function randomSite(exactOnly: boolean): CompletedSite {
  const length = from(5, 15);
  const width = from(2.6, 6);
  const [type, amps] = oneOf(TYPES);
  const made = site({
    length,
    width,
    hookups: [
      {
        service: "power",
        along: place(-3, length + 3, exactOnly),
        left: place(-9, 9, exactOnly),
        receptacles: random() < 0.9 ? [receptacle("r", type, amps)] : [],
      },
      {
        service: "water",
        along: place(0, length, exactOnly),
        left: place(-9, 9, exactOnly),
        height: random() < 0.5 ? null : 0.4,
      },
      { service: "sewer", along: place(0, length, exactOnly), left: place(-6, 6, exactOnly), height: null },
    ],
  });
  const obstacles = exactOnly || random() < 0.6 ? [] : [obstacle("post", [2, 2.3], [1, 1.3])];
  const limits = { ...made.limits, length: random() < 0.1 ? exact(from(6, 9)) : null };
  const facingsStated = random() < 0.5;
  const facings = random() < 0.5 ? (["in"] as const) : (["out", "in"] as const);
  const overhangRear = random() < 0.5 ? exact(from(0, 1.5)) : null;
  const extra =
    random() < 0.1 ? [hookup({ service: "power", along: 1, left: -2.5 })].map((one) => ({ ...one, id: "second" })) : [];
  return {
    ...made,
    pad: { ...made.pad, overhangRear: exactOnly ? overhangRear : made.pad.overhangRear },
    obstacles,
    limits,
    facings,
    facingsStated,
    hookups: [...made.hookups, ...extra],
    closed: random() < 0.03 ? "flooded" : null,
  };
}

function randomRig(): CompletedRig {
  const length = from(5.5, 10.5);
  const wall = oneOf(["left", "right", "rear"] as const);
  return rig({
    length,
    connections: [
      { service: "power", wall, fromRear: from(0.3, length - 0.5), length: oneOf([7.6, 9.1, 15.2]) },
      { service: "water", fromRear: from(0.3, length - 0.5), length: oneOf([3, 7.6]) },
      { service: "sewer", fromRear: from(0.3, length - 0.5), length: oneOf([3, 4.6]), height: null },
    ],
  });
}

const USUAL_HOOKUPS = 3;
/** Rounding of the columns, metres. */
const NEAR = 1e-4;

function columnsOf(sites: readonly CompletedSite[]) {
  const builder = new ScreenSitesBuilder();
  for (const one of sites) builder.add(one);
  return builder.build();
}

function looked(rig: CompletedRig, sites: readonly CompletedSite[], options: Parameters<typeof completeOptions>[0]) {
  const columns = columnsOf(sites);
  return screen(screenRig(rig, completeOptions(options), columns.kinds), columns);
}

const NEEDS = [
  {},
  { power: "required", water: "required", sewer: "required" },
  { sewer: "required", power: "ignored" },
] as const;

test.each([
  ["sites without error", true, 500],
  ["sites with errors, ranges and obstacles", false, 250],
] as const)("%s: no refusal is a yes of the whole fit, no claim a no", (_, exactOnly, count) => {
  const seen = [0, 0, 0];
  for (let turn = 0; turn < count / 10; turn++) {
    const one = randomRig();
    const sites = Array.from({ length: 10 }, () => randomSite(exactOnly));
    const options = { detail: "summary", needs: oneOf(NEEDS), workspace: false } as const;
    const states = looked(one, sites, options);
    sites.forEach((place, index) => {
      const state = states[index] as number;
      seen[state] = (seen[state] ?? 0) + 1;
      if (state === UNDECIDED) return;
      const fit = fitRig({ rig: one, site: place, options: completeOptions(options) });
      if (state === CANNOT)
        expect(exactOnly ? ["does not fit"] : ["does not fit", "unknown"], fit.headline).toContain(fit.verdict);
      else expect(fit.bestMargin, fit.headline).toBeGreaterThanOrEqual(0);
    });
  }
  expect(seen[CANNOT]).toBeGreaterThan(count / 10);
  expect(seen[UNDECIDED]).toBeGreaterThan(count / 20);
  if (exactOnly) expect(seen[CAN]).toBeGreaterThan(count / 20);
});

test("a plain site's exact margin is that of the whole fit", () => {
  let compared = 0;
  for (let turn = 0; turn < 20; turn++) {
    const one = randomRig();
    const sites = Array.from({ length: 10 }, () => randomSite(true));
    const input = { detail: "summary", needs: NEEDS[turn % NEEDS.length] ?? {}, workspace: false } as const;
    const options = completeOptions(input);
    const columns = columnsOf(sites);
    const exact = exactRig(one, screenRig(one, options, columns.kinds), options.closeSlides);
    sites.forEach((place, index) => {
      const margin = plainMargin(exact, columns, index);
      if (Number.isNaN(margin) || place.hookups.length > USUAL_HOOKUPS) return;
      const fit = fitRig({ rig: one, site: place, options });
      if (fit.bestMargin === null) expect(Number.isFinite(margin), fit.headline).toBe(false);
      else if (margin >= 0) expect(margin, fit.headline).toBeCloseTo(fit.bestMargin, 4);
      else {
        expect(fit.bestMargin, fit.headline).toBeLessThan(0);
        expect(fit.bestMargin, fit.headline).toBeLessThanOrEqual(margin + NEAR);
      }
      compared++;
    });
  }
  expect(compared).toBeGreaterThan(60);
});

test("quick looks tell the margin of the whole fit, or a bound of it", () => {
  const seen = new Map<string, number>();
  for (let turn = 0; turn < 16; turn++) {
    const one = randomRig();
    const sites = Array.from({ length: 10 }, () => randomSite(turn % 2 === 0));
    const options = completeOptions({ detail: "summary", needs: NEEDS[turn % NEEDS.length] ?? {}, workspace: false });
    nominalLooks(one, prepareSites(sites), options).forEach((look, index) => {
      const place = sites[index]!;
      if (look.state === "cannot" || look.state === "unknown" || place.hookups.length > USUAL_HOOKUPS) return;
      const { bestMargin, headline } = fitRig({ rig: one, site: place, options });
      const known = bestMargin ?? Number.NEGATIVE_INFINITY;
      seen.set(look.bound, (seen.get(look.bound) ?? 0) + 1);
      const margin = look.margin ?? Number.NEGATIVE_INFINITY;
      if (look.bound === "at most") {
        expect(known, headline).toBeLessThan(0);
        expect(known, headline).toBeLessThanOrEqual(margin + NEAR);
      } else if (look.bound === "at least") expect(known, headline).toBeGreaterThanOrEqual(margin - NEAR);
      else if (Number.isFinite(known) || look.margin !== null) expect(margin, headline).toBeCloseTo(known, 4);
    });
  }
  for (const bound of ["at least", "at most", "exact"]) expect(seen.get(bound), bound).toBeGreaterThan(5);
});

test("the invented campground with its fleet: what is refused does not fit", { timeout: 60_000 }, () => {
  let refused = 0;
  for (const name of demo.rigNames) {
    const fleet = demo.rig(name);
    const states = looked(fleet, demo.sites, { detail: "summary" });
    demo.sites.forEach((place, index) => {
      if (states[index] !== CANNOT) return;
      refused++;
      const fit = fitRig({ rig: fleet, site: place, options: completeOptions({ detail: "summary" }) });
      expect([name, place.id, fit.verdict]).toEqual([name, place.id, "does not fit"]);
    });
  }
  expect(refused).toBeGreaterThan(10);
});

test("nothing is decided when the rig may be turned, nothing claimed when the awning must open", () => {
  const columns = columnsOf(Array.from({ length: 60 }, () => randomSite(true)));
  const one = randomRig();
  const turned = screen(screenRig(one, completeOptions({ yaws: [0, 3] }), columns.kinds), columns);
  expect(new Set(turned)).toEqual(new Set([UNDECIDED]));
  const open = screen(screenRig(one, completeOptions({ awning: "required" }), columns.kinds), columns);
  expect([...open]).not.toContain(CAN);
});
