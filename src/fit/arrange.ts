/**
 * Tries the ways to hook up (receptacles with their chains, taps, risers, outlets, hoses) and to park, and keeps the
 * best: required lines first, then wanted lines, then the door on the people's side, then what costs least.
 */
import type { CompletedRig, Service } from "../rig/completed.ts";
import type { CompletedSite } from "../site/completed.ts";
import type { Rose } from "../wind/rose.ts";
import { type Levelling, levelRig } from "./level/level.ts";
import { type Candidate, SERVICES, type ServiceCandidates, serviceCandidates } from "./lines/candidates.ts";
import type { FitOptions } from "./options.ts";
import { type NotParked, type Parked, park } from "./park.ts";
import { sayer } from "./say.ts";
import { type RecordedThings, recordedThings, type Setup } from "./setup.ts";
import type { Facing } from "./stance/problem.ts";
import type { When } from "./wind/when.ts";

export interface FitInput {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly options: FitOptions;
  /** How the site lies to the wind; absent or null when nobody worked it out. */
  readonly rose?: Rose | null;
  /** The stay or the wind that is asked about; absent or null for none. */
  readonly when?: When | null;
}

export interface Arrangement {
  readonly setup: Setup;
  readonly services: readonly ServiceCandidates[];
  readonly levelling: ReadonlyMap<Facing, Levelling>;
  readonly facing: Facing;
  /** Every facing that was tried. */
  readonly facings: readonly Facing[];
  /** One candidate per service that has any. */
  readonly chosen: readonly Candidate[];
  readonly parking: Parked | NotParked;
  readonly openAwnings: readonly string[];
  /** True when slides hang over the pad's side edges. */
  readonly slidesOverEdge: boolean;
  /** Largest worst margin over the required lines over all facings, metres. */
  readonly best: number;
  readonly bound: number;
  readonly proven: boolean;
  /** False when the pad's length or width is not known: then no stance is claimed. */
  readonly padKnown: boolean;
}

/** Most combinations of candidates tried per facing. */
const MOST_COMBINATIONS = 64;

export function isParked(parking: Parked | NotParked): parking is Parked {
  return "shown" in parking;
}

/** Facings tried: the caller's, else the record's; a back-in pad without the record's word is answered nose out. */
export function triedFacings(site: CompletedSite, options: FitOptions): readonly Facing[] {
  if (options.facings !== null) return options.facings;
  return site.facingsStated ? site.facings : site.facings.slice(0, 1);
}

function levellingFor(input: FitInput, facings: readonly Facing[]): Map<Facing, Levelling> {
  const { rig, site, options } = input;
  const say = sayer(options.units);
  return new Map(
    facings.map((facing) => [
      facing,
      levelRig({ grade: site.pad.grade, crossfall: site.pad.crossfall, facing, yaw: 0, rig }, say),
    ]),
  );
}

/** What all set-ups of one fit share. */
interface Prepared {
  readonly levelling: ReadonlyMap<Facing, Levelling>;
  readonly things: RecordedThings;
}

function makeSetup(
  input: FitInput,
  { levelling, things }: Prepared,
  slidesOverEdge: boolean,
  openAwnings: readonly string[],
): Setup {
  const { rig, site, options } = input;
  return {
    rig,
    site,
    options,
    parts: { closedSlides: options.closeSlides, slidesOverEdge, openAwnings },
    ...things,
    groundAt: (facing) => ({
      grade: site.pad.grade,
      crossfall: site.pad.crossfall,
      raiseAt: (fromRear, left) => levelling.get(facing)?.raiseAt(fromRear, left) ?? 0,
    }),
  };
}

/** Combinations of one candidate per service, the preferred first. */
function combinations(services: readonly ServiceCandidates[]): Candidate[][] {
  let rows: Candidate[][] = [[]];
  for (const { candidates } of services) {
    if (candidates.length === 0) continue;
    rows = rows.flatMap((row) => candidates.map((candidate) => [...row, candidate]));
  }
  const cost = (row: readonly Candidate[]) => row.reduce((sum, candidate) => sum + candidate.rank, 0);
  return rows.sort((a, b) => cost(a) - cost(b)).slice(0, MOST_COMBINATIONS);
}

const SERVICE_WEIGHT: Readonly<Record<Service, number>> = { power: 16, sewer: 8, water: 4, cable: 2, fill: 1 };

/** Side of the pad to which a rig's side turns at a facing. */
export function padSide(side: "left" | "right", facing: Facing): "left" | "right" {
  if (facing === "out") return side;
  return side === "left" ? "right" : "left";
}

function doorOnPatio(rig: CompletedRig, site: CompletedSite, facing: Facing): boolean {
  if (site.patio === null) return facing === "out";
  const walls = [...rig.doors, ...rig.awnings].map((part) => part.wall);
  return walls.some((wall) => (wall === "left" || wall === "right") && padSide(wall, facing) === site.patio);
}

