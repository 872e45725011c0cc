/**
 * A disk that is full, at every size that is left. A small file system in memory where one may mount it; where not, a
 * limit on the size of files, which the operating system enforces at the same calls.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { dateOfNight, nightOfDate } from "../../src/assign/nights.ts";
import type { SqlDriver } from "../../src/ledger/driver.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { breaches } from "./invariants.ts";
import { type Answer, type Bench, openBench, PARK, send, startServer } from "./processes.ts";

export interface FullDiskReport {
  readonly way: "file system in memory" | "limit on the size of files";
  readonly acknowledged: number;
  /** Writes that were told that the disk takes no more. */
  readonly refused: number;
  /** Sizes of what was left, in bytes, at which writing was tried. */
  readonly sizes: number;
  readonly odd: readonly string[];
  readonly lost: readonly string[];
  readonly breaches: readonly string[];
}

const MEBIBYTE = 1_048_576;
/** Bytes of the disk: the file grows with every size that is tried. */
const diskSize = (sizes: number): number => Math.ceil(16 + 1.5 * sizes) * MEBIBYTE;
const PAGE = 4096;
/** Writes that fit into what is left and into the log that is reused, at most. */
const MOST_WRITES = 500;
const NOTE = "n".repeat(1500);
const RIG = { class: "class-c", length: "25 ft" };
const FIRST_NIGHT = nightOfDate("2030-01-01") ?? 0;

interface Disk {
  readonly folder: string;
  readonly remove: () => void;
}

/** Null where mounting is not permitted. */
function smallDisk(size: number): Disk | null {
  const folder = mkdtempSync(join(tmpdir(), "padwright-disk-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", `size=${size}`, "tmpfs", folder], { stdio: "ignore" });
  } catch {
    rmSync(folder, { recursive: true });
    return null;
  }
  const remove = () => {
    // Lazily: a connection that was closed lets go of its file when its statements are collected, not before.
    execFileSync("umount", ["-l", folder]);
    rmSync(folder, { recursive: true });
  };
  return { folder, remove };
}

class Writes {
  readonly odd: string[] = [];
  refused = 0;
  private serial = 0;
  private readonly kept: { readonly id: string; readonly site: string | null }[] = [];

  constructor(
    private readonly bench: Bench,
    private readonly address: string,
  ) {}

  get acknowledged(): number {
    return this.kept.length;
  }

  /** A stay and its site. False when the disk took no more. */
  async one(): Promise<boolean> {
    this.serial += 1;
    const id = `d${this.serial}`;
    const arrival = dateOfNight(FIRST_NIGHT + 2 * this.serial);
    const departure = dateOfNight(FIRST_NIGHT + 2 * this.serial + 2);
    const stay = { id, arrival, departure, rig: RIG, party: { note: NOTE } };
    if (!(await this.post("/stays", `c${id}`, stay, 201))) return false;
    this.kept.push({ id, site: null });
    const site = this.bench.sites[0] ?? "";
    if (!(await this.post("/assignment/move", `m${id}`, { moves: [{ stay: id, from: null, to: site }] }, 200)))
      return false;
    this.kept.push({ id, site });
    return true;
  }

  private async post(path: string, key: string, body: unknown, wanted: number): Promise<boolean> {
    const answer: Answer = await send(this.bench, this.address, { method: "POST", path, key, body });
    if (answer.status === wanted) return true;
    if (answer.status === 507 && answer.text.includes('"code":"storage-full"')) this.refused += 1;
    else this.odd.push(`${path}: ${answer.status} ${answer.text.slice(0, 300)}`);
    return false;
  }

  /** Reading goes on: one stay, the plan, and a fit that everybody may ask for. */
  async readAll(): Promise<void> {
    for (const path of ["/stays?limit=3", "/assignment", "/changes?since=now"]) {
      const answer = await send(this.bench, this.address, { method: "GET", path, key: "" });
      if (answer.status !== 200) this.odd.push(`reading ${path}: ${answer.status} ${answer.text.slice(0, 300)}`);
    }
    const fit = await fetch(`${this.address}/v1/fit`, {
      method: "POST",
      body: JSON.stringify({ rig: RIG, site: { campground: PARK, site: this.bench.sites[1] } }),
      headers: { "Content-Type": "application/json" },
    });
    await fit.arrayBuffer();
    if (fit.status !== 200) this.odd.push(`a fit: ${fit.status}`);
  }

