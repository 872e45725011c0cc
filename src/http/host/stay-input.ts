/** A stay as a host enters it: checked whole, its rig included, every fault at once; and a stay as hosts are told it. */
import { countNights } from "../../ledger/dates.ts";
import type { Stay, StayEntry } from "../../ledger/stays.ts";
import { parseRig } from "../../rig/parse.ts";
import type { ProblemError } from "../problem.ts";
import { type StayRequest, stayRequestSchema } from "../schemas/host.ts";
import { check, inputProblem } from "../validate.ts";

export type ReadStay =
  | { readonly ok: true; readonly id: string | null; readonly entry: StayEntry }
  | { readonly ok: false; readonly errors: readonly ProblemError[] };

export function readStayEntry(value: unknown): ReadStay {
  const checked = check(stayRequestSchema, value);
  const errors: ProblemError[] = checked.ok ? [] : [...checked.errors];
  if (typeof value === "object" && value !== null && "rig" in value) {
    const rig = parseRig(value.rig);
    if (!rig.ok) errors.push(...rig.errors.map((error) => inputProblem(error, "/rig")));
  }
  if (!checked.ok || errors.length > 0) return { ok: false, errors };
  return { ok: true, id: checked.value.id ?? null, entry: entryOf(checked.value, value as Record<string, unknown>) };
}

/** What is asked for is kept as it was entered, units included. */
function entryOf(read: StayRequest, wire: Readonly<Record<string, unknown>>): StayEntry {
  const { id: _id, arrival: _arrival, departure: _departure, status: _status, party: _party, ...asks } = wire;
  return {
    arrival: read.arrival,
    departure: read.departure,
    status: read.status ?? "expected",
    asks,
    party: read.party === undefined ? null : { ...read.party },
  };
}

/** What a host entered, as it would be sent again. */
export function wireOf(stay: Stay): Record<string, unknown> {
  const { arrival, departure, status, asks, party } = stay;
  return { arrival, departure, status, ...asks, ...(party === null ? {} : { party }) };
}

export function stayAnswer(stay: Stay): Record<string, unknown> {
  const { id, version, place } = stay;
  return { id, version, nights: countNights(stay.arrival, stay.departure), ...wireOf(stay), place };
}

export const stayTag = (stay: Stay): string => `"${stay.version}"`;
