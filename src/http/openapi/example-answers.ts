/** Runs the example requests of the description against an application that holds the example campground. */

import { memoryStore } from "../../records/store.ts";
import { NDJSON_TYPE } from "../batch/stream.ts";
import type { Dependencies, Route } from "../route.ts";
import type { ExampleAnswers } from "./document.ts";
import { EXAMPLE_COLLECTION } from "./examples.ts";

export interface ExampleRequest {
  readonly operationId: string;
  readonly name: string;
  readonly path: string;
  readonly mediaType: string;
  readonly body: string;
}

/** Every example body of every route. */
export function exampleRequests(routes: readonly Route[]): ExampleRequest[] {
  return routes.flatMap(({ operationId, path, requestBody }) =>
    Object.entries(requestBody?.content ?? {}).flatMap(([mediaType, { examples }]) =>
      Object.entries(examples ?? {}).map(([name, { value }]) => ({
        operationId,
        name,
        path,
        mediaType,
        body: typeof value === "string" ? value : JSON.stringify(value),
      })),
    ),
  );
}

export interface Answering {
  readonly request: (path: string, init: RequestInit) => Response | Promise<Response>;
}

/** What an application needs to hold the example campground and nothing else. */
export async function exampleDependencies(version: string): Promise<Dependencies> {
  const { store } = await memoryStore([{ name: "example", input: EXAMPLE_COLLECTION }]);
  return { store, clock: () => 0, now: () => 0, requestId: () => "2f0f6c1e-8f0a-4a51-9d0b-5a4c1d9d7b11", version };
}

/** The answer to the first example of each route that has one. Throws when an example is refused. */
export async function exampleAnswers(app: Answering, routes: readonly Route[]): Promise<ExampleAnswers> {
  const answers: Record<string, unknown> = {};
  for (const { operationId, name, path, mediaType, body } of exampleRequests(routes)) {
    if (operationId in answers) continue;
    const response = await app.request(path, { method: "POST", body, headers: { "Content-Type": mediaType } });
    const text = await response.text();
    if (response.status !== 200) throw new Error(`The example "${name}" of ${path} is refused: ${text}`);
    // Of an answer that is a sequence, its first row.
    const isSequence = response.headers.get("content-type") === NDJSON_TYPE;
    answers[operationId] = JSON.parse(isSequence ? (text.split("\n", 1)[0] ?? "") : text) as unknown;
  }
  return answers;
}
