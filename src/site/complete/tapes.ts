/** The tape list of a site, solved, with its contradictions and gaps told as warnings. */
import type { SiteProperties } from "../schema.ts";
import { type SurveySolution, solveSurvey, TAPE_ACCURACY, type Wish } from "../survey.ts";
import { type EstimateContext, estimate } from "./estimates.ts";
import { hookupIds } from "./hookups.ts";
import { metres, Notes } from "./notes.ts";
import { type Parking, padSide } from "./sides.ts";

export function surveyOf(site: SiteProperties, parking: Parking, context: EstimateContext): SurveySolution | null {
  const measurements = site.measurements ?? [];
  if (measurements.length === 0) return null;
  const { notes } = context;
  const base = `${notes.base}/properties/measurements`;
  if (measurements.some(({ accuracy }) => accuracy === undefined)) {
    notes.assume(base, `tape accuracy ${metres(TAPE_ACCURACY)} where none is stated (standard deviation)`);
  }
  const solution = solveSurvey({
    measurements,
    length: statedSize(site, "length", context),
    width: statedSize(site, "width", context),
    wishes: wishesOf(site, parking),
  });
  for (const { index, from, to, distance, residual } of solution.contradictions) {
    const off = `${metres(Math.abs(residual))} ${residual > 0 ? "longer" : "shorter"}`;
    const text = `The tape from "${from}" to "${to}" (${metres(distance)}) is ${off} than the others allow. Measure it again?`;
    notes.warn("contradiction", `${base}/${index}`, text);
  }
  for (const { id, places } of solution.ambiguous) {
    const [one, two] = places.map(({ along, left }) => `${metres(along)} along and ${metres(left)} left`);
    notes.warn("ignored", base, `The tapes leave "${id}" in two places: ${one}, or ${two}. On which side is it?`);
  }
  for (const id of solution.undetermined) {
    notes.warn("ignored", base, `The tapes do not fix "${id}": two distances from known marks are needed.`);
  }
  return solution;
}

/** A stated size as an observation; a range is none. */
function statedSize(site: SiteProperties, name: "length" | "width", context: EstimateContext) {
  const given = site.pad?.[name];
  if (given === undefined || given.low !== given.high) return null;
  // Its assumption is noted where the pad itself is completed.
  const quiet = { notes: new Notes(""), asOf: context.asOf };
  const { value, sigma, low, high } = estimate(given, site.pad ?? {}, "measured", "", quiet);
  if (low !== high) return null;
  const least = 1e-3;
  return { value, sigma: Math.max(sigma, least) };
}

function wishesOf(site: SiteProperties, parking: Parking): ReadonlyMap<string, Wish> {
  const wishes = new Map<string, Wish>();
  const hookups = site.hookups ?? [];
  hookupIds(hookups).forEach((id, index) => {
    const place = hookups[index]?.place;
    if (place !== undefined) {
      wishes.set(id, {
        side: place.side === undefined ? null : padSide(place.side, parking),
        third: place.third ?? null,
      });
    }
  });
  for (const { id, side, third } of site.marks ?? []) {
    wishes.set(id, { side: side === undefined ? null : padSide(side, parking), third: third ?? null });
  }
  return wishes;
}
