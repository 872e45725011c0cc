/** The forecast clients against a mocked network: good, strange, broken and hostile replies. */
import { delay, HttpResponse, http } from "msw";
import { setupServer } from "msw/node";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Clock } from "../../../src/records/forecast/ask.ts";
import {
  type ForecastAnswer,
  type ForecastConfiguration,
  type ForecastService,
  forecastService,
} from "../../../src/records/forecast/service.ts";
import { DEGREES, GRID, gridReply, hourlyReply, KMH, LAYERS, layer, NOON, pointReply } from "./replies.ts";

const server = setupServer();
beforeAll(() => server.listen({ onUnhandledRequest: "error" }));
afterEach(() => server.resetHandlers());
afterAll(() => server.close());

const CONTACT = "ops@campground.example";
const BOULDER = { longitude: -105.27031, latitude: 40.01999 };
const BERLIN = { longitude: 13.41, latitude: 52.52 };
const POINT = "https://api.weather.gov/points/40.02,-105.2703";
const METEO = "https://api.open-meteo.com/v1/forecast";
const BOTH: ForecastConfiguration = {
  weatherService: { contact: CONTACT },
  openMeteo: { contact: CONTACT, terms: "non-commercial" },
  limits: { timeout: 150 },
};

let now = NOON;
let slept: number[] = [];
const clock: Clock = {
  now: () => now,
  sleep: (milliseconds) => {
    slept.push(milliseconds);
    now += milliseconds;
    return Promise.resolve();
  },
};
/** Requests that reached the network. */
let seen: Request[] = [];
beforeEach(() => {
  now = NOON;
  slept = [];
  seen = [];
  server.events.removeAllListeners();
  server.events.on("request:start", ({ request }) => void seen.push(request.clone()));
});

function service(configuration: ForecastConfiguration = BOTH): ForecastService {
  return forecastService(configuration, { fetch: (address, init) => fetch(address, init), clock });
}

const NWS_ONLY: ForecastConfiguration = { weatherService: { contact: CONTACT }, limits: { timeout: 150 } };
const METEO_ONLY: ForecastConfiguration = {
  openMeteo: { contact: CONTACT, terms: "non-commercial" },
  limits: { timeout: 150 },
};

type Resolver = () => Response | Promise<Response>;

function json(body: unknown, headers: Readonly<Record<string, string>> = {}): Response {
  return HttpResponse.json(body as never, { headers: { "content-type": "application/geo+json", ...headers } });
}

function grid(resolver: Resolver): void {
  server.use(
    http.get(POINT, () => json(pointReply())),
    http.get(GRID, resolver),
  );
}

function meteo(resolver: Resolver): void {
  server.use(http.get(METEO, resolver));
}

function good(answer: ForecastAnswer) {
  if (!answer.ok) throw new Error(`refused: ${answer.code}, ${answer.text}`);
  return answer;
}

async function refusedCode(answer: Promise<ForecastAnswer>): Promise<string> {
  const given = await answer;
  return given.ok ? "given" : given.code;
}

