-- Benchwalk season file, version 4. Released: never edited again; a change is a new file beside it.
--
-- Adds what became of the jobs that were listed for a day.
INSERT INTO kind (number, name) VALUES (46, 'job');

CREATE VIEW job AS
SELECT day, at_time, bench, house, lot, author, json_extract(fields, '$.step') AS step,
  json_extract(fields, '$.listed_for') AS listed_for, json_extract(fields, '$.outcome') AS outcome,
  json_extract(fields, '$.why') AS why, note, id
FROM current WHERE kind_number = 46;
