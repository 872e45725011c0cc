/** Checks a value against a zod schema and words every fault for a problem: pointer, code, what was expected. */
import * as z from "zod";
import { pointerStep } from "../records/json.ts";
import { nearestWord } from "./nearest.ts";
import { type ProblemError, shortly } from "./problem.ts";

export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly errors: readonly ProblemError[] };

type JsonSchema = { [key: string]: unknown };
type Issue = z.core.$ZodIssue;

/** @param prefix JSON Pointer of `value` in the body. */
export function check<T extends z.ZodType>(schema: T, value: unknown, prefix = ""): Checked<z.output<T>> {
  const parsed = schema.safeParse(value);
  if (parsed.success) return { ok: true, value: parsed.data };
  const known = jsonSchemaOf(schema);
  return { ok: false, errors: parsed.error.issues.flatMap((issue) => wordIssue(issue, value, prefix, known)) };
}

/** Words one issue; a union's issue is worded by the branch that went furthest, because that is what was meant. */
export function wordIssue(issue: Issue, root: unknown, prefix: string, schema: JsonSchema): ProblemError[] {
  const path = issue.path.map((step) => (typeof step === "symbol" ? String(step) : step));
  const pointer = prefix + path.map(pointerStep).join("");
  const got = valueAt(root, path);
  const found = shortly(got);
  const base = { pointer, ...(found === undefined ? {} : { got: found }) };
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => unknownKey(key, pointer, keysAt(schema, path)));
    case "invalid_type":
      if (got === undefined) {
        return [{ pointer, code: "missing", message: "This member is required.", expected: issue.expected }];
      }
      return [
        {
          ...base,
          code: "wrong-type",
          message: `A value of type ${issue.expected} is wanted.`,
          expected: issue.expected,
        },
      ];
    case "invalid_value": {
      const expected = issue.values.map((allowed) => JSON.stringify(allowed)).join(", ");
      const nearest = typeof got === "string" ? nearestWord(got, issue.values.map(String)) : null;
      const hint = nearest === null ? "" : ` Did you mean "${nearest}"?`;
      return [{ ...base, code: "not-one-of", message: `Not one of the accepted words.${hint}`, expected }];
    }
    case "too_small":
      return [
        {
          ...base,
          code: "out-of-range",
          message: issue.message,
          expected: bound(issue, issue.minimum, "at least", "more than"),
        },
      ];
    case "too_big":
      return [
        {
          ...base,
          code: "out-of-range",
          message: issue.message,
          expected: bound(issue, issue.maximum, "at most", "less than"),
        },
      ];
    case "invalid_union": {
      const branch = furthest(issue.errors);
      if (branch === undefined) {
        if (got === undefined) return [{ pointer, code: "missing", message: issue.message }];
        return [{ ...base, code: "wrong-type", message: issue.message }];
      }
      return branch.flatMap((inner) =>
        wordIssue({ ...inner, path: [...issue.path, ...inner.path] }, root, prefix, schema),
      );
    }
    case "custom": {
      const { fault, expected } = issue.params ?? {};
      return [
        {
          ...base,
          code: typeof fault === "string" ? fault : "invalid",
          message: issue.message,
          ...(typeof expected === "string" ? { expected } : {}),
        },
      ];
    }
    default:
      return [{ ...base, code: "invalid", message: issue.message }];
  }
}

/** An error for a key that the schema does not have. */
export function unknownKey(key: string, parent: string, known: readonly string[]): ProblemError {
  const shown = key.slice(0, LONGEST_KEY);
  const nearest = nearestWord(key, known);
  return {
    pointer: parent + pointerStep(shown),
    code: "unknown-key",
    message: nearest === null ? "This member is not known." : `This member is not known. Did you mean "${nearest}"?`,
    ...(known.length > 0 ? { expected: known.join(", ") } : {}),
  };
}

const LONGEST_KEY = 60;

function bound(
  issue: { inclusive?: boolean | undefined; origin: string },
  limit: number | bigint,
  with_: string,
  without: string,
): string {
  const what = issue.origin === "string" ? " characters" : issue.origin === "array" ? " items" : "";
  return `${issue.inclusive === false ? without : with_} ${limit}${what}`;
}

/** The branch with the deepest fault; undefined when every branch fails at the value itself. */
function furthest(branches: readonly (readonly Issue[])[]): readonly Issue[] | undefined {
  let best: readonly Issue[] | undefined;
  let depth = 0;
  for (const branch of branches) {
    const reached = Math.max(
      ...branch.map((issue) => issue.path.length + (issue.code === "unrecognized_keys" ? 1 : 0)),
    );
    if (reached > depth) {
      best = branch;
      depth = reached;
    }
  }
  return best;
}

function valueAt(root: unknown, path: readonly (string | number)[]): unknown {
  let value = root;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

const jsonSchemas = new WeakMap<z.ZodType, JsonSchema>();

function jsonSchemaOf(schema: z.ZodType): JsonSchema {
  let known = jsonSchemas.get(schema);
  if (known === undefined) {
    known = z.toJSONSchema(schema, { io: "input", unrepresentable: "any", reused: "inline" }) as JsonSchema;
    jsonSchemas.set(schema, known);
  }
  return known;
}

/** The member names that a JSON Schema knows at a path. */
export function keysAt(schema: JsonSchema, path: readonly (string | number)[]): string[] {
  let nodes = spread(schema, schema);
  for (const step of path) nodes = nodes.flatMap((node) => child(node, step)).flatMap((node) => spread(node, schema));
  return [...new Set(nodes.flatMap((node) => Object.keys((node["properties"] ?? {}) as JsonSchema)))];
}

/** A node with the branches of its unions and the target of its reference. */
function spread(node: JsonSchema, root: JsonSchema): JsonSchema[] {
  const name = /^#\/\$defs\/(.+)$/.exec(String(node["$ref"] ?? ""))?.[1];
  const target = name === undefined ? undefined : (root["$defs"] as Record<string, JsonSchema> | undefined)?.[name];
  const inner = [node["anyOf"], node["oneOf"], node["allOf"]].filter(Array.isArray).flat() as JsonSchema[];
  return [node, ...(target === undefined ? [] : [target]), ...inner].flatMap((one) =>
    one === node ? [one] : spread(one, root),
  );
}

function child(node: JsonSchema, step: string | number): JsonSchema[] {
  const found = typeof step === "number" ? node["items"] : (node["properties"] as JsonSchema | undefined)?.[step];
  return typeof found === "object" && found !== null ? [found as JsonSchema] : [];
}
