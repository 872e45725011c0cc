/**
 * What a row of sites asks of the feeder that supplies them: the design load of the sites as built (NEC 551.73), and,
 * as advice only, what tonight's rigs may draw. A licensed electrician decides what a feeder may carry.
 */
import { demandFactor, demandOf, type SiteGroup, siteVoltAmperes } from "../fit/power/demand.ts";

export interface Feeder {
  readonly id: string;
  readonly name: string;
  /** Ids of the sites that it supplies. */
  readonly sites: readonly string[];
  /** Volt-amperes that it may carry, as the host gives them; null when nobody said. */
  readonly capacity: number | null;
}

export interface FeederSite {
  readonly id: string;
  /** Highest-rated receptacle, amperes; null when the record does not say. */
  readonly amps: number | null;
}

export interface FeederStay {
  readonly site: string;
  readonly arrival: number;
  readonly departure: number;
  /** The rig's own supply, amperes; null when its plug is not known. */
  readonly amps: number | null;
}

export interface FeederLoad {
  readonly feeder: string;
  readonly name: string;
  readonly capacity: number | null;
  /** Sites with a receptacle on record; the design load counts these. */
  readonly sites: number;
  readonly connected: number;
  readonly factor: number | null;
  /** Connected load times the factor of the table, volt-amperes. */
  readonly design: number;
  /** The largest of the same figure over the k highest-rated sites alone: adding a small site may lower the plain one. */
  readonly prudent: number;
  /** Sites of the feeder whose receptacles are not on record: the figures are too low by them. */
  readonly unknownSites: readonly string[];
  readonly designExceeds: boolean | null;
  readonly nights: readonly FeederNight[];
  readonly editionYear: number;
  readonly notes: readonly string[];
}

/** One planned night; advice, no design figure. */
export interface FeederNight {
  readonly night: number;
  readonly occupied: number;
  readonly unknownRigs: number;
  readonly voltAmperes: number;
  /** Null when the feeder's capacity is not known. */
  readonly exceeds: boolean | null;
}

/** The edition that gives a 50 A site 12,000 VA. */
export const EDITION_YEAR = 2017;

export const FEEDER_NOTES: readonly string[] = [
  "Design load by NEC 551.73: each site by its highest-rated receptacle, times the factor for the number of sites. The factors may be too low where it is very hot or cold; other loads are added separately.",
  "Figures of a night are advice: what the rigs of that night may draw, with the factor for their number. They are no design load.",
  "A licensed electrician decides what a feeder may carry and what local codes ask for.",
];

const EMPTY: readonly SiteGroup[] = [];

function groups(amps: readonly number[], editionYear: number): SiteGroup[] {
  return amps.flatMap((each) => {
    const voltAmperes = siteVoltAmperes(each, editionYear) ?? smallSupply(each);
    return [{ sites: 1, voltAmperes }];
  });
}

const NOMINAL_VOLTS = 120;
/** Below the least row of the table the supply itself is the most that it can give. */
const smallSupply = (amps: number): number => amps * NOMINAL_VOLTS;

const demand = (of: readonly SiteGroup[]) => (of.length === 0 ? null : demandOf(of));

/** Load of each feeder as built, and night by night as planned from `firstNight` up to, and without, `until`. */
export function feederLoads(
  feeders: readonly Feeder[],
  sites: readonly FeederSite[],
  stays: readonly FeederStay[],
  span: { readonly firstNight: number; readonly until: number },
  editionYear = EDITION_YEAR,
): FeederLoad[] {
  const amps = new Map(sites.map((site) => [site.id, site.amps]));
  return feeders.map((feeder) => {
    const known = feeder.sites.flatMap((id) => amps.get(id) ?? []);
    const built = demand(known.length === 0 ? EMPTY : groups(known, editionYear));
    const own = new Set(feeder.sites);
    const here = stays.filter(({ site }) => own.has(site));
    const nights: FeederNight[] = [];
    for (let night = span.firstNight; night < span.until; night++) {
      const there = here.filter(({ arrival, departure }) => arrival <= night && night < departure);
      nights.push(nightOf(night, there, feeder.capacity, editionYear));
    }
    const prudent = built?.prudentVoltAmperes ?? 0;
    return {
      feeder: feeder.id,
      name: feeder.name,
      capacity: feeder.capacity,
      sites: known.length,
      connected: built?.connectedVoltAmperes ?? 0,
      factor: known.length === 0 ? null : demandFactor(known.length),
      design: built?.voltAmperes ?? 0,
      prudent,
      unknownSites: feeder.sites.filter((id) => (amps.get(id) ?? null) === null),
      designExceeds: feeder.capacity === null ? null : prudent > feeder.capacity,
      nights,
      editionYear,
      notes: FEEDER_NOTES,
    };
  });
}

function nightOf(
  night: number,
  there: readonly FeederStay[],
  capacity: number | null,
  editionYear: number,
): FeederNight {
  const known = there.flatMap(({ amps }) => amps ?? []);
  const voltAmperes = demand(groups(known, editionYear))?.prudentVoltAmperes ?? 0;
  const unknownRigs = there.length - known.length;
  return {
    night,
    occupied: there.length,
    unknownRigs,
    voltAmperes,
    // A night with rigs of unknown supply may be above its figure: below the limit nothing is said then.
    exceeds: capacity === null ? null : voltAmperes > capacity ? true : unknownRigs > 0 ? null : false,
  };
}
