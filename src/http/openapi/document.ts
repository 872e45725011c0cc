/**
 * The OpenAPI 3.1 document, built from the same route table that serves and the same zod schemas that check.
 *
 * The route table is our own, because the checks of a rig and of a site live in their rooms and gather every fault of
 * both before anything is answered; a router that validates each part by itself could not say them all at once.
 */
import { PROBLEM_MEDIA_TYPE, PROBLEMS, type ProblemCode, problemType } from "../problem.ts";
import { type JsonSchema, type OpenApiDocument, type Route, schemaRef } from "../route.ts";
import { componentSchemas } from "../schemas/registry.ts";

const PROBLEMS_OF_ALL: readonly ProblemCode[] = ["not-acceptable", "rate-limited", "internal-error"];

const TAGS = [
  { name: "Fit", description: "Will this rig hook up at that site, and which sites suit it." },
  { name: "Records", description: "Campground records, and bringing open map data into them." },
  {
    name: "Geodata",
    description:
      "The stored records as OGC API Features, read only, for geographic information systems. Its own description in OpenAPI 3.0 is at /ogc/api.",
  },
  {
    name: "Hosts",
    description:
      "For the hosts of a campground, where a ledger is kept: records, stays, who stands where. Wants a bearer token with the scope that is named; every write names an Idempotency-Key.",
  },
  { name: "Trips", description: "One rig through several stops, and a fleet with its bookings." },
  { name: "About", description: "The words, caps, schemas and description of this interface." },
];

const DESCRIPTION = `Will this rig hook up at that campsite, by how much does every line reach, what must be in the kit, and how should the rig be parked.

Numbers are SI (metres, litres, volts, amperes, watts, pascals); a string carries its unit ("25 ft", "7.6 m"). Angles and bearings are degrees. Positions on a site are in its pad frame: \`along\` from the middle of the pad's rear edge to the exit, \`left\` of someone looking along it.

"Does not fit" is an answer (200), never an error. Missing data gives \`unknown\`, never yes or no. Errors are problem details (RFC 9457) and list every fault at once. Answers rest on records: test voltage, polarity and ground before connecting, and follow local codes.

Members and words may be added to answers at any time, and optional members to requests: readers pass over what they do not know. What is taken away or changes its meaning comes under a new path. The old one then says so with the headers Deprecation (RFC 9745) and Sunset (RFC 8594) for half a year at least, names what takes its place in Link, and answers as before until that day.

Where limits per caller are set, every answer carries \`RateLimit-Policy\` (units, seconds) and \`RateLimit\` (what is left, seconds until there is more), as in the Internet-Draft draft-ietf-httpapi-ratelimit-headers; beyond them comes 429 with Retry-After. A request is one unit; a batch is one for every twenty fits. The caller is the bearer of a valid token, else the address.`;

/** Answers to the example requests, by operation; written by running them. */
export type ExampleAnswers = Readonly<Record<string, unknown>>;

export function buildDocument(routes: readonly Route[], version: string, answers: ExampleAnswers): OpenApiDocument {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const route of routes) {
    paths[route.path] = {
      ...paths[route.path],
      [route.method.toLowerCase()]: operation(route, answers[route.operationId]),
    };
  }
  return {
    openapi: "3.1.0",
    info: {
      title: "Padwright",
      version,
      description: DESCRIPTION,
      license: { name: "All rights reserved", identifier: "LicenseRef-All-rights-reserved" },
    },
    servers: [{ url: "/", description: "The service that gave this document." }],
    security: [],
    tags: TAGS,
    paths,
    components: {
      schemas: componentSchemas(),
      responses: problemResponses(routes),
      headers: HEADERS,
      securitySchemes: {
        bearer: {
          type: "http",
          scheme: "bearer",
          description:
            "A token of the command line (`padwright token create`), or a JSON Web Token of the identity provider whose claim `padwright` gives scopes (read, stays, records) by campground id.",
        },
      },
    },
  };
}

