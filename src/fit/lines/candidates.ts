/**
 * Which lines could be laid at all: for every service the connections of the rig, the hookups of the site and what is
 * carried to join them, cheapest first.
 */
import kitData from "../../../data/kit.json" with { type: "json" };
import type { CompletedConnection, CompletedRig, KitItem, Service } from "../../rig/completed.ts";
import type { CompletedHookup, CompletedSite } from "../../site/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { KitEntry, Need } from "../answer.ts";
import type { FitOptions } from "../options.ts";
import type { PowerCandidate, PowerSolution } from "../power/problem.ts";
import { solvePower } from "../power/solve.ts";
import type { LineChoice } from "./choice.ts";

/** Share of a drain hose's label that lies stretched along the ground; assumed, as for the rig's own hose. */
export const WORKING_SHARE = 0.9;

/** A line choice with what it costs to make it. */
export interface Candidate {
  readonly choice: LineChoice;
  readonly kit: readonly KitEntry[];
  readonly power: PowerCandidate | null;
  /** Order of preference within its service; 0 is best. */
  readonly rank: number;
}

export interface ServiceCandidates {
  readonly service: Service;
  readonly need: Need;
  readonly candidates: readonly Candidate[];
  /** Why there is none, or why nobody can tell; null when there are candidates. */
  readonly missing: {
    readonly kind: "absent" | "unknown" | "not needed" | "refused";
    readonly why: string;
    readonly measure?: string;
    readonly path?: string;
  } | null;
  readonly power: PowerSolution | null;
}

export const SERVICES: readonly Service[] = ["power", "water", "sewer", "cable", "fill"];

/** Heights of devices whose record has none, metres: common practice, no source. */
const USUAL_HEIGHTS: Readonly<Record<Service, readonly [number, number]>> = {
  power: [0.5, 1.2],
  water: [0.1, 0.9],
  fill: [0.1, 0.9],
  cable: [0.3, 1.2],
  sewer: [0, 0.15],
};

export function usualHeight(service: Service, path: string): Estimate {
  const [low, high] = USUAL_HEIGHTS[service];
  return {
    value: (low + high) / 2,
    low,
    high,
    sigma: 0,
    sigmaShared: 0,
    basis: "assumed",
    path: `${path}/height`,
    source: "common practice, no source",
  };
}

/** Need of a service by the options, else by the published default. */
export function needOf(service: Service, rig: CompletedRig, site: CompletedSite, options: FitOptions): Need {
  const asked = options.needs[service];
  if (asked !== undefined) return asked;
  const hasCord = rig.connections.some((connection) => connection.service === "power");
  const sitePower = site.services.power === "yes" || site.hookups.some((hookup) => hookup.service === "power");
  return service === "power" && hasCord && sitePower ? "required" : "wanted";
}

/** Hookups that can serve: a fill line also takes water from the water tap. */
function hookupsFor(service: Service, site: CompletedSite): CompletedHookup[] {
  return site.hookups.filter(
    (hookup) => hookup.service === service || (service === "fill" && hookup.service === "water"),
  );
}

interface Joint {
  readonly own: Estimate | null;
  readonly added: number;
  readonly kit: readonly KitEntry[];
}

const HOSE_ITEMS: Partial<Record<Service, keyof typeof kitData.items>> = {
  water: "drinking-hose",
  fill: "drinking-hose",
  sewer: "sewer-hose",
  cable: "cable",
};

function entryOf(item: KitItem, service: Service): KitEntry {
  const words = kitData.items[item.item as keyof typeof kitData.items];
  return {
    item: item.item,
    description: words?.title ?? item.item,
    for: service,
    where: item.where === "aboard" ? "aboard" : "to bring",
    why: "It lengthens the line.",
    withoutIt: words?.without ?? "The line is shorter.",
  };
}