  lost(sql: SqlDriver): string[] {
    return this.kept
      .filter(({ id, site }) => {
        const row = sql.get("SELECT count(*) AS n FROM stay WHERE campground = ? AND id = ?", PARK, id);
        const nights = sql.get("SELECT count(*) AS n FROM site_night WHERE campground = ? AND stay = ?", PARK, id);
        return row?.["n"] !== 1 || (site !== null && nights?.["n"] !== 2);
      })
      .map(({ id, site }) => (site === null ? `stay ${id}` : `place of ${id}`));
  }
}

/** @param sizes How many sizes of what is left are tried, a page more each time. */
export async function fullDiskCampaign(sizes: number, force?: "limit"): Promise<FullDiskReport> {
  const disk = force === "limit" ? null : smallDisk(diskSize(sizes));
  return disk === null ? underLimit() : onSmallDisk(disk, sizes);
}

async function onSmallDisk(disk: Disk, sizes: number): Promise<FullDiskReport> {
  const bench = await openBench(disk.folder);
  const server = await startServer(bench);
  const writes = new Writes(bench, server.address);
  const ballast = join(disk.folder, "ballast");
  const found: string[] = [];
  try {
    for (let index = 0; index < 5; index += 1) await writes.one();
    for (let size = 0; size < sizes; size += 1) {
      const { bavail, bsize } = statfsSync(disk.folder);
      writeFileSync(ballast, Buffer.alloc(Math.max(0, bavail * bsize - size * PAGE)));
      let tries = 0;
      while (tries < MOST_WRITES && (await writes.one())) tries += 1;
      if (tries === MOST_WRITES) writes.odd.push(`The disk never filled with ${size} pages left.`);
      await writes.readAll();
      rmSync(ballast);
      if (!(await writes.one())) writes.odd.push(`Writing did not go on after ${size} pages.`);
      const { ledger, close } = openLedger(bench.ledger);
      found.push(...breaches(ledger.sql, "quick").map((what) => `${size} pages left: ${what}`));
      close();
    }
    await server.kill();
    return finished("file system in memory", bench, writes, found, sizes);
  } finally {
    await server.kill();
    await bench.remove();
    disk.remove();
  }
}

/** The limit cannot be lifted from a running process: it recovers by being started again without one. */
async function underLimit(): Promise<FullDiskReport> {
  const bench = await openBench();
  // The signal would end the process; ignored, the write fails as it does on a full disk. In units of 1024 bytes.
  const limited = await startServer(bench, "trap '' XFSZ; ulimit -f 1500;");
  const found: string[] = [];
  const writes = new Writes(bench, limited.address);
  try {
    let tries = 0;
    while (tries < 2000 && (await writes.one())) tries += 1;
    if (tries === 2000) writes.odd.push("The limit was never met.");
    for (let again = 0; again < 10; again += 1) await writes.one();
    await writes.readAll();
    await limited.kill();
    const free = await startServer(bench);
    const after = new Writes(bench, free.address);
    await after.readAll();
    await free.kill();
    return finished("limit on the size of files", bench, writes, [...found, ...after.odd], 1);
  } finally {
    await limited.kill();
    await bench.remove();
  }
}

function finished(
  way: FullDiskReport["way"],
  bench: Bench,
  writes: Writes,
  found: readonly string[],
  sizes: number,
): FullDiskReport {
  const { ledger, close } = openLedger(bench.ledger);
  const lost = writes.lost(ledger.sql);
  const all = [...found, ...breaches(ledger.sql, "whole")];
  close();
  return {
    way,
    acknowledged: writes.acknowledged,
    refused: writes.refused,
    sizes,
    odd: writes.odd,
    lost,
    breaches: all,
  };
}
