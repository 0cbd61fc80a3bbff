//! Key words of a PostgreSQL client, as they stand in the settings and in service files.

use super::Surroundings;
use crate::exchange::CarrierError;
use crate::files;
use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::PathBuf;

/// Key words that are used.
const USED: [&str; 14] = [
    "application_name",
    "channel_binding",
    "connect_timeout",
    "dbname",
    "host",
    "hostaddr",
    "options",
    "passfile",
    "password",
    "port",
    "sslmode",
    "sslrootcert",
    "target_session_attrs",
    "user",
];

/// Key words that are passed over: without them nothing is less safe, and the program does what most of them ask for anyway.
const PASSED_OVER: [&str; 15] = [
    "client_encoding",
    "fallback_application_name",
    "gssdelegation",
    "gssencmode",
    "gsslib",
    "keepalives",
    "keepalives_count",
    "keepalives_idle",
    "keepalives_interval",
    "krbsrvname",
    "load_balance_hosts",
    "ssl_max_protocol_version",
    "sslcompression",
    "sslsni",
    "tcp_user_timeout",
];

/// Where Debian's PostgreSQL keeps the service file of all users.
const SYSTEM_FOLDER: &str = "/etc/postgresql-common";

/// The largest service or password file read.
pub(super) const FILE_MOST: u64 = files::SETTINGS_MOST;

/// Key words by name, and what they came from.
#[derive(Default)]
pub(super) struct Words {
    given: BTreeMap<String, String>,
    /// The service whose key words are among them.
    pub(super) service: Option<String>,
}

impl Words {
    /// Reads key words such as `service=benchwalk` or `host=localhost dbname=greenhouse`; those of a service are filled in.
    /// A single name without `=` is that of a service.
    pub(super) fn read(text: &str, around: &Surroundings) -> Result<Self, CarrierError> {
        let text = text.trim();
        if text.contains("://") {
            return Err(wrong("write key words, such as service=benchwalk, not a link"));
        }
        let mut given =
            if text.contains('=') { pairs(text)? } else { BTreeMap::from([("service".into(), text.into())]) };
        if given.contains_key("password") {
            return Err(wrong("a password does not belong here; it belongs in the password file (~/.pgpass)"));
        }
        let service = given.remove("service").filter(|name| !name.is_empty()).or_else(|| around.text("PGSERVICE"));
        let mut words = Self { given, service };
        if let Some(name) = words.service.clone() {
            for (key, value) in service_of(&name, around)? {
                words.given.entry(key).or_insert(value);
            }
        }
        if let Some(key) = words.given.keys().find(|key| !USED.contains(&key.as_str()) && !is_passed_over(key)) {
            return Err(wrong(&format!(
                "'{}' in {} is not a key word that is known here; known: {}",
                crate::characters::in_one_line(key),
                words.from(),
                USED.iter().filter(|key| **key != "password").copied().collect::<Vec<_>>().join(", ")
            )));
        }
        Ok(words)
    }

    /// A key word, or the variable that stands for it; empty is as good as none.
    pub(super) fn get(&self, key: &str, variable: &str, around: &Surroundings) -> Option<String> {
        self.given.get(key).filter(|value| !value.is_empty()).cloned().or_else(|| around.text(variable))
    }

    /// A key word for which no variable stands.
    pub(super) fn own(&self, key: &str) -> Option<&str> {
        self.given.get(key).map(String::as_str).filter(|value| !value.is_empty())
    }

    /// What is to be changed to change a key word.
    pub(super) fn from(&self) -> String {
        match &self.service {
            Some(name) => format!("the service '{}'", crate::characters::in_one_line(name)),
            None => "the line 'hub' of config.toml".to_owned(),
        }
    }
}

fn is_passed_over(key: &str) -> bool {
    PASSED_OVER.contains(&key)
}

pub(super) fn wrong(what: &str) -> CarrierError {
    CarrierError::Service(what.to_owned())
}