/** The rig's own line alone, then with one more hose of the kit, then with all of them. */
function joints(service: Service, connection: CompletedConnection, rig: CompletedRig, options: FitOptions): Joint[] {
  const own = connection.line?.workingLength ?? null;
  const word = HOSE_ITEMS[service];
  const share = service === "sewer" ? WORKING_SHARE : 1;
  const hoses = rig.kit.filter(
    (item) => item.item === word && item.addsLength > 0 && (options.kitPolicy === "any" || item.where === "aboard"),
  );
  const alone: Joint[] = own === null ? [] : [{ own, added: 0, kit: [] }];
  const single = hoses.map((item) => ({ own, added: share * item.addsLength, kit: [entryOf(item, service)] }));
  single.sort((a, b) => a.added - b.added);
  const all = {
    own,
    added: share * hoses.reduce((sum, item) => sum + item.addsLength, 0),
    kit: hoses.map((item) => entryOf(item, service)),
  };
  return [...alone, ...single, ...(hoses.length > 1 ? [all] : [])];
}

interface Join {
  readonly service: Service;
  readonly need: Need;
  readonly connection: CompletedConnection;
  readonly hookup: CompletedHookup;
  readonly options: FitOptions;
}

function choiceOf(
  { service, need, connection, hookup, options }: Join,
  own: Estimate | null,
  added: number,
): LineChoice {
  const drain = service === "sewer";
  return {
    service,
    need,
    connection,
    hookup,
    own,
    added,
    fittings: connection.line?.fittings ?? 0,
    allowance: options.allowance[service],
    inletHeight: connection.height,
    hookupHeight: hookup.height ?? (drain ? null : usualHeight(service, hookup.path)),
    along: hookup.along!,
    left: hookup.left!,
  };
}

function hoseCandidates(
  service: Service,
  need: Need,
  rig: CompletedRig,
  site: CompletedSite,
  options: FitOptions,
): Candidate[] {
  const connections = rig.connections.filter((connection) => connection.service === service);
  const hookups = hookupsFor(service, site).filter((hookup) => hookup.along !== null && hookup.left !== null);
  const found = connections.flatMap((connection) =>
    joints(service, connection, rig, options).flatMap((joint, tier) =>
      hookups.map((hookup) => ({
        choice: choiceOf({ service, need, connection, hookup, options }, joint.own, joint.added),
        kit: joint.kit,
        power: null,
        tier,
      })),
    ),
  );
  found.sort((a, b) => a.tier - b.tier);
  return found.map(({ tier: _, ...candidate }, rank) => ({ ...candidate, rank }));
}

/** All receptacles of the site with their hookups. */
function offered(site: CompletedSite) {
  return site.hookups.flatMap((hookup) =>
    hookup.receptacles.map((receptacle) => ({ hookup: hookup.id, shared: hookup.shared, receptacle })),
  );
}

/** Matings of one power connection with every receptacle; `extraLength` asks for an extension. */
export function powerSolution(
  connection: CompletedConnection,
  rig: CompletedRig,
  site: CompletedSite,
  options: FitOptions,
  extraLength = 0,
): PowerSolution {
  return solvePower({
    plug: connection.plug,
    cord: connection.line,
    kit: rig.kit,
    appliances: rig.appliances,
    receptacles: offered(site),
    siteId: site.id,
    electricalSystem: site.electricalSystem,
    rules: { largerBreaker: site.rules.largerBreaker },
    policy: options.policy,
    kitPolicy: options.kitPolicy,
    units: options.units,
    connectionPath: connection.path,
    ...(extraLength > 0 ? { extraLength } : {}),
  });
}

function powerKit(candidate: PowerCandidate): KitEntry[] {
  return candidate.items.map((item) => ({
    item: item.item,
    description: item.description,
    for: "power",
    where: item.where === "aboard" ? "aboard" : "to bring",
    why: candidate.why,
    withoutIt: item.withoutIt,
  }));
}

/** An extension that nobody has yet is a fix, not part of the fit; an adapter from the catalogue is kit to bring. */
function ownsExtension(candidate: PowerCandidate): boolean {
  return candidate.items.every((item) => item.item !== "extension" || item.where !== "to bring");
}

/** Longest extension to ask the kit for, metres: longer than any that is sold. */
const ANY_EXTENSION = 0.01;

