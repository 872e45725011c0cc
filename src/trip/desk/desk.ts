/**
 * The desk: a fleet and its bookings. Which unit works at every stop of each trip and with how little kit, which goes
 * where, what is to be packed, and where the depot's stock runs short. Pure; `planDesk` answers at once, `deskSteps`
 * pauses between fits.
 */
import type { FitOptions } from "../../fit/options.ts";
import { dateOf, dayNumber } from "../dates.ts";
import { Fitter, SiteBook } from "../fitter.ts";
import { type Box, boxesOf, boxOf, type KitWhere, titleOf } from "../kit/base-kit.ts";
import { describe } from "../kit/pack.ts";
import { kitItemOf } from "../kit/things.ts";
import type { RoseOf, Stay, TripRig } from "../place.ts";
import { finish } from "../plan.ts";
import type { Party, StockThing } from "../request.ts";
import { type AllotTrip, allot, overlap } from "./allot.ts";
import { type Cell, judgeUnit, rankCells } from "./cell.ts";
import { type StockPeriod, stockPeriods, type Taking } from "./reserve.ts";

export interface DeskUnit {
  readonly id: string;
  readonly name: string;
  readonly rig: TripRig;
}

export interface DeskTrip {
  readonly id: string;
  readonly name: string;
  readonly stops: readonly Stay[];
  readonly party: Party;
  /** Unit that the booking has already. */
  readonly unit: string | null;
}

export interface DeskInput {
  readonly fleet: readonly DeskUnit[];
  readonly trips: readonly DeskTrip[];
  readonly stock: readonly StockThing[];
  /** Days from the return until unit and kit can go out again. */
  readonly turnaroundDays: number;
  readonly options: FitOptions;
  readonly roseOf: RoseOf | null;
}

/** A thing to take from the depot or to buy before departure. */
export interface Pick {
  readonly id: string;
  readonly item: string;
  readonly description: string;
  readonly where: KitWhere;
  readonly path: string | null;
  readonly box: string;
}

export interface DeskTripPlan {
  readonly id: string;
  readonly name: string;
  readonly party: Party;
  readonly from: string;
  readonly to: string;
  /** Every unit of the fleet, the best first. */
  readonly units: readonly Cell[];
  /** The unit that the booking has or that is proposed; null when none that works is free. */
  readonly unit: string | null;
  readonly given: boolean;
  readonly why: string;
  /** Other trips that have the same unit at the same time. */
  readonly clashes: readonly string[];
  /** What is loaded into the unit; empty without one. */
  readonly pick: readonly Pick[];
  readonly boxes: readonly Box[];
}

export interface StockPlan {
  /** Index in the request's stock. */
  readonly stock: number;
  readonly item: string;
  readonly description: string;
  readonly count: number;
  readonly periods: readonly StockPeriod[];
  /** The first day on which it runs short; null when it never does. */
  readonly shortFrom: string | null;
}

export interface DeskPlan {
  /** In the order of departure. */
  readonly trips: readonly DeskTripPlan[];
  readonly stock: readonly StockPlan[];
  /** True when no allotment of units serves more trips, or as many with better units. */
  readonly proven: boolean;
  readonly fits: number;
}

export function planDesk(input: DeskInput): DeskPlan {
  return finish(deskSteps(input));
}

interface Dated {
  readonly trip: DeskTrip;
  readonly from: number;
  readonly to: number;
  readonly free: number;
  readonly cells: readonly Cell[];
}

/** Units alike in everything but name and id are fitted once. */
function fittersOf(fleet: readonly DeskUnit[], options: FitOptions, roseOf: RoseOf | null) {
  const book = new SiteBook(roseOf);
  const known = new Map<string, Fitter>();
  return fleet.map(({ id, name, rig }) => {
    const { id: _id, name: _name, ...same } = rig.profile;
    const key = JSON.stringify(same);
    const fitter = known.get(key) ?? new Fitter(rig, options, book);
    known.set(key, fitter);
    return { id, name, fitter };
  });
}

