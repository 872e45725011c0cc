/** From anything at all to a trip or a desk request, or to every error in it at once. */
import type * as z from "zod";
import { type InputError, pointer, toInputErrors, valueAt } from "../units/input-error.ts";
import { type DeskRequest, deskSchema, type TripRequest, tripSchema } from "./request.ts";
import { brokenTripRules } from "./rules.ts";

type Parsed<T> = { readonly value: T | null; readonly errors: readonly InputError[] };

function parse<T extends z.ZodType>(schema: T, input: unknown, ruled: readonly InputError[]): Parsed<z.output<T>> {
  const parsed = schema.safeParse(input);
  const fields = parsed.success ? [] : toInputErrors(schema, parsed.error, input);
  const told = new Set(fields.map((error) => error.path));
  const errors = [...fields, ...ruled.filter((error) => !told.has(error.path))];
  return { value: parsed.success ? parsed.data : null, errors };
}

function fault(path: string, code: InputError["code"], message: string, expected: string): InputError {
  return { path, code, message, expected, got: "" };
}

/** Ids of a list that stand in it twice. */
function twice(input: unknown, key: string): InputError[] {
  const list = valueAt(input, [key]);
  if (!Array.isArray(list)) return [];
  const seen = new Set<unknown>();
  return list.flatMap((_, index) => {
    const id = valueAt(input, [key, index, "id"]);
    const again = id !== undefined && seen.has(id);
    seen.add(id);
    const path = pointer([key, index, "id"]);
    return again ? [fault(path, "duplicate", "Another entry has this id.", "an id of its own")] : [];
  });
}

function unknownUnit(input: unknown, path: readonly (string | number)[]): InputError[] {
  const fleet = valueAt(input, ["fleet"]);
  const unit = valueAt(input, path);
  if (unit === undefined || !Array.isArray(fleet)) return [];
  const ids = fleet.map((_, index) => valueAt(input, ["fleet", index, "id"]));
  if (ids.includes(unit)) return [];
  const expected = `one of ${ids.filter((id) => typeof id === "string").join(", ")}`;
  return [fault(pointer(path), "not-in-list", "The fleet has no unit of this id.", expected)];
}

/** The value is given when the envelope can be read; `errors` is empty when nothing at all is wrong with it. */
export function parseTrip(input: unknown): Parsed<TripRequest> {
  const given = (key: string) => valueAt(input, [key]) !== undefined;
  const own: InputError[] = [];
  if (!given("rig") && !given("fleet"))
    own.push(fault("/rig", "missing", "No rig is given.", "rig, or fleet and unit"));
  if (given("rig") && given("fleet")) own.push(fault("/fleet", "conflict", "A trip has one rig.", "rig, or fleet"));
  if (given("fleet") && !given("unit"))
    own.push(fault("/unit", "missing", "Which unit of the fleet goes is not said.", "an id of the fleet"));
  if (given("unit") && !given("fleet")) own.push(fault("/unit", "conflict", "A unit wants its fleet.", "fleet"));
  return parse(tripSchema, input, [
    ...own,
    ...twice(input, "fleet"),
    ...unknownUnit(input, ["unit"]),
    ...brokenTripRules(input),
  ]);
}

/** As `parseTrip`, for a desk. */
export function parseDesk(input: unknown): Parsed<DeskRequest> {
  const trips = valueAt(input, ["trips"]);
  const ruled = Array.isArray(trips)
    ? trips.flatMap((_, index) => [
        ...brokenTripRules(input, ["trips", index]),
        ...unknownUnit(input, ["trips", index, "unit"]),
      ])
    : [];
  return parse(deskSchema, input, [...twice(input, "fleet"), ...twice(input, "trips"), ...ruled]);
}
