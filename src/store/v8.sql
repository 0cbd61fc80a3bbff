-- Benchwalk season file, version 8. Released: never edited again; a change is a new file beside it.
--
-- What the tables stream, own and log of version 2 need to keep a season on several laptops. A row of the log with state 0 counts,
-- with state 1 it is held as text because it was not understood, with state 2 its id is known here with other content. The text
-- of a row that names an entry is made of that entry.
CREATE INDEX log_entry ON log (entry) WHERE entry IS NOT NULL;
CREATE INDEX log_text ON log (line) WHERE line IS NOT NULL;
CREATE INDEX log_held ON log (stream, n) WHERE state = 1;

-- Own streams that do not go on, as in a backup. The newest row of `own` is the stream that is written, unless it is here.
CREATE TABLE own_ended (number INTEGER NOT NULL PRIMARY KEY REFERENCES own (number)) STRICT;

-- Lines of the own stream that another stream had brought before: they were written on another laptop.
CREATE TABLE log_again (
  stream INTEGER NOT NULL,
  n INTEGER NOT NULL,
  PRIMARY KEY (stream, n),
  FOREIGN KEY (stream, n) REFERENCES log (stream, n)
) STRICT, WITHOUT ROWID;

-- Lines held as text (state 1) that a newer program has understood since: they stand in their tables.
CREATE TABLE log_understood (
  stream INTEGER NOT NULL,
  n INTEGER NOT NULL,
  PRIMARY KEY (stream, n),
  FOREIGN KEY (stream, n) REFERENCES log (stream, n)
) STRICT, WITHOUT ROWID;

-- Which programs tried to understand how many held lines.
CREATE TABLE log_tried (
  program TEXT NOT NULL,
  held INTEGER NOT NULL CHECK (held >= 0),
  PRIMARY KEY (program, held)
) STRICT, WITHOUT ROWID;

-- Lines whose id is known here with other content: an entry, or a line of the plan by its type. Of all lines of one id the one
-- whose text is least in bytes counts, on every laptop the same.
CREATE TABLE other_content (
  record TEXT NOT NULL,
  id BLOB NOT NULL CHECK (length(id) = 16),
  line TEXT NOT NULL,
  PRIMARY KEY (record, id, line)
) STRICT, WITHOUT ROWID;

-- One row where the file is a mirror: it only takes what lies in a folder or on a hub, and nothing is typed into it.
CREATE TABLE mirror (one INTEGER NOT NULL PRIMARY KEY CHECK (one = 1)) STRICT;

CREATE TRIGGER own_ended_no_update BEFORE UPDATE ON own_ended BEGIN SELECT RAISE(ABORT, 'own_ended: written once, never changed'); END;
CREATE TRIGGER own_ended_no_delete BEFORE DELETE ON own_ended BEGIN SELECT RAISE(ABORT, 'own_ended: written once, never removed'); END;
CREATE TRIGGER own_ended_no_replace BEFORE INSERT ON own_ended WHEN EXISTS (SELECT 1 FROM own_ended WHERE number = NEW.number)
BEGIN SELECT RAISE(ABORT, 'own_ended: written once, never replaced'); END;
CREATE TRIGGER log_again_no_update BEFORE UPDATE ON log_again BEGIN SELECT RAISE(ABORT, 'log_again: written once, never changed'); END;
CREATE TRIGGER log_again_no_delete BEFORE DELETE ON log_again BEGIN SELECT RAISE(ABORT, 'log_again: written once, never removed'); END;
CREATE TRIGGER log_again_no_replace BEFORE INSERT ON log_again WHEN EXISTS (SELECT 1 FROM log_again WHERE stream = NEW.stream AND n = NEW.n)
BEGIN SELECT RAISE(ABORT, 'log_again: written once, never replaced'); END;
CREATE TRIGGER log_understood_no_update BEFORE UPDATE ON log_understood BEGIN SELECT RAISE(ABORT, 'log_understood: written once, never changed'); END;
CREATE TRIGGER log_understood_no_delete BEFORE DELETE ON log_understood BEGIN SELECT RAISE(ABORT, 'log_understood: written once, never removed'); END;
CREATE TRIGGER log_understood_no_replace BEFORE INSERT ON log_understood WHEN EXISTS (SELECT 1 FROM log_understood WHERE stream = NEW.stream AND n = NEW.n)
BEGIN SELECT RAISE(ABORT, 'log_understood: written once, never replaced'); END;
CREATE TRIGGER log_tried_no_update BEFORE UPDATE ON log_tried BEGIN SELECT RAISE(ABORT, 'log_tried: written once, never changed'); END;
CREATE TRIGGER log_tried_no_delete BEFORE DELETE ON log_tried BEGIN SELECT RAISE(ABORT, 'log_tried: written once, never removed'); END;
CREATE TRIGGER log_tried_no_replace BEFORE INSERT ON log_tried WHEN EXISTS (SELECT 1 FROM log_tried WHERE program = NEW.program AND held = NEW.held)
BEGIN SELECT RAISE(ABORT, 'log_tried: written once, never replaced'); END;
CREATE TRIGGER other_content_no_update BEFORE UPDATE ON other_content BEGIN SELECT RAISE(ABORT, 'other_content: written once, never changed'); END;
CREATE TRIGGER other_content_no_delete BEFORE DELETE ON other_content BEGIN SELECT RAISE(ABORT, 'other_content: written once, never removed'); END;
CREATE TRIGGER other_content_no_replace BEFORE INSERT ON other_content WHEN EXISTS (SELECT 1 FROM other_content WHERE record = NEW.record AND id = NEW.id AND line = NEW.line)
BEGIN SELECT RAISE(ABORT, 'other_content: written once, never replaced'); END;
CREATE TRIGGER mirror_no_update BEFORE UPDATE ON mirror BEGIN SELECT RAISE(ABORT, 'mirror: written once, never changed'); END;
CREATE TRIGGER mirror_no_delete BEFORE DELETE ON mirror BEGIN SELECT RAISE(ABORT, 'mirror: written once, never removed'); END;
CREATE TRIGGER mirror_no_replace BEFORE INSERT ON mirror WHEN EXISTS (SELECT 1 FROM mirror WHERE one = NEW.one)
BEGIN SELECT RAISE(ABORT, 'mirror: written once, never replaced'); END;
