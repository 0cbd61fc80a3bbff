//! Where a hub is, who asks, and how the connection is protected: key words and variables made into one answer.

use super::Surroundings;
use super::passwords::{self, For, Found};
use super::words::{Words, wrong};
use crate::exchange::CarrierError;
use postgres::config::{ChannelBinding, TargetSessionAttrs};
use std::net::IpAddr;
use std::path::PathBuf;
use std::time::Duration;

const PORT: u16 = 5432;

/// How long a connection may take to come about where nothing else is said.
const CONNECT: Duration = Duration::from_secs(5);

/// Folders that a server keeps its socket in where nothing else is said: Debian's, then PostgreSQL's own.
const SOCKET_FOLDERS: [&str; 3] = ["/var/run/postgresql", "/run/postgresql", "/tmp"];

/// A server that may be the hub's.
pub(super) struct Place {
    /// The host as it is written, or the folder of the socket.
    pub(super) host: String,
    /// The address where it is not to be looked up.
    pub(super) address: Option<IpAddr>,
    pub(super) port: u16,
}

impl Place {
    pub(super) fn is_socket(&self) -> bool {
        cfg!(unix) && self.host.starts_with('/')
    }

    /// As it stands in messages.
    pub(super) fn shown(&self) -> String {
        let host = crate::characters::in_one_line(&self.host);
        if self.is_socket() { format!("{host}/.s.PGSQL.{}", self.port) } else { format!("{host}:{}", self.port) }
    }
}

/// All that is said of a hub.
pub(super) struct Service {
    /// At least one; the first that answers is used.
    pub(super) places: Vec<Place>,
    pub(super) database: String,
    pub(super) role: String,
    /// What is to be changed to change one of these.
    pub(super) from: String,
    /// True where `sslmode=disable` is written out.
    pub(super) in_clear: bool,
    /// The file of the authority that signed the server's certificate; those of the system otherwise.
    pub(super) root: Option<PathBuf>,
    pub(super) connect: Duration,
    pub(super) target: TargetSessionAttrs,
    pub(super) binding: ChannelBinding,
    pub(super) options: Option<String>,
    pub(super) application: Option<String>,
    password: Option<String>,
    password_file: Option<PathBuf>,
}

impl Service {
    pub(super) fn read(text: &str, around: &Surroundings) -> Result<Self, CarrierError> {
        let words = Words::read(text, around)?;
        let from = words.from();
        let role = words.get("user", "PGUSER", around).or_else(|| around.user());
        let role = role.ok_or_else(|| wrong(&format!("no login is named; write user=NAME in {from}")))?;
        let places = places(&words, around)?;
        let in_clear = words.own("sslmode").map_or(Ok(false), |mode| in_clear(mode, &from))?;
        let connect = words.get("connect_timeout", "PGCONNECT_TIMEOUT", around);
        Ok(Self {
            places,
            database: words.get("dbname", "PGDATABASE", around).unwrap_or_else(|| role.clone()),
            role,
            in_clear,
            root: words.get("sslrootcert", "PGSSLROOTCERT", around).filter(|root| root != "system").map(PathBuf::from),
            connect: connect.map_or(Ok(CONNECT), |text| seconds(&text, &from))?,
            target: words
                .own("target_session_attrs")
                .map_or(Ok(TargetSessionAttrs::Any), |text| target(text, &from))?,
            binding: words
                .get("channel_binding", "PGCHANNELBINDING", around)
                .map_or(Ok(ChannelBinding::Prefer), |text| binding(&text, &from))?,
            options: words.own("options").map(str::to_owned),
            application: words.own("application_name").map(str::to_owned),
            password: words.own("password").map(str::to_owned),
            password_file: words.own("passfile").map(PathBuf::from),
            from,
        })
    }

    /// Host and database for people.
    pub(super) fn shown(&self) -> String {
        let places: Vec<String> = self.places.iter().map(Place::shown).collect();
        format!("{} at {}", crate::characters::in_one_line(&self.database), places.join(" or "))
    }

