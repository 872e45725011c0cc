/** Trips and desks of a request: rigs, sites and campgrounds read, every fault told at once. */

import { completeOptions, type FitOptions } from "../fit/options.ts";
import { aroundOf, type CampgroundStore, isSite, type StoredCampground } from "../records/store.ts";
import { roseOf } from "../records/surroundings.ts";
import { completeRig } from "../rig/complete.ts";
import type { CompletedRig } from "../rig/completed.ts";
import { parseRig } from "../rig/parse.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import { nightsBetween } from "../trip/dates.ts";
import type { DeskInput, DeskTrip, DeskUnit } from "../trip/desk/desk.ts";
import type { Carried } from "../trip/on-the-way.ts";
import { parseDesk, parseTrip } from "../trip/parse.ts";
import type { Stay, TakenSites, TripCampground, TripRig } from "../trip/place.ts";
import type { TripInput } from "../trip/plan.ts";
import type { StopRequest, TripMembers } from "../trip/request.ts";
import { tankRules } from "../trip/rules.ts";
import { nearest } from "../units/nearest.ts";
import type { ProblemError } from "./problem.ts";
import { readSite } from "./site-input.ts";
import { inputProblem } from "./validate.ts";

const DEFAULT_TURNAROUND_DAYS = 1;

/** Null where there is an error; then `errors` says all of them. */
export interface ReadRequest<T> {
  readonly input: T | null;
  readonly errors: readonly ProblemError[];
}

/** Each campground once, so that its sites are completed once for all stops and rigs. */
class Places {
  private readonly known = new Map<string, TripCampground>();
  private readonly sitesOf = new Map<TripCampground, readonly CampgroundFeature[]>();
  readonly errors: ProblemError[] = [];

  constructor(
    readonly store: CampgroundStore,
    readonly takenSites: TakenSites | null,
  ) {}

  stored(record: StoredCampground): TripCampground {
    const { summary, campground, features } = record;
    const made = this.known.get(summary.id) ?? {
      id: summary.id,
      name: summary.name,
      campground,
      features,
      around: aroundOf(record),
      version: summary.version,
    };
    this.known.set(summary.id, made);
    return made;
  }

  sites(place: TripCampground): readonly CampgroundFeature[] {
    const known = this.sitesOf.get(place) ?? place.features.filter(isSite);
    this.sitesOf.set(place, known);
    return known;
  }

  fault(pointer: string, code: string, message: string, expected: string): void {
    this.errors.push({ pointer, code, message, expected });
  }

  async campground(id: string, pointer: string): Promise<TripCampground | null> {
    const record = await this.store.get(id);
    if (record !== null) return this.stored(record);
    const ids = (await this.store.list()).map((one) => one.id);
    const near = nearest(id, ids);
    const hint = near === null ? "" : ` Did you mean "${near}"?`;
    this.fault(pointer, "not-found", `There is no campground of this id.${hint}`, "an id from /v1/campgrounds");
    return null;
  }

  /** Sites on offer at a stop and those that are not free. An id that the campground does not have is a fault. */
  async offer(place: TripCampground, stop: StopRequest, pointer: string) {
    const all = this.sites(place);
    const ids = new Set(all.map((site) => featureId(site)));
    for (const key of ["among", "taken"] as const) {
      for (const [index, id] of (stop[key] ?? []).entries()) {
        if (!ids.has(id))
          this.fault(
            `${pointer}/${key}/${index}`,
            "not-found",
            "The campground has no site of this id.",
            "a site's id",
          );
      }
    }
    const kept =
      this.takenSites === null || place.id === null ? [] : await this.takenSites(place.id, stop.arrive, stop.leave);
    const taken = new Set([...(stop.taken ?? []), ...kept]);
    const offered = stop.among === undefined ? all : all.filter((site) => stop.among?.includes(featureId(site) ?? ""));
    return { taken, offered, free: offered.filter((site) => !taken.has(featureId(site) ?? "")) };
  }
}