describe("weather service", () => {
  it("reads a grid: merged hours, directions, units", async () => {
    grid(() => json(gridReply()));
    const { forecast, age, warning } = good(await service().wind(BOULDER));
    expect(forecast.stretches.map((one) => [new Date(one.start).getUTCHours(), one.gust, one.mean])).toEqual([
      [18, 10, 5],
      [19, 10, 5],
      [20, 10, 4],
    ]);
    expect(forecast.stretches[2]!.directions[0]).toBeCloseTo((315 * Math.PI) / 180, 12);
    expect(forecast.attribution).toMatch(/National Weather Service/);
    expect(forecast.issuedAt).toBe(Date.UTC(2026, 6, 4, 11, 20));
    expect([age, warning]).toEqual([0, null]);
  });

  it("says who asks, and asks with four decimals and no more", async () => {
    grid(() => json(gridReply()));
    await service().wind(BOULDER);
    expect(seen.map(({ url }) => url)).toEqual([POINT, GRID]);
    for (const { headers } of seen) expect(headers.get("user-agent")).toContain(CONTACT);
  });

  it("takes other units that it knows", async () => {
    const knots = layer("kn", ["2026-07-04T18:00:00Z/PT1H", 20]);
    grid(() => json(gridReply({ windGust: knots, windSpeed: layer("m_s-1", ["2026-07-04T18:00:00Z/PT1H", 6.5]) })));
    const [hour] = good(await service().wind(BOULDER)).forecast.stretches;
    expect(hour!.gust).toBeCloseTo(10.2889, 3);
    expect(hour!.mean).toBe(6.5);
  });

  it.each([
    ["an unknown unit", { ...LAYERS, windGust: layer("furlong", ["2026-07-04T18:00:00Z/PT1H", 9]) }, "unknown-unit"],
    ["no unit", { ...LAYERS, windGust: { values: LAYERS["windGust"]!.values } }, "unknown-unit"],
    [
      "a direction in another unit",
      { ...LAYERS, windDirection: layer("rad", ["2026-07-04T18:00:00Z/PT1H", 1]) },
      "unknown-unit",
    ],
    [
      "a unit named like a member of every object",
      { ...LAYERS, windGust: layer("constructor", ["2026-07-04T18:00:00Z/PT1H", 9]) },
      "unknown-unit",
    ],
    ["no wind at all", { temperature: layer("wmoUnit:degC", ["2026-07-04T18:00:00Z/PT1H", 31]) }, "unreadable"],
    ["a wind as text", { windGust: layer(KMH, ["2026-07-04T18:00:00Z/PT1H", "5 mph"]) }, "unreadable"],
    ["a stretch that is none", { windGust: layer(KMH, ["tomorrow", 20]) }, "unreadable"],
    [
      "a stretch that ends before it starts",
      { windGust: layer(KMH, ["2026-07-04T18:00:00Z/2026-07-04T17:00:00Z", 20]) },
      "unreadable",
    ],
    ["a stretch of a hundred years", { windGust: layer(KMH, ["2026-07-04T18:00:00Z/P100Y", 20]) }, "implausible"],
    ["a gust of 999 m/s", { windGust: layer("m/s", ["2026-07-04T18:00:00Z/PT1H", 999]) }, "implausible"],
    ["a gust below nothing", { windGust: layer("m/s", ["2026-07-04T18:00:00Z/PT1H", -1]) }, "implausible"],
    [
      "a direction of 400 degrees",
      { ...LAYERS, windDirection: layer(DEGREES, ["2026-07-04T18:00:00Z/PT1H", 400]) },
      "implausible",
    ],
  ])("refuses %s", async (_, layers, code) => {
    grid(() => json(gridReply(layers)));
    expect(await refusedCode(service(NWS_ONLY).wind(BOULDER))).toBe(code);
  });

  it("keeps a null as missing and an absent layer as missing with a note", async () => {
    const { windGust: _, ...rest } = LAYERS;
    grid(() =>
      json(
        gridReply({
          ...rest,
          windSpeed: layer(KMH, ["2026-07-04T18:00:00Z/PT1H", null], ["2026-07-04T19:00:00Z/PT1H", 18]),
        }),
      ),
    );
    const { forecast } = good(await service().wind(BOULDER));
    expect(forecast.stretches).toHaveLength(1);
    expect(forecast.stretches[0]).toMatchObject({ gust: null, mean: 5 });
    expect(forecast.notes.join(" ")).toMatch(/no gusts/);
  });

  it("reads hazards and weather that mean wind, and leaves others", async () => {
    const hour = "2026-07-04T18:00:00+00:00/PT1H";
    const hazards = {
      values: [
        {
          validTime: hour,
          value: [
            { phenomenon: "HW", significance: "W", event_number: null },
            { phenomenon: "FF", significance: "A" },
          ],
        },
      ],
    };
    const weather = {
      values: [
        {
          validTime: hour,
          value: [
            {
              coverage: "slight_chance",
              weather: "thunderstorms",
              intensity: null,
              attributes: ["damaging_wind", "small_hail"],
            },
          ],
        },
        { validTime: "2026-07-04T19:00:00+00:00/PT1H", value: [{ coverage: null, weather: null, attributes: [] }] },
      ],
    };
    grid(() => json(gridReply({ ...LAYERS, hazards, weather })));
    const { stretches } = good(await service().wind(BOULDER)).forecast;
    expect(stretches[0]!.hazards).toEqual(["high wind warning", "thunderstorm (slight chance)", "damaging wind"]);
    expect(stretches[1]!.hazards).toEqual([]);
  });

  it.each([
    ["another host", "https://evil.example/gridpoints/BOU/54,75"],
    ["a host that begins alike", "https://api.weather.gov.evil.example/gridpoints/BOU/54,75"],
    ["a path that climbs", "https://api.weather.gov/gridpoints/../../secrets"],
    ["a user before the host", "https://api.weather.gov@evil.example/gridpoints/BOU/54,75"],
    ["no text", 7],
  ])("never follows a grid address with %s", async (_, address) => {
    server.use(http.get(POINT, () => json(pointReply(address))));
    expect(await refusedCode(service(NWS_ONLY).wind(BOULDER))).toBe("unreadable");
    expect(seen).toHaveLength(1);
  });
});

