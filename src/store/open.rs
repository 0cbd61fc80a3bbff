//! Opening and beginning a season file, without touching one that is not sound.

use super::connection::secure;
use super::error::{Fault, StoreError};
use super::guard::Seen;
use super::identity::{Held, Identity};
use super::one_writer::{OneWriter, is_ours, turn};
use super::{Journaling, Saved, Store, long, made, network_fs, schema, share};
use crate::files::{self, Purpose, Unfinished};
use crate::progress::{Step, Work};
use crate::record::{Line, clean};
use rusqlite::{Connection, OpenFlags};
use std::cell::Cell;
use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The first bytes of every SQLite file.
const MAGIC: &[u8; 16] = b"SQLite format 3\0";

/// Longest name of a season file, in bytes: most file systems take 255, and a log lies beside it under a longer name.
const LONGEST_NAME: usize = 240;

impl Store {
    /// Begins a new season file, private to the user. It comes into being whole, schema and all, or not at all.
    ///
    /// # Errors
    /// `Exists` when something is already there; `File` when the folder cannot be written.
    pub fn create(path: &Path) -> Result<Self, StoreError> {
        Self::create_with(path, &[], None).map(|(store, _saved)| store)
    }

    /// Begins a new season file that holds these lines, those of the season with this id: whole, or not at all.
    ///
    /// # Errors
    /// As [`Store::create`] and [`Store::append_of`]; `NoRoom` on a full disk.
    pub fn create_with(path: &Path, lines: &[Line], id: Option<Uuid>) -> Result<(Self, Saved), StoreError> {
        let nothing = lines.is_empty() && id.is_none();
        let fill = |store: &mut Self| if nothing { Ok(Saved::default()) } else { store.append_of(lines, id) };
        let (mut store, saved) = Self::create_by(path, fill, Self::open)?;
        store.appended = lines.to_vec();
        Ok((store, saved))
    }

