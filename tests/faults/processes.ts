/** Servers as processes of their own, that can be killed; and requests to them as a host. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { freshToken, sha256 } from "../../src/http/host/local-tokens.ts";
import { EXAMPLE_COLLECTION } from "../../src/http/openapi/examples.ts";
import { createToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
export const PARK = "alder-flat";
export const BASE = `/v1/campgrounds/${PARK}`;
const SITES = 12;

export interface Bench {
  readonly folder: string;
  readonly ledger: string;
  readonly token: string;
  readonly sites: readonly string[];
  readonly program: string;
  readonly remove: () => Promise<void>;
}

/** A folder with records, a token and the bundled server; the ledger lies in it, or where `ledger` says. */
export async function openBench(place?: string): Promise<Bench> {
  const folder = await mkdtemp(join(tmpdir(), "padwright-faults-"));
  // Beside the packages, because the native one is looked up from the program's place.
  const program = join(ROOT, "dist", "tests", `server-${process.pid}-${Date.now()}.js`);
  await mkdir(join(ROOT, "dist", "tests"), { recursive: true });
  await build({
    entryPoints: [join(ROOT, "tests/faults/server.ts")],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    logLevel: "warning",
    banner: { js: "import{createRequire as requireFrom}from'node:module';const require=requireFrom(import.meta.url);" },
  });
  const [first] = EXAMPLE_COLLECTION.features;
  const sites = Array.from({ length: SITES }, (_, index) => `K${index + 1}`);
  const features = sites.map((id) => ({ ...first, id, properties: { ...first.properties, name: id } }));
  await writeFile(join(folder, "park.geojson"), JSON.stringify({ ...EXAMPLE_COLLECTION, features }));
  const path = join(place ?? folder, "park.sqlite");
  const { ledger, close } = openLedger(path);
  const token = freshToken();
  const grants = { [PARK]: ["read", "stays", "records"] as const };
  createToken(ledger, await sha256(token), { id: "faults", name: "faults", grants, expiresAt: null });
  close();
  const remove = async () => {
    await rm(program, { force: true });
    await rm(folder, { recursive: true });
  };
  return { folder, ledger: path, token, sites, program, remove };
}

export interface Running {
  readonly address: string;
  readonly child: ChildProcess;
  /** Milliseconds from the start of the process to its first answer. */
  readonly readyAfter: number;
  /** Ends the process at once, as nothing else would. */
  readonly kill: () => Promise<void>;
}

/** Starts a server. @param shell Words before the program, for limits that a shell sets. */
export async function startServer(bench: Bench, shell?: string): Promise<Running> {
  const started = performance.now();
  const args = [bench.program, bench.ledger, bench.folder];
  const child =
    shell === undefined
      ? spawn(process.execPath, args, { stdio: ["ignore", "pipe", "pipe"] })
      : spawn("bash", ["-c", `${shell} exec "$0" "$@"`, process.execPath, ...args], {
          stdio: ["ignore", "pipe", "pipe"],
        });
  let said = "";
  const address = await new Promise<string>((resolve, reject) => {
    child.stderr?.on("data", (data) => {
      said += String(data);
    });
    child.stdout?.once("data", (data) => resolve(String(data).trim()));
    child.once("exit", (code, signal) => reject(new Error(`The server ended (${code ?? signal}): ${said}`)));
  });
  child.removeAllListeners("exit");
  const health = await fetch(`${address}/healthz`);
  await health.arrayBuffer();
  const readyAfter = performance.now() - started;
  const kill = () =>
    new Promise<void>((resolve) => {
      if (child.exitCode !== null || child.signalCode !== null) return resolve();
      child.once("exit", () => resolve());
      child.kill("SIGKILL");
    });
  return { address, child, readyAfter, kill };
}

export interface Request {
  readonly method: string;
  readonly path: string;
  readonly key: string;
  readonly body?: unknown;
  readonly mediaType?: string;
  readonly match?: string;
}

export interface Answer {
  readonly status: number;
  readonly text: string;
  readonly replayed: boolean;
  readonly tag: string | null;
}

/** Sends one request and reads its answer to the end: only then it counts as acknowledged. */
export async function send(bench: Bench, address: string, request: Request): Promise<Answer> {
  const { method, path, key, body, mediaType = "application/json", match } = request;
  const response = await fetch(address + BASE + path, {
    method,
    ...(body === undefined ? {} : { body: typeof body === "string" ? body : JSON.stringify(body) }),
    headers: {
      Authorization: `Bearer ${bench.token}`,
      ...(method === "GET" ? {} : { "Idempotency-Key": key }),
      ...(body === undefined ? {} : { "Content-Type": mediaType }),
      ...(match === undefined ? {} : { "If-Match": match }),
    },
  });
  const text = await response.text();
  return {
    status: response.status,
    text,
    replayed: response.headers.get("idempotency-replayed") === "true",
    tag: response.headers.get("etag"),
  };
}

/** A generator of numbers from 0 to 1 that a seed decides (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
