/** Named JSON Schemas, gathered from zod schemas and ready ones into one flat namespace. */
import * as z from "zod";
import type { JsonSchema } from "../route.ts";

type Schemas = Record<string, JsonSchema>;

const DEFINITIONS = "#/$defs/";
/** What a reference to a component starts with. */
export const COMPONENT_REFERENCE = "#/components/schemas/";

/**
 * The JSON Schema of a zod schema. Quantities are unions of a number and a string that end in a transform: the input
 * side of a request and the output side of an answer are what travels.
 */
export function fromZod(schema: z.ZodType, io: "input" | "output"): JsonSchema {
  return z.toJSONSchema(schema, {
    target: "draft-2020-12",
    io,
    unrepresentable: "any",
    override: ({ jsonSchema }) => {
      // A read-only array in the code says nothing about who may write the member.
      delete jsonSchema.readOnly;
    },
  }) as JsonSchema;
}

/** Adds a schema under a name; its own definitions become components of their own. */
export function addComponent(schemas: Schemas, name: string, schema: JsonSchema): void {
  const { $defs, $schema: _dialect, $id: _id, id: _zodId, ...own } = schema;
  const definitions = ($defs ?? {}) as Schemas;
  // A schema that bears a name itself is a mere reference to its definition.
  const body = own["$ref"] === DEFINITIONS + name ? definitionOf(definitions, name) : own;
  for (const [inner, definition] of Object.entries(definitions)) {
    // Two schemas may share a definition; it is the same one, because its name is given where it is made.
    if (inner !== name) addComponent(schemas, inner, definition);
  }
  schemas[name] = mapReferences(body, (reference) => {
    if (reference === "#") return COMPONENT_REFERENCE + name;
    return reference.startsWith(DEFINITIONS) ? COMPONENT_REFERENCE + reference.slice(DEFINITIONS.length) : reference;
  });
}

function definitionOf(definitions: Schemas, name: string): JsonSchema {
  const { id: _zodId, ...body } = definitions[name] ?? {};
  return body;
}

/** A component as a document of its own, with what it refers to under `$defs`. */
export function standalone(schemas: Readonly<Schemas>, name: string, address: string): JsonSchema {
  const needed = new Map<string, JsonSchema>();
  const local = (reference: string): string => {
    if (!reference.startsWith(COMPONENT_REFERENCE)) return reference;
    const target = reference.slice(COMPONENT_REFERENCE.length);
    if (target === name) return "#";
    const definition = schemas[target];
    if (definition !== undefined && !needed.has(target)) {
      needed.set(target, {});
      needed.set(target, mapReferences(definition, local));
    }
    return DEFINITIONS + target;
  };
  const body = mapReferences(schemas[name] ?? {}, local);
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    $id: address,
    ...body,
    ...(needed.size > 0 ? { $defs: Object.fromEntries([...needed].sort(byName)) } : {}),
  };
}

const byName = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number => (a < b ? -1 : 1);

/** A copy in which a part that is written out again, word for word, refers to the component that it repeats. */
export function shareRepeats(schema: JsonSchema, named: ReadonlyMap<string, string>): JsonSchema {
  const visit = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(visit);
    if (typeof value !== "object" || value === null) return value;
    const name = named.get(JSON.stringify(value));
    if (name !== undefined) return { $ref: COMPONENT_REFERENCE + name };
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, visit(inner)]));
  };
  return Object.fromEntries(Object.entries(schema).map(([key, inner]) => [key, visit(inner)]));
}

/** A copy in which every `$ref` is rewritten. */
function mapReferences(schema: JsonSchema, rewrite: (reference: string) => string): JsonSchema {
  return mapValue(schema, rewrite) as JsonSchema;
}

function mapValue(value: unknown, rewrite: (reference: string) => string): unknown {
  if (Array.isArray(value)) return value.map((item) => mapValue(item, rewrite));
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) =>
    key === "$ref" && typeof inner === "string" ? [key, rewrite(inner)] : [key, mapValue(inner, rewrite)],
  );
  return Object.fromEntries(entries) as unknown;
}

/**
 * Marks a member whose schema lives elsewhere: it is checked by its own room, and the document refers to it. The
 * reference travels in the metadata, which zod copies into the JSON Schema.
 */
export const external = (name: string, description: string) =>
  z.unknown().meta({ description, $ref: COMPONENT_REFERENCE + name });
