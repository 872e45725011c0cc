/** The records that a server answers from: a folder, a ledger, a catalogue, or a ledger over a catalogue. */
import type { HostDependencies } from "../http/host/host.ts";
import { importRecords } from "../http/host/import-records.ts";
import { openHost } from "../http/host/open.ts";
import { type WebTokenSettings, webTokens } from "../http/host/web-tokens.ts";
import type { ReadinessCheck } from "../http/route.ts";
import { currentCatalogue } from "../records/catalogue/current.ts";
import { httpObjects } from "../records/catalogue/http-objects.ts";
import { overlaid } from "../records/overlay.ts";
import { type CampgroundStore, memoryStore, type RecordSource } from "../records/store.ts";
import { readFolder } from "./file-store.ts";
import { openLedger } from "./ledger.ts";
import { objectFolder } from "./object-folder.ts";

export interface RecordOptions {
  /** Folder of .geojson files: served as they are, or beside a ledger brought into it where it lacks them. */
  readonly folder?: string;
  /** File of a ledger: the routes for hosts are there, and records come from it. */
  readonly ledger?: string;
  /** Folder or https address of a catalogue; beside a ledger it is read for what the ledger does not have. */
  readonly catalogue?: string;
  /** Milliseconds between two looks for a newer catalogue; default one minute. */
  readonly catalogueInterval?: number;
  /** The identity provider whose tokens hosts may bring besides those of the command line. */
  readonly tokens?: Pick<WebTokenSettings, "keys" | "issuer" | "audience">;
}

export interface OpenRecords {
  /** What the next request is answered from; another object after a swap of the catalogue, and else the same. */
  readonly store: () => CampgroundStore;
  readonly host: HostDependencies | null;
  /** Looks for a newer catalogue now. */
  readonly refresh: () => Promise<void>;
  readonly checks: () => Promise<readonly ReadinessCheck[]>;
  readonly close: () => void;
}

type Log = (line: string) => void;

const CATALOGUE_INTERVAL = 60_000;

/** Throws with a plain sentence for what cannot be opened. */
export async function openRecords(options: RecordOptions, log: Log): Promise<OpenRecords> {
  const { folder, ledger: path, catalogue } = options;
  const sources = folder === undefined ? [] : await readSources(folder);
  const hosts = path === undefined ? null : await openHosts(path, sources, options.tokens, log);
  const base = catalogue === undefined ? null : await openBase(catalogue, options.catalogueInterval, log);
  const fixed = hosts === null && base === null ? await filesOnly(sources, log) : null;
  let joined: { readonly below: CampgroundStore; readonly store: CampgroundStore } | undefined;
  const store = (): CampgroundStore => {
    if (base === null) return hosts?.host.records ?? (fixed as CampgroundStore);
    const below = base.newest();
    if (hosts === null) return below;
    if (joined?.below !== below) joined = { below, store: overlaid(hosts.host.records, below) };
    return joined.store;
  };
  return {
    store,
    host: hosts?.host ?? null,
    refresh: base?.refresh ?? (async () => undefined),
    checks: async () => [
      { name: "ledger", state: hosts === null ? "not set up" : await stateOf(() => hosts.host.records.version()) },
      // What is open can be read on as far as it is in the source: the pointer tells whether the source is there.
      { name: "catalogue", state: base === null ? "not set up" : await stateOf(base.look) },
    ],
    close: () => {
      base?.close();
      hosts?.close();
    },
  };
}

async function stateOf(work: () => Promise<unknown>): Promise<ReadinessCheck["state"]> {
  return work().then(
    () => "ready",
    () => "failing",
  );
}

function readSources(folder: string): Promise<readonly RecordSource[]> {
  return readFolder(folder).catch((fault: unknown) => {
    throw new Error(`The folder ${folder} cannot be read: ${messageOf(fault)}`);
  });
}

async function filesOnly(sources: readonly RecordSource[], log: Log): Promise<CampgroundStore> {
  const { store, refused } = await memoryStore(sources);
  for (const { name, why } of refused) log(`Left out ${name}: ${why}`);
  return store;
}

async function openHosts(
  path: string,
  sources: readonly RecordSource[],
  tokens: RecordOptions["tokens"],
  log: Log,
): Promise<{ readonly host: HostDependencies; readonly close: () => void }> {
  const { ledger, close } = openLedger(path);
  const { written, refused } = await importRecords(ledger, sources);
  for (const id of written) log(`Brought ${id} into the ledger.`);
  for (const { name, why } of refused) log(`Left out ${name}: ${why}`);
  const host = openHost(ledger, tokens === undefined ? undefined : webTokens({ ...tokens, now: ledger.now }));
  return { host, close };
}

async function openBase(place: string, interval: number = CATALOGUE_INTERVAL, log: Log) {
  const source = URL.canParse(place) && place.includes("://") ? httpObjects(place) : objectFolder(place);
  const report = (fault: unknown) => log(`The catalogue was not looked at again: ${messageOf(fault)}`);
  const current = currentCatalogue({
    source,
    interval: Number.POSITIVE_INFINITY,
    now: () => performance.now(),
    report,
  });
  let newest = await current.get().catch((fault: unknown) => {
    throw new Error(`The catalogue ${place} cannot be opened: ${messageOf(fault)}`);
  });
  const look = async (): Promise<void> => {
    const isNew = await current.refresh();
    newest = await current.get();
    if (isNew) log(`Answers from the new catalogue ${await newest.version()}.`);
  };
  const refresh = () => look().catch(report);
  const timer = setInterval(refresh, interval);
  timer.unref();
  return { newest: (): CampgroundStore => newest, look, refresh, close: () => clearInterval(timer) };
}

const messageOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
