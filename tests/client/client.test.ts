/** The client against the application itself, and against a service that fails in every way. */
import { describe, expect, it } from "vitest";
import {
  type ClientOptions,
  createPadwrightClient,
  type FitRequest,
  PadwrightProblem,
  PadwrightUnreachable,
} from "../../src/client/index.ts";
import { createApp } from "../../src/http/app.ts";
import { exampleDependencies } from "../../src/http/openapi/example-answers.ts";
import { EXAMPLE_FIT_REQUEST, EXAMPLE_WIND_REQUEST } from "../../src/http/openapi/examples.ts";
import { EXAMPLE_DESK_REQUEST, EXAMPLE_TRIP_REQUEST } from "../../src/http/openapi/trip-examples.ts";
import { memoryStore } from "../../src/records/store.ts";
import { testApp } from "../http/helpers.ts";
import { SOURCES, TERN } from "../http/ogc/records.ts";

const request = EXAMPLE_FIT_REQUEST as unknown as FitRequest;
const { rig } = request;
const A7 = { campground: "alder-flat", site: "A7" };

async function clientOf(options: Partial<ClientOptions> = {}, sources?: Parameters<typeof testApp>[0]) {
  const app = await testApp(sources);
  return createPadwrightClient({ baseUrl: "http://here", fetch: async (one) => app.fetch(one), ...options });
}

async function listed<T>(items: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const item of items) list.push(item);
  return list;
}

describe("questions", () => {
  it("are answered with what the routes answer", async () => {
    const client = await clientOf();
    const app = createApp(await exampleDependencies("0"));
    const direct = await app.request("/v1/fit", {
      method: "POST",
      body: JSON.stringify(request),
      headers: { "Content-Type": "application/json" },
    });
    const fit = await client.fit(request);
    expect(fit).toEqual(await direct.json());
    expect(fit.lines.find(({ service }) => service === "power")?.verdict).toBe("reaches");
    expect(await client.plan(request)).toMatch(/^<svg/);
    expect((await client.wind(EXAMPLE_WIND_REQUEST as never)).site.id).toBe("A7");
    expect((await client.trip(EXAMPLE_TRIP_REQUEST as never)).stops.length).toBeGreaterThan(0);
    expect(await client.desk(EXAMPLE_DESK_REQUEST as never)).toHaveProperty("stock");
    expect((await client.campground("alder-flat")).features).toHaveLength(2);
  });

  it("throw what the service refuses, with every fault and the request id", async () => {
    const client = await clientOf();
    const refused = await client.fit({ ...request, rig: { ...rig, length: "long" } }).catch((fault: unknown) => fault);
    expect(refused).toBeInstanceOf(PadwrightProblem);
    const { status, code, errors, requestId, message } = refused as PadwrightProblem;
    expect([status, code, errors.map(({ pointer }) => pointer)]).toEqual([422, "invalid-request", ["/rig/length"]]);
    expect(requestId).toMatch(/^[0-9a-f-]{36}$/);
    expect(message).toMatch(/^The request cannot be used as it stands: One fault/);
    await expect(client.campground("nowhere")).rejects.toMatchObject({ code: "not-found", status: 404 });
    await expect(client.api.GET("/v1/limits", { headers: { Accept: "audio/ogg" } })).rejects.toMatchObject({
      status: 406,
    });
  });

  it("leave 304 to whoever asks on a condition, and carry the token", async () => {
    const seen: (string | null)[] = [];
    const app = await testApp();
    const client = createPadwrightClient({
      baseUrl: "http://here",
      token: "secret",
      fetch: async (one) => {
        seen.push(one.headers.get("authorization"));
        return app.fetch(one);
      },
    });
    const { response } = await client.api.GET("/v1/vocabulary");
    const again = await client.api.GET("/v1/vocabulary", {
      headers: { "If-None-Match": response.headers.get("etag") ?? "" },
    });
    expect(again.response.status).toBe(304);
    expect(seen).toEqual(["Bearer secret", "Bearer secret"]);
  });
});

describe("lists", () => {
  it("go through all pages of campgrounds, of a search and of a collection", async () => {
    const many = Array.from({ length: 45 }, (_, index) => ({
      name: `${index}`,
      input: { ...TERN, campground: { id: `c${index}` } },
    }));
    const client = await clientOf({}, many);
    expect(await listed(client.campgrounds())).toHaveLength(45);
    const found = await listed(client.searchAll({ rig, bbox: [-180, -20, 180, -10], limit: 40 }));
    expect(new Set(found.map(({ id }) => id)).size).toBe(90);
    expect(found.map(({ properties }) => properties.rank)).toEqual(found.map((_, index) => index + 1));
    const sites = await listed(client.features("sites", { limit: 7, layout: "parallel", bbox: "-180,-20,180,-10" }));
    expect(sites.map(({ id }) => id.split(":")[1])).toEqual(Array.from({ length: 45 }, () => "west-of-the-line"));
    const two = await clientOf({}, SOURCES);
    expect(await listed(two.features("obstacles"))).toHaveLength(4);
  });
});

