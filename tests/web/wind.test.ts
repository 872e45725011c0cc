/** What of the wind section needs no browser: words of hours, a wind as a request writes it, the core's answer. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { COMPASS_WORDS } from "../../src/geo/compass.ts";
import { Engine } from "../../src/web/core/engine.ts";
import type { WindTold } from "../../src/web/core/protocol.ts";
import { COMPASS, FASTEST, shownSpeed, speedOf, windText } from "../../src/web/wind/choice.ts";
import { REPLAYED, replayed } from "../../src/web/wind/days.ts";
import { byDay, counted, dayText, hourText, stretches } from "../../src/web/wind/hour-words.ts";
import { parseWind } from "../../src/wind/wind-text.ts";

describe("hours in words", () => {
  it("are on the reader's clock, noon and midnight included, and keep minutes of odd zones", () => {
    const clock = ["00:00", "01:00", "12:00", "13:00", "23:30"].map((time) => `2026-07-04T${time}+05:30`);
    expect(clock.map((local) => hourText(local, "us"))).toEqual(["12 am", "1 am", "12 pm", "1 pm", "11:30 pm"]);
    expect(clock.map((local) => hourText(local, "metric"))).toEqual(["00:00", "01:00", "12:00", "13:00", "23:30"]);
  });

  it("go by local day, whatever the offset, and are counted by signal with the warning first", () => {
    const hours = [
      { local: "2026-07-04T23:00-06:00", signal: "retract" },
      { local: "2026-07-05T00:00-06:00", signal: "unknown" },
      { local: "2026-07-05T01:00-06:00", signal: "retract" },
    ] as const;
    expect(dayText(hours[0].local)).toBe("Saturday, July 4");
    expect(byDay(hours).map(({ day, hours: ofDay }) => `${day}: ${ofDay.length}`)).toEqual([
      "Saturday, July 4: 1",
      "Sunday, July 5: 2",
    ]);
    expect(counted(hours)).toEqual([
      { signal: "retract", count: 2 },
      { signal: "unknown", count: 1 },
      { signal: "no retract signal", count: 0 },
    ]);
  });
});

describe("hours that say the same", () => {
  it("become one stretch, unless another lies between them or the signal differs", () => {
    const hour = (time: string, signal: "retract" | "unknown", why: string) => ({
      local: `2026-07-04T${time}-06:00`,
      signal,
      why,
    });
    const hours = [
      hour("10:00", "unknown", "a"),
      hour("11:00", "unknown", "a"),
      hour("12:00", "unknown", "b"),
      hour("13:00", "unknown", "a"),
      hour("14:00", "retract", "a"),
    ];
    const told = stretches(hours).map(
      ({ first, last }) => `${hourText(first.local, "us")} to ${hourText(last.local, "us")}`,
    );
    expect(told).toEqual(["10 am to 11 am", "12 pm to 12 pm", "1 pm to 1 pm", "2 pm to 2 pm"]);
  });
});

describe("a wind by hand", () => {
  it("comes from the directions that the core knows", () => {
    expect(COMPASS).toEqual(COMPASS_WORDS);
  });

  it("keeps the number that was typed and is read back as that gust from there", () => {
    for (const units of ["us", "metric"] as const) {
      for (const typed of [0, 7, 23, 61]) {
        expect(shownSpeed(speedOf(typed, units), units)).toBe(typed);
        const read = parseWind(windText(speedOf(typed, units), "SSW", units));
        if (!read.ok) throw new Error(read.message);
        expect(read.wind.gust).toBeCloseTo(speedOf(typed, units), 6);
        expect(read.wind.mean ?? null).toBeNull();
        expect(read.wind.directions?.map((from) => (from * 180) / Math.PI)).toEqual([expect.closeTo(202.5, 9)]);
      }
    }
    expect(speedOf(20, "us")).toBeCloseTo(8.94, 2);
    expect(speedOf(36, "metric")).toBeCloseTo(10, 9);
    expect(shownSpeed(FASTEST, "us")).toBeLessThan(shownSpeed(FASTEST, "metric"));
  });
});

describe("the core's answer about the wind", () => {
  const read = (path: string) => readFileSync(new URL(`../../data/demo/${path}`, import.meta.url), "utf8");
  const rig: unknown = JSON.parse(read("rigs/van-camper.json"));
  const engine = new Engine();
  let opened: ReturnType<Engine["open"]>;
  beforeAll(() => {
    opened = engine.open(read("campground.geojson"));
  });

  async function told(site: string, when: unknown, units: "us" | "metric" = "us"): Promise<WindTold> {
    const asked = { rig, options: { units }, site, changes: [], planWidth: 400 };
    const { ticket } = await engine.fit(asked, "summary");
    const answer = await engine.wind({ ticket, when, roseWidth: 300 });
    if (answer === null) throw new Error("asked with a stale ticket");
    return answer;
  }

  it("has the rose, the prevailing wind on record and nothing about hours before a wind is chosen", async () => {
    expect(opened.invented).toBe(true);
    const { rose, exposure, prevailing, wind, awnings } = await told("pipit-3", null);
    expect(rose?.svg).toMatch(/data-part="prevailing"/);
    expect(rose?.notes.join(" ")).toMatch(/The prevailing wind comes from W\./);
    expect(exposure).toHaveLength(2);
    expect(prevailing).toBe("W");
    expect(wind).toBeNull();
    expect(awnings.map((one) => [one.wind, one.hours])).toEqual([[null, null]]);
  });

  it("hands over the awning as a request about the wind alone writes it", async () => {
    const [awning] = (await told("pipit-3", null)).awnings;
    const { rose } = await told("pipit-3", null);
    expect(awning?.asked.class).toBe(1);
    expect(awning?.asked.azimuth).toBeGreaterThan(200);
    expect(awning?.asked.azimuth).toBeLessThan(360);
    expect(rose?.notes[0]).toBe("The awning opens towards WNW.");
    expect(awning?.asked.height).toBeGreaterThan(1.8);
    expect(awning?.asked.height).toBeLessThan(2.39);
  });

  it("knows the season of a replayed day, so that trees in leaf shelter more", async () => {
    const without = await told("pipit-3", { wind: "gusting 30 mph from SSW" });
    const july = await told("pipit-3", replayed("front")!.when);
    expect(without.rose?.notes.join(" ")).toMatch(/season is not known/);
    expect(july.rose?.notes.join(" ")).not.toMatch(/season is not known/);
  });

  it("tells every replayed day hour by hour in the campground's time, whatever the time is now", async () => {
    for (const { id, when } of REPLAYED) {
      const { wind, awnings } = await told("curlew-25", when);
      expect(wind?.stay).toMatchObject({ timeZone: "America/Denver", timeZoneGiven: true });
      expect(wind?.forecast?.attribution).toMatch(/^Invented .*never forecast anywhere/);
      expect(awnings[0]?.hours?.map((hour) => hour.local.slice(11, 13))).toEqual(
        Array.from({ length: 24 }, (_, hour) => String(hour).padStart(2, "0")),
      );
      const cleared = awnings[0]?.hours?.filter((hour) => hour.signal === "no retract signal").length ?? 0;
      expect(cleared, id).toBeGreaterThan(6);
    }
    expect(replayed("yesterday")).toBeNull();
  });

  it("says for dates that this device has no forecast, marks a wind that it is told of, and refuses nonsense", async () => {
    const dates = await told("curlew-25", { from: "2026-07-11", to: "2026-07-12" });
    expect(dates.wind?.problem?.text).toMatch(/no forecast of its own/);
    expect(dates.awnings[0]?.hours?.every((hour) => hour.signal === "unknown")).toBe(true);
    const { ticket } = await engine.fit(
      { rig, options: {}, site: "curlew-25", changes: [], planWidth: 400 },
      "summary",
    );
    const marked = await engine.wind({ ticket, when: null, roseWidth: 300, marked: [Math.PI / 2] });
    expect(marked?.rose?.notes).toContain("The forecast wind comes from E.");
    await expect(engine.wind({ ticket, when: { wind: "brisk" }, roseWidth: 300 })).rejects.toThrow(/wind|speed/);
    expect(await engine.wind({ ticket: ticket - 1, when: null, roseWidth: 300 })).toBeNull();
  });
});
