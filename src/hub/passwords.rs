//! Passwords: the variable and the file that every PostgreSQL client reads.

use super::Surroundings;
use super::words::{FILE_MOST, can_be_read_by_others, plain, wrong};
use crate::exchange::CarrierError;
use crate::files;
use std::io::ErrorKind;
use std::path::PathBuf;

/// Whom a password is for.
pub(super) struct For<'a> {
    /// The host; for a socket its folder, or `localhost` where that is the usual one.
    pub(super) host: &'a str,
    pub(super) port: u16,
    pub(super) database: &'a str,
    pub(super) role: &'a str,
}

/// What was found, and where to look when it is not taken.
pub(super) struct Found {
    pub(super) password: Option<String>,
    pub(super) look_at: String,
}

/// The password in the variable, else in the file: that of the first line which fits.
pub(super) fn find(
    whom: &For<'_>,
    of_service: Option<&str>,
    file: Option<PathBuf>,
    around: &Surroundings,
) -> Result<Found, CarrierError> {
    if let Some(password) = of_service {
        return Ok(Found { password: Some(password.to_owned()), look_at: "password in the service file".to_owned() });
    }
    if let Some(password) = around.text("PGPASSWORD") {
        return Ok(Found { password: Some(password), look_at: "the variable PGPASSWORD".to_owned() });
    }
    let file = file.or_else(|| around.path("PGPASSFILE")).or_else(|| around.own_file(".pgpass", "pgpass.conf"));
    let Some(file) = file else { return Ok(Found { password: None, look_at: "the password file".to_owned() }) };
    let shown = around.shown(&file);
    let line = [whom.host, &whom.port.to_string(), whom.database, whom.role].map(escaped).join(":");
    let look_at = format!("the line for {line} in {shown}");
    let text = match files::text(&file, FILE_MOST, files::FILE) {
        Ok(text) => text,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Found { password: None, look_at }),
        Err(error) => return Err(wrong(&format!("the password file {shown} cannot be read: {}", plain(&error)))),
    };
    if can_be_read_by_others(&file) {
        return Err(wrong(&format!("others can read the password file {shown}; run: chmod 600 {shown}")));
    }
    Ok(Found { password: text.lines().find_map(|line| password_for(whom, line)), look_at })
}

fn password_for(whom: &For<'_>, line: &str) -> Option<String> {
    if line.starts_with('#') {
        return None;
    }
    let port = whom.port.to_string();
    let mut rest = line;
    for asked in [whom.host, &port, whom.database, whom.role] {
        let (field, after) = field(rest)?;
        if field != "*" && unescaped(field) != asked {
            return None;
        }
        rest = after;
    }
    Some(unescaped(field(rest).map_or(rest, |(password, _)| password)))
}

/// What stands before the next colon that no backslash precedes, and what stands after it.
fn field(line: &str) -> Option<(&str, &str)> {
    let mut escaped = false;
    for (at, c) in line.char_indices() {
        match c {
            ':' if !escaped => return Some((line.get(..at)?, line.get(at + 1..)?)),
            c => escaped = c == '\\' && !escaped,
        }
    }
    None
}

fn unescaped(text: &str) -> String {
    let mut left = text.chars();
    let mut plain = String::new();
    while let Some(c) = left.next() {
        plain.push(if c == '\\' { left.next().unwrap_or(c) } else { c });
    }
    plain
}

fn escaped(text: &str) -> String {
    crate::characters::in_one_line(text).replace('\\', "\\\\").replace(':', "\\:")
}

#[cfg(test)]
mod tests {
    use super::*;

    const ANN: For<'_> = For { host: "localhost", port: 5432, database: "green", role: "ann" };

    #[test]
    fn the_first_line_that_fits_is_taken() {
        for (line, found) in [
            ("localhost:5432:green:ann:made-up", Some("made-up")),
            ("*:*:*:ann:made-up", Some("made-up")),
            ("localhost:5432:green:bob:made-up", None),
            ("localhost:5433:green:ann:made-up", None),
            ("# localhost:5432:green:ann:made-up", None),
            ("localhost:5432:green:ann:with\\:colon\\\\and more:rest", Some("with:colon\\and more")),
            ("localhost:5432:green:ann:", Some("")),
            ("localhost:5432:green", None),
            ("", None),
        ] {
            assert_eq!(password_for(&ANN, line).as_deref(), found, "{line}");
        }
        let odd = For { host: "/tmp/a:b", database: "c\\d", ..ANN };
        assert_eq!(password_for(&odd, "/tmp/a\\:b:*:c\\\\d:ann:x").as_deref(), Some("x"));
        assert_eq!(escaped("/tmp/a:b"), "/tmp/a\\:b");
    }

    #[cfg(unix)]
    #[test]
    fn the_variable_goes_before_the_file_which_only_its_owner_may_read() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(".pgpass");
        let home = || ("HOME", folder.path().as_os_str().to_owned());
        let found = |around: &Surroundings| {
            find(&ANN, None, None, around)
                .map(|found| (found.password, found.look_at))
                .map_err(|error| error.to_string())
        };
        let line = "the line for localhost:5432:green:ann in ~/.pgpass".to_owned();
        assert_eq!(found(&Surroundings::of([home()])), Ok((None, line.clone())));
        std::fs::write(&file, "*:*:*:bob:other\r\nlocalhost:*:*:ann:made-up\r\n*:*:*:*:late\n").unwrap();
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o640)).unwrap();
        assert_eq!(
            found(&Surroundings::of([home()])).unwrap_err(),
            "others can read the password file ~/.pgpass; run: chmod 600 ~/.pgpass"
        );
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o600)).unwrap();
        assert_eq!(found(&Surroundings::of([home()])), Ok((Some("made-up".to_owned()), line)));
        let around = Surroundings::of([home(), ("PGPASSWORD", "typed".into())]);
        assert_eq!(found(&around), Ok((Some("typed".to_owned()), "the variable PGPASSWORD".to_owned())));
        let other = folder.path().join("other");
        std::fs::write(&other, "*:*:*:*:of the other").unwrap();
        std::fs::set_permissions(&other, std::fs::Permissions::from_mode(0o600)).unwrap();
        let around = Surroundings::of([home(), ("PGPASSFILE", other.into())]);
        assert_eq!(found(&around).unwrap().0.as_deref(), Some("of the other"));
    }
}