    pub(super) fn password(&self, place: &Place, around: &Surroundings) -> Result<Found, CarrierError> {
        let usual = place.is_socket() && SOCKET_FOLDERS.contains(&place.host.as_str());
        let host = if usual { "localhost" } else { place.host.as_str() };
        let whom = For { host, port: place.port, database: &self.database, role: &self.role };
        passwords::find(&whom, self.password.as_deref(), self.password_file.clone(), around)
    }
}

/// Hosts, addresses and ports: lists with commas, of which the ports may be one for all.
fn places(words: &Words, around: &Surroundings) -> Result<Vec<Place>, CarrierError> {
    let list = |key, variable| -> Vec<String> {
        let text = words.get(key, variable, around).unwrap_or_default();
        text.split(',').map(|item| item.trim().to_owned()).collect()
    };
    let (hosts, addresses, ports) = (list("host", "PGHOST"), list("hostaddr", "PGHOSTADDR"), list("port", "PGPORT"));
    let most = hosts.len().max(addresses.len());
    let fits = |list: &[String]| list.len() == most || list.len() == 1 && list.iter().all(String::is_empty);
    if !fits(&hosts) || !fits(&addresses) || (ports.len() != 1 && ports.len() != most) {
        return Err(wrong(&format!("host, hostaddr and port are lists of different length in {}", words.from())));
    }
    let item = |list: &[String], at: usize| list.get(at).or(list.first()).filter(|item| !item.is_empty()).cloned();
    (0..most)
        .map(|at| {
            let address = item(&addresses, at).map(|text| {
                text.parse()
                    .ok()
                    .ok_or_else(|| wrong(&format!("hostaddr '{text}' in {} is no address; write host=", words.from())))
            });
            let address: Option<IpAddr> = address.transpose()?;
            let port = item(&ports, at).map_or(Ok(PORT), |text| {
                text.parse()
                    .ok()
                    .filter(|port| *port > 0)
                    .ok_or_else(|| wrong(&format!("port '{text}' in {} is not a number from 1 to 65535", words.from())))
            })?;
            let host = item(&hosts, at).or_else(|| address.map(|address| address.to_string()));
            Ok(Place { host: host.unwrap_or_else(|| usual_host(port)), address, port })
        })
        .collect()
}

/// The folder that has a socket of this port, else where most have it; without sockets this machine by its name.
fn usual_host(port: u16) -> String {
    if !cfg!(unix) {
        return "localhost".to_owned();
    }
    let has_socket = |folder: &&str| std::fs::metadata(format!("{folder}/.s.PGSQL.{port}")).is_ok();
    SOCKET_FOLDERS.into_iter().find(has_socket).unwrap_or("/var/run/postgresql").to_owned()
}

/// A connection over the network is protected, with certificate and name checked, or it is written out that it is not.
fn in_clear(mode: &str, from: &str) -> Result<bool, CarrierError> {
    match mode {
        "require" | "verify-ca" | "verify-full" => Ok(false),
        "disable" => Ok(true),
        "prefer" | "allow" => Err(wrong(&format!(
            "sslmode={mode} sends in clear where the server does not offer TLS; write sslmode=verify-full in {from}, or \
             sslmode=disable if the line is private"
        ))),
        _ => Err(wrong(&format!(
            "sslmode={} is not known; write sslmode=verify-full in {from}",
            crate::characters::in_one_line(mode)
        ))),
    }
}

fn seconds(text: &str, from: &str) -> Result<Duration, CarrierError> {
    let seconds = text.parse().ok().filter(|seconds| (1..=120).contains(seconds));
    let wrong = || wrong(&format!("connect_timeout '{text}' in {from} is not a number of seconds from 1 to 120"));
    seconds.map(Duration::from_secs).ok_or_else(wrong)
}

fn target(text: &str, from: &str) -> Result<TargetSessionAttrs, CarrierError> {
    match text {
        "any" => Ok(TargetSessionAttrs::Any),
        "read-write" | "primary" => Ok(TargetSessionAttrs::ReadWrite),
        "read-only" | "standby" => Ok(TargetSessionAttrs::ReadOnly),
        _ => Err(wrong(&format!("target_session_attrs '{text}' in {from} is none of any, read-write, read-only"))),
    }
}

