/** The walk as a site record: a GeoJSON Feature made by tape alone. */
import type { CampgroundFeature } from "../../site/feature.ts";
import type { Placed, Size, Solved } from "./solve-walk.ts";
import { metresOf, type Walk, type WalkMark } from "./walk.ts";

export interface RecordOf {
  readonly site: string;
  readonly name: string;
  /** Day of the walk, 2026-05-17. */
  readonly day: string;
}

/** Metres: coordinates are written to the millimetre, accuracies to the centimetre and upwards. */
const MILLIMETRES = 1000;
const CENTIMETRES = 100;
/** No tape on gravel is better (our choice), metres. */
const LEAST_ACCURACY = 0.02;

const rounded = (metres: number): number => Math.round(metres * MILLIMETRES) / MILLIMETRES + 0;
const accuracyOf = (sigma: number): number => Math.max(LEAST_ACCURACY, Math.ceil(sigma * CENTIMETRES) / CENTIMETRES);

type Members = Readonly<Record<string, unknown>>;

function provenance(sigma: number, { site, day }: RecordOf): Members {
  return { basis: "measured", accuracy: accuracyOf(sigma), survey: `tape-${site}-${day}`, observedAt: day };
}

function padOf(solved: Solved, about: RecordOf): Members | null {
  const taped = (size: Size | null) => (size?.taped ? size : null);
  const length = taped(solved.length);
  const width = taped(solved.width);
  if (length === null && width === null) return null;
  const { survey: _, ...made } = provenance(Math.max(length?.sigma ?? 0, width?.sigma ?? 0), about);
  return {
    ...(length === null ? {} : { length: rounded(length.value) }),
    ...(width === null ? {} : { width: rounded(width.value) }),
    ...made,
  };
}

function hookupOf(mark: WalkMark, place: Placed, about: RecordOf): Members {
  const height = mark.height === undefined ? null : metresOf(mark.height);
  const at = {
    along: rounded(place.along),
    left: rounded(place.left),
    ...(height === null ? {} : { height: rounded(height) }),
  };
  return { id: mark.id, service: mark.service, at, ...provenance(place.sigma, about) };
}

function obstacleOf(mark: WalkMark, place: Placed, about: RecordOf): Members[] {
  const radius = mark.radius === undefined ? null : metresOf(mark.radius);
  if (radius === null || radius <= 0) return [];
  const at = { along: rounded(place.along), left: rounded(place.left) };
  return [
    { id: mark.id, what: mark.id.replace(/-\d+$/, ""), at, radius: rounded(radius), ...provenance(place.sigma, about) },
  ];
}

/** The record of what the walk has fixed; readings stand in it as they were typed. */
export function recordOf(walk: Walk, solved: Solved, about: RecordOf): CampgroundFeature {
  const placeOf = new Map(solved.places.map((place) => [place.id, place]));
  const fixed = walk.marks.flatMap((mark) => {
    const place = placeOf.get(mark.id);
    return place === undefined ? [] : [{ mark, place }];
  });
  const of = (kind: WalkMark["kind"]) => fixed.filter(({ mark }) => mark.kind === kind);
  const [stop] = of("wheel-stop");
  const pad = padOf(solved, about);
  const hookups = of("hookup").map(({ mark, place }) => hookupOf(mark, place, about));
  const obstacles = of("thing").flatMap(({ mark, place }) => obstacleOf(mark, place, about));
  const marks = walk.marks.filter(({ kind }) => kind === "thing").map(({ id }) => ({ id }));
  return {
    type: "Feature",
    id: about.site,
    geometry: null,
    properties: {
      kind: "site",
      name: about.name,
      observedAt: about.day,
      ...(pad === null ? {} : { pad }),
      ...(stop === undefined ? {} : { stop: { kind: "wheelStop", along: rounded(stop.place.along) } }),
      ...(hookups.length === 0 ? {} : { hookups }),
      ...(obstacles.length === 0 ? {} : { obstacles }),
      ...(walk.readings.length === 0 ? {} : { measurements: walk.readings }),
      ...(marks.length === 0 ? {} : { marks }),
    },
  };
}