describe("Open-Meteo", () => {
  it("pairs the gust of the preceding hour with both ends of that hour", async () => {
    meteo(() => json(hourlyReply()));
    const { forecast } = good(await service().wind(BERLIN));
    expect(forecast.stretches).toHaveLength(2);
    const [first] = forecast.stretches;
    expect(first).toMatchObject({
      start: Date.UTC(2026, 6, 4, 13),
      end: Date.UTC(2026, 6, 4, 14),
      gust: 12.9,
      mean: 7.1,
    });
    expect(first!.directions).toHaveLength(2);
    expect(forecast.attribution).toMatch(/CC BY 4\.0/);
    expect(forecast.issuedAt).toBeNull();
  });

  it("asks for metres per second in UTC", async () => {
    meteo(() => json(hourlyReply()));
    await service().wind(BERLIN);
    const query = new URL(seen[0]!.url).searchParams;
    expect(Object.fromEntries(query)).toMatchObject({
      wind_speed_unit: "ms",
      timezone: "GMT",
      latitude: "52.52",
      longitude: "13.41",
    });
  });

  it("uses a key on the paid host, and tells nobody", async () => {
    const key = "secret-key-123";
    server.use(
      http.get("https://customer-api.open-meteo.com/v1/forecast", () =>
        HttpResponse.json({ error: true, reason: "limit" }, { status: 400 }),
      ),
    );
    const answer = await service({ openMeteo: { contact: CONTACT, terms: { apiKey: key } } }).wind(BERLIN);
    expect(new URL(seen[0]!.url).searchParams.get("apikey")).toBe(key);
    expect(JSON.stringify(answer)).not.toContain(key);
    expect(answer).toMatchObject({ ok: false, code: "refused-by-service" });
    expect(seen).toHaveLength(1);
  });

  it("takes thunderstorms as a hazard, and nulls as missing", async () => {
    meteo(() => json(hourlyReply({ weather_code: [95, 3, 3], wind_gusts_10m: [null, null, 13.9] })));
    const { stretches } = good(await service().wind(BERLIN)).forecast;
    expect(stretches[0]).toMatchObject({ hazards: ["thunderstorm"], gust: null, mean: 7.1 });
    expect(stretches[1]).toMatchObject({ hazards: [], gust: 13.9 });
  });

  it.each([
    ["columns of unequal length", hourlyReply({ wind_gusts_10m: [11.5] }), "unreadable"],
    [
      "a gap in the hours",
      hourlyReply({ time: ["2026-07-04T13:00", "2026-07-04T14:00", "2026-07-04T16:00"] }),
      "unreadable",
    ],
    [
      "times out of order",
      hourlyReply({ time: ["2026-07-04T15:00", "2026-07-04T14:00", "2026-07-04T13:00"] }),
      "unreadable",
    ],
    [
      "a time with a zone",
      hourlyReply({ time: ["2026-07-04T13:00", "2026-07-04T14:00+02:00", "2026-07-04T15:00"] }),
      "unreadable",
    ],
    ["local time", hourlyReply({}, { utc_offset_seconds: 7200 }), "unreadable"],
    ["several places", [hourlyReply(), hourlyReply()], "unreadable"],
    ["another place", hourlyReply({}, { latitude: -33.9, longitude: 151.2 }), "implausible"],
    [
      "kilometres where metres per second were asked for, unnamed",
      hourlyReply({}, { hourly_units: { time: "iso8601" } }),
      "unknown-unit",
    ],
    ["no hours", { latitude: 52.52, longitude: 13.4 }, "unreadable"],
    ["nothing", null, "unreadable"],
  ])("refuses %s", async (_, body, code) => {
    meteo(() => json(body));
    expect(await refusedCode(service(METEO_ONLY).wind(BERLIN))).toBe(code);
  });
});

