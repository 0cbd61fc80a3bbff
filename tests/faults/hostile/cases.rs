//! Season files made to harm, as SQL on the demo season.

/// A season file made to harm.
pub(super) struct Case {
    pub name: &'static str,
    /// What is done to the demo season, with the file's own checks off.
    pub sql: String,
    /// A query of one number that is over 0 where the file was made.
    pub made: String,
    /// The triggers of the file are taken off first, or every change would be refused.
    pub without_triggers: bool,
    /// `entry` is no table, and what was saved cannot be looked for in it.
    pub no_entries: bool,
}

impl Case {
    /// False where missing or foreign triggers are what the case is about.
    pub(super) fn may_have_triggers_back(&self) -> bool {
        !["no triggers", "inserts are taken out again"].contains(&self.name)
    }
}

/// Numbers without end.
const FOREVER: &str = "WITH RECURSIVE f(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM f)";
/// Sets the title of the window, clears the screen and colors what follows, by the sequence in seven and in eight bits.
const ESC: &str = "\u{1b}]0;pwned\u{7}\u{1b}[2J\u{9b}31m";
const MARKUP: &str = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>";

/// Text as SQL.
fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "''"))
}

/// A note after the last water score of the season.
fn note(fields: &str, text: &str) -> String {
    format!(
        "INSERT INTO entry (id, bench, day, instant, utc_offset, author, kind, fields, note)
         SELECT randomblob(16), 'M1', day, instant + 1, utc_offset, 'zz', 14, {fields}, {text}
         FROM entry WHERE kind = 1 ORDER BY instant DESC LIMIT 1;"
    )
}

fn case(name: &'static str, sql: impl Into<String>, made: impl Into<String>) -> Case {
    let (sql, made) = (sql.into(), made.into());
    Case { name, sql, made, without_triggers: false, no_entries: false }
}

/// A case whose changes the file's triggers would refuse.
fn forced(name: &'static str, sql: impl Into<String>, made: impl Into<String>) -> Case {
    Case { without_triggers: true, ..case(name, sql, made) }
}

const IS_VIEW: &str = "SELECT count(*) FROM sqlite_schema WHERE type = 'view' AND name = ";
const IS_TRIGGER: &str = "SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND name = ";

/// Every case.
pub(super) fn all() -> Vec<Case> {
    let mut all = schema();
    all.extend(text());
    all.extend(trials());
    all.extend(values());
    all.extend(rows());
    all
}

/// Tables, views and triggers that are not ours.
fn schema() -> Vec<Case> {
    let columns = "'M1' AS bench, NULL AS house, NULL AS lot, NULL AS plot, 20000 AS day, 1728000000 AS instant, \
                   0 AS utc_offset, 'zz' AS author, 1 AS kind, NULL AS strikes, '{\"level\":3}' AS fields, NULL AS note";
    vec![
        case("as it is", "", "SELECT count(*) FROM entry"),
        Case {
            no_entries: true,
            ..case(
                "entry is a view that never ends",
                format!(
                    "ALTER TABLE entry RENAME TO e;
                     CREATE VIEW entry AS {FOREVER} SELECT x AS seq, randomblob(16) AS id, {columns} FROM f;"
                ),
                format!("{IS_VIEW}'entry'"),
            )
        },
        Case {
            no_entries: true,
            ..case(
                "entry is a view without rows that never ends",
                format!(
                    "ALTER TABLE entry RENAME TO e;
                     CREATE VIEW entry AS {FOREVER} SELECT x AS seq, NULL AS id, {columns} FROM f WHERE x < 0;"
                ),
                format!("{IS_VIEW}'entry'"),
            )
        },
        case(
            "site_line is a view that never ends",
            format!(
                "ALTER TABLE site_line RENAME TO sl;
                 CREATE VIEW site_line AS {FOREVER} SELECT s.* FROM sl AS s, f WHERE f.x < 0;"
            ),
            format!("{IS_VIEW}'site_line'"),
        ),
        case(
            "an extra view that never ends, not asked for",
            format!("CREATE VIEW extra AS {FOREVER} SELECT count(*) FROM f;"),
            format!("{IS_VIEW}'extra'"),
        ),
        case(
            "inserts never end",
            format!(
                "CREATE TRIGGER slow AFTER INSERT ON entry BEGIN SELECT count(*) FROM ({FOREVER} SELECT x FROM f); END;"
            ),
            format!("{IS_TRIGGER}'slow'"),
        ),
        case(
            "inserts are swallowed",
            "CREATE TRIGGER swallow BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END;",
            format!("{IS_TRIGGER}'swallow'"),
        ),
        forced(
            "inserts are taken out again",
            "CREATE TRIGGER out AFTER INSERT ON entry BEGIN DELETE FROM entry WHERE seq = NEW.seq; END;",
            format!("{IS_TRIGGER}'out'"),
        ),
        forced("no triggers", "", "SELECT count(*) = 0 FROM sqlite_schema WHERE type = 'trigger'"),
    ]
}