    /// Begins a new season file and fills it: whole, or not at all; then opens it.
    pub(super) fn create_by<T>(
        path: &Path,
        fill: impl FnOnce(&mut Self) -> Result<T, StoreError>,
        open: impl FnOnce(&Path) -> Result<Self, StoreError>,
    ) -> Result<(Self, T), StoreError> {
        let failed = |error: io::Error| StoreError::making(path, "a season file cannot be begun", error);
        files::must_be_fit(path).map_err(failed)?;
        if path.symlink_metadata().is_ok() {
            return Err(StoreError::Exists { path: path.to_owned() });
        }
        if path.file_name().is_some_and(|name| name.len() > LONGEST_NAME) {
            return Err(failed(io::Error::other(format!("its name is longer than {LONGEST_NAME} bytes"))));
        }
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).map_err(failed)?;
        }
        let part = Unfinished::beside(path, Purpose::Season).map_err(failed)?;
        let held = Held::of(&part).map_err(failed)?;
        // The new file lies where the season is to be.
        let season = real(&part).map_err(failed)?.with_file_name(path.file_name().unwrap_or_default());
        let writer = one_writer(&part, &season)?;
        let vfs = writer.as_ref().and_then(OneWriter::vfs);
        let fill = |mut store: Self| {
            let filled = fill(&mut store)?;
            store.close().map(|()| filled)
        };
        let filled = writable(&part, vfs, held, None).and_then(fill).map_err(|error| error.instead_of(path))?;
        part.publish(path).map_err(failed)?;
        let opened = open(path);
        drop(writer);
        Ok((opened?, filled))
    }

    /// Opens a season file for reading and writing.
    ///
    /// # Errors
    /// Every way a file can be unfit; the file's bytes are then as they were.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        Self::open_on(path, None)
    }

    /// Opens through a named way of the database to reach files. Some cannot share memory and so refuse the write-ahead log, as
    /// some file systems do.
    #[doc(hidden)]
    pub fn open_on(path: &Path, vfs: Option<&str>) -> Result<Self, StoreError> {
        Self::open_as(path, vfs, false)
    }

    /// Opens a file that is a mirror, or one that is none.
    pub(super) fn open_as(path: &Path, vfs: Option<&str>, mirror: bool) -> Result<Self, StoreError> {
        let held = look_at_head(path)?;
        let real = real(path).map_err(|error| cannot_read(path, error))?;
        if vfs.is_none() {
            may_be_written(path, mirror)?;
        }
        let writer = one_writer(&real, &real)?;
        let vfs = vfs.or_else(|| writer.as_ref().and_then(OneWriter::vfs));
        writable(path, vfs, held, writer)
    }

    /// Opens a season file once more for a thread that exchanges while the screens have it open. Their saves wait for at most one step
    /// of this connection, and do not take it for another program; the log is written into the file by this one, on its thread.
    ///
    /// On a network file system whose locks are kept it works too, but a save of the screens then waits for the disk of the network as
    /// well, and may say so and be tried again. Where no locks are kept nothing keeps a reader and a writer from each other.
    ///
    /// # Errors
    /// As [`Store::open`]; `NoLocks` where the disk keeps no locks.
    pub fn open_beside(path: &Path) -> Result<Self, StoreError> {
        let held = look_at_head(path)?;
        let real = real(path).map_err(|error| cannot_read(path, error))?;
        let writer = one_writer(&real, &real)?;
        if writer.as_ref().and_then(OneWriter::vfs).is_some() {
            return Err(StoreError::NoLocks { path: path.to_owned() });
        }
        may_be_written(path, false)?;
        let mut store = writable(path, None, held, writer)?;
        store.beside = Some(store.held.beside());
        Ok(store)
    }

    /// Opens a season file for reading only; a newer program's file too.
    ///
    /// # Errors
    /// As [`Store::open`], but for those that [`StoreError::can_be_read`] names.
    pub fn open_read_only(path: &Path) -> Result<Self, StoreError> {
        let held = look_at_head(path)?;
        let real = real(path).map_err(|error| cannot_read(path, error))?;
        let turn = turn(&real);
        if has_journal(&real) && turn.is_none() {
            // What a save cut short has left is taken back first; without that the file does not read as it was.
            match Self::open_on(path, None).and_then(Self::close) {
                Err(StoreError::InUse { path, .. }) => return Err(StoreError::Busy { path }),
                Err(error) if !error.can_be_read() => return Err(error),
                _ => {}
            }
        }
        let connection = match log_fits(path) {
            Err(StoreError::OtherLog { .. }) => alone(path)?,
            // What can be read of a damaged file is read.
            _ => read_only(path)?,
        };
        let version = version(&connection, path)?;
        made::check_tables(&connection, version).map_err(|fault| fault.of(path))?;
        Ok(Self {
            connection,
            path: path.to_owned(),
            real,
            journaling: Journaling::ReadOnly,
            version,
            left_out: Cell::new(0),
            identity: None,
            seen: Seen::default(),
            appended: Vec::new(),
            gone: None,
            seat: None,
            beside: None,
            writer: None,
            _turn: turn,
            held,
        })
    }
}

/// Refuses to write to a file that is not what this program makes, or is a mirror where none is asked for, and says why.
fn may_be_written(path: &Path, mirror: bool) -> Result<(), StoreError> {
    log_fits(path)?;
    // A save cut short is taken back when the file is opened for writing.
    let journal = has_journal(&real(path).map_err(|error| cannot_read(path, error))?);
    let found = if journal { alone(path)? } else { read_only(path)? };
    let version = version(&found, path)?;
    if version > schema::NEWEST {
        return Err(StoreError::Newer { path: path.to_owned(), found: version, known: schema::NEWEST });
    }
    made::check_tables(&found, version).map_err(|fault| fault.of(path))?;
    match made::difference(&found, version).map_err(|fault| fault.of(path))? {
        None => match (share::is_mirror(&found, version).map_err(|fault| fault.of(path))?, mirror) {
            (true, false) => Err(StoreError::Mirror { path: path.to_owned() }),
            (false, true) => Err(StoreError::NoMirror { path: path.to_owned() }),
            _ => Ok(()),
        },
        Some(what) => Err(StoreError::Changed { path: path.to_owned(), what: clean(&what) }),
    }
}

/// The version of a file; 0 for one with nothing in it yet.
fn version(connection: &Connection, path: &Path) -> Result<i64, StoreError> {
    match schema::version(connection).map_err(|fault| fault.of(path))? {
        // A file that was begun and never filled.
        0 if schema::is_empty(connection).map_err(|fault| fault.of(path))? => Ok(0),
        found if found < 1 => {
            Err(StoreError::Damaged { path: path.to_owned(), detail: format!("its version number is {found}") })
        }
        found => Ok(found),
    }
}

