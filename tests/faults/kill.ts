/**
 * Kills the server in the middle of writes, again and again, and looks for every acknowledged write by its id. What
 * was sent and never answered is sent again under its key: it must come out with one effect. This shows what a killed
 * process does; it does not show what a loss of power does, because the operating system keeps what was written.
 */
import { dateOfNight, nightOfDate } from "../../src/assign/nights.ts";
import type { SqlDriver } from "../../src/ledger/driver.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { breaches } from "./invariants.ts";
import { type Answer, type Bench, openBench, PARK, type Request, seeded, send, startServer } from "./processes.ts";

export interface KillReport {
  readonly cycles: number;
  readonly acknowledged: number;
  /** Sent, not answered before the kill. */
  readonly unanswered: number;
  /** Of those: had their effect all the same, and were answered from what was kept. */
  readonly committedUnanswered: number;
  readonly lost: readonly string[];
  readonly breaches: readonly string[];
  /** Milliseconds from start to first answer. */
  readonly slowestStart: number;
  readonly medianStart: number;
  readonly bytes: number;
}

/** What an acknowledged write promises: a row that can be looked up by its id. */
interface Kept {
  readonly what: string;
  readonly holds: (sql: SqlDriver) => boolean;
}

const CLIENTS = 4;
const FIRST_NIGHT = nightOfDate("2030-01-01") ?? 0;
const RIG = { class: "class-c", length: "25 ft" };
const WHOLE_CHECK_EVERY = 50;

/** The writes of one client: a stay, its site, now and then three rows at once or a change of the record. */
class Client {
  private night = FIRST_NIGHT;
  private readonly site: string;

  constructor(
    private readonly bench: Bench,
    private readonly name: string,
    index: number,
  ) {
    this.site = bench.sites[index] ?? "";
  }

  /** The next two or three writes, in order, with what each promises once it is acknowledged. */
  next(serial: number): readonly { readonly request: Request; readonly promise: Kept }[] {
    const id = `${this.name}-${serial}`;
    const [arrival, departure] = [dateOfNight(this.night), dateOfNight(this.night + 2)];
    this.night += 2;
    const placed = (sql: SqlDriver) =>
      sql.get(
        "SELECT count(*) AS n FROM site_night WHERE campground = ? AND stay = ? AND site = ?",
        PARK,
        id,
        this.site,
      )?.["n"] === 2;
    const isThere = (stay: string) => (sql: SqlDriver) =>
      sql.get("SELECT arrival FROM stay WHERE campground = ? AND id = ?", PARK, stay)?.["arrival"] === arrival;
    const post = (path: string, key: string, body: unknown): Request => ({
      method: "POST",
      path,
      key: `${key}-${id}`,
      body,
    });
    const writes = [
      {
        request: post("/stays", "c", { id, arrival, departure, rig: RIG }),
        promise: { what: `stay ${id}`, holds: isThere(id) },
      },
      {
        request: post("/assignment/move", "m", { moves: [{ stay: id, from: null, to: this.site }] }),
        promise: { what: `place of ${id}`, holds: placed },
      },
    ];
    if (serial % 5 === 0) writes.push(this.table(id, arrival, departure, isThere));
    if (serial % 7 === 0) writes.push(this.closure(id, arrival));
    return writes;
  }

  private table(
    id: string,
    arrival: string,
    departure: string,
    isThere: (stay: string) => (sql: SqlDriver) => boolean,
  ) {
    const ids = ["x", "y", "z"].map((letter) => `${id}${letter}`);
    const rows = ids.map((one) => `${one},${arrival},${departure},class-c,25 ft`);
    const body = ["id,arrival,departure,rig.class,rig.length", ...rows].join("\n");
    return {
      request: { method: "POST", path: "/stays/import", key: `t-${id}`, body, mediaType: "text/csv" },
      promise: { what: `rows of ${id}`, holds: (sql: SqlDriver) => ids.every((one) => isThere(one)(sql)) },
    };
  }

  private closure(id: string, firstNight: string) {
    const spare = this.bench.sites.at(-1) ?? "";
    return {
      request: {
        method: "POST",
        path: "/closures",
        key: `k-${id}`,
        body: { id, site: spare, firstNight, until: dateOfNight((nightOfDate(firstNight) ?? 0) + 1) },
      },
      promise: {
        what: `closure ${id}`,
        holds: (sql: SqlDriver) =>
          sql.get("SELECT 1 AS found FROM closure WHERE campground = ? AND id = ?", PARK, id) !== null,
      },
    };
  }
}

