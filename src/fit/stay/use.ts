/** Rates of use of the whole party in each case, from what the caller gave and from the table. */
import table from "../../../data/supplies.json" with { type: "json" };
import type { Assumption } from "../../units/estimate.ts";
import type { Rate, UseCase, UseGiven } from "./types.ts";

export const USE_CASES: readonly UseCase[] = ["low", "expected", "high"];
const SECONDS_PER_HOUR = 3600;

/** Rates of one case, a day. Litres and watt-hours for the whole party; null is not known. */
export interface CaseRates {
  /** Wanted water by where it ends. */
  readonly toilet: number;
  readonly wash: number;
  readonly offBoard: number;
  readonly propane: number | null;
  readonly battery: number | null;
  /** Hours that the generator runs where no power is connected. */
  readonly generatorHours: number;
  /** Litres an hour. */
  readonly generatorFuel: number | null;
}

export interface Use {
  readonly water: Rate;
  readonly toilet: Rate;
  readonly offBoard: number;
  readonly rates: Readonly<Record<UseCase, CaseRates>>;
  readonly assumed: readonly Assumption[];
}

const same = (value: number): Rate => ({ low: value, expected: value, high: value });
const rising = (rate: Rate): boolean => rate.low <= rate.expected && rate.expected <= rate.high;

function row(id: string) {
  const found = table.water.rows.find((one) => one.id === id);
  if (found === undefined) throw new RangeError(`data/supplies.json has no water use "${id}"`);
  return found;
}

/** Litres a person and day at a site with water and sewer, where nobody saves. */
export const CONNECTED_WATER = row("connected").litres;

/** Words for the use of water that `UseGiven.water` may name. */
export const WATER_USES: readonly string[] = table.water.rows.map((one) => one.id);

function waterOf(given: UseGiven, assumed: Assumption[]): Rate {
  if (typeof given.water === "object") return given.water;
  if (given.water !== undefined) return same(row(given.water).litres);
  const [low, high] = [row(table.water.band.low), row(table.water.band.high)];
  assumed.push({
    path: "/use/water",
    value: `${low.inWords}; ${high.inWords}; ${table.water.middle}`,
    source: [low, high].map((one) => `${one.source} (${one.mark})`).join("; "),
  });
  return { low: low.litres, expected: (low.litres + high.litres) / 2, high: high.litres };
}

/** Water for the toilet; where it would make the rest fall from low to high use, its middle figure counts throughout. */
function toiletOf(given: UseGiven, water: Rate, assumed: Assumption[]): Rate {
  const wanted = given.toilet ?? table.toilet;
  if (given.toilet === undefined) {
    assumed.push({ path: "/use/toilet", value: table.toilet.inWords, source: table.toilet.source });
  }
  const capped = (rate: Rate): Rate => ({
    low: Math.min(rate.low, water.low),
    expected: Math.min(rate.expected, water.expected),
    high: Math.min(rate.high, water.high),
  });
  const own = capped(wanted);
  const rest = { low: water.low - own.low, expected: water.expected - own.expected, high: water.high - own.high };
  return rising(rest) ? own : capped(same(wanted.expected));
}

function propaneOf(given: UseGiven): Rate | null {
  if (given.propane !== undefined) return given.propane;
  if (given.burners === undefined) return null;
  const litres = (use: UseCase): number =>
    (given.burners ?? []).reduce((sum, burner) => sum + burnedBy(burner.watts, burner.hours[use]), 0);
  return { low: litres("low"), expected: litres("expected"), high: litres("high") };
}

/** Litres of liquid propane that a flame of so many watts burns in so many hours. */
export function burnedBy(watts: number, hours: number): number {
  return (watts * hours * SECONDS_PER_HOUR) / table.propane.joulesPerLitre;
}

/** Completes the use of `people`; every default is listed. */
export function completeUse(input: { readonly people: number; readonly use?: UseGiven }): Use {
  const given = input.use ?? {};
  const assumed: Assumption[] = [];
  const water = waterOf(given, assumed);
  const toilet = toiletOf(given, water, assumed);
  const offBoard = given.offBoard ?? table.offBoard.share;
  if (given.offBoard === undefined) {
    assumed.push({ path: "/use/offBoard", value: table.offBoard.inWords, source: table.offBoard.source });
  }
  if (given.generatorHours === undefined) {
    const value = "the generator is not reckoned with: no hours a day were given";
    assumed.push({ path: "/use/generatorHours", value, source: "assumed" });
  }
  const propane = propaneOf(given);
  const ratesOf = (use: UseCase): CaseRates => {
    const rest = input.people * (water[use] - toilet[use]);
    return {
      toilet: input.people * toilet[use],
      wash: rest * (1 - offBoard),
      offBoard: rest * offBoard,
      propane: propane?.[use] ?? null,
      battery: given.battery?.[use] ?? null,
      generatorHours: given.generatorHours?.[use] ?? 0,
      generatorFuel: given.generatorFuel?.[use] ?? null,
    };
  };
  return {
    water,
    toilet,
    offBoard,
    rates: { low: ratesOf("low"), expected: ratesOf("expected"), high: ratesOf("high") },
    assumed,
  };
}
