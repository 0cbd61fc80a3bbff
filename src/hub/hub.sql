-- A Benchwalk hub: the place in a PostgreSQL database (13 or newer) that laptops share seasons at.
--
--   createdb --encoding=UTF8 --template=template0 greenhouse
--   benchwalk share hub-sql | psql --dbname=greenhouse
--
-- The owner of the database runs it once, with the right to make roles (CREATEROLE). All of it is done, or nothing.
-- The program never needs the owner's rights: laptops use logins of their own, see the end.
--
-- What lies here: the lines of seasons, in the order in which each laptop wrote them (a stream). A line is written once and never
-- changed or removed, not by its owner either. Laptops add lines with the function push and in no other way.

\set ON_ERROR_STOP on
BEGIN;

DO $$
BEGIN
  IF to_regnamespace('benchwalk') IS NOT NULL THEN
    RAISE EXCEPTION 'this database has a schema benchwalk already; nothing was changed'
      USING HINT = 'If it is a hub, SELECT * FROM benchwalk.about shows its format, and there is nothing to do.';
  END IF;
  IF current_setting('server_version_num')::integer < 130000 THEN
    RAISE EXCEPTION 'this is PostgreSQL %; a hub needs 13 or newer', current_setting('server_version');
  END IF;
  IF current_setting('server_encoding') <> 'UTF8' THEN
    RAISE EXCEPTION 'this database has the encoding %; a hub needs UTF8', current_setting('server_encoding')
      USING HINT = 'createdb --encoding=UTF8 --template=template0 NAME makes one.';
  END IF;
  -- Roles belong to the whole server: a second hub on it uses the same one.
  IF to_regrole('bw_user') IS NULL THEN
    CREATE ROLE bw_user NOLOGIN;
  END IF;
END $$;

CREATE SCHEMA benchwalk;

-- The format rises only when the meaning of these tables changes; programs that know less then stop in words. least_program is advice.
CREATE TABLE benchwalk.about (
  one boolean PRIMARY KEY DEFAULT true CHECK (one),
  format integer NOT NULL,
  least_program text NOT NULL,
  made timestamptz NOT NULL DEFAULT now()
);
INSERT INTO benchwalk.about (format, least_program) VALUES (1, '0.1.0');

CREATE TABLE benchwalk.season (
  season uuid PRIMARY KEY,
  name text NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
  made timestamptz NOT NULL DEFAULT now(),
  made_by name NOT NULL DEFAULT session_user
);

-- Who may read a season, or read and write it. A role is a login, or a group: then every login in it.
CREATE TABLE benchwalk.member (
  season uuid NOT NULL REFERENCES benchwalk.season,
  role name NOT NULL,
  may text NOT NULL CHECK (may IN ('read', 'write')),
  PRIMARY KEY (season, role)
);

-- The lines of one laptop; last and chain are those of its last line here.
CREATE TABLE benchwalk.stream (
  stream uuid PRIMARY KEY,
  season uuid NOT NULL REFERENCES benchwalk.season,
  last bigint NOT NULL DEFAULT 0,
  chain bytea NOT NULL DEFAULT '',
  laptop text CHECK (length(laptop) <= 100),       -- as it calls itself
  begun_by name NOT NULL DEFAULT session_user,     -- the login that brought its first lines
  program text CHECK (length(program) <= 100),     -- the program that brought its last lines
  seen timestamptz,                                -- when they arrived
  clock_off interval                               -- the clock of the laptop that brought them less this server's
);
CREATE INDEX stream_season ON benchwalk.stream (season);

-- Line n of a stream can only be written by a transaction that holds the row of its stream, after line n - 1 was committed. So a
-- reader that sees a line sees all before it, and "everything after n" misses nothing.
CREATE TABLE benchwalk.line (
  stream uuid NOT NULL REFERENCES benchwalk.stream,
  n bigint NOT NULL CHECK (n > 0),
  chain bytea NOT NULL CHECK (length(chain) = 16),
  body text NOT NULL CHECK (length(body) <= 1000000),
  taken timestamptz NOT NULL DEFAULT now(),        -- when it arrived
  taken_from name NOT NULL DEFAULT session_user,   -- the login that brought it
  PRIMARY KEY (stream, n)
);

CREATE FUNCTION benchwalk.frozen() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'lines are written once and never changed or removed';
END $$;
CREATE TRIGGER line_frozen BEFORE UPDATE OR DELETE ON benchwalk.line FOR EACH ROW EXECUTE FUNCTION benchwalk.frozen();
CREATE TRIGGER line_kept BEFORE TRUNCATE ON benchwalk.line FOR EACH STATEMENT EXECUTE FUNCTION benchwalk.frozen();

