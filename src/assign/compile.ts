/**
 * A problem as flat arrays for the optimiser. Pairs that can never be (fit, closures, places that are bound already)
 * are left out here, so that the search meets only what is possible.
 */
import { type BoundOption, type Openness, type OptionArrays, optionArrays } from "./options.ts";
import { type AssignmentProblem, type AssignmentStay, boundSite, type Closure, type Way } from "./problem.ts";

export const WORD = 32;

/** A bound stay that cannot be where it is bound to. */
export interface Release {
  readonly stay: number;
  readonly site: number;
  readonly why: "closed" | "resource-closed" | "held";
  /** The stay that holds the place already, when `why` is "held". */
  readonly by: number | null;
}

export interface Compiled extends OptionArrays {
  readonly problem: AssignmentProblem;
  readonly stays: number;
  readonly sites: number;
  /** Nights of the horizon; the arrays count nights from the problem's first. */
  readonly nights: number;
  readonly arrival: Int32Array;
  readonly departure: Int32Array;
  /** Points lost when the stay has no site. */
  readonly penalty: Float64Array;
  /** The option that a bound stay has; -1 for a stay that is free. */
  readonly fixed: Int32Array;
  /** Site of the accepted plan or -1. */
  readonly accepted: Int32Array;
  /** 32-bit words per set of nights; `mask` has them per stay, `closed` per site. */
  readonly words: number;
  readonly mask: Int32Array;
  readonly closed: Int32Array;
  /** Other stays of the same party that share a night; null when no stay has a party. */
  readonly mates: readonly (readonly number[])[] | null;
  readonly released: readonly Release[];
}

/** Way of a bound stay whose fit is not known to be possible: by the host's word, holding all that the site has. */
export const BY_HAND = -1;

interface Building {
  readonly problem: AssignmentProblem;
  readonly nights: number;
  readonly words: number;
  readonly arrival: Int32Array;
  readonly departure: Int32Array;
  readonly mask: Int32Array;
  readonly closed: Int32Array;
  readonly resourceClosed: Int32Array;
  /** Nights taken by bound stays, per site and per resource. */
  readonly taken: Int32Array;
  readonly resourceTaken: Int32Array;
}

function setNights(target: Int32Array, offset: number, from: number, until: number): void {
  for (let night = from; night < until; night++) {
    const at = offset + Math.floor(night / WORD);
    target[at] = target[at]! | (1 << (night % WORD));
  }
}

function meets(one: Int32Array, oneAt: number, other: Int32Array, otherAt: number, words: number): boolean {
  for (let word = 0; word < words; word++) {
    if ((one[oneAt + word]! & other[otherAt + word]!) !== 0) return true;
  }
  return false;
}

function begin(problem: AssignmentProblem): Building {
  const { firstNight, stays, sites, resources } = problem;
  const last = stays.reduce((latest, stay) => Math.max(latest, stay.departure), firstNight + 1);
  const nights = last - firstNight;
  const words = Math.ceil(nights / WORD);
  const clip = (night: number) => Math.min(Math.max(night - firstNight, 0), nights);
  const building: Building = {
    problem,
    nights,
    words,
    arrival: Int32Array.from(stays, (stay) => clip(stay.arrival)),
    departure: Int32Array.from(stays, (stay) => clip(stay.departure)),
    mask: new Int32Array(stays.length * words),
    closed: new Int32Array(sites.length * words),
    resourceClosed: new Int32Array(resources.length * words),
    taken: new Int32Array(sites.length * words),
    resourceTaken: new Int32Array(resources.length * words),
  };
  stays.forEach((stay, index) => {
    if (stay.departure <= stay.arrival || stay.departure <= firstNight)
      throw new RangeError(`Stay ${stay.id} has no night from the first night on.`);
    setNights(building.mask, index * words, building.arrival[index]!, building.departure[index]!);
  });
  const close = (target: Int32Array, index: number, closures: readonly Closure[]) => {
    for (const { from, until } of closures) setNights(target, index * words, clip(from), clip(until));
  };
  sites.forEach((site, index) => {
    close(building.closed, index, site.closures);
  });
  resources.forEach((resource, index) => {
    close(building.resourceClosed, index, resource.closures);
  });
  return building;
}

interface Fixed extends BoundOption {
  readonly resources: readonly number[];
}

/** In house first, then promises; each in the order of the stays. */
function bindingOrder(stays: readonly AssignmentStay[]): number[] {
  const bound = stays.flatMap((stay, index) => (boundSite(stay) === null ? [] : [index]));
  return bound.sort((one, other) => Number(stays[other]!.inHouse) - Number(stays[one]!.inHouse) || one - other);
}