/// Refuses a file with a log of another file beside it, as when a backup is put in the place of a file whose program was killed. A
/// log says nothing of the file it belongs to: where the two together are not sound and the file by itself is, it is of another.
fn log_fits(path: &Path) -> Result<(), StoreError> {
    if needs_no_log(&real(path).map_err(|error| cannot_read(path, error))?) {
        return Ok(());
    }
    let sound = |connection: Result<Connection, StoreError>| {
        connection.and_then(|c| schema::integrity_check(&c).map_err(|fault| fault.of(path)))
    };
    match sound(read_only(path)) {
        Err(error @ StoreError::Damaged { .. }) => match sound(alone(path)) {
            Ok(()) => Err(StoreError::OtherLog { path: path.to_owned() }),
            Err(_) => Err(error),
        },
        checked => checked,
    }
}

/// The right to write to a season, where the file lies on a network file system.
fn one_writer(file: &Path, season: &Path) -> Result<Option<OneWriter>, StoreError> {
    network_fs::name_of(file).map(|_| OneWriter::take(season)).transpose()
}

/// Looks over a season file on a connection of its own: every page, every row. For a file of ten years of 200 benches this takes
/// about a tenth of a second, so it comes after the first frame.
///
/// # Errors
/// `Damaged` with the first thing found.
pub fn integrity_check(path: &Path) -> Result<(), StoreError> {
    let _held = look_at_head(path)?;
    let _turn = turn(&real(path).map_err(|error| cannot_read(path, error))?);
    let connection = read_only(path)?;
    let _work = Work::begin(Step::CheckFile, 0);
    schema::integrity_check(&connection).map_err(|fault| fault.of(path))
}

/// A connection that can only read.
pub(super) fn read_only(path: &Path) -> Result<Connection, StoreError> {
    let real = real(path).map_err(|error| cannot_read(path, error))?;
    // Where locks are not kept, a connection that may write would take a save of another program back in the middle of it.
    let written_elsewhere = network_fs::name_of(&real).is_some() && !is_ours(&real);
    if !written_elsewhere && let Some(connection) = leaving_nothing(&real) {
        return Ok(connection);
    }
    match connect(&real, READING, None).and_then(prepare) {
        Ok(connection) => Ok(connection),
        // In a folder that cannot be written the log's index cannot be made. With no log there is nothing it would hold.
        Err(_) if needs_no_log(&real) && !has_journal(&real) => alone(path),
        Err(error) => Err(Fault::Sql(error).of(path)),
    }
}

