/** Fits one rig at every candidate, filters by the answer, sorts, and gives the rows of the search. */
import type { Fit } from "../../fit/answer.ts";
import { completeOptions, type FitOptions } from "../../fit/options.ts";
import { compareFits } from "../../fit/search.ts";
import { featureId } from "../../site/feature.ts";
import { digestOf } from "../cursor.ts";
import { fitReady, readyCase } from "../fit-case.ts";
import type { ReadRig } from "../rig-input.ts";
import type { Call } from "../route.ts";
import type { SearchRequest } from "../schemas/search.ts";
import type { FitSummary, SearchAnswer, SearchFeature } from "../schemas/search-answer.ts";
import { storedRead } from "../site-input.ts";
import { exposureToWire } from "../wind-wire.ts";
import { type Candidate, type Candidates, findCandidates, tooManySites } from "./candidates.ts";
import { asksForWind, type Sheltered, type SiteInWind, siteInWind } from "./exposure.ts";
import { isRuledOut, lookAtAll, lookOrder } from "./look-sites.ts";

export interface SearchResult {
  readonly features: SearchFeature[];
  readonly notShown: SearchAnswer["notShown"];
  /** True when time ran out before every site was judged. */
  readonly incomplete: boolean;
  readonly ranking: SearchAnswer["ranking"];
}

/** The part of the answer that is shown. */
export interface Page {
  readonly after: number;
  readonly size: number;
}

interface Judged {
  readonly candidate: Candidate;
  readonly fit: Fit;
  /** Null when the search does not ask about the wind. */
  readonly inWind: SiteInWind | null;
}

/** Fits every site and ranks by the fits; of more sites than that only those on the page, ranked by nominal looks. */
export async function searchSites(call: Call, rig: ReadRig, asked: SearchRequest, page: Page): Promise<SearchResult> {
  const { sitesPerSearch, sitesPerLook } = call.limits;
  const candidates = await findCandidates(call.store, asked, rig, sitesPerLook);
  const many = candidates.sites.length > sitesPerSearch;
  const ranking = asked.ranking ?? (many ? "nominal" : "whole");
  if (ranking === "nominal") return searchByLooks(call, rig, asked, candidates, page);
  if (many) throw tooManySites(sitesPerSearch, "Narrow the area or the filters, or rank by nominal values.");
  const { judged, late, failed, windOut, windUnknown } = await judgeAll(call, rig, asked, candidates.sites);
  const passed = judged.filter(({ fit }) => passesAnswer(fit, asked.filters));
  const rows = [
    ...passed.sort(order(asked.sort ?? "rank")).map(judgedRow),
    ...late.map((candidate) => unjudgedRow(candidate, LATE)),
    ...failed.map((candidate) => unjudgedRow(candidate, FAILED)),
    ...brokenRows(candidates),
  ];
  return {
    features: ranked(rows),
    notShown: {
      ...notShownOf(candidates),
      filteredOut: candidates.filteredOut + windOut + judged.length - passed.length,
      filterUnknown: candidates.filterUnknown + windUnknown,
    },
    incomplete: late.length > 0,
    ranking,
  };
}

const ranked = (rows: readonly SearchFeature[]): SearchFeature[] =>
  rows.map((row, index) => ({ ...row, properties: { ...row.properties, rank: index + 1 } }));

function notShownOf({ filteredOut, filterUnknown, withoutPlace, cannotServe }: Candidates): SearchAnswer["notShown"] {
  return { filteredOut, filterUnknown, withoutPlace, cannotServe };
}

