/**
 * Which unit goes on which trip: as many trips as possible get a unit that works, then as good ones as possible, and
 * no unit is on two trips at a time. By branch and bound over the trips in the order of departure.
 */

export interface AllotTrip {
  readonly id: string;
  /** Days; the unit is away from `from` and can go out again on `free`. */
  readonly from: number;
  readonly free: number;
  /** The unit that the booking has already. */
  readonly given: string | null;
  /** Units that work, the best first. */
  readonly units: readonly string[];
}

export interface Allotment {
  /** Unit by trip; a trip that gets none is missing. */
  readonly units: ReadonlyMap<string, string>;
  /** True when no allotment serves more trips, or as many with better units. */
  readonly proven: boolean;
}

const MOST_NODES = 100_000;

export const overlap = (a: Pick<AllotTrip, "from" | "free">, b: Pick<AllotTrip, "from" | "free">): boolean =>
  a.from < b.free && b.from < a.free;

export function allot(trips: readonly AllotTrip[]): Allotment {
  const open = trips
    .filter((trip) => trip.given === null && trip.units.length > 0)
    .sort((a, b) => a.from - b.from || (a.id < b.id ? -1 : 1));
  const fixed = new Map(trips.flatMap((trip) => (trip.given === null ? [] : [[trip.id, trip.given] as const])));
  let nodes = 0;
  let best: { readonly units: Map<string, string>; readonly served: number; readonly ranks: number } | null = null;
  const isFree = (unit: string, trip: AllotTrip, taken: ReadonlyMap<string, string>) =>
    !trips.some((other) => other !== trip && taken.get(other.id) === unit && overlap(other, trip));
  const visit = (index: number, taken: Map<string, string>, ranks: number, served: number): void => {
    nodes += 1;
    if (nodes > MOST_NODES) return;
    const most = served + open.length - index;
    if (best !== null && (most < best.served || (most === best.served && ranks >= best.ranks))) return;
    const trip = open[index];
    if (trip === undefined) {
      best = { units: new Map(taken), served, ranks };
      return;
    }
    for (const [rank, unit] of trip.units.entries()) {
      if (isFree(unit, trip, taken)) visit(index + 1, new Map(taken).set(trip.id, unit), ranks + rank, served + 1);
    }
    visit(index + 1, taken, ranks, served);
  };
  visit(0, fixed, 0, 0);
  const found = best as { readonly units: Map<string, string> } | null;
  return { units: found?.units ?? fixed, proven: nodes <= MOST_NODES };
}
