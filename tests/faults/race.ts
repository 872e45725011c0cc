/**
 * Hosts who want one site for one night at one moment, through two servers over one file. Of each race exactly one may
 * win; every other one must be told who has it, and the database must hold one row.
 */
import { openLedger } from "../../src/node/ledger.ts";
import { breaches } from "./invariants.ts";
import { type Bench, openBench, PARK, type Running, send, startServer } from "./processes.ts";

export interface RaceReport {
  readonly races: number;
  readonly clients: number;
  readonly servers: number;
  readonly conflicts: number;
  /** Answers that were neither the win nor a conflict that names the winner. */
  readonly odd: readonly string[];
  /** Races without exactly one winner, or whose winner is not the one in the database. */
  readonly wrong: readonly string[];
  readonly breaches: readonly string[];
  /** Wins by each server: both must have their share. */
  readonly wins: readonly number[];
  readonly seconds: number;
}

const SERVERS = 2;
const RIG = { class: "class-c", length: "25 ft" };

export async function raceCampaign(
  races: number,
  clients: number,
  say: (line: string) => void = () => undefined,
): Promise<RaceReport> {
  const bench = await openBench();
  const servers: Running[] = [];
  const started = performance.now();
  const [odd, wrong]: [string[], string[]] = [[], []];
  const wins = Array.from({ length: SERVERS }, () => 0);
  let conflicts = 0;
  try {
    for (let index = 0; index < SERVERS; index += 1) servers.push(await startServer(bench));
    await enterStays(bench, servers[0]?.address ?? "", clients);
    const looking = openLedger(bench.ledger);
    for (let race = 1; race <= races; race += 1) {
      const site = bench.sites[race % bench.sites.length] ?? "";
      const outcomes = await runRace(bench, servers, clients, race, site);
      const winners = outcomes.filter(({ status }) => status === 200);
      const [winner] = winners;
      const rows = looking.ledger.sql.all("SELECT stay FROM site_night WHERE campground = ? AND site = ?", PARK, site);
      if (winners.length !== 1 || winner === undefined || rows.length !== 1 || rows[0]?.["stay"] !== winner.stay) {
        wrong.push(`race ${race}: ${winners.length} winners, rows ${JSON.stringify(rows)}`);
      }
      for (const { status, text, stay } of outcomes) {
        if (status === 200) continue;
        const isClear = status === 409 && text.includes('"code":"taken"') && text.includes(`the stay ${winner?.stay} `);
        if (isClear) conflicts += 1;
        else odd.push(`race ${race}, ${stay}: ${status} ${text.slice(0, 200)}`);
      }
      if (winner === undefined || wrong.length + odd.length > 20) break;
      wins[winner.server] = (wins[winner.server] ?? 0) + 1;
      const release = { stays: [{ stay: winner.stay, from: site }] };
      const freed = await send(bench, servers[race % SERVERS]?.address ?? "", {
        method: "POST",
        path: "/assignment/release",
        key: `free-${race}`,
        body: release,
      });
      if (freed.status !== 200) odd.push(`race ${race}, release: ${freed.status} ${freed.text.slice(0, 200)}`);
      if (race % 500 === 0)
        say(`race: ${race} races, ${conflicts} conflicts, ${wrong.length} wrong, ${odd.length} odd`);
    }
    const found = breaches(looking.ledger.sql, "whole");
    looking.close();
    const seconds = (performance.now() - started) / 1000;
    return { races, clients, servers: SERVERS, conflicts, odd, wrong, breaches: found, wins, seconds };
  } finally {
    await Promise.all(servers.map(({ kill }) => kill()));
    await bench.remove();
  }
}

async function enterStays(bench: Bench, address: string, clients: number): Promise<void> {
  for (let client = 0; client < clients; client += 1) {
    const body = { id: `g${client}`, arrival: "2030-06-01", departure: "2030-06-02", rig: RIG };
    const { status, text } = await send(bench, address, { method: "POST", path: "/stays", key: `g${client}`, body });
    if (status !== 201) throw new Error(`A stay is refused: ${text}`);
  }
}

async function runRace(bench: Bench, servers: readonly Running[], clients: number, race: number, site: string) {
  return Promise.all(
    Array.from({ length: clients }, async (_, client) => {
      const stay = `g${client}`;
      // Who begins goes round, so that neither server is always the first to be asked.
      const server = (client + race) % servers.length;
      const answer = await send(bench, servers[server]?.address ?? "", {
        method: "POST",
        path: "/assignment/move",
        key: `r${race}-${client}`,
        body: { moves: [{ stay, from: null, to: site }] },
      });
      return { stay, server, ...answer };
    }),
  );
}
