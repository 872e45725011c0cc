/**
 * The smallest kit that serves every site of a trip, the spare sites too, and what each thing of it is for. The set is
 * found from wishes that were fitted, and fitted again as a whole; what would happen without a thing is fitted too.
 */
import type { Fit, SiteVerdict } from "../../fit/answer.ts";
import { sayer } from "../../fit/say.ts";
import type { KitItem } from "../../rig/completed.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Asked, Fitter } from "../fitter.ts";
import type { TripCampground } from "../place.ts";
import { boxOf, type KitWhere, type Taken, titleOf, withoutOf } from "./base-kit.ts";
import { type Cover, type CoverProblem, cheapestCover, compareCosts, serves } from "./cover.ts";
import { aboardKit, SUMS, type Thing } from "./things.ts";
import { type SiteWishes, wishesOf } from "./wishes.ts";
import { atLeast, worthOf } from "./worth.ts";

/** A site that the kit has to serve. */
export interface PackTarget {
  readonly stop: number;
  readonly place: TripCampground;
  readonly feature: CampgroundFeature;
  readonly needs: Asked["needs"];
  /** False for a next-best site, to which the trip goes only when the chosen one fails. */
  readonly chosen: boolean;
}

export interface WishedTarget extends PackTarget {
  readonly wishes: SiteWishes;
}

export interface NeededFor {
  /** Index of the stop. */
  readonly stop: number;
  readonly site: string;
  readonly chosen: boolean;
  /** What becomes of that site when this one thing is left out. */
  readonly verdictWithout: SiteVerdict;
  readonly headlineWithout: string;
}

export interface KitChoice {
  readonly id: string;
  readonly item: string;
  readonly description: string;
  readonly plug: string | null;
  readonly receptacle: string | null;
  /** Amperes. */
  readonly rating: number | null;
  /** Metres. */
  readonly length: number | null;
  readonly where: KitWhere;
  /** Index of the stop whose campground lends it. */
  readonly lentAt: number | null;
  /** Pointer of the thing in the request, or of the table of what is sold. */
  readonly path: string;
  readonly box: string;
  readonly neededFor: readonly NeededFor[];
  readonly withoutIt: string;
}

export interface KitAlternative {
  /** Ids of chosen things that it replaces. */
  readonly insteadOf: readonly string[];
  readonly item: string;
  readonly description: string;
  readonly where: KitWhere;
  readonly why: string;
}

const WHERE: Readonly<Record<Thing["origin"], KitWhere>> = { depot: "to pack", lent: "lent", sold: "to buy" };

export function describe(kit: KitItem, units: Fit["units"]): string {
  const length = kit.length === null ? null : sayer(units).length(kit.length);
  const ends = kit.item === "adapter" && kit.plug !== null ? `${kit.plug} to ${kit.receptacle ?? "?"}` : null;
  const rating = kit.rating === null ? null : `${kit.rating} A`;
  return [titleOf(kit.item), ends, rating, length].filter((part) => part !== null).join(", ");
}

/** What each site wants. Pauses after each. */
export function* wishTargets(
  fitter: Fitter,
  targets: readonly PackTarget[],
  things: readonly Thing[],
): Generator<void, readonly WishedTarget[]> {
  const wished: WishedTarget[] = [];
  for (const target of targets) {
    const there = things.filter((thing) => thing.stop === null || thing.stop === target.stop);
    wished.push({ ...target, wishes: wishesOf(fitter, target.place, target.feature, there, target.needs) });
    yield;
  }
  return wished;
}

export function coverProblem(targets: readonly WishedTarget[], things: readonly Thing[]): CoverProblem {
  return { things, targets: targets.map(({ stop, wishes }) => ({ stop, options: wishes.options })), sums: SUMS };
}

export interface Chosen {
  readonly things: readonly Thing[];
  readonly proven: boolean;
}

/** Every wish is made of things that are there, so that a cover always exists. */
export function chooseKit(targets: readonly WishedTarget[], things: readonly Thing[]): Chosen {
  const cover: Cover | null = cheapestCover(coverProblem(targets, things));
  const complete = targets.every(({ wishes }) => wishes.complete);
  if (cover === null) return { things: [], proven: false };
  const ids = new Set(cover.chosen.map((thing) => thing.id));
  return { things: things.filter((thing) => ids.has(thing.id)), proven: cover.proven && complete };
}