describe("hostile and broken replies", () => {
  const html = "<!doctype html><title>Sign in</title>";
  const text = (body: string, type = "application/json", status = 200) =>
    new HttpResponse(body, { status, headers: { "content-type": type } });

  it.each<[string, Resolver, string]>([
    ["a page", () => text(html, "text/html"), "not-json"],
    ["a page that calls itself JSON", () => text(html), "not-json"],
    ["nothing", () => text(""), "not-json"],
    ["half a reply", () => text(JSON.stringify(hourlyReply()).slice(0, 300)), "not-json"],
    ["NaN", () => text(JSON.stringify(hourlyReply()).replace("11.5", "NaN")), "not-json"],
    ["a number beyond all bounds", () => text(JSON.stringify(hourlyReply()).replace("12.9", "1e999")), "unreadable"],
    ["brackets without end", () => text("[".repeat(100_000)), "not-json"],
    ["deep nesting", () => text(`${"[".repeat(60_000)}${"]".repeat(60_000)}`), "unreadable"],
    ["a member that poisons", () => text('{"__proto__":{"hourly":{}},"latitude":1}'), "unreadable"],
    ["too much", () => text(`"${"x".repeat(300_000)}"`), "too-large"],
    [
      "a length that is too much",
      () => new HttpResponse("{}", { headers: { "content-type": "application/json", "content-length": "999999" } }),
      "too-large",
    ],
    [
      "an elsewhere",
      () => new HttpResponse(null, { status: 302, headers: { location: "http://169.254.169.254/latest" } }),
      "redirected",
    ],
    ["403 without a reason", () => text(html, "text/html", 403), "refused-by-service"],
    [
      "400 with a reason",
      () => HttpResponse.json({ error: true, reason: "Latitude must be in range" }, { status: 400 }),
      "refused-by-service",
    ],
    ["304 to a question without condition", () => new HttpResponse(null, { status: 304 }), "unreadable"],
    ["404", () => HttpResponse.json({ title: "Not Found" }, { status: 404 }), "not-covered"],
  ])("%s", async (_, resolver, code) => {
    meteo(resolver);
    const answer = await service(METEO_ONLY).wind(BERLIN);
    expect(answer.ok ? "given" : answer.code).toBe(code);
    // Only the host that was meant is ever asked, and no fault of a reply is asked for twice.
    expect(seen.map(({ url }) => new URL(url).host)).toEqual(["api.open-meteo.com"]);
    expect(answer.ok || answer.text.length).toBeLessThan(300);
  });

  it("an endless body is left at the cap", async () => {
    let sent = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        sent += 1;
        controller.enqueue(new TextEncoder().encode(" ".repeat(65_536)));
      },
    });
    meteo(() => new HttpResponse(body, { headers: { "content-type": "application/json" } }));
    expect(await refusedCode(service(METEO_ONLY).wind(BERLIN))).toBe("too-large");
    expect(sent).toBeLessThan(20);
  });

  it("a body that stops half way is asked for again", async () => {
    const broken = () =>
      new ReadableStream<Uint8Array>({
        pull(controller) {
          controller.error(new Error("connection reset"));
        },
      });
    let count = 0;
    meteo(() => {
      count += 1;
      return count === 1
        ? new HttpResponse(broken(), { headers: { "content-type": "application/json" } })
        : json(hourlyReply());
    });
    good(await service(METEO_ONLY).wind(BERLIN));
    expect(count).toBe(2);
  });
});

describe("time, retries, circuit", () => {
  it("leaves a host that does not answer, after three attempts with growing pauses", async () => {
    meteo(async () => {
      await delay("infinite");
      return json(hourlyReply());
    });
    expect(await refusedCode(service({ ...METEO_ONLY, limits: { timeout: 30 } }).wind(BERLIN))).toBe("timed-out");
    expect(seen).toHaveLength(3);
    expect(slept).toEqual([200, 400]);
  });

  it("asks again after a failure that passes", async () => {
    let count = 0;
    meteo(() => {
      count += 1;
      return count < 3 ? new HttpResponse("busy", { status: 503 }) : json(hourlyReply());
    });
    good(await service().wind(BERLIN));
    expect(count).toBe(3);
  });

  it.each([
    ["2", 3, 2000],
    ["3600", 1, undefined],
    ["Wed, 21 Oct 2026 07:28:00 GMT", 1, undefined],
  ])("when told to wait %s s it asks %d times", async (wait, asked, pause) => {
    meteo(() => new HttpResponse(null, { status: 429, headers: { "retry-after": wait } }));
    expect(await refusedCode(service(METEO_ONLY).wind(BERLIN))).toBe("rate-limited");
    expect(seen).toHaveLength(asked);
    expect(slept[0]).toBe(pause);
  });

  it("a network that fails is unreachable", async () => {
    meteo(() => HttpResponse.error());
    expect(await refusedCode(service(METEO_ONLY).wind(BERLIN))).toBe("unreachable");
  });

  it("leaves a failing host alone after five failures, then lets one question through", async () => {
    let works = false;
    meteo(() => (works ? json(hourlyReply()) : new HttpResponse(null, { status: 500 })));
    const one = service(METEO_ONLY);
    expect(await refusedCode(one.wind(BERLIN))).toBe("service-failing");
    expect(await refusedCode(one.wind(BERLIN))).toBe("circuit-open");
    expect(seen).toHaveLength(5);
    expect(await refusedCode(one.wind(BERLIN))).toBe("circuit-open");
    expect(seen).toHaveLength(5);
    now += 60_001;
    works = true;
    good(await one.wind(BERLIN));
    expect(seen).toHaveLength(6);
  });

  it("one host's failures do not close the other", async () => {
    server.use(http.get(POINT, () => new HttpResponse(null, { status: 500 })));
    meteo(() => json(hourlyReply({}, { latitude: 40.02, longitude: -105.27 })));
    const one = service();
    for (let turn = 0; turn < 3; turn += 1) {
      expect(good(await one.wind(BOULDER)).forecast.source).toBe("Open-Meteo");
      now += 900_001;
    }
  });
});

