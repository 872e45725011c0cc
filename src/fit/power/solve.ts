/**
 * Power of one rig at one site: every receptacle of the site with its mating, line, supply, drop and load, best first.
 * Each candidate uses one receptacle; two are never joined.
 */
import type { PowerAnswer } from "../answer.ts";
import { candidatesOf } from "./candidate.ts";
import { placeRank } from "./chain.ts";
import { type LoadAnswer, type LoadSupply, loadAnswer } from "./load.ts";
import type { MatingKind } from "./mating.ts";
import type { PowerCandidate, PowerInput, PowerSolution } from "./problem.ts";

const MATING_ORDER: readonly MatingKind[] = ["direct", "adapter", "adapter with caution", "unknown", "refused"];

/** Numbers by which candidates are compared, the first that differs decides, the smaller is better. */
function ranks(candidate: PowerCandidate): readonly number[] {
  const places = candidate.items.map((item) => placeRank(item.where));
  const has = (item: "adapter" | "extension"): number => (candidate.items.some((each) => each.item === item) ? 1 : 0);
  return [
    candidate.usable ? 0 : 1,
    candidate.ownRating ? 0 : 1,
    MATING_ORDER.indexOf(candidate.mating),
    has("extension"),
    Math.max(0, ...places),
    candidate.contested ? 1 : 0,
    candidate.stateKnown ? 0 : 1,
    -(candidate.voltAmperes ?? 0),
    candidate.addedLength,
  ];
}

function compare(one: PowerCandidate, other: PowerCandidate): number {
  const theirs = ranks(other);
  for (const [index, rank] of ranks(one).entries()) {
    const difference = rank - (theirs[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

/**
 * Solves the power of a rig on a site. Candidates are in the order of preference: usable, the rig's own rating, direct
 * before adapter, without extension, aboard before to bring. The fit chooses among them by reach as well.
 */
export function solvePower(input: PowerInput): PowerSolution {
  const loads = new Map<string, LoadAnswer>();
  const loadOf = (supply: LoadSupply): LoadAnswer => {
    const key = [supply.legs, supply.amps, supply.continuousAmps, supply.voltsToNeutral].join(" ");
    const known = loads.get(key) ?? loadAnswer(input.appliances, supply);
    loads.set(key, known);
    return known;
  };
  const candidates = input.receptacles.flatMap((offered) => candidatesOf(input, offered, loadOf)).sort(compare);
  return { candidates, best: candidates.find((candidate) => candidate.usable) ?? null };
}

/** The part of a fit answer for a chosen candidate; without one, for a site where none can be used. */
export function powerAnswer(solution: PowerSolution, chosen: PowerCandidate | null): PowerAnswer {
  const shown = chosen ?? solution.best ?? solution.candidates[0] ?? null;
  const seen = new Set<string>();
  const alternatives: PowerAnswer["alternatives"][number][] = [];
  for (const candidate of solution.candidates) {
    const key = `${candidate.hookup}\n${candidate.receptacle}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const { receptacle, receptacleType: type, mating, why } = candidate;
    alternatives.push({ receptacle, type, mating, why });
  }
  return {
    mating: shown?.mating ?? "none",
    receptacle: shown?.receptacle ?? null,
    receptacleType: shown?.receptacleType ?? null,
    hookup: shown?.hookup ?? null,
    why: shown?.why ?? "The site's record names no receptacle.",
    chain: (shown?.chain ?? []).map(({ item, from, to, amps, length, ohmsPerMetre, where }) => ({
      item,
      from,
      to,
      amps,
      length,
      ohmsPerMetre,
      where,
    })),
    amps: shown?.amps ?? null,
    legs: shown?.legs ?? null,
    voltsToNeutral: shown?.voltsToNeutral ?? null,
    voltsLegToLeg: shown?.voltsLegToLeg ?? null,
    voltAmperes: shown?.voltAmperes ?? null,
    continuousVoltAmperes: shown?.continuousVoltAmperes ?? null,
    weakestLink: shown?.weakestLink ?? null,
    drop: dropAnswer(shown),
    canRun: (shown?.load?.canRun ?? []).map(({ appliances, watts, runs, why }) => ({ appliances, watts, runs, why })),
    alternatives,
  };
}

function dropAnswer(candidate: PowerCandidate | null): PowerAnswer["drop"] {
  const drop = candidate?.drop;
  if (!drop) return null;
  const { volts, ratio, voltsAtRigFromNominal, voltsAtRigFromLowest, status, why } = drop;
  return { volts, ratio, voltsAtRigFromNominal, voltsAtRigFromLowest, status, why };
}
