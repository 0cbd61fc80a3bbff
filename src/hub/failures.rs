//! What the server, its library or the system says, made into what the user can do about it.

use super::wire::Lost;
use super::words::plain;
use crate::characters::in_one_line;
use crate::exchange::CarrierError;
use postgres::Error;
use postgres::error::{DbError, SqlState};
use rustls::CertificateError;
use std::error::Error as _;
use std::io::{self, ErrorKind};
use std::time::Duration;

/// Whom a failure is about.
#[derive(Clone)]
pub(super) struct About {
    /// Host and port, or socket.
    pub(super) place: String,
    /// The host that the certificate is to be for.
    pub(super) host: String,
    pub(super) role: String,
    pub(super) database: String,
    /// What names all of these.
    pub(super) from: String,
    /// Where the password came from.
    pub(super) look_at: String,
    /// How long a connection may take.
    pub(super) connect: Duration,
}

/// A connection that did not come about.
pub(super) fn connecting(lost: &Lost, about: &About) -> CarrierError {
    let unreachable = |why: String| CarrierError::Unreachable { place: about.place.clone(), why };
    let error = match lost {
        Lost::Said(error) => error,
        Lost::Silent(most) => return unreachable(format!("no answer in {} s", most.as_secs())),
        Lost::Thread(why) => return unreachable(why.clone()),
    };
    if let Some(db) = error.as_db_error() {
        return refused(db, about);
    }
    if let Some(error) = of_certificate(error) {
        return certificate(error, about);
    }
    let cause = error.source().map(ToString::to_string).unwrap_or_default();
    if cause == "server does not support TLS" {
        return CarrierError::NoTls;
    }
    if cause == "password missing" {
        return CarrierError::Service(format!(
            "the server asks for a password for {}; write one into {}",
            about.role, about.look_at
        ));
    }
    match error.source().and_then(|cause| cause.downcast_ref::<io::Error>()) {
        Some(error) => unreachable(said_by_system(error, about.connect)),
        None if error.is_closed() => unreachable("it closed the connection".to_owned()),
        None if cause.is_empty() => CarrierError::Odd(in_one_line(&error.to_string())),
        None => CarrierError::Odd(in_one_line(&format!("{error}: {cause}"))),
    }
}

fn said_by_system(error: &io::Error, most: Duration) -> String {
    let text = plain(error);
    match error.kind() {
        ErrorKind::ConnectionRefused => "connection refused".to_owned(),
        ErrorKind::ConnectionReset | ErrorKind::UnexpectedEof | ErrorKind::BrokenPipe => {
            "it closed the connection".to_owned()
        }
        ErrorKind::HostUnreachable | ErrorKind::NetworkUnreachable => "no network leads there".to_owned(),
        ErrorKind::NotFound => "there is no such socket".to_owned(),
        ErrorKind::PermissionDenied if text.contains("allow writes") => "it can only be read".to_owned(),
        ErrorKind::PermissionDenied => "the system does not allow it".to_owned(),
        ErrorKind::TimedOut => format!("no answer in {} s", most.as_secs()),
        _ if text.starts_with("failed to lookup address") => "no machine of that name is known".to_owned(),
        _ => text,
    }
}

/// What the server answered to a connection.
fn refused(db: &DbError, about: &About) -> CarrierError {
    let role = about.role.clone();
    let code = db.code();
    if *code == SqlState::INVALID_PASSWORD {
        CarrierError::Password { role, look_at: about.look_at.clone() }
    } else if *code == SqlState::INVALID_CATALOG_NAME {
        CarrierError::NoDatabase { database: about.database.clone(), from: about.from.clone() }
    } else if [SqlState::INVALID_AUTHORIZATION_SPECIFICATION, SqlState::INSUFFICIENT_PRIVILEGE].contains(code) {
        CarrierError::NoLogin { role, why: in_one_line(db.message()) }
    } else if code.code().starts_with("57P") || *code == SqlState::TOO_MANY_CONNECTIONS {
        CarrierError::Unreachable { place: about.place.clone(), why: in_one_line(db.message()) }
    } else {
        failed(db)
    }
}

fn failed(db: &DbError) -> CarrierError {
    CarrierError::Failed(in_one_line(&format!("{} ({})", db.message(), db.code().code())))
}

