/** The wind on the command line. The campground and its winds are invented. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_RIG, EXAMPLE_WIND_REQUEST } from "../../src/http/openapi/examples.ts";
import { fitAnswerSchema } from "../../src/http/schemas/answer.ts";
import { windReportSchema } from "../../src/http/schemas/wind.ts";
import { type BuiltCommand, buildCommand } from "./run.ts";

const WIDEST = 80;
const OFF = { FORECAST_CONTACT: "", FORECAST_OPEN_METEO: "", FORECAST_OPEN_METEO_KEY: "" };

let built: BuiltCommand;
let folder: string;
let camp: string;
let day: string;
let rig: string;

beforeAll(async () => {
  built = await buildCommand();
  folder = await mkdtemp(join(tmpdir(), "padwright-wind-"));
  const { site, campground, around, when } = EXAMPLE_WIND_REQUEST;
  const write = async (name: string, value: unknown) => {
    const file = join(folder, name);
    await writeFile(file, JSON.stringify(value));
    return file;
  };
  camp = await write("camp.geojson", { type: "FeatureCollection", campground, features: [site, ...around] });
  day = await write("day.json", when);
  rig = await write("rig.json", EXAMPLE_RIG);
});

afterAll(async () => {
  await built.remove();
  await rm(folder, { recursive: true });
});

const wind = (...more: string[]) => built.run(["wind", "--campground", camp, "--site", "A7", ...more], "", OFF);
const flat = (text: string): string => text.replace(/\s+/g, " ");

describe("padwright wind", () => {
  it("prints the rose as a table, the worst hour and the hours in 80 columns", async () => {
    const { code, out, error } = await wind("--side", "right", "--class", "2", "--forecast", day);
    expect([code, error]).toEqual([0, ""]);
    expect(out).toMatch(/^Wind at site A7, Alder Flat \(invented\)\n/);
    expect(out).toMatch(/^ {2}W P +\d+ % {2}#+\.+ +\w+ +open land with low plants; trees/m);
    expect(out.match(/^ {2}\S+( P)? +\d+ % {2}[#.]{20} /gm)).toHaveLength(16);
    expect(out).toMatch(/^ {2}07-04 15:00 +1 +33 km\/h +\d+ km\/h +SW +retract +retract$/m);
    expect(flat(out)).toContain("Forecast handed in: invented; made 2026-07-04T11:00:00.000Z.");
    expect(flat(out)).toContain("The awning opens towards WNW.");
    expect(flat(out)).toContain("an open awning needs someone present and awake");
    expect(Math.max(...out.split("\n").map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
    expect(out).not.toMatch(/\bsafe\b/i);
  });

  it("gives the answer of the interface as JSON, and the rose as a drawing", async () => {
    const file = join(folder, "rose.svg");
    const { code, out } = await wind("--wind", "gusting 30 mph from SW", "--azimuth", "SW", "--json", "--rose", file);
    expect(code).toBe(0);
    const report = windReportSchema.strict().parse(JSON.parse(out));
    expect(report.awning).toMatchObject({ azimuth: 225, wind: { level: "retract", from: [225] }, hours: null });
    expect(await readFile(file, "utf8")).toMatch(/^<svg [\s\S]*data-part="forecast"/);
  });

  it("answers without any forecast, the hours unknown, and asks nobody", async () => {
    const { code, out } = await wind("--from", "2026-07-03", "--to", "2026-07-05");
    expect(code).toBe(0);
    expect(out).toMatch(/^ {2}07-03 00:00 +72 +- +- +- +unknown +unknown$/m);
    expect(flat(out)).toContain("No forecast is set up here, so the hours are unknown.");
  });

  it("tells the offsets on the day on which an hour comes twice", async () => {
    const { out } = await wind("--from", "2026-11-01");
    expect(out).toMatch(/^ {2}11-01 00:00-06 +25 /m);
  });

  it("refuses what it cannot read, every fault with its place", async () => {
    const refused = await wind("--wind", "20 mhp from SW");
    expect([refused.code, refused.out]).toEqual([3, ""]);
    expect(refused.error).toContain('/wind: The unit "mhp" is not known for a speed.');
    expect((await wind("--from", "2026-07-05", "--to", "2026-07-03")).error).toContain("/to: The stay ends before");
    expect((await wind("--class", "7", "--side", "top")).error).toMatch(/\/padSide: [\s\S]*\/class: /);
    expect((await wind("--from", "2026-07-03", "--wind", "20 mph")).error).toContain(
      "/from: A wind by hand stands alone.",
    );
    const half = await built.run(["wind", "--campground", camp, "--site", "A7", "--from", "2026-07-03"], "", {
      ...OFF,
      FORECAST_OPEN_METEO: "non-commercial",
    });
    expect([half.code, half.error]).toEqual([3, expect.stringContaining("FORECAST_CONTACT")]);
  });
});

describe("padwright fit with a wind", () => {
  const fitWith = (...more: string[]) =>
    built.run(["fit", "--rig", rig, "--campground", camp, "--site", "A7", "--units", "us", ...more], "", OFF);

  it("tells the awning and its hours beside everything else", async () => {
    const { code, out } = await fitWith("--forecast", day);
    expect(code).toBe(0);
    expect(out.split("\n")).toContain("Awning and wind");
    expect(flat(out)).toContain("Awning in Saturday 14:00 to 16:00; 21 of 24 awning hours unknown.");
    expect(out).toMatch(/^ {2}07-04 14:00 +2 +34 mph +\d+ mph +S, SW +retract +retract$/m);
    expect(Math.max(...out.split("\n").map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
    const json = await fitWith("--wind", "20 mph from SW", "--json");
    expect(fitAnswerSchema.strict().parse(JSON.parse(json.out)).awning[0]!.wind).toMatchObject({
      of: "wind by hand",
      from: [225],
    });
  });
});
