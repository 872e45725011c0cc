/**
 * Some sites of a campground, or all of them, as a mixed integer program: a column for each option of whoever may
 * stand there, a row for each stay, for each clique of nights at a site, for each contended resource and night, and a
 * column for each short hole that may open. Parties are left out: their points can only fall.
 */
import type { Compiled } from "./compile.ts";
import type { ExactModel } from "./exact.ts";
import type { PlanState } from "./plan-state.ts";

export interface ExactPart {
  readonly model: ExactModel;
  /** Option of each of the first columns; the others are holes. */
  readonly options: readonly number[];
  /** Stays that the part may place: on these sites, or nowhere, now. */
  readonly stays: readonly number[];
  /** Added to the points of the model gives the value of the part, penalties included. */
  readonly constant: number;
}

/** Rows and columns while they are being collected. */
class Builder {
  readonly points: number[] = [];
  readonly entries: { readonly row: number; readonly factor: number }[][] = [];
  readonly rowUpper: number[] = [];
  readonly whole: number[] = [];

  addColumn(points: number, whole: boolean): number {
    this.points.push(points);
    this.whole.push(whole ? 1 : 0);
    return this.entries.push([]) - 1;
  }

  addRow(upper: number, columns: readonly number[], factor = 1): number {
    const row = this.rowUpper.push(upper) - 1;
    for (const column of columns) this.enter(row, column, factor);
    return row;
  }

  enter(row: number, column: number, factor: number): void {
    this.entries[column]!.push({ row, factor });
  }

  finish(first: Float64Array | null): ExactModel {
    const start = new Int32Array(this.entries.length + 1);
    this.entries.forEach((entries, column) => {
      start[column + 1] = start[column]! + entries.length;
    });
    const flat = this.entries.flat();
    return {
      columns: this.points.length,
      rows: this.rowUpper.length,
      points: Float64Array.from(this.points),
      rowUpper: Float64Array.from(this.rowUpper),
      start,
      row: Int32Array.from(flat, ({ row }) => row),
      factor: Float64Array.from(flat, ({ factor }) => factor),
      whole: Uint8Array.from(this.whole),
      first,
    };
  }
}

/** Stays that stand on the part's sites, or nowhere. */
function staysOf(state: PlanState, isIn: (site: number) => boolean): number[] {
  const { compiled, chosen } = state;
  return Array.from({ length: compiled.stays }, (_, stay) => stay).filter(
    (stay) => chosen[stay]! < 0 || isIn(compiled.optionSite[chosen[stay]!]!),
  );
}

/** An option whose resources are held by somebody outside the part is not for choice. */
function isFreeOutside(state: PlanState, option: number, members: ReadonlySet<number>): boolean {
  const { optionResources, optionStay, arrival, departure, nights } = state.compiled;
  const stay = optionStay[option]!;
  return optionResources[option]!.every((resource) => {
    for (let night = arrival[stay]!; night < departure[stay]!; night++) {
      const holder = state.resourceHolder[resource * nights + night]!;
      if (holder >= 0 && !members.has(holder)) return false;
    }
    return true;
  });
}

/** The part of a plan on the sites given (all when null), as a model that starts from what the plan has there. */
export function exactPart(state: PlanState, sites: ReadonlySet<number> | null): ExactPart {
  const { compiled } = state;
  const { optionStart, optionSite, optionReward, penalty, fixed, optionStay } = compiled;
  const isIn = (site: number) => sites === null || sites.has(site);
  const stays = staysOf(state, isIn);
  const members = new Set(stays);
  const builder = new Builder();
  const options: number[] = [];
  const bySite = new Map<number, number[]>();
  for (const stay of stays) {
    const columns: number[] = [];
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (!isIn(optionSite[option]!) || !isFreeOutside(state, option, members)) continue;
      const must = fixed[stay]! >= 0 ? penalty[stay]! : 0;
      const column = builder.addColumn(optionReward[option]! + penalty[stay]! + must, true);
      options.push(option);
      columns.push(column);
      bySite.set(optionSite[option]!, [...(bySite.get(optionSite[option]!) ?? []), column]);
    }
    if (columns.length > 0) builder.addRow(1, columns);
  }
  const stayAt = (column: number) => optionStay[options[column]!]!;
  for (const columns of bySite.values()) addCliques(builder, compiled, columns, stayAt);
  addResources(builder, compiled, options);
  addMoveCap(builder, state, options, members);
  for (const [site, columns] of bySite) addHoles(builder, compiled, site, columns, stayAt);
  const constant = stays.reduce((sum, stay) => sum - penalty[stay]! * (fixed[stay]! >= 0 ? 2 : 1), 0);
  return { model: builder.finish(startOf(state, options, builder.points.length)), options, stays, constant };
}