/** A stop at `pointer`; null when it has a fault. */
async function readStay(
  places: Places,
  raw: Readonly<Record<string, unknown>>,
  stop: StopRequest,
  pointer: string,
  index: number,
): Promise<Stay | null> {
  const { arrive, leave } = stop;
  const base = {
    arrive,
    leave,
    nights: nightsBetween(arrive, leave),
    lends: stop.lends ?? [],
    needs: Object.fromEntries(Object.entries(stop.needs ?? {}).filter(([, need]) => need !== undefined)),
    temperature: stop.temperature ?? null,
  };
  if (stop.offGrid === true) return { kind: "off-grid", name: stop.name ?? `Off the grid ${index + 1}`, ...base };
  if (stop.site === undefined) {
    const id = String(stop.campground);
    const place = await places.campground(id, `${pointer}/campground`);
    if (place === null) return null;
    const { offered, free } = await places.offer(place, stop, pointer);
    const name = stop.name ?? place.name ?? id;
    return { kind: "campground", name, ...base, place, free, taken: offered.length - free.length };
  }
  const found: ProblemError[] = [];
  const read = await readSite(raw, places.store, found);
  places.errors.push(...found.map((one) => ({ ...one, pointer: `${pointer}${one.pointer ?? ""}` })));
  if (read === null) return null;
  const record = read.version === null || read.campground === null ? null : await places.store.get(read.campground.id);
  const place: TripCampground =
    record !== null
      ? places.stored(record)
      : {
          id: read.campground?.id ?? null,
          name: read.campground?.name ?? null,
          campground: read.campground,
          features: [read.feature, ...(read.around as readonly CampgroundFeature[])],
          around: read.around,
          version: null,
        };
  const { taken, free } = await places.offer(place, stop, pointer);
  const id = featureId(read.feature);
  if (id !== null && taken.has(id))
    places.fault(`${pointer}/site`, "conflict", "This site is taken on these dates.", "a site that is free");
  const siteName = String(read.feature.properties["name"] ?? id ?? `stop ${index + 1}`);
  const name = stop.name ?? (place.name === null ? siteName : `${siteName}, ${place.name}`);
  return { kind: "site", name, ...base, place, site: read.feature, others: free.filter((one) => one !== read.feature) };
}

/** Faults of the places of stops whose envelope cannot be read. */
async function placeFaults(places: Places, body: unknown, base: string): Promise<void> {
  const stops: unknown = (body as { readonly stops?: unknown } | null)?.stops;
  for (const [index, raw] of (Array.isArray(stops) ? stops : []).entries()) {
    if (typeof raw !== "object" || raw === null) continue;
    const stop = raw as Readonly<Record<string, unknown>>;
    const pointer = `${base}/stops/${index}`;
    const found: ProblemError[] = [];
    if (stop["site"] !== undefined) await readSite(stop, places.store, found);
    else if (typeof stop["campground"] === "string")
      await places.campground(stop["campground"], `${pointer}/campground`);
    places.errors.push(...found.map((one) => ({ ...one, pointer: `${pointer}${one.pointer ?? ""}` })));
  }
}

async function readStays(
  places: Places,
  body: unknown,
  stops: readonly StopRequest[],
  base: string,
): Promise<readonly Stay[]> {
  const raw = (body as { readonly stops: readonly Readonly<Record<string, unknown>>[] }).stops;
  const stays: Stay[] = [];
  for (const [index, stop] of stops.entries()) {
    const stay = await readStay(places, raw[index] ?? {}, stop, `${base}/stops/${index}`, index);
    if (stay !== null) stays.push(stay);
  }
  return stays;
}

function readTripRig(rig: unknown, pointer: string, errors: ProblemError[]): TripRig | null {
  const read = parseRig(rig);
  if (read.ok) return { profile: read.rig, warnings: read.warnings };
  errors.push(...read.errors.map((error) => inputProblem(error, pointer)));
  return null;
}

/** The rig completed without a place, for what does not depend on one. */
function sizesOf(rig: TripRig) {
  const completed: CompletedRig = completeRig(rig.profile);
  const { length, width, height, tanks } = completed;
  return { length: length.high, width: width.high, height: height.high, tanks };
}

/** Levels at departure, from litres to shares of the tanks. */
function carriedOf(rig: TripRig, { use, stores, start }: Pick<TripMembers, "use" | "stores" | "start">): Carried {
  const { tanks } = sizesOf(rig);
  const shares = Object.entries(start ?? {}).flatMap(([tank, litres]) => {
    const size = tanks[tank as keyof typeof tanks];
    return litres === undefined || !size ? [] : [[tank, litres / size] as const];
  });
  return { use, stores, ...(start === undefined ? {} : { start: Object.fromEntries(shares) }) };
}

const optionsOf = (options: Parameters<typeof completeOptions>[0]): FitOptions => completeOptions(options);

