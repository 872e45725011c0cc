/** Trips and the desk in the worker: loaded with the first question about either, long after the first view. */
import type { Store } from "../../fit/stay/types.ts";
import { deskPairs, type ReadRequest, readDeskInput, readTripInput } from "../../http/trip-input.ts";
import { readCampground } from "../../records/geojson.ts";
import { type CampgroundStore, isSite, type StoredCampground } from "../../records/store.ts";
import { completeRig } from "../../rig/complete.ts";
import { type DeskInput, type DeskPlan, deskSteps } from "../../trip/desk/desk.ts";
import { withoutOf } from "../../trip/kit/base-kit.ts";
import type { Stay } from "../../trip/place.ts";
import { type TripInput, tripSteps } from "../../trip/plan.ts";
import type { DeskTold, LoadWords, PlanAsked, PlanProgress, Refused, TripAsked, TripTold } from "./trip-protocol.ts";

export interface Pace {
  /** Hears of every step. */
  readonly step: (progress: PlanProgress) => void;
  /** Lets waiting messages in. */
  readonly turn: () => Promise<void>;
  /** True once nobody wants the answer any more. */
  readonly stopped: () => boolean;
}

let opened: { readonly key: string; readonly store: CampgroundStore } | null = null;

/** What the version of a record stands for in an answer; only a server counts versions. */
const ON_DEVICE = "on this device";

/**
 * A record as a store holds it. Not by way of the server's own store, which takes a digest of each record: a browser
 * has none for a page that came over a local network without encryption.
 */
function storedOf(text: string): StoredCampground[] {
  const { campground, features, document, report } = readCampground(text);
  if (campground === null || document === null) return [];
  const { id, name = id } = campground;
  const sites = features.filter(isSite).length;
  const summary = { id, name, sites, brokenSites: 0, box: null, version: ON_DEVICE };
  return [{ summary, campground, features, brokenSites: [], document, report }];
}

/** The campgrounds of the last question stay read: the next one is most often about the same. */
function storeOf({ campgrounds }: PlanAsked): CampgroundStore {
  const key = campgrounds.join("\n");
  if (opened?.key === key) return opened.store;
  const all = new Map(campgrounds.flatMap(storedOf).map((one) => [one.summary.id, one]));
  const store: CampgroundStore = {
    list: async () => [...all.values()].map((one) => one.summary),
    get: async (id) => all.get(id) ?? null,
    version: async () => ON_DEVICE,
  };
  opened = { key, store };
  return store;
}

const refused = ({ errors }: ReadRequest<unknown>): Refused => ({
  ok: false,
  errors: errors.map(({ pointer = "", message, expected = "" }) => ({ pointer, message, expected })),
});

/** Runs to the end and tells of every step; null when it was stopped. */
async function paced<T>(steps: Generator<void, T>, of: number, pace: Pace): Promise<T | null> {
  for (let done = 0; ; done += 1) {
    const next = steps.next();
    if (next.done) return next.value;
    pace.step({ done: Math.min(done, of), of });
    await pace.turn();
    if (pace.stopped()) return null;
  }
}

/** Chosen site and two next-best. */
const MOST_TARGETS = 3;

/** Steps of one unit through these stops: each site once, each target once, each stop once. */
function stepsThrough(stays: readonly Stay[]): number {
  return stays.reduce((sum, stay) => {
    if (stay.kind === "off-grid") return sum + 1;
    const ranked = stay.kind === "site" ? stay.others.length : stay.free.length;
    const sites = ranked + (stay.kind === "site" ? 1 : 0);
    return sum + ranked + Math.min(sites, MOST_TARGETS) + 1;
  }, 0);
}

/** What each thing on the list is for; things for the sites of the trip have only what is lost without them. */
function wordsOf({ trips }: DeskPlan): LoadWords {
  return Object.fromEntries(
    trips.map(({ id, unit, units, pick }) => {
      const base = units.find((cell) => cell.unit === unit)?.base ?? [];
      const words = pick.map((one) => {
        const entry = base.find(({ id: own }) => own === one.id);
        const { place = "", why = "", withoutIt = withoutOf(one.item) } = entry ?? {};
        return [one.id, { place, why, withoutIt }] as const;
      });
      return [id, Object.fromEntries(words)];
    }),
  );
}

export async function answerDesk(asked: PlanAsked, pace: Pace): Promise<DeskTold | null> {
  const read: ReadRequest<DeskInput> = await readDeskInput(asked.body, storeOf(asked), null);
  const { input } = read;
  if (input === null) return refused(read);
  const each = input.trips.reduce((sum, trip) => sum + stepsThrough(trip.stops), 0);
  const plan = await paced(deskSteps(input), Math.max(each * input.fleet.length, deskPairs(input)), pace);
  return plan && { ok: true, plan, words: wordsOf(plan) };
}

function sizesOf({ rig, carried }: TripInput): Readonly<Record<Store, number | null>> {
  const { fresh, grey, black, propane } = completeRig(rig.profile).tanks;
  const { battery = null, generatorFuel = null } = carried.stores ?? {};
  return { fresh, grey, black, propane, battery, generatorFuel };
}

/** A thing of the kit that is left out once for every site that it serves: about as many more steps as the kit has things. */
const EXPLAINED = 12;

export async function answerTrip(asked: TripAsked, pace: Pace): Promise<TripTold | null> {
  const read: ReadRequest<TripInput> = await readTripInput(asked.body, storeOf(asked), null);
  const { input } = read;
  if (input === null) return refused(read);
  const sizes = sizesOf(input);
  if (asked.checkOnly) return { ok: true, plan: null, sizes };
  const plan = await paced(tripSteps(input), stepsThrough(input.stops) + EXPLAINED, pace);
  return plan && { ok: true, plan, sizes };
}
