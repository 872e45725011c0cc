/**
 * The supplies of a trip: every store through every stop, when it runs out or fills up, where it is filled and emptied
 * next, and what that rests on.
 */
import table from "../../../data/supplies.json" with { type: "json" };
import { cautionsFor } from "../../fit/clearance/cautions.ts";
import { remaining } from "../../fit/stay/remaining.ts";
import { contentWords, daysBandWords, daysWords, STORE_WORDS } from "../../fit/stay/say.ts";
import { type Band, type Levels, STORES, type Store, type UseCase } from "../../fit/stay/types.ts";
import { CONNECTED_WATER, completeUse, type Use } from "../../fit/stay/use.ts";
import type { Assumption } from "../../units/estimate.ts";
import { notesOf } from "./notes.ts";
import type { RunEvent, RunLevels } from "./run.ts";
import { bandOver, momentOver, runScenarios, type Scenario } from "./scenarios.ts";
import type {
  Lasts,
  StopSupplies,
  SuppliesInput,
  SuppliesPlan,
  SupplyEvent,
  SupplyStop,
  WaterLedger,
} from "./types.ts";
import { nextChance, type VisitContext, visitsAt } from "./visits.ts";

type ByStore<T> = Readonly<Record<Store, T>>;

const byStore = <T>(make: (store: Store) => T): ByStore<T> =>
  Object.fromEntries(STORES.map((store) => [store, make(store)] as const)) as Record<Store, T>;

const WASTE: readonly Store[] = ["grey", "black"];

interface Shared {
  readonly input: SuppliesInput;
  readonly use: Use;
  readonly sizes: ByStore<number | null>;
  readonly charger: number | null;
  readonly black: { readonly share: number; readonly days: number | null };
  readonly scenarios: readonly Scenario[];
  readonly context: VisitContext;
}

/** What each store holds when full. A propane container is full at four fifths of its size. */
function sizesOf({ rig, stores }: SuppliesInput): ByStore<number | null> {
  const { fresh, grey, black, propane } = rig.tanks;
  return {
    fresh,
    grey,
    black,
    propane: propane === null ? null : propane * table.propane.fullShare,
    battery: stores?.battery ?? null,
    generatorFuel: stores?.generatorFuel ?? null,
  };
}

function startOf({ start }: SuppliesInput): ByStore<number | null> {
  return byStore((store) => {
    const given = start?.[store];
    if (given !== undefined) return given;
    return WASTE.includes(store) ? 0 : 1;
  });
}

function endsOf(stops: readonly SupplyStop[]): number[] {
  let day = 0;
  return stops.map((stop) => {
    day += stop.nights;
    return day;
  });
}

function prepare(input: SuppliesInput): Shared {
  const use = completeUse(input);
  const sizes = sizesOf(input);
  const charger = input.stores?.charger ?? null;
  const { share = table.blackRule.share, days = table.blackRule.days } = input.blackRule ?? {};
  const black = { share, days };
  return {
    input,
    use,
    sizes,
    charger,
    black,
    scenarios: runScenarios(input.stops, use.rates, { sizes, start: startOf(input), charger, black }),
    context: {
      stops: input.stops,
      ends: endsOf(input.stops),
      sizes,
      rates: use.rates.high,
      blackShare: share,
      units: input.units,
    },
  };
}

function levelsOver(scenarios: readonly Scenario[], read: (run: Scenario["run"]) => RunLevels | undefined): Levels {
  return byStore((store) => bandOver(scenarios, (run) => read(run)?.[store] ?? null));
}

function blackWords(stop: SupplyStop, black: Shared["black"], emptied: Band): string {
  if (stop.hookups.sewer === "no") {
    return "Black valve shut: there is no sewer connection; it is emptied at a dump station.";
  }
  const late = black.days === null ? "" : `, or after ${daysWords(black.days)} at the latest`;
  const times = emptied.high === null || emptied.high === 0 ? "" : ` That is up to ${emptied.high} times in this stay.`;
  const join = stop.hookups.sewer === "yes" ? "" : "If the drain can be joined: ";
  return `${join}Black valve shut; emptied when two thirds full${late}, and before leaving; then grey to rinse the hose.${times}`;
}