async function searchByLooks(
  call: Call,
  rig: ReadRig,
  asked: SearchRequest,
  candidates: Candidates,
  page: Page,
): Promise<SearchResult> {
  const { sort = "rank" } = asked;
  if (sort === "exposure" || asksForWind(asked)) {
    throw tooManySites(call.limits.sitesPerSearch, "By exposure to the wind only so many sites can be ranked.");
  }
  const options = searchOptions(asked);
  const end = call.clock() + call.limits.searchMilliseconds;
  const time = { clock: call.clock, end, pause: nextTurn };
  const { looked, late } = await lookAtAll(rig, options, candidates.sites, time);
  const kept = looked.filter((one) => !isRuledOut(one, asked.filters)).sort(lookOrder(sort, options));
  const shown = kept.slice(page.after, page.after + page.size).map(({ candidate }) => candidate);
  const { judged, failed } = await judgeAll(call, rig, asked, shown);
  const fits = new Map(judged.map((one) => [one.candidate, one]));
  const rows = kept.map(({ candidate, look }): SearchFeature => {
    const one = fits.get(candidate);
    const row = one === undefined ? bareRow(candidate, failed.includes(candidate)) : judgedRow(one);
    return { ...row, properties: { ...row.properties, nominal: look } };
  });
  const all = [...rows, ...late.map((candidate) => unjudgedRow(candidate, LATE)), ...brokenRows(candidates)];
  return {
    features: ranked(all),
    notShown: { ...notShownOf(candidates), filteredOut: candidates.filteredOut + looked.length - kept.length },
    incomplete: late.length > 0,
    ranking: "nominal",
  };
}

/** A row beside the page, which gets no fit, or one whose fit failed or ran out of time. */
function bareRow(candidate: Candidate, failed: boolean): SearchFeature {
  return unjudgedRow(candidate, failed ? FAILED : LATE);
}

function searchOptions(asked: SearchRequest): FitOptions {
  return completeOptions({
    ...asked.options,
    ...(asked.needs === undefined ? {} : { needs: asked.needs }),
    detail: "summary",
  });
}

/** Fits site after site until the time is over; what was fitted before for the same question counts at once. */
async function judgeAll(call: Call, rig: ReadRig, asked: SearchRequest, sites: readonly Candidate[]) {
  const options = searchOptions(asked);
  const question = await digestOf([rig.profile, options]);
  const end = call.clock() + call.limits.searchMilliseconds;
  const judged: Judged[] = [];
  const late: Candidate[] = [];
  const failed: Candidate[] = [];
  let [windOut, windUnknown] = [0, 0];
  for (const candidate of sites) {
    const { stored, feature } = candidate;
    const key = `${stored.summary.version} ${featureId(feature)} ${question}`;
    const known = call.memory.get(key) as Fit | undefined;
    if (known !== undefined && !asksForWind(asked)) judged.push({ candidate, fit: known, inWind: null });
    else if (call.clock() > end) late.push(candidate);
    else {
      // Other requests get their turn between two fits: a search must not hold up the whole process.
      await nextTurn();
      try {
        const read = storedRead(stored, feature);
        const ready = readyCase(rig, read, options);
        const inWind = asksForWind(asked)
          ? siteInWind(ready.rose, ready.site.prevailingWind ?? null, asked.filters, options.units)
          : null;
        const doubtful = inWind?.passes === "unknown" && asked.filters?.unknown !== "keep";
        if (inWind?.passes === "no" || doubtful) {
          windOut += 1;
          windUnknown += doubtful ? 1 : 0;
          continue;
        }
        const fit = known ?? withoutBulk(fitReady(ready, read, options));
        call.memory.set(key, fit);
        judged.push({ candidate, fit, inWind });
      } catch (fault) {
        // One site that breaks the engine must not take the others with it; the fault is logged and the row says so.
        call.report(fault);
        failed.push(candidate);
      }
    }
  }
  return { judged, late, failed, windOut, windUnknown };
}

/** A fit without what a summary leaves out, so that thousands can be kept. */
function withoutBulk(fit: Fit): Fit {
  const scene: Fit["scene"] = { pad: null, stop: null, rig: null, hookups: [], obstacles: [], patio: null };
  const lines = fit.lines.map((line) => ({ ...line, path: [] }));
  return { ...fit, lines, scene, checks: [], cautions: [], assumed: [], notChecked: [], sources: [], warnings: [] };
}

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function passesAnswer(fit: Fit, filters: SearchRequest["filters"]): boolean {
  if (filters?.verdicts !== undefined && !filters.verdicts.includes(fit.verdict)) return false;
  return filters?.minMargin === undefined || (fit.bestMargin !== null && fit.bestMargin >= filters.minMargin);
}

