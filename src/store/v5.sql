-- Benchwalk season file, version 5. Released: never edited again; a change is a new file beside it.
--
-- Adds whether the walk asks for the temperature of a house, and the feed program of a lot.
ALTER TABLE site_line ADD COLUMN no_temperature INTEGER NOT NULL DEFAULT 0 CHECK (no_temperature IN (0, 1));
ALTER TABLE lot_line ADD COLUMN program_n_ppm REAL CHECK (program_n_ppm > 0);
ALTER TABLE lot_line ADD COLUMN program_bag TEXT;
ALTER TABLE lot_line ADD COLUMN program_from TEXT;
ALTER TABLE lot_line ADD COLUMN program_days INTEGER CHECK (program_days >= 1);
ALTER TABLE lot_line ADD COLUMN program_clear INTEGER CHECK (program_clear >= 2);

CREATE VIEW feed_program AS
SELECT lot, program_n_ppm AS n_ppm, program_bag AS bag, program_from AS first_day, program_days AS every_days,
  program_clear AS clear_every, rev, author FROM lot_line AS l
WHERE program_n_ppm IS NOT NULL AND l.id = (SELECT h.id FROM lot_line AS h WHERE h.lot = l.lot AND NOT EXISTS (
    SELECT 1 FROM lot_line AS n WHERE n.lot = h.lot AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY lot;
