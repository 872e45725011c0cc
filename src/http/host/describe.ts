/** From the few things that differ to a whole route for hosts: what every read and every write says of itself. */
import { BODY_PROBLEMS } from "../body.ts";
import type { Limits } from "../limits.ts";
import type { ProblemCode } from "../problem.ts";
import { type Call, type JsonSchema, type Parameter, type Route, schemaRef } from "../route.ts";
import { type ReadAnswer, type Reading, read } from "./reading.ts";
import { type Effect, JSON_TYPE, type WriteRule, type Writing, write } from "./writing.ts";

export const BASE = "/v1/campgrounds/{id}";

export const CAMPGROUND: Parameter = {
  name: "id",
  in: "path",
  description: "Id of the campground.",
  schema: { type: "string", minLength: 1, maxLength: 200 },
};
const KEY: Parameter = {
  name: "Idempotency-Key",
  in: "header",
  required: true,
  description:
    "A fresh key for each write, such as a UUID. The same request under the same key has one effect and gets the same answer again, for a day at least; a refused write keeps no key.",
  schema: { type: "string", minLength: 1, maxLength: 255 },
};
const MATCH: Parameter = {
  name: "If-Match",
  in: "header",
  description: "The ETag that you have seen.",
  schema: { type: "string" },
};

/** A parameter of the query. */
export function query(name: string, description: string, schema: JsonSchema = { type: "string" }): Parameter {
  return { name, in: "query", description, schema };
}

/** A part of the path. */
export function part(name: string, description: string): Parameter {
  return { name, in: "path", description, schema: { type: "string", minLength: 1, maxLength: 200 } };
}

export const READ_PROBLEMS: readonly ProblemCode[] = [
  "unauthorized",
  "forbidden",
  "not-found",
  "invalid-parameter",
  "busy",
];
const WRITE_PROBLEMS: readonly ProblemCode[] = [
  ...READ_PROBLEMS,
  "idempotency-key-missing",
  "idempotency-key-reused",
  "request-in-progress",
  "conflict",
  "invalid-request",
  "storage-full",
];
const MATCH_PROBLEMS: readonly ProblemCode[] = ["precondition-required", "precondition-failed"];

interface Words {
  readonly path: string;
  readonly operationId: string;
  readonly summary: string;
  readonly description: string;
  readonly parameters?: readonly Parameter[];
  /** Component that the answer is. */
  readonly answer: string;
}

/** A route that reads. Its path follows that of the campground. */
export function readRoute(
  words: Words & { readonly problems?: readonly ProblemCode[] },
  answer: (reading: Reading, call: Call) => ReadAnswer | Promise<ReadAnswer>,
): Route {
  const { path, operationId, summary, description, parameters = [] } = words;
  const named = parameters.filter((one) => one.in === "query").map((one) => one.name);
  return {
    method: "GET",
    path: BASE + path,
    operationId,
    tag: "Hosts",
    scope: "read",
    summary,
    description,
    parameters: [CAMPGROUND, ...parameters],
    answer: { description: summary, content: { [JSON_TYPE]: { schema: schemaRef(words.answer) } } },
    conditional: true,
    problems: [...READ_PROBLEMS, ...(words.problems ?? [])],
    handle: (call) => read(call, { scope: "read", parameters: named }, (reading) => answer(reading, call)),
  };
}

interface WriteWords extends Words {
  readonly method: "POST" | "PUT" | "PATCH" | "DELETE";
  readonly scope: "stays" | "records";
  /** Media types and their components; absent for a route without a body. */
  readonly body?: {
    readonly description: string;
    readonly content: Readonly<Record<string, { readonly schema: JsonSchema }>>;
    readonly most: keyof Pick<Limits, "hostBodyBytes" | "importBodyBytes">;
    /** JSON Pointer, in the body, of the list that the ledger is given. */
    readonly base?: string;
  };
  /** True when the write wants If-Match. */
  readonly matched?: boolean;
  readonly status?: 200 | 201;
  /** True when it may make a campground that is not there. */
  readonly mayBeNew?: true;
  readonly problems?: readonly ProblemCode[];
}

/** A route that writes. Its path follows that of the campground. */
export function writeRoute(words: WriteWords, prepare: (writing: Writing) => Effect | Promise<Effect>): Route {
  const { body, matched = false, parameters = [] } = words;
  const named = parameters.filter((one) => one.in === "query").map((one) => one.name);
  const rule = (limits: Limits): WriteRule => ({
    scope: words.scope,
    parameters: named,
    mayBeNew: words.mayBeNew ?? false,
    base: body?.base ?? "",
    body: body === undefined ? null : { mediaTypes: Object.keys(body.content), maxBytes: limits[body.most] },
  });
  return {
    method: words.method,
    path: BASE + words.path,
    operationId: words.operationId,
    tag: "Hosts",
    scope: words.scope,
    summary: words.summary,
    description: words.description,
    parameters: [CAMPGROUND, ...parameters, KEY, ...(matched ? [MATCH] : [])],
    ...(body === undefined ? {} : { requestBody: { description: body.description, content: body.content } }),
    answer: {
      description: words.summary,
      ...(words.status === undefined ? {} : { status: words.status }),
      content: { [JSON_TYPE]: { schema: schemaRef(words.answer) } },
    },
    conditional: false,
    problems: [
      ...WRITE_PROBLEMS,
      ...(body === undefined ? [] : BODY_PROBLEMS),
      ...(matched ? MATCH_PROBLEMS : []),
      ...(words.problems ?? []),
    ],
    handle: (call) => write(call, rule(call.limits), prepare),
  };
}

/** The one media type of most bodies. */
export const jsonContent = (component: string) => ({ [JSON_TYPE]: { schema: schemaRef(component) } });
