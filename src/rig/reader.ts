/**
 * Reads single fields of a record that may be broken elsewhere, so that rules between fields speak up together with
 * the errors of the fields. A field that cannot be read is null here: its own error is told by the schema.
 */
import type { Dimension, Unit } from "../units/dimension.ts";
import { type PathSegment, valueAt } from "../units/input-error.ts";
import { readQuantity } from "../units/schema.ts";

export interface ReadField {
  readonly low: number;
  readonly high: number;
  /** True when the caller gave a range. */
  readonly range: boolean;
  /** True when the caller gave a number without a unit. */
  readonly bare: boolean;
  readonly unit: Unit;
}

/** A quantity or a range of them at a path. */
export function fieldAt(
  input: unknown,
  path: readonly PathSegment[],
  dimension: Dimension = "length",
): ReadField | null {
  const raw = valueAt(input, path);
  const range = Array.isArray(raw);
  const ends: readonly unknown[] = range ? raw : [raw];
  const [first, second = first] = ends;
  const low = readQuantity(dimension, first);
  const high = readQuantity(dimension, second);
  if (!("value" in low) || !("value" in high)) return null;
  return { low: low.value, high: high.value, range, bare: typeof first === "number", unit: low.unit };
}

/** A size at a path; one of nothing or less is refused elsewhere and binds nothing here. */
export function sizeAt(input: unknown, path: readonly PathSegment[]): ReadField | null {
  const field = fieldAt(input, path);
  return field && field.low > 0 ? field : null;
}

/** The list at a key of the record; empty when there is none. */
export function listAt(input: unknown, key: string): readonly unknown[] {
  const list = valueAt(input, [key]);
  return Array.isArray(list) ? list : [];
}

/** The text at a path, or null. */
export function wordAt(input: unknown, path: readonly PathSegment[]): string | null {
  const value = valueAt(input, path);
  return typeof value === "string" ? value : null;
}