/** Every order ends in campground and site ids, so that pages never overlap. */
function order(sort: NonNullable<SearchRequest["sort"]>): (a: Judged, b: Judged) => number {
  const marginOf = ({ fit }: Judged) => fit.bestMargin ?? Number.NEGATIVE_INFINITY;
  const ratioOf = ({ inWind }: Judged) => inWind?.ratio ?? Number.POSITIVE_INFINITY;
  const byName = (a: string, b: string) => a.localeCompare(b, "en", { numeric: true });
  const rules: Readonly<Record<typeof sort, (a: Judged, b: Judged) => number>> = {
    rank: () => 0,
    // Two margins that are both unknown are equal; their difference would be no number.
    margin: (a, b) => (marginOf(a) === marginOf(b) ? 0 : marginOf(b) - marginOf(a)),
    distance: (a, b) => (a.candidate.distance ?? 0) - (b.candidate.distance ?? 0),
    name: (a, b) => byName(a.fit.site.name, b.fit.site.name),
    exposure: (a, b) => (ratioOf(a) === ratioOf(b) ? 0 : ratioOf(a) - ratioOf(b)),
  };
  const tie = ({ candidate }: Judged) => `${candidate.stored.summary.id} ${featureId(candidate.feature)}`;
  return (a, b) => rules[sort](a, b) || compareFits(a.fit, b.fit) || byName(tie(a), tie(b));
}

function row(
  candidate: Candidate,
  name: string,
  rest: Pick<SearchFeature["properties"], "fit" | "errors"> & { readonly sheltered?: Sheltered | null },
): SearchFeature {
  const { stored, feature, distance } = candidate;
  const site = featureId(feature);
  return {
    type: "Feature",
    id: `${stored.summary.id}/${site ?? ""}`,
    geometry: feature.geometry as SearchFeature["geometry"],
    properties: {
      campground: stored.summary.id,
      campgroundName: stored.summary.name,
      site,
      name,
      rank: 0,
      distance,
      sheltered: null,
      nominal: null,
      ...rest,
    },
  };
}

const judgedRow = ({ candidate, fit, inWind }: Judged): SearchFeature =>
  row(candidate, fit.site.name, { fit: summaryOf(fit), errors: [], sheltered: inWind?.sheltered ?? null });

const LATE = { code: "out-of-time", message: "Time ran out before this site: send the same request again." };
const FAILED = {
  code: "internal-error",
  message: "This site could not be judged; the fault is ours and has been logged.",
};

function unjudgedRow(candidate: Candidate, error: { readonly code: string; readonly message: string }): SearchFeature {
  return row(candidate, featureId(candidate.feature) ?? "", { fit: null, errors: [{ pointer: "", ...error }] });
}

function brokenRows({ broken }: Candidates): SearchFeature[] {
  return broken.map(({ stored, site }, index) => ({
    type: "Feature",
    id: `${stored.summary.id}/${site.id ?? `broken-${index + 1}`}`,
    geometry: null,
    properties: {
      campground: stored.summary.id,
      campgroundName: stored.summary.name,
      site: site.id,
      name: site.id,
      rank: 0,
      distance: null,
      sheltered: null,
      nominal: null,
      fit: null,
      errors: site.faults.map(({ path, code, message }) => ({ pointer: path, code, message })),
    },
  }));
}

export function summaryOf(fit: Fit): FitSummary {
  return {
    verdict: fit.verdict,
    headline: fit.headline,
    ...(fit.probability === undefined ? {} : { probability: fit.probability }),
    bestMargin: fit.bestMargin,
    proven: fit.proven,
    facing: fit.stance?.facing ?? null,
    lines: fit.lines.map(({ service, need, verdict, margin }) => ({ service, need, verdict, margin })),
    mating: fit.power.mating,
    kit: fit.kit.map(({ item, where }) => ({ item, where })),
    exposure: fit.exposure === null ? null : exposureToWire(fit.exposure),
    measure: fit.unknowns.map((unknown) => unknown.measure),
  };
}