fn binding(text: &str, from: &str) -> Result<ChannelBinding, CarrierError> {
    match text {
        "prefer" => Ok(ChannelBinding::Prefer),
        "require" => Ok(ChannelBinding::Require),
        "disable" => Ok(ChannelBinding::Disable),
        _ => Err(wrong(&format!("channel_binding '{text}' in {from} is none of prefer, require, disable"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, variables: &[(&'static str, &str)]) -> Result<Service, String> {
        let user = [("USER", "ann")];
        let around = Surroundings::of(user.iter().chain(variables).map(|(name, value)| (*name, *value)));
        Service::read(text, &around).map_err(|error| error.to_string())
    }

    #[test]
    fn words_go_before_variables_and_these_before_what_is_usual() {
        let shown = |text: &str, variables: &[(&'static str, &str)]| {
            let service = read(text, variables).unwrap();
            format!("{} as {}", service.shown(), service.role)
        };
        let variables = [("PGHOST", "hub.example"), ("PGPORT", "5433"), ("PGDATABASE", "green"), ("PGUSER", "bob")];
        assert_eq!(shown("host=localhost", &[]), "ann at localhost:5432 as ann");
        assert_eq!(shown("sslmode=require", &variables), "green at hub.example:5433 as bob");
        assert_eq!(shown("host=localhost port=1 dbname=d user=u", &variables), "d at localhost:1 as u");
        assert_eq!(shown("host=a,b port=1,2 target_session_attrs=read-write", &[]), "ann at a:1 or b:2 as ann");
        assert_eq!(shown("hostaddr=127.0.0.1", &[]), "ann at 127.0.0.1:5432 as ann");
        // A path is absolute there with its drive alone.
        #[cfg(unix)]
        assert_eq!(shown("host=/tmp/x", &[]), "ann at /tmp/x/.s.PGSQL.5432 as ann");
    }

    #[test]
    fn only_what_protects_is_taken_unless_it_is_written_out() {
        let clear =
            |text: &str, variables: &[(&'static str, &str)]| read(text, variables).map(|service| service.in_clear);
        assert_eq!(clear("host=a", &[]), Ok(false));
        assert_eq!(clear("host=a", &[("PGSSLMODE", "disable")]), Ok(false));
        for mode in ["require", "verify-ca", "verify-full"] {
            assert_eq!(clear(&format!("host=a sslmode={mode}"), &[]), Ok(false));
        }
        assert_eq!(clear("host=a sslmode=disable", &[]), Ok(true));
        assert_eq!(
            clear("host=a sslmode=prefer", &[]).unwrap_err(),
            "sslmode=prefer sends in clear where the server does not offer TLS; write sslmode=verify-full in the line 'hub' \
             of config.toml, or sslmode=disable if the line is private"
        );
    }

    #[test]
    fn what_is_wrong_is_named_with_what_would_be_right() {
        for (text, said) in [
            ("host=a port=x", "port 'x' in the line 'hub' of config.toml is not a number from 1 to 65535"),
            (
                "host=a,b port=1,2,3",
                "host, hostaddr and port are lists of different length in the line 'hub' of config.toml",
            ),
            (
                "host=a sslmode=full",
                "sslmode=full is not known; write sslmode=verify-full in the line 'hub' of config.toml",
            ),
            (
                "host=a connect_timeout=0",
                "connect_timeout '0' in the line 'hub' of config.toml is not a number of seconds from 1 to 120",
            ),
            ("hostaddr=a", "hostaddr 'a' in the line 'hub' of config.toml is no address; write host="),
            (
                "host=a target_session_attrs=x",
                "target_session_attrs 'x' in the line 'hub' of config.toml is none of any, read-write, read-only",
            ),
            (
                "host=a channel_binding=x",
                "channel_binding 'x' in the line 'hub' of config.toml is none of prefer, require, disable",
            ),
        ] {
            assert_eq!(read(text, &[]).err().as_deref(), Some(said));
        }
        let nobody = Service::read("host=a", &Surroundings::default()).err().unwrap();
        assert_eq!(nobody.to_string(), "no login is named; write user=NAME in the line 'hub' of config.toml");
    }
}
