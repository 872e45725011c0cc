/**
 * Do the two halves of the National Electrical Code meet? A cord as short as 551.46(B) and (E) allow, from any entrance
 * that 551.46(E) allows, to any pedestal that 551.77(A) and (D) allow, the rig backed in on its stand. Each half is
 * marked where it stands in code-rigs.ts; for the pedestal: line and extent read second-hand (a public code file),
 * heights 2 ft to 6 ft 6 in from memory. The worked figures (22.553, 26.053, 16.919 ft) are derived from those rules.
 */
import { describe, expect, it } from "vitest";
import { COACH, type Connected, FOOT, fitOf, leastCord, type Pedestal, powerLine } from "./code-rigs.ts";

const LINE = [5, 5.5, 6, 6.5, 7];
const EXTENT = [0, 2.5, 5, 7.5, 10, 12.5, 15];
const HEIGHTS = { least: 2, ordinary: 3, most: 6.5 };

function side(fromRear: number, height: number): Connected {
  return { wall: "left", at: fromRear, height, cord: leastCord("551.46", { wall: "side", fromRear, height }) };
}

function rear(inward: number, height: number): Connected {
  return { wall: "rear", at: inward, height, cord: leastCord("551.46", { wall: "rear", fromRear: 0, height }) };
}

/** Within 15 ft of the rear; then farther by the exception; at the limit of 3 ft, and above it. */
const SIDE = [0, 3, 6, 9, 12, 15, 18, 26, 37].flatMap((fromRear) =>
  [1, 3, 4.5].map((height) => side(fromRear, height)),
);
const REAR = [0, 0.5, 1, 1.5].flatMap((inward) => [3, 4.5].map((height) => rear(inward, height)));

interface Worst {
  readonly margin: number;
  readonly inlet: Connected;
  readonly pedestal: Pedestal;
}

const known = new Map<string, Worst>();

/** The least margin over all these entrances and the whole band of pedestals, by the product. */
function worstOver(inlets: readonly Connected[], receptacle: number): Worst {
  const key = `${inlets[0]?.wall} ${receptacle}`;
  const worst = known.get(key) ?? sweep(inlets, receptacle);
  known.set(key, worst);
  return worst;
}

function sweep(inlets: readonly Connected[], receptacle: number): Worst {
  let worst: Worst | undefined;
  for (const inlet of inlets) {
    for (const line of LINE) {
      for (const y of EXTENT) {
        const pedestal = { x: -line, y, height: receptacle };
        const { margin } = powerLine(fitOf(inlet, pedestal));
        if (worst === undefined || margin < worst.margin - 1e-9) worst = { margin, inlet, pedestal };
      }
    }
  }
  return worst!;
}

