import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SurveyInput, solveSurvey, type TapeMeasurement, type Wish } from "../../src/site/survey.ts";

/** An invented pad, 13.4 m by 3.7 m, with marks on both sides: nothing is symmetric. */
const PLACES: Readonly<Record<string, readonly [number, number]>> = {
  "rear-left": [0, 1.85],
  "rear-right": [0, -1.85],
  "exit-left": [13.4, 1.85],
  "exit-right": [13.4, -1.85],
  pedestal: [2.6, 3.1],
  riser: [5.2, 2.7],
  tree: [9.1, -4.4],
  behind: [-1.7, 0.9],
  "wheel-stop": [0.8, 0],
};

function between(from: string, to: string): number {
  const [a = 0, b = 0] = PLACES[from] ?? [];
  const [c = 0, d = 0] = PLACES[to] ?? [];
  return Math.hypot(a - c, b - d);
}

function tapes(pairs: readonly string[], error: (index: number) => number = () => 0): TapeMeasurement[] {
  return pairs.map((pair, index) => {
    const [from = "", to = ""] = pair.split(" ");
    return { from, to, distance: between(from, to) + error(index) };
  });
}

function solve(measurements: readonly TapeMeasurement[], more: Partial<SurveyInput> = {}) {
  return solveSurvey({ measurements, length: null, width: null, wishes: new Map(), ...more });
}

const wish = (id: string, side: Wish["side"], third: Wish["third"] = null) => new Map([[id, { side, third }]]);
const CORNER_TAPES = ["rear-left rear-right", "rear-left exit-left", "rear-right exit-left"];
const FULL = [
  ...CORNER_TAPES,
  "pedestal rear-left",
  "pedestal rear-right",
  "pedestal exit-left",
  "riser rear-right",
  "riser exit-left",
  "riser pedestal",
  "tree exit-right",
  "tree rear-right",
  "tree pedestal",
];

