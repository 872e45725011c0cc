import { beforeAll, describe, expect, it } from "vitest";
import * as z from "zod";
import { describeApp } from "../../src/http/app.ts";
import { standalone } from "../../src/http/openapi/components.ts";
import { exampleRequests } from "../../src/http/openapi/example-answers.ts";
import { PROBLEMS } from "../../src/http/problem.ts";
import type { OpenApiDocument } from "../../src/http/route.ts";
import { ALL_ROUTES, ROUTES } from "../../src/http/routes/index.ts";
import { openapiText } from "../../src/node/write-openapi.ts";
import { testApp } from "./helpers.ts";

let document: OpenApiDocument;
beforeAll(async () => {
  document = await describeApp("0.1.0");
});

interface Content {
  readonly schema: { readonly $ref?: string };
  readonly examples?: Readonly<Record<string, { readonly value: unknown }>>;
}
interface Operation {
  readonly requestBody?: { readonly content: Readonly<Record<string, Content>> };
  readonly responses: Readonly<
    Record<string, { readonly content?: Readonly<Record<string, Content>>; readonly $ref?: string }>
  >;
}

const operations = (): [string, Operation][] =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]): [string, Operation] => [
      `${method} ${path}`,
      operation as Operation,
    ]),
  );

/** Checks a value against a component by reading the published JSON Schema back, not by the schema that it came from. */
function expectValid(value: unknown, schema: Content["schema"]): void {
  const name = (schema.$ref ?? "").replace("#/components/schemas/", "");
  expect(name).not.toBe("");
  const reader = z.fromJSONSchema(
    standalone(document.components.schemas, name, "") as Parameters<typeof z.fromJSONSchema>[0],
  );
  const result = reader.safeParse(value);
  expect(result.error?.issues ?? []).toEqual([]);
}

describe("openapi.yaml", () => {
  it("is what the source makes of it", async () => {
    const { readFile } = await import("node:fs/promises");
    expect(await readFile(new URL("../../openapi.yaml", import.meta.url), "utf8")).toBe(await openapiText());
  });

  it("names no schema that is not there", () => {
    const text = JSON.stringify(document);
    for (const [, name] of text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      expect(Object.keys(document.components.schemas)).toContain(name);
    }
    expect(text).not.toContain("#/$defs/");
  });

  it("names every problem of the table at some route, and no route a status without a response", () => {
    const used = new Set(ALL_ROUTES.flatMap((route) => route.problems));
    const general = ["method-not-allowed", "not-acceptable", "rate-limited", "internal-error"];
    expect(
      Object.keys(PROBLEMS)
        .filter((code) => !used.has(code as keyof typeof PROBLEMS))
        .sort(),
    ).toEqual(general.sort());
    const responses = Object.keys(document.components["responses"] as object);
    for (const [, operation] of operations()) {
      for (const { $ref } of Object.values(operation.responses)) {
        if ($ref !== undefined) expect(responses).toContain($ref.replace("#/components/responses/", ""));
      }
    }
  });

  it("shows examples that its own schemas accept", () => {
    let seen = 0;
    for (const [, { requestBody, responses }] of operations()) {
      const contents = [requestBody?.content, ...Object.values(responses).map((response) => response.content)];
      for (const content of contents.flatMap((one) => Object.values(one ?? {}))) {
        for (const { value } of Object.values(content.examples ?? {})) {
          if (content.schema.$ref === undefined) continue;
          expectValid(value, content.schema);
          seen += 1;
        }
      }
    }
    expect(seen).toBeGreaterThanOrEqual(6);
  });

  it("shows example requests that are answered", async () => {
    const app = await testApp();
    for (const { path, mediaType, body } of exampleRequests(ROUTES)) {
      const response = await app.request(path, { method: "POST", body, headers: { "Content-Type": mediaType } });
      expect([path, response.status]).toEqual([path, 200]);
    }
  });

  it("describes what every GET without parameters answers", async () => {
    const app = await testApp();
    for (const route of ROUTES.filter((one) => one.method === "GET")) {
      const [mediaType, content] = Object.entries(route.answer.content)[0] ?? ["", { schema: {} }];
      const name = (content.schema as Content["schema"]).$ref;
      if (name === undefined) continue;
      const example = (_: string, name: string) =>
        encodeURIComponent(String(route.parameters?.find((one) => one.name === name)?.example));
      const response = await app.request(route.path.replaceAll(/\{(\w+)\}/g, example));
      expect(response.headers.get("content-type")).toBe(mediaType);
      expectValid(await response.json(), content.schema as Content["schema"]);
    }
  });
});