/// What the check of the certificate says, somewhere below.
fn of_certificate(error: &Error) -> Option<&rustls::Error> {
    error.source()?.downcast_ref::<io::Error>()?.get_ref()?.downcast_ref::<rustls::Error>()
}

fn certificate(error: &rustls::Error, about: &About) -> CarrierError {
    let rustls::Error::InvalidCertificate(why) = error else {
        return CarrierError::Certificate(in_one_line(&error.to_string()));
    };
    let what = match why {
        CertificateError::UnknownIssuer => return CarrierError::Authority { from: about.from.clone() },
        CertificateError::NotValidForNameContext { presented, .. } if !presented.is_empty() => {
            let names: Vec<String> = presented.iter().map(|name| format!("'{}'", bare(name))).collect();
            return CarrierError::CertificateName { names: names.join(", "), asked: about.host.clone() };
        }
        CertificateError::NotValidForNameContext { .. } | CertificateError::NotValidForName => {
            "it names no host; it needs one as subjectAltName".to_owned()
        }
        CertificateError::Expired | CertificateError::ExpiredContext { .. } => {
            "it is out of date, or this laptop's clock is wrong".to_owned()
        }
        CertificateError::NotValidYet | CertificateError::NotValidYetContext { .. } => {
            "it is not valid yet, or this laptop's clock is wrong".to_owned()
        }
        CertificateError::Other(other) if other.to_string().contains("CaUsedAsEndEntity") => {
            "it is an authority's own; the server needs one of its own, signed by that authority".to_owned()
        }
        other => in_one_line(&other.to_string()),
    };
    CarrierError::Certificate(what)
}

/// `localhost` of `DnsName("localhost")`, as the library writes names.
fn bare(name: &str) -> String {
    let inside = name.split_once('(').and_then(|(_, rest)| rest.rsplit_once(')')).map_or(name, |(inside, _)| inside);
    in_one_line(inside.trim_matches('"'))
}

/// A question that was not answered.
pub(super) fn asking(lost: &Lost, doing: Doing, about: &About) -> CarrierError {
    let error = match lost {
        Lost::Said(error) => error,
        Lost::Silent(most) => return CarrierError::Cut(format!("no answer in {} s", most.as_secs())),
        Lost::Thread(why) => return CarrierError::Cut(why.clone()),
    };
    let Some(db) = error.as_db_error() else {
        return match error.source().and_then(|cause| cause.downcast_ref::<io::Error>()) {
            Some(error) => CarrierError::Cut(said_by_system(error, about.connect)),
            None if error.is_closed() => CarrierError::Cut("the connection was closed".to_owned()),
            None => CarrierError::Odd(in_one_line(&error.to_string())),
        };
    };
    let role = about.role.clone();
    let code = db.code();
    if *code == SqlState::INSUFFICIENT_PRIVILEGE {
        match doing {
            Doing::Looking => CarrierError::NotAUser { role },
            Doing::Beginning | Doing::Reading => CarrierError::MayNot { role, what: "read" },
            Doing::Giving => CarrierError::MayNot { role, what: "write" },
        }
    } else if [SqlState::UNDEFINED_TABLE, SqlState::INVALID_SCHEMA_NAME, SqlState::UNDEFINED_FUNCTION].contains(code) {
        CarrierError::NotAHub
    } else if *code == SqlState::READ_ONLY_SQL_TRANSACTION {
        CarrierError::Standby { from: about.from.clone() }
    } else if code.code().starts_with("57P") || *code == SqlState::QUERY_CANCELED {
        CarrierError::Cut(in_one_line(db.message()))
    } else {
        failed(db)
    }
}

/// What was asked for.
#[derive(Clone, Copy)]
pub(super) enum Doing {
    /// Whether it is a hub.
    Looking,
    /// Making a place for a season.
    Beginning,
    /// Reading heads and lines.
    Reading,
    /// Adding lines.
    Giving,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_certificates_are_shown_bare() {
        assert_eq!(bare("DnsName(\"localhost\")"), "localhost");
        assert_eq!(bare("IpAddress(127.0.0.1)"), "127.0.0.1");
        assert_eq!(bare("localhost"), "localhost");
    }
}
