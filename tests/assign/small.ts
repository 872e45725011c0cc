/** Small random problems with everything in them, and the best plan of each by trying all. */
import type {
  AssignmentProblem,
  AssignmentResource,
  AssignmentSite,
  AssignmentStay,
  Placement,
  SiteOption,
  Way,
} from "../../src/assign/problem.ts";
import { type Random, seededRandom } from "../../src/assign/random.ts";
import { DEFAULT_WEIGHTS } from "../../src/assign/weights.ts";

const FIRST = 20_300;

function closure(random: Random, nights: number) {
  const from = FIRST + random.whole(nights);
  return { from, until: from + 1 + random.whole(3), why: null };
}

function ways(random: Random, resources: readonly number[]): Way[] {
  const way = (held: readonly number[]): Way => ({
    resources: held,
    score: random.whole(120) - 20,
    terms: [],
  });
  if (resources.length === 0) return [way([])];
  const all = resources.map((resource) => way([resource]));
  return random.next() < 0.3 ? [...all, way([])] : all;
}

export interface SmallLimits {
  readonly sites: number;
  readonly stays: number;
  readonly nights: number;
}

export function smallProblem(seed: number, most: SmallLimits): AssignmentProblem {
  const random = seededRandom(seed);
  const count = { sites: 1 + random.whole(most.sites), stays: 1 + random.whole(most.stays) };
  const nights = 2 + random.whole(most.nights - 1);
  const shared = random.next() < 0.5 ? 1 + random.whole(2) : 0;
  const resources: AssignmentResource[] = Array.from({ length: shared }, (_, index) => ({
    id: `r${index}`,
    kind: index === 0 ? "receptacle" : "tap",
    name: `${index}`,
    closures: random.next() < 0.2 ? [closure(random, nights)] : [],
  }));
  const sites: AssignmentSite[] = Array.from({ length: count.sites }, (_, index) => ({
    id: `p${index}`,
    name: `${index}`,
    closures: random.next() < 0.2 ? [closure(random, nights)] : [],
    resources: resources.map((_, each) => each).filter(() => random.next() < 0.7),
    place: random.next() < 0.8 ? { east: random.whole(200), north: random.whole(40) } : null,
  }));
  const somewhere = (chance: number) => (random.next() < chance ? random.whole(count.sites) : null);
  const hasParties = random.next() < 0.3;
  const stays: AssignmentStay[] = Array.from({ length: count.stays }, (_, index) => {
    const arrival = FIRST - 2 + random.whole(nights + 1);
    const departure = Math.max(FIRST + 1, arrival + 1 + random.whole(4));
    return {
      id: `s${index}`,
      arrival,
      departure,
      profile: index,
      priority: random.next() < 0.2 ? 1 : 0,
      inHouse: arrival < FIRST && random.next() < 0.5,
      locked: somewhere(0.1),
      accepted: somewhere(0.4),
      party: hasParties && random.next() < 0.5 ? "one" : null,
    };
  });
  const options: SiteOption[][] = stays.map(() =>
    sites.map((site) =>
      random.next() < 0.65
        ? { ways: ways(random, site.resources).sort((one, other) => other.score - one.score), rules: [] }
        : { ways: [], rules: ["fit:length"] },
    ),
  );
  return {
    firstNight: FIRST,
    sites,
    resources,
    stays,
    options,
    weights: { ...DEFAULT_WEIGHTS, minimumStay: 1 + random.whole(3) },
    maxMoves: null,
  };
}

/** Every plan of a problem, one by one, the bound stays left to the caller's own choice of options. */
export function* allPlans(
  choices: readonly (readonly (Placement | null)[])[],
  index = 0,
  plan: (Placement | null)[] = [],
): Generator<readonly (Placement | null)[]> {
  if (index === choices.length) {
    yield plan;
    return;
  }
  for (const choice of choices[index]!) {
    plan[index] = choice;
    yield* allPlans(choices, index + 1, plan);
  }
}
