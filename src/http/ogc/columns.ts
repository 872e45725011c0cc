/** The columns of a collection: what each property means, in which unit, and whether it can be filtered by. */
import type { JsonSchema } from "../route.ts";

/** `number` may have a fraction and is always written with one, so that a reader does not take it for an integer. */
type ColumnType = "string" | "number" | "integer" | "boolean" | "object";

export interface Column {
  readonly name: string;
  readonly type: ColumnType;
  readonly title: string;
  /** UCUM code; the value is in it. */
  readonly unit?: string;
  readonly words?: readonly string[];
  /** Whether `?name=value` filters by it. */
  readonly queryable?: boolean;
}

export const RECORD_COLUMN: Column = {
  name: "record",
  type: "object",
  title: "The record as it is kept, unknown members included.",
};

const KNOWN = ["yes", "no", "unknown"] as const;

export const known = (name: string, title: string): Column => ({
  name,
  type: "string",
  title,
  words: KNOWN,
  queryable: true,
});

export const word = (name: string, title: string, words?: readonly string[]): Column => ({
  name,
  type: "string",
  title,
  queryable: true,
  ...(words === undefined ? {} : { words }),
});

export const text = (name: string, title: string): Column => ({ name, type: "string", title });

export const measure = (name: string, unit: string, title: string): Column => ({ name, type: "number", title, unit });

/** JSON Schema of one column as a queryable or a parameter; the same for both. */
export function columnSchema({ type, title, unit, words }: Column): JsonSchema {
  return {
    type,
    title,
    ...(words === undefined ? {} : { enum: words }),
    ...(unit === undefined ? {} : { "x-ogc-unit": unit }),
  };
}
