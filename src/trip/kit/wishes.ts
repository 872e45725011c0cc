/**
 * What a site wants of the kit: the smallest additions to what is aboard that make it as good as it gets. Found by
 * fitting: every wish here was tried on the whole fit, power included, and what is less was tried as well.
 */
import type { Fit } from "../../fit/answer.ts";
import type { CompletedRig, KitItem } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Asked, Fitter } from "../fitter.ts";
import type { TripCampground } from "../place.ts";
import type { CoverWish } from "./cover.ts";
import { minimalPoints } from "./minimal-points.ts";
import {
  aboardKit,
  adapterGroup,
  adapterOf,
  EXTENSION,
  extensionOf,
  hoseOf,
  JOINED,
  plugOf,
  SUMS,
  type Thing,
  threadAdapter,
} from "./things.ts";
import { atLeast, isComplete, NO, THREAD_ADAPTER, type Worth, wantsThreadAdapter, worthOf } from "./worth.ts";

export interface SiteWishes {
  /** With what is aboard alone. */
  readonly before: Fit;
  /** What every choice below brings the site up to. */
  readonly goal: Worth;
  /** Smallest additions, any of which will do; an empty one says that nothing is wanted. */
  readonly options: readonly (readonly CoverWish[])[];
  /** False when a smaller addition may exist that was not tried. */
  readonly complete: boolean;
}

/** Fits that one site may cost. */
const MOST_FITS = 60;
/** Different lengths that are tried of one group. */
const MOST_LENGTHS = 12;

interface Axis {
  readonly group: string;
  /** Amounts by step; the first is none. */
  readonly amounts: readonly number[];
}

/** Lengths that one or two things of a group give, shortest first. */
function lengthsOf(things: readonly Thing[], group: string): number[] {
  const amounts = things.filter((thing) => thing.group === group).map((thing) => thing.amount);
  const single = new Set(amounts);
  const sums = SUMS.has(group) ? amounts.flatMap((a, index) => amounts.slice(index + 1).map((b) => a + b)) : [];
  const joined = [...new Set(sums)].filter((sum) => !single.has(sum)).sort((a, b) => a - b);
  return [...single, ...joined].slice(0, MOST_LENGTHS).sort((a, b) => a - b);
}

const SERVICES_OF: Readonly<Record<(typeof JOINED)[number], readonly string[]>> = {
  "drinking-hose": ["water", "fill"],
  "sewer-hose": ["sewer"],
  cable: ["cable"],
};

/** The groups that can do anything for this rig at this site. */
function axesOf(rig: CompletedRig, site: CompletedSite, things: readonly Thing[], before: Fit): Axis[] {
  const both = (services: readonly string[]) =>
    rig.connections.some((one) => services.includes(one.service)) &&
    site.hookups.some((one) => services.includes(one.service));
  const groups: string[] = JOINED.filter((group) => both(SERVICES_OF[group]));
  const plug = plugOf(rig);
  if (plug !== null && both(["power"])) {
    const offered = new Set(site.hookups.flatMap((hookup) => hookup.receptacles.map((one) => one.type)));
    groups.push(EXTENSION, ...[...offered].sort().map((type) => adapterGroup(type, plug)));
  }
  if (wantsThreadAdapter(before)) groups.push(THREAD_ADAPTER);
  const axes = groups.map((group) => ({ group, amounts: [0, ...lengthsOf(things, group)] }));
  return axes.filter(({ amounts }) => amounts.length > 1);
}

/** One thing that stands for an amount of a group: joined hoses are as long as one of their length. */
function standIn({ group, least }: CoverWish, plug: string | null): KitItem[] {
  if (least === 0) return [];
  if (group === THREAD_ADAPTER) return [threadAdapter()];
  if (SUMS.has(group)) return [hoseOf(group, least)];
  if (plug === null) return [];
  if (group === EXTENSION) {
    const cord = extensionOf(plug, least);
    return cord === null ? [] : [cord];
  }
  const [, type = ""] = group.split(" ");
  return [adapterOf(type, plug)];
}

/** Share of a drain hose that counts, for the guess alone. */
const DRAIN_SHARE = 0.9;

/** Where the smallest addition probably lies: what each line lacks as the rig stands now. */
function guessOf(axes: readonly Axis[], before: Fit, own: Worth): number[] {
  return axes.map(({ group, amounts }) => {
    const services: readonly string[] =
      group in SERVICES_OF ? SERVICES_OF[group as keyof typeof SERVICES_OF] : ["power"];
    const lacking = before.lines.filter(
      (line) => services.includes(line.service) && line.verdict !== "not needed" && !own.served.includes(line.service),
    );
    if (lacking.length === 0) return 0;
    const share = group === "sewer-hose" ? DRAIN_SHARE : 1;
    const short = Math.max(0, ...lacking.map((line) => -(line.margin ?? 0) / share));
    // A plug that does not enter lacks an adapter, and its cord may reach.
    if (group === EXTENSION && short === 0) return 0;
    const step = amounts.findIndex((amount) => amount > 0 && amount >= short);
    return step < 0 ? amounts.length - 1 : step;
  });
}

/** @param things Those that are there for this stop. */
export function wishesOf(
  fitter: Fitter,
  place: TripCampground,
  feature: CampgroundFeature,
  things: readonly Thing[],
  needs: Asked["needs"],
): SiteWishes {
  const rig = fitter.rigAt(place);
  const aboard = aboardKit(rig);
  const plug = plugOf(rig);
  const solve = (kit: readonly KitItem[]) => fitter.fit(place, feature, { kit, detail: "summary", needs });
  const before = solve(aboard);
  const own = worthOf(before, aboard);
  const nothing: SiteWishes = { before, goal: own, options: [[]], complete: true };
  const axes = axesOf(rig, fitter.book.site(place, feature), things, before);
  if (axes.length === 0 || isComplete(before, own)) return nothing;
  const wishesAt = (point: readonly number[]): CoverWish[] =>
    axes.map(({ group, amounts }, index) => ({ group, least: amounts[point[index] ?? 0] ?? 0 }));
  const worthAt = (point: readonly number[]): Worth => {
    const kit = [...aboard, ...wishesAt(point).flatMap((wish) => standIn(wish, plug))];
    return worthOf(solve(kit), kit);
  };
  const sizes = axes.map(({ amounts }) => amounts.length);
  const goal = worthAt(sizes.map((size) => size - 1));
  // Nothing is packed for a site that does not fit with anything.
  if (goal.level === NO || atLeast(own, goal)) return nothing;
  const { points, complete } = minimalPoints(
    sizes,
    (point) => atLeast(worthAt(point), goal),
    MOST_FITS,
    guessOf(axes, before, own),
  );
  const options = points.map((point) => wishesAt(point).filter((wish) => wish.least > 0));
  return options.length === 0 ? { ...nothing, complete } : { before, goal, options, complete };
}