/// Text too long, too deep, or not for a terminal or a page.
fn text() -> Vec<Case> {
    let (esc, markup) = (quoted(ESC), quoted(MARKUP));
    let code = quoted(&format!("<b>{ESC}"));
    let start = quoted(&ESC.chars().take(6).collect::<String>());
    let codes = ["entry", "bench_line", "placement_line", "known_bench"]
        .map(|table| format!("UPDATE {table} SET bench = {code} WHERE bench = 'M1';"))
        .concat();
    vec![
        case(
            "a note of 30 MB",
            note("'{}'", "printf('%.*c', 30000000, 'x')"),
            "SELECT count(*) FROM entry WHERE length(note) = 30000000",
        ),
        case(
            "JSON 900 deep",
            note("json_object('x', json(printf('%.*c', 900, '[') || printf('%.*c', 900, ']')))", "'deep'"),
            "SELECT count(*) FROM entry WHERE length(fields) > 1800",
        ),
        forced(
            "escape sequences",
            format!(
                "{} UPDATE site_line SET name = 'S' || {esc}, emergency = {esc};
                 UPDATE lot_line SET cultivar = 'c' || {esc}, container = {esc};
                 UPDATE entry SET author = {start} WHERE seq % 50 = 0;",
                note("'{}'", &esc)
            ),
            format!(
                "SELECT (SELECT count(*) FROM site_line WHERE name LIKE '%pwned%' AND emergency = {esc})
                 * (SELECT count(*) FROM lot_line WHERE container = {esc})
                 * (SELECT count(*) FROM entry WHERE author = {start})
                 * (SELECT count(*) FROM entry WHERE note = {esc})"
            ),
        ),
        forced(
            "markup",
            format!(
                "{} UPDATE site_line SET name = {markup}; UPDATE lot_line SET cultivar = {markup};",
                note("'{}'", &markup)
            ),
            format!(
                "SELECT (SELECT count(*) FROM site_line WHERE name = {markup})
                 * (SELECT count(*) FROM lot_line WHERE cultivar = {markup})
                 * (SELECT count(*) FROM entry WHERE note = {markup})"
            ),
        ),
        forced(
            "codes with markup and escapes",
            codes,
            format!(
                "SELECT (SELECT count(*) FROM entry WHERE bench = {code})
                 * (SELECT count(*) FROM bench_line WHERE bench = {code})
                 * (SELECT count(*) FROM placement_line WHERE bench = {code})
                 * (SELECT count(*) FROM known_bench WHERE bench = {code})"
            ),
        ),
    ]
}

/// A trial whose texts, numbers and places are not what they should be.
fn trials() -> Vec<Case> {
    let (esc, markup) = (quoted(ESC), quoted(MARKUP));
    vec![
        forced(
            "a trial with markup and escapes",
            format!(
                "UPDATE trial_line SET question = {markup}, treatments = json_array({esc}, {markup}), near_side = {esc},
                 far_side = {markup}, rate_unit = {esc}, ended_because = {markup};
                 UPDATE plot_line SET treatment = {esc};"
            ),
            format!(
                "SELECT (SELECT count(*) FROM trial_line WHERE question = {markup} AND near_side = {esc})
                 * (SELECT count(*) FROM plot_line WHERE treatment = {esc})"
            ),
        ),
        forced(
            "a trial with numbers and days out of range",
            "UPDATE trial_line SET every_days = 0, from_day = '0001-01-01', until_day = '9999-12-31', matters = 9e999,
             rates = '[1e308,-1e308,null,\"x\"]', seed = 'none', drawn = 9223372036854775807;
             UPDATE plot_line SET pots = 4294967295, bench_row = 4294967295, bench_column = 4294967295, block = 4294967295;",
            "SELECT (SELECT count(*) FROM trial_line WHERE every_days = 0 AND until_day = '9999-12-31')
             * (SELECT count(*) FROM plot_line WHERE pots = 4294967295)",
        ),
        forced(
            "all plots in one place, of treatments that are not there",
            "UPDATE plot_line SET bench_row = 1, bench_column = 1, treatment = 'none';
             UPDATE trial_line SET readings = '[]', treatments = '[]', until_day = NULL, every_days = NULL, from_day = '2026-09-29';",
            "SELECT (SELECT count(*) FROM plot_line WHERE treatment = 'none')
             * (SELECT count(*) FROM trial_line WHERE treatments = '[]')",
        ),
    ]
}

