-- Benchwalk season file, version 1. Released: never edited again; a change is a new file beside it.
--
-- One file is one season. Everything is written once: triggers refuse UPDATE, DELETE and an INSERT that would replace.
-- Tables keep what was written; the views below them read it in plain words, for any SQLite from 3.37 on.

-- The codes that plan and entries may speak of.
CREATE TABLE known_house (house TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_bench (bench TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_lot (lot TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;

-- The plan, every revision; the highest one of a key holds for every day.
CREATE TABLE site_line (
  rev INTEGER NOT NULL PRIMARY KEY CHECK (rev >= 1),
  name TEXT NOT NULL,
  latitude REAL NOT NULL CHECK (latitude BETWEEN -90 AND 90),
  longitude REAL NOT NULL CHECK (longitude BETWEEN -180 AND 180),
  time_zone TEXT NOT NULL,
  units TEXT NOT NULL CHECK (units IN ('us', 'metric')),
  region TEXT NOT NULL CHECK (region IN ('cool', 'warm')),
  dull_houses TEXT NOT NULL CHECK (json_type(dull_houses) = 'array'),
  emergency TEXT
) STRICT;

CREATE TABLE lot_line (
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  cultivar TEXT NOT NULL,
  container TEXT NOT NULL,
  cuttings_per_pot INTEGER NOT NULL CHECK (cuttings_per_pot >= 0),
  pots INTEGER NOT NULL CHECK (pots >= 0),
  planted INTEGER NOT NULL,
  pinch TEXT NOT NULL CHECK (pinch IN ('soft', 'hard', 'none')),
  response_weeks REAL NOT NULL,
  nights TEXT NOT NULL CHECK (nights IN ('natural', 'blackout', 'lights')),
  ready_by INTEGER NOT NULL,
  rim_cm REAL,
  pot_height_cm REAL,
  blackout_from INTEGER,
  lights_until INTEGER,
  height_low_cm REAL,
  height_high_cm REAL,
  feed_n_ppm REAL,
  feed_mg_ppm REAL,
  feed_mo_ppm REAL,
  slow_release_g REAL,
  calcium INTEGER NOT NULL CHECK (calcium IN (0, 1)),
  PRIMARY KEY (lot, rev)
) STRICT;

CREATE TABLE bench_line (
  bench TEXT NOT NULL REFERENCES known_bench (bench),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  house TEXT NOT NULL REFERENCES known_house (house),
  "order" INTEGER NOT NULL CHECK ("order" >= 0),
  area_m2 REAL,
  PRIMARY KEY (bench, rev)
) STRICT;

CREATE TABLE placement_line (
  bench TEXT NOT NULL REFERENCES known_bench (bench),
  "from" INTEGER NOT NULL,
  rev INTEGER NOT NULL CHECK (rev >= 1),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  pots INTEGER NOT NULL CHECK (pots >= 0),
  PRIMARY KEY (bench, "from", rev)
) STRICT;

CREATE TABLE order_line (
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  date INTEGER NOT NULL,
  rev INTEGER NOT NULL CHECK (rev >= 1),
  pots INTEGER NOT NULL CHECK (pots >= 0),
  PRIMARY KEY (lot, date, rev)
) STRICT;

-- The kinds of entry: findings (seen) below 31, work (done) from 31 on.
CREATE TABLE kind (number INTEGER NOT NULL PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT;
INSERT INTO kind (number, name) VALUES
  (1, 'water'),
  (2, 'roots'),
  (3, 'bracts'),
  (4, 'height'),
  (5, 'leaves'),
  (6, 'pests'),
  (7, 'root-zone'),
  (8, 'feed-check'),
  (9, 'climate'),
  (10, 'night-light'),
  (11, 'losses'),
  (12, 'counted'),
  (13, 'grade'),
  (14, 'note'),
  (31, 'watered'),
  (32, 'fed'),
  (33, 'topdressed'),
  (34, 'nutrient'),
  (35, 'growth-regulator'),
  (36, 'sprayed'),
  (37, 'released'),
  (38, 'pinched'),
  (39, 'blackout'),
  (40, 'lights'),
  (41, 'spaced'),
  (42, 'moved'),
  (43, 'sold'),
  (44, 'put-off'),
  (45, 'strike');

-- What was seen and done. `day` is the local day in the entry's own offset, counted from 1970-01-01; `at` seconds from then, UTC;
-- `offset` minutes east. `a` and `b` are what is read every day; `body` is the journal's JSON of the kind's fields and the note,
-- left out where `a` and `b` say all of it.
CREATE TABLE entry (
  seq INTEGER NOT NULL PRIMARY KEY CHECK (seq > 0),
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  bench TEXT REFERENCES known_bench (bench),
  house TEXT REFERENCES known_house (house),
  lot TEXT REFERENCES known_lot (lot),
  day INTEGER NOT NULL CHECK (day BETWEEN 10957 AND 47846),
  at INTEGER NOT NULL,
  offset INTEGER NOT NULL CHECK (offset BETWEEN -1439 AND 1439),
  "by" TEXT NOT NULL CHECK (length("by") BETWEEN 1 AND 8),
  kind INTEGER NOT NULL REFERENCES kind (number),
  a INTEGER,
  b INTEGER,
  strikes BLOB CHECK ((strikes IS NOT NULL) = (kind = 45)),
  body TEXT CHECK (body IS NULL OR json_type(body) = 'object'),
  CHECK ((bench IS NOT NULL) + (house IS NOT NULL) + (lot IS NOT NULL) = 1),
  CHECK (day = (at + offset * 60) / 86400),
  CHECK (kind <> 1 OR (a IS NOT NULL AND a BETWEEN 1 AND 5 AND (b IS NULL OR b BETWEEN 1 AND 5))),
  CHECK (kind <> 2 OR (a IS NOT NULL AND a BETWEEN 0 AND 5)),
  CHECK (kind <> 3 OR (a IS NOT NULL AND a BETWEEN 1 AND 7))
) STRICT;
CREATE INDEX entry_bench_day ON entry (bench, day);
CREATE INDEX entry_day ON entry (day);
CREATE INDEX entry_strikes ON entry (strikes) WHERE strikes IS NOT NULL;

-- Written once.
CREATE TRIGGER known_house_no_update BEFORE UPDATE ON known_house BEGIN SELECT RAISE(ABORT, 'known_house: written once, never changed'); END;
CREATE TRIGGER known_house_no_delete BEFORE DELETE ON known_house BEGIN SELECT RAISE(ABORT, 'known_house: written once, never removed'); END;
CREATE TRIGGER known_house_no_replace BEFORE INSERT ON known_house WHEN EXISTS (SELECT 1 FROM known_house WHERE house = NEW.house)
BEGIN SELECT RAISE(ABORT, 'known_house: written once, never replaced'); END;
CREATE TRIGGER known_bench_no_update BEFORE UPDATE ON known_bench BEGIN SELECT RAISE(ABORT, 'known_bench: written once, never changed'); END;
CREATE TRIGGER known_bench_no_delete BEFORE DELETE ON known_bench BEGIN SELECT RAISE(ABORT, 'known_bench: written once, never removed'); END;
CREATE TRIGGER known_bench_no_replace BEFORE INSERT ON known_bench WHEN EXISTS (SELECT 1 FROM known_bench WHERE bench = NEW.bench)
BEGIN SELECT RAISE(ABORT, 'known_bench: written once, never replaced'); END;
CREATE TRIGGER known_lot_no_update BEFORE UPDATE ON known_lot BEGIN SELECT RAISE(ABORT, 'known_lot: written once, never changed'); END;
CREATE TRIGGER known_lot_no_delete BEFORE DELETE ON known_lot BEGIN SELECT RAISE(ABORT, 'known_lot: written once, never removed'); END;
CREATE TRIGGER known_lot_no_replace BEFORE INSERT ON known_lot WHEN EXISTS (SELECT 1 FROM known_lot WHERE lot = NEW.lot)
BEGIN SELECT RAISE(ABORT, 'known_lot: written once, never replaced'); END;
CREATE TRIGGER site_line_no_update BEFORE UPDATE ON site_line BEGIN SELECT RAISE(ABORT, 'site_line: written once, never changed'); END;
CREATE TRIGGER site_line_no_delete BEFORE DELETE ON site_line BEGIN SELECT RAISE(ABORT, 'site_line: written once, never removed'); END;
CREATE TRIGGER site_line_no_replace BEFORE INSERT ON site_line WHEN EXISTS (SELECT 1 FROM site_line WHERE rev = NEW.rev)
BEGIN SELECT RAISE(ABORT, 'site_line: written once, never replaced'); END;
CREATE TRIGGER lot_line_no_update BEFORE UPDATE ON lot_line BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never changed'); END;
CREATE TRIGGER lot_line_no_delete BEFORE DELETE ON lot_line BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never removed'); END;
CREATE TRIGGER lot_line_no_replace BEFORE INSERT ON lot_line WHEN EXISTS (SELECT 1 FROM lot_line WHERE lot = NEW.lot AND rev = NEW.rev)
BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never replaced'); END;
CREATE TRIGGER bench_line_no_update BEFORE UPDATE ON bench_line BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never changed'); END;
CREATE TRIGGER bench_line_no_delete BEFORE DELETE ON bench_line BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never removed'); END;
CREATE TRIGGER bench_line_no_replace BEFORE INSERT ON bench_line WHEN EXISTS (SELECT 1 FROM bench_line WHERE bench = NEW.bench AND rev = NEW.rev)
BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never replaced'); END;
CREATE TRIGGER placement_line_no_update BEFORE UPDATE ON placement_line BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never changed'); END;
CREATE TRIGGER placement_line_no_delete BEFORE DELETE ON placement_line BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never removed'); END;
CREATE TRIGGER placement_line_no_replace BEFORE INSERT ON placement_line WHEN EXISTS (SELECT 1 FROM placement_line WHERE bench = NEW.bench AND "from" = NEW."from" AND rev = NEW.rev)
BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never replaced'); END;
CREATE TRIGGER order_line_no_update BEFORE UPDATE ON order_line BEGIN SELECT RAISE(ABORT, 'order_line: written once, never changed'); END;
CREATE TRIGGER order_line_no_delete BEFORE DELETE ON order_line BEGIN SELECT RAISE(ABORT, 'order_line: written once, never removed'); END;
CREATE TRIGGER order_line_no_replace BEFORE INSERT ON order_line WHEN EXISTS (SELECT 1 FROM order_line WHERE lot = NEW.lot AND date = NEW.date AND rev = NEW.rev)
BEGIN SELECT RAISE(ABORT, 'order_line: written once, never replaced'); END;
CREATE TRIGGER kind_no_update BEFORE UPDATE ON kind BEGIN SELECT RAISE(ABORT, 'kind: written once, never changed'); END;
CREATE TRIGGER kind_no_delete BEFORE DELETE ON kind BEGIN SELECT RAISE(ABORT, 'kind: written once, never removed'); END;
CREATE TRIGGER kind_no_replace BEFORE INSERT ON kind WHEN EXISTS (SELECT 1 FROM kind WHERE number = NEW.number OR name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'kind: written once, never replaced'); END;
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entry: written once, never changed'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entry: written once, never removed'); END;
CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'entry: written once, never replaced'); END;

-- The plan in force.
CREATE VIEW site AS
SELECT name, latitude, longitude, time_zone, units, region, dull_houses, emergency, rev FROM site_line
WHERE rev = (SELECT max(rev) FROM site_line);
CREATE VIEW lot AS
SELECT lot, cultivar, container, cuttings_per_pot, pots, date(planted * 86400, 'unixepoch') AS planted, pinch,
  response_weeks, nights,
  date(ready_by * 86400, 'unixepoch') AS ready_by, rim_cm, pot_height_cm,
  date(blackout_from * 86400, 'unixepoch') AS blackout_from,
  date(lights_until * 86400, 'unixepoch') AS lights_until, height_low_cm, height_high_cm, feed_n_ppm, feed_mg_ppm,
  feed_mo_ppm,
  slow_release_g, calcium, rev
FROM lot_line AS l WHERE rev = (SELECT max(rev) FROM lot_line WHERE lot = l.lot) ORDER BY lot;
CREATE VIEW bench AS
SELECT bench, house, "order", area_m2, rev
FROM bench_line AS l WHERE rev = (SELECT max(rev) FROM bench_line WHERE bench = l.bench) ORDER BY "order", bench;
CREATE VIEW placement AS
SELECT bench, lot, pots, date("from" * 86400, 'unixepoch') AS "from", rev FROM placement_line AS l
WHERE rev = (SELECT max(rev) FROM placement_line WHERE bench = l.bench AND "from" = l."from") ORDER BY "from", bench;
CREATE VIEW orders AS
SELECT lot, date(date * 86400, 'unixepoch') AS date, pots, rev FROM order_line AS l
WHERE rev = (SELECT max(rev) FROM order_line WHERE lot = l.lot AND date = l.date) ORDER BY date, lot;

-- Everything written down, struck out or not.
CREATE VIEW written AS
SELECT e.seq, date(e.day * 86400, 'unixepoch') AS day,
  strftime('%Y-%m-%dT%H:%M:%S', e.at + e.offset * 60, 'unixepoch')
    || printf('%s%02d:%02d', iif(e.offset < 0, '-', '+'), abs(e.offset) / 60, abs(e.offset) % 60) AS at,
  e.bench, e.house, e.lot, e."by", k.name AS kind, e.a, e.b, e.body, json_extract(e.body, '$.note') AS note,
  lower(printf('%s-%s-%s-%s-%s', substr(hex(e.id), 1, 8), substr(hex(e.id), 9, 4),
    substr(hex(e.id), 13, 4), substr(hex(e.id), 17, 4), substr(hex(e.id), 21))) AS id,
  (SELECT lower(printf('%s-%s-%s-%s-%s', substr(hex(s.id), 1, 8), substr(hex(s.id), 9, 4),
    substr(hex(s.id), 13, 4), substr(hex(s.id), 17, 4), substr(hex(s.id), 21)))
    FROM entry AS s WHERE s.strikes = e.id ORDER BY s.seq LIMIT 1) AS struck_by
FROM entry AS e JOIN kind AS k ON k.number = e.kind ORDER BY e.seq;

-- What counts: everything but entries struck out.
CREATE VIEW current AS
SELECT e.seq, date(e.day * 86400, 'unixepoch') AS day,
  strftime('%Y-%m-%dT%H:%M:%S', e.at + e.offset * 60, 'unixepoch')
    || printf('%s%02d:%02d', iif(e.offset < 0, '-', '+'), abs(e.offset) / 60, abs(e.offset) % 60) AS at,
  e.bench, e.house, e.lot, e."by", e.kind AS kind_number, e.a, e.b, e.body, json_extract(e.body, '$.note') AS note,
  lower(printf('%s-%s-%s-%s-%s', substr(hex(e.id), 1, 8), substr(hex(e.id), 9, 4),
    substr(hex(e.id), 13, 4), substr(hex(e.id), 17, 4), substr(hex(e.id), 21))) AS id
FROM entry AS e WHERE NOT EXISTS (SELECT 1 FROM entry AS s WHERE s.strikes = e.id);

-- One view a kind, named after the check or the work.
CREATE VIEW water AS
SELECT day, at, bench, house, lot, "by", a AS level, b AS base, note, id
FROM current WHERE kind_number = 1;
CREATE VIEW roots AS
SELECT day, at, bench, house, lot, "by", a AS score, json_extract(body, '$.pots') AS pots,
  json_extract(body, '$.bad') AS bad,
  (SELECT group_concat(value, ', ') FROM json_each(body, '$.signs')) AS signs, json_extract(body, '$.reach') AS reach,
  note, id
FROM current WHERE kind_number = 2;
CREATE VIEW bracts AS
SELECT day, at, bench, house, lot, "by", a AS stage, note, id
FROM current WHERE kind_number = 3;
CREATE VIEW height AS
SELECT day, at, bench, house, lot, "by", (SELECT avg(value) FROM json_each(body, '$.cm')) AS mean_cm,
  json_array_length(body, '$.cm') AS plants, (SELECT group_concat(value, ', ') FROM json_each(body, '$.cm')) AS cm,
  note, id
FROM current WHERE kind_number = 4;
CREATE VIEW leaves AS
SELECT day, at, bench, house, lot, "by", (SELECT group_concat(value, ', ') FROM json_each(body,
  '$.signs')) AS signs, json_extract(body, '$.where') AS "where", note, id
FROM current WHERE kind_number = 5;
CREATE VIEW pests AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.pest') AS pest, a AS inspected, b AS infested,
  json_extract(body, '$.cards') AS cards, json_extract(body, '$.count') AS "count",
  json_extract(body, '$.days') AS days,
  json_extract(body, '$.larvae') AS larvae, note, id
FROM current WHERE kind_number = 6;
CREATE VIEW root_zone AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.method') AS method, json_extract(body, '$.ph') AS ph,
  json_extract(body, '$.ec_ms_cm') AS ec_ms_cm, json_extract(body, '$.pots') AS pots, note, id
FROM current WHERE kind_number = 7;
CREATE VIEW feed_check AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.ph') AS ph, json_extract(body, '$.ec_ms_cm') AS ec_ms_cm,
  json_extract(body, '$.alkalinity_ppm') AS alkalinity_ppm, json_extract(body, '$.mg_ppm') AS mg_ppm, note, id
FROM current WHERE kind_number = 8;
CREATE VIEW climate AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.day_c') AS day_c,
  json_extract(body, '$.night_c') AS night_c,
  json_extract(body, '$.humidity_percent') AS humidity_percent, note, id
FROM current WHERE kind_number = 9;
CREATE VIEW night_light AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.lux') AS lux, note, id
FROM current WHERE kind_number = 10;
CREATE VIEW losses AS
SELECT day, at, bench, house, lot, "by", a AS pots, json_extract(body, '$.cause') AS cause, note, id
FROM current WHERE kind_number = 11;
CREATE VIEW counted AS
SELECT day, at, bench, house, lot, "by", a AS pots, note, id
FROM current WHERE kind_number = 12;
CREATE VIEW grade AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.sell') AS sell, json_extract(body, '$.second') AS second,
  json_extract(body, '$.dump') AS dump, note, id
FROM current WHERE kind_number = 13;
CREATE VIEW note AS
SELECT day, at, bench, house, lot, "by", note, id
FROM current WHERE kind_number = 14;
CREATE VIEW watered AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 31;
CREATE VIEW fed AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.n_ppm') AS n_ppm,
  json_extract(body, '$.mg_ppm') AS mg_ppm,
  json_extract(body, '$.mo_ppm') AS mo_ppm, json_extract(body, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 32;
CREATE VIEW topdressed AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.g_per_pot') AS g_per_pot,
  json_extract(body, '$.n_percent') AS n_percent,
  note, id
FROM current WHERE kind_number = 33;
CREATE VIEW nutrient AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.material') AS material,
  json_extract(body, '$.ppm') AS ppm,
  json_extract(body, '$.how') AS how, json_extract(body, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 34;
CREATE VIEW growth_regulator AS
SELECT day, at, bench, house, lot, "by",
  (SELECT group_concat((json_extract(value, '$.ai')) || ' ' || (json_extract(value, '$.ppm')) || ' ppm', ' + ') FROM json_each(body,
  '$.parts')) AS parts, json_extract(body, '$.how') AS how, json_extract(body, '$.re_entry_h') AS re_entry_h,
  json_extract(body, '$.ml_per_pot') AS ml_per_pot, json_extract(body, '$.product') AS product,
  json_extract(body, '$.rate') AS rate, note, id
FROM current WHERE kind_number = 35;
CREATE VIEW sprayed AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.ai') AS ai, json_extract(body, '$.against') AS against,
  json_extract(body, '$.how') AS how, json_extract(body, '$.re_entry_h') AS re_entry_h,
  json_extract(body, '$.product') AS product,
  json_extract(body, '$.rate') AS rate, note, id
FROM current WHERE kind_number = 36;
CREATE VIEW released AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.species') AS species,
  json_extract(body, '$.count') AS "count", note, id
FROM current WHERE kind_number = 37;
CREATE VIEW pinched AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.how') AS how,
  json_extract(body, '$.nodes_left') AS nodes_left, note, id
FROM current WHERE kind_number = 38;
CREATE VIEW blackout AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.night') AS night,
  json_extract(body, '$.covered') AS covered, note, id
FROM current WHERE kind_number = 39;
CREATE VIEW lights AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.night') AS night, json_extract(body, '$.on') AS "on",
  note, id
FROM current WHERE kind_number = 40;
CREATE VIEW spaced AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.centers_cm') AS centers_cm, note, id
FROM current WHERE kind_number = 41;
CREATE VIEW moved AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.to') AS "to", a AS pots, note, id
FROM current WHERE kind_number = 42;
CREATE VIEW sold AS
SELECT day, at, bench, house, lot, "by", a AS pots, note, id
FROM current WHERE kind_number = 43;
CREATE VIEW put_off AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.warning') AS warning,
  json_extract(body, '$.until') AS "until",
  json_extract(body, '$.why') AS why, note, id
FROM current WHERE kind_number = 44;
CREATE VIEW strike AS
SELECT day, at, bench, house, lot, "by", json_extract(body, '$.entry') AS entry, json_extract(body, '$.why') AS why,
  coalesce(json_extract(body, '$.reopen'), 0) AS reopen, note, id
FROM current WHERE kind_number = 45;