interface Cycle {
  readonly kept: Kept[];
  readonly unanswered: { readonly request: Request; readonly promise: Kept }[];
}

export async function killCampaign(
  cycles: number,
  seed: number,
  say: (line: string) => void = () => undefined,
): Promise<KillReport> {
  const bench = await openBench();
  const random = seeded(seed);
  const clients = Array.from({ length: CLIENTS }, (_, index) => new Client(bench, `c${index}`, index));
  const serials = clients.map(() => 1);
  const promises: Kept[] = [];
  const lost: string[] = [];
  const broken: string[] = [];
  const starts: number[] = [];
  let [unanswered, committedUnanswered] = [0, 0];
  let open: Cycle["unanswered"] = [];
  try {
    for (let cycle = 1; cycle <= cycles; cycle += 1) {
      const server = await startServer(bench);
      starts.push(server.readyAfter);
      for (const { request, promise } of open) {
        const answer = await send(bench, server.address, request);
        if (answer.replayed) committedUnanswered += 1;
        if (answer.status >= 300) lost.push(`${promise.what} again: ${answer.status} ${answer.text.slice(0, 200)}`);
        promises.push(promise);
      }
      const { kept, unanswered: left } = await oneCycle(bench, server, clients, serials, random);
      promises.push(...kept);
      open = left;
      unanswered += left.length;
      const check = cycle % WHOLE_CHECK_EVERY === 0 || cycle === cycles ? "whole" : "quick";
      const { ledger, close } = openLedger(bench.ledger);
      const looked = check === "whole" ? promises : kept;
      lost.push(...looked.filter(({ holds }) => !holds(ledger.sql)).map(({ what }) => `cycle ${cycle}: ${what}`));
      broken.push(...breaches(ledger.sql, check).map((what) => `cycle ${cycle}: ${what}`));
      close();
      if (check === "whole") say(`kill: ${cycle} cycles, ${promises.length} acknowledged, ${lost.length} lost`);
      if (lost.length + broken.length > 20) break;
    }
    const { ledger, close } = openLedger(bench.ledger);
    const pages = ledger.sql.get("SELECT page_count * page_size AS n FROM pragma_page_count(), pragma_page_size()");
    close();
    starts.sort((a, b) => a - b);
    return {
      cycles: starts.length,
      acknowledged: promises.length,
      unanswered,
      committedUnanswered,
      lost,
      breaches: broken,
      slowestStart: starts.at(-1) ?? 0,
      medianStart: starts[Math.floor(starts.length / 2)] ?? 0,
      bytes: Number(pages?.["n"] ?? 0),
    };
  } finally {
    await bench.remove();
  }
}

/** Lets the clients write until the server is killed, some milliseconds after the first acknowledgement. */
async function oneCycle(
  bench: Bench,
  server: Awaited<ReturnType<typeof startServer>>,
  clients: readonly Client[],
  serials: number[],
  random: () => number,
): Promise<Cycle> {
  const cycle: Cycle = { kept: [], unanswered: [] };
  let isDead = false;
  let firstSeen: () => void = () => undefined;
  const first = new Promise<void>((resolve) => {
    firstSeen = resolve;
  });
  const running = clients.map(async (client, index) => {
    while (!isDead) {
      const serial = serials[index] ?? 1;
      serials[index] = serial + 1;
      for (const write of client.next(serial)) {
        let answer: Answer | null = null;
        try {
          answer = await send(bench, server.address, write.request);
        } catch {
          // The connection broke: whether it was written nobody knows, which is what the key is for.
        }
        if (answer === null) {
          cycle.unanswered.push(write);
          // What was to follow is sent after the restart too, so that every stay gets its site.
          continue;
        }
        if (answer.status >= 300) throw new Error(`${write.promise.what}: ${answer.status} ${answer.text}`);
        cycle.kept.push(write.promise);
        firstSeen();
      }
    }
  });
  await first;
  await new Promise((resolve) => setTimeout(resolve, random() * 150));
  isDead = true;
  await server.kill();
  await Promise.all(running);
  return cycle;
}
