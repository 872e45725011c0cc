import { describe, expect, test } from "vitest";
import type { AssignmentProblem } from "../../src/assign/problem.ts";
import type { WayFit } from "../../src/assign/score.ts";
import { scoreStays } from "../../src/http/assignment/propose.ts";
import { askedProblem, type ReadClosure } from "../../src/http/assignment/read.ts";
import { readAssignmentRequest } from "../../src/http/assignment/request.ts";
import { memoryStore } from "../../src/records/store.ts";

const RIG = { class: "class-c", length: "25 ft", height: "11 ft", power: { plug: "nema-tt-30", cord: "30 ft" } };

interface SiteSpec {
  readonly receptacles: readonly {
    readonly id: string;
    readonly type: string;
    readonly forSites?: readonly string[];
  }[];
  readonly pedestal?: string;
  readonly length?: number;
  readonly layout?: string;
  readonly accessible?: string;
  readonly at?: object;
}

function site(id: string, spec: SiteSpec) {
  const { receptacles, pedestal, length = 12, layout = "back-in", accessible = "no", at } = spec;
  return {
    type: "Feature",
    id,
    geometry: null,
    properties: {
      kind: "site",
      name: `Elm ${id}`,
      layout,
      facings: ["out"],
      pad: { length, width: 4 },
      accessible,
      services: { power: "yes", water: "no", sewer: "no", cable: "no", fill: "no" },
      hookups: [
        {
          id: "power",
          service: "power",
          ...(at ?? { at: { along: 3, left: 2.8, height: 0.8 }, accuracy: 0.02, basis: "measured" }),
          receptacles,
          ...(pedestal === undefined ? {} : { pedestal, shared: true }),
        },
      ],
    },
  };
}

const OWN = [{ id: "own", type: "nema-tt-30" }];
const POST = [
  { id: "a", type: "nema-tt-30" },
  { id: "b", type: "nema-tt-30" },
];

async function score(
  sites: readonly object[],
  stay: object = {},
  more: { readonly unknown?: "allow"; readonly closures?: readonly ReadClosure[] } = {},
  memory = new Map<string, readonly WayFit[]>(),
): Promise<AssignmentProblem> {
  const campground = {
    type: "FeatureCollection",
    campground: { id: "elm", name: "Elm (invented)", electricalSystem: "120/240", drivesOn: "right" },
    features: sites,
  };
  const stays = [{ id: "one", arrival: "2027-06-04", departure: "2027-06-06", rig: RIG, tight: true, ...stay }];
  const { store } = await memoryStore([]);
  const errors: never[] = [];
  const read = await readAssignmentRequest({ campground, stays, closures: more.closures ?? [] }, store, errors);
  expect(errors).toEqual([]);
  const asked = await askedProblem(read!.parts, read!.stays, more.closures ?? [], { unknown: more.unknown });
  const ports = { clock: () => 0, breathe: () => Promise.resolve(), memory };
  return (await scoreStays(asked, ports))!;
}

const terms = (problem: AssignmentProblem, at = 0) =>
  problem.options[0]![at]!.ways[0]!.terms.map(({ term, points }) => [term, points]);

