/**
 * A trip: where the rig stands at every stop, what to pack for all of them, what the tanks do on the way, what may run
 * and what to do on arrival. Pure; `planTrip` answers at once, `tripSteps` pauses between fits for whoever has other
 * things to do.
 */
import type { Fit, SiteVerdict } from "../fit/answer.ts";
import type { FitOptions } from "../fit/options.ts";
import type { Card, Language } from "./card/card.ts";
import { Fitter, SiteBook } from "./fitter.ts";
import { aboardNeeded } from "./kit/aboard.ts";
import { type BaseEntry, type Box, baseKit, boxesOf } from "./kit/base-kit.ts";
import {
  alternativesTo,
  chooseKit,
  explainKit,
  fitWith,
  isServed,
  type KitAlternative,
  type KitChoice,
  takenAlong,
  type WishedTarget,
  wishTargets,
} from "./kit/pack.ts";
import { type Thing, thingsFor } from "./kit/things.ts";
import { type Carried, cardOf, runningAt, suppliesOf, type Visited } from "./on-the-way.ts";
import type { RoseOf, Stay, TripRig } from "./place.ts";
import type { Party, StockThing } from "./request.ts";
import type { RunningPlan } from "./running/types.ts";
import {
  type Blocking,
  blockingOf,
  noFreeSite,
  type Settled,
  settleStops,
  type Works,
  worksOf,
  worstOf,
} from "./settle.ts";
import type { SuppliesPlan } from "./supplies/types.ts";

export interface TripInput {
  readonly rig: TripRig;
  readonly stops: readonly Stay[];
  readonly party: Party;
  readonly options: FitOptions;
  /** What the depot has on the shelf beside what the rig's record lists for the depot. */
  readonly stock: readonly StockThing[];
  readonly roseOf: RoseOf | null;
  /** What is used on the way and what the tanks hold at departure. */
  readonly carried: Carried;
  /** Language of the cards. */
  readonly language: Language;
}

/** A site kept in hand. */
export interface NextSite {
  readonly id: string;
  readonly name: string;
  /** With the whole kit of the trip. */
  readonly verdict: SiteVerdict;
  readonly headline: string;
  readonly bestMargin: number | null;
  /** False when the kit, fitted again, did not bring the site up to what its parts promised. */
  readonly served: boolean;
}

export interface StopPlan {
  readonly index: number;
  readonly kind: Stay["kind"];
  readonly name: string;
  readonly arrive: string;
  readonly leave: string;
  readonly nights: number;
  readonly works: Works;
  /** The whole answer at the chosen site with the trip's kit aboard; null off the grid and without a free site. */
  readonly fit: Fit | null;
  readonly served: boolean;
  readonly blocking: Blocking | null;
  readonly next: readonly NextSite[];
  /** What to do on arrival and departure; null where there is no site to hook up at. */
  readonly card: Card | null;
  /** What may run together, from the site's supply and from the generator. */
  readonly running: RunningPlan;
}

export interface TripKit {
  readonly base: readonly BaseEntry[];
  /** Aboard and needed, then to pack, lent and to buy. */
  readonly items: readonly KitChoice[];
  readonly alternatives: readonly KitAlternative[];
  readonly boxes: readonly Box[];
  /** True when no cheaper set serves all these sites: first fewest to buy, then to carry, then to borrow, then metres. */
  readonly proven: boolean;
}

export interface TripPlan {
  readonly rig: { readonly id: string | null; readonly name: string | null };
  readonly party: Party;
  readonly from: string;
  readonly to: string;
  readonly nights: number;
  readonly works: Works;
  readonly headline: string;
  readonly stops: readonly StopPlan[];
  readonly kit: TripKit;
  /** Tanks and energy through all stops. */
  readonly supplies: SuppliesPlan;
  /** Fits that were solved for this answer. */
  readonly fits: number;
}

/** Runs to the end whatever pauses. */
export function finish<T>(steps: Generator<void, T>): T {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
}

export function planTrip(input: TripInput): TripPlan {
  return finish(tripSteps(input));
}

