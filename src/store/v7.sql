-- Benchwalk season file, version 7.
--
-- Adds to a lot the mean temperature at which its response weeks hold, also to its view. The view of the readings of plots gives
-- days as dates, as all others do; that of leaves how many plants show the signs.
ALTER TABLE lot_line ADD COLUMN response_c REAL CHECK (response_c BETWEEN 16 AND 24);

DROP VIEW lot;
CREATE VIEW lot AS
SELECT lot, cultivar, container, rim_cm, pot_height_cm, cuttings_per_pot, pots, planted, pinch, response_weeks, response_c,
  nights, blackout_from, lights_until, height_low_cm, height_high_cm, ready_by, feed_n_ppm, feed_mg_ppm, feed_mo_ppm,
  slow_release_g, calcium, rev, author FROM lot_line AS l
WHERE l.id = (SELECT h.id FROM lot_line AS h WHERE h.lot = l.lot AND NOT EXISTS (
    SELECT 1 FROM lot_line AS n WHERE n.lot = h.lot AND n.id <> h.id AND CASE n.seen
      WHEN 'listed' THEN EXISTS (SELECT 1 FROM plan_replaces AS r WHERE r.line = n.id AND r.older = h.id)
      WHEN 'lower' THEN h.seen = 'lower' AND n.rev > h.rev
      ELSE h.instant IS NULL OR (h.instant, h.id) < (n.instant, n.id) END)
  ORDER BY h.instant IS NOT NULL DESC, h.instant DESC, h.rev DESC, h.id DESC LIMIT 1) ORDER BY lot;

DROP VIEW trial_reading;
-- What was read of the plots: struck entries left out, one line an entry. The value is the score, or the mean of what was measured.
CREATE VIEW trial_reading AS
SELECT p.trial, p.plot, p.block, p.bench_row, p.bench_column, p.treatment, date(e.day * 86400, 'unixepoch') AS day, k.name AS kind,
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

DROP VIEW leaves;

CREATE VIEW leaves AS
SELECT day, at_time, bench, house, lot, author, (SELECT group_concat(value, ', ') FROM json_each(fields,
  '$.signs')) AS signs, json_extract(fields, '$.where') AS plant_part, json_extract(fields, '$.plants') AS plants, note, id
FROM current WHERE kind_number = 5;
