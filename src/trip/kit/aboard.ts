/** Which of the things that are aboard anyway the trip's sites rest on. */
import type { KitItem } from "../../rig/completed.ts";
import type { Fitter } from "../fitter.ts";
import { boxOf, withoutOf } from "./base-kit.ts";
import { describe, fitWith, type KitChoice, kitAt, type NeededFor, type WishedTarget } from "./pack.ts";
import { aboardKit, type Thing } from "./things.ts";
import { atLeast, THREAD_ADAPTER, wantsThreadAdapter, worthOf } from "./worth.ts";

/** Leaves one thing at home and fits again; null when the site is as good without it. */
function hurtBy(fitter: Fitter, target: WishedTarget, chosen: readonly Thing[], left: KitItem): NeededFor | null {
  const { place, feature, needs, stop } = target;
  const kit = kitAt(fitter, place, stop, chosen).filter((item) => item.path !== left.path);
  const fit = fitter.fit(place, feature, { kit, detail: "summary", needs });
  if (atLeast(worthOf(fit, kit), target.wishes.goal)) return null;
  return {
    stop,
    site: fit.site.name,
    chosen: target.chosen,
    verdictWithout: fit.verdict,
    headlineWithout: fit.headline,
  };
}

/** Pauses after each thing. */
export function* aboardNeeded(
  fitter: Fitter,
  targets: readonly WishedTarget[],
  chosen: readonly Thing[],
): Generator<void, readonly KitChoice[]> {
  const found: KitChoice[] = [];
  const [first] = targets;
  if (first === undefined) return found;
  for (const item of aboardKit(fitter.rigAt(first.place))) {
    const using = targets.filter((target) => {
      const fit = fitWith(fitter, target, chosen);
      return item.item === THREAD_ADAPTER
        ? wantsThreadAdapter(fit)
        : fit.kit.some((entry) => entry.item === item.item && entry.for !== "level");
    });
    const neededFor = using.flatMap((target) => hurtBy(fitter, target, chosen, item) ?? []);
    if (neededFor.length > 0) {
      const { plug, receptacle, rating, length } = item;
      found.push({
        id: `aboard${item.path.replaceAll("/", "-")}`,
        item: item.item,
        description: describe(item, fitter.options.units),
        ...{ plug, receptacle, rating, length },
        where: "aboard",
        lentAt: null,
        path: `/rig${item.path}`,
        box: boxOf(item.item),
        neededFor,
        withoutIt: withoutOf(item.item),
      });
    }
    yield;
  }
  return found;
}
