import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tellDeprecation } from "../../../src/http/deprecation.ts";
import { memoryRates } from "../../../src/http/rate/rate.ts";
import { spend, type WindowState } from "../../../src/http/rate/window.ts";
import { problemIn, testApp } from "../helpers.ts";

const POLICY = { quota: 5, window: 30 };

describe("a window of units", () => {
  it("begins with the first request, refuses what goes beyond, and is whole again after its seconds", () => {
    const first = spend(null, 1_000_000, 3, POLICY);
    expect(first).toEqual({ allowed: true, remaining: 2, reset: 30, state: { start: 1_000_000, used: 3 } });
    const beyond = spend(first.state, 1_010_400, 3, POLICY);
    expect(beyond).toEqual({ allowed: false, remaining: 2, reset: 20, state: first.state });
    expect(spend(first.state, 1_029_999, 2, POLICY)).toMatchObject({ allowed: true, remaining: 0, reset: 1 });
    expect(spend(first.state, 1_030_000, 1, POLICY)).toMatchObject({ remaining: 4, state: { start: 1_030_000 } });
  });

  it("never locks out for ever: a cost above the quota counts as the quota, a clock set back begins anew", () => {
    expect(spend(null, 0, 99, POLICY)).toMatchObject({ allowed: true, remaining: 0 });
    expect(spend({ start: 9_000_000, used: 5 }, 1000, 1, POLICY)).toMatchObject({ allowed: true, remaining: 4 });
  });

  it("lets through no more than the quota in any window, whatever the requests (property)", () => {
    const requests = fc.array(
      fc.record({ after: fc.integer({ min: 0, max: 12_000 }), cost: fc.integer({ min: 1, max: 7 }) }),
    );
    fc.assert(
      fc.property(requests, (list) => {
        let [state, now]: [WindowState | null, number] = [null, 0];
        const used = new Map<number, number>();
        for (const { after, cost } of list) {
          now += after;
          const spending = spend(state, now, cost, POLICY);
          const taken = spending.allowed ? Math.min(cost, POLICY.quota) : 0;
          used.set(spending.state.start, (used.get(spending.state.start) ?? 0) + taken);
          expect(spending.remaining).toBe(POLICY.quota - (used.get(spending.state.start) ?? 0));
          expect(spending.remaining).toBeGreaterThanOrEqual(0);
          expect(now + spending.reset * 1000).toBeGreaterThanOrEqual(spending.state.start + 30_000);
          state = spending.state;
        }
      }),
    );
  });
});

describe("limits per caller", () => {
  const limited = async () => {
    let now = 50_000;
    const app = await testApp(undefined, {
      now: () => now,
      rate: {
        policy: { quota: 3, window: 60 },
        store: memoryRates(),
        keyOf: async (request) => request.headers.get("x-who") ?? "",
      },
      crossOrigin: { origins: ["https://trips.example"] },
    });
    const ask = (who: string, path = "/v1/vocabulary", headers = {}) =>
      app.request(path, { headers: { "X-Who": who, ...headers } });
    return { ask, pass: (seconds: number) => (now += seconds * 1000) };
  };

  it("are told with every answer, and end in 429 with Retry-After for that caller alone", async () => {
    const { ask, pass } = await limited();
    const first = await ask("a", "/v1/vocabulary", { Origin: "https://trips.example" });
    expect([first.headers.get("ratelimit-policy"), first.headers.get("ratelimit")]).toEqual([
      '"default";q=3;w=60',
      '"default";r=2;t=60',
    ]);
    expect(first.headers.get("access-control-expose-headers")).toMatch(/RateLimit, RateLimit-Policy, Retry-After/);
    await ask("a");
    await ask("a");
    pass(17.5);
    const fourth = await ask("a");
    expect([fourth.headers.get("retry-after"), fourth.headers.get("ratelimit")]).toEqual(["43", '"default";r=0;t=43']);
    const { detail } = await problemIn(fourth, 429, "rate-limited");
    expect(detail).toMatch(/3 units in 60 seconds/);
    expect((await ask("b")).status).toBe(200);
    pass(43);
    expect((await ask("a")).headers.get("ratelimit")).toBe('"default";r=2;t=60');
  });

  it("are published, do not count the health check, and are not there when none are set", async () => {
    const { ask } = await limited();
    for (let count = 0; count < 9; count += 1) expect((await ask("a", "/healthz")).status).toBe(200);
    const list = (await (await ask("a", "/v1/limits")).json()) as { rateLimit: unknown };
    expect(list.rateLimit).toEqual({ units: 3, seconds: 60 });
    const free = await (await testApp()).request("/v1/limits");
    expect(free.headers.get("ratelimit")).toBeNull();
    expect(((await free.json()) as { rateLimit: unknown }).rateLimit).toBeNull();
  });

  it("forget whoever was away longest when there are too many callers", async () => {
    const store = memoryRates(2);
    const take = (key: string) => store.change(key, (state) => spend(state, 0, 1, POLICY));
    await take("a");
    await take("b");
    await take("a");
    await take("c");
    expect([(await take("a")).remaining, (await take("b")).remaining]).toEqual([2, 4]);
  });
});

describe("a route that will go", () => {
  it("says since when, until when, and what to use instead", () => {
    const headers = new Headers({ Link: '</v1/x>; rel="self"' });
    tellDeprecation(headers, { since: "2026-11-25", sunset: "2027-06-30", successor: "/v2/x" });
    expect(headers.get("deprecation")).toBe("@1795564800");
    expect(headers.get("sunset")).toBe("Wed, 30 Jun 2027 00:00:00 GMT");
    expect(headers.get("link")).toBe(
      '</v1/x>; rel="self", </docs#routes>; rel="deprecation"; type="text/html", </v2/x>; rel="successor-version"',
    );
  });
});
