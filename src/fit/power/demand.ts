/**
 * What a row of sites asks of the supply that feeds them: NEC 551.73 by number of sites, and the Canadian rule by
 * receptacle. Table, editions and sources: data/demand-factors.json.
 */
import table from "../../../data/demand-factors.json" with { type: "json" };

/** Demand factor of NEC table 551.73(A) for a number of sites (1 or more); rows as marked in the table. */
export function demandFactor(sites: number): number {
  const row = table.nec.rows.find((each) => sites >= each.from && (each.to === null || sites <= each.to));
  if (!row) throw new RangeError(`A demand factor needs one site or more, not ${sites}.`);
  return row.factor;
}

/**
 * Volt-amperes of one site by its highest-rated receptacle alone, for an NEC edition (year). Null when the amperes are
 * below the least row. Source: NEC 551.73(A).
 */
export function siteVoltAmperes(amps: number, editionYear: number): number | null {
  const editions = table.siteVoltAmperes.editions.filter((edition) => edition.sinceYear <= editionYear);
  const rows = editions.at(-1)?.rows ?? [];
  return rows.find((row) => amps >= row.amps)?.voltAmperes ?? null;
}

export interface SiteGroup {
  readonly sites: number;
  readonly voltAmperes: number;
}

export interface Demand {
  readonly sites: number;
  readonly connectedVoltAmperes: number;
  readonly factor: number;
  /** Connected x factor, as the code's example computes it. */
  readonly voltAmperes: number;
  /**
   * The largest demand of the k highest sites taken alone, over all k. Adding a small site lowers the factor for every
   * site, so that the plain product can fall below what the large sites alone ask for.
   */
  readonly prudentVoltAmperes: number;
}

/** Demand of groups of sites by NEC 551.73. */
export function demandOf(groups: readonly SiteGroup[]): Demand {
  const sites = groups.reduce((sum, group) => sum + group.sites, 0);
  const connected = groups.reduce((sum, group) => sum + group.sites * group.voltAmperes, 0);
  const factor = demandFactor(sites);
  const highestFirst = groups
    .flatMap((group) => Array.from({ length: group.sites }, () => group.voltAmperes))
    .sort((one, other) => other - one);
  let running = 0;
  let prudent = 0;
  for (const [index, voltAmperes] of highestFirst.entries()) {
    running += voltAmperes;
    prudent = Math.max(prudent, running * demandFactor(index + 1));
  }
  return {
    sites,
    connectedVoltAmperes: connected,
    factor,
    voltAmperes: connected * factor,
    prudentVoltAmperes: prudent,
  };
}

/**
 * Watts of one lot by the Canadian Electrical Code 2021 rule 72-102: the sum over its receptacles. Null when one of
 * them is not in the rule's list.
 */
export function canadianLotWatts(receptacles: readonly string[]): number | null {
  let watts = 0;
  for (const receptacle of receptacles) {
    const row = table.canada.rows.find((each) => each.receptacle === receptacle);
    if (!row) return null;
    watts += row.watts;
  }
  return watts;
}

/**
 * Canadian Electrical Code 2018: the highest-rated receptacles first, each step of the table at its share. `watts`
 * holds one entry per receptacle; a multi-wire receptacle counts as two and is entered as two halves.
 */
export function canadianDemand2018(watts: readonly number[]): number {
  const highestFirst = [...watts].sort((one, other) => other - one);
  let taken = 0;
  let demand = 0;
  for (const step of table.canada.steps2018.rows) {
    const until = step.receptacles === null ? highestFirst.length : taken + step.receptacles;
    demand += step.factor * highestFirst.slice(taken, until).reduce((sum, each) => sum + each, 0);
    taken = until;
  }
  return demand;
}