/// Numbers and days out of every range.
fn values() -> Vec<Case> {
    vec![
        forced(
            "numbers out of range",
            "UPDATE entry SET fields = '{\"level\":9223372036854775807}' WHERE seq = 5;
             UPDATE lot_line SET response_weeks = 9e999, rim_cm = -1e308, height_low_cm = 1e-320, pots = 4294967295;",
            "SELECT (SELECT count(*) FROM entry WHERE seq = 5 AND fields LIKE '%9223372036854775807%')
             * (SELECT count(*) FROM lot_line WHERE pots = 4294967295 AND response_weeks > 1e308)",
        ),
        forced(
            "water level 200",
            "UPDATE entry SET fields = json_set(fields, '$.level', 200) WHERE kind = 1;",
            "SELECT count(*) FROM entry WHERE kind = 1 AND json_extract(fields, '$.level') = 200",
        ),
        forced(
            "days far off",
            "UPDATE lot_line SET planted = '0001-06-13', ready_by = '9999-12-31';",
            "SELECT count(*) FROM lot_line WHERE planted = '0001-06-13' AND ready_by = '9999-12-31'",
        ),
        forced(
            "planted after sale by 200 years",
            "UPDATE lot_line SET planted = date(ready_by, '+200 years');",
            "SELECT count(*) FROM lot_line WHERE planted > '2200-01-01'",
        ),
        forced(
            "instants far off",
            "UPDATE entry SET instant = 8210266876799, day = 95026236 WHERE seq = 9;",
            "SELECT count(*) FROM entry WHERE seq = 9 AND instant = 8210266876799 AND day = 95026236",
        ),
        forced(
            "offset of 23:59",
            "UPDATE entry SET utc_offset = 1439 WHERE seq % 3 = 0;",
            "SELECT count(*) FROM entry WHERE utc_offset = 1439",
        ),
        forced(
            "latitude out of range",
            "UPDATE site_line SET latitude = 9e999, longitude = -1e300;",
            "SELECT count(*) FROM site_line WHERE latitude > 1e308 AND longitude = -1e300",
        ),
        forced(
            "at the pole",
            "UPDATE site_line SET latitude = 90, longitude = 180, time_zone = 'Pacific/Apia';",
            "SELECT count(*) FROM site_line WHERE latitude = 90 AND time_zone = 'Pacific/Apia'",
        ),
        forced(
            "orders of bench equal and huge",
            "UPDATE bench_line SET walk_order = 4294967295;",
            "SELECT count(*) FROM bench_line WHERE walk_order = 4294967295",
        ),
        forced(
            "rev huge",
            "UPDATE site_line SET rev = 9223372036854775807;",
            "SELECT count(*) FROM site_line WHERE rev = 9223372036854775807",
        ),
        forced(
            "rev at the end",
            "UPDATE site_line SET rev = 4294967295;",
            "SELECT count(*) FROM site_line WHERE rev = 4294967295",
        ),
    ]
}

/// Rows too many, missing, or of nothing that is there.
fn rows() -> Vec<Case> {
    vec![
        case(
            "seq at the end",
            "INSERT INTO entry (seq, id, bench, day, instant, utc_offset, author, kind, fields)
             SELECT 9223372036854775807, randomblob(16), 'M1', day, instant + 1, utc_offset, 'zz', 1, '{\"level\":3}'
             FROM entry WHERE kind = 1 ORDER BY instant DESC LIMIT 1;",
            "SELECT count(*) FROM entry WHERE seq = 9223372036854775807",
        ),
        forced(
            "a strike of a strike",
            "INSERT INTO entry (id, bench, day, instant, utc_offset, author, kind, strikes, fields)
             SELECT randomblob(16), bench, day, instant + 1, utc_offset, 'zz', 45, id,
             json_object('entry', lower(printf('%s-%s-%s-%s-%s', substr(hex(id), 1, 8), substr(hex(id), 9, 4),
             substr(hex(id), 13, 4), substr(hex(id), 17, 4), substr(hex(id), 21))), 'why', 'x')
             FROM entry WHERE kind = 45 LIMIT 1;",
            "SELECT count(*) FROM entry AS s JOIN entry AS e ON s.strikes = e.id WHERE s.kind = 45 AND e.kind = 45",
        ),
        forced(
            "no rows at all",
            "DELETE FROM entry; DELETE FROM placement_line; DELETE FROM order_line; DELETE FROM bench_line;
             DELETE FROM lot_line; DELETE FROM site_line;",
            "SELECT (SELECT count(*) FROM entry) + (SELECT count(*) FROM lot_line) + (SELECT count(*) FROM site_line) = 0",
        ),
        forced("no site", "DELETE FROM site_line;", "SELECT count(*) = 0 FROM site_line"),
        forced(
            "foreign keys broken",
            "DELETE FROM known_bench; DELETE FROM known_lot;",
            "SELECT (SELECT count(*) FROM known_bench) + (SELECT count(*) FROM known_lot) = 0",
        ),
        forced(
            "placement of an unknown lot",
            "UPDATE placement_line SET lot = 'ZZ';",
            "SELECT count(*) FROM placement_line WHERE lot = 'ZZ'",
        ),
    ]
}
