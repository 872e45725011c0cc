/**
 * Campground records with every version. A feature is a row of its own that stands from one version to another, so
 * that a change of one site writes one row and an old version can be read back.
 */
import { recordChange } from "./changes.ts";
import { numberOf, textOf } from "./driver.ts";
import { type Act, instant, type Ledger, refuse } from "./ledger.ts";

type JsonObject = Readonly<Record<string, unknown>>;

/** A campground document taken apart: the members of the collection, and its features as JSON texts in order. */
export interface RecordParts {
  /** Every member but `features`. */
  readonly head: JsonObject;
  readonly features: readonly RecordFeature[];
}

export interface RecordFeature {
  /** Id of the site; null when the feature is no site. */
  readonly site: string | null;
  readonly body: string;
}

export interface KeptRecord {
  readonly version: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly document: JsonObject & { readonly features: readonly JsonObject[] };
}

export interface RecordChange {
  readonly version: number;
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly removed: readonly string[];
}

/** Ids of the campgrounds with the number of their present version, in the order of the ids. */
export function listRecords(ledger: Ledger): readonly { readonly id: string; readonly version: number }[] {
  return ledger.sql
    .all("SELECT id, record_version FROM campground ORDER BY id")
    .map((row) => ({ id: textOf(row, "id"), version: numberOf(row, "record_version") }));
}

/** Number of the present version; null when there is no such campground. */
export function recordVersion(ledger: Ledger, campground: string): number | null {
  const row = ledger.sql.get("SELECT record_version FROM campground WHERE id = ?", campground);
  return row === null ? null : numberOf(row, "record_version");
}

/** One version of a record; null when there is none. */
export function readRecord(ledger: Ledger, campground: string, version: number): KeptRecord | null {
  const { sql } = ledger;
  const row = sql.get("SELECT at, head FROM record_version WHERE campground = ? AND version = ?", campground, version);
  if (row === null) return null;
  const features = sql
    .all(
      `SELECT body FROM record_feature
       WHERE campground = ? AND first_version <= ? AND (last_version IS NULL OR last_version >= ?) ORDER BY position`,
      campground,
      version,
      version,
    )
    .map((feature) => JSON.parse(textOf(feature, "body")) as JsonObject);
  const head = JSON.parse(textOf(row, "head")) as JsonObject;
  return { version, at: textOf(row, "at"), document: { ...head, features } };
}

/** Versions of a record, newest first. */
export function listVersions(ledger: Ledger, campground: string, below: number, most: number) {
  return ledger.sql
    .all(
      "SELECT version, at, actor FROM record_version WHERE campground = ? AND version < ? ORDER BY version DESC LIMIT ?",
      campground,
      below,
      most,
    )
    .map((row) => ({ version: numberOf(row, "version"), at: textOf(row, "at"), actor: textOf(row, "actor") }));
}

/**
 * Writes the next version of a record.
 *
 * @param expected The version that the caller has seen; null to make a campground that is not there yet.
 * @param today Local date of the campground: a site that somebody has from that night on cannot be removed.
 */
export function writeRecord(
  ledger: Ledger,
  act: Act,
  parts: RecordParts,
  expected: number | null,
  today: string,
): RecordChange {
  const had = recordVersion(ledger, act.campground);
  if (had !== expected) {
    refuse(
      expected === null ? "exists" : "changed",
      had === null ? "The campground is not there any more." : `The record has version ${had} now.`,
    );
  }
  const version = (had ?? 0) + 1;
  const difference = compare(ledger, act.campground, parts.features);
  refuseRemovalInUse(ledger, act.campground, difference.removed, today);
  const { sql } = ledger;
  if (had === null) sql.run("INSERT INTO campground (id, record_version) VALUES (?, ?)", act.campground, version);
  else sql.run("UPDATE campground SET record_version = ? WHERE id = ?", version, act.campground);
  sql.run(
    "INSERT INTO record_version (campground, version, at, actor, head) VALUES (?, ?, ?, ?, ?)",
    act.campground,
    version,
    instant(ledger),
    act.actor,
    JSON.stringify(parts.head),
  );
  // Every row that goes ends before the first new one stands: a site that moves within the list is never there twice.
  for (const position of difference.ended) {
    sql.run(
      `UPDATE record_feature SET last_version = ?
       WHERE campground = ? AND position = ? AND last_version IS NULL`,
      version - 1,
      act.campground,
      position,
    );
  }
  for (const position of difference.started) {
    const feature = parts.features[position] as RecordFeature;
    sql.run(
      `INSERT INTO record_feature (campground, position, first_version, last_version, site, body)
       VALUES (?, ?, ?, NULL, ?, ?)`,
      act.campground,
      position,
      version,
      feature.site,
      feature.body,
    );
  }
  logRecord(ledger, act, version, difference);
  return { version, added: difference.added, changed: difference.changed, removed: difference.removed };
}

interface Difference {
  /** Positions whose present row ends, and positions at which a new one starts. */
  readonly ended: readonly number[];
  readonly started: readonly number[];
  readonly added: readonly string[];
  readonly changed: readonly string[];
  readonly removed: readonly string[];
}

function compare(ledger: Ledger, campground: string, features: readonly RecordFeature[]): Difference {
  const present = ledger.sql.all(
    "SELECT position, site, body FROM record_feature WHERE campground = ? AND last_version IS NULL ORDER BY position",
    campground,
  );
  const bodies = new Map(present.map((row) => [numberOf(row, "position"), textOf(row, "body")]));
  const sitesBefore = new Map(
    present.flatMap((row) => (row["site"] === null ? [] : [[textOf(row, "site"), textOf(row, "body")] as const])),
  );
  const sitesAfter = new Map(features.flatMap(({ site, body }) => (site === null ? [] : [[site, body] as const])));
  const ended = [...bodies].filter(([position, body]) => features[position]?.body !== body).map(([at]) => at);
  const started = features.flatMap(({ body }, position) => (bodies.get(position) === body ? [] : [position]));
  return {
    ended,
    started,
    added: [...sitesAfter.keys()].filter((site) => !sitesBefore.has(site)),
    changed: [...sitesAfter].filter(([site, body]) => (sitesBefore.get(site) ?? body) !== body).map(([site]) => site),
    removed: [...sitesBefore.keys()].filter((site) => !sitesAfter.has(site)),
  };
}

function refuseRemovalInUse(ledger: Ledger, campground: string, sites: readonly string[], today: string): void {
  for (const site of sites) {
    const row = ledger.sql.get(
      "SELECT night, stay, hold FROM site_night WHERE campground = ? AND site = ? AND night >= ? ORDER BY night LIMIT 1",
      campground,
      site,
      today,
    );
    if (row === null) continue;
    const who = row["stay"] === null ? `the hold ${textOf(row, "hold")}` : `the stay ${textOf(row, "stay")}`;
    refuse("in-use", `Site ${site} cannot go: ${who} has it on ${textOf(row, "night")}.`);
  }
}

function logRecord(ledger: Ledger, act: Act, version: number, difference: Difference): void {
  recordChange(ledger, act, {
    kind: "record",
    subject: act.campground,
    action: version === 1 ? "created" : "changed",
    version,
    before: version === 1 ? null : { version: version - 1 },
    after: { version },
  });
  const sites = [
    ...difference.added.map((site) => ({ site, action: "created" as const })),
    ...difference.changed.map((site) => ({ site, action: "changed" as const })),
    ...difference.removed.map((site) => ({ site, action: "removed" as const })),
  ];
  for (const { site, action } of sites) {
    recordChange(ledger, act, { kind: "site", subject: site, action, version, before: null, after: null });
  }
}