/// `key=value` pairs; a value with blanks stands in single quotes, and a backslash takes the next character as it is.
fn pairs(text: &str) -> Result<BTreeMap<String, String>, CarrierError> {
    let mut pairs = BTreeMap::new();
    let mut rest = text.trim_start();
    while !rest.is_empty() {
        let (key, after) = rest.split_once('=').ok_or_else(|| {
            wrong(&format!("'{}' has no value; write key words as key=value", crate::characters::short(rest, 40)))
        })?;
        let key = key.trim();
        if key.is_empty() || key.contains(char::is_whitespace) {
            return Err(wrong(&format!(
                "'{}' is no key word; write key=value, and values with blanks in single quotes",
                crate::characters::short(key, 40)
            )));
        }
        let (value, after) = value(after.trim_start()).ok_or_else(|| {
            wrong(&format!("the value of {} has no closing quote", crate::characters::in_one_line(key)))
        })?;
        pairs.insert(key.to_owned(), value);
        rest = after.trim_start();
    }
    Ok(pairs)
}

/// A value, and what follows it; `None` where a quote is not closed.
fn value(text: &str) -> Option<(String, &str)> {
    let quoted = text.starts_with('\'');
    let mut value = String::new();
    let mut left = text.char_indices().skip(usize::from(quoted));
    while let Some((at, c)) = left.next() {
        match c {
            '\\' => value.extend(left.next().map(|(_, c)| c)),
            '\'' if quoted => return text.get(at + 1..).map(|rest| (value, rest)),
            c if c.is_whitespace() && !quoted => return text.get(at..).map(|rest| (value, rest)),
            c => value.push(c),
        }
    }
    (!quoted).then_some((value, ""))
}

/// The key words of a service: of the user's service file, then of the machine's.
fn service_of(name: &str, around: &Surroundings) -> Result<BTreeMap<String, String>, CarrierError> {
    let named = around.path("PGSERVICEFILE");
    let must = named.is_some();
    let own = named.or_else(|| around.own_file(".pg_service.conf", ".pg_service.conf"));
    let folder = around.path("PGSYSCONFDIR").or_else(|| cfg!(unix).then(|| PathBuf::from(SYSTEM_FOLDER)));
    let shared = folder.map(|folder| folder.join("pg_service.conf"));
    let mut looked = Vec::new();
    for (path, must) in [(own, must), (shared, false)].into_iter().filter_map(|(path, must)| Some((path?, must))) {
        let shown = around.shown(&path);
        match files::text(&path, FILE_MOST, files::FILE) {
            Ok(text) => {
                if let Some(found) = section(&text, name, &shown)? {
                    if found.contains_key("password") && can_be_read_by_others(&path) {
                        return Err(wrong(&format!(
                            "the service '{name}' holds a password, and others can read {shown}; it belongs in the password file (~/.pgpass)"
                        )));
                    }
                    return Ok(found);
                }
            }
            Err(error) if error.kind() == ErrorKind::NotFound && !must => {}
            Err(error) => return Err(wrong(&format!("the service file {shown} cannot be read: {}", plain(&error)))),
        }
        looked.push(shown);
    }
    let name = crate::characters::in_one_line(name);
    Err(wrong(&format!(
        "there is no service '{name}' in {}; write [{name}] and its key words there",
        looked.join(" or ")
    )))
}

/// The key words under `[name]`.
fn section(text: &str, name: &str, shown: &str) -> Result<Option<BTreeMap<String, String>>, CarrierError> {
    let mut found: Option<BTreeMap<String, String>> = None;
    let mut inside = false;
    for (number, line) in (1..).zip(text.lines()) {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if let Some(title) = line.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')) {
            if found.is_some() {
                break;
            }
            inside = title == name;
            if inside {
                found = Some(BTreeMap::new());
            }
        } else if inside {
            let Some((key, value)) = line.split_once('=').map(|(key, value)| (key.trim(), value.trim())) else {
                return Err(wrong(&format!("{shown}, line {number}: is not key=value")));
            };
            if key == "service" {
                return Err(wrong(&format!("{shown}, line {number}: a service cannot name another")));
            }
            if let Some(found) = &mut found {
                found.entry(key.to_owned()).or_insert_with(|| value.to_owned());
            }
        }
    }
    Ok(found)
}

/// True where the file's group or everybody may read it; on Windows the folder such files lie in keeps others out.
pub(super) fn can_be_read_by_others(path: &std::path::Path) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        std::fs::metadata(path).is_ok_and(|about| about.permissions().mode() & 0o077 != 0)
    }
    #[cfg(not(unix))]
    {
        let _path = path;
        false
    }
}

