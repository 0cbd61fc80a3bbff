//! What a carrier is asked, and why it could not answer.

use super::{Chain, Linked, Stream};
use chrono::{DateTime, TimeDelta, Utc};
use thiserror::Error;
use uuid::Uuid;

/// How far a stream got.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Head {
    /// The stream.
    pub stream: Stream,
    /// The number of its last line; 0 where it has none.
    pub last: u64,
    /// The chain there.
    pub chain: Chain,
    /// The laptop that writes it, as it calls itself.
    pub laptop: Option<String>,
    /// When that laptop last gave something, where the carrier has a clock of its own.
    pub seen: Option<DateTime<Utc>>,
}

/// A season that lies at a carrier.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offered {
    /// Its id.
    pub season: Uuid,
    /// The name of its site, where it is known.
    pub name: Option<String>,
    /// True where this laptop may give lines to it, not only fetch them.
    pub may_write: bool,
}

impl Offered {
    /// As it is named to people: the site, and the id that tells it from others.
    pub fn called(&self) -> String {
        let name = self.name.as_deref().unwrap_or("a season without a name");
        format!("{name} ({})", self.season)
    }
}

/// Lines of one stream that follow one another.
#[derive(Debug, Clone, Copy)]
pub struct Piece<'a> {
    /// The stream.
    pub stream: Stream,
    /// The laptop that writes it.
    pub laptop: Option<&'a str>,
    /// The number of the line before them.
    pub after: u64,
    /// The chain there.
    pub before: Chain,
    /// The lines; at least one.
    pub lines: &'a [Linked],
}

/// How a line came to a carrier that keeps record of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Arrival {
    /// The login that brought it, as the carrier proved it. With lines carried for another laptop it is the carrying one's.
    pub login: String,
    /// The laptop whose stream it is in, as that laptop calls itself.
    pub laptop: Option<String>,
    /// When it arrived, by the carrier's clock.
    pub at: DateTime<Utc>,
}

/// What is to be said of a carrier although the exchange went on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remark {
    /// Pieces without a right end: cut short while they were written, or damaged.
    Cut {
        /// The laptop that wrote them, where it is known.
        laptop: Option<String>,
        /// How many.
        pieces: usize,
    },
    /// This laptop's clock less the carrier's.
    ClockOff(TimeDelta),
    /// The connection is not protected, as its service asks for.
    InClear,
    /// Another program version is advised for this hub.
    Advised(String),
    /// This laptop's login may only read the season: everything was taken, nothing was given.
    MayOnlyRead {
        /// The login.
        role: String,
    },
}

/// A place that streams are left at and fetched from. Every call stands for itself: any of them may be the last.
pub trait Carrier {
    /// The seasons that lie here and that may be read.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn seasons(&mut self) -> Result<Vec<Offered>, CarrierError>;

    /// Makes a place for a season; nothing where there is one.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn begin(&mut self, season: Uuid, name: &str) -> Result<(), CarrierError>;

    /// The heads of a season's streams that have lines here. What follows in the other calls is at least as new as this.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn heads(&mut self, season: Uuid) -> Result<Vec<Head>, CarrierError>;

    /// At most so many lines of a stream after a number; none where there are none, or none yet.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn read(&mut self, stream: Stream, after: u64, most: usize) -> Result<Vec<Linked>, CarrierError>;

    /// The chain at a line; `None` where the line is not here.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn chain_at(&mut self, stream: Stream, n: u64) -> Result<Option<Chain>, CarrierError>;

