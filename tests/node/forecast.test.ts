/** Forecasts as a server on Node sets them up: by settings, asked through the runtime's own fetch, mocked here. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { serve } from "../../src/node/serve.ts";
import { forecastConfiguration } from "../../src/records/forecast/configuration.ts";
import { GRID, gridReply, pointReply } from "../records/forecast/replies.ts";

const CONTACT = "ops@campground.example";
const server = setupServer();
let folder: string;

beforeAll(async () => {
  // Questions to the server itself go through; any other that is not mocked is a fault.
  server.listen({
    onUnhandledRequest: (request, print) => {
      if (new URL(request.url).hostname !== "127.0.0.1") print.error();
    },
  });
  folder = await mkdtemp(join(tmpdir(), "padwright-forecast-"));
  await writeFile(join(folder, "a.geojson"), JSON.stringify(EXAMPLE_COLLECTION));
});
afterAll(async () => {
  server.close();
  await rm(folder, { recursive: true });
});

async function windAt(address: string) {
  const body = JSON.stringify({
    site: { campground: "alder-flat", site: "A7" },
    when: { from: "2026-07-04", to: "2026-07-04" },
  });
  const response = await fetch(`${address}/v1/wind`, {
    method: "POST",
    body,
    headers: { "Content-Type": "application/json" },
  });
  expect(response.status).toBe(200);
  return (await response.json()) as { wind: { problem: { code: string } | null; forecast: { source: string } | null } };
}

describe("forecasts of the server", () => {
  it("are off without a contact, and on with one, which the host is told", async () => {
    const seen: (string | null)[] = [];
    server.use(
      http.get("https://api.weather.gov/points/39.84,-106.21", ({ request }) => {
        seen.push(request.headers.get("user-agent"));
        return HttpResponse.json(pointReply());
      }),
      http.get(GRID, () => HttpResponse.json(gridReply())),
    );
    const start = (settings: Readonly<Record<string, string>>) =>
      serve({ port: 0, folder, version: "0", page: null, log: () => undefined, settings });
    const off = await start({});
    expect((await windAt(off.address)).wind.problem?.code).toBe("no-provider");
    await off.stop();
    const on = await start({ FORECAST_CONTACT: CONTACT });
    expect((await windAt(on.address)).wind.forecast?.source).toBe("US National Weather Service");
    await on.stop();
    expect(seen).toEqual([`padwright (${CONTACT})`]);
    await expect(start({ FORECAST_OPEN_METEO: "non-commercial" })).rejects.toThrow("FORECAST_CONTACT");
  });
});

describe("the settings", () => {
  it("turn on what they name and nothing else", () => {
    expect(forecastConfiguration({})).toBeNull();
    expect(forecastConfiguration({ FORECAST_CONTACT: " " })).toBeNull();
    expect(forecastConfiguration({ FORECAST_CONTACT: CONTACT })).toEqual({ weatherService: { contact: CONTACT } });
    expect(forecastConfiguration({ FORECAST_CONTACT: CONTACT, FORECAST_OPEN_METEO: "non-commercial" })).toMatchObject({
      openMeteo: { contact: CONTACT, terms: "non-commercial" },
    });
    expect(forecastConfiguration({ FORECAST_CONTACT: CONTACT, FORECAST_OPEN_METEO_KEY: "k" })).toMatchObject({
      openMeteo: { terms: { apiKey: "k" } },
    });
  });

  it("are refused in plain words when they make no sense", () => {
    expect(() => forecastConfiguration({ FORECAST_OPEN_METEO_KEY: "k" })).toThrow("FORECAST_CONTACT");
    expect(() => forecastConfiguration({ FORECAST_CONTACT: CONTACT, FORECAST_OPEN_METEO: "free" })).toThrow(
      '"non-commercial"',
    );
  });
});