/// An error of the system without its number.
pub(super) fn plain(error: &std::io::Error) -> String {
    let text = error.to_string();
    let text = text.split(" (os error").next().unwrap_or_default();
    crate::characters::in_one_line(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Vec<(String, String)>, String> {
        let words = Words::read(text, &Surroundings::default()).map_err(|error| error.to_string())?;
        Ok(words.given.into_iter().collect())
    }

    #[test]
    fn key_words_are_read_as_every_client_reads_them() {
        let owned =
            |pairs: &[(&str, &str)]| Ok(pairs.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect());
        assert_eq!(read("host=localhost  dbname = green"), owned(&[("dbname", "green"), ("host", "localhost")]));
        assert_eq!(read(r"dbname='two words' user='o\'neil'"), owned(&[("dbname", "two words"), ("user", "o'neil")]));
        assert_eq!(read(r"user=a\ b host="), owned(&[("host", ""), ("user", "a b")]));
        for (text, said) in [
            ("host=a dbname", "'dbname' has no value; write key words as key=value"),
            ("host='a", "the value of host has no closing quote"),
            ("two words=a", "'two words' is no key word; write key=value, and values with blanks in single quotes"),
            ("postgresql://ann@localhost/green", "write key words, such as service=benchwalk, not a link"),
            ("host=a password=x", "a password does not belong here; it belongs in the password file (~/.pgpass)"),
            (
                "host=a sslcert=x",
                "'sslcert' in the line 'hub' of config.toml is not a key word that is known here; known: application_name, \
                 channel_binding, connect_timeout, dbname, host, hostaddr, options, passfile, port, sslmode, sslrootcert, \
                 target_session_attrs, user",
            ),
        ] {
            assert_eq!(read(text).unwrap_err(), said);
        }
    }

    // With the spelling of paths and the words of the system that Unix has.
    #[cfg(unix)]
    #[test]
    fn a_service_is_looked_for_in_the_users_file_then_in_the_machines() {
        let folder = tempfile::tempdir().unwrap();
        let home = folder.path();
        std::fs::write(
            home.join(".pg_service.conf"),
            "# ours\n[other]\nhost=elsewhere\n\n[benchwalk]\n host=localhost\nport = 5433\n# no\n[last]\nhost=z\nnonsense\n",
        )
        .unwrap();
        std::fs::write(home.join("pg_service.conf"), "[all]\nhost=shared\n").unwrap();
        let around = Surroundings::of([("HOME", home.as_os_str()), ("PGSYSCONFDIR", home.as_os_str())]);
        let of = |text: &str| match Words::read(text, &around) {
            Ok(words) => format!("{:?} from {}", words.given, words.from()),
            Err(error) => error.to_string(),
        };
        assert_eq!(
            of("service=benchwalk port=1"),
            "{\"host\": \"localhost\", \"port\": \"1\"} from the service 'benchwalk'"
        );
        assert_eq!(of("all"), "{\"host\": \"shared\"} from the service 'all'");
        assert_eq!(of("last"), "~/.pg_service.conf, line 11: is not key=value");
        assert_eq!(
            of("none"),
            "there is no service 'none' in ~/.pg_service.conf or ~/pg_service.conf; write [none] and its key words there"
        );
        let named = home.join("elsewhere.conf");
        let around = Surroundings::of([("HOME", home.as_os_str()), ("PGSERVICEFILE", named.as_os_str())]);
        let error = Words::read("service=x", &around).err().unwrap();
        assert_eq!(error.to_string(), "the service file ~/elsewhere.conf cannot be read: No such file or directory");
    }

    #[cfg(unix)]
    #[test]
    fn a_password_in_a_service_file_that_others_can_read_is_refused() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(".pg_service.conf");
        std::fs::write(&file, "[benchwalk]\nhost=localhost\npassword=made-up\n").unwrap();
        let around = Surroundings::of([("HOME", folder.path().as_os_str())]);
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o644)).unwrap();
        assert_eq!(
            Words::read("benchwalk", &around).err().unwrap().to_string(),
            "the service 'benchwalk' holds a password, and others can read ~/.pg_service.conf; it belongs in the password \
             file (~/.pgpass)"
        );
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o600)).unwrap();
        assert_eq!(Words::read("benchwalk", &around).unwrap().own("password"), Some("made-up"));
    }
}