/** The kit that is at hand at a stop: what is aboard, what was chosen, what that stop's campground lends. */
export function kitAt(fitter: Fitter, place: TripCampground, stop: number, chosen: readonly Thing[]): KitItem[] {
  const there = chosen.filter((thing) => thing.stop === null || thing.stop === stop);
  return [...aboardKit(fitter.rigAt(place)), ...there.map((thing) => thing.kit)];
}

/** The site with exactly this kit. */
export function fitWith(
  fitter: Fitter,
  target: PackTarget,
  chosen: readonly Thing[],
  detail: Asked["detail"] = "summary",
): Fit {
  const kit = kitAt(fitter, target.place, target.stop, chosen);
  return fitter.fit(target.place, target.feature, { kit, detail, needs: target.needs });
}

/** True when the site, fitted again with the whole kit, is as good as its wishes promised. */
export function isServed(fitter: Fitter, target: WishedTarget, chosen: readonly Thing[]): boolean {
  const kit = kitAt(fitter, target.place, target.stop, chosen);
  return atLeast(worthOf(fitWith(fitter, target, chosen), kit), target.wishes.goal);
}

/** The chosen things, each with the sites that fail without it. Pauses after each. */
export function* explainKit(
  fitter: Fitter,
  targets: readonly WishedTarget[],
  chosen: readonly Thing[],
): Generator<void, readonly KitChoice[]> {
  const problem = coverProblem(targets, chosen);
  const explained: KitChoice[] = [];
  for (const thing of chosen) {
    const rest = chosen.filter((other) => other !== thing);
    const hurt = targets.filter(
      (_, index) => problem.targets[index] !== undefined && !serves(problem, rest, problem.targets[index]),
    );
    const neededFor = hurt.map((target): NeededFor => {
      const fit = fitWith(fitter, target, rest);
      const site = fit.site.name;
      return {
        stop: target.stop,
        site,
        chosen: target.chosen,
        verdictWithout: fit.verdict,
        headlineWithout: fit.headline,
      };
    });
    explained.push({ ...choiceOf(thing, fitter.options.units), neededFor });
    yield;
  }
  return explained;
}

/** Pointers of the rig record, seen from the request. */
const pathOf = (kit: KitItem): string => (kit.path.startsWith("/kit") ? `/rig${kit.path}` : kit.path);

export const takenAlong = ({ kit, origin }: Thing): Taken => ({ kit, where: WHERE[origin], path: pathOf(kit) });

function choiceOf({ id, kit, origin, stop }: Thing, units: Fit["units"]): Omit<KitChoice, "neededFor"> {
  return {
    id,
    item: kit.item,
    description: describe(kit, units),
    plug: kit.plug,
    receptacle: kit.receptacle,
    rating: kit.rating,
    length: kit.length,
    where: WHERE[origin],
    lentAt: origin === "lent" ? stop : null,
    path: pathOf(kit),
    box: boxOf(kit.item),
    withoutIt: withoutOf(kit.item),
  };
}

/** Sets of one or two chosen things. */
function parts(chosen: readonly Thing[]): Thing[][] {
  const pairs = chosen.flatMap((one, index) => chosen.slice(index + 1).map((other) => [one, other]));
  return [...pairs, ...chosen.map((one) => [one])];
}

/**
 * Single things that would do in place of one or two that were chosen, each once: of one kind and one origin the one
 * that costs least.
 */
export function alternativesTo(
  chosen: readonly Thing[],
  targets: readonly WishedTarget[],
  things: readonly Thing[],
  units: Fit["units"],
): readonly KitAlternative[] {
  const problem = coverProblem(targets, things);
  const replaces = (thing: Thing, replaced: readonly Thing[]) => {
    const set = [...chosen.filter((one) => !replaced.includes(one)), thing];
    return problem.targets.every((target) => serves(problem, set, target));
  };
  const sorted = things.filter((one) => !chosen.includes(one)).sort((a, b) => compareCosts(a.cost, b.cost));
  const found: KitAlternative[] = [];
  for (const replaced of parts(chosen)) {
    const seen = new Set<string>();
    for (const thing of sorted.filter((one) => replaced.some((other) => other.group === one.group))) {
      const key = `${thing.origin} ${thing.group}`;
      const isSame =
        replaced.length === 1 && describe(thing.kit, units) === describe((replaced[0] ?? thing).kit, units);
      if (isSame || seen.has(key) || !replaces(thing, replaced)) continue;
      seen.add(key);
      found.push({
        insteadOf: replaced.map((one) => one.id),
        item: thing.kit.item,
        description: describe(thing.kit, units),
        where: WHERE[thing.origin],
        why: replaced.length > 1 ? "One thing in place of two." : "It does the same.",
      });
    }
  }
  return found;
}
