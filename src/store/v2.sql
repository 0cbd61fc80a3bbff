-- Benchwalk season file, version 2. Released: never edited again; a change is a new file beside it.
--
-- One file is one season. Everything is written once: triggers refuse UPDATE, DELETE and an INSERT that would replace.
-- Tables keep what was written; the views below them read it in plain words, for any SQLite from 3.37 on.
--
-- Days of the plan are texts, 2026-10-12. An instant is seconds from 1970-01-01 UTC, utc_offset the writer's minutes east.

-- Which season this is. Two files with one id are parts of one season and can be joined.
CREATE TABLE season (
  one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
  id BLOB NOT NULL CHECK (length(id) = 16)
) STRICT;

-- The codes that plan and entries may speak of.
CREATE TABLE known_house (house TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_bench (bench TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_lot (lot TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_trial (trial TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE known_plot (plot TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;

-- The plan, every line ever written. Lines of one key (lot; bench; bench and day; …) are revisions of one another. A line takes
-- the place of those that `seen` says: 'listed', those in plan_replaces; 'earlier', all before it by (instant, id); 'lower', of
-- a line without an instant, those with a lower rev. Of the lines whose place none has taken the last by (instant, id) holds.
-- A line that corrects mends a fact of the past: what it changes holds for every day, not only from its own day on.
CREATE TABLE plan_replaces (
  line BLOB NOT NULL CHECK (length(line) = 16),
  older BLOB NOT NULL CHECK (length(older) = 16),
  PRIMARY KEY (line, older)
) STRICT, WITHOUT ROWID;

CREATE TABLE site_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  name TEXT NOT NULL,
  latitude REAL NOT NULL CHECK (latitude BETWEEN -90 AND 90),
  longitude REAL NOT NULL CHECK (longitude BETWEEN -180 AND 180),
  time_zone TEXT NOT NULL,
  units TEXT NOT NULL CHECK (units IN ('us', 'metric')),
  region TEXT NOT NULL CHECK (region IN ('cool', 'warm')),
  low_light_houses TEXT NOT NULL CHECK (json_type(low_light_houses) = 'array'),
  emergency TEXT,
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;

CREATE TABLE lot_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  cultivar TEXT NOT NULL,
  container TEXT NOT NULL,
  rim_cm REAL,
  pot_height_cm REAL,
  cuttings_per_pot INTEGER NOT NULL CHECK (cuttings_per_pot >= 0),
  pots INTEGER NOT NULL CHECK (pots >= 0),
  planted TEXT NOT NULL,
  pinch TEXT NOT NULL CHECK (pinch IN ('soft', 'hard', 'none')),
  response_weeks REAL NOT NULL,
  nights TEXT NOT NULL CHECK (nights IN ('natural', 'blackout', 'lights')),
  blackout_from TEXT,
  lights_until TEXT,
  height_low_cm REAL,
  height_high_cm REAL,
  ready_by TEXT NOT NULL,
  feed_n_ppm REAL,
  feed_mg_ppm REAL,
  feed_mo_ppm REAL,
  slow_release_g REAL,
  calcium INTEGER NOT NULL CHECK (calcium IN (0, 1)),
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX lot_line_key ON lot_line (lot);

CREATE TABLE bench_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  bench TEXT NOT NULL REFERENCES known_bench (bench),
  house TEXT NOT NULL REFERENCES known_house (house),
  walk_order INTEGER NOT NULL CHECK (walk_order >= 0),
  area_m2 REAL,
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX bench_line_key ON bench_line (bench);

CREATE TABLE placement_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  bench TEXT NOT NULL REFERENCES known_bench (bench),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  pots INTEGER NOT NULL CHECK (pots >= 0),
  from_day TEXT NOT NULL,
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX placement_line_key ON placement_line (bench, from_day);

CREATE TABLE order_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  due_day TEXT NOT NULL,
  pots INTEGER NOT NULL CHECK (pots >= 0),
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX order_line_key ON order_line (lot, due_day);

-- Trials and their plots: room for a later program; this one writes none.
CREATE TABLE trial_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  trial TEXT NOT NULL REFERENCES known_trial (trial),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  question TEXT NOT NULL,
  treatments TEXT NOT NULL CHECK (json_type(treatments) = 'array'),
  rates TEXT CHECK (rates IS NULL OR json_type(rates) = 'array'),
  rate_unit TEXT,
  control_treatment TEXT,
  design TEXT NOT NULL,
  seed TEXT,
  readings TEXT NOT NULL CHECK (json_type(readings) = 'array'),
  every_days INTEGER,
  from_day TEXT NOT NULL,
  until_day TEXT,
  matters REAL,
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX trial_line_key ON trial_line (trial);

CREATE TABLE plot_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  plot TEXT NOT NULL REFERENCES known_plot (plot),
  trial TEXT NOT NULL REFERENCES known_trial (trial),
  bench TEXT NOT NULL REFERENCES known_bench (bench),
  bench_row INTEGER NOT NULL,
  bench_column INTEGER NOT NULL,
  block INTEGER,
  treatment TEXT NOT NULL,
  pots INTEGER NOT NULL CHECK (pots >= 0),
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX plot_line_key ON plot_line (plot);

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

-- What was seen and done. `day` is the local day in the entry's own offset, counted from 1970-01-01; `fields` the journal's JSON
-- of the kind's own fields.
CREATE TABLE entry (
  seq INTEGER NOT NULL PRIMARY KEY CHECK (seq > 0),
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  bench TEXT REFERENCES known_bench (bench),
  house TEXT REFERENCES known_house (house),
  lot TEXT REFERENCES known_lot (lot),
  plot TEXT REFERENCES known_plot (plot) CHECK (plot IS NULL OR bench IS NOT NULL),
  day INTEGER NOT NULL CHECK (day BETWEEN 10957 AND 47846),
  instant INTEGER NOT NULL,
  utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT NOT NULL CHECK (length(author) BETWEEN 1 AND 8),
  kind INTEGER NOT NULL REFERENCES kind (number),
  strikes BLOB CHECK ((strikes IS NOT NULL) = (kind = 45)),
  fields TEXT NOT NULL CHECK (json_type(fields) = 'object'),
  note TEXT,
  CHECK ((bench IS NOT NULL) + (house IS NOT NULL) + (lot IS NOT NULL) = 1),
  CHECK (day = (instant + utc_offset * 60) / 86400),
  CHECK (kind <> 1 OR coalesce(json_extract(fields, '$.level') BETWEEN 1 AND 5, 0)),
  CHECK (kind <> 2 OR coalesce(json_extract(fields, '$.score') BETWEEN 0 AND 5, 0)),
  CHECK (kind <> 3 OR coalesce(json_extract(fields, '$.stage') BETWEEN 1 AND 7, 0))
) STRICT;
CREATE INDEX entry_bench_day ON entry (bench, day);
CREATE INDEX entry_plot_day ON entry (plot, day) WHERE plot IS NOT NULL;
CREATE INDEX entry_day ON entry (day);
CREATE INDEX entry_strikes ON entry (strikes) WHERE strikes IS NOT NULL;

-- Streams: the lines of one season file in the order they were written there, numbered without gaps and chained by hash. Room
-- for a later program that exchanges them; this one writes none.
CREATE TABLE stream (
  number INTEGER NOT NULL PRIMARY KEY CHECK (number > 0),
  id BLOB NOT NULL CHECK (length(id) = 16),
  branch INTEGER NOT NULL,
  laptop TEXT,
  UNIQUE (id, branch)
) STRICT;
CREATE TABLE own (number INTEGER NOT NULL PRIMARY KEY REFERENCES stream (number), seat BLOB NOT NULL) STRICT;
CREATE TABLE log (
  stream INTEGER NOT NULL REFERENCES stream (number),
  n INTEGER NOT NULL CHECK (n > 0),
  chain BLOB NOT NULL CHECK (length(chain) = 16),
  entry INTEGER REFERENCES entry (seq),
  line TEXT,
  state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 2),
  CHECK ((entry IS NULL) <> (line IS NULL)),
  PRIMARY KEY (stream, n)
) STRICT, WITHOUT ROWID;

-- Written once.
CREATE TRIGGER season_no_update BEFORE UPDATE ON season BEGIN SELECT RAISE(ABORT, 'season: written once, never changed'); END;
CREATE TRIGGER season_no_delete BEFORE DELETE ON season BEGIN SELECT RAISE(ABORT, 'season: written once, never removed'); END;
CREATE TRIGGER season_no_replace BEFORE INSERT ON season WHEN EXISTS (SELECT 1 FROM season WHERE one = NEW.one)
BEGIN SELECT RAISE(ABORT, 'season: written once, never replaced'); END;
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
CREATE TRIGGER known_trial_no_update BEFORE UPDATE ON known_trial BEGIN SELECT RAISE(ABORT, 'known_trial: written once, never changed'); END;
CREATE TRIGGER known_trial_no_delete BEFORE DELETE ON known_trial BEGIN SELECT RAISE(ABORT, 'known_trial: written once, never removed'); END;
CREATE TRIGGER known_trial_no_replace BEFORE INSERT ON known_trial WHEN EXISTS (SELECT 1 FROM known_trial WHERE trial = NEW.trial)
BEGIN SELECT RAISE(ABORT, 'known_trial: written once, never replaced'); END;
CREATE TRIGGER known_plot_no_update BEFORE UPDATE ON known_plot BEGIN SELECT RAISE(ABORT, 'known_plot: written once, never changed'); END;
CREATE TRIGGER known_plot_no_delete BEFORE DELETE ON known_plot BEGIN SELECT RAISE(ABORT, 'known_plot: written once, never removed'); END;
CREATE TRIGGER known_plot_no_replace BEFORE INSERT ON known_plot WHEN EXISTS (SELECT 1 FROM known_plot WHERE plot = NEW.plot)
BEGIN SELECT RAISE(ABORT, 'known_plot: written once, never replaced'); END;
CREATE TRIGGER plan_replaces_no_update BEFORE UPDATE ON plan_replaces BEGIN SELECT RAISE(ABORT, 'plan_replaces: written once, never changed'); END;
CREATE TRIGGER plan_replaces_no_delete BEFORE DELETE ON plan_replaces BEGIN SELECT RAISE(ABORT, 'plan_replaces: written once, never removed'); END;
CREATE TRIGGER plan_replaces_no_replace BEFORE INSERT ON plan_replaces WHEN EXISTS (SELECT 1 FROM plan_replaces WHERE line = NEW.line AND older = NEW.older)
BEGIN SELECT RAISE(ABORT, 'plan_replaces: written once, never replaced'); END;
CREATE TRIGGER site_line_no_update BEFORE UPDATE ON site_line BEGIN SELECT RAISE(ABORT, 'site_line: written once, never changed'); END;
CREATE TRIGGER site_line_no_delete BEFORE DELETE ON site_line BEGIN SELECT RAISE(ABORT, 'site_line: written once, never removed'); END;
CREATE TRIGGER site_line_no_replace BEFORE INSERT ON site_line WHEN EXISTS (SELECT 1 FROM site_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'site_line: written once, never replaced'); END;
CREATE TRIGGER lot_line_no_update BEFORE UPDATE ON lot_line BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never changed'); END;
CREATE TRIGGER lot_line_no_delete BEFORE DELETE ON lot_line BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never removed'); END;
CREATE TRIGGER lot_line_no_replace BEFORE INSERT ON lot_line WHEN EXISTS (SELECT 1 FROM lot_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'lot_line: written once, never replaced'); END;
CREATE TRIGGER bench_line_no_update BEFORE UPDATE ON bench_line BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never changed'); END;
CREATE TRIGGER bench_line_no_delete BEFORE DELETE ON bench_line BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never removed'); END;
CREATE TRIGGER bench_line_no_replace BEFORE INSERT ON bench_line WHEN EXISTS (SELECT 1 FROM bench_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'bench_line: written once, never replaced'); END;
CREATE TRIGGER placement_line_no_update BEFORE UPDATE ON placement_line BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never changed'); END;
CREATE TRIGGER placement_line_no_delete BEFORE DELETE ON placement_line BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never removed'); END;
CREATE TRIGGER placement_line_no_replace BEFORE INSERT ON placement_line WHEN EXISTS (SELECT 1 FROM placement_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'placement_line: written once, never replaced'); END;
CREATE TRIGGER order_line_no_update BEFORE UPDATE ON order_line BEGIN SELECT RAISE(ABORT, 'order_line: written once, never changed'); END;
CREATE TRIGGER order_line_no_delete BEFORE DELETE ON order_line BEGIN SELECT RAISE(ABORT, 'order_line: written once, never removed'); END;
CREATE TRIGGER order_line_no_replace BEFORE INSERT ON order_line WHEN EXISTS (SELECT 1 FROM order_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'order_line: written once, never replaced'); END;
CREATE TRIGGER trial_line_no_update BEFORE UPDATE ON trial_line BEGIN SELECT RAISE(ABORT, 'trial_line: written once, never changed'); END;
CREATE TRIGGER trial_line_no_delete BEFORE DELETE ON trial_line BEGIN SELECT RAISE(ABORT, 'trial_line: written once, never removed'); END;
CREATE TRIGGER trial_line_no_replace BEFORE INSERT ON trial_line WHEN EXISTS (SELECT 1 FROM trial_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'trial_line: written once, never replaced'); END;
CREATE TRIGGER plot_line_no_update BEFORE UPDATE ON plot_line BEGIN SELECT RAISE(ABORT, 'plot_line: written once, never changed'); END;
CREATE TRIGGER plot_line_no_delete BEFORE DELETE ON plot_line BEGIN SELECT RAISE(ABORT, 'plot_line: written once, never removed'); END;
CREATE TRIGGER plot_line_no_replace BEFORE INSERT ON plot_line WHEN EXISTS (SELECT 1 FROM plot_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'plot_line: written once, never replaced'); END;
CREATE TRIGGER kind_no_update BEFORE UPDATE ON kind BEGIN SELECT RAISE(ABORT, 'kind: written once, never changed'); END;
CREATE TRIGGER kind_no_delete BEFORE DELETE ON kind BEGIN SELECT RAISE(ABORT, 'kind: written once, never removed'); END;
CREATE TRIGGER kind_no_replace BEFORE INSERT ON kind WHEN EXISTS (SELECT 1 FROM kind WHERE number = NEW.number OR name = NEW.name)
BEGIN SELECT RAISE(ABORT, 'kind: written once, never replaced'); END;
CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entry: written once, never changed'); END;
CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entry: written once, never removed'); END;
CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'entry: written once, never replaced'); END;
CREATE TRIGGER stream_no_update BEFORE UPDATE ON stream BEGIN SELECT RAISE(ABORT, 'stream: written once, never changed'); END;
CREATE TRIGGER stream_no_delete BEFORE DELETE ON stream BEGIN SELECT RAISE(ABORT, 'stream: written once, never removed'); END;
CREATE TRIGGER stream_no_replace BEFORE INSERT ON stream WHEN EXISTS (SELECT 1 FROM stream WHERE number = NEW.number OR (id = NEW.id AND branch = NEW.branch))
BEGIN SELECT RAISE(ABORT, 'stream: written once, never replaced'); END;
CREATE TRIGGER own_no_update BEFORE UPDATE ON own BEGIN SELECT RAISE(ABORT, 'own: written once, never changed'); END;
CREATE TRIGGER own_no_delete BEFORE DELETE ON own BEGIN SELECT RAISE(ABORT, 'own: written once, never removed'); END;
CREATE TRIGGER own_no_replace BEFORE INSERT ON own WHEN EXISTS (SELECT 1 FROM own WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'own: written once, never replaced'); END;
CREATE TRIGGER log_no_update BEFORE UPDATE ON log BEGIN SELECT RAISE(ABORT, 'log: written once, never changed'); END;
CREATE TRIGGER log_no_delete BEFORE DELETE ON log BEGIN SELECT RAISE(ABORT, 'log: written once, never removed'); END;
CREATE TRIGGER log_no_replace BEFORE INSERT ON log WHEN EXISTS (SELECT 1 FROM log WHERE stream = NEW.stream AND n = NEW.n)
BEGIN SELECT RAISE(ABORT, 'log: written once, never replaced'); END;

-- The plan in force.
CREATE VIEW site AS
SELECT name, latitude, longitude, time_zone, units, region, low_light_houses, emergency, rev, author FROM site_line AS l
WHERE l.id = (SELECT h.id FROM site_line AS h WHERE true AND NOT EXISTS (
    SELECT 1 FROM site_line AS n WHERE true AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1);
CREATE VIEW lot AS
SELECT lot, cultivar, container, rim_cm, pot_height_cm, cuttings_per_pot, pots, planted, pinch, response_weeks,
  nights, blackout_from, lights_until, height_low_cm, height_high_cm, ready_by, feed_n_ppm, feed_mg_ppm, feed_mo_ppm,
  slow_release_g, calcium, rev, author FROM lot_line AS l
WHERE l.id = (SELECT h.id FROM lot_line AS h WHERE h.lot = l.lot AND NOT EXISTS (
    SELECT 1 FROM lot_line AS n WHERE n.lot = h.lot AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY lot;
CREATE VIEW bench AS
SELECT bench, house, walk_order, area_m2, rev, author FROM bench_line AS l
WHERE l.id = (SELECT h.id FROM bench_line AS h WHERE h.bench = l.bench AND NOT EXISTS (
    SELECT 1 FROM bench_line AS n WHERE n.bench = h.bench AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY walk_order, bench;
CREATE VIEW placement AS
SELECT bench, lot, pots, from_day, rev, author FROM placement_line AS l
WHERE l.id = (SELECT h.id FROM placement_line AS h WHERE h.bench = l.bench AND h.from_day = l.from_day AND NOT EXISTS (
    SELECT 1 FROM placement_line AS n WHERE n.bench = h.bench AND n.from_day = h.from_day AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY from_day, bench;
CREATE VIEW orders AS
SELECT lot, due_day, pots, rev, author FROM order_line AS l
WHERE l.id = (SELECT h.id FROM order_line AS h WHERE h.lot = l.lot AND h.due_day = l.due_day AND NOT EXISTS (
    SELECT 1 FROM order_line AS n WHERE n.lot = h.lot AND n.due_day = h.due_day AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY due_day, lot;

-- Everything written down, struck out or not.
CREATE VIEW written AS
SELECT e.seq, date(e.day * 86400, 'unixepoch') AS day,
  strftime('%Y-%m-%dT%H:%M:%S', e.instant + e.utc_offset * 60, 'unixepoch')
    || printf('%s%02d:%02d', iif(e.utc_offset < 0, '-', '+'), abs(e.utc_offset) / 60, abs(e.utc_offset) % 60) AS at_time,
  e.bench, e.house, e.lot, e.plot, e.author, k.name AS kind, e.fields, e.note,
  lower(printf('%s-%s-%s-%s-%s', substr(hex(e.id), 1, 8), substr(hex(e.id), 9, 4),
    substr(hex(e.id), 13, 4), substr(hex(e.id), 17, 4), substr(hex(e.id), 21))) AS id,
  (SELECT lower(printf('%s-%s-%s-%s-%s', substr(hex(s.id), 1, 8), substr(hex(s.id), 9, 4),
    substr(hex(s.id), 13, 4), substr(hex(s.id), 17, 4), substr(hex(s.id), 21)))
    FROM entry AS s WHERE s.strikes = e.id ORDER BY s.seq LIMIT 1) AS struck_by
FROM entry AS e JOIN kind AS k ON k.number = e.kind ORDER BY e.seq;

-- What counts for the benches: everything but entries struck out and entries of plots.
CREATE VIEW current AS
SELECT e.seq, date(e.day * 86400, 'unixepoch') AS day,
  strftime('%Y-%m-%dT%H:%M:%S', e.instant + e.utc_offset * 60, 'unixepoch')
    || printf('%s%02d:%02d', iif(e.utc_offset < 0, '-', '+'), abs(e.utc_offset) / 60, abs(e.utc_offset) % 60) AS at_time,
  e.bench, e.house, e.lot, e.plot, e.author, e.kind AS kind_number, e.fields, e.note,
  lower(printf('%s-%s-%s-%s-%s', substr(hex(e.id), 1, 8), substr(hex(e.id), 9, 4),
    substr(hex(e.id), 13, 4), substr(hex(e.id), 17, 4), substr(hex(e.id), 21))) AS id
FROM entry AS e WHERE e.plot IS NULL AND NOT EXISTS (SELECT 1 FROM entry AS s WHERE s.strikes = e.id);

-- One view a kind, named after the check or the work.
CREATE VIEW water AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.level') AS level, json_extract(fields, '$.base') AS base, note, id
FROM current WHERE kind_number = 1;
CREATE VIEW roots AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.score') AS score, json_extract(fields, '$.pots') AS pots,
  json_extract(fields, '$.bad') AS bad,
  (SELECT group_concat(value, ', ') FROM json_each(fields, '$.signs')) AS signs, json_extract(fields, '$.reach') AS reach,
  note, id
FROM current WHERE kind_number = 2;
CREATE VIEW bracts AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.stage') AS stage, note, id
FROM current WHERE kind_number = 3;
CREATE VIEW height AS
SELECT day, at_time, bench, house, lot, author, (SELECT avg(value) FROM json_each(fields, '$.cm')) AS mean_cm,
  json_array_length(fields, '$.cm') AS plants, (SELECT group_concat(value, ', ') FROM json_each(fields, '$.cm')) AS cm,
  note, id
FROM current WHERE kind_number = 4;
CREATE VIEW leaves AS
SELECT day, at_time, bench, house, lot, author, (SELECT group_concat(value, ', ') FROM json_each(fields,
  '$.signs')) AS signs, json_extract(fields, '$.where') AS plant_part, note, id
FROM current WHERE kind_number = 5;
CREATE VIEW pests AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.pest') AS pest, json_extract(fields, '$.inspected') AS inspected, json_extract(fields, '$.infested') AS infested,
  json_extract(fields, '$.cards') AS cards, json_extract(fields, '$.count') AS counted,
  json_extract(fields, '$.days') AS days,
  json_extract(fields, '$.larvae') AS larvae, note, id
FROM current WHERE kind_number = 6;
CREATE VIEW root_zone AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.method') AS method, json_extract(fields, '$.ph') AS ph,
  json_extract(fields, '$.ec_ms_cm') AS ec_ms_cm, json_extract(fields, '$.pots') AS pots, note, id
FROM current WHERE kind_number = 7;
CREATE VIEW feed_check AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.ph') AS ph, json_extract(fields, '$.ec_ms_cm') AS ec_ms_cm,
  json_extract(fields, '$.alkalinity_ppm') AS alkalinity_ppm, json_extract(fields, '$.mg_ppm') AS mg_ppm, note, id
FROM current WHERE kind_number = 8;
CREATE VIEW climate AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.day_c') AS day_c,
  json_extract(fields, '$.night_c') AS night_c,
  json_extract(fields, '$.humidity_percent') AS humidity_percent, note, id
FROM current WHERE kind_number = 9;
CREATE VIEW night_light AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.lux') AS lux, note, id
FROM current WHERE kind_number = 10;
CREATE VIEW losses AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.pots') AS pots, json_extract(fields, '$.cause') AS cause, note, id
FROM current WHERE kind_number = 11;
CREATE VIEW counted AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.pots') AS pots, note, id
FROM current WHERE kind_number = 12;
CREATE VIEW grade AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.sell') AS sell, json_extract(fields, '$.second') AS second,
  json_extract(fields, '$.dump') AS dump, note, id
FROM current WHERE kind_number = 13;
CREATE VIEW note AS
SELECT day, at_time, bench, house, lot, author, note, id
FROM current WHERE kind_number = 14;
CREATE VIEW watered AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 31;
CREATE VIEW fed AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.n_ppm') AS n_ppm,
  json_extract(fields, '$.mg_ppm') AS mg_ppm,
  json_extract(fields, '$.mo_ppm') AS mo_ppm, json_extract(fields, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 32;
CREATE VIEW topdressed AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.g_per_pot') AS g_per_pot,
  json_extract(fields, '$.n_percent') AS n_percent,
  note, id
FROM current WHERE kind_number = 33;
CREATE VIEW nutrient AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.material') AS material,
  json_extract(fields, '$.ppm') AS ppm,
  json_extract(fields, '$.how') AS how, json_extract(fields, '$.ml_per_pot') AS ml_per_pot, note, id
FROM current WHERE kind_number = 34;
CREATE VIEW growth_regulator AS
SELECT day, at_time, bench, house, lot, author,
  (SELECT group_concat((json_extract(value, '$.ai')) || ' ' || (json_extract(value, '$.ppm')) || ' ppm', ' + ') FROM json_each(fields,
  '$.parts')) AS parts, json_extract(fields, '$.how') AS how, json_extract(fields, '$.rei_h') AS rei_h,
  json_extract(fields, '$.ml_per_pot') AS ml_per_pot, json_extract(fields, '$.product') AS product,
  json_extract(fields, '$.rate') AS rate, note, id
FROM current WHERE kind_number = 35;
CREATE VIEW sprayed AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.ai') AS ai, json_extract(fields, '$.against') AS against,
  json_extract(fields, '$.how') AS how, json_extract(fields, '$.rei_h') AS rei_h,
  json_extract(fields, '$.product') AS product,
  json_extract(fields, '$.rate') AS rate, note, id
FROM current WHERE kind_number = 36;
CREATE VIEW released AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.species') AS species,
  json_extract(fields, '$.count') AS counted, note, id
FROM current WHERE kind_number = 37;
CREATE VIEW pinched AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.how') AS how,
  json_extract(fields, '$.nodes_left') AS nodes_left, note, id
FROM current WHERE kind_number = 38;
CREATE VIEW blackout AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.night') AS night,
  json_extract(fields, '$.covered') AS covered, note, id
FROM current WHERE kind_number = 39;
CREATE VIEW lights AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.night') AS night, json_extract(fields, '$.on') AS lamps_on,
  note, id
FROM current WHERE kind_number = 40;
CREATE VIEW spaced AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.centers_cm') AS centers_cm, note, id
FROM current WHERE kind_number = 41;
CREATE VIEW moved AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.to') AS to_bench, json_extract(fields, '$.pots') AS pots, note, id
FROM current WHERE kind_number = 42;
CREATE VIEW sold AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.pots') AS pots, note, id
FROM current WHERE kind_number = 43;
CREATE VIEW put_off AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.warning') AS warning,
  json_extract(fields, '$.until') AS until_day,
  json_extract(fields, '$.why') AS why, note, id
FROM current WHERE kind_number = 44;
CREATE VIEW strike AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.entry') AS entry, json_extract(fields, '$.why') AS why,
  coalesce(json_extract(fields, '$.reopen'), 0) AS reopen, note, id
FROM current WHERE kind_number = 45;
