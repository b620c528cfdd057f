-- A record as the first program that kept one wrote it: its tables, a recipe in two versions, a published page,
-- a bake with readings, what a kitchen was found to be, a pin and a reader's report. (Invented.)
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

PRAGMA application_id = 1165381494;
PRAGMA user_version = 1;
INSERT INTO body VALUES (X'337a047f930efcbc53efbea99664184d8602a19ccc697963e89c77ee73c008e2', CAST('everyoven = 1
title = "Buns"
kind = "soft"
[[stage]]
name = "dough"
items = [
  { of = "bread flour", take = "500 g" },
  { of = "water", take = "310 g", at = "30 °C" },
  { of = "instant yeast", take = "6 g", as = "yeast" },
  { of = "fine salt", take = "9 g", as = "salt" },
]
[[stage.step]]
do = "Mix [bread flour], [water], [yeast] and [salt]."
mix = { by = "hand", phases = [{ speed = "medium", for = "10 min" }], dough = "26 °C" }
[[stage.step]]
do = "Let rise."
rest = { for = "60 min", at = "26 °C", where = "room", in = "bowl", covered = "lid" }
until = { see = "doubled", volume = "2 times" }
[[stage.step]]
do = "Cut: [buns pieces]."
divide = { into = ["buns"], for = "5 min" }
[[product]]
name = "buns"
from = "dough"
count = 10
piece = "80 g"
[[product.step]]
do = "Round them."
shape = { for = "5 min" }
[[product.step]]
do = "Bake."
bake = { phases = [{ at = "200 °C", for = "14 min" }], fan = false, core = "92 °C" }
' AS BLOB));
INSERT INTO body VALUES (X'575ed8c04e43eaf1f847c8dcf060ac645220d76a5a51965384d8ee539d253a8c', CAST('everyoven = 1
title = "Buns"
kind = "soft"
[[stage]]
name = "dough"
items = [
  { of = "bread flour", take = "500 g" },
  { of = "water", take = "310 g", at = "30 °C" },
  { of = "instant yeast", take = "6 g", as = "yeast" },
  { of = "fine salt", take = "9 g", as = "salt" },
]
[[stage.step]]
do = "Mix [bread flour], [water], [yeast] and [salt]."
mix = { by = "hand", phases = [{ speed = "medium", for = "10 min" }], dough = "26 °C" }
[[stage.step]]
do = "Let rise."
rest = { for = "60 min", at = "26 °C", where = "room", in = "bowl", covered = "lid" }
until = { see = "doubled", volume = "2 times" }
[[stage.step]]
do = "Cut: [buns pieces]."
divide = { into = ["buns"], for = "5 min" }
[[product]]
name = "buns"
from = "dough"
count = 10
piece = "80 g"
[[product.step]]
do = "Round them."
shape = { for = "5 min" }
[[product.step]]
do = "Bake."
bake = { phases = [{ at = "200 °C", for = "16 min" }], fan = false, core = "92 °C" }
' AS BLOB));
INSERT INTO file VALUES ('buns.toml', NULL);
INSERT INTO revision VALUES ('buns.toml', 1, 1764320000000, 'written', 'a1', NULL, 1, X'337a047f930efcbc53efbea99664184d8602a19ccc697963e89c77ee73c008e2');
INSERT INTO revision VALUES ('buns.toml', 2, 1764321000000, 'outside', NULL, NULL, 1, X'575ed8c04e43eaf1f847c8dcf060ac645220d76a5a51965384d8ee539d253a8c');
INSERT INTO published VALUES (1, 'buns.toml', 2, 1764322000000, 'published/buns', NULL, NULL);
INSERT INTO paper VALUES (1, 'index.html');
INSERT INTO bake VALUES (1, 'buns', 2, NULL, 1764330000000, 1764340000000, 'A little pale.');
INSERT INTO reading VALUES (1, 1, 'dough-1', 'temperature', 26.5, 'degC', NULL, 1764331000000, 'm1', NULL);
INSERT INTO reading VALUES (1, 2, 'dough-2', 'seen', NULL, NULL, 'doubled', 1764335000000, 'm2', NULL);
INSERT INTO calibration VALUES (1, 'studio', 'yeast', 1.1, 0.9, 1.3, 1764341000000);
INSERT INTO calibration_bake VALUES (1, 1);
INSERT INTO pin VALUES (1, 'buns.toml', 'as on the film', 1764342000000);
INSERT INTO report VALUES (1, 'buns.toml', 'Mine were done after 15 minutes.', 1764343000000, NULL);
