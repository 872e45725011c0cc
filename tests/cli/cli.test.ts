import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import packageFile from "../../package.json" with { type: "json" };
import { type BuiltCommand, buildCommand } from "./run.ts";

const RIG = "tests/cli/fixtures/rig.json";
const CAMP = "tests/cli/fixtures/camp.geojson";
const OSM = "tests/cli/fixtures/camp.osm";
const WIDEST = 80;

let built: BuiltCommand;
let folder: string;

beforeAll(async () => {
  built = await buildCommand();
  folder = await mkdtemp(join(tmpdir(), "padwright-cli-"));
});

afterAll(async () => {
  await built.remove();
  await rm(folder, { recursive: true });
});

const fitAt = (site: string, ...more: string[]) =>
  built.run(["fit", "--rig", RIG, "--campground", CAMP, "--site", site, ...more]);
const search = (...more: string[]) => built.run(["search", "--rig", RIG, "--campground", CAMP, ...more]);

/** Reports wrap; a sentence is looked for in one piece. */
const flat = (text: string): string => text.replace(/\s+/g, " ");

describe("padwright fit", () => {
  it("says verdict, stance, lines, power, sewer, cautions and what is not checked, in 80 columns", async () => {
    const { code, out, error } = await fitAt("Marram 1", "--units", "us");
    expect([code, error]).toEqual([0, `${CAMP}: One feature refused; padwright import ${CAMP} says why.\n`]);
    expect(out).toMatch(/^Site Marram 1, Marram End \(invented\)\nRig: Thistle 22 \(invented\)\n\nFITS\nFits nose out/);
    for (const heading of [
      "Stance",
      "Lines",
      "Power",
      "Water and sewer",
      "Level",
      "Measure first",
      "Cautions",
      "Not checked",
    ])
      expect(out.split("\n")).toContain(heading);
    expect(out).toMatch(/^ {2}power {4}required +13 ft 8 in +25 ft +11 ft 4 in {2}reaches$/m);
    expect(flat(out)).toContain("Mating: direct at r30 (nema-tt-30).");
    expect(flat(out)).toContain("Runs: air conditioner + microwave + converter, 3500 W.");
    expect(flat(out)).toContain("test the receptacle's voltage, polarity and ground");
    expect(out).toMatch(/\d+ values are assumed; \d+ sources\. --verbose lists them\./);
    expect(Math.max(...out.split("\n").map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
    expect(out).not.toContain("\u001b");
  });

  it("answers in metres unless told otherwise, and lists everything when asked to", async () => {
    const short = await fitAt("m-1");
    const long = await fitAt("m-1", "--verbose");
    expect(short.out).toMatch(/^ {2}power {4}required +4\.\d\d m +7\.62 m +3\.\d\d m {2}reaches$/m);
    for (const heading of ["Checks", "Assumed", "Sources"]) expect(long.out.split("\n")).toContain(heading);
    expect(short.out).not.toContain("\nSources\n");
    expect(flat(long.out)).toContain("height.limit: not applicable");
  });

  it("gives the same answer as JSON, with the numbers of the report", async () => {
    const { code, out } = await fitAt("m-1", "--json");
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(answer).toMatchObject({ verdict: "fits", site: { id: "m-1", campground: "marram-end" }, units: "metric" });
    const line = answer.lines.find((one: { service: string }) => one.service === "power");
    expect(line.available).toBeCloseTo(25 * 0.3048, 9);
    expect(line.margin).toBeCloseTo(line.available - line.needed, 9);
    expect(answer.checks.length).toBeGreaterThan(20);
  });

  it("draws the plan into a file", async () => {
    const plan = join(folder, "plan.svg");
    expect((await fitAt("m-1", "--plan", plan)).code).toBe(0);
    expect(await readFile(plan, "utf8")).toMatch(/^<svg [\s\S]*Marram 1[\s\S]*<\/svg>\n$/);
  });

  it("takes needs and options, by flag and by file, the flags last", async () => {
    const absent = await fitAt("m-2", "--need", "water=required", "--json");
    expect(JSON.parse(absent.out).verdict).toBe("does not fit");
    const options = join(folder, "options.json");
    await writeFile(options, '{"kitPolicy": "any", "policy": {"largerBreaker": "refuse"}}');
    expect(JSON.parse((await fitAt("m-2", "--options", options, "--json")).out).power.mating).toBe("refused");
    const flag = ["--option", "policy.largerBreaker=allow"];
    expect(JSON.parse((await fitAt("m-2", "--options", options, ...flag, "--json")).out).power.mating).toBe(
      "adapter with caution",
    );
  });

  it("reads the rig from the standard input", async () => {
    const rig = await readFile(RIG, "utf8");
    const { code, out } = await built.run(["fit", "--rig", "-", "--campground", CAMP, "--site", "m-1", "--json"], rig);
    expect([code, JSON.parse(out).rig.id]).toEqual([0, "thistle-22"]);
  });

  it("ends with 4 under --strict when the rig does not fit or nobody knows, with 0 otherwise", async () => {
    const codes = [];
    for (const site of ["m-1", "m-2", "m-3", "m-4"]) codes.push((await fitAt(site, "--strict")).code);
    expect(codes).toEqual([0, 0, 4, 4]);
    expect((await fitAt("m-3")).code).toBe(0);
  });
});

describe("padwright search", () => {
  it("ranks the sites with verdict, margin, plug and reason, counts them, and names refused records", async () => {
    const { code, out } = await search("--units", "us");
    const rows = out.split("\n");
    expect(code).toBe(0);
    expect(rows[0]).toBe("Thistle 22 (invented) at Marram End (invented)");
    expect(rows[2]).toMatch(/^# {2}site {6}verdict +margin {2}plug +why$/);
    const ranked = rows.filter((row) => /^\d/.test(row)).map((row) => row.slice(0, 26).trim());
    expect(ranked.slice(0, 4)).toEqual([
      expect.stringMatching(/^1 {2}Marram 1 {2}fits$/),
      expect.stringMatching(/^2 {2}Marram 2 {2}fits with kit$/),
      expect.stringMatching(/^3 {2}Marram 4 {2}unknown$/),
      expect.stringMatching(/^4 {2}Marram 3 {2}does not fit$/),
    ]);
    expect(flat(out)).toContain(
      "4 sites: 1 fits, 1 fits with kit, 1 unknown, 1 does not fit. Shown: 4. Refused records: m-5.",
    );
    expect(Math.max(...rows.map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
  });

  it("filters by verdict, keeps the rank, and limits", async () => {
    const some = JSON.parse((await search("--verdict", "unknown", "--verdict", "fits with kit", "--json")).out);
    expect(some.sites.map(({ rank, site }: { rank: number; site: string }) => [rank, site])).toEqual([
      [2, "m-2"],
      [3, "m-4"],
    ]);
    expect(some.counts).toEqual({ fits: 1, "fits with kit": 1, tight: 0, unknown: 1, "does not fit": 1 });
    expect(some.refused).toEqual([{ id: "m-5", faults: [expect.stringContaining("/pad/length")] }]);
    expect(JSON.parse((await search("--limit", "1", "--json")).out).sites).toHaveLength(1);
  });

  it("shows what lies sheltered from a wind, the least exposed first, without a forecast", async () => {
    const demo = ["search", "--rig", "data/demo/rigs/van-camper.json", "--campground", "data/demo/campground.geojson"];
    const ask = async (...more: string[]) => JSON.parse((await built.run([...demo, "--json", ...more])).out).sites;
    const sheltered = await ask("--sheltered-from", "prevailing", "--order", "exposure");
    const ids = sheltered.map(({ site }: { site: string }) => site);
    expect(ids).toContain("curlew-28");
    expect(ids).not.toContain("avocet-5");
    expect(ids.length).toBeGreaterThan(10);
    expect((await built.run([...demo, "--sheltered-from", "leeward"])).code).toBe(2);
  });
});

describe("padwright import", () => {
  it("makes a record of open map data and tells what stays unknown; the record is readable", async () => {
    const record = join(folder, "camp.geojson");
    const { code, out } = await built.run(["import", OSM, "--out", record, "--id", "marram"]);
    expect(code).toBe(0);
    expect(flat(out)).toContain("Read 6 nodes, 1 ways and 0 relations (xml). Took 2 site.");
    expect(out).toMatch(/^ {2}pad\.length: 2 sites$/m);
    const again = await built.run(["import", record]);
    expect([again.code, flat(again.out)]).toEqual([0, expect.stringContaining("2 of 2 features taken.")]);
    expect(JSON.parse(await readFile(record, "utf8")).campground.id).toBe("marram");
  });

  it("checks a record, lists what was refused, and keeps record and report apart on the two streams", async () => {
    const told = await built.run(["import", CAMP]);
    expect([told.code, flat(told.out)]).toEqual([0, expect.stringContaining("4 of 5 features taken.")]);
    expect(flat(told.out)).toContain('/features/4/properties/pad/length: "long" cannot be read as a length');
    const { out, error } = await built.run(["import", CAMP, "--out", "-", "--json"]);
    expect(JSON.parse(out).features).toHaveLength(4);
    expect(JSON.parse(error)).toMatchObject({ accepted: 4, features: 5 });
  });

  it("refuses what is neither", async () => {
    const { code, error } = await built.run(["import", "-"], "nothing at all");
    expect([code, error]).toEqual([3, expect.stringContaining("The standard input cannot be imported.")]);
  });
});

describe("padwright serve", () => {
  it("serves a folder on the port and host that it is told, and ends in order", async () => {
    const child = spawn(process.execPath, [built.file, "serve", "--port", "0", "--data", "tests/cli/fixtures"], {
      env: { ...process.env, HOST: "127.0.0.1" },
    });
    let said = "";
    const address = await new Promise<string>((resolve, reject) => {
      child.on("exit", () => reject(new Error(said)));
      child.stderr.setEncoding("utf8").on("data", (text: string) => {
        said += text;
        const found = /answers at (http:\/\/127\.0\.0\.1:\d+)/.exec(said);
        if (found?.[1] !== undefined) resolve(found[1]);
      });
    });
    const answer = (await (await fetch(`${address}/v1/campgrounds`)).json()) as { numberMatched: number };
    expect(answer.numberMatched).toBe(1);
    const ended = new Promise((resolve) => child.on("exit", resolve));
    child.kill("SIGTERM");
    expect(await ended).toBe(0);
  });

  it("says plainly what is wrong with port and folder", async () => {
    const port = await built.run(["serve", "--port", "80a"]);
    expect([port.code, port.error]).toEqual([2, '--port wants a whole number from 0 to 65535, and "80a" is none.\n']);
    const missing = await built.run(["serve", "--port", "0", "--data", join(folder, "nowhere")]);
    expect([missing.code, missing.error]).toEqual([3, expect.stringContaining("cannot be read")]);
    const environment = await built.run(["serve"], "", { PORT: "-4" });
    expect([environment.code, environment.error]).toEqual([3, expect.stringContaining('PORT is "-4"')]);
  });
});

describe("help", () => {
  it("gives the version, the commands, and flags and examples for each", async () => {
    expect(await built.run(["--version"])).toEqual({ code: 0, out: `${packageFile.version}\n`, error: "" });
    const all = await built.run(["--help"]);
    expect(all.code).toBe(0);
    for (const name of ["fit", "search", "wind", "import", "serve"]) {
      expect(all.out).toMatch(new RegExp(`^  ${name} `, "m"));
      const { code, out } = await built.run([name, "--help"]);
      expect([code, out]).toEqual([
        0,
        expect.stringMatching(new RegExp(`^Usage: padwright ${name} [\\s\\S]*Examples:\n  padwright ${name}`)),
      ]);
      expect(Math.max(...out.split("\n").map((row) => row.length))).toBeLessThanOrEqual(WIDEST);
    }
    expect(await built.run([])).toMatchObject({ code: 2, out: "" });
  });
});

describe("a command line that cannot be understood ends with 2", () => {
  const cases: readonly (readonly [string, readonly string[], string])[] = [
    ["command", ["serach"], 'There is no command "serach". Did you mean search?'],
    ["flag", ["fit", "--campgroud", "x"], "There is no flag --campgroud here. Did you mean --campground?"],
    ["flag missing", ["fit", "--rig", "x", "--site", "y"], "--campground file is missing."],
    [
      "value missing",
      ["search", "--rig", "--campground", "x"],
      "--rig wants a value (file), and --campground follows.",
    ],
    ["twice", ["search", "--rig", "a", "--rig", "b", "--campground", "x"], "--rig is given 2 times."],
    ["value not wanted", ["search", "--json=yes"], "--json takes no value."],
    ["stray word", ["serve", "now"], 'Nobody knows what "now" stands for.'],
    [
      "limit",
      ["search", "--rig", RIG, "--campground", CAMP, "--limit", "none"],
      '--limit wants a whole number from 1, and "none" is none.',
    ],
    [
      "verdict",
      ["search", "--rig", RIG, "--campground", CAMP, "--verdict", "good"],
      '"good" is no verdict: fits, fits with kit,',
    ],
    [
      "need",
      ["fit", "--rig", RIG, "--campground", CAMP, "--site", "m-1", "--need", "power"],
      '--need wants key=value, and "power" is none.',
    ],
    [
      "shared input",
      ["fit", "--rig", "-", "--campground", "-", "--site", "m-1"],
      'Only one of --rig, --campground can be "-".',
    ],
  ];
  it.each(cases)("%s", async (_, args, message) => {
    const { code, out, error } = await built.run(args);
    expect([code, out]).toEqual([2, ""]);
    expect(error).toContain(message);
  });
});

describe("input that is refused ends with 3 and lists every fault", () => {
  it("files: missing, a folder, no JSON", async () => {
    const missing = await built.run(["fit", "--rig", "gone.json", "--campground", CAMP, "--site", "m-1"]);
    expect([missing.code, missing.error]).toEqual([3, "gone.json cannot be read: there is no such file.\n"]);
    const isFolder = await built.run(["search", "--rig", "tests", "--campground", CAMP]);
    expect([isFolder.code, isFolder.error]).toEqual([3, "tests cannot be read: it is a folder.\n"]);
    const broken = join(folder, "broken.json");
    await writeFile(broken, '{\n  "class": "van",\n  "length": 6.1,,\n}');
    const noJson = await built.run(["search", "--rig", broken, "--campground", CAMP]);
    expect([noJson.code, noJson.error]).toEqual([
      3,
      expect.stringContaining(`${broken} cannot be read as JSON.\n  line 3, column 17`),
    ]);
    const camp = await built.run(["search", "--rig", RIG, "--campground", broken]);
    expect([camp.code, camp.error]).toEqual([3, expect.stringContaining("line 3, column 17")]);
  });

  it("a rig: every fault with its path and what is expected", async () => {
    const { code, error } = await built.run(
      ["fit", "--rig", "-", "--campground", CAMP, "--site", "m-1"],
      '{"class": "class-c", "length": "22 parsecs", "hight": "10 ft"}',
    );
    expect(code).toBe(3);
    expect(error).toContain("The standard input is no rig record: ");
    expect(error).toContain("  /length: ");
    expect(error).toContain('  /hight: "hight" is not known here. Did you mean "height"?');
    expect(error).toContain("      expected: ");
  });

  it("a site: unknown with the nearest name, or refused with its faults", async () => {
    const unknown = await fitAt("Maram 2");
    expect([unknown.code, flat(unknown.error)]).toEqual([
      3,
      expect.stringContaining(
        'has no site "Maram 2". Did you mean "Marram 2"? Its sites: Marram 1, Marram 2, Marram 3, Marram 4.',
      ),
    ]);
    const refused = await fitAt("m-5");
    expect([refused.code, refused.error]).toEqual([
      3,
      expect.stringContaining("The record of site m-5 was refused.\n  /features/4/properties/pad/length: "),
    ]);
  });

  it("a campground and options", async () => {
    const camp = await built.run(["search", "--rig", RIG, "--campground", RIG]);
    expect([camp.code, camp.error]).toEqual([3, expect.stringContaining(`${RIG} is no campground record`)]);
    const options = await fitAt("m-1", "--option", "comfrt=0.3", "--need", "power=must");
    expect(options.code).toBe(3);
    expect(options.error).toContain('Did you mean "comfort"?');
    expect(options.error).toContain("/needs/power");
  });

  it("draws the way in into a file", async () => {
    const file = join(folder, "way-in.svg");
    expect((await fitAt("m-1", "--way-in", file)).code).toBe(0);
    expect(await readFile(file, "utf8")).toMatch(/^<svg [\s\S]*Way in and out[\s\S]*<\/svg>\n$/);
  });

  it("a plan that cannot be written", async () => {
    const { code, error } = await fitAt("m-1", "--plan", join(folder, "no", "plan.svg"));
    expect([code, error]).toEqual([3, expect.stringContaining("plan.svg cannot be written")]);
  });
});

describe("the streams", () => {
  it("lets a reader stop early", async () => {
    const args = [built.file, "fit", "--rig", RIG, "--campground", CAMP, "--site", "m-1", "--json"];
    const child = spawn(process.execPath, args);
    let error = "";
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      error += text;
    });
    child.stdout.destroy();
    expect(await new Promise((resolve) => child.on("close", resolve))).toBe(0);
    expect(error).not.toContain("EPIPE");
  });

  it("does not let a record steer the terminal", async () => {
    const rig = JSON.parse(await readFile(RIG, "utf8"));
    const name = "Red \u001b[31m rig\u202e";
    const args = ["fit", "--rig", "-", "--campground", CAMP, "--site", "m-1"];
    const { code, out } = await built.run(args, JSON.stringify({ ...rig, name }));
    expect(code).toBe(0);
    expect(out).toContain("Rig: Red ?[31m rig?");
  });
});