-- Whether the login of this connection may read a season, or write it.
CREATE FUNCTION benchwalk.may(p_season uuid, p_write boolean) RETURNS boolean
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = benchwalk, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM member m JOIN pg_roles r ON r.rolname = m.role
    WHERE m.season = p_season AND (m.may = 'write' OR NOT p_write) AND pg_has_role(session_user, r.oid, 'member'))
$$;

-- The seasons that it may read, and whether it may write them.
CREATE FUNCTION benchwalk.mine() RETURNS TABLE (season uuid, may_write boolean)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = benchwalk, pg_temp AS $$
  SELECT m.season, bool_or(m.may = 'write') FROM member m JOIN pg_roles r ON r.rolname = m.role
  WHERE pg_has_role(session_user, r.oid, 'member') GROUP BY m.season
$$;

-- Makes a place for a season; nothing where there is one. Members that may write are the group that the login is in, where it is
-- in exactly one group of Benchwalk, so that the laptops of one business share what any of them begins; otherwise the login alone.
CREATE FUNCTION benchwalk.begin_season(p_season uuid, p_name text) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = benchwalk, pg_temp AS $$
DECLARE groups name[];
BEGIN
  INSERT INTO season (season, name) VALUES (p_season, p_name) ON CONFLICT DO NOTHING;
  IF FOUND THEN
    SELECT array_agg(DISTINCT g.rolname) INTO groups
      FROM pg_auth_members a JOIN pg_roles u ON u.oid = a.member JOIN pg_roles g ON g.oid = a.roleid
      WHERE u.rolname = session_user AND NOT g.rolcanlogin AND g.rolname <> 'bw_user' AND pg_has_role(g.oid, 'bw_user', 'member');
    INSERT INTO member (season, role, may)
      VALUES (p_season, CASE WHEN cardinality(groups) = 1 THEN groups[1] ELSE session_user END, 'write');
  ELSIF NOT may(p_season, false) THEN
    RAISE EXCEPTION 'role % may not read season %', session_user, p_season USING ERRCODE = '42501';
  END IF;
END $$;

-- Lines of a stream after a number; none where the stream may not be read. (A question to the table line asks for every season that
-- may be read; this one asks only once for the stream.)
CREATE FUNCTION benchwalk.lines(p_stream uuid, p_after bigint, p_most integer) RETURNS TABLE (n bigint, chain bytea, body text)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = benchwalk, pg_temp AS $$
#variable_conflict use_column
BEGIN
  IF EXISTS (SELECT FROM stream s WHERE s.stream = p_stream AND may(s.season, false)) THEN
    RETURN QUERY SELECT l.n, l.chain, l.body FROM line l WHERE l.stream = p_stream AND l.n > p_after ORDER BY l.n LIMIT p_most;
  END IF;
END $$;

-- Compare and append: lines are added only to the end of a stream, and only where the writer knows that end. Anything else changes
-- nothing and gives the end as it is. Where the answer is lost, asking again finds the lines there.
CREATE FUNCTION benchwalk.push(
  p_season uuid, p_stream uuid, p_laptop text, p_after bigint, p_before bytea, p_chains bytea[], p_bodies text[],
  p_program text, p_clock timestamptz)
RETURNS TABLE (taken boolean, last bigint, chain bytea)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = benchwalk, pg_temp AS $$
#variable_conflict use_column
DECLARE
  s stream;
  many integer := coalesce(cardinality(p_bodies), 0);