/** The plan as it is; holes are left to the solver. */
function startOf(state: PlanState, options: readonly number[], columns: number): Float64Array {
  const first = new Float64Array(columns);
  options.forEach((option, column) => {
    if (state.chosen[state.compiled.optionStay[option]!] === option) first[column] = 1;
  });
  return first;
}

/** One row for each largest set of stays that are all there on one night. */
function addCliques(
  builder: Builder,
  { arrival, departure, nights }: Compiled,
  columns: readonly number[],
  stayAt: (column: number) => number,
): void {
  const arrivals = new Set(columns.map((column) => arrival[stayAt(column)]!));
  const departures = new Set(columns.map((column) => departure[stayAt(column)]!));
  let hasArrived = false;
  for (let night = 0; night <= nights; night++) {
    if (hasArrived && departures.has(night)) {
      const there = columns.filter((column) => arrival[stayAt(column)]! < night && departure[stayAt(column)]! >= night);
      if (there.length > 1) builder.addRow(1, there);
      hasArrived = false;
    }
    hasArrived ||= arrivals.has(night);
  }
}

function addResources(
  builder: Builder,
  { optionResources, optionStay, arrival, departure }: Compiled,
  options: readonly number[],
): void {
  const users = new Map<string, number[]>();
  options.forEach((option, column) => {
    const stay = optionStay[option]!;
    for (const resource of optionResources[option]!) {
      for (let night = arrival[stay]!; night < departure[stay]!; night++) {
        const key = `${resource} ${night}`;
        users.set(key, [...(users.get(key) ?? []), column]);
      }
    }
  });
  for (const columns of users.values()) if (columns.length > 1) builder.addRow(1, columns);
}

/** At least so many of the part's stays keep their site that the cap on moves holds for the whole plan. */
function addMoveCap(
  builder: Builder,
  { compiled, chosen }: PlanState,
  options: readonly number[],
  members: ReadonlySet<number>,
): void {
  const { problem, accepted, optionSite, optionStay } = compiled;
  if (problem.maxMoves === null) return;
  const hasMoved = (stay: number) =>
    accepted[stay]! >= 0 && (chosen[stay]! < 0 || optionSite[chosen[stay]!] !== accepted[stay]);
  let outside = 0;
  let inside = 0;
  for (let stay = 0; stay < compiled.stays; stay++) {
    if (members.has(stay)) inside += accepted[stay]! >= 0 ? 1 : 0;
    else outside += hasMoved(stay) ? 1 : 0;
  }
  const keeping = options.flatMap((option, column) =>
    optionSite[option] === accepted[optionStay[option]!] ? [column] : [],
  );
  if (keeping.length > 0) builder.addRow(problem.maxMoves - outside - inside, keeping, -1);
}

/** A column for each hole shorter than the minimum stay: one ends before it, one begins after it, none lies within. */
function addHoles(
  builder: Builder,
  { arrival, departure, problem, closed, words }: Compiled,
  site: number,
  columns: readonly number[],
  stayAt: (column: number) => number,
): void {
  const { minimumStay, shortGap } = problem.weights;
  const ending = groupBy(columns, (column) => departure[stayAt(column)]!);
  const beginning = groupBy(columns, (column) => arrival[stayAt(column)]!);
  for (const [night, before] of ending) {
    for (let length = 1; length < minimumStay; length++) {
      const last = night + length - 1;
      if ((closed[site * words + (last >> 5)]! & (1 << (last & 31))) !== 0) break;
      const after = beginning.get(night + length);
      if (after === undefined) continue;
      const hole = builder.addColumn(-shortGap, false);
      const row = builder.addRow(1, [...before, ...after]);
      builder.enter(row, hole, -1);
      for (const column of columns) {
        if (arrival[stayAt(column)]! >= night && departure[stayAt(column)]! <= night + length) {
          builder.enter(row, column, -1);
        }
      }
    }
  }
}

function groupBy(columns: readonly number[], key: (column: number) => number): Map<number, number[]> {
  const groups = new Map<number, number[]>();
  for (const column of columns) groups.set(key(column), [...(groups.get(key(column)) ?? []), column]);
  return groups;
}