/** Reads the body of a trip. `takenSites` tells which sites are not free; null when nobody keeps stays. */
export async function readTripInput(
  body: unknown,
  store: CampgroundStore,
  takenSites: TakenSites | null,
): Promise<ReadRequest<TripInput>> {
  const parsed = parseTrip(body);
  const errors = parsed.errors.map((error) => inputProblem(error, ""));
  const raw = typeof body === "object" && body !== null ? (body as Readonly<Record<string, unknown>>) : {};
  const fleet: readonly unknown[] = Array.isArray(raw["fleet"]) ? raw["fleet"] : [];
  const at = fleet.findIndex((one) => (one as { id?: unknown } | null)?.id === raw["unit"]);
  const given = raw["rig"] !== undefined ? { rig: raw["rig"], pointer: "/rig" } : null;
  const chosen = given ?? (at < 0 ? null : { rig: (fleet[at] as { rig?: unknown }).rig, pointer: `/fleet/${at}/rig` });
  const rig = chosen === null ? null : readTripRig(chosen.rig, chosen.pointer, errors);
  const request = parsed.value;
  if (rig !== null && request !== null && chosen !== null) {
    const paths = { tanks: `${chosen.pointer}/tanks`, start: "/start" };
    errors.push(...tankRules(sizesOf(rig), paths, request.start).map((error) => inputProblem(error, "")));
  }
  const places = new Places(store, takenSites);
  if (request === null) {
    await placeFaults(places, body, "");
    return { input: null, errors: [...errors, ...places.errors] };
  }
  const stops = await readStays(places, body, request.stops, "");
  errors.push(...places.errors);
  if (rig === null || errors.length > 0) return { input: null, errors };
  const { party, stock, options, language } = request;
  const input: TripInput = {
    rig,
    stops,
    party,
    options: optionsOf(options),
    stock: stock ?? [],
    roseOf,
    carried: carriedOf(rig, request),
    language: language ?? "en",
  };
  return { input, errors: [] };
}

/** Reads the body of a desk. */
export async function readDeskInput(
  body: unknown,
  store: CampgroundStore,
  takenSites: TakenSites | null,
): Promise<ReadRequest<DeskInput>> {
  const parsed = parseDesk(body);
  const errors = parsed.errors.map((error) => inputProblem(error, ""));
  const request = parsed.value;
  const places = new Places(store, takenSites);
  if (request === null) {
    const trips = (body as { readonly trips?: unknown } | null)?.trips;
    for (const [index, trip] of (Array.isArray(trips) ? trips : []).entries())
      await placeFaults(places, trip, `/trips/${index}`);
    return { input: null, errors: [...errors, ...places.errors] };
  }
  const fleet = request.fleet.flatMap((unit, index): DeskUnit[] => {
    const pointer = `/fleet/${index}/rig`;
    const rig = readTripRig(unit.rig, pointer, errors);
    if (rig === null) return [];
    const found = tankRules(sizesOf(rig), { tanks: `${pointer}/tanks`, start: "" }, undefined);
    errors.push(...found.map((error) => inputProblem(error, "")));
    return [{ id: unit.id, name: unit.name ?? rig.profile.name ?? unit.id, rig }];
  });
  const trips: DeskTrip[] = [];
  const raw = (body as { readonly trips: readonly unknown[] }).trips;
  for (const [index, trip] of request.trips.entries()) {
    const stops = await readStays(places, raw[index], trip.stops, `/trips/${index}`);
    trips.push({ id: trip.id, name: trip.name ?? trip.id, stops, party: trip.party, unit: trip.unit ?? null });
  }
  errors.push(...places.errors);
  if (errors.length > 0) return { input: null, errors };
  const turnaroundDays = request.turnaroundDays ?? DEFAULT_TURNAROUND_DAYS;
  const options = optionsOf(request.options);
  return { input: { fleet, trips, stock: request.stock ?? [], turnaroundDays, options, roseOf }, errors: [] };
}

/** Sites that the stops of a request want fitted, each counted once. */
export function sitesAsked(stops: readonly Stay[]): number {
  const sites = stops.flatMap((stay) => {
    if (stay.kind === "off-grid") return [];
    return stay.kind === "site" ? [stay.site, ...stay.others] : stay.free;
  });
  return new Set(sites).size;
}

/** Pairs of a unit and a site that a desk wants fitted. */
export function deskPairs({ fleet, trips }: DeskInput): number {
  return fleet.length * sitesAsked(trips.flatMap((trip) => trip.stops));
}
