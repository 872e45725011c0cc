/** Invented stops and rigs for the supplies. */
import { planSupplies } from "../../../src/trip/supplies/plan.ts";
import type { StationVisit, SuppliesInput, SupplyStop } from "../../../src/trip/supplies/types.ts";
import { rig } from "../../fit/core/builders.ts";

export const coach = rig(
  { connections: [{ service: "sewer", fromRear: 2.1, length: 4.5 }] },
  { tanks: { fresh: 150, grey: 118, black: 97, propane: 45 } },
);

export function stop(id: string, nights: number, more: Partial<SupplyStop["hookups"]> = {}): SupplyStop {
  return {
    id,
    name: `Stop ${id}`,
    nights,
    hookups: { water: "no", sewer: "no", power: "no", tankFill: "no", ...more },
    stations: [],
    temperature: null,
  };
}

export const FULL = { water: "yes", sewer: "yes", power: "yes", tankFill: "yes" } as const;

export function station(kind: "dump" | "fill", more: Partial<StationVisit> = {}): StationVisit {
  return {
    id: `${kind}-1`,
    name: kind === "dump" ? "Dump station" : "Drinking water",
    kind,
    verdict: "fits",
    usable: "yes",
    inletSide: "left",
    needed: 1.9,
    available: 4.5,
    margin: 2.6,
    kit: [],
    drinkable: kind === "fill" ? "yes" : "unknown",
    hours: null,
    fee: null,
    season: null,
    apart: null,
    checks: [],
    why: "",
    unknowns: [],
    assumed: [],
    ...more,
  };
}

export function plan(stops: readonly SupplyStop[], more: Partial<SuppliesInput> = {}) {
  return planSupplies({ rig: coach, people: 2, stops, units: "metric", ...more });
}

export const same = (value: number) => ({ low: value, expected: value, high: value });
