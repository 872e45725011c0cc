/** Fits one rig at every candidate, filters by the answer, sorts, and gives the rows of the search. */
import type { Fit } from "../../fit/answer.ts";
import { completeOptions } from "../../fit/options.ts";
import { compareFits } from "../../fit/search.ts";
import { featureId } from "../../site/feature.ts";
import { fitCase } from "../fit-case.ts";
import type { ReadRig } from "../rig-input.ts";
import type { Call } from "../route.ts";
import type { SearchRequest } from "../schemas/search.ts";
import type { FitSummary, SearchAnswer, SearchFeature } from "../schemas/search-answer.ts";
import { type Candidate, type Candidates, findCandidates } from "./candidates.ts";

export interface SearchResult {
  readonly features: SearchFeature[];
  readonly notShown: SearchAnswer["notShown"];
}

interface Judged {
  readonly candidate: Candidate;
  readonly fit: Fit;
}

/** Sites fitted before other requests get their turn: a search must not hold up the whole process. */
const SITES_PER_TURN = 4;

export async function searchSites(call: Call, rig: ReadRig, asked: SearchRequest): Promise<SearchResult> {
  const candidates = await findCandidates(call.store, asked, call.limits.sitesPerSearch);
  const options = completeOptions({
    ...asked.options,
    ...(asked.needs === undefined ? {} : { needs: asked.needs }),
    detail: "summary",
  });
  const judged: Judged[] = [];
  const failed: Candidate[] = [];
  let filteredOut = candidates.filteredOut;
  for (const [index, candidate] of candidates.sites.entries()) {
    if (index % SITES_PER_TURN === SITES_PER_TURN - 1) await nextTurn();
    try {
      const { stored, feature } = candidate;
      const around = stored.features.filter((one) => one !== feature);
      const site = { feature, campground: stored.campground, around, warnings: [], version: stored.summary.version };
      const fit = fitCase(rig, site, options);
      if (passesAnswer(fit, asked.filters)) judged.push({ candidate, fit });
      else filteredOut += 1;
    } catch (fault) {
      // One site that breaks the engine must not take the others with it; the fault is logged and the row says so.
      call.report(fault);
      failed.push(candidate);
    }
  }
  const rows = [
    ...judged.sort(order(asked.sort ?? "rank")).map(judgedRow),
    ...failed.map(failedRow),
    ...brokenRows(candidates),
  ];
  return {
    features: rows.map((row, index) => ({ ...row, properties: { ...row.properties, rank: index + 1 } })),
    notShown: { filteredOut, filterUnknown: candidates.filterUnknown, withoutPlace: candidates.withoutPlace },
  };
}

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function passesAnswer(fit: Fit, filters: SearchRequest["filters"]): boolean {
  if (filters?.verdicts !== undefined && !filters.verdicts.includes(fit.verdict)) return false;
  return filters?.minMargin === undefined || (fit.bestMargin !== null && fit.bestMargin >= filters.minMargin);
}

/** Every order ends in campground and site ids, so that pages never overlap. */
function order(sort: NonNullable<SearchRequest["sort"]>): (a: Judged, b: Judged) => number {
  const marginOf = ({ fit }: Judged) => fit.bestMargin ?? Number.NEGATIVE_INFINITY;
  const byName = (a: string, b: string) => a.localeCompare(b, "en", { numeric: true });
  const rules: Readonly<Record<typeof sort, (a: Judged, b: Judged) => number>> = {
    rank: () => 0,
    // Two margins that are both unknown are equal; their difference would be no number.
    margin: (a, b) => (marginOf(a) === marginOf(b) ? 0 : marginOf(b) - marginOf(a)),
    distance: (a, b) => (a.candidate.distance ?? 0) - (b.candidate.distance ?? 0),
    name: (a, b) => byName(a.fit.site.name, b.fit.site.name),
  };
  const tie = ({ candidate }: Judged) => `${candidate.stored.summary.id} ${featureId(candidate.feature)}`;
  return (a, b) => rules[sort](a, b) || compareFits(a.fit, b.fit) || byName(tie(a), tie(b));
}

function row(
  candidate: Candidate,
  name: string,
  rest: Pick<SearchFeature["properties"], "fit" | "errors">,
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
      ...rest,
    },
  };
}

const judgedRow = ({ candidate, fit }: Judged): SearchFeature =>
  row(candidate, fit.site.name, { fit: summaryOf(fit), errors: [] });

function failedRow(candidate: Candidate): SearchFeature {
  const message = "This site could not be judged; the fault is ours and has been logged.";
  return row(candidate, featureId(candidate.feature) ?? "", {
    fit: null,
    errors: [{ pointer: "", code: "internal-error", message }],
  });
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
    measure: fit.unknowns.map((unknown) => unknown.measure),
  };
}