/// A connection that writes nothing, and that clears away the log and its index when it closes as the last one, as SQLite does for
/// connections that may write; those opened read-only make both and leave them there. `None` where there is a log with records in
/// it: a program has the file open, or was killed, and its log is left to it. So it is with a file that may not be written.
///
/// A program that begins to write after this look is safe: SQLite locks as ever, and the last one to close does the clearing away.
fn leaving_nothing(real: &Path) -> Option<Connection> {
    let holds_records = |ending: &str| fs::metadata(with_suffix(real, ending)).is_ok_and(|about| about.len() > 0);
    if holds_records("-wal") || holds_records("-journal") {
        return None;
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = connect(real, flags, None).ok()?;
    if connection.is_readonly("main").ok()? {
        return None;
    }
    connection.pragma_update(None, "query_only", true).ok()?;
    let reads_only: bool = connection.pragma_query_value(None, "query_only", |row| row.get(0)).ok()?;
    if reads_only { prepare(connection).ok() } else { None }
}

/// A connection that can only read, and only the file itself, whatever log lies beside it.
pub(super) fn alone(path: &Path) -> Result<Connection, StoreError> {
    let real = real(path).map_err(|error| cannot_read(path, error))?;
    let flags = READING | OpenFlags::SQLITE_OPEN_URI;
    let opened = connect_to(as_immutable(&real), flags, long::vfs(&real)).and_then(prepare);
    opened.map_err(|error| Fault::Sql(error).of(path))
}

/// How a connection that can only read is opened.
const READING: OpenFlags = OpenFlags::SQLITE_OPEN_READ_ONLY.union(OpenFlags::SQLITE_OPEN_NO_MUTEX);

/// Sets up a connection that can only read, and makes sure that the file reads.
fn prepare(mut connection: Connection) -> Result<Connection, rusqlite::Error> {
    secure(&mut connection)?;
    let _: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    Ok(connection)
}

/// The absolute path of a file that is there, links followed: beside it lies its log, and SQLite takes it for nothing but a path.
fn real(path: &Path) -> io::Result<PathBuf> {
    // Elsewhere SQLite does not follow links, and the path that is made here has a form of its own.
    if cfg!(unix) { path.canonicalize() } else { std::path::absolute(path).map(|path| long::spelled_out(&path)) }
}

/// Opens a connection to a file of this absolute path, in this way to reach files or in the usual one.
pub(super) fn connect(real: &Path, flags: OpenFlags, vfs: Option<&str>) -> Result<Connection, rusqlite::Error> {
    connect_to(real, flags, vfs.or_else(|| long::vfs(real)))
}

fn connect_to(address: impl AsRef<Path>, flags: OpenFlags, vfs: Option<&str>) -> Result<Connection, rusqlite::Error> {
    match vfs {
        None => Connection::open_with_flags(address, flags),
        Some(vfs) => Connection::open_with_flags_and_vfs(address, flags, vfs),
    }
}

fn cannot_read(path: &Path, error: io::Error) -> StoreError {
    match error.kind() {
        ErrorKind::NotFound => StoreError::NotThere { path: path.to_owned() },
        _ => StoreError::File { path: path.to_owned(), doing: "it cannot be read", error },
    }
}

/// A connection that writes, with everything set and read back.
fn writable(path: &Path, vfs: Option<&str>, held: Held, writer: Option<OneWriter>) -> Result<Store, StoreError> {
    let real = real(path).map_err(|error| cannot_read(path, error))?;
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let opened = connect(&real, flags, vfs);
    let of = |error: rusqlite::Error| match error.sqlite_error_code() {
        // The log cannot be made beside the file.
        Some(rusqlite::ErrorCode::CannotOpen) => StoreError::ReadOnly { path: path.to_owned() },
        _ => Fault::Sql(error).of(path),
    };
    let mut connection = opened.map_err(of)?;
    if connection.is_readonly("main").map_err(of)? {
        return Err(StoreError::ReadOnly { path: path.to_owned() });
    }
    secure(&mut connection).map_err(of)?;
    let network = network_fs::name_of(&real);
    if cfg!(windows) && network.is_none() {
        // There SQLite gives a new log to all who may read the folder, on Unix to those who may read the file: so it is there before.
        files::private_file(File::options().write(true).create_new(true), &with_suffix(&real, "-wal")).ok();
    }
    let journaling = journal(&connection, network).map_err(of)?;
    settle(&connection).map_err(of)?;
    schema::migrate(&mut connection, path)?;
    understand(&mut connection, path);
    let seen = Seen::of(&connection).map_err(|fault| fault.of(path))?;
    let (log, logged) = (with_suffix(&real, "-wal"), journaling == Journaling::Wal);
    let identity = Identity::of(path, log, held.clone(), logged).map_err(|error| cannot_read(path, error))?;
    Ok(Store {
        connection,
        path: path.to_owned(),
        real,
        journaling,
        version: schema::NEWEST,
        left_out: Cell::new(0),
        identity: Some(identity),
        seen,
        appended: Vec::new(),
        gone: None,
        seat: None,
        beside: None,
        writer,
        _turn: None,
        held,
    })
}

/// Reads lines that an older program held into their tables. Where that does not work now, it is tried at the next opening.
fn understand(connection: &mut Connection, path: &Path) {
    let to_try = share::is_to_try(connection);
    let done = to_try.and_then(|to_try| {
        if to_try { schema::write(connection, |transaction| share::understand(transaction)) } else { Ok(()) }
    });
    if let Err(fault) = done {
        tracing::warn!(?fault, path = %path.display(), "held lines were not read");
    }
}

/// The write-ahead log where it can be had; else a journal that is cut to nothing after each save.
fn journal(connection: &Connection, network: Option<String>) -> Result<Journaling, rusqlite::Error> {
    let ask =
        |mode: &str| connection.pragma_update_and_check(None, "journal_mode", mode, |row| row.get::<_, String>(0));
    let lock = |mode: &str| {
        connection.pragma_update_and_check(None, "locking_mode", mode, |row| row.get::<_, String>(0)).map(drop)
    };
    // A file may still have a log, from a place where it could be shared; alone it can be taken in and left off.
    let leave_log = || -> Result<String, rusqlite::Error> {
        lock("EXCLUSIVE")?;
        let got = ask("TRUNCATE")?;
        lock("NORMAL")?;
        Ok(got)
    };
    if let Some(kind) = network {
        leave_log()?;
        return Ok(Journaling::Truncate { why: format!("the file lies on a network ({kind})") });
    }
    let got = match ask("WAL") {
        Ok(mode) if mode == "wal" => return Ok(Journaling::Wal),
        Ok(_) => ask("TRUNCATE")?,
        Err(error) if error.sqlite_error_code() == Some(rusqlite::ErrorCode::CannotOpen) => leave_log()?,
        Err(error) => return Err(error),
    };
    Ok(Journaling::Truncate { why: format!("the file system supports none (the journal is '{got}')") })
}

/// The settings every writing connection has. Each is read back: a pragma that is not known says nothing.
fn settle(connection: &Connection) -> Result<(), rusqlite::Error> {
    // A save never writes into the file itself while there is a log: a change of the file is then another program's.
    for (name, value) in [
        ("synchronous", 2_i64),
        ("foreign_keys", 1),
        ("trusted_schema", 0),
        ("recursive_triggers", 1),
        ("wal_autocheckpoint", 0),
    ] {
        connection.pragma_update(None, name, value)?;
        let got: i64 = connection.pragma_query_value(None, name, |row| row.get(0))?;
        if got != value {
            return Err(rusqlite::Error::InvalidParameterName(format!("{name} is {got}, not {value}")));
        }
    }
    Ok(())
}

/// Refuses what is no season file by its head alone, so that nothing of it is touched. The handle is to be kept as long as a
/// connection to the file.
fn look_at_head(path: &Path) -> Result<Held, StoreError> {
    let not_a_season = |why: &str| Err(StoreError::NotASeason { path: path.to_owned(), why: why.to_owned() });
    let failed = |error: io::Error| cannot_read(path, error);
    match files::other_kind(path) {
        Some(folder @ "a folder") => return not_a_season(folder),
        Some(kind) => return not_a_season(&format!("{kind}, not an ordinary file")),
        None => {}
    }
    let held = Held::of(path).map_err(failed)?;
    let about = fs::metadata(path).map_err(failed)?;
    let head = held.head().map_err(failed)?;
    if head.is_empty() {
        return Err(StoreError::Empty { path: path.to_owned() });
    }
    if head.get(..16) != Some(MAGIC.as_slice()) {
        return not_a_season("not a database");
    }
    let short = |detail: String| Err(StoreError::Damaged { path: path.to_owned(), detail });
    let (Some(id), Some(whole)) = (number_at(&head, 68), length_by_head(&head)) else {
        return short("truncated in its header".to_owned());
    };
    if id != schema::APPLICATION_ID {
        return not_a_season("a database of another program");
    }
    // While a log lies beside it the end of the file may still be in there.
    if about.len() < whole && needs_no_log(&real(path).map_err(failed)?) {
        return short(format!("truncated, {} of {whole} bytes", about.len()));
    }
    Ok(held)
}

/// A number in the head of a database, big end first.
fn number_at(head: &[u8], at: usize) -> Option<u32> {
    head.get(at..at + 4)?.try_into().ok().map(u32::from_be_bytes)
}

/// The length a database had by its own head when it was last written; 0 where another program wrote to it since.
fn length_by_head(head: &[u8]) -> Option<u64> {
    let page = match u16::from_be_bytes(head.get(16..18)?.try_into().ok()?) {
        1 => 65_536,
        bytes => u64::from(bytes),
    };
    let current = number_at(head, 24)? == number_at(head, 92)?;
    Some(if current { page * u64::from(number_at(head, 28)?) } else { 0 })
}

/// True when no log lies beside the file, or an empty one.
fn needs_no_log(path: &Path) -> bool {
    fs::metadata(with_suffix(path, "-wal")).map_or(true, |m| m.len() == 0)
}

/// True when the journal of a save lies beside the file: one under way, or cut short.
fn has_journal(path: &Path) -> bool {
    fs::metadata(with_suffix(path, "-journal")).is_ok_and(|about| about.len() > 0)
}

/// The address of a file that will not change while it is open.
fn as_immutable(path: &Path) -> String {
    let mut uri = String::from("file:");
    // The bytes as they are: a name need not be text, and the two strokes before a share are not taken for those before a host.
    for byte in path.as_os_str().as_encoded_bytes().iter().copied() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'.' | b'-' | b'_' => uri.push(char::from(byte)),
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri.push_str("?immutable=1");
    uri
}

/// The path with something after its name.
pub(super) fn with_suffix(path: &Path, suffix: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(suffix);
    PathBuf::from(name)
}
