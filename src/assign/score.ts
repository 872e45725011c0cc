/**
 * Scores of rigs at sites by the real fit. Each rig is fitted once at each site that is different, and again only
 * where the receptacle or tap that it would use may be held by somebody else: then the next best way is sought without
 * it. What comes out is kept by content, so that a changed plan costs no fit.
 */
import type { Fit } from "../fit/answer.ts";
import type { FitOptions } from "../fit/options.ts";
import { deviceOf } from "../fit/power/devices.ts";
import type { CompletedRig } from "../rig/completed.ts";
import type { CompletedSite } from "../site/completed.ts";
import { outletId } from "./outlet.ts";
import type { RuleCode, ScoreTerm, SiteOption, Way } from "./problem.ts";
import { SCORE_WEIGHTS } from "./weights.ts";
import { largestAmps, meetsWord } from "./wish.ts";

/** What one kind of stay asks for: stays with equal profiles share their scores. */
export interface StayProfile {
  readonly rig: CompletedRig;
  readonly needs: FitOptions["needs"];
  readonly kitPolicy: FitOptions["kitPolicy"];
  /** True when only an accessible site will do. */
  readonly accessible: boolean;
  /** True when a site where it is tight will do. */
  readonly tight: boolean;
  readonly mustHave: readonly string[];
  readonly wishes: readonly string[];
}

/** A fit as far as the score needs it, and what it holds. */
export interface WayFit {
  readonly resources: readonly string[];
  readonly verdict: Fit["verdict"];
  readonly bestMargin: number | null;
  readonly wantedLines: number;
  readonly wantedServed: number;
  readonly toBring: boolean;
  /** Ids of deciding checks that fail, and of those that cannot be decided. */
  readonly failed: readonly string[];
  readonly unknown: readonly string[];
}

export interface ScoringSite {
  readonly site: CompletedSite;
  /** Changes when anything that the fit reads changes: of the record and of what stands around. */
  readonly content: string;
}

export interface Scoring {
  /** The fit of a rig at a site, in the form of a summary. */
  readonly fit: (rig: CompletedRig, site: CompletedSite, options: Partial<FitOptions>) => Fit;
  /** Kept fits, by rig, needs and site. */
  readonly memory: Map<string, readonly WayFit[]>;
  /** Ids of receptacles and taps that someone else may hold, or that are closed for some night. */
  readonly contended: ReadonlySet<string>;
  /** True when a site may be given whose fit cannot be decided; it then scores nothing for its verdict. */
  readonly unknownAllowed: boolean;
}

/** Ways looked for at one site, at most. */
const MOST_WAYS = 4;

/** A site as it is for someone to whom `excluded` is not open; what is assigned is nobody else's, so it is not shared. */
function without(site: CompletedSite, excluded: ReadonlySet<string>): CompletedSite {
  const hookups = site.hookups.flatMap((hookup) => {
    if (hookup.service !== "power") return excluded.has(outletId(site.id, hookup, null)) ? [] : [hookup];
    const receptacles = hookup.receptacles.map((one) => ({
      ...one,
      state: excluded.has(outletId(site.id, hookup, one)) ? ("taken" as const) : one.state,
      forSites: one.forSites === null || one.forSites.includes(site.id) ? [site.id] : one.forSites,
    }));
    return [{ ...hookup, receptacles, shared: false }];
  });
  return { ...site, hookups };
}

/** Contended receptacles and taps that a fit uses. */
function usedBy(fit: Fit, site: CompletedSite, contended: ReadonlySet<string>): string[] {
  const used: string[] = [];
  for (const hookup of site.hookups) {
    if (hookup.service === "power") {
      const one = hookup.receptacles.find(({ id }) => hookup.id === fit.power.hookup && id === fit.power.receptacle);
      if (one !== undefined) used.push(outletId(site.id, hookup, one));
      continue;
    }
    const serves = fit.lines.some((line) => line.hookup === hookup.id && line.verdict !== "short");
    if (serves && (hookup.service === "water" || hookup.service === "fill")) used.push(outletId(site.id, hookup, null));
  }
  return used.filter((id) => contended.has(id));
}

function summarise(fit: Fit, resources: readonly string[]): WayFit {
  const wanted = fit.lines.filter((line) => line.need === "wanted" && line.verdict !== "not needed");
  const deciding = fit.checks.filter((check) => check.deciding);
  return {
    resources,
    verdict: fit.verdict,
    bestMargin: fit.bestMargin,
    wantedLines: wanted.length,
    wantedServed: wanted.filter((line) => line.verdict === "reaches").length,
    toBring: fit.kit.some((item) => item.where === "to bring"),
    failed: deciding.filter((check) => check.status === "fail").map((check) => check.id),
    unknown: deciding.filter((check) => check.status === "unknown").map((check) => check.id),
  };
}

/** The ways of a rig at a site: all open, then without what the first way holds, and so on. */
function fitWays(profile: StayProfile, { site }: ScoringSite, scoring: Scoring): readonly WayFit[] {
  const ways: WayFit[] = [];
  const waiting: ReadonlySet<string>[] = [new Set()];
  const tried = new Set<string>();
  while (waiting.length > 0 && tried.size < MOST_WAYS) {
    const excluded = waiting.shift()!;
    const key = [...excluded].sort().join(" ");
    if (tried.has(key)) continue;
    tried.add(key);
    const open = without(site, excluded);
    const fit = scoring.fit(profile.rig, open, { needs: profile.needs, kitPolicy: profile.kitPolicy });
    const used = usedBy(fit, open, scoring.contended);
    ways.push(summarise(fit, used));
    for (const id of used) waiting.push(new Set([...excluded, id]));
  }
  return ways;
}

