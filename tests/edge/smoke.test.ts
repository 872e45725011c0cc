import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Miniflare } from "miniflare";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION, EXAMPLE_FIT_REQUEST, EXAMPLE_SEARCH_REQUEST } from "../../src/http/openapi/examples.ts";
import { post, testApp } from "../http/helpers.ts";
import { GRID, gridReply, pointReply } from "../records/forecast/replies.ts";
import { bundleWorker } from "./bundle-worker.ts";

const START_WITHIN = 60_000;
let edge: Miniflare;
/** Addresses that the worker fetched. */
const asked: string[] = [];
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-edge-"));
  await writeFile(join(folder, "alder-flat.geojson"), JSON.stringify(EXAMPLE_COLLECTION));
  await writeFile(join(folder, "broken.geojson"), "{");
  edge = new Miniflare({
    modules: true,
    script: await bundleWorker(folder),
    compatibilityDate: "2026-04-01",
    cf: false,
    bindings: { FORECAST_CONTACT: "ops@campground.example" },
    // Everything that the worker fetches lands here: the weather service answers once for the place and then is down.
    outboundService: (request: { url: string }) => {
      asked.push(request.url);
      if (request.url === GRID) return Response.json(gridReply());
      return asked.length === 1 ? Response.json(pointReply()) : new Response("down", { status: 503 });
    },
  });
  await edge.ready;
}, START_WITHIN);

afterAll(async () => {
  await edge.dispose();
  await rm(folder, { recursive: true });
});

const send = (path: string, body: unknown, accept = "*/*") =>
  edge.dispatchFetch(`http://pad.test${path}`, {
    method: "POST",
    body: JSON.stringify(body),
    headers: { "Content-Type": "application/json", Accept: accept },
  });

describe("the application in workerd", () => {
  it("answers that it is there, with an entity tag and 304", async () => {
    const response = await edge.dispatchFetch("http://pad.test/healthz");
    expect(response.status).toBe(200);
    expect(await response.json()).toMatchObject({ status: "ok" });
    const tag = response.headers.get("etag") ?? "";
    const again = await edge.dispatchFetch("http://pad.test/healthz", { headers: { "If-None-Match": tag } });
    expect(again.status).toBe(304);
  });

  it("gives the same fit, number for number, as Node", async () => {
    const there = await send("/v1/fit", EXAMPLE_FIT_REQUEST);
    expect(there.status).toBe(200);
    const here = await post(await testApp(), "/v1/fit", EXAMPLE_FIT_REQUEST);
    expect(await there.json()).toEqual(await here.json());
  });

  it("draws the plan", async () => {
    const response = await send("/v1/fit", EXAMPLE_FIT_REQUEST, "image/svg+xml");
    expect(response.headers.get("content-type")).toBe("image/svg+xml");
    expect(await response.text()).toMatch(/^<svg /);
  });

  it("searches, also the second page", async () => {
    const question = { ...EXAMPLE_SEARCH_REQUEST, filters: {}, limit: 1 };
    const first = (await (await send("/v1/search", question)).json()) as {
      nextCursor: string;
      features: { id: string }[];
    };
    const second = await send(`/v1/search?cursor=${first.nextCursor}`, question);
    const { features } = (await second.json()) as { features: { id: string }[] };
    expect([first.features[0]?.id, features[0]?.id].sort()).toEqual(["alder-flat/A7", "alder-flat/B2"]);
  });

  it("fetches a forecast by its binding, and answers all the same when the feed is down", async () => {
    const when = { from: "2026-07-04", to: "2026-07-04" };
    type Report = { wind: { problem: { code: string } | null; forecast: { attribution: string } | null } };
    const first = await send("/v1/wind", { site: { campground: "alder-flat", site: "A7" }, when });
    expect([first.status, ((await first.json()) as Report).wind]).toMatchObject([
      200,
      { problem: null, forecast: { attribution: "Forecast: US National Weather Service" } },
    ]);
    expect(asked).toEqual(["https://api.weather.gov/points/39.84,-106.21", GRID]);
    const elsewhere = { ...EXAMPLE_FIT_REQUEST.site, geometry: { type: "Point", coordinates: [-105.5, 40.5] } };
    const second = await send("/v1/wind", { site: elsewhere, when });
    const report = (await second.json()) as Report;
    expect([second.status, report.wind]).toMatchObject([200, { problem: { code: "service-failing" }, forecast: null }]);
  });

  it("answers faults with problems, also a body that is too large", async () => {
    const response = await send("/v1/fit", { ...EXAMPLE_FIT_REQUEST, ste: 1 });
    expect([response.status, response.headers.get("content-type")]).toEqual([422, "application/problem+json"]);
    expect(await response.json()).toMatchObject({ code: "invalid-request", errors: [{ pointer: "/ste" }] });
    // Sent as a stream without a length, so that the worker counts; the last byte is one too many.
    const bytes = new TextEncoder().encode("x".repeat(1_048_577));
    const body = new ReadableStream({
      start(controller) {
        controller.enqueue(bytes);
        controller.close();
      },
    });
    const headers = { "Content-Type": "application/json" };
    const large = await edge.dispatchFetch("http://pad.test/v1/fit", { method: "POST", body, headers, duplex: "half" });
    expect([large.status, large.headers.get("content-type")]).toEqual([413, "application/problem+json"]);
    await large.text();
  });
});
