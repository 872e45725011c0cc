/** The examples for trip tools, run as they stand against the demo server: curl, Python's standard library, TypeScript. */
import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Service, serve } from "../../src/node/serve.ts";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const EXAMPLES = `${ROOT}tests/examples`;

let service: Service;
beforeAll(async () => {
  service = await serve({
    port: 0,
    folder: `${ROOT}data/demo`,
    version: "0",
    page: null,
    log: () => undefined,
    settings: {},
  });
});
afterAll(() => service.stop());

async function run(command: string, ...words: string[]): Promise<string[]> {
  const env = { ...process.env, PADWRIGHT: service.address };
  const { stdout } = await promisify(execFile)(command, words, { cwd: ROOT, env, maxBuffer: 2 ** 26 });
  return stdout.trimEnd().split("\n");
}

/** What both programs say, by asking without either. */
async function wanted(): Promise<string[]> {
  const rig = JSON.parse(await readFile(`${ROOT}data/demo/rigs/van-camper.json`, "utf8"));
  const ask = async (path: string, body: object) => {
    const headers = { "Content-Type": "application/json" };
    return (await fetch(service.address + path, { method: "POST", body: JSON.stringify(body), headers })).text();
  };
  const fit = JSON.parse(await ask("/v1/fit", { rig, site: { campground: "quillfeather-flats", site: "curlew-3" } }));
  const rows = await ask("/v1/fit/batch", { rigs: [rig], campgrounds: ["quillfeather-flats"] });
  const verdicts = rows
    .trimEnd()
    .split("\n")
    .map((row) => JSON.parse(row).fit.verdict);
  const fits = verdicts.filter((verdict) => verdict === "fits").length;
  expect(fits).toBeGreaterThan(0);
  return [fit.headline, `${verdicts.length} sites, ${fits} fit`, "422 /rig/length"];
}

describe("the examples", () => {
  it("in Python and in TypeScript say the same", async () => {
    const said = await wanted();
    expect(await run("python3", `${EXAMPLES}/trip-tool.py`)).toEqual(said);
    expect(await run(process.execPath, "--import", "tsx", `${EXAMPLES}/trip-tool.ts`)).toEqual(said);
  });

  it("for curl give rows and a page of features", async () => {
    const script = await readFile(`${EXAMPLES}/trip-tool.sh`, "utf8");
    const lines = await run("sh", "-c", script.replaceAll("http://127.0.0.1:8787", service.address));
    const page = lines.findIndex((line) => line.startsWith('{"type":"FeatureCollection"'));
    const rows = lines.slice(0, page).map((line) => JSON.parse(line) as { row: number; of: number });
    expect(rows.map(({ row }) => row)).toEqual(rows.map((_, index) => index));
    expect(rows[0]?.of).toBe(rows.length);
    const { features, numberReturned } = JSON.parse(lines.slice(page).join("\n"));
    expect(numberReturned).toBe(2);
    expect(features[0].properties.layout).toBe("pull-through");
  });
});