export function* tripSteps(input: TripInput): Generator<void, TripPlan> {
  const { rig, stops: stays, options, stock, party } = input;
  const fitter = new Fitter(rig, options, new SiteBook(input.roseOf));
  const settled = yield* settleStops(fitter, stays);
  const things = thingsFor(
    fitter.rigAt(null),
    stock,
    stays.map((stay) => stay.lends),
  );
  const targets = yield* wishTargets(
    fitter,
    settled.flatMap((one) => one.targets),
    things,
  );
  const chosen = chooseKit(targets, things);
  const placed: Placed[] = [];
  for (const [index, one] of settled.entries()) {
    placed.push(placedAt(fitter, index, one, targets, chosen.things));
    yield;
  }
  const visited = placed.map(({ fit }, index) => ({ stay: stays[index] as Stay, fit }));
  const supplies = suppliesOf(fitter, visited, party, input.carried);
  const stops = placed.map((stop, index): StopPlan => {
    const card = cardOf(fitter, visited, index, supplies, party, chosen.things, input.language);
    return { ...stop, card, running: runningAt(fitter, visited[index] as Visited) };
  });
  const kit = yield* tripKit(fitter, targets, chosen, things, stock);
  const [first, last] = [stays[0], stays.at(-1)];
  const works = worstOf(stops.map((stop) => stop.works));
  return {
    rig: { id: rig.profile.id ?? null, name: rig.profile.name ?? null },
    party,
    from: first?.arrive ?? "",
    to: last?.leave ?? "",
    nights: stays.reduce((sum, stay) => sum + stay.nights, 0),
    works,
    headline: headlineOf(works, stops, kit),
    stops,
    kit,
    supplies,
    fits: fitter.solved,
  };
}

type Placed = Omit<StopPlan, "card" | "running">;

function placedAt(
  fitter: Fitter,
  index: number,
  { stay }: Settled,
  all: readonly WishedTarget[],
  chosen: readonly Thing[],
): Placed {
  const { kind, name, arrive, leave, nights } = stay;
  const targets = all.filter((target) => target.stop === index);
  const target = targets.find((one) => one.chosen);
  const base = { index, kind, name, arrive, leave, nights };
  if (target === undefined) {
    const blocking = kind === "off-grid" ? null : noFreeSite(index, stay);
    return { ...base, works: blocking === null ? "yes" : "no", fit: null, served: true, blocking, next: [] };
  }
  const fit = fitWith(fitter, target, chosen, fitter.options.detail);
  const next = targets.filter((one) => !one.chosen);
  return {
    ...base,
    works: worksOf(fit),
    fit,
    served: isServed(fitter, target, chosen),
    blocking: blockingOf(index, fit),
    next: next.map((one) => nextSite(fitter, one, chosen)),
  };
}

function nextSite(fitter: Fitter, target: WishedTarget, chosen: readonly Thing[]): NextSite {
  const { site, verdict, headline, bestMargin } = fitWith(fitter, target, chosen);
  return { id: site.id, name: site.name, verdict, headline, bestMargin, served: isServed(fitter, target, chosen) };
}

function* tripKit(
  fitter: Fitter,
  targets: readonly WishedTarget[],
  { things: chosen, proven }: { readonly things: readonly Thing[]; readonly proven: boolean },
  things: readonly Thing[],
  stock: readonly StockThing[],
): Generator<void, TripKit> {
  const aboard = yield* aboardNeeded(fitter, targets, chosen);
  const explained = yield* explainKit(fitter, targets, chosen);
  const items = [...aboard, ...explained];
  const base = baseKit(fitter.rigAt(null), stock, chosen.map(takenAlong));
  return {
    base,
    items,
    alternatives: alternativesTo(chosen, targets, things, fitter.options.units),
    boxes: boxesOf([...base, ...items]),
    proven,
  };
}

function headlineOf(works: Works, stops: readonly StopPlan[], kit: TripKit): string {
  const blocked = stops.find((stop) => stop.works === works && stop.blocking !== null);
  if (works !== "yes" && blocked?.blocking != null) {
    const where = blocked.fit === null ? "" : ` at ${blocked.fit.site.name}`;
    const verdict = blocked.fit?.verdict ?? "no free site";
    return `Stop ${blocked.index + 1}${where}: ${verdict}. ${blocked.blocking.why}`;
  }
  // A hose that is taken along for a site and serves as the base kit's hose is one thing.
  const paths = new Set(kit.items.map((one) => one.path));
  const apart = kit.base.filter((one) => one.path === null || !paths.has(one.path));
  const count = (where: string) => [...apart, ...kit.items].filter((one) => one.where === where).length;
  const all = stops.length === 1 ? "its only stop" : `all ${stops.length} stops`;
  return `It works at ${all}. Kit: ${count("to pack")} to pack, ${count("to buy")} to buy, ${count("lent")} to borrow.`;
}
