/** Stays: who comes when, with which rig, asking for what. Where they stand is in assignments.ts. */
import { recordChange } from "./changes.ts";
import { numberOf, type SqlRow, textOf, textOrNull } from "./driver.ts";
import { type Act, type Ledger, refuse } from "./ledger.ts";
import { keepNights, releaseStay } from "./occupation.ts";
import { growPlan } from "./plan-number.ts";

type JsonObject = Readonly<Record<string, unknown>>;

export const STAY_STATUSES = ["expected", "in-house", "departed", "cancelled"] as const;
export type StayStatus = (typeof STAY_STATUSES)[number];

/** What a host enters about a stay. */
export interface StayEntry {
  readonly arrival: string;
  readonly departure: string;
  readonly status: StayStatus;
  /** Rig, needs, wishes and the like, in the wire form. */
  readonly asks: JsonObject;
  /** Name and address of the guests: never logged, never given to anyone but hosts. */
  readonly party: JsonObject | null;
}

export interface StayPlace {
  readonly site: string;
  readonly locked: boolean;
  /** Receptacles and tap outlets that the stay holds on its nights. */
  readonly outlets: readonly string[];
}

export interface Stay extends StayEntry {
  readonly id: string;
  /** Grows with every change of the stay or of its place. */
  readonly version: number;
  readonly place: StayPlace | null;
}

const COLUMNS = `stay.id, stay.version, stay.arrival, stay.departure, stay.status, stay.asks, stay.party,
  assignment.site, assignment.locked,
  (SELECT json_group_array(DISTINCT outlet) FROM outlet_night
   WHERE outlet_night.campground = stay.campground AND outlet_night.stay = stay.id) AS outlets`;
const FROM = "FROM stay LEFT JOIN assignment ON assignment.campground = stay.campground AND assignment.stay = stay.id";

export function readStay(ledger: Ledger, campground: string, id: string): Stay | null {
  const row = ledger.sql.get(`SELECT ${COLUMNS} ${FROM} WHERE stay.campground = ? AND stay.id = ?`, campground, id);
  return row === null ? null : stayOf(row);
}

export interface StayQuery {
  /** Stays that have a night at or after `from` and before `until`; null does not narrow. */
  readonly from: string | null;
  readonly until: string | null;
  /** Arrival date and id of the last stay of the page before. */
  readonly after: { readonly arrival: string; readonly id: string } | null;
  readonly most: number;
}

/** Stays in the order of arrival and id, cancelled ones too. */
export function listStays(ledger: Ledger, campground: string, query: StayQuery): readonly Stay[] {
  return ledger.sql
    .all(
      `SELECT ${COLUMNS} ${FROM}
       WHERE stay.campground = ? AND (? IS NULL OR stay.departure > ?) AND (? IS NULL OR stay.arrival < ?)
         AND (? IS NULL OR stay.arrival > ? OR (stay.arrival = ? AND stay.id > ?))
       ORDER BY stay.arrival, stay.id LIMIT ?`,
      campground,
      query.from,
      query.from,
      query.until,
      query.until,
      query.after?.arrival ?? null,
      query.after?.arrival ?? null,
      query.after?.arrival ?? null,
      query.after?.id ?? null,
      query.most,
    )
    .map(stayOf);
}

/** Stays of which `today` or a later night is left and that are not cancelled. */
export function currentStays(ledger: Ledger, campground: string, today: string): readonly Stay[] {
  return ledger.sql
    .all(
      `SELECT ${COLUMNS} ${FROM}
       WHERE stay.campground = ? AND stay.departure > ? AND stay.status IN ('expected', 'in-house')
       ORDER BY stay.arrival, stay.id`,
      campground,
      today,
    )
    .map(stayOf);
}

/** Stays that have a site, with a night at or after `from`; in the order of sites and nights. */
export function listPlaced(ledger: Ledger, campground: string, from: string | null): readonly Stay[] {
  return ledger.sql
    .all(
      `SELECT ${COLUMNS} ${FROM}
       WHERE stay.campground = ? AND assignment.site IS NOT NULL AND (? IS NULL OR stay.departure > ?)
       ORDER BY assignment.site, stay.arrival, stay.id`,
      campground,
      from,
      from,
    )
    .map(stayOf);
}