/** Places the bound stays. What they hold is closed to everyone else. */
function bindStays(building: Building): { readonly fixed: Map<number, Fixed>; readonly released: Release[] } {
  const { problem, mask, closed, taken, words } = building;
  const fixed = new Map<number, Fixed>();
  const released: Release[] = [];
  for (const index of bindingOrder(problem.stays)) {
    const stay = problem.stays[index]!;
    const site = boundSite(stay)!;
    const holder = [...fixed].find(
      ([other, place]) => place.site === site && meets(mask, other * words, mask, index * words, words),
    );
    if (meets(closed, site * words, mask, index * words, words)) {
      released.push({ stay: index, site, why: "closed", by: null });
      continue;
    }
    if (holder !== undefined) {
      released.push({ stay: index, site, why: "held", by: holder[0] });
      continue;
    }
    const place = wayOfBound(building, index, site);
    if (place === null) {
      released.push({ stay: index, site, why: "resource-closed", by: null });
      continue;
    }
    fixed.set(index, place);
    setNights(taken, site * words, building.arrival[index]!, building.departure[index]!);
    for (const resource of place.resources) {
      setNights(building.resourceTaken, resource * words, building.arrival[index]!, building.departure[index]!);
    }
  }
  return { fixed, released };
}

/** The best way that is open and not held; else by hand, when no fit allows the pair at all. Null when all are shut. */
function wayOfBound(building: Building, index: number, site: number): Fixed | null {
  const { problem, mask, words, resourceClosed, resourceTaken } = building;
  const { profile, accepted } = problem.stays[index]!;
  const { ways } = problem.options[profile]![site]!;
  const move = accepted !== null && accepted !== site ? problem.weights.move : 0;
  if (ways.length === 0) return { site, way: BY_HAND, reward: -move, resources: problem.sites[site]!.resources };
  const shut = (closed: Int32Array, way: Way) =>
    way.resources.some((resource) => meets(closed, resource * words, mask, index * words, words));
  const open = ways.filter((way) => !shut(resourceClosed, way));
  const best = open.find((way) => !shut(resourceTaken, way)) ?? open[0];
  if (best === undefined) return null;
  return { site, way: ways.indexOf(best), reward: best.score - move, resources: best.resources };
}

/** Which sites and resources a free stay may have on all its nights. Most sites are never shut: those cost no look. */
function opennessOf({ problem, mask, closed, taken, words, resourceClosed, resourceTaken }: Building): Openness {
  const isEverShut = Uint8Array.from(problem.sites, (_, site) => {
    for (let at = site * words; at < (site + 1) * words; at++) if (closed[at] !== 0 || taken[at] !== 0) return 1;
    return 0;
  });
  const isOpen = (nights: Int32Array, at: number, stay: number) => !meets(nights, at, mask, stay * words, words);
  return {
    site: (stay, site) =>
      isEverShut[site] === 0 || (isOpen(closed, site * words, stay) && isOpen(taken, site * words, stay)),
    resource: (stay, resource) =>
      isOpen(resourceClosed, resource * words, stay) && isOpen(resourceTaken, resource * words, stay),
  };
}

function matesOf({ problem, arrival, departure }: Building): Compiled["mates"] {
  const parties = new Map<string, number[]>();
  problem.stays.forEach(({ party }, index) => {
    if (party !== null) parties.set(party, [...(parties.get(party) ?? []), index]);
  });
  if (parties.size === 0) return null;
  return problem.stays.map(({ party }, index) =>
    (party === null ? [] : parties.get(party)!).filter(
      (other) => other !== index && arrival[other]! < departure[index]! && arrival[index]! < departure[other]!,
    ),
  );
}

/** Makes a problem ready for the search. Throws a RangeError for a stay without a night. */
export function compile(problem: AssignmentProblem): Compiled {
  const building = begin(problem);
  const { fixed, released } = bindStays(building);
  const options = optionArrays(problem, fixed, opennessOf(building));
  const { weights } = problem;
  return {
    problem,
    stays: problem.stays.length,
    sites: problem.sites.length,
    nights: building.nights,
    arrival: building.arrival,
    departure: building.departure,
    penalty: Float64Array.from(
      problem.stays,
      (stay, index) =>
        weights.unplaced * (1 + stay.priority) +
        weights.unplacedNight * (building.departure[index]! - building.arrival[index]!),
    ),
    ...options,
    fixed: Int32Array.from(problem.stays, (_, index) => (fixed.has(index) ? options.optionStart[index]! : -1)),
    accepted: Int32Array.from(problem.stays, ({ accepted }) => accepted ?? -1),
    words: building.words,
    mask: building.mask,
    closed: building.closed,
    mates: matesOf(building),
    released,
  };
}
