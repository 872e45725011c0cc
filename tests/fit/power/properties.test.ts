import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DEVICES } from "../../../src/fit/power/devices.ts";
import { mate } from "../../../src/fit/power/mating.ts";
import { solvePower } from "../../../src/fit/power/solve.ts";
import type { KitItem } from "../../../src/rig/completed.ts";
import { cord, input, kit, offered } from "./case.ts";

const ids = DEVICES.map((device) => device.id);
const anyId = fc.constantFrom(...ids);
const anyGauge = fc.constantFrom(
  { awg: 6 },
  { awg: 10 },
  { awg: 12 },
  { awg: 14 },
  { awg: 16 },
  { squareMillimetres: 2.5 },
);
const anyItem: fc.Arbitrary<KitItem> = fc
  .record({
    item: fc.constantFrom("adapter", "extension", "protector", "two-plug adapter"),
    plug: anyId,
    receptacle: anyId,
    rating: fc.option(fc.constantFrom(10, 13, 15, 16, 20, 30, 32, 50)),
    addsLength: fc.constantFrom(0, 0.3),
    length: fc.option(fc.constantFrom(3, 7.62, 15.24)),
    gauge: fc.option(anyGauge),
    where: fc.constantFrom("aboard" as const, "depot" as const),
  })
  .map((parts) => kit(parts));
const anyKit = fc.array(anyItem, { maxLength: 6 });
const RUNS = { numRuns: 400, seed: 20260411 };
const ORDER = ["direct", "adapter", "adapter with caution", "unknown", "refused"];

describe("properties of the power solver", () => {
  it("a refused mating is never usable under any kit", () => {
    fc.assert(
      fc.property(anyId, anyId, anyKit, (plug, type, items) => {
        fc.pre(mate(plug, type).kind === "refused");
        const { best, candidates } = solvePower(
          input({ plug, kit: items, electricalSystem: null, extraLength: 2, receptacles: [offered(type)] }),
        );
        expect(best).toBeNull();
        expect(candidates.every((each) => each.mating === "refused" && each.amps === null)).toBe(true);
      }),
      RUNS,
    );
  });

  it("more kit never makes the best mating worse", () => {
    fc.assert(
      fc.property(
        anyId,
        fc.array(anyId, { minLength: 1, maxLength: 3 }),
        anyKit,
        anyItem,
        (plug, types, items, more) => {
          const best = (kitItems: readonly KitItem[]) =>
            solvePower(
              input({
                plug,
                kit: kitItems,
                kitPolicy: "aboard",
                electricalSystem: null,
                receptacles: types.map((type) => offered(type)),
              }),
            ).best;
          const before = best(items);
          const after = best([...items, more]);
          if (before === null) return;
          expect(after).not.toBeNull();
          expect(Number(after?.ownRating)).toBeGreaterThanOrEqual(Number(before.ownRating));
          if (after?.ownRating === before.ownRating) {
            expect(ORDER.indexOf(after.mating)).toBeLessThanOrEqual(ORDER.indexOf(before.mating));
          }
        },
      ),
      RUNS,
    );
  });

  it("a longer line never raises the volts at the rig", () => {
    fc.assert(
      fc.property(
        anyId,
        anyId,
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.option(anyGauge),
        (plug, type, metres, more, gauge) => {
          const drop = (length: number) =>
            solvePower(
              input({
                plug,
                cord: cord({ metres: length, gauge }),
                electricalSystem: null,
                receptacles: [offered(type)],
              }),
            ).best?.drop;
          const short = drop(metres);
          const long = drop(metres + more);
          if (!short || !long) return;
          expect(long.voltsAtRigFromLowest).toBeLessThan(short.voltsAtRigFromLowest);
          expect(long.voltsAtRigFromNominal).toBeLessThan(short.voltsAtRigFromNominal);
        },
      ),
      RUNS,
    );
  });

  it("a usable line has no link below what the supply gives, starts in the receptacle and tells the test first", () => {
    fc.assert(
      fc.property(anyId, anyId, anyKit, fc.option(anyGauge), (plug, type, items, gauge) => {
        const { candidates } = solvePower(
          input({
            plug,
            cord: cord({ gauge }),
            kit: items,
            extraLength: 4,
            electricalSystem: null,
            receptacles: [offered(type)],
          }),
        );
        for (const candidate of candidates.filter((each) => each.usable)) {
          for (const link of candidate.chain)
            expect(link.amps ?? 0).toBeGreaterThanOrEqual(candidate.amps ?? Number.POSITIVE_INFINITY);
          expect(["direct"]).toContain(mate(candidate.chain[0]?.from ?? null, type).kind);
          for (const [index, link] of candidate.chain.slice(1).entries()) {
            expect(mate(link.from, candidate.chain[index]?.to ?? "").kind).toBe("direct");
          }
          expect(candidate.chain.at(-1)?.item).toBe("cord");
          expect(candidate.cautions[0]?.id).toBe("test-first");
          expect(candidate.continuousAmps ?? 0).toBeLessThanOrEqual(candidate.amps ?? 0);
        }
      }),
      RUNS,
    );
  });
});