describe("scores by the fit", () => {
  test("are whole points and the sum of their terms", async () => {
    const problem = await score([site("1", { receptacles: OWN })], { wishes: ["Elm", "shade", "pull-through"] });
    const [way] = problem.options[0]![0]!.ways;
    expect(way!.score).toBe(way!.terms.reduce((sum, { points }) => sum + points, 0));
    expect(Number.isInteger(way!.score)).toBe(true);
    // One of three wishes is met: the name begins with the word.
    expect(terms(problem)).toContainEqual(["wish", 7]);
  });

  test("a site that cannot be decided is out, and in when the host allows it", async () => {
    const missing = [site("1", { receptacles: OWN, at: {} })];
    const barred = (await score(missing)).options[0]![0]!;
    expect(barred.ways).toEqual([]);
    expect(barred.rules.some((rule) => rule.startsWith("unknown:"))).toBe(true);
    const allowed = await score(missing, {}, { unknown: "allow" });
    expect(allowed.options[0]![0]!.ways).toHaveLength(1);
  });

  test("what does not fit is out by the check that says so", async () => {
    const { ways, rules } = (await score([site("1", { receptacles: OWN, length: 5 })])).options[0]![0]!;
    expect(ways).toEqual([]);
    expect(rules.some((rule) => rule.startsWith("fit:"))).toBe(true);
  });

  test("keeps what is scarce for those who need it", async () => {
    const scarce = site("1", {
      receptacles: [{ id: "big", type: "nema-14-50" }, ...OWN],
      length: 20,
      layout: "pull-through",
      accessible: "yes",
    });
    const found = terms(await score([scarce]));
    expect(found).toContainEqual(["scarce-power", -8]);
    expect(found).toContainEqual(["scarce-pull-through", -5]);
    expect(found).toContainEqual(["scarce-length", -6]);
    expect(found).toContainEqual(["scarce-accessible", -15]);
    const wanted = terms(await score([scarce], { wishes: ["pull-through"], accessible: true }));
    expect(wanted.map(([term]) => term)).not.toContain("scarce-pull-through");
    expect(wanted.map(([term]) => term)).not.toContain("scarce-accessible");
  });

  test("a party that needs an accessible site gets no other, and no site of unknown state", async () => {
    const sites = ["yes", "no", "unknown"].map((accessible, index) =>
      site(String(index), { receptacles: OWN, ...(accessible === "unknown" ? {} : { accessible }) }),
    );
    const [yes, no, unknown] = (await score(sites, { accessible: true })).options[0]!;
    expect(yes!.ways).toHaveLength(1);
    expect(no!.rules).toEqual(["needs-accessible"]);
    expect(unknown!.rules).toEqual(["needs-accessible"]);
  });

  test("must-haves bind; one that the record does not answer is not met", async () => {
    const sites = [
      site("1", { receptacles: OWN, layout: "pull-through" }),
      site("2", { receptacles: OWN, layout: "back-in" }),
    ];
    const rules = async (word: string) =>
      (await score(sites, { mustHave: [word] })).options[0]!.map((option) => option.rules);
    expect(await rules("pull-through")).toEqual([[], ["must-have"]]);
    expect(await rules("shade")).toEqual([["must-have"], ["must-have"]]);
  });
});

describe("receptacles of a shared post", () => {
  test("give a way each, in the same order for both sites, under the post's name", async () => {
    const sites = [
      site("1", { receptacles: POST, pedestal: "post" }),
      site("2", { receptacles: POST, pedestal: "post" }),
    ];
    const problem = await score(sites);
    expect(problem.resources.map(({ id }) => id)).toEqual(["post/a", "post/b"]);
    expect(problem.options[0]!.map(({ ways }) => ways.map(({ resources }) => resources))).toEqual([
      [[0], [1]],
      [[0], [1]],
    ]);
  });

  test("that are allotted are nobody else's and need not be held", async () => {
    const allotted = (own: string) =>
      POST.map((one, index) => ({ ...one, forSites: [String(index + 1)] })).filter(
        ({ forSites }) => forSites[0] === own,
      );
    const sites = ["1", "2"].map((id) => site(id, { receptacles: allotted(id), pedestal: "post" }));
    const problem = await score(sites);
    expect(problem.resources).toEqual([]);
    expect(problem.options[0]!.every(({ ways }) => ways.length === 1)).toBe(true);
  });

  test("one that is closed leaves the other way of the site open", async () => {
    const closures = [{ outlet: "1/power/own", firstNight: "2027-06-05" }];
    const two = [
      { id: "own", type: "nema-tt-30" },
      { id: "other", type: "nema-tt-30" },
    ];
    const problem = await score([site("1", { receptacles: two })], {}, { closures });
    expect(problem.resources.map(({ id, closures: nights }) => [id, nights.length])).toEqual([["1/power/own", 1]]);
    expect(problem.options[0]![0]!.ways.map(({ resources }) => resources)).toEqual([[0], []]);
  });
});

test("a rig is fitted once at sites that are alike, and not again when it comes back", async () => {
  const memory = new Map<string, readonly WayFit[]>();
  const sites = ["1", "2", "3"].map((id) => site(id, { receptacles: OWN }));
  await score(sites, {}, {}, memory);
  expect(memory.size).toBe(1);
  await score(sites, { id: "again", wishes: ["shade"] }, {}, memory);
  expect(memory.size).toBe(1);
  await score(sites, { needs: { power: "wanted" } }, {}, memory);
  expect(memory.size).toBe(2);
});
