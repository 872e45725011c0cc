/** Days that the rig's tanks last a party at one site, arriving with the fresh tank full and the others empty. */
import type { CompletedRig } from "../../rig/completed.ts";
import type { Known } from "../../site/completed.ts";
import type { Assumption } from "../../units/estimate.ts";
import { remaining } from "./remaining.ts";
import { daysBandWords, STORE_WORDS } from "./say.ts";
import type { Band, Levels, Party, Remaining, StayTank, SupplyHookups } from "./types.ts";
import { completeUse } from "./use.ts";

type Tank = StayTank["store"];

const TANKS: readonly Tank[] = ["fresh", "grey", "black"];
const ENDS: Readonly<Record<Tank, string>> = { fresh: "is empty", grey: "is full", black: "is full" };
const NOT_HELD: Band = { low: null, expected: null, high: null };

const even = (value: number | null): Band => ({ low: value, expected: value, high: value });

function arrivalLevels({ tanks }: CompletedRig): Levels {
  return {
    fresh: even(tanks.fresh),
    grey: even(0),
    black: even(0),
    propane: NOT_HELD,
    battery: NOT_HELD,
    generatorFuel: NOT_HELD,
  };
}

function servedBy(store: Tank, hookups: SupplyHookups): Known {
  return store === "fresh" ? hookups.water : hookups.sewer;
}

const SERVED_WORDS: Readonly<Record<Tank, string>> = {
  fresh: "The site's water is connected, so the fresh tank is not drawn.",
  grey: "The drain is connected, so the grey tank may run.",
  black: "The drain is connected: the black valve stays shut, and the tank is emptied when it is two thirds full.",
};

function tankWords(store: Tank, served: Known, left: Remaining): string {
  const tank = `The ${STORE_WORDS[store]}`;
  if (served === "yes") return SERVED_WORDS[store];
  const doubt = served === "unknown" ? " Whether the site's connection serves instead is not known." : "";
  if (left.status === "endless") return `${tank} is not used.${doubt}`;
  if (left.status === "unknown") return `${tank}'s size is not on record: its days cannot be told.${doubt}`;
  return `${tank} ${ENDS[store]} after ${daysBandWords(left.days)}.${doubt}`;
}

/** The tanks that end the stay before its nights are over, by the fewest days. */
function endsTheStay(tanks: readonly StayTank[], nights: number | null): string {
  if (nights === null) return "";
  const early = tanks.filter((tank) => tank.served !== "yes" && tank.days.low !== null && tank.days.low < nights);
  const names = early.map((tank) => STORE_WORDS[tank.store]).join(" and the ");
  return early.length === 0 ? "" : ` Within ${nights} nights that may come for the ${names}: plan a fill or a dump.`;
}

export interface StayAnswer {
  readonly tanks: readonly StayTank[] | null;
  readonly why: string | null;
  readonly assumed: readonly Assumption[];
}

/** The days of each tank; nothing when no party was given. */
export function stayAnswer(rig: CompletedRig, party: Party | null, hookups: SupplyHookups): StayAnswer {
  if (party === null) return { tanks: null, why: null, assumed: [] };
  const use = completeUse({ people: party.people, use: party.water === null ? {} : { water: party.water } });
  const sizes = { ...rig.tanks, battery: null, generatorFuel: null };
  const left = remaining({ levels: arrivalLevels(rig), sizes, rates: use.rates, charger: null });
  const tanks = TANKS.map((store): StayTank => {
    const served = servedBy(store, hookups);
    const { status, days } = left[store];
    return { store, served, status, days, why: tankWords(store, served, left[store]) };
  });
  const arrives = {
    path: "/options/party",
    value: "arrives with fresh water full and the waste tanks empty",
    source: "assumed",
  };
  // Energy is not asked about here, so what was taken for granted about it is not told either.
  const used = use.assumed
    .filter((one) => one.path !== "/use/generatorHours")
    .map((one) => ({ ...one, path: one.path.replace("/use", "/options/party") }));
  return {
    tanks,
    why: `${tanks.map((tank) => tank.why).join(" ")}${endsTheStay(tanks, party.nights)}`,
    assumed: [arrives, ...used],
  };
}
