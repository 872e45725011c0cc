import { describe, expect, it } from "vitest";
import { collectParameters, pickAt, pickShifted } from "../../../src/fit/uncertainty/parameters.ts";
import type { Estimate } from "../../../src/units/estimate.ts";
import { between, exact, measured } from "../core/builders.ts";

function surveyed(value: number, own: number, shared: number, path: string, survey?: string): Estimate {
  return { ...measured(value, own, path), sigmaShared: shared, ...(survey === undefined ? {} : { survey }) };
}

const along1 = surveyed(2, 0.1, 0.5, "/hookups/0/at/along", "phone");
const left1 = surveyed(3, 0.2, 0.5, "/hookups/0/at/left", "phone");
const along2 = surveyed(5, 0.3, 0.5, "/hookups/1/at/along", "phone");
const other = surveyed(7, 0, 0.7, "/hookups/2/at/along", "tape");
const alone = surveyed(8, 0.4, 0.6, "/hookups/3/at/along");
const alsoAlone = surveyed(9, 0, 0.6, "/hookups/4/at/along");

function collect(...estimates: readonly Estimate[]) {
  return collectParameters((pick) => estimates.map(pick));
}

describe("the uncertain numbers of a question", () => {
  it("finds what the builder reads: ranges, errors, and neither for an exact value", () => {
    const range = between(1, 4);
    const both = { ...between(2, 3), sigma: 0.2 };
    const found = collect(range, both, along1, exact(6));
    expect(found.ranges).toEqual([range, both]);
    expect(found.errors.map((error) => error.estimate)).toEqual([both, along1]);
  });

  it("counts a value once however often it is read, and not at all when it is not read", () => {
    expect(collect(along1, along1, along1)).toMatchObject({ draws: 2, errors: [{ estimate: along1 }] });
    expect(collect()).toEqual({ ranges: [], errors: [], draws: 0 });
  });

  it("draws an own error each, and one error per survey and axis", () => {
    const { errors, draws } = collect(along1, left1, along2, other, alone, alsoAlone);
    const [a1, l1, a2, tape, a3, a4] = errors;
    expect(a1!.shared).toBe(a2!.shared);
    expect(new Set([a1!.shared, l1!.shared, tape!.shared, a3!.shared, a4!.shared]).size).toBe(5);
    expect(new Set([a1!.own, l1!.own, a2!.own, a3!.own]).size).toBe(4);
    expect([tape!.own, a4!.own]).toEqual([-1, -1]);
    expect(draws).toBe(9);
    const used = errors.flatMap((error) => [error.own, error.shared]).filter((index) => index >= 0);
    expect([...new Set(used)].sort((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });
});

describe("reading them", () => {
  it("adds own and shared errors by their standard deviations; a shared draw moves all of its survey alike", () => {
    const parameters = collect(along1, left1, along2);
    const normals = Array.from({ length: parameters.draws }, (_, index) => index + 1);
    const pick = pickAt(parameters, new Map(), normals);
    const drawn = (index: number): number => (index < 0 ? 0 : normals[index]!);
    for (const { estimate, own, shared } of parameters.errors) {
      const expected = estimate.value + estimate.sigma * drawn(own) + estimate.sigmaShared * drawn(shared);
      expect(pick(estimate)).toBeCloseTo(expected, 12);
    }
    const onlyShared = normals.map((_, index) => (index === parameters.errors[0]!.shared ? 2 : 0));
    const moved = pickAt(parameters, new Map(), onlyShared);
    expect([moved(along1), moved(left1), moved(along2)]).toEqual([3, 3, 6]);
  });

  it("reads a range at its fraction, low to high, with its error on top", () => {
    const both = { ...between(2, 6), sigma: 0.5 };
    const parameters = collect(both);
    expect(pickAt(parameters, new Map(), null)(both)).toBe(4);
    expect(pickAt(parameters, new Map([[both, 0]]), null)(both)).toBe(2);
    expect(pickAt(parameters, new Map([[both, 0.25]]), null)(both)).toBe(3);
    expect(pickAt(parameters, new Map([[both, 1]]), [-3])(both)).toBe(4.5);
  });

  it("leaves a value that it does not know as it is", () => {
    expect(pickAt(collect(along1), new Map(), [1, 1])(left1)).toBe(3);
  });

  it("shifts one value and no other", () => {
    const pick = pickShifted(along2, -0.75);
    expect([pick(along1), pick(along2)]).toEqual([2, 4.25]);
  });
});
