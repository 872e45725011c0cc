/**
 * The same straight-line reach question asked of PostGIS. Starts a server of its own in a temporary folder (Debian
 * packages postgresql and postgis, installed here when they are missing; users need neither) and takes it away again.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { appendFileSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ScreenRig } from "../../src/fit/screen/rig.ts";
import type { ScreenSites } from "../../src/fit/screen/sites.ts";

const BINARIES = "/usr/lib/postgresql";
const PORT = "54329";
const ROWS_AT_ONCE = 50_000;

function binaries(): string {
  if (!existsSync(BINARIES)) {
    execFileSync("apt-get", ["update", "-q"], { stdio: "ignore" });
    execFileSync("apt-get", ["install", "-y", "-q", "postgresql-15-postgis-3"], { stdio: "ignore" });
  }
  const [version] = readdirSync(BINARIES).sort().reverse();
  return join(BINARIES, version ?? "15", "bin");
}

function asPostgres(command: string, args: readonly string[]): string {
  const run = spawnSync("runuser", ["-u", "postgres", "--", command, ...args], { encoding: "utf8" });
  if (run.status !== 0) throw new Error(`${command}: ${run.stderr}`);
  return run.stdout;
}

export interface PostgisAnswer {
  readonly version: string;
  readonly loadSeconds: number;
  readonly querySeconds: number;
  /** Sites of which every line is long enough for itself, nose out. */
  readonly passing: number;
}

/** Asks, nose out: is every hookup within the line's length of where the pad lets the inlet be? */
export function askPostgis(rig: ScreenRig, sites: ScreenSites): PostgisAnswer {
  const folder = mkdtempSync(join(tmpdir(), "padwright-postgis-"));
  const bin = binaries();
  const data = join(folder, "data");
  const owner = Number(execFileSync("id", ["-u", "postgres"], { encoding: "utf8" }));
  chownSync(folder, owner, -1);
  asPostgres(join(bin, "initdb"), ["-D", data, "-A", "trust", "--no-sync"]);
  const settings = `-p ${PORT} -k ${folder} -c listen_addresses='' -c fsync=off`;
  asPostgres(join(bin, "pg_ctl"), ["-D", data, "-w", "-l", join(folder, "log"), "-o", settings, "start"]);
  const ask = (sql: string) =>
    asPostgres(join(bin, "psql"), ["-h", folder, "-p", PORT, "-d", "postgres", "-At", "-q", "-c", sql]).trim();
  try {
    ask("create extension postgis");
    const version = ask("select postgis_lib_version()");
    const file = join(folder, "sites.csv");
    writeSites(file, sites);
    chownSync(file, owner, -1);
    const loading = performance.now();
    ask(`create unlogged table site (length float8, width float8, overhang float8,
      power geometry(Point), water geometry(Point), sewer geometry(Point), cord float8)`);
    ask(`copy site from '${file}' with (format csv)`);
    const loadSeconds = (performance.now() - loading) / 1000;
    const kinds = [...(rig.lines[0]?.connections[0]?.farthest ?? [])];
    const sql = `select count(*) from site where ${rig.lines.map((line) => withinReach(rig, line, kinds)).join(" and ")}
      and length + overhang >= ${rig.length} and width >= ${2 * rig.halfWidth}`;
    ask(sql);
    const asking = performance.now();
    const passing = Number(ask(`set max_parallel_workers_per_gather = 0; ${sql}`).split("\n").at(-1));
    return { version, loadSeconds, querySeconds: (performance.now() - asking) / 1000, passing };
  } finally {
    asPostgres(join(bin, "pg_ctl"), ["-D", data, "-w", "-m", "immediate", "stop"]);
    rmSync(folder, { recursive: true, force: true });
  }
}

function withinReach(rig: ScreenRig, line: ScreenRig["lines"][number], kinds: readonly number[]): string {
  const connection = line.connections[0]!;
  const half = `greatest(0, width / 2 - ${rig.halfWidth})`;
  const room = `ST_MakeEnvelope(${connection.fromRear} - overhang, ${connection.left} - ${half},
    length - ${rig.length} + ${connection.fromRear}, ${connection.left} + ${half})`;
  const lengths = kinds.map((length, kind) => `when ${kind} then ${length}`).join(" ");
  const length = line.service === "power" ? `(case cord ${lengths} end)` : String(connection.farthest[0]);
  return `ST_Distance(${line.service}, ${room}) <= ${length}`;
}

/** Sites with their hookups as points of the pad frame; the receptacle's kind stands for the cord. */
function writeSites(file: string, sites: ScreenSites): void {
  writeFileSync(file, "");
  let rows: string[] = [];
  for (let site = 0; site < sites.count; site++) {
    const first = sites.hookupStart[site] as number;
    const point = (hookup: number) => `POINT(${sites.along[hookup]} ${sites.left[hookup]})`;
    const kind = sites.receptacle[sites.receptacleStart[first] as number];
    rows.push(
      [
        sites.padLength[site],
        sites.padWidth[site],
        sites.rear[site],
        point(first),
        point(first + 1),
        point(first + 2),
        kind,
      ].join(","),
    );
    if (rows.length === ROWS_AT_ONCE || site === sites.count - 1) {
      appendFileSync(file, `${rows.join("\n")}\n`);
      rows = [];
    }
  }
}
