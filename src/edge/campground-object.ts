/**
 * One campground's ledger in a Durable Object: the same application as in Node answers the routes for hosts here, over
 * the object's own SQLite, and tells the directory of every new version of the record.
 */
import packageFile from "../../package.json" with { type: "json" };
import { type App, createApp } from "../http/app.ts";
import type { HostDependencies } from "../http/host/host.ts";
import { openHost } from "../http/host/open.ts";
import { logLine } from "../http/log-line.ts";
import { migrate } from "../ledger/migrate.ts";
import { listRecords } from "../ledger/records.ts";
import type { DirectoryEntry } from "./directory-object.ts";
import { type ObjectStorage, objectDriver } from "./ledger-driver.ts";
import { DIRECTORY_NAME, INSIDE, RECORD_PATH } from "./names.ts";
import type { EdgeSettings } from "./settings.ts";
import { listedTokens, settleTokens, webTokensOf } from "./tokens.ts";

interface ObjectState {
  readonly storage: ObjectStorage & {
    get(key: string): Promise<unknown>;
    put(key: string, value: unknown): Promise<void>;
    setAlarm(at: number): Promise<void>;
    deleteAlarm(): Promise<void>;
  };
}

const ANNOUNCED = "announced";
/** Milliseconds after which the directory is told again when it could not be told at once. */
const AGAIN = 10_000;
const NOT_FOUND = 404;
const WRITES_RECORD = /^\/v1\/campgrounds\/[^/]+(\/sites\/[^/]+)?$/;

export class CampgroundObject {
  private readonly host: HostDependencies;
  private readonly app: App;
  private readonly storage: ObjectState["storage"];
  private readonly settings: EdgeSettings;

  constructor(state: ObjectState, settings: EdgeSettings) {
    this.storage = state.storage;
    this.settings = settings;
    const ledger = { sql: objectDriver(state.storage), now: () => Date.now() };
    migrate(ledger.sql);
    settleTokens(ledger, listedTokens(settings));
    this.host = openHost(ledger, webTokensOf(settings));
    this.app = createApp({
      store: this.host.records,
      host: this.host,
      clock: () => Date.now(),
      now: ledger.now,
      requestId: () => crypto.randomUUID(),
      version: packageFile.version,
      log: (entry) => console.log(logLine(entry, Date.now())),
    });
  }

  async fetch(request: Request): Promise<Response> {
    const { pathname } = new URL(request.url);
    // Callers from outside only reach what lies below /v1/campgrounds.
    if (pathname === RECORD_PATH) return this.record();
    if (request.method === "GET" || !WRITES_RECORD.test(pathname)) return this.app.fetch(request);
    // Set before the write: should this place die between the two, the directory is told all the same.
    await this.storage.setAlarm(Date.now() + AGAIN);
    const response = await this.app.fetch(request);
    await this.announce().catch((fault: unknown) => console.error("The directory was not told.", String(fault)));
    return response;
  }

  async alarm(): Promise<void> {
    await this.announce();
  }

  private async announce(): Promise<void> {
    const entry = await this.newest();
    if (entry !== null && entry.version !== (await this.storage.get(ANNOUNCED))) {
      const { DIRECTORY: directory } = this.settings;
      if (directory === undefined) throw new Error("No directory is bound.");
      const body = JSON.stringify(entry);
      const stub = directory.get(directory.idFromName(DIRECTORY_NAME));
      const reply = await stub.fetch(INSIDE, { method: "PUT", body });
      if (!reply.ok) throw new Error(`The directory answered ${reply.status}.`);
      await this.storage.put(ANNOUNCED, entry.version);
    }
    await this.storage.deleteAlarm();
  }

  private async newest(): Promise<DirectoryEntry | null> {
    const [one] = listRecords(this.host.ledger);
    const kept = one === undefined ? null : await this.host.records.kept(one.id);
    return one === undefined || kept === null
      ? null
      : { id: one.id, version: kept.version, summary: kept.stored.summary };
  }

  private async record(): Promise<Response> {
    const [one] = listRecords(this.host.ledger);
    const kept = one === undefined ? null : await this.host.records.kept(one.id);
    if (kept === null) return new Response(null, { status: NOT_FOUND });
    return Response.json({ version: kept.version, document: kept.stored.document });
  }
}