export function createStay(ledger: Ledger, act: Act, id: string, entry: StayEntry): Stay {
  if (ledger.sql.get("SELECT 1 AS found FROM stay WHERE campground = ? AND id = ?", act.campground, id) !== null) {
    refuse("exists", `There is a stay ${id} already.`, "/id");
  }
  ledger.sql.run(
    `INSERT INTO stay (campground, id, version, arrival, departure, status, asks, party)
     VALUES (?, ?, 1, ?, ?, ?, ?, ?)`,
    act.campground,
    id,
    entry.arrival,
    entry.departure,
    entry.status,
    JSON.stringify(entry.asks),
    entry.party === null ? null : JSON.stringify(entry.party),
  );
  const stay: Stay = { ...entry, id, version: 1, place: null };
  recordChange(ledger, act, change(stay, "created", null, logged(stay)));
  return stay;
}

/**
 * Replaces what was entered. A stay that has a site keeps it for its new nights, or the change is refused because
 * somebody else has one of them; a cancelled stay gives its site back.
 */
export function updateStay(ledger: Ledger, act: Act, before: Stay, entry: StayEntry): Stay {
  const version = before.version + 1;
  const place = entry.status === "cancelled" ? null : before.place;
  const isSameSpan = entry.arrival === before.arrival && entry.departure === before.departure;
  // What may be refused comes first: a row of a list that is refused leaves nothing behind.
  if (place !== null && !isSameSpan) keepNights(ledger, act.campground, before.id, place, entry);
  if (before.place !== null && place === null) releaseStay(ledger, act.campground, before.id);
  if (before.place !== null && (place === null || !isSameSpan)) growPlan(ledger, act.campground);
  ledger.sql.run(
    `UPDATE stay SET version = ?, arrival = ?, departure = ?, status = ?, asks = ?, party = ?
     WHERE campground = ? AND id = ?`,
    version,
    entry.arrival,
    entry.departure,
    entry.status,
    JSON.stringify(entry.asks),
    entry.party === null ? null : JSON.stringify(entry.party),
    act.campground,
    before.id,
  );
  const stay: Stay = { ...entry, id: before.id, version, place };
  recordChange(ledger, act, change(stay, "changed", logged(before), logged(stay)));
  return stay;
}

export function removeStay(ledger: Ledger, act: Act, stay: Stay): void {
  if (stay.place !== null) {
    releaseStay(ledger, act.campground, stay.id);
    growPlan(ledger, act.campground);
  }
  ledger.sql.run("DELETE FROM stay WHERE campground = ? AND id = ?", act.campground, stay.id);
  recordChange(ledger, act, change(stay, "removed", logged(stay), null));
}

const change = (stay: Stay, action: "created" | "changed" | "removed", before: unknown, after: unknown) =>
  ({ kind: "stay", subject: stay.id, action, version: stay.version, before, after }) as const;

/** What the log keeps of a stay: everything but the guests' names and addresses, which can then be removed for good. */
function logged({ arrival, departure, status, asks, place }: Stay): JsonObject {
  return { arrival, departure, status, asks, place };
}

function stayOf(row: SqlRow): Stay {
  const party = textOrNull(row, "party");
  const site = textOrNull(row, "site");
  const outlets = JSON.parse(textOf(row, "outlets")) as readonly string[];
  return {
    id: textOf(row, "id"),
    version: numberOf(row, "version"),
    arrival: textOf(row, "arrival"),
    departure: textOf(row, "departure"),
    status: textOf(row, "status") as StayStatus,
    asks: JSON.parse(textOf(row, "asks")) as JsonObject,
    party: party === null ? null : (JSON.parse(party) as JsonObject),
    place: site === null ? null : { site, locked: row["locked"] === 1, outlets },
  };
}