function greyOf(stop: SupplyStop, shared: Shared): StopSupplies["grey"] {
  if (stop.hookups.sewer !== "yes") {
    return { valve: "closed", why: "Grey valve shut: nothing goes on the ground, grey water neither." };
  }
  const { grey } = shared.sizes;
  const { input, use } = shared;
  // Nobody saves water at a sewer: unless the caller says otherwise the use of connected sites counts for the shut tank.
  const most = input.use?.water === undefined ? CONNECTED_WATER : use.water.high;
  const wash = input.people * Math.max(0, most - use.toilet.low) * (1 - use.offBoard);
  const hours =
    grey === null || wash === 0
      ? ""
      : ` At high use the shut tank is full after ${daysWords(grey / wash)}: not sooner.`;
  return {
    valve: "may run",
    why: `The grey valve may stay open; shut it some hours before leaving, so that there is water to rinse the hose with.${hours}`,
  };
}

function stopOf(shared: Shared, at: number): StopSupplies {
  const { input, scenarios, context } = shared;
  const stop = input.stops[at]!;
  const to = context.ends[at]!;
  const from = to - stop.nights;
  const days = Array.from({ length: stop.nights + 1 }, (_, night) => ({
    day: from + night,
    levels: levelsOver(scenarios, (run) => run.stops[at]?.days[night]?.levels),
  }));
  const arrival = days[0]!.levels;
  const leaving = days[days.length - 1]!.levels;
  const emptied = bandOver(scenarios, (run) => run.stops[at]?.emptied ?? null);
  const nextDump = nextChance(context, at, "dump");
  return {
    id: stop.id,
    name: stop.name,
    from,
    to,
    days,
    after: levelsOver(scenarios, (run) => run.stops[at]?.after),
    remaining: remaining({ levels: arrival, sizes: shared.sizes, rates: shared.use.rates, charger: shared.charger }),
    black: { emptied, why: blackWords(stop, shared.black, emptied) },
    grey: greyOf(stop, shared),
    visits: visitsAt(context, at, leaving),
    nextDump,
    nextFill: nextChance(context, at, "fill"),
    notes: notesOf(stop, nextDump !== null, input.units),
  };
}

const EVENT_WORDS: Readonly<Record<SupplyEvent["kind"], string>> = {
  empty: "is empty",
  full: "is full",
  "two-thirds": "is two thirds full, to be emptied at the next chance,",
};

function eventsOf({ scenarios, input }: Shared): SupplyEvent[] {
  const keyOf = (event: RunEvent) => `${event.stop} ${event.store} ${event.kind}`;
  const first = new Map<string, RunEvent>();
  for (const { run } of scenarios) {
    for (const event of run.events) if (!first.has(keyOf(event))) first.set(keyOf(event), event);
  }
  const made = [...first].map(([key, event]) => {
    const { day, certain } = momentOver(scenarios, (run) => run.events.find((one) => keyOf(one) === key)?.day ?? null);
    const stop = input.stops[event.stop]!;
    const when = certain ? "" : " It does not come to that at every use.";
    const why = `The ${STORE_WORDS[event.store]} ${EVENT_WORDS[event.kind]} at ${stop.name}: ${daysBandWords(day)} after the start.${when}`;
    return { store: event.store, kind: event.kind, stop: stop.id, day, certain, why };
  });
  return made.sort((one, other) => (one.day.low ?? 0) - (other.day.low ?? 0));
}

function lastsOf({ scenarios, sizes, context, input }: Shared): Lasts {
  const { day, certain } = momentOver(scenarios, (run) => run.fails);
  const start = startOf(input);
  const withoutTanks = (["fresh", "grey", "black"] as const).filter(
    (store) => sizes[store] === null || start[store] === null,
  );
  const nights = context.ends[context.ends.length - 1] ?? 0;
  const open =
    withoutTanks.length === 0
      ? ""
      : ` The ${withoutTanks.map((store) => STORE_WORDS[store]).join(" and the ")} cannot be judged: size or content is not on record.`;
  const words =
    day.low === null
      ? `Water and room for used water last the whole trip (${daysWords(nights)}).`
      : `Water, or room for used water, first fails after ${daysBandWords(day)}${certain ? "" : "; at low use it lasts the whole trip"}.`;
  return { day, withoutTanks, why: `${words}${open}` };
}

function ledgers(scenarios: readonly Scenario[]): Readonly<Record<UseCase, WaterLedger>> {
  const of = (use: UseCase) => scenarios.find((one) => one.use === use && one.worst)!.run.ledger;
  return { low: of("low"), expected: of("expected"), high: of("high") };
}

