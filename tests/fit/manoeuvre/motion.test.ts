/** The motion itself: what must hold of every vehicle. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  backwards,
  drive,
  type Hitch,
  type Path,
  type Piece,
  type State,
  trailerAxle,
} from "../../../src/fit/manoeuvre/motion.ts";
import { evenly } from "./numbers.ts";

const STEP = 0.25;
const start: State = { along: 1.2, left: -0.7, heading: 0.3, trailer: 0.3 };
const hitchOf = fc.record({
  behind: evenly(-0.2, 2.5),
  length: evenly(2, 10),
});
const pieceOf = fc.record({
  distance: evenly(-6, 9),
  curvature: evenly(-0.16, 0.16),
});
const forwardOf = fc.record({
  distance: evenly(0.1, 9),
  curvature: evenly(-0.16, 0.16),
});

function end(path: Path): State {
  return path.states.at(-1)!;
}

function mirror(piece: Piece): Piece {
  return { distance: piece.distance, curvature: -piece.curvature };
}

describe("motion", () => {
  it("goes round a quarter circle to the left of where it points", () => {
    const radius = 6.5;
    const quarter = { distance: (Math.PI / 2) * radius, curvature: 1 / radius };
    const there = end(drive({ along: 2, left: 1, heading: 0, trailer: 0 }, [quarter], null, STEP));
    expect(there.along).toBeCloseTo(8.5, 10);
    expect(there.left).toBeCloseTo(7.5, 10);
    expect(there.heading).toBeCloseTo(Math.PI / 2, 12);
  });

  it("comes back by the path it went, and the trailer with it", () => {
    fc.assert(
      fc.property(fc.array(forwardOf, { minLength: 1, maxLength: 4 }), hitchOf, (pieces, hitch) => {
        const there = drive(start, pieces, hitch, STEP);
        const back = backwards(there);
        const again = drive(end(there), back.pieces, hitch, STEP);
        expect(end(again).along).toBeCloseTo(start.along, 9);
        expect(end(again).left).toBeCloseTo(start.left, 9);
        // Pushing multiplies every error by exp(distance / length): the further, the less can be asked.
        const driven = pieces.reduce((sum, { distance }) => sum + distance, 0);
        const grown = Math.exp(driven / hitch.length);
        if (grown < 1000) expect(Math.abs(end(again).trailer - start.trailer)).toBeLessThan(1e-6 * grown);
      }),
      { numRuns: 60 },
    );
  });

  it("is mirrored when the steering is", () => {
    fc.assert(
      fc.property(fc.array(pieceOf, { minLength: 1, maxLength: 4 }), hitchOf, (pieces, hitch) => {
        const from: State = { along: 0, left: 2, heading: 0, trailer: 0.1 };
        const other: State = { along: 0, left: -2, heading: 0, trailer: -0.1 };
        const one = end(drive(from, pieces, hitch, STEP));
        const two = end(drive(other, pieces.map(mirror), hitch, STEP));
        expect(two.along).toBeCloseTo(one.along, 9);
        expect(two.left).toBeCloseTo(-one.left, 9);
        expect(two.trailer).toBeCloseTo(-one.trailer, 9);
      }),
      { numRuns: 60 },
    );
  });

  it("does not depend on how finely it is cut", () => {
    fc.assert(
      fc.property(forwardOf, hitchOf, (piece, hitch) => {
        const coarse = end(drive(start, [piece], hitch, 10));
        const fine = end(drive(start, [piece], hitch, 0.01));
        expect(coarse.along).toBeCloseTo(fine.along, 9);
        expect(coarse.trailer).toBeCloseTo(fine.trailer, 5);
      }),
      { numRuns: 40 },
    );
  });

  it("never moves the trailer's axle sideways", () => {
    fc.assert(
      fc.property(fc.array(forwardOf, { minLength: 1, maxLength: 3 }), hitchOf, (pieces, hitch) => {
        const { states } = drive(start, pieces, hitch, 0.01);
        states.slice(1).forEach((state, index) => {
          const [a, b] = [trailerAxle(states[index]!, hitch), trailerAxle(state, hitch)];
          const way = (state.trailer + states[index]!.trailer) / 2;
          const aside = (b.left - a.left) * Math.cos(way) - (b.along - a.along) * Math.sin(way);
          expect(Math.abs(aside)).toBeLessThan(1e-5);
        });
      }),
      { numRuns: 15 },
    );
  });

  it("cuts in less with a shorter wheelbase behind the same front wheels", () => {
    fc.assert(
      fc.property(evenly(2, 5), evenly(0.2, 3), evenly(9, 20), (short, more, radius) => {
        const inner = (wheelbase: number): number => {
          // The front axle is driven, and the rear axle follows it.
          const hitch: Hitch = { behind: 0, length: wheelbase };
          const turn = [
            { distance: Math.PI * radius, curvature: 1 / radius },
            { distance: 9, curvature: 0 },
          ];
          const { states } = drive({ along: 0, left: 0, heading: 0, trailer: 0 }, turn, hitch, STEP);
          return Math.min(
            ...states.map((state) => {
              const axle = trailerAxle(state, hitch);
              return Math.hypot(axle.along, axle.left - radius);
            }),
          );
        };
        expect(inner(short + more)).toBeLessThanOrEqual(inner(short) + 1e-9);
      }),
      { numRuns: 40 },
    );
  });
});
