/** A server with a ledger in a temporary file, some invented stays in it, and the tokens of its hosts. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { freshToken, sha256 } from "../../src/http/host/local-tokens.ts";
import { localDate } from "../../src/ledger/dates.ts";
import { createToken, type Grants } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { serve } from "../../src/node/serve.ts";
import { addDays } from "../../src/web/desk/words.ts";
import { fewSites } from "./page-build.ts";

export const CAMPGROUND = "quillfeather-flats";
/** Sites of every kind: long and short, with 50 A and 30 A, with and without sewer, one that is only described. */
export const SITES = ["curlew-4", "curlew-21", "siskin-1", "siskin-2", "avocet-6", "plover-1", "wren-1", "field-5"];

export const COACH = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft 2 in",
  power: { plug: "nema-tt-30", cord: "25 ft" },
  waterHose: "25 ft",
  sewerHose: "10 ft",
};
export const LONG_COACH = { ...COACH, class: "class-a", length: "39 ft", height: "12 ft 10 in" };

export interface HostServer {
  readonly address: string;
  readonly today: string;
  readonly day: (offset: number) => string;
  readonly token: (grants?: Grants, expiresAt?: string | null) => Promise<string>;
  /** Sends as an office of its own. */
  readonly send: (method: string, path: string, body?: unknown, match?: string) => Promise<Response>;
  readonly stay: (
    id: string,
  ) => Promise<{ version: number; place: { site: string; locked: boolean } | null; departure: string }>;
  readonly stop: () => Promise<void>;
}

const ALL: Grants = { [CAMPGROUND]: ["read", "stays", "records"] };
let keys = 0;

export async function startHost(page: string): Promise<HostServer> {
  const folder = await mkdtemp(join(tmpdir(), "padwright-host-"));
  const file = join(folder, "book.sqlite");
  const service = await serve({
    folder: await fewSites("host-records", SITES),
    ledger: file,
    page,
    port: 0,
    host: "127.0.0.1",
    version: "0.0.0-test",
    log: () => {},
  });
  const token = async (grants = ALL, expiresAt: string | null = null) => {
    const text = freshToken();
    const hash = await sha256(text);
    const { ledger, close } = openLedger(file);
    ledger.sql.transaction(() => createToken(ledger, hash, { id: hash.slice(0, 8), name: "test", grants, expiresAt }));
    close();
    return text;
  };
  const office = await token();
  const today = localDate(Date.now(), "America/Denver");
  const send: HostServer["send"] = (method, path, body, match) => {
    keys += 1;
    const type = method === "PATCH" ? "application/merge-patch+json" : "application/json";
    return fetch(`${service.address}/v1/campgrounds/${CAMPGROUND}${path}`, {
      method,
      headers: {
        Authorization: `Bearer ${office}`,
        ...(method === "GET" ? {} : { "Idempotency-Key": `test-${keys}` }),
        ...(body === undefined ? {} : { "Content-Type": type }),
        ...(match === undefined ? {} : { "If-Match": match }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  };
  return {
    address: service.address,
    today,
    day: (offset) => addDays(today, offset),
    token,
    send,
    stay: async (id) => (await send("GET", `/stays/${id}`)).json() as ReturnType<HostServer["stay"]>,
    stop: async () => {
      await service.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

async function must(response: Response): Promise<void> {
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
}

/** The invented stays: some stand, one is in house, one is promised, two have no site. */
export async function seed({ send, day }: HostServer): Promise<void> {
  const stays: readonly (readonly [string, number, number, object, string | null, object?])[] = [
    ["otter-1", 0, 3, COACH, "curlew-4", { party: { name: "Ada Otter (invented)" } }],
    ["vole-2", 0, 2, LONG_COACH, "curlew-21", { party: { name: "Bo Vole (invented)" } }],
    ["stoat-3", -1, 2, COACH, "siskin-1", { status: "in-house" }],
    ["hare-4", 3, 6, COACH, "siskin-1", {}],
    ["mink-5", 1, 5, COACH, "avocet-6", {}],
    ["shrew-6", 2, 4, LONG_COACH, null, { party: { name: "Cy Shrew (invented)" } }],
    ["newt-7", 1, 3, { ...COACH, length: "45 ft" }, null, {}],
  ];
  for (const [id, arrival, departure, rig, site, more] of stays) {
    await must(await send("POST", "/stays", { id, arrival: day(arrival), departure: day(departure), rig, ...more }));
    if (site !== null)
      await must(await send("POST", "/assignment/move", { moves: [{ stay: id, from: null, to: site }] }));
  }
  await must(await send("POST", "/assignment/lock", { stays: ["mink-5"] }));
}
