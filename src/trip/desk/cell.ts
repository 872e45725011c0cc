/** One unit on one trip, in few words: whether it works at every stop, with what kit, and why not. */
import type { SiteVerdict } from "../../fit/answer.ts";
import type { Fitter } from "../fitter.ts";
import { type BaseEntry, baseKit, type KitWhere } from "../kit/base-kit.ts";
import { chooseKit, describe, fitWith, takenAlong, wishTargets } from "../kit/pack.ts";
import { thingsFor } from "../kit/things.ts";
import type { Stay } from "../place.ts";
import type { StockThing } from "../request.ts";
import {
  type Blocking,
  blockingOf,
  noFreeSite,
  settleStops,
  type Works,
  worksOf,
  worksRank,
  worstOf,
} from "../settle.ts";

export interface CellStop {
  readonly stop: number;
  readonly site: string | null;
  readonly verdict: SiteVerdict | null;
  readonly bestMargin: number | null;
}

export interface CellKit {
  readonly item: string;
  readonly description: string;
  readonly where: KitWhere;
  readonly path: string;
}

export interface Cell {
  readonly unit: string;
  readonly name: string;
  /** Place among the units for this trip, from 1. */
  readonly rank: number;
  readonly works: Works;
  readonly stops: readonly CellStop[];
  /** Beyond what is aboard and beyond the base kit. */
  readonly kit: readonly CellKit[];
  readonly base: readonly BaseEntry[];
  /** Things of kit and base kit by where they come from; one that is both counts once. */
  readonly counts: { readonly toBuy: number; readonly toPack: number; readonly lent: number };
  /** True when no cheaper kit serves the same sites. */
  readonly proven: boolean;
  /** Why it does not work, each stop that fails; empty when it works. */
  readonly blocking: readonly Blocking[];
  readonly why: string;
}

/** Works, then fewest to buy, to pack, to borrow; then the least margin of its stops, the larger the better. */
type Order = readonly number[];

export interface Judged {
  readonly cell: Omit<Cell, "rank">;
  readonly order: Order;
}

/** Pauses after each fit. */
export function* judgeUnit(
  unit: { readonly id: string; readonly name: string; readonly fitter: Fitter },
  stays: readonly Stay[],
  stock: readonly StockThing[],
): Generator<void, Judged> {
  const { fitter } = unit;
  const rig = fitter.rigAt(null);
  const settled = yield* settleStops(fitter, stays);
  const things = thingsFor(
    rig,
    stock,
    stays.map((stay) => stay.lends),
  );
  const targets = yield* wishTargets(
    fitter,
    settled.flatMap((one) => one.targets),
    things,
  );
  const { things: chosen, proven } = chooseKit(targets, things);
  const stops: CellStop[] = [];
  const blocking: Blocking[] = [];
  const works: Works[] = [];
  for (const [stop, { stay }] of settled.entries()) {
    const target = targets.find((one) => one.stop === stop && one.chosen);
    const fit = target === undefined ? null : fitWith(fitter, target, chosen);
    const barred = fit !== null ? blockingOf(stop, fit) : stay.kind === "off-grid" ? null : noFreeSite(stop, stay);
    works.push(fit !== null ? worksOf(fit) : barred === null ? "yes" : "no");
    if (barred !== null) blocking.push(barred);
    const { verdict = null, bestMargin = null } = fit ?? {};
    stops.push({ stop, site: fit?.site.name ?? null, verdict, bestMargin });
    yield;
  }
  const kit = chosen.map((thing): CellKit => {
    const { where, path } = takenAlong(thing);
    return { item: thing.kit.item, description: describe(thing.kit, fitter.options.units), where, path };
  });
  const base = baseKit(rig, stock, chosen.map(takenAlong));
  const worst = worstOf(works);
  const margins = stops.flatMap(({ bestMargin }) => bestMargin ?? []);
  const cell = { unit: unit.id, name: unit.name, works: worst, stops, kit, base, proven, blocking };
  const counts = countsOf(kit, base);
  const { toBuy, toPack, lent } = counts;
  const order = [-worksRank(worst), toBuy, toPack, lent, -Math.min(...margins, Number.MAX_VALUE)];
  return { cell: { ...cell, counts, why: whyOf(worst, blocking, counts) }, order };
}

function countsOf(kit: readonly CellKit[], base: readonly BaseEntry[]): Cell["counts"] {
  const paths = new Set(kit.map((one) => one.path));
  const all = [...kit, ...base.filter((one) => one.path === null || !paths.has(one.path))];
  const count = (where: KitWhere) => all.filter((one) => one.where === where).length;
  return { toBuy: count("to buy"), toPack: count("to pack"), lent: count("lent") };
}

function whyOf(works: Works, blocking: readonly Blocking[], { toBuy, toPack, lent }: Cell["counts"]): string {
  const [first] = blocking;
  if (works !== "yes" && first !== undefined) {
    const where = first.site === null ? "" : ` at ${first.site}`;
    return `Stop ${first.stop + 1}${where}: ${first.why}`;
  }
  return `It works at every stop. Kit: ${toPack} to pack, ${toBuy} to buy, ${lent} to borrow.`;
}

/** The units of one trip, the best first; equal ones by id. */
export function rankCells(judged: readonly Judged[]): readonly Cell[] {
  const sorted = [...judged].sort((a, b) => {
    const first = a.order.findIndex((value, index) => value !== b.order[index]);
    if (first >= 0) return (a.order[first] ?? 0) - (b.order[first] ?? 0);
    return a.cell.unit < b.cell.unit ? -1 : 1;
  });
  return sorted.map(({ cell }, index) => ({ ...cell, rank: index + 1 }));
}