describe("what is kept", () => {
  it("is given again without asking, with its age", async () => {
    meteo(() => json(hourlyReply()));
    const one = service();
    await one.wind(BERLIN);
    now += 600_000;
    expect(good(await one.wind(BERLIN))).toMatchObject({ age: 600, warning: null });
    expect(seen).toHaveLength(1);
  });

  it("is asked for with a condition, and 304 keeps it", async () => {
    const stamp = "Sat, 04 Jul 2026 11:20:00 GMT";
    grid(() => json(gridReply(), { "last-modified": stamp }));
    const one = service();
    const first = good(await one.wind(BOULDER));
    server.use(
      http.get(
        GRID,
        ({ request }) =>
          new HttpResponse(null, { status: request.headers.get("if-modified-since") === stamp ? 304 : 500 }),
      ),
    );
    now += 900_001;
    const second = good(await one.wind(BOULDER));
    expect(second.forecast.stretches).toEqual(first.forecast.stretches);
    expect(second.forecast.issuedAt).toBe(first.forecast.issuedAt);
    expect(second.forecast.checkedAt).toBe(now);
    expect(second.age).toBe(0);
  });

  it("is given with its honest age and a warning when the host fails", async () => {
    meteo(() => json(hourlyReply()));
    const one = service(METEO_ONLY);
    await one.wind(BERLIN);
    meteo(() => new HttpResponse(null, { status: 404 }));
    now += 7_200_000;
    const old = good(await one.wind(BERLIN));
    expect(old.age).toBe(7200);
    expect(old.forecast.checkedAt).toBe(NOON);
    expect(old.warning).toMatch(/does not cover/);
  });

  it("two questions at once are asked once", async () => {
    meteo(async () => {
      await delay(10);
      return json(hourlyReply());
    });
    const one = service();
    await Promise.all([one.wind(BERLIN), one.wind(BERLIN)]);
    expect(seen).toHaveLength(1);
  });
});

describe("which host", () => {
  it("asks the second one where the first does not cover the place", async () => {
    const toronto = { longitude: -79.3832, latitude: 43.6532 };
    server.use(
      http.get("https://api.weather.gov/points/43.6532,-79.3832", () =>
        HttpResponse.json({ title: "Data Unavailable For Requested Point" }, { status: 404 }),
      ),
    );
    meteo(() => json(hourlyReply({}, { latitude: 43.65, longitude: -79.38 })));
    expect(good(await service().wind(toronto)).forecast.source).toBe("Open-Meteo");
    expect(await refusedCode(service(NWS_ONLY).wind(toronto))).toBe("not-covered");
  });

  it("never asks the weather service about a place far from it", async () => {
    expect(await refusedCode(service(NWS_ONLY).wind(BERLIN))).toBe("no-provider");
    expect(await refusedCode(service({}).wind(BOULDER))).toBe("no-provider");
    expect(seen).toHaveLength(0);
  });

  it.each([
    { longitude: Number.NaN, latitude: 40 },
    { longitude: -105, latitude: 91 },
    { longitude: Number.POSITIVE_INFINITY, latitude: 0 },
    { longitude: 181, latitude: 0 },
  ])("refuses $longitude, $latitude as a place", async (place) => {
    expect(await refusedCode(service().wind(place))).toBe("bad-place");
    expect(seen).toHaveLength(0);
  });

  it("needs a contact that fits in a header", () => {
    expect(() => service({ weatherService: { contact: "a\r\nX-Evil: 1" } })).toThrow(RangeError);
    expect(() => service({ openMeteo: { contact: "", terms: "non-commercial" } })).toThrow(RangeError);
  });
});