BEGIN
  IF NOT may(p_season, true) THEN
    RAISE EXCEPTION 'role % may not write season %', session_user, p_season USING ERRCODE = '42501';
  END IF;
  INSERT INTO stream (stream, season) VALUES (p_stream, p_season) ON CONFLICT DO NOTHING;
  SELECT * INTO s FROM stream WHERE stream.stream = p_stream FOR UPDATE;
  IF s.season <> p_season THEN
    RAISE EXCEPTION 'stream % belongs to another season', p_stream USING ERRCODE = '22023';
  END IF;
  IF s.last <> p_after OR s.chain <> p_before OR many = 0 OR many <> cardinality(p_chains) THEN
    RETURN QUERY SELECT false, s.last, s.chain;
    RETURN;
  END IF;
  -- Each chain is the first half of the hash of the chain before it and of its line. One that is wrong could never be taken back.
  IF EXISTS (
    SELECT FROM (
      SELECT u.chain, u.body, lag(u.chain, 1, p_before) OVER (ORDER BY u.i) AS before
      FROM unnest(p_chains, p_bodies) WITH ORDINALITY AS u (chain, body, i)) l
    WHERE l.chain IS DISTINCT FROM substr(sha256(l.before || convert_to(l.body, 'UTF8')), 1, 16))
  THEN
    RAISE EXCEPTION 'lines after % of stream % do not fit their chain', p_after, p_stream USING ERRCODE = '22023';
  END IF;
  INSERT INTO line (stream, n, chain, body)
    SELECT p_stream, p_after + u.i, u.chain, u.body FROM unnest(p_chains, p_bodies) WITH ORDINALITY AS u (chain, body, i);
  UPDATE stream SET last = p_after + many, chain = p_chains[many], laptop = coalesce(p_laptop, laptop), program = p_program,
    seen = clock_timestamp(), clock_off = p_clock - clock_timestamp() WHERE stream.stream = p_stream;
  RETURN QUERY SELECT true, p_after + many, p_chains[many];
END $$;

-- Everybody sees the seasons that they are members of, and nothing of others. Nobody writes but with the functions.
ALTER TABLE benchwalk.season ENABLE ROW LEVEL SECURITY;
ALTER TABLE benchwalk.member ENABLE ROW LEVEL SECURITY;
ALTER TABLE benchwalk.stream ENABLE ROW LEVEL SECURITY;
ALTER TABLE benchwalk.line ENABLE ROW LEVEL SECURITY;
CREATE POLICY season_seen ON benchwalk.season FOR SELECT USING (season IN (SELECT m.season FROM benchwalk.mine() m));
CREATE POLICY member_seen ON benchwalk.member FOR SELECT USING (season IN (SELECT m.season FROM benchwalk.mine() m));
CREATE POLICY stream_seen ON benchwalk.stream FOR SELECT USING (season IN (SELECT m.season FROM benchwalk.mine() m));
CREATE POLICY line_seen ON benchwalk.line FOR SELECT USING (stream IN (SELECT s.stream FROM benchwalk.stream s));
REVOKE ALL ON ALL FUNCTIONS IN SCHEMA benchwalk FROM PUBLIC;
GRANT USAGE ON SCHEMA benchwalk TO bw_user;
GRANT SELECT ON benchwalk.about, benchwalk.season, benchwalk.member, benchwalk.stream, benchwalk.line TO bw_user;
GRANT EXECUTE ON FUNCTION benchwalk.may, benchwalk.mine, benchwalk.begin_season, benchwalk.lines, benchwalk.push TO bw_user;

COMMIT;

-- THE KEEPER'S WORK. Names in capitals are yours to choose; write them in small letters. No password stands here: psql asks for
-- it, and each laptop keeps its own in its password file (benchwalk help share).
--
-- Laptops that share all their seasons are a group, made once:
--   CREATE ROLE BUSINESS NOLOGIN;
--   GRANT bw_user TO BUSINESS;
-- A laptop, or the person who uses it, is a login in that group:
--   CREATE ROLE LAPTOP LOGIN;
--   GRANT BUSINESS TO LAPTOP;
--   \password LAPTOP
-- What one of them begins with 'benchwalk share on', all of them may read and write. A login of no group: GRANT bw_user TO LAPTOP;
-- the seasons that it begins are its own.
--
-- Others that may read a season ('write': and write it), a login of no group or another group:
--   INSERT INTO benchwalk.member (season, role, may) SELECT season, 'OTHER', 'read' FROM benchwalk.season WHERE name = 'SITE';
-- and no longer:
--   DELETE FROM benchwalk.member WHERE role = 'OTHER';
--
-- A laptop was lost or sold: its login ends, and so do its connections. What it brought stays; the login is kept (not dropped), so
-- that a later one of the same name is not taken for it. Its own name in the settings is free for another laptop at once.
--   ALTER ROLE LAPTOP NOLOGIN;
--   SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = 'LAPTOP';
-- What arrived from it last; what it wrote after that was not sent:
--   SELECT laptop, last, seen FROM benchwalk.stream WHERE begun_by = 'LAPTOP';
--
-- Who brought what, and when:
--   SELECT taken, taken_from, body FROM benchwalk.line ORDER BY taken DESC LIMIT 20;
-- A backup is pg_dump of this database. One that is put back may be older than the laptops: their next exchange gives it what it lacks.