describe("batches", () => {
  it("come row by row, and stopping early stops the service", async () => {
    const { store } = await memoryStore((await exampleSources()) as never);
    let read = 0;
    const get = (id: string) => {
      read += 1;
      return store.get(id);
    };
    const app = await testApp(undefined, { store: { ...store, get } });
    const client = createPadwrightClient({ baseUrl: "http://here", fetch: async (one) => app.fetch(one) });
    const sites = Array.from({ length: 30 }, () => A7);
    const all = await listed(client.fitBatch({ rigs: [rig], sites }));
    expect(all.map(({ row, fit }) => [row, fit?.verdict])).toEqual(sites.map((_, row) => [row, all[0]?.fit?.verdict]));
    read = 0;
    for await (const { row } of client.fitBatch({ rigs: [rig], sites })) if (row === 2) break;
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(read).toBeLessThan(10);
  });

  it("say so when the stream breaks off, between rows and within one", async () => {
    const line = (row: number) => `${JSON.stringify({ row, of: 3, rig: 0, site: row, fit: null, errors: [] })}\n`;
    for (const text of [line(0) + line(1), line(0) + line(1).slice(0, 12)]) {
      const client = await clientOf({ fetch: async () => new Response(text) });
      const seen: number[] = [];
      const reading = (async () => {
        for await (const { row } of client.fitBatch({ rigs: [rig], sites: [A7] })) seen.push(row);
      })();
      await expect(reading).rejects.toThrow(/broke off after \d of 3/);
      expect(seen.length).toBeGreaterThan(0);
    }
  });

  it("end with the caller's signal", async () => {
    const client = await clientOf();
    const end = new AbortController();
    const rows = client.fitBatch({ rigs: [rig], sites: [A7, A7, A7] }, { signal: end.signal });
    expect((await rows.next()).value?.row).toBe(0);
    end.abort(new Error("enough"));
    await expect(rows.next()).rejects.toThrow("enough");
    await expect(client.fit(request, { signal: end.signal })).rejects.toThrow("enough");
  });
});

async function exampleSources() {
  const { EXAMPLE_COLLECTION } = await import("../../src/http/openapi/examples.ts");
  return [{ name: "example", input: EXAMPLE_COLLECTION }];
}

describe("failures that pass", () => {
  /** A service that gives these answers one after another, and the waits between the tries. */
  async function failing(answers: readonly (Response | Error)[], options: Partial<ClientOptions> = {}) {
    const waits: number[] = [];
    const bodies: string[] = [];
    let at = 0;
    const client = await clientOf({
      sleep: async (milliseconds) => void waits.push(milliseconds),
      fetch: async (one) => {
        bodies.push(await one.text());
        const answer = answers[at] ?? new Error("too many tries");
        at += 1;
        if (answer instanceof Error) throw answer;
        return answer;
      },
      ...options,
    });
    return { client, waits, bodies, tries: () => at };
  }
  const busy = (after: string) => new Response("", { status: 503, headers: { "Retry-After": after } });
  const fine = () => Response.json({ verdict: "fits" });

  it("are tried again after the time that is named, with the same body", async () => {
    const { client, waits, bodies } = await failing([
      busy("7"),
      new Response("", { status: 429, headers: { "Retry-After": "2" } }),
      fine(),
    ]);
    expect((await client.fit(request)).verdict).toBe("fits");
    expect(waits).toEqual([7000, 2000]);
    expect(new Set(bodies).size).toBe(1);
    expect(JSON.parse(bodies[0] ?? "")).toEqual(request);
  });

  it("are tried after longer and longer waits when none is named, also when no answer came", async () => {
    const { client, waits } = await failing([new TypeError("reset"), new Response("", { status: 502 }), fine()]);
    await client.fit(request);
    const [first = 0, second = 0] = waits;
    expect(first).toBeGreaterThanOrEqual(500);
    expect(first).toBeLessThan(750);
    expect(second).toBeGreaterThanOrEqual(1000);
    expect(second).toBeLessThan(1500);
  });

  it("are given up in the end, and at once when the wait would be too long", async () => {
    const never = await failing([new TypeError("a"), new TypeError("b"), new TypeError("c")], { retries: 2 });
    await expect(never.client.fit(request)).rejects.toBeInstanceOf(PadwrightUnreachable);
    expect(never.tries()).toBe(3);
    const long = await failing([busy("3600")]);
    await expect(long.client.fit(request)).rejects.toMatchObject({ status: 503, retryAfter: 3600, code: null });
    expect(long.waits).toEqual([]);
  });

  it("are not tried again where a second time could do more than the first", async () => {
    const write = { params: { path: { id: "alder-flat" } }, body: {} } as never;
    const bare = await failing([new TypeError("reset"), fine()]);
    await expect(bare.client.api.POST("/v1/campgrounds/{id}/stays", write)).rejects.toBeInstanceOf(
      PadwrightUnreachable,
    );
    expect(bare.tries()).toBe(1);
    const keyed = await failing([new TypeError("reset"), fine()]);
    const headers = { "Idempotency-Key": '"k1"' };
    await keyed.client.api.POST("/v1/campgrounds/{id}/stays", { ...(write as object), headers } as never);
    expect(keyed.tries()).toBe(2);
  });

  it("do not hold whoever has given up", async () => {
    const end = new AbortController();
    const { client, tries } = await failing([busy("1"), fine()], {
      sleep: async () => end.abort(new Error("enough")),
    });
    await expect(client.fit(request, { signal: end.signal })).rejects.toThrow("enough");
    expect(tries()).toBe(1);
  });
});
