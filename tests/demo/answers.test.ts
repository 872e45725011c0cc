/** What the product answers for the demo set is varied enough to show all of it: computed here, never written down. */
import { beforeAll, describe, expect, it } from "vitest";
import type { Fit, Fix } from "../../src/fit/answer.ts";
import { fitRig } from "../../src/fit/fit.ts";
import { completeOptions, type FitOptionsInput, fitOptionsSchema } from "../../src/fit/options.ts";
import { rankSites } from "../../src/fit/search.ts";
import { verdictRank } from "../../src/fit/verdict.ts";
import { DEMO_RIG, rig, rigNames, site, sites } from "./demo.ts";

const VERDICTS = ["fits", "fits with kit", "tight", "unknown", "does not fit"] as const;
const options = completeOptions({ units: "us" });

/** One site of each kind: the other sites of a row differ from these in their place alone. */
const SAMPLE = [
  ...["curlew-7", "curlew-12", "curlew-19", "plover-6", "rail-1", "wren-1", "wren-2", "wren-5", "siskin-1"],
  ...["siskin-6", "grebe-1", "grebe-5", "avocet-1", "avocet-4", "avocet-5", "pipit-4", "dipper-2", "dipper-5"],
  ...["field-1", "field-2", "field-3", "field-4", "field-5", "field-6", "field-7"],
];

function counts(words: readonly string[]): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const word of words) found.set(word, (found.get(word) ?? 0) + 1);
  return found;
}

describe("the demo rig at every site", () => {
  let ranked: readonly Fit[] = [];
  beforeAll(() => {
    ranked = rankSites(rig(DEMO_RIG), sites, options).map(({ fit }) => fit);
  });

  it("shows all five verdicts, best first", () => {
    const found = counts(ranked.map((fit) => fit.verdict));
    expect([...found.keys()].sort()).toEqual([...VERDICTS].sort());
    const ranks = ranked.map((fit) => verdictRank(fit.verdict));
    expect(ranks).toEqual([...ranks].sort((a, b) => b - a));
    expect(ranked).toHaveLength(sites.length);
  });

  it("keeps off the closed site, the site too short by its limit and the receptacle without ground", () => {
    for (const id of ["curlew-19", "curlew-16", "field-7"]) {
      expect(ranked.find((fit) => fit.site.id === id)?.verdict, id).toBe("does not fit");
    }
  });

  it("answers alike at sites that differ in their place alone", () => {
    const alike = ["curlew-4", "curlew-7", "curlew-15", "curlew-25"].map((id) => {
      const fit = ranked.find((one) => one.site.id === id);
      return { verdict: fit?.verdict, best: fit?.bestMargin?.toFixed(3) };
    });
    expect(new Set(alike.map((one) => JSON.stringify(one))).size).toBe(1);
  });
});

describe("the fleet at one site of each kind", () => {
  let fits: readonly Fit[] = [];
  beforeAll(() => {
    const chosen = SAMPLE.map(site);
    fits = rigNames.flatMap((name) => rankSites(rig(name), chosen, options).map(({ fit }) => fit));
  });

  it("meets every verdict, every line's verdict and every kind of mating", () => {
    expect([...counts(fits.map((fit) => fit.verdict)).keys()].sort()).toEqual([...VERDICTS].sort());
    const lines = counts(fits.flatMap((fit) => fit.lines.map((line) => line.verdict)));
    for (const verdict of ["reaches", "tight", "short", "unknown", "not needed", "absent"]) {
      expect(lines.get(verdict) ?? 0, verdict).toBeGreaterThan(0);
    }
    const matings = counts(fits.map((fit) => fit.power.mating));
    for (const mating of ["direct", "adapter", "adapter with caution", "refused", "unknown", "none"]) {
      expect(matings.get(mating) ?? 0, mating).toBeGreaterThan(0);
    }
  });

  it("meets lines straight, round the rear and beneath, and kit that is aboard", () => {
    const routes = counts(fits.flatMap((fit) => fit.lines.map((line) => line.route ?? "none")));
    for (const route of ["direct", "around-rear", "beneath"]) expect(routes.get(route) ?? 0, route).toBeGreaterThan(0);
    expect(counts(fits.flatMap((fit) => fit.kit.map((entry) => entry.where))).get("aboard") ?? 0).toBeGreaterThan(0);
  });

  it("has a rig that every other rig is unlike", () => {
    const rows = rigNames.map((_, index) =>
      fits
        .slice(index * SAMPLE.length, (index + 1) * SAMPLE.length)
        .map((fit) => `${fit.site.id} ${fit.verdict}`)
        .sort()
        .join(),
    );
    expect(new Set(rows).size).toBe(rigNames.length);
  });
});

describe("the kinds of fixes", () => {
  const cases: readonly (readonly [Fix["kind"], string, string, FitOptionsInput])[] = [
    ["facing", "truck-camper", "curlew-7", {}],
    ["longer line", "truck-camper", "curlew-7", {}],
    ["close slide", "big-coach", "avocet-2", {}],
    ["awning in", DEMO_RIG, "field-6", { awning: "required" }],
  ];
  it.each(cases)("%s: offered to %s at %s, and better when solved again", (kind, name, id, asked) => {
    const fit = fitRig({
      rig: rig(name),
      site: site(id),
      options: completeOptions(fitOptionsSchema.parse({ units: "us", ...asked })),
    });
    const offered = fit.fixes.filter((fix) => fix.kind === kind);
    expect(offered).not.toHaveLength(0);
    for (const fix of offered) expect(verdictRank(fix.verdictAfter)).toBeGreaterThanOrEqual(verdictRank(fit.verdict));
    expect(offered.some((fix) => verdictRank(fix.verdictAfter) > verdictRank(fit.verdict))).toBe(true);
  });

  it("item: an adapter that is not there is named as to bring, and aboard only it is refused", () => {
    const small = rig("small-coach");
    const bring = fitRig({ rig: small, site: site("avocet-4"), options });
    expect(bring.verdict).toBe("fits with kit");
    expect(bring.kit.some((entry) => entry.item === "adapter" && entry.where === "to bring")).toBe(true);
    const gate = completeOptions({ units: "us", kitPolicy: "aboard", detail: "summary" });
    const atTheGate = fitRig({ rig: small, site: site("avocet-4"), options: gate });
    expect(atTheGate.kit.every((entry) => entry.where === "aboard")).toBe(true);
  });
});
