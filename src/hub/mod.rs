//! PostgreSQL as a carrier: the only user of its library.
//!
//! A hub is a schema in a database that its owner makes with [`script`]; a laptop has a login there and never the owner's rights. How
//! it is reached is said by key words of a PostgreSQL client, mostly `service=NAME`. Read are, as every client reads them:
//!
//! - the service file: `PGSERVICEFILE`, else `~/.pg_service.conf`; then `pg_service.conf` in `PGSYSCONFDIR`, else in
//!   `/etc/postgresql-common`; the service's name also from `PGSERVICE`;
//! - the password: `PGPASSWORD`, else the password file: `PGPASSFILE` or `~/.pgpass`, which only its owner may read;
//! - what is not said there: `PGHOST`, `PGHOSTADDR`, `PGPORT`, `PGDATABASE`, `PGUSER`, `PGSSLROOTCERT`, `PGCHANNELBINDING`,
//!   `PGCONNECT_TIMEOUT`. `PGSSLMODE` is not: over a network the connection is protected and the server's certificate and name are
//!   checked, unless `sslmode=disable` is written out. `PGOPTIONS` is not either.
//!
//! The cursor "all lines of a stream after n" misses nothing: line n + 1 is only written by a transaction that held the lock of its
//! stream after n was committed. There is no number that counts across streams.

#[cfg(feature = "hub")]
mod carrier;
#[cfg(feature = "hub")]
mod failures;
#[cfg(feature = "hub")]
mod passwords;
#[cfg(feature = "hub")]
mod service;
mod surroundings;
#[cfg(feature = "hub")]
mod tls;
#[cfg(feature = "hub")]
mod wire;
#[cfg(feature = "hub")]
mod words;

use crate::exchange::{Carrier, CarrierError};
use chrono::{DateTime, Utc};
pub use surroundings::Surroundings;

/// True where this program was built with hubs.
pub const HUBS: bool = cfg!(feature = "hub");

/// What gives the present instant; it is compared with the clock of the hub.
pub type Now = Box<dyn Fn() -> DateTime<Utc> + Send>;

/// What the owner of a database runs with `psql` to make it a hub, with the keeper's work in its comments.
pub const fn script() -> &'static str {
    include_str!("hub.sql")
}

/// A hub by the key words that name it. It is not connected to before it is asked something; a connection that was cut is made again
/// at the next question.
///
/// # Errors
/// [`CarrierError::Service`] for key words, or a service, that cannot be used; [`CarrierError::NoHubs`].
#[cfg(feature = "hub")]
pub fn open(words: &str, around: Surroundings, now: Now) -> Result<Box<dyn Carrier + Send>, CarrierError> {
    Ok(Box::new(carrier::Hub::new(words, around, now)?))
}

/// Database and host of a hub, for people; nothing is asked of it.
///
/// # Errors
/// As [`open`].
#[cfg(feature = "hub")]
pub fn place(words: &str, around: &Surroundings) -> Result<String, CarrierError> {
    Ok(service::Service::read(words, around)?.shown())
}

/// This program was built without hubs.
///
/// # Errors
/// [`CarrierError::NoHubs`], always.
#[cfg(not(feature = "hub"))]
pub fn open(_words: &str, _around: Surroundings, _now: Now) -> Result<Box<dyn Carrier + Send>, CarrierError> {
    Err(CarrierError::NoHubs)
}

/// This program was built without hubs.
///
/// # Errors
/// [`CarrierError::NoHubs`], always.
#[cfg(not(feature = "hub"))]
pub fn place(_words: &str, _around: &Surroundings) -> Result<String, CarrierError> {
    Err(CarrierError::NoHubs)
}