describe("a tape survey", () => {
  test("exact distances give the exact pad and marks, sizes unknown beforehand", () => {
    const solution = solve(tapes(FULL));
    expect(solution.length?.value).toBeCloseTo(13.4, 6);
    expect(solution.width?.value).toBeCloseTo(3.7, 6);
    expect(solution.ambiguous).toEqual([]);
    expect(solution.contradictions).toEqual([]);
    for (const mark of solution.marks) {
      expect(mark.along).toBeCloseTo(PLACES[mark.id]?.[0] as number, 6);
      expect(mark.left).toBeCloseTo(PLACES[mark.id]?.[1] as number, 6);
    }
    expect(solution.marks).toHaveLength(3);
  });

  test("the covariance is the scatter: 300 noisy surveys land within their stated deviations", () => {
    let seed = 20260504;
    const uniform = () => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed / 2147483648;
    };
    const gauss = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    let squares = 0;
    let stated = 0;
    const runs = 300;
    for (let run = 0; run < runs; run += 1) {
      const pedestal = solve(tapes(FULL, () => 0.03 * gauss())).marks.find(({ id }) => id === "pedestal");
      squares += ((pedestal?.along ?? 99) - 2.6) ** 2;
      stated += (pedestal?.sigmaAlong ?? 0) ** 2;
    }
    expect(Math.sqrt(squares / stated)).toBeGreaterThan(0.85);
    expect(Math.sqrt(squares / stated)).toBeLessThan(1.15);
  });

  test("two tapes from one side of the pad leave two places; the stated side decides", () => {
    const two = tapes(["tree rear-right", "tree exit-right"]);
    const sizes = { length: { value: 13.4, sigma: 0.02 }, width: { value: 3.7, sigma: 0.02 } };
    const open = solve(two, sizes);
    expect(open.marks).toEqual([]);
    expect(open.ambiguous).toHaveLength(1);
    expect(open.ambiguous[0]?.places.map(({ left }) => Number(left.toFixed(3))).sort()).toEqual([-4.4, 0.7]);
    const told = solve(two, { ...sizes, wishes: wish("tree", "right") });
    expect(told.ambiguous).toEqual([]);
    expect(told.marks[0]?.left).toBeCloseTo(-4.4, 6);
    const other = solve(two, { ...sizes, wishes: wish("tree", "left") });
    expect(other.marks[0]?.left).toBeCloseTo(0.7, 6);
  });

  test("tapes from the two rear corners leave ahead and behind open; the third decides", () => {
    const two = tapes(["rear-left rear-right", "behind rear-left", "behind rear-right"]);
    expect(solve(two).ambiguous[0]?.id).toBe("behind");
    expect(solve(two, { wishes: wish("behind", "left", "behind") }).marks[0]?.along).toBeCloseTo(-1.7, 6);
    expect(solve(two, { wishes: wish("behind", null, "rear") }).marks[0]?.along).toBeCloseTo(1.7, 6);
  });

  test("one tape fixes no mark, and what hangs on it is undetermined too", () => {
    const solution = solve(tapes([...CORNER_TAPES, "pedestal rear-left", "riser pedestal", "riser rear-left"]));
    expect(solution.marks).toEqual([]);
    expect([...solution.ambiguous.map(({ id }) => id), ...solution.undetermined].sort()).toEqual(["pedestal", "riser"]);
    const single = solve(tapes([...CORNER_TAPES, "tree rear-left"]));
    expect(single.undetermined).toEqual(["tree"]);
    expect(single.length?.value).toBeCloseTo(13.4, 6);
  });

  test("a survey without any corner has no frame: nothing is claimed", () => {
    const solution = solve(tapes(["pedestal riser", "riser tree", "tree pedestal"]));
    expect(solution.marks).toEqual([]);
    expect([...solution.undetermined].sort()).toEqual(["pedestal", "riser", "tree"]);
  });

  test("a loose part does not spoil the rest", () => {
    const loose = ["a b", "b c", "c a", "a d", "b d", "c d", "a rear-left"].map((pair) => {
      const [from = "", to = ""] = pair.split(" ");
      return { from, to, distance: 3 };
    });
    const solution = solve([...tapes(FULL), ...loose]);
    expect(solution.marks.map(({ id }) => id).sort()).toEqual(["pedestal", "riser", "tree"]);
    expect(solution.marks.find(({ id }) => id === "riser")?.along).toBeCloseTo(5.2, 6);
    expect([...solution.undetermined].sort()).toEqual(["a", "b", "c", "d"]);
  });

  test("a mark in one line with the two corners it was taped from does not spoil the rest", () => {
    const beside = [
      { from: "post", to: "rear-left", distance: 2 },
      { from: "post", to: "rear-right", distance: 5.7 },
    ];
    const solution = solve([...tapes(FULL), ...beside]);
    expect(solution.marks.find(({ id }) => id === "tree")?.left).toBeCloseTo(-4.4, 6);
    expect(solution.marks.some(({ id, sigmaAlong }) => id === "post" && sigmaAlong < 0.2)).toBe(false);
  });

  test("a slip of half a metre is a contradiction and the tape is named", () => {
    const wrong = FULL.indexOf("pedestal exit-left");
    const more = [...FULL, "pedestal exit-right", "exit-left exit-right"];
    const solution = solve(tapes(more, (index) => (index === wrong ? 0.5 : 0)));
    expect(solution.contradictions[0]).toMatchObject({ index: wrong, from: "pedestal", to: "exit-left" });
    expect(solution.contradictions[0]?.surprise).toBeGreaterThan(3);
    // A worse fit widens what is claimed.
    const clean = solve(tapes(more)).marks.find(({ id }) => id === "riser");
    const spoilt = solution.marks.find(({ id }) => id === "riser");
    expect(spoilt?.sigmaAlong).toBeGreaterThan(2 * (clean?.sigmaAlong ?? 1));
  });

  test("a stated width that the tapes deny is a contradiction", () => {
    const solution = solve(tapes(FULL), { width: { value: 4.9, sigma: 0.02 } });
    expect(solution.contradictions.length).toBeGreaterThan(0);
  });

  test("the wheel stop lies on the axis and needs one tape and its third", () => {
    const solution = solve(tapes(["rear-left rear-right", "wheel-stop rear-left"]), {
      wishes: wish("wheel-stop", null, "rear"),
    });
    expect(solution.marks[0]?.along).toBeCloseTo(0.8, 6);
    expect(solution.marks[0]?.left).toBe(0);
  });

  test("any pad and any mark, four exact tapes: found again", () => {
    const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        metres(6, 25),
        metres(2.5, 6),
        metres(-3, 28),
        metres(1.3, 9),
        fc.boolean(),
        (length, width, along, off, right) => {
          const left = (right ? -1 : 1) * off;
          const corners: Record<string, [number, number]> = {
            "rear-left": [0, width / 2],
            "rear-right": [0, -width / 2],
            "exit-left": [length, width / 2],
            "exit-right": [length, -width / 2],
          };
          const measurements = Object.entries(corners).map(([id, [x, y]]) => ({
            from: "mark",
            to: id,
            distance: Math.hypot(along - x, left - y),
          }));
          const solution = solve(measurements, {
            length: { value: length, sigma: 0.01 },
            width: { value: width, sigma: 0.01 },
          });
          expect(solution.marks[0]?.along).toBeCloseTo(along, 4);
          expect(solution.marks[0]?.left).toBeCloseTo(left, 4);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("any list of tapes, however odd, is answered", () => {
    const name = fc.constantFrom(
      "rear-left",
      "rear-right",
      "exit-left",
      "exit-right",
      "wheel-stop",
      "a",
      "b",
      "c",
      "d",
    );
    const tape = fc.record({ from: name, to: name, distance: fc.double({ min: 0, max: 60, noNaN: true }) });
    fc.assert(
      fc.property(fc.array(tape, { maxLength: 14 }), (measurements) => {
        const solution = solve(measurements);
        for (const mark of solution.marks) {
          expect(Number.isFinite(mark.along) && Number.isFinite(mark.left)).toBe(true);
          expect(Number.isFinite(mark.sigmaAlong) && mark.sigmaAlong >= 0).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });
});
