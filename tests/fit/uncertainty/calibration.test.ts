/**
 * The short form of the calibration campaign (tests/bench/calibration.ts): fixed seeds, so the outcome never varies.
 * The campaign allows three points in a tenth; here each tenth has so few truths that their own sampling error comes on
 * top: three standard deviations of a binomial share.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { byTenth, type Judged, judgeSites, TENTHS } from "../../bench/calibrate.ts";

const SITES = 60;
const TRUTHS = 60;
const ALLOWED = 0.03;
const SIGMAS = 3;

function samplingError(share: number, truths: number): number {
  return Math.sqrt((share * (1 - share)) / truths);
}

describe("probabilities come true", () => {
  let judged: readonly Judged[] = [];
  beforeAll(() => {
    judged = judgeSites(SITES, TRUTHS);
  });

  it.each(Array.from({ length: TENTHS }, (_, tenth) => tenth))("in tenth %d", (tenth) => {
    const { sites, truths, said, came } = byTenth(judged)[tenth]!;
    expect(sites).toBeGreaterThanOrEqual(2);
    expect(Math.abs(came - said)).toBeLessThanOrEqual(ALLOWED + SIGMAS * samplingError(said, truths));
  });

  it("over all sites together", () => {
    const total = SITES * TRUTHS;
    const said = judged.reduce((sum, one) => sum + one.probability, 0) / SITES;
    const came = judged.reduce((sum, one) => sum + one.true, 0) / total;
    const variance =
      judged.reduce((sum, one) => sum + (one.probability * (1 - one.probability)) / TRUTHS, 0) / SITES ** 2;
    expect(Math.abs(came - said)).toBeLessThanOrEqual(ALLOWED / 2 + SIGMAS * Math.sqrt(variance));
    expect(judged.reduce((sum, one) => sum + one.undecided, 0)).toBe(0);
  });
});
