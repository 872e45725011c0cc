/** Feeders of an assignment: design load as built and, as advice, the planned nights. */
import type { AskedProblem } from "../../assign/assemble.ts";
import { EDITION_YEAR, type FeederLoad, feederLoads } from "../../assign/feeder.ts";
import { dateOfNight } from "../../assign/nights.ts";
import type { AssignmentProblem, Plan } from "../../assign/problem.ts";
import { supplyAmps } from "../../assign/score.ts";
import { largestAmps } from "../../assign/wish.ts";
import type { AssignmentRequest } from "../schemas/assignment.ts";

/** Nights told, at most. */
const MOST_NIGHTS = 60;

export function feedersToWire(
  feeders: NonNullable<AssignmentRequest["feeders"]>,
  asked: AskedProblem,
  problem: AssignmentProblem,
  plan: Plan,
  editionYear = EDITION_YEAR,
) {
  const stays = asked.stays.flatMap((stay, index) => {
    const placement = plan[index];
    if (!placement) return [];
    const { arrival, departure } = stay;
    return [{ site: problem.sites[placement.site]!.id, arrival, departure, amps: supplyAmps(stay.profile.rig) }];
  });
  const last = asked.stays.reduce((latest, { departure }) => Math.max(latest, departure), asked.firstNight);
  const loads = feederLoads(
    feeders.map(({ id, name, sites, voltAmperes }) => ({ id, name: name ?? id, sites, capacity: voltAmperes ?? null })),
    asked.sites.map(({ site }) => ({ id: site.id, amps: largestAmps(site) })),
    stays,
    { firstNight: asked.firstNight, until: Math.min(last, asked.firstNight + MOST_NIGHTS) },
    editionYear,
  );
  return loads.map(loadToWire);
}

function loadToWire(load: FeederLoad) {
  const nights = load.nights.map(({ night, ...rest }) => ({ night: dateOfNight(night), ...rest }));
  return {
    ...load,
    unknownSites: [...load.unknownSites],
    nights,
    warnings: nights.filter(({ exceeds }) => exceeds === true).map(({ night }) => night),
    notes: [...load.notes],
  };
}