describe("entrance at the side, 25 ft of cord", () => {
  it.each([HEIGHTS.least, HEIGHTS.ordinary])("reaches everywhere with the receptacle at %d ft", (height) => {
    expect(worstOver(SIDE, height).margin).toBeGreaterThan(0);
  });

  it("is tightest from corner to corner: pedestal 7 ft off and 15 ft along the stand from the entrance", () => {
    const worst = worstOver(SIDE, HEIGHTS.ordinary);
    expect(worst.margin).toBeCloseTo(2.447, 3);
    expect(worst.pedestal.x).toBe(-7);
    expect(Math.abs(worst.pedestal.y - worst.inlet.at)).toBe(15);
    expect(worst.inlet).toMatchObject({ height: 3, cord: 25 });
    expect(powerLine(fitOf(side(15, 3), { x: -7, y: 0, height: 3 })).margin).toBeCloseTo(worst.margin, 9);
  });

  it("THE GAP: with the receptacle at the greatest height the least cord is short by 1.053 ft when draped", () => {
    const worst = worstOver(SIDE, HEIGHTS.most);
    expect(worst.margin).toBeCloseTo(-1.053, 3);
    expect(worst.pedestal.x).toBe(-7);
    expect(Math.abs(worst.pedestal.y - worst.inlet.at)).toBe(15);
    const line = powerLine(fitOf(worst.inlet, worst.pedestal));
    // Through the air it is long enough: the answer is neither a yes nor a no.
    expect(line.verdict).toBe("tight");
    expect(line.neededLeast).toBeLessThan(worst.inlet.cord);
  });

  it("the gap opens where the receptacle stands higher than 5.447 ft", () => {
    const corner = (height: number) => powerLine(fitOf(side(15, 3), { x: -7, y: 0, height })).verdict;
    expect([5.44, 5.447 - 0.001, 5.448, 6.5].map(corner)).toEqual(["reaches", "reaches", "tight", "tight"]);
  });

  it("a higher entrance closes no part of it: the length that it adds is the length that it uses", () => {
    const at = (height: number) => powerLine(fitOf(side(15, height), { x: -7, y: 0, height: HEIGHTS.most })).margin;
    expect(at(4.5)).toBeCloseTo(at(3), 9);
    expect(at(1)).toBeCloseTo(at(3) + 2, 9);
  });

  it("an entrance farther forward than 15 ft has room to spare: the added cord is more than the added way", () => {
    const margins = [15, 18, 26, 37].map((at) => powerLine(fitOf(side(at, 3), { x: -7, y: 0, height: 3 })).margin);
    expect([...margins].sort((a, b) => a - b)).toEqual(margins);
    expect(margins.at(-1)! - margins[0]!).toBeCloseTo(22 - (Math.hypot(37, 7) - Math.hypot(15, 7)), 9);
  });

  it("our allowance of 0.6 m, which the code does not ask for, leaves little at ordinary heights and triples the gap", () => {
    const allowance = 0.6 / FOOT;
    expect(powerLine(fitOf(side(15, 3), { x: -7, y: 0, height: 3 }, COACH, allowance)).margin).toBeCloseTo(0.4786, 3);
    expect(powerLine(fitOf(side(15, 3), { x: -7, y: 0, height: 6.5 }, COACH, allowance)).margin).toBeCloseTo(
      -3.0214,
      3,
    );
  });
});

describe("entrance at the rear left, 30 ft of cord", () => {
  it.each([HEIGHTS.least, HEIGHTS.ordinary, HEIGHTS.most])(
    "reaches everywhere with the receptacle at %d ft",
    (height) => {
      expect(worstOver(REAR, height).margin).toBeGreaterThan(0);
    },
  );

  it("is tightest at 18 in from the wall, pedestal 15 ft forward and 7 ft off: 2.447 ft at the greatest height", () => {
    const worst = worstOver(REAR, HEIGHTS.most);
    expect(worst.margin).toBeCloseTo(30 - 3 - 1.5 - Math.hypot(15, 7) - 6.5, 9);
    expect(worst.pedestal).toMatchObject({ x: -7, y: 15 });
    expect(worst.inlet).toMatchObject({ at: 1.5 });
  });
});

describe("a stand larger than the rig", () => {
  it.each([
    [44, 10],
    [50, 14],
  ])("of %d by %d ft makes nothing worse, and better what moving forward makes better", (length, width) => {
    const gain = (entrance: number, y: number) => {
      const [inlet, pedestal] = [side(entrance, 3), { x: -7, y, height: HEIGHTS.most }];
      return fitOf(inlet, pedestal, { length, width }).bestMargin! - fitOf(inlet, pedestal).bestMargin!;
    };
    // A pedestal behind the entrance: the rig is on the stand's rear already. One ahead of it: the rig moves forward.
    expect(gain(15, 0)).toBeCloseTo(0, 6);
    const forward = length - COACH.length;
    expect(gain(0, 15)).toBeCloseTo((Math.hypot(15, 7) - Math.hypot(15 - forward, 7)) * FOOT, 6);
  });

  it("nose in, the same entrance is on the far side and the least cord is far too short", () => {
    const fit = fitOf(side(15, 3), { x: -7, y: 0, height: 3 }, COACH, 0, "in");
    expect(powerLine(fit).margin).toBeLessThan(-20);
    expect(fit.verdict).toBe("does not fit");
  });
});
