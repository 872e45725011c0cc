/** Routes that describe the interface: the OpenAPI document, its reference page and the schemas one by one. */
import { negotiate } from "../negotiate.ts";
import { standalone } from "../openapi/components.ts";
import { documentPage } from "../openapi/document-page.ts";
import { pagePolicy } from "../openapi/page-policy.ts";
import { writeYaml } from "../openapi/yaml.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import { cacheable } from "../representation.ts";
import { type Route, schemaRef } from "../route.ts";
import { PUBLISHED_SCHEMAS } from "../schemas/registry.ts";

const OPENAPI_JSON = "application/vnd.oai.openapi+json;version=3.1";
const JSON_TYPE = "application/json";
const YAML_TYPE = "application/yaml";
const HTML_TYPE = "text/html";
const SCHEMA_TYPE = "application/schema+json";
const ANY_OBJECT = { type: "object" };

export const openapiJsonRoute: Route = {
  method: "GET",
  path: "/openapi.json",
  operationId: "openapiJson",
  tag: "About",
  summary: "This description as JSON",
  description: "OpenAPI 3.1. Given as application/json, because some clients read no other type.",
  answer: { description: "The document.", content: { [JSON_TYPE]: { schema: ANY_OBJECT } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: async ({ request, url, document }) => {
    negotiate(request.headers.get("accept"), [JSON_TYPE, OPENAPI_JSON]);
    refuseParameters(url, []);
    return cacheable(request, JSON.stringify(await document()), JSON_TYPE);
  },
};

export const openapiYamlRoute: Route = {
  method: "GET",
  path: "/openapi.yaml",
  operationId: "openapiYaml",
  tag: "About",
  summary: "This description as YAML",
  description: "The same document as /openapi.json.",
  answer: { description: "The document.", content: { [YAML_TYPE]: { schema: { type: "string" } } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: async ({ request, url, document }) => {
    negotiate(request.headers.get("accept"), [YAML_TYPE]);
    refuseParameters(url, []);
    return cacheable(request, writeYaml(await document()), YAML_TYPE);
  },
};

export const docsRoute: Route = {
  method: "GET",
  path: "/docs",
  operationId: "docs",
  tag: "About",
  summary: "This description as a page to read",
  description: "Plain HTML made from the same document, without script and without anything from elsewhere.",
  answer: { description: "The page.", content: { [HTML_TYPE]: { schema: { type: "string" } } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: async ({ request, url, document }) => {
    negotiate(request.headers.get("accept"), [HTML_TYPE]);
    refuseParameters(url, []);
    return cacheable(request, documentPage(await document()), `${HTML_TYPE}; charset=utf-8`, await pagePolicy());
  },
};

export const schemaListRoute: Route = {
  method: "GET",
  path: "/schemas",
  operationId: "schemas",
  tag: "About",
  summary: "The JSON Schemas that are published",
  description: "Names and addresses.",
  answer: { description: "The list.", content: { [JSON_TYPE]: { schema: schemaRef("SchemaList") } } },
  conditional: true,
  problems: ["invalid-parameter"],
  handle: async ({ request, url, document }) => {
    negotiate(request.headers.get("accept"), [JSON_TYPE]);
    refuseParameters(url, []);
    const { schemas } = (await document()).components;
    const list = Object.entries(PUBLISHED_SCHEMAS).map(([name, component]) => ({
      name,
      href: `/schemas/${name}.json`,
      description: String(schemas[component]?.["description"] ?? ""),
    }));
    return cacheable(request, JSON.stringify({ schemas: list }), JSON_TYPE);
  },
};

export const schemaRoute: Route = {
  method: "GET",
  path: "/schemas/{name}.json",
  operationId: "schema",
  tag: "About",
  summary: "One JSON Schema",
  description: "JSON Schema 2020-12, complete in itself.",
  parameters: [
    {
      name: "name",
      in: "path",
      description: "Name from /schemas.",
      schema: { type: "string", enum: Object.keys(PUBLISHED_SCHEMAS) },
      example: "fit",
    },
  ],
  answer: { description: "The schema.", content: { [SCHEMA_TYPE]: { schema: ANY_OBJECT } } },
  conditional: true,
  problems: ["invalid-parameter", "not-found"],
  handle: async ({ request, url, params, document }) => {
    negotiate(request.headers.get("accept"), [SCHEMA_TYPE, JSON_TYPE]);
    refuseParameters(url, []);
    const name = (params["name"] ?? "").replace(/\.json$/, "");
    const component = Object.hasOwn(PUBLISHED_SCHEMAS, name) ? PUBLISHED_SCHEMAS[name] : undefined;
    if (component === undefined)
      throw new Problem("not-found", "There is no schema of this name. They are listed at /schemas.");
    const schema = standalone((await document()).components.schemas, component, `/schemas/${name}.json`);
    return cacheable(request, JSON.stringify(schema), SCHEMA_TYPE);
  },
};
