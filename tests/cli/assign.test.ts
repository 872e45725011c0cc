import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type BuiltCommand, buildCommand } from "./run.ts";

const CAMP = "tests/cli/fixtures/camp.geojson";
const HEAD = "id,arrival,departure,rig.class,rig.length,rig.height,rig.power.plug,rig.power.cord,tight,needs.power";
const ROWS = [
  "early,2027-06-04,2027-06-06,class-c,25 ft,11 ft,nema-tt-30,25 ft,yes,wanted",
  "late,2027-06-06,2027-06-09,class-c,25 ft,11 ft,nema-tt-30,25 ft,yes,wanted",
  "giant,2027-06-04,2027-06-05,class-a,60 ft,13 ft,nema-14-50,25 ft,yes,wanted",
];

let built: BuiltCommand;
let folder: string;

beforeAll(async () => {
  built = await buildCommand();
  folder = await mkdtemp(join(tmpdir(), "padwright-assign-"));
});

afterAll(async () => {
  await built.remove();
  await rm(folder, { recursive: true });
});

async function assign(table: string, ...more: string[]) {
  const file = join(folder, "stays.csv");
  await writeFile(file, table);
  return built.run(["assign", "--campground", CAMP, "--stays", file, ...more]);
}

describe("padwright assign", () => {
  it("tells who stands where, how good the plan is known to be, and why someone has no site", async () => {
    const { code, out, error } = await assign([HEAD, ...ROWS].join("\n"));
    expect(error).toBe("");
    expect(code).toBe(0);
    expect(out).toContain("2 of 3 stays have a site");
    expect(out).toContain("Refused records, given to nobody: m-5.");
    expect(out).toMatch(/Optimal: no plan is worth more than -?\d+ points/);
    expect(out).toMatch(/Without a site\n\s+giant, 2027-06-04 to 06-05: 0 sites would do by the fit/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("gives the answer of the interface with --json, and the same plan for one seed", async () => {
    const table = [HEAD, ...ROWS].join("\n");
    const [one, two] = [await assign(table, "--json", "--seed", "5"), await assign(table, "--json", "--seed", "5")];
    const answer = JSON.parse(one.out) as Record<string, unknown> & { status: string; bound: number; value: number };
    expect(answer.status).toBe("optimal");
    expect(answer.bound).toBe(answer.value);
    expect(answer["work"]).toMatchObject({ seed: 5, exactSolver: "HiGHS" });
    expect(two.out).toBe(one.out);
  });

  it("names every bad row", async () => {
    const { code, error } = await assign(
      [HEAD, ROWS[0]!.replace("2027-06-06", "2027-06-04"), ROWS[1]!.replace("25 ft", "x")].join("\n"),
    );
    expect(code).not.toBe(0);
    expect(error).toMatch(/line 2, departure/);
    expect(error).toMatch(/line 3, rig\.length/);
  });

  it("refuses an effort that there is not", async () => {
    const { code, error } = await assign([HEAD, ...ROWS].join("\n"), "--effort", "heroic");
    expect(code).not.toBe(0);
    expect(error).toContain("/options/effort");
  });
});
