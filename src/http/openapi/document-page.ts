/** The reference page: the OpenAPI document as plain HTML, with no script and nothing from elsewhere. */
import { PROBLEMS } from "../problem.ts";
import type { JsonSchema, OpenApiDocument } from "../route.ts";

type Node = Readonly<Record<string, unknown>>;

export const PAGE_STYLE = `body{font:16px/1.5 system-ui,sans-serif;max-width:60rem;margin:0 auto;padding:1rem;color:#1c1c1c;background:#fff}
h1,h2,h3{line-height:1.2}h2{border-top:1px solid #999;padding-top:1rem}
code,pre{font:14px/1.4 ui-monospace,monospace}pre{background:#f1f1ee;padding:.75rem;overflow:auto;max-height:30rem}
table{border-collapse:collapse;display:block;overflow:auto}th,td{border:1px solid #999;padding:.3rem .5rem;text-align:left;vertical-align:top}
a{color:#0b4a7a}`;

const SOURCES =
  'The same as <a href="/openapi.json">openapi.json</a> and <a href="/openapi.yaml">openapi.yaml</a>; schemas alone at <a href="/schemas">/schemas</a>.';

/** @param sources HTML that says where else the same description is. */
export function documentPage(document: OpenApiDocument, sources: string = SOURCES): string {
  const info = document["info"] as { title: string; version: string; description: string };
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation: operation as Node })),
  );
  const contents = operations.map(
    ({ path, method, operation }) =>
      `<li><a href="#${escaped(String(operation["operationId"]))}">${escaped(`${method.toUpperCase()} ${path}`)}</a> ${escaped(String(operation["summary"]))}</li>`,
  );
  const schemas = Object.entries(document.components.schemas).map(
    ([name, schema]) => `<h3 id="schema-${escaped(name)}">${escaped(name)}</h3>${describeSchema(schema)}`,
  );
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(info.title)} reference</title><style>${PAGE_STYLE}</style></head><body>
<h1>${escaped(info.title)} reference</h1>
<p>Version ${escaped(info.version)}. ${sources}</p>
${paragraphs(info.description)}
<h2 id="routes">Routes</h2><ul>${contents.join("")}</ul>
${operations.map(describeOperation).join("\n")}
<h2 id="problems">Problems</h2>${problems()}
<h2 id="schemas">Schemas</h2>
${schemas.join("\n")}
</body></html>
`;
}

function describeOperation({ path, method, operation }: { path: string; method: string; operation: Node }): string {
  const parameters = (operation["parameters"] ?? []) as readonly { name: string; in: string; description: string }[];
  const rows = parameters.map(
    (one) =>
      `<tr><td><code>${escaped(one.name)}</code></td><td>${escaped(one.in)}</td><td>${escaped(one.description)}</td></tr>`,
  );
  const body = operation["requestBody"] as { description: string; content: Node } | undefined;
  const responses = operation["responses"] as Readonly<
    Record<string, { description?: string; content?: Node; $ref?: string }>
  >;
  const answers = Object.entries(responses).map(([status, response]) =>
    response.$ref === undefined
      ? `<h4>${escaped(status)}</h4>${paragraphs(response.description ?? "")}${describeContent(response.content)}`
      : `<h4>${escaped(status)}</h4><p><a href="#problems">A problem.</a></p>`,
  );
  return `<section><h2 id="${escaped(String(operation["operationId"]))}"><code>${escaped(`${method.toUpperCase()} ${path}`)}</code></h2>
<p><strong>${escaped(String(operation["summary"]))}</strong></p>${paragraphs(String(operation["description"]))}
${rows.length === 0 ? "" : `<table><tr><th>Parameter</th><th>In</th><th>Meaning</th></tr>${rows.join("")}</table>`}
${body === undefined ? "" : `<h3>Body</h3>${paragraphs(body.description)}${describeContent(body.content)}`}
<h3>Answers</h3>${answers.join("")}</section>`;
}

function describeContent(content: Node | undefined): string {
  return Object.entries(content ?? {})
    .map(([mediaType, value]) => {
      const { schema, examples } = value as {
        schema: JsonSchema;
        examples?: Readonly<Record<string, { summary: string; value: unknown }>>;
      };
      const shown = Object.values(examples ?? {}).map(
        (example) =>
          `<p>${escaped(example.summary)}</p><pre>${escaped(typeof example.value === "string" ? example.value : JSON.stringify(example.value, null, 2))}</pre>`,
      );
      return `<p><code>${escaped(mediaType)}</code>: ${typeOf(schema)}</p>${shown.join("")}`;
    })
    .join("");
}

function describeSchema(schema: JsonSchema): string {
  const members = (schema["properties"] ?? {}) as Readonly<Record<string, JsonSchema>>;
  const required = (schema["required"] ?? []) as readonly string[];
  const about = typeof schema["description"] === "string" ? paragraphs(schema["description"]) : "";
  if (Object.keys(members).length === 0) return `${about}<p>${typeOf(schema)}</p>`;
  const rows = Object.entries(members).map(
    ([name, member]) =>
      `<tr><td><code>${escaped(name)}</code>${required.includes(name) ? " (required)" : ""}</td><td>${typeOf(member)}</td><td>${escaped(String(member["description"] ?? ""))}</td></tr>`,
  );
  return `${about}<table><tr><th>Member</th><th>Type</th><th>Meaning</th></tr>${rows.join("")}</table>`;
}

/** A schema in few words, with links to those that have a name. */
function typeOf(schema: JsonSchema | boolean): string {
  if (typeof schema === "boolean") return schema ? "anything" : "nothing";
  const name = /^#\/components\/schemas\/(.+)$/.exec(String(schema["$ref"] ?? ""))?.[1];
  if (name !== undefined) return `<a href="#schema-${escaped(name)}">${escaped(name)}</a>`;
  const choices = (schema["anyOf"] ?? schema["oneOf"]) as readonly JsonSchema[] | undefined;
  if (choices !== undefined) return [...new Set(choices.map(typeOf))].join(" or ");
  if (Array.isArray(schema["enum"]))
    return schema["enum"].map((word) => `<code>${escaped(JSON.stringify(word))}</code>`).join(", ");
  if ("const" in schema) return `<code>${escaped(JSON.stringify(schema["const"]))}</code>`;
  if (Array.isArray(schema["prefixItems"])) return `[${schema["prefixItems"].map(typeOf).join(", ")}]`;
  if (schema["type"] === "array") return `array of ${typeOf((schema["items"] ?? {}) as JsonSchema)}`;
  if (schema["type"] === "object") {
    const members = Object.keys((schema["properties"] ?? {}) as JsonSchema);
    return members.length === 0 ? "object" : `object {${members.map(escaped).join(", ")}}`;
  }
  return escaped(Array.isArray(schema["type"]) ? schema["type"].join(" or ") : String(schema["type"] ?? "anything"));
}

function problems(): string {
  const rows = Object.entries(PROBLEMS).map(
    ([code, kind]) =>
      `<tr id="problem-${code}"><td><code>${code}</code></td><td>${kind.status}</td><td>${escaped(kind.title)}. ${escaped(kind.meaning)}</td></tr>`,
  );
  return `<table><tr><th>Code</th><th>Status</th><th>Meaning</th></tr>${rows.join("")}</table>`;
}

function paragraphs(text: string): string {
  return text
    .split("\n\n")
    .map((paragraph) => `<p>${escaped(paragraph).replaceAll(/`([^`]+)`/g, "<code>$1</code>")}</p>`)
    .join("");
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