export function* deskSteps(input: DeskInput): Generator<void, DeskPlan> {
  const { fleet, trips, stock, turnaroundDays } = input;
  const units = fittersOf(fleet, input.options, input.roseOf);
  const dated: Dated[] = [];
  for (const trip of trips) {
    const judged = [];
    for (const unit of units) judged.push(yield* judgeUnit(unit, trip.stops, stock));
    const from = dayNumber(trip.stops[0]?.arrive ?? "") ?? 0;
    const to = dayNumber(trip.stops.at(-1)?.leave ?? "") ?? from;
    dated.push({ trip, from, to, free: to + turnaroundDays, cells: rankCells(judged) });
  }
  dated.sort((a, b) => a.from - b.from || (a.trip.id < b.trip.id ? -1 : 1));
  const asked = dated.map(({ trip, from, free, cells }): AllotTrip => {
    const working = cells.filter((cell) => cell.works === "yes" || cell.works === "tight");
    return { id: trip.id, from, free, given: trip.unit, units: working.map((cell) => cell.unit) };
  });
  const { units: allotted, proven } = allot(asked);
  const plans = dated.map((one, index) => tripPlan(one, index, asked, allotted));
  const fits = [...new Set(units.map((unit) => unit.fitter))].reduce((sum, fitter) => sum + fitter.solved, 0);
  return { trips: plans, stock: stockPlans(stock, dated, plans, input.options.units), proven, fits };
}

function tripPlan(
  { trip, from, to, cells }: Dated,
  index: number,
  asked: readonly AllotTrip[],
  allotted: ReadonlyMap<string, string>,
): DeskTripPlan {
  const unit = allotted.get(trip.id) ?? null;
  const cell = cells.find((one) => one.unit === unit);
  const self = asked[index];
  const clashes = asked.filter(
    (other) => self !== undefined && other !== self && allotted.get(other.id) === unit && overlap(other, self),
  );
  const pick = cell === undefined ? [] : pickOf(cell);
  return {
    id: trip.id,
    name: trip.name,
    party: trip.party,
    from: dateOf(from),
    to: dateOf(to),
    units: cells,
    unit,
    given: trip.unit !== null,
    why: cell?.why ?? whyNone(cells),
    clashes: unit === null ? [] : clashes.map((other) => other.id),
    pick,
    boxes: boxesOf(pick),
  };
}

function whyNone(cells: readonly Cell[]): string {
  if (cells.some((cell) => cell.works === "yes" || cell.works === "tight"))
    return "Every unit that works is on another trip on these dates.";
  const [best] = cells;
  return best === undefined ? "The fleet is empty." : `No unit works. The nearest, ${best.name}: ${best.why}`;
}

/** Everything that is loaded or bought for a trip: the base kit first. */
function pickOf({ base, kit }: Cell): readonly Pick[] {
  const paths = new Set(kit.map((one) => one.path));
  const standing = base
    .filter((entry) => entry.path === null || !paths.has(entry.path))
    .map(({ id, items, title, where, path, box }) => ({
      id,
      item: items[0] ?? id,
      description: title,
      where,
      path,
      box,
    }));
  const chosen = kit.map((one, index) => ({ id: `${one.item}-${index + 1}`, ...one, box: boxOf(one.item) }));
  return [...standing, ...chosen];
}

const STOCK_PATH = /^\/stock\/(\d+)$/;

function stockPlans(
  stock: readonly StockThing[],
  dated: readonly Dated[],
  plans: readonly DeskTripPlan[],
  units: FitOptions["units"],
): readonly StockPlan[] {
  const takings = plans.flatMap((plan, index) => {
    const { from = 0, free = 0 } = dated[index] ?? {};
    return plan.pick.flatMap(({ path }): Taking[] => {
      const match = STOCK_PATH.exec(path ?? "");
      return match === null ? [] : [{ trip: plan.id, from, free, stock: Number(match[1]), count: 1 }];
    });
  });
  return stock.map((thing, index) => {
    const count = thing.count ?? 1;
    const own = takings.filter((taking) => taking.stock === index);
    const periods = stockPeriods(count, own);
    const description = thing.length === undefined ? titleOf(thing.item) : describe(kitItemOf(thing, ""), units);
    const shortFrom = periods.find((period) => period.short > 0)?.from ?? null;
    return { stock: index, item: thing.item, description, count, periods, shortFrom };
  });
}