function assumedOf({ input, use, sizes, black }: Shared): Assumption[] {
  const made: Assumption[] = [...use.assumed];
  if (input.blackRule === undefined) {
    const value = `black tank emptied at ${black.share === table.blackRule.share ? "two thirds" : "its share"} or after ${daysWords(table.blackRule.days)}`;
    made.push({ path: "/blackRule", value, source: table.blackRule.source });
  }
  const silent = STORES.filter((store) => input.start?.[store] === undefined && sizes[store] !== null);
  if (silent.length > 0) {
    const words = silent.map((store) => `${STORE_WORDS[store]} ${WASTE.includes(store) ? "empty" : "full"}`);
    made.push({ path: "/start", value: `at the start: ${words.join(", ")}`, source: "assumed" });
  }
  if (sizes.propane !== null) {
    const value = `propane full at ${contentWords("propane", sizes.propane, input.units, "down")}, four fifths of the container`;
    made.push({ path: "/rig/tanks/propane", value, source: table.propane.fullSource });
  }
  if (sizes.battery !== null && input.stores?.charger === undefined) {
    made.push({ path: "/stores/charger", value: "a night on power fills it", source: table.battery.chargedSource });
  }
  if (sizes.generatorFuel !== null) {
    const { pickUp, source, mark } = table.generator;
    made.push({ path: "/stores/generatorFuel", value: pickUp, source: `${source} (${mark})` });
  }
  const lanes = input.stops.flatMap((stop) => stop.stations.flatMap((station) => station.assumed));
  const seen = new Set<string>();
  return [...made, ...lanes].filter((one) => {
    const key = `${one.path} ${one.value}`;
    return seen.has(key) ? false : seen.add(key) !== undefined;
  });
}

const MEASURES: Readonly<Record<Store, readonly [path: string, measure: string]>> = {
  fresh: ["/rig/tanks/fresh", "Read the size of the fresh tank in the rig's handbook or on its plate."],
  grey: ["/rig/tanks/grey", "Read the size of the grey tank in the rig's handbook or on its plate."],
  black: ["/rig/tanks/black", "Read the size of the black tank in the rig's handbook or on its plate."],
  propane: ["/rig/tanks/propane", "Read the size of the propane container on its collar or plate."],
  battery: [
    "/stores/battery",
    "Read the battery's ampere-hours and volts; about what may be drawn its handbook decides.",
  ],
  generatorFuel: ["/stores/generatorFuel", "Read the fuel tank's size, and how deep the generator draws from it."],
};

function unknownsOf({ input, sizes, use }: Shared): SuppliesPlan["unknowns"] {
  const made = STORES.filter((store) => sizes[store] === null)
    .filter((store) => store !== "generatorFuel" || input.rig.generator !== null)
    .map((store) => ({ path: MEASURES[store][0], measure: MEASURES[store][1] }));
  const rates = use.rates.expected;
  if (sizes.propane !== null && rates.propane === null) {
    made.push({
      path: "/use/propane",
      measure: "Give litres of propane a day, or the burners with their input ratings.",
    });
  }
  if (sizes.battery !== null && rates.battery === null) {
    made.push({ path: "/use/battery", measure: "Give the watt-hours a day that are drawn from the battery." });
  }
  return made;
}

function cautionsOf({ input }: Shared): SuppliesPlan["cautions"] {
  const facts = new Set<Parameters<typeof cautionsFor>[0] extends ReadonlySet<infer F> ? F : never>();
  if (input.stops.some((stop) => stop.stations.some((one) => one.kind === "dump"))) facts.add("dump");
  if (input.stops.some((stop) => stop.stations.some((one) => one.kind === "fill"))) facts.add("fill");
  if (input.rig.tanks.grey !== null) facts.add("grey-tank");
  const gas = input.rig.tanks.propane !== null || input.rig.appliances.some((one) => one.fuel !== "electric");
  if (gas) facts.add("propane");
  if (input.rig.generator !== null) facts.add("generator");
  return cautionsFor(facts);
}

/**
 * Plans the supplies of a trip. `people` is a whole number, nights are whole; a rate is given low <= expected <= high.
 * The order of stops matters only through what is carried over from one to the next.
 */
export function planSupplies(input: SuppliesInput): SuppliesPlan {
  const shared = prepare(input);
  const { use } = shared;
  return {
    people: input.people,
    use: { water: use.water, toilet: use.toilet, offBoard: use.offBoard },
    stops: input.stops.map((_, at) => stopOf(shared, at)),
    events: eventsOf(shared),
    lasts: lastsOf(shared),
    ledger: ledgers(shared.scenarios),
    assumed: assumedOf(shared),
    unknowns: unknownsOf(shared),
    cautions: cautionsOf(shared),
  };
}
