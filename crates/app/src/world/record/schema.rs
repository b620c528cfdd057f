//! The tables of the record, as numbered steps from an empty file to the present form.

use rusqlite::{Connection, Transaction, TransactionBehavior};

/// Written into the file so that other programs know what it is: `EvOv`.
const APPLICATION: i32 = 0x4576_4F76;

/// Each step is made in one transaction together with its number. A step that went out is never
/// changed; what is to be otherwise is a further step.
const STEPS: [&str; 1] = [FIRST];

/// Times are milliseconds since 1970 (UTC) by the clock that the machine had; order is by number.
const FIRST: &str = "
CREATE TABLE body (
  digest BLOB PRIMARY KEY NOT NULL CHECK (length(digest) = 32), -- SHA-256
  bytes BLOB NOT NULL
) STRICT;

CREATE TABLE file (
  name TEXT PRIMARY KEY NOT NULL,   -- as in the folder: buns.toml, kitchens/studio.toml
  gone_at_ms INTEGER                -- when it was found missing; null while it is there
) STRICT;

CREATE TABLE revision (
  file TEXT NOT NULL REFERENCES file (name),
  number INTEGER NOT NULL CHECK (number > 0),
  kept_at_ms INTEGER NOT NULL,
  how TEXT NOT NULL CHECK (how IN ('written', 'outside', 'restored', 'undone', 'made', 'beside')),
  window TEXT,                      -- which open page it was sent from
  from_number INTEGER,              -- what it was restored from
  reached INTEGER NOT NULL CHECK (reached IN (0, 1)), -- whether the file held it
  digest BLOB NOT NULL REFERENCES body (digest),
  PRIMARY KEY (file, number)
) STRICT;
CREATE INDEX revision_of_body ON revision (digest);

CREATE TABLE published (
  number INTEGER PRIMARY KEY,
  file TEXT NOT NULL,
  revision INTEGER NOT NULL,
  published_at_ms INTEGER NOT NULL,
  folder TEXT NOT NULL,
  kitchen TEXT,
  readers TEXT,
  FOREIGN KEY (file, revision) REFERENCES revision (file, number)
) STRICT;
CREATE TABLE paper (
  published INTEGER NOT NULL REFERENCES published (number),
  name TEXT NOT NULL,
  PRIMARY KEY (published, name)
) STRICT;

CREATE TABLE bake (
  number INTEGER PRIMARY KEY,
  recipe TEXT NOT NULL,             -- its name in the notebook
  revision INTEGER,                 -- of the recipe's file, when it is in the record
  kitchen TEXT,                     -- its name in the notebook; null for an ordinary one
  begun_at_ms INTEGER NOT NULL,
  ended_at_ms INTEGER,
  words TEXT
) STRICT;

CREATE TABLE reading (
  bake INTEGER NOT NULL REFERENCES bake (number) ON DELETE CASCADE,
  number INTEGER NOT NULL CHECK (number > 0),
  step TEXT,                        -- id of the recipe's step
  kind TEXT NOT NULL CHECK (kind IN
    ('temperature', 'height', 'weight', 'seen', 'begun', 'done', 'note')),
  value REAL,                       -- in the unit beside it
  unit TEXT,
  words TEXT,
  read_at_ms INTEGER NOT NULL,
  sent TEXT,                        -- a mark of the page that sent it
  withdrawn_at_ms INTEGER,
  PRIMARY KEY (bake, number),
  UNIQUE (bake, sent),
  CHECK (value IS NULL OR unit IS NOT NULL)
) STRICT;

CREATE TABLE calibration (
  number INTEGER PRIMARY KEY,
  kitchen TEXT NOT NULL,
  factor TEXT NOT NULL,
  value REAL NOT NULL,
  low REAL NOT NULL,
  high REAL NOT NULL,
  learnt_at_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX calibration_of_kitchen ON calibration (kitchen, factor);
CREATE TABLE calibration_bake (
  calibration INTEGER NOT NULL REFERENCES calibration (number) ON DELETE CASCADE,
  bake INTEGER NOT NULL REFERENCES bake (number),
  PRIMARY KEY (calibration, bake)
) STRICT;

CREATE TABLE pin (
  number INTEGER PRIMARY KEY,
  file TEXT NOT NULL REFERENCES file (name),
  words TEXT NOT NULL,
  made_at_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE report (
  number INTEGER PRIMARY KEY,
  file TEXT NOT NULL,
  words TEXT NOT NULL,
  received_at_ms INTEGER NOT NULL,
  settled_at_ms INTEGER
) STRICT;
";

/// The number of the present form.
pub fn present() -> i64 {
    i64::try_from(STEPS.len()).unwrap_or(i64::MAX)
}

/// The number that a record carries.
pub fn of(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Brings a record to the present form.
pub fn migrate(connection: &mut Connection) -> rusqlite::Result<()> {
    for (index, step) in STEPS.iter().enumerate() {
        let number = i64::try_from(index + 1).unwrap_or(i64::MAX);
        if of(connection)? >= number {
            continue;
        }
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        take(&transaction, number, step)?;
        transaction.commit()?;
    }
    Ok(())
}

/// Another program may have made the step while this one waited for its turn.
fn take(transaction: &Transaction, number: i64, step: &str) -> rusqlite::Result<()> {
    if of(transaction)? >= number {
        return Ok(());
    }
    transaction.execute_batch(step)?;
    transaction.pragma_update(None, "application_id", APPLICATION)?;
    transaction.pragma_update(None, "user_version", number)
}
