/**
 * The description of the geodata interface alone as OpenAPI 3.0: its clients read that version, look for the paths of
 * the standard without a prefix, and for the parameters of each collection at a path of its own.
 */
import * as z from "zod";
import { PROBLEM_MEDIA_TYPE, PROBLEMS } from "../problem.ts";
import type { JsonSchema, OpenApiDocument, Parameter, Route } from "../route.ts";
import { problemSchema } from "../schemas/about.ts";
import { OGC_SCHEMAS } from "../schemas/ogc.ts";
import { ROOT } from "./answer.ts";
import { COLLECTIONS, type Collection } from "./collections.ts";
import { queryParameters } from "./describe.ts";

const OPENAPI = "3.0.3";
const REFERENCE = "#/components/schemas/";
/** Where the generator puts schemas that others share. */
const SHARED_PARTS = "__shared";
const COLLECTION_PART = "{collectionId}";

export function apiDocument(routes: readonly Route[], version: string, origin: string): OpenApiDocument {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const route of routes) {
    const path = route.path.slice(ROOT.length) || "/";
    if (!path.includes(COLLECTION_PART)) paths[path] = { get: operation(route, null) };
    else for (const one of COLLECTIONS) paths[path.replace(COLLECTION_PART, one.id)] = { get: operation(route, one) };
  }
  return {
    openapi: OPENAPI,
    info: { title: "Padwright geodata", version, description: "OGC API Features over the stored campgrounds." },
    servers: [{ url: origin + ROOT }],
    paths,
    components: { schemas: schemas() },
  };
}

function operation(route: Route, collection: Collection | null): Record<string, unknown> {
  const parameters = (route.parameters ?? []).filter(({ name }) => name !== "collectionId" && name !== "queryables");
  if (collection !== null && route.operationId === "ogcItems") parameters.push(...queryParameters(collection));
  const problems = [...route.problems, "not-acceptable", "rate-limited", "internal-error"] as const;
  const statuses = [...new Set(problems.map((code) => PROBLEMS[code].status))].sort((a, b) => a - b);
  return {
    operationId: collection === null ? route.operationId : `${route.operationId}-${collection.id}`,
    summary: collection === null ? route.summary : `${route.summary}: ${collection.id}`,
    description: route.description,
    parameters: parameters.map(plainParameter),
    responses: {
      "200": { description: route.answer.description, content: route.answer.content },
      "304": { description: "If-None-Match names the present entity tag." },
      ...Object.fromEntries(statuses.map((status) => [String(status), problemResponse(status)])),
    },
  };
}

/** Every path parameter is required, and here each says whether it is. */
function plainParameter({ required, ...parameter }: Parameter): Parameter {
  return { ...parameter, required: required ?? parameter.in === "path" };
}

function problemResponse(status: number): Record<string, unknown> {
  const codes = Object.entries(PROBLEMS).filter(([, problem]) => problem.status === status);
  return {
    description: codes.map(([code, { title }]) => `\`${code}\`: ${title}.`).join(" "),
    content: { [PROBLEM_MEDIA_TYPE]: { schema: { $ref: `${REFERENCE}Problem` } } },
  };
}

function schemas(): Record<string, JsonSchema> {
  const registry = z.registry<{ id: string }>();
  for (const [id, schema] of OGC_SCHEMAS) registry.add(schema, { id });
  registry.add(problemSchema, { id: "Problem" });
  const made = z.toJSONSchema(registry, { target: "openapi-3.0", io: "output", uri: (id) => REFERENCE + id });
  const { [SHARED_PARTS]: shared, ...named } = made.schemas as unknown as Record<string, JsonSchema>;
  const all = { ...named, ...(shared?.["definitions"] as Record<string, JsonSchema> | undefined) };
  const text = JSON.stringify(all).replaceAll(`${REFERENCE}${SHARED_PARTS}#/definitions/`, REFERENCE);
  const plain = JSON.parse(text) as Record<string, JsonSchema>;
  return Object.fromEntries(Object.entries(plain).map(([id, { $id: _address, id: _name, ...schema }]) => [id, schema]));
}
