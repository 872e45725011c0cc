/** What is wrong with an input, field by field, in words that a caller can act on. */
import * as z from "zod";
import { nearest } from "./nearest.ts";
import type { QuantityFault } from "./parse.ts";

/** Word codes of input errors. */
export type InputFault =
  | QuantityFault
  | "missing"
  | "wrong-type"
  | "unknown-key"
  | "not-in-list"
  | "too-short"
  | "too-many"
  | "bad-form"
  | "conflict"
  | "impossible"
  | "duplicate";

export interface InputError {
  /** JSON Pointer (RFC 6901) from the root of the record. */
  readonly path: string;
  readonly code: InputFault;
  readonly message: string;
  readonly expected: string;
  /** What was found, shortened. */
  readonly got: string;
}

export type PathSegment = string | number;

/** JSON Pointer of a path. */
export function pointer(path: readonly PropertyKey[]): string {
  return path.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

const LONGEST_SHOWN = 60;

/** A value in one short line; never its whole depth. */
export function shorten(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) {
    const keys = Object.keys(value);
    return keys.length === 0 ? "an empty object" : cut(`an object with ${keys.join(", ")}`);
  }
  return cut(typeof value === "string" ? JSON.stringify(value) : String(value));
}

function cut(text: string): string {
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}

/** The value at a path, by own properties only. */
export function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input;
  for (const part of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

/** Keys that an object schema at a path knows, through optional fields, lists and unions. */
export function knownKeysAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): readonly string[] {
  const found = schemasAt(schema, path);
  return found.flatMap((one) => (one instanceof z.core.$ZodObject ? Object.keys(one._zod.def.shape) : []));
}

function schemasAt(schema: z.core.$ZodType, path: readonly PropertyKey[]): z.core.$ZodType[] {
  const [part, ...rest] = path;
  if (
    schema instanceof z.core.$ZodOptional ||
    schema instanceof z.core.$ZodNullable ||
    schema instanceof z.core.$ZodDefault
  ) {
    return schemasAt(schema._zod.def.innerType, path);
  }
  if (schema instanceof z.core.$ZodPipe) return schemasAt(schema._zod.def.in, path);
  if (schema instanceof z.core.$ZodUnion) return schema._zod.def.options.flatMap((option) => schemasAt(option, path));
  if (part === undefined) return [schema];
  if (schema instanceof z.core.$ZodArray) return schemasAt(schema._zod.def.element, rest);
  if (schema instanceof z.core.$ZodObject) {
    const shape: Readonly<Record<string, z.core.$ZodType>> = schema._zod.def.shape;
    const name = String(part);
    const inner = Object.hasOwn(shape, name) ? shape[name] : undefined;
    return inner ? schemasAt(inner, rest) : [];
  }
  return [];
}

function unknownKeys(schema: z.core.$ZodType, issue: z.core.$ZodIssueUnrecognizedKeys, input: unknown): InputError[] {
  const known = knownKeysAt(schema, issue.path);
  return issue.keys.map((key) => {
    const near = nearest(key, known);
    const shown = cut(key);
    return {
      path: pointer([...issue.path, key]),
      code: "unknown-key",
      message: near ? `"${shown}" is not known here. Did you mean "${near}"?` : `"${shown}" is not known here.`,
      expected: `one of ${known.join(", ")}`,
      got: shorten(valueAt(input, [...issue.path, key])),
    };
  });
}

function notInList(values: readonly unknown[], got: unknown): { message: string; expected: string } {
  const words = values.map(String);
  const near = typeof got === "string" ? nearest(got, words) : null;
  const expected = words.length === 1 ? (words[0] ?? "") : `one of ${words.join(", ")}`;
  const lead = got === undefined ? "This is missing" : `${shorten(got)} is not in the list`;
  return {
    message: near ? `${lead}. Did you mean "${near}"?` : `${lead}: write ${expected}.`,
    expected,
  };
}

const TYPE_NOUNS: Readonly<Record<string, string>> = {
  object: "an object",
  array: "a list",
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
};

interface Judged {
  readonly code: InputFault;
  readonly message: string;
  readonly expected: string;
}

function judge(issue: z.core.$ZodIssue, got: unknown): Judged {
  switch (issue.code) {
    case "custom": {
      const fault = issue.params?.["fault"] as InputFault | undefined;
      const expected = issue.params?.["expected"] as string | undefined;
      return { code: fault ?? "bad-form", message: issue.message, expected: expected ?? "" };
    }
    case "invalid_type": {
      const expected = TYPE_NOUNS[issue.expected] ?? issue.expected;
      const ours = issue.message.startsWith("Invalid input") ? null : issue.message;
      if (got === undefined)
        return { code: "missing", message: ours ?? `This is missing: write ${expected}.`, expected };
      return { code: "wrong-type", message: ours ?? `This must be ${expected}.`, expected };
    }
    case "invalid_union":
      return { code: got === undefined ? "missing" : "wrong-type", message: issue.message, expected: issue.message };
    case "invalid_value":
      return { code: got === undefined ? "missing" : "not-in-list", ...notInList(issue.values, got) };
    case "too_big": {
      const many = issue.origin === "array";
      const expected = `at most ${issue.maximum}${many ? " entries" : issue.origin === "string" ? " characters" : ""}`;
      return { code: many ? "too-many" : "too-large", message: `Too much: ${expected} here.`, expected };
    }
    case "too_small": {
      const counted = issue.origin === "array" ? " entries" : issue.origin === "string" ? " characters" : "";
      const expected = `at least ${issue.minimum}${counted}`;
      return { code: counted === "" ? "too-small" : "too-short", message: `Too little: ${expected} here.`, expected };
    }
    default:
      return { code: "bad-form", message: issue.message, expected: issue.message };
  }
}

/** Every issue of a failed parse as an input error, in the order of the schema; one error for each unknown key. */
export function toInputErrors(schema: z.core.$ZodType, error: z.core.$ZodError, input: unknown): InputError[] {
  return error.issues.flatMap((issue): InputError[] => {
    if (issue.code === "unrecognized_keys") return unknownKeys(schema, issue, input);
    const got = valueAt(input, issue.path);
    return [{ path: pointer(issue.path), ...judge(issue, got), got: shorten(got) }];
  });
}