    /// Adds lines to a stream, only where it ends with `piece.after` and `piece.before`; otherwise nothing changes. Gives the head
    /// as it is after that.
    ///
    /// # Errors
    /// [`CarrierError`]. Whether the lines were added is then not known; the next exchange finds out.
    fn give(&mut self, season: Uuid, piece: &Piece<'_>) -> Result<Head, CarrierError>;

    /// How a line came here; `None` where the line is not here, or where no record is kept of it.
    ///
    /// # Errors
    /// [`CarrierError`].
    fn arrival(&mut self, _stream: Stream, _n: u64) -> Result<Option<Arrival>, CarrierError> {
        Ok(None)
    }

    /// What is to be said of it since it was asked last.
    fn remarks(&mut self) -> Vec<Remark> {
        Vec::new()
    }
}

/// Why a carrier could not be used; one variant for each thing the user can do. The texts follow the carrier's name and a colon.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CarrierError {
    /// Put the stick in; no failure.
    #[error("is not there ({place})")]
    NotThere {
        /// The folder.
        place: String,
    },
    /// Look at the folder's permissions.
    #[error("cannot be {what} ({place}: {why})")]
    Folder {
        /// Read, or written.
        what: &'static str,
        /// The file or folder.
        place: String,
        /// What the system says.
        why: String,
    },
    /// Wait, or look at the network.
    #[error("cannot be reached ({place}: {why})")]
    Unreachable {
        /// Host and port, or socket.
        place: String,
        /// What the system says.
        why: String,
    },
    /// Look at the password file.
    #[error("the password for {role} was not taken; look at {look_at}")]
    Password {
        /// The login.
        role: String,
        /// Where it came from: the line for HOST:PORT:DATABASE:LOGIN in a password file, or a variable.
        look_at: String,
    },
    /// Ask the keeper of the hub: the login was taken away, or this machine may not connect.
    #[error("does not let {role} log in ({why}); ask the keeper of the hub")]
    NoLogin {
        /// The login.
        role: String,
        /// What the server says.
        why: String,
    },
    /// Look at the service or password file.
    #[error("{0}")]
    Service(String),
    /// Look at the name of the database.
    #[error("no database '{database}'; look at dbname in {from}")]
    NoDatabase {
        /// The database.
        database: String,
        /// What names it, such as the service 'benchwalk'.
        from: String,
    },
    /// Name the authority's file.
    #[error("its certificate is not signed by a known authority; name its file as sslrootcert in {from}")]
    Authority {
        /// What is to name it.
        from: String,
    },
    /// Use the name the certificate has.
    #[error("its certificate is for {names}, not '{asked}'; use that name as host")]
    CertificateName {
        /// The names in the certificate.
        names: String,
        /// The host asked for.
        asked: String,
    },
    /// Look at the certificate.
    #[error("its certificate was not taken: {0}")]
    Certificate(String),
    /// Ask for TLS.
    #[error(
        "the server does not offer TLS; ask for it to be switched on, or write sslmode=disable if the line is private"
    )]
    NoTls,
    /// Ask the keeper of the hub.
    #[error("{role} may not {what} this season; ask the keeper of the hub (table member)")]
    MayNot {
        /// The login.
        role: String,
        /// Read or write.
        what: &'static str,
    },
    /// Begin the season there, or ask the keeper of the hub: a season that may not be read looks like one that is not there.
    #[error(
        "does not hold this season, or {role} may not read it; begin it there with 'benchwalk share on', or ask the keeper of the hub (table member)"
    )]
    NoSeason {
        /// The login.
        role: String,
    },
    /// Ask the keeper of the hub to let the login in.
    #[error("{role} may not use this hub; its keeper lets it in with: GRANT bw_user TO {role}")]
    NotAUser {
        /// The login.
        role: String,
    },
    /// Name the server that can be written.
    #[error("can only be read: it is a copy that follows another server; name that one as host in {from}")]
    Standby {
        /// What is to name it.
        from: String,
    },
    /// What the carrier reports when none of the others fits, such as a full disk.
    #[error("could not do it: {0}")]
    Failed(String),
    /// Run the script.
    #[error("not a Benchwalk hub (no schema 'benchwalk'); 'benchwalk share hub-sql' prints what its owner runs")]
    NotAHub,
    /// Use the newer program.
    #[error("made by a newer Benchwalk (format {found}, this program knows {known}); nothing was sent or taken")]
    Newer {
        /// Its format.
        found: i64,
        /// What is known here.
        known: i64,
    },
    /// The connection went in the middle; the next exchange goes on from there.
    #[error("was cut off ({0})")]
    Cut(String),
    /// What the carrier says is no answer to what was asked.
    #[error("gave an answer that is not understood: {0}")]
    Odd(String),
    /// Use a program with hubs.
    #[error("this program was built without hubs; use a folder, or a program with them")]
    NoHubs,
}
