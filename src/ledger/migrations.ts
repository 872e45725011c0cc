/**
 * The schema, as the numbered steps that lead to it. A step that has been published is never altered: what it should
 * have been is a new step. Plain SQL that SQLite takes in a file and in a Durable Object alike.
 */

export interface Migration {
  readonly version: number;
  readonly what: string;
  readonly statements: readonly string[];
}

const RECORDS: Migration = {
  version: 1,
  what: "campground records with every version, and the log of changes",
  statements: [
    `CREATE TABLE campground (
  id TEXT PRIMARY KEY NOT NULL,
  record_version INTEGER NOT NULL CHECK (record_version >= 1),
  change_number INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID`,
    `CREATE TABLE record_version (
  campground TEXT NOT NULL REFERENCES campground (id),
  version INTEGER NOT NULL CHECK (version >= 1),
  at TEXT NOT NULL,
  actor TEXT NOT NULL,
  head TEXT NOT NULL,
  PRIMARY KEY (campground, version)
) STRICT, WITHOUT ROWID`,
    `CREATE TABLE record_feature (
  campground TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  first_version INTEGER NOT NULL,
  last_version INTEGER,
  site TEXT,
  body TEXT NOT NULL,
  PRIMARY KEY (campground, position, first_version),
  FOREIGN KEY (campground, first_version) REFERENCES record_version (campground, version),
  CHECK (last_version IS NULL OR last_version >= first_version)
) STRICT, WITHOUT ROWID`,
    "CREATE UNIQUE INDEX present_feature ON record_feature (campground, position) WHERE last_version IS NULL",
    `CREATE UNIQUE INDEX present_site ON record_feature (campground, site)
  WHERE last_version IS NULL AND site IS NOT NULL`,
    `CREATE TABLE change_entry (
  campground TEXT NOT NULL REFERENCES campground (id),
  number INTEGER NOT NULL CHECK (number >= 1),
  at TEXT NOT NULL,
  actor TEXT NOT NULL,
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,
  action TEXT NOT NULL,
  version INTEGER,
  before TEXT,
  after TEXT,
  PRIMARY KEY (campground, number)
) STRICT, WITHOUT ROWID`,
    "CREATE INDEX change_of_subject ON change_entry (campground, kind, subject, number)",
  ],
};

const STAYS: Migration = {
  version: 2,
  what: "stays, who stands where on which night, holds, closures, accepted plans",
  statements: [
    "ALTER TABLE campground ADD COLUMN plan_version INTEGER NOT NULL DEFAULT 0",
    `CREATE TABLE stay (
  campground TEXT NOT NULL REFERENCES campground (id),
  id TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version >= 1),
  arrival TEXT NOT NULL CHECK (length(arrival) = 10),
  departure TEXT NOT NULL CHECK (length(departure) = 10),
  status TEXT NOT NULL CHECK (status IN ('expected', 'in-house', 'departed', 'cancelled')),
  asks TEXT NOT NULL,
  party TEXT,
  PRIMARY KEY (campground, id),
  CHECK (departure > arrival)
) STRICT, WITHOUT ROWID`,
    "CREATE INDEX stay_by_departure ON stay (campground, departure, id)",
    "CREATE INDEX stay_by_arrival ON stay (campground, arrival, id)",
    `CREATE TABLE assignment (
  campground TEXT NOT NULL,
  stay TEXT NOT NULL,
  site TEXT NOT NULL,
  locked INTEGER NOT NULL CHECK (locked IN (0, 1)),
  PRIMARY KEY (campground, stay),
  FOREIGN KEY (campground, stay) REFERENCES stay (campground, id)
) STRICT, WITHOUT ROWID`,
    `CREATE TABLE hold (
  campground TEXT NOT NULL REFERENCES campground (id),
  id TEXT NOT NULL,
  site TEXT NOT NULL,
  arrival TEXT NOT NULL CHECK (length(arrival) = 10),
  departure TEXT NOT NULL CHECK (length(departure) = 10),
  why TEXT,
  expires_at TEXT,
  PRIMARY KEY (campground, id),
  CHECK (departure > arrival)
) STRICT, WITHOUT ROWID`,
    `CREATE TABLE site_night (
  campground TEXT NOT NULL,
  site TEXT NOT NULL,
  night TEXT NOT NULL CHECK (length(night) = 10),
  stay TEXT,
  hold TEXT,
  PRIMARY KEY (campground, site, night),
  FOREIGN KEY (campground, stay) REFERENCES assignment (campground, stay) ON DELETE CASCADE,
  FOREIGN KEY (campground, hold) REFERENCES hold (campground, id) ON DELETE CASCADE,
  CHECK ((stay IS NULL) <> (hold IS NULL))
) STRICT, WITHOUT ROWID`,
    "CREATE INDEX night_of_stay ON site_night (campground, stay, night) WHERE stay IS NOT NULL",
    "CREATE INDEX night_of_hold ON site_night (campground, hold, night) WHERE hold IS NOT NULL",
    `CREATE TABLE outlet_night (
  campground TEXT NOT NULL,
  outlet TEXT NOT NULL,
  night TEXT NOT NULL CHECK (length(night) = 10),
  stay TEXT NOT NULL,
  PRIMARY KEY (campground, outlet, night),
  FOREIGN KEY (campground, stay) REFERENCES assignment (campground, stay) ON DELETE CASCADE
) STRICT, WITHOUT ROWID`,
    "CREATE INDEX outlet_of_stay ON outlet_night (campground, stay, outlet, night)",
    `CREATE TABLE closure (
  campground TEXT NOT NULL REFERENCES campground (id),
  id TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version >= 1),
  site TEXT,
  outlet TEXT,
  first_night TEXT NOT NULL CHECK (length(first_night) = 10),
  until TEXT CHECK (until IS NULL OR (length(until) = 10 AND until > first_night)),
  why TEXT,
  PRIMARY KEY (campground, id),
  CHECK ((site IS NULL) <> (outlet IS NULL))
) STRICT, WITHOUT ROWID`,
    `CREATE TABLE accepted_plan (
  campground TEXT NOT NULL REFERENCES campground (id),
  version INTEGER NOT NULL CHECK (version >= 1),
  at TEXT NOT NULL,
  actor TEXT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (campground, version)
) STRICT, WITHOUT ROWID`,
  ],
};

const ACCESS: Migration = {
  version: 3,
  what: "answers kept for repeated requests, and tokens",
  statements: [
    `CREATE TABLE kept_answer (
  tenant TEXT NOT NULL,
  key TEXT NOT NULL,
  request TEXT NOT NULL,
  at TEXT NOT NULL,
  status INTEGER NOT NULL,
  headers TEXT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (tenant, key)
) STRICT, WITHOUT ROWID`,
    "CREATE INDEX kept_answer_by_age ON kept_answer (at)",
    `CREATE TABLE token (
  id TEXT PRIMARY KEY NOT NULL,
  hash TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  grants TEXT NOT NULL,
  created_at TEXT NOT NULL,
  expires_at TEXT,
  revoked_at TEXT
) STRICT, WITHOUT ROWID`,
  ],
};

export const MIGRATIONS: readonly Migration[] = [RECORDS, STAYS, ACCESS];
