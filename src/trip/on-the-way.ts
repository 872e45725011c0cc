/** What a trip carries from stop to stop, and the card of each stop that tells it. */
import type { Fit } from "../fit/answer.ts";
import { hookupsOfFit } from "../fit/stay/connections.ts";
import type { Store, SupplyHookups, UseGiven } from "../fit/stay/types.ts";
import type { CompletedRig } from "../rig/completed.ts";
import { type CampgroundFeature, featureId } from "../site/feature.ts";
import type { Card, CardSupply, Language } from "./card/card.ts";
import { hookupCard } from "./card/hookup-card.ts";
import { catalogueOf } from "./card/languages.ts";
import type { Fitter } from "./fitter.ts";
import { kitAt } from "./kit/pack.ts";
import type { Thing } from "./kit/things.ts";
import type { Stay, TripCampground } from "./place.ts";
import type { Party } from "./request.ts";
import { whatMayRun } from "./running/plan.ts";
import type { RunningPlan } from "./running/types.ts";
import { planSupplies } from "./supplies/plan.ts";
import { solveStations } from "./supplies/stations.ts";
import type { StartGiven, StationVisit, StopSupplies, StoresGiven, SuppliesPlan } from "./supplies/types.ts";

/** What is used and what is carried at departure; all of it may be left out. */
export interface Carried {
  readonly use?: UseGiven | undefined;
  readonly stores?: StoresGiven | undefined;
  readonly start?: StartGiven | undefined;
}

/** A stop with the answer at its site; null off the grid and without a free site. */
export interface Visited {
  readonly stay: Stay;
  readonly fit: Fit | null;
}

export const peopleOf = (party: Party): number => party.adults + (party.children ?? 0);

function stationsOf(fitter: Fitter) {
  const known = new Map<TripCampground, readonly StationVisit[]>();
  return (stay: Stay): readonly StationVisit[] => {
    if (stay.kind === "off-grid") return [];
    const { place } = stay;
    const { kitPolicy, units } = fitter.options;
    const { campground, features } = place;
    const rig = fitter.rigAt(place);
    const solved = known.get(place) ?? solveStations({ rig, campground, features, kitPolicy, units });
    known.set(place, solved);
    return solved;
  };
}

/** The tanks and the energy through all stops. */
export function suppliesOf(fitter: Fitter, visited: readonly Visited[], party: Party, carried: Carried): SuppliesPlan {
  const stations = stationsOf(fitter);
  const { use, stores, start } = carried;
  return planSupplies({
    rig: fitter.rigAt(null),
    people: peopleOf(party),
    stops: visited.map(({ stay, fit }, index) => ({
      id: `stop-${index + 1}`,
      name: stay.name,
      nights: stay.nights,
      hookups: hookupsOfFit(fit),
      stations: stations(stay),
      temperature: stay.temperature,
    })),
    ...(use === undefined ? {} : { use }),
    ...(stores === undefined ? {} : { stores }),
    ...(start === undefined ? {} : { start }),
    units: fitter.options.units,
  });
}

interface Told {
  readonly store: Store;
  readonly what: CardSupply["what"];
  /** The connection that makes the days not count; null when none does. */
  readonly servedBy: "water" | "sewer" | "power" | null;
}

const TOLD: readonly Told[] = [
  { store: "fresh", what: "fresh", servedBy: "water" },
  { store: "grey", what: "grey", servedBy: "sewer" },
  { store: "black", what: "black", servedBy: "sewer" },
  { store: "battery", what: "battery", servedBy: "power" },
  { store: "propane", what: "propane", servedBy: null },
  { store: "generatorFuel", what: "fuel", servedBy: "power" },
];

/** Days of what no connection of the stop renews: the fewest and the most. */
function cardSupplies(supplies: StopSupplies, hookups: SupplyHookups): CardSupply[] {
  return TOLD.flatMap(({ store, what, servedBy }): CardSupply[] => {
    const { low, high } = supplies.remaining[store].days;
    if (low === null || (servedBy !== null && hookups[servedBy] === "yes")) return [];
    return [{ what, daysLow: low, daysHigh: high }];
  });
}

/** The card of a stop; null where there is no site to hook up at. */
export function cardOf(
  fitter: Fitter,
  visited: readonly Visited[],
  index: number,
  supplies: SuppliesPlan,
  party: Party,
  chosen: readonly Thing[],
  language: Language,
): Card | null {
  const { stay, fit } = visited[index] ?? {};
  const stop = supplies.stops[index];
  if (stay === undefined || fit == null || stay.kind === "off-grid" || stop === undefined) return null;
  const { place } = stay;
  const rig: CompletedRig = { ...fitter.rigAt(place), kit: kitAt(fitter, place, index, chosen) };
  const after = visited[index + 1];
  return hookupCard(
    {
      fit,
      rig,
      campground: place.name,
      trip: {
        party: peopleOf(party),
        nights: stay.nights,
        next: after === undefined ? null : { name: after.stay.name, services: servicesOf(hookupsOfFit(after.fit)) },
        supplies: cardSupplies(stop, hookupsOfFit(fit)),
      },
    },
    catalogueOf(language),
  );
}

/** Only what is known: an unknown connection is neither there nor lacking. */
function servicesOf(hookups: SupplyHookups) {
  const known = (["power", "water", "sewer"] as const).filter((service) => hookups[service] !== "unknown");
  return Object.fromEntries(known.map((service) => [service, hookups[service] === "yes"]));
}

/** What may run at a stop: from the site's supply, and from the rig's own generator. */
export function runningAt(fitter: Fitter, { stay, fit }: Visited): RunningPlan {
  const place = stay.kind === "off-grid" ? null : stay.place;
  const feature = stay.kind === "off-grid" || fit === null ? null : siteOfFit(stay, fit);
  const site = place === null || feature === null ? null : fitter.book.site(place, feature);
  return whatMayRun({ rig: fitter.rigAt(place), fit, site, units: fitter.options.units });
}

function siteOfFit(stay: Exclude<Stay, { readonly kind: "off-grid" }>, fit: Fit): CampgroundFeature | null {
  if (stay.kind === "site") return stay.site;
  return stay.free.find((one) => featureId(one) === fit.site.id) ?? null;
}