/** Lexicographic score; the larger is better. */
function score(parking: Parked | NotParked, chosen: readonly Candidate[], comfort: number, onPatio: boolean): number[] {
  if (!isParked(parking)) return [-1];
  const reaches = parking.best >= comfort ? 2 : parking.best >= 0 ? 1 : 0;
  const served = parking.lines.reduce((sum, line) => sum + SERVICE_WEIGHT[line.service], 0);
  const cost = chosen.reduce((sum, candidate) => sum + candidate.rank, 0);
  const tries = parking.best >= 0 ? [served, parking.steady ? 1 : 0, onPatio ? 1 : 0, -cost] : [parking.best];
  return [Math.min(reaches, 1), ...tries, reaches, Math.min(parking.best, comfort)];
}

function better(a: readonly number[], b: readonly number[]): boolean {
  for (let index = 0; index < Math.max(a.length, b.length); index++) {
    const difference = (a[index] ?? 0) - (b[index] ?? 0);
    if (difference !== 0) return difference > 0;
  }
  return false;
}

interface Tried {
  readonly facing: Facing;
  readonly chosen: readonly Candidate[];
  readonly parking: Parked | NotParked;
  readonly score: readonly number[];
}

function tryAll(
  setup: Setup,
  facings: readonly Facing[],
  rows: readonly Candidate[][],
): { readonly best: Tried; readonly all: readonly Tried[] } {
  const all: Tried[] = [];
  for (const facing of facings) {
    const onPatio = doorOnPatio(setup.rig, setup.site, facing);
    for (const chosen of rows) {
      const parking = park(
        setup,
        facing,
        chosen.map((candidate) => candidate.choice),
      );
      const tried = { facing, chosen, parking, score: score(parking, chosen, setup.options.comfort, onPatio) };
      all.push(tried);
      // The first row costs least: when it serves everything comfortably no other row is better.
      if (isParked(parking) && parking.dropped.length === 0 && parking.steady && parking.best >= setup.options.comfort)
        break;
      if (!isParked(parking)) break;
    }
  }
  return { best: all.reduce((kept, next) => (better(next.score, kept.score) ? next : kept)), all };
}

/** True when opening the awnings costs no served line and no comfort. */
function worthOpening(open: Parked | NotParked, closed: Parked, comfort: number): open is Parked {
  return (
    isParked(open) &&
    open.dropped.length <= closed.dropped.length &&
    open.best >= Math.min(closed.best, comfort) &&
    (open.steady || !closed.steady)
  );
}

function withAwnings(input: FitInput, prepared: Prepared, slidesOverEdge: boolean, tried: Tried) {
  const { rig, options } = input;
  const ids = rig.awnings.map((awning) => awning.id);
  if (options.awning !== "wanted" || ids.length === 0 || !isParked(tried.parking)) return null;
  const setup = makeSetup(input, prepared, slidesOverEdge, ids);
  const parking = park(
    setup,
    tried.facing,
    tried.chosen.map((candidate) => candidate.choice),
  );
  return worthOpening(parking, tried.parking, options.comfort) ? { setup, parking, openAwnings: ids } : null;
}

/** The best way to hook this rig up at this site. */
export function arrange(input: FitInput): Arrangement {
  const { rig, site, options } = input;
  const services = SERVICES.map((service) => serviceCandidates(service, rig, site, options));
  const facings = triedFacings(site, options);
  const levelling = levellingFor(input, facings);
  const prepared: Prepared = { levelling, things: recordedThings(rig, site, options) };
  const rows = combinations(services);
  const required = options.awning === "required" ? rig.awnings.map((awning) => awning.id) : [];
  const inside = makeSetup(input, prepared, false, required);
  let setup = inside;
  let result = tryAll(inside, facings, rows);
  let slidesOverEdge = false;
  const hasSlides = rig.slideouts.some((slide) => !options.closeSlides.includes(slide.id));
  if (hasSlides && !(isParked(result.best.parking) && result.best.parking.best >= 0)) {
    const over = makeSetup(input, prepared, true, required);
    const wider = tryAll(over, facings, rows);
    if (isParked(wider.best.parking) && (!isParked(result.best.parking) || wider.best.parking.best >= 0)) {
      [setup, result, slidesOverEdge] = [over, wider, true];
    }
  }
  let openRequired = required;
  if (required.length > 0 && !isParked(result.best.parking)) {
    // Nothing stands with the awning open: where the rig stands without it, the awning's own check says why.
    const bare = makeSetup(input, prepared, slidesOverEdge, []);
    const closed = tryAll(bare, facings, rows);
    if (isParked(closed.best.parking)) [setup, result, openRequired] = [bare, closed, []];
  }
  const { best, all } = result;
  const opened = withAwnings(input, prepared, slidesOverEdge, best);
  const alike = all.filter((tried) => isParked(tried.parking) && tried.chosen === best.chosen);
  const margins = alike.map((tried) => tried.parking as Parked);
  return {
    setup: opened?.setup ?? setup,
    services,
    levelling,
    facing: best.facing,
    facings,
    chosen: best.chosen,
    parking: opened?.parking ?? best.parking,
    openAwnings: opened?.openAwnings ?? openRequired,
    slidesOverEdge,
    best: Math.max(Number.NEGATIVE_INFINITY, ...margins.map((parking) => parking.best)),
    bound: Math.max(Number.NEGATIVE_INFINITY, ...margins.map((parking) => parking.bound)),
    proven: margins.every((parking) => parking.proven),
    padKnown: site.pad.length !== null && site.pad.width !== null,
  };
}
