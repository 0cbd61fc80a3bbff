-- Benchwalk season file, version 6. Released: never edited again; a change is a new file beside it.
--
-- Trials: what the tables of version 2 had no column for, two kinds of reading, and views. Adds to a lot what is planned for the
-- next season's slow-release.
INSERT INTO kind (number, name) VALUES (15, 'greenness'), (16, 'bract-width');

ALTER TABLE trial_line ADD COLUMN drawn INTEGER CHECK (drawn >= 1);
ALTER TABLE trial_line ADD COLUMN guard INTEGER NOT NULL DEFAULT 0 CHECK (guard IN (0, 1));
ALTER TABLE trial_line ADD COLUMN near_side TEXT;
ALTER TABLE trial_line ADD COLUMN far_side TEXT;
ALTER TABLE trial_line ADD COLUMN shared_feed INTEGER NOT NULL DEFAULT 0 CHECK (shared_feed IN (0, 1));
ALTER TABLE trial_line ADD COLUMN ended_because TEXT;
ALTER TABLE lot_line ADD COLUMN next_release_g REAL CHECK (next_release_g >= 0);
ALTER TABLE lot_line ADD COLUMN next_release_basis TEXT;

CREATE VIEW greenness AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.class') AS class, json_extract(fields, '$.spad') AS spad,
  note, id
FROM current WHERE kind_number = 15;
CREATE VIEW bract_width AS
SELECT day, at_time, bench, house, lot, author, (SELECT avg(value) FROM json_each(fields, '$.cm')) AS mean_cm,
  json_array_length(fields, '$.cm') AS heads, (SELECT group_concat(value, ', ') FROM json_each(fields, '$.cm')) AS cm, note, id
FROM current WHERE kind_number = 16;

CREATE VIEW trial AS
SELECT trial, lot, question, (SELECT group_concat(value, ', ') FROM json_each(treatments)) AS treatments,
  (SELECT group_concat(value, ', ') FROM json_each(rates)) AS rates, rate_unit, control_treatment, design, seed,
  coalesce(drawn, 1) AS drawn, (SELECT group_concat(value, ', ') FROM json_each(readings)) AS readings,
  coalesce(every_days, 7) AS every_days, from_day AS first_day, until_day AS last_day, matters, guard, near_side, far_side,
  shared_feed, ended_because, rev, author FROM trial_line AS l
WHERE l.id = (SELECT h.id FROM trial_line AS h WHERE h.trial = l.trial AND NOT EXISTS (
    SELECT 1 FROM trial_line AS n WHERE n.trial = h.trial AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY trial;

CREATE VIEW plot AS
SELECT plot, trial, bench, bench_row, bench_column, block, treatment, pots, rev, author FROM plot_line AS l
WHERE l.id = (SELECT h.id FROM plot_line AS h WHERE h.plot = l.plot AND NOT EXISTS (
    SELECT 1 FROM plot_line AS n WHERE n.plot = h.plot AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1)
ORDER BY trial, CAST(substr(plot, length(trial) + 2) AS INTEGER);

-- What was read of the plots: struck entries left out, one line an entry. The value is the score, or the mean of what was measured.
CREATE VIEW trial_reading AS
SELECT p.trial, p.plot, p.block, p.bench_row, p.bench_column, p.treatment, e.day, k.name AS kind,
  CASE e.kind
    WHEN 1 THEN json_extract(e.fields, '$.level')
    WHEN 2 THEN json_extract(e.fields, '$.score')
    WHEN 3 THEN json_extract(e.fields, '$.stage')
    WHEN 4 THEN (SELECT avg(value) FROM json_each(e.fields, '$.cm'))
    WHEN 7 THEN json_extract(e.fields, '$.ec_ms_cm')
    WHEN 13 THEN 100.0 * json_extract(e.fields, '$.sell')
      / nullif(json_extract(e.fields, '$.sell') + json_extract(e.fields, '$.second') + json_extract(e.fields, '$.dump'), 0)
    WHEN 15 THEN coalesce(json_extract(e.fields, '$.class'), json_extract(e.fields, '$.spad'))
    WHEN 16 THEN (SELECT avg(value) FROM json_each(e.fields, '$.cm'))
  END AS value, e.note, e.author
FROM entry AS e JOIN kind AS k ON k.number = e.kind JOIN plot AS p ON p.plot = e.plot
WHERE NOT EXISTS (SELECT 1 FROM entry AS s WHERE s.strikes = e.id) AND e.kind IN (1, 2, 3, 4, 7, 13, 15, 16)
ORDER BY e.day, p.trial, CAST(substr(p.plot, length(p.trial) + 2) AS INTEGER), e.instant, e.id;