function rulesOf(way: WayFit, profile: StayProfile, scoring: Scoring): RuleCode[] {
  if (way.verdict === "does not fit") return way.failed.map((id): RuleCode => `fit:${id}`);
  if (way.verdict === "unknown" && !scoring.unknownAllowed) return way.unknown.map((id): RuleCode => `unknown:${id}`);
  return way.verdict === "tight" && !profile.tight ? ["tight"] : [];
}

/** Rules of the stay itself, whatever the fit says. */
function stayRules(profile: StayProfile, site: CompletedSite): RuleCode[] {
  const rules: RuleCode[] = [];
  if (profile.accessible && site.accessible !== "yes") rules.push("needs-accessible");
  if (profile.mustHave.some((word) => meetsWord(site, word) !== "yes")) rules.push("must-have");
  return rules;
}

/** Amperes of the rig's own supply; null when its plug is not known. */
export function supplyAmps(rig: CompletedRig): number | null {
  const plugs = rig.connections.filter(({ service }) => service === "power");
  const amps = plugs.flatMap(({ plug }) => (plug === null ? [] : [deviceOf(plug)?.amps ?? 0])).filter((one) => one > 0);
  return amps.length === 0 ? null : Math.max(...amps);
}

/** Points of keeping what is scarce for those who need it. */
function scarcity(profile: StayProfile, site: CompletedSite): ScoreTerm[] {
  const { rig } = profile;
  const terms: ScoreTerm[] = [];
  const add = (term: ScoreTerm["term"], points: number, value: ScoreTerm["value"]) =>
    terms.push({ term, points, value });
  const table = SCORE_WEIGHTS;
  const own = supplyAmps(rig) ?? 0;
  const power = table["scarce-power"];
  if ((largestAmps(site) ?? 0) >= power.amps && own < power.amps) add("scarce-power", power.points, own);
  const wantsThrough = [...profile.mustHave, ...profile.wishes].includes("pull-through");
  if (site.layout === "pull-through" && !wantsThrough) {
    add("scarce-pull-through", table["scarce-pull-through"].points, null);
  }
  const long = table["scarce-length"];
  if ((site.pad.length?.value ?? 0) >= long.padMetres && rig.length.value <= long.rigMetres) {
    add("scarce-length", long.points, rig.length.value);
  }
  if (site.accessible === "yes" && !profile.accessible) {
    add("scarce-accessible", table["scarce-accessible"].points, null);
  }
  return terms;
}

/** The score of one way, term by term. Points are whole, so that the value of a plan is. */
function termsOf(way: WayFit, profile: StayProfile, site: CompletedSite): ScoreTerm[] {
  const table = SCORE_WEIGHTS;
  const points = table.verdict.points as Readonly<Record<string, number>>;
  const terms: ScoreTerm[] = [{ term: "verdict", points: points[way.verdict] ?? 0, value: way.verdict }];
  const add = (term: ScoreTerm["term"], share: number, most: number, value: ScoreTerm["value"]) =>
    terms.push({ term, points: Math.round(share * most), value });
  if (way.bestMargin !== null) {
    const share = Math.min(Math.max(way.bestMargin / table.margin.full.metres, 0), 1);
    add("margin", share, table.margin.points, way.bestMargin);
  }
  if (way.wantedLines > 0) {
    add("wanted-line", way.wantedServed / way.wantedLines, table["wanted-line"].points, way.wantedServed);
  }
  if (profile.wishes.length > 0) {
    const met = profile.wishes.filter((word) => meetsWord(site, word) === "yes");
    add("wish", met.length / profile.wishes.length, table.wish.points, met.join(", "));
  }
  if (way.toBring) terms.push({ term: "kit-to-bring", points: table["kit-to-bring"].points, value: null });
  return [...terms, ...scarcity(profile, site)];
}

/** One profile at one site: its ways with scores, best first, or why there are none. */
export function scoreSite(
  profile: StayProfile,
  rigContent: string,
  site: ScoringSite,
  scoring: Scoring,
  resourceIndex: ReadonlyMap<string, number>,
): SiteOption {
  const contended = [...scoring.contended].filter((id) => siteOutlets(site.site).includes(id));
  const key = [rigContent, JSON.stringify([profile.needs, profile.kitPolicy]), site.content, ...contended].join("\n");
  let fits = scoring.memory.get(key);
  if (fits === undefined) {
    fits = fitWays(profile, site, scoring);
    scoring.memory.set(key, fits);
  }
  const own = stayRules(profile, site.site);
  const judged = fits.map((way) => ({ way, rules: [...own, ...rulesOf(way, profile, scoring)] }));
  const ways = judged
    .filter(({ rules }) => rules.length === 0)
    .map(({ way }): Way => {
      const terms = termsOf(way, profile, site.site);
      const resources = way.resources.map((id) => resourceIndex.get(id)!).sort((one, other) => one - other);
      return { resources, terms, score: terms.reduce((sum, { points }) => sum + points, 0) };
    })
    .sort((one, other) => other.score - one.score);
  return { ways, rules: ways.length > 0 ? [] : [...new Set(judged[0]?.rules ?? [])] };
}

/** Ids of every receptacle and tap of a site that it may use. */
export function siteOutlets(site: CompletedSite): string[] {
  return site.hookups.flatMap((hookup) => {
    if (hookup.service === "power") {
      return hookup.receptacles
        .filter((one) => one.forSites === null || one.forSites.includes(site.id))
        .map((one) => outletId(site.id, hookup, one));
    }
    return hookup.service === "water" || hookup.service === "fill" ? [outletId(site.id, hookup, null)] : [];
  });
}
