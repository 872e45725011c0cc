import { describe, expect, it } from "vitest";
import { logLine } from "../../src/http/log-line.ts";
import { createMetrics } from "../../src/http/metrics.ts";
import { problemIn, testApp } from "./helpers.ts";

const entry = (route: string | null, status: number, milliseconds: number, method = "GET") => ({
  requestId: "3a0c4d5e-6f70-4812-9a3b-4c5d6e7f8091",
  method,
  route,
  status,
  milliseconds,
});

describe("figures", () => {
  it("count answers by route and status in buckets that add up", () => {
    const metrics = createMetrics({ version: "1.2.3", now: 1_800_000_000_500 });
    for (const milliseconds of [3, 5, 20, 70_000]) {
      metrics.begin();
      metrics.observe(entry("/v1/fit", 200, milliseconds, "POST"));
    }
    metrics.begin();
    metrics.observe(entry(null, 404, 1, "BREW"));
    metrics.begin();
    const lines = metrics.text("openmetrics").split("\n");
    const labels = 'http_request_method="POST",http_response_status_code="200",http_route="/v1/fit"';
    const name = "http_server_request_duration_seconds";
    const bucket = (bound: string) => lines.find((line) => line.startsWith(`${name}_bucket{${labels},le="${bound}"}`));
    expect(["0.005", "0.01", "0.025", "10", "+Inf"].map((bound) => bucket(bound)?.split(" ")[1])).toEqual([
      "2",
      "2",
      "3",
      "3",
      "4",
    ]);
    expect(lines).toContain(`${name}_sum{${labels}} 70.028`);
    expect(lines).toContain(`${name}_count{http_request_method="_OTHER",http_response_status_code="404"} 1`);
    expect(lines).toContain("http_server_active_requests 1");
    expect(lines).toContain("process_start_time_seconds 1800000000.5");
    expect(lines).toContain('target_info{service_name="padwright",service_version="1.2.3"} 1');
    expect(lines.at(-2)).toBe("# EOF");
    expect(metrics.text("prometheus")).not.toContain("# EOF");
  });

  it("are kept for no address that somebody made up, and are not there without a registry", async () => {
    const metrics = createMetrics({ version: "1", now: 0 });
    const app = await testApp(undefined, { metrics });
    for (const path of ["/canary-1", "/canary-2", "/v1/campgrounds/canary-3"]) await app.request(path);
    const text = await (await app.request("/metrics")).text();
    expect(text).toContain('http_route="/v1/campgrounds/{id}"');
    expect(text).not.toContain("canary");
    expect(text).toContain("http_server_active_requests 1\n");
    await problemIn(await (await testApp()).request("/metrics"), 404, "not-found");
  });
});

describe("readiness", () => {
  it("is refused as soon as one thing that is set up fails, and names it", async () => {
    const checks = [
      { name: "ledger", state: "failing" },
      { name: "catalogue", state: "not set up" },
      { name: "forecasts", state: "ready" },
    ] as const;
    const response = await (await testApp(undefined, { readiness: async () => checks })).request("/readyz");
    expect(response.headers.get("retry-after")).toBe("5");
    expect((await problemIn(response, 503, "busy")).detail).toBe("Not ready: ledger.");
    const good = await (await testApp(undefined, { readiness: async () => checks.slice(1) })).request("/readyz");
    expect(await good.json()).toEqual({ status: "ready", checks: checks.slice(1) });
  });
});

describe("a line of the log", () => {
  it("keeps where a fault arose and drops its words, whatever lines they have", () => {
    const error = new TypeError("Wren Canary\n    at CANARY-1\nis no number");
    const line = logLine({ ...entry("/v1/fit", 500, 12.3456), error }, Date.UTC(2026, 6, 4, 12));
    const read = JSON.parse(line);
    expect(read).toMatchObject({
      time: "2026-07-04T12:00:00.000Z",
      level: "error",
      event: "request",
      requestId: "3a0c4d5e-6f70-4812-9a3b-4c5d6e7f8091",
      route: "/v1/fit",
      status: 500,
      milliseconds: 12.346,
      error: { name: "TypeError" },
    });
    expect(read.error.at[0]).toContain("metrics.test.ts");
    expect(line).not.toMatch(/canary/i);
    expect(line).not.toContain("\n");
  });
});
