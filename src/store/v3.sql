-- Benchwalk season file, version 3. Released: never edited again; a change is a new file beside it.
--
-- Adds what was done to a lot before its record began. An empty field is not known.
CREATE TABLE history_line (
  id BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
  rev INTEGER NOT NULL CHECK (rev >= 1),
  instant INTEGER,
  utc_offset INTEGER CHECK (utc_offset BETWEEN -1439 AND 1439),
  author TEXT CHECK (length(author) BETWEEN 1 AND 8),
  seen TEXT NOT NULL CHECK (seen IN ('lower', 'earlier', 'listed')),
  corrects INTEGER NOT NULL CHECK (corrects IN (0, 1)),
  lot TEXT NOT NULL REFERENCES known_lot (lot),
  pinch TEXT CHECK (pinch IN ('done', 'not-done')),
  pinched_on TEXT,
  feed TEXT CHECK (feed IN ('done', 'not-done')),
  fed_last TEXT,
  magnesium TEXT CHECK (magnesium IN ('done', 'not-done')),
  magnesium_on TEXT,
  molybdenum TEXT CHECK (molybdenum IN ('done', 'not-done')),
  molybdenum_on TEXT,
  regulator TEXT CHECK (regulator IN ('done', 'not-done')),
  regulator_on TEXT,
  regulator_used TEXT,
  CHECK ((instant IS NULL) = (seen = 'lower')),
  CHECK ((instant IS NULL) = (utc_offset IS NULL) AND (instant IS NULL) = (author IS NULL))
) STRICT;
CREATE INDEX history_line_key ON history_line (lot);

CREATE TRIGGER history_line_no_update BEFORE UPDATE ON history_line BEGIN SELECT RAISE(ABORT, 'history_line: written once, never changed'); END;
CREATE TRIGGER history_line_no_delete BEFORE DELETE ON history_line BEGIN SELECT RAISE(ABORT, 'history_line: written once, never removed'); END;
CREATE TRIGGER history_line_no_replace BEFORE INSERT ON history_line WHEN EXISTS (SELECT 1 FROM history_line WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'history_line: written once, never replaced'); END;

CREATE VIEW history AS
SELECT lot, pinch, pinched_on, feed, fed_last, magnesium, magnesium_on, molybdenum, molybdenum_on, regulator, regulator_on,
  regulator_used, rev, author FROM history_line AS l
WHERE l.id = (SELECT h.id FROM history_line AS h WHERE h.lot = l.lot AND NOT EXISTS (
    SELECT 1 FROM history_line AS n WHERE n.lot = h.lot AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY lot;