function powerCandidates(
  need: Need,
  connection: CompletedConnection,
  rig: CompletedRig,
  site: CompletedSite,
  options: FitOptions,
): { list: Candidate[]; solution: PowerSolution } {
  const solution = powerSolution(connection, rig, site, options);
  const hasExtension = rig.kit.some((item) => item.item === "extension");
  const longer = hasExtension ? powerSolution(connection, rig, site, options, ANY_EXTENSION).candidates : [];
  const usable = [...solution.candidates, ...longer.filter(ownsExtension)].filter((candidate) => candidate.usable);
  const list: Candidate[] = [];
  const seen = new Set<string>();
  for (const power of usable) {
    const hookup = site.hookups.find((one) => one.id === power.hookup);
    if (hookup === undefined || hookup.along === null || hookup.left === null) continue;
    // Receptacles of one pedestal with chains of one length lie alike: only the preferred one is tried.
    const key = `${power.hookup} ${power.addedLength}`;
    if (seen.has(key)) continue;
    seen.add(key);
    if (connection.line === null && power.addedLength === 0) continue;
    const own = connection.line?.workingLength ?? null;
    const choice = choiceOf({ service: "power", need, connection, hookup, options }, own, power.addedLength);
    list.push({ choice, kit: powerKit(power), power, rank: list.length });
  }
  return { list, solution };
}

type Missing = NonNullable<ServiceCandidates["missing"]>;

function whyMissing(service: Service, rig: CompletedRig, site: CompletedSite, power: PowerSolution | null): Missing {
  const connections = rig.connections.filter((connection) => connection.service === service);
  const hookups = hookupsFor(service, site);
  if (connections.length === 0) return { kind: "not needed", why: `The rig has no ${service} connection.` };
  const said = site.services[service];
  if (hookups.length === 0 && said === "no") return { kind: "absent", why: `The site has no ${service}.` };
  if (hookups.length === 0 && said === "unknown") {
    return {
      kind: "unknown",
      why: `The record does not say whether the site has ${service}.`,
      measure: `Ask whether the site has ${service}`,
      path: `/site/properties/services/${service}`,
    };
  }
  if (hookups.length === 0) {
    return {
      kind: "unknown",
      why: `The site has ${service}, but its place is not on record.`,
      measure: `Measure where the ${service} hookup stands`,
      path: "/site/properties/hookups",
    };
  }
  if (service === "power" && power !== null && power.best === null) {
    const first = power.candidates[0];
    if (first === undefined) {
      return {
        kind: "unknown",
        why: "The record names no receptacle.",
        measure: "Look which receptacles the pedestal has",
        path: `${hookups[0]!.path}/receptacles`,
      };
    }
    return first.mating === "unknown"
      ? {
          kind: "unknown",
          why: first.why,
          measure: first.unknowns[0]?.measure ?? "Look at the receptacle",
          path: first.unknowns[0]?.path ?? hookups[0]!.path,
        }
      : { kind: "refused", why: first.why };
  }
  if (hookups.every((hookup) => hookup.along === null || hookup.left === null)) {
    return {
      kind: "unknown",
      why: `Nobody has recorded where the ${service} hookup stands.`,
      measure: `Measure where the ${service} hookup stands: from the pad's rear edge and sideways from its middle`,
      path: `${hookups[0]!.path}/at`,
    };
  }
  return {
    kind: "absent",
    why:
      service === "power"
        ? "The rig carries no cord."
        : `The rig carries no ${service === "sewer" ? "drain hose" : "hose or cable"} for this.`,
  };
}

/** Candidates of one service. */
export function serviceCandidates(
  service: Service,
  rig: CompletedRig,
  site: CompletedSite,
  options: FitOptions,
): ServiceCandidates {
  const need = needOf(service, rig, site, options);
  if (need === "ignored") {
    return { service, need, candidates: [], missing: { kind: "not needed", why: "Not asked for." }, power: null };
  }
  if (service !== "power") {
    const candidates = hoseCandidates(service, need, rig, site, options);
    return {
      service,
      need,
      candidates,
      missing: candidates.length > 0 ? null : whyMissing(service, rig, site, null),
      power: null,
    };
  }
  const connection = rig.connections.find((one) => one.service === "power");
  if (connection === undefined) {
    return { service, need, candidates: [], missing: whyMissing(service, rig, site, null), power: null };
  }
  const { list, solution } = powerCandidates(need, connection, rig, site, options);
  return {
    service,
    need,
    candidates: list,
    missing: list.length > 0 ? null : whyMissing(service, rig, site, solution),
    power: solution,
  };
}
