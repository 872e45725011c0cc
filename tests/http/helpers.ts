import { createApp, type Dependencies } from "../../src/http/app.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { memoryStore, type RecordSource } from "../../src/records/store.ts";

const NOW = Date.UTC(2026, 6, 4, 12);
const REQUEST_ID = "3a0c4d5e-6f70-4812-9a3b-4c5d6e7f8091";

export async function testApp(sources?: readonly RecordSource[], more: Partial<Dependencies> = {}) {
  const { store } = await memoryStore(sources ?? [{ name: "example", input: EXAMPLE_COLLECTION }]);
  return createApp({
    store,
    clock: () => 0,
    now: () => NOW,
    requestId: () => REQUEST_ID,
    version: "0.1.0-test",
    ...more,
  });
}

export type TestApp = Awaited<ReturnType<typeof testApp>>;

export interface ProblemBody {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance: string;
  readonly code: string;
  readonly errors: readonly {
    pointer?: string;
    parameter?: string;
    header?: string;
    code: string;
    message: string;
    expected?: string;
    got?: string;
  }[];
  readonly errorCount: number;
}

export function post(app: TestApp, path: string, body: unknown, headers: Record<string, string> = {}) {
  const text = typeof body === "string" ? body : JSON.stringify(body);
  return app.request(path, { method: "POST", body: text, headers: { "Content-Type": "application/json", ...headers } });
}

/** Checks that a response is a problem of ours in every respect, and gives its body. */
export async function problemIn(response: Response, status: number, code: string): Promise<ProblemBody> {
  const text = await response.text();
  const fault = (what: string) => new Error(`${what}: ${response.status} ${text.slice(0, 500)}`);
  if (response.status !== status) throw fault(`status is not ${status}`);
  if (response.headers.get("content-type") !== "application/problem+json") throw fault("not a problem");
  const body = JSON.parse(text) as ProblemBody;
  if (body.code !== code || body.status !== status || body.type !== `/docs#problem-${code}`) throw fault(`not ${code}`);
  if (body.instance !== `urn:uuid:${REQUEST_ID}` || response.headers.get("request-id") !== REQUEST_ID)
    throw fault("no id");
  if (body.title === "" || body.detail === "" || body.errorCount < body.errors.length)
    throw fault("members are missing");
  if (/\bat .*\.ts:|node_modules/.test(text)) throw fault("a stack leaks");
  return body;
}