function operation(route: Route, answer: unknown): Record<string, unknown> {
  const statuses = [...new Set(problemsOf(route).map((code) => PROBLEMS[code].status))].sort((a, b) => a - b);
  return {
    operationId: route.operationId,
    tags: [route.tag],
    summary: route.summary,
    description: route.description,
    ...(route.deprecated === undefined ? {} : { deprecated: true }),
    ...(route.scope === undefined ? {} : { security: [{ bearer: [route.scope] }] }),
    ...(route.parameters === undefined
      ? {}
      : { parameters: route.parameters.map((one) => ({ ...one, required: one.required ?? one.in === "path" })) }),
    ...(route.requestBody === undefined
      ? {}
      : {
          requestBody: {
            required: true,
            description: route.requestBody.description,
            content: route.requestBody.content,
          },
        }),
    responses: {
      [String(route.answer.status ?? 200)]: {
        description: route.answer.description,
        headers: {
          "Request-Id": { $ref: "#/components/headers/Request-Id" },
          ...(route.conditional ? { ETag: { $ref: "#/components/headers/ETag" } } : {}),
          ...(route.paged === true ? { Link: { $ref: "#/components/headers/Link" } } : {}),
        },
        content: answer === undefined ? route.answer.content : withExample(route.answer.content, answer),
      },
      ...(route.conditional ? { "304": { description: "If-None-Match names the present ETag." } } : {}),
      ...Object.fromEntries(
        statuses.map((status) => [String(status), { $ref: `#/components/responses/Problem${status}` }]),
      ),
    },
  };
}

/** The first media type of an answer, with the answer to the first example request. */
function withExample(content: Route["answer"]["content"], answer: unknown): Record<string, unknown> {
  const [first, ...others] = Object.entries(content);
  if (first === undefined) return content;
  const examples = { example: { summary: "The answer to the first example request", value: answer } };
  return Object.fromEntries([[first[0], { ...first[1], examples }], ...others]);
}

function problemsOf(route: Route): readonly ProblemCode[] {
  return [...new Set([...route.problems, ...PROBLEMS_OF_ALL])];
}

/** One response a status, which names the problems of that status. */
function problemResponses(routes: readonly Route[]): Record<string, unknown> {
  const codes = [...new Set(routes.flatMap(problemsOf))].sort();
  const responses: Record<string, unknown> = {};
  for (const status of [...new Set(codes.map((code) => PROBLEMS[code].status))].sort((a, b) => a - b)) {
    const here = codes.filter((code) => PROBLEMS[code].status === status);
    responses[`Problem${status}`] = {
      description: here.map((code) => `\`${code}\`: ${PROBLEMS[code].meaning}`).join("\n\n"),
      headers: { "Request-Id": { $ref: "#/components/headers/Request-Id" } },
      content: {
        [PROBLEM_MEDIA_TYPE]: {
          schema: schemaRef("Problem"),
          examples: Object.fromEntries(
            here.map((code) => [code, { summary: PROBLEMS[code].title, value: example(code) }]),
          ),
        },
      },
    };
  }
  return responses;
}

function example(code: ProblemCode): Record<string, unknown> {
  return {
    type: problemType(code),
    title: PROBLEMS[code].title,
    status: PROBLEMS[code].status,
    detail: PROBLEMS[code].meaning,
    instance: "urn:uuid:2f0f6c1e-8f0a-4a51-9d0b-5a4c1d9d7b11",
    code,
    errors: [],
    errorCount: 0,
  };
}

const HEADERS: Readonly<Record<string, { description: string; schema: JsonSchema }>> = {
  "Request-Id": {
    description: "UUID of this request, as in a problem's `instance`.",
    schema: { type: "string", format: "uuid" },
  },
  ETag: { description: "Strong entity tag; send it back as If-None-Match.", schema: { type: "string" } },
  Link: { description: "RFC 8288 links: `self`, and `next` while pages remain.", schema: { type: "string" } },
};
