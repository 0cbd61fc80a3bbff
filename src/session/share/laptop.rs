//! Which laptop this is: a random number that stays with it, and what it calls itself.

use crate::characters::in_one_line;
use crate::files::{self, FILE};
use crate::store::Store;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use uuid::Uuid;

use super::super::SessionError;
use super::super::atomic_write::write_new;

/// The most characters of a laptop's name.
const NAME_MOST: usize = 20;

/// The file with the number of this laptop, in the state folder.
const SEAT: &str = "seat";

/// The largest of these that is read.
const SEAT_MOST: u64 = 1_000;

/// This laptop.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Laptop {
    /// What it calls itself: shown on the other laptops.
    pub name: String,
    /// The state folder, where its number lies.
    pub state: PathBuf,
}

impl Laptop {
    /// Reads a name from the settings.
    ///
    /// # Errors
    /// What is wrong with it, and what would be right.
    pub fn named(text: &str) -> Result<String, String> {
        let name = text.trim();
        if (1..=NAME_MOST).contains(&name.chars().count()) && in_one_line(name) == name {
            Ok(name.to_owned())
        } else {
            Err(format!("'{}' is not a name of 1 to {NAME_MOST} characters, such as ann-2", in_one_line(name)))
        }
    }

    /// What this laptop is called where the settings do not say: the name of the machine in the network, up to its first dot.
    pub fn host() -> String {
        name_of_host(&host())
    }

    /// The number of this laptop; made at the first call. A file that was copied from another laptop carries that one's, so that it is
    /// seen that this is another.
    ///
    /// # Errors
    /// [`SessionError::File`] where the number can neither be read nor kept.
    pub fn seat(&self) -> Result<[u8; 16], SessionError> {
        let path = self.state.join(SEAT);
        let failed = |error| SessionError::File { path: path.clone(), error };
        match read(&path) {
            Ok(Some(seat)) => return Ok(seat),
            // Cut short or written over: as good as none.
            Ok(None) => fs::remove_file(&path).map_err(failed)?,
            Err(error) if error.kind() == ErrorKind::NotFound => {}
            Err(error) => return Err(failed(error)),
        }
        files::private_folder(&self.state).map_err(failed)?;
        match write_new(&path, format!("{}\n", random().simple()).as_bytes()) {
            // Another program was quicker.
            Ok(()) | Err(SessionError::Exists { .. }) => {}
            Err(error) => return Err(error),
        }
        let lost = || failed(io::Error::new(ErrorKind::InvalidData, "it is not a number of this program"));
        read(&path).map_err(failed)?.ok_or_else(lost)
    }

    /// Says to an open season file which laptop this is, where the season is shared. Nothing is kept for one that is not.
    ///
    /// # Errors
    /// As [`Laptop::seat`], and where the file cannot be read.
    pub fn sit(&self, store: &mut Store) -> Result<(), SessionError> {
        if store.is_shared()? {
            store.sit(self.seat()?, &self.name);
        }
        Ok(())
    }
}

/// The number in a file; `None` where it holds something else.
fn read(path: &Path) -> io::Result<Option<[u8; 16]>> {
    let bytes = files::read(path, SEAT_MOST, FILE)?;
    let text = String::from_utf8(bytes).unwrap_or_default();
    Ok(Uuid::try_parse(text.trim()).ok().map(Uuid::into_bytes))
}

/// Random digits of the system, as names of temporary files are made of too.
fn random() -> Uuid {
    Uuid::new_v4()
}

#[cfg(unix)]
fn host() -> String {
    rustix::system::uname().nodename().to_string_lossy().into_owned()
}

#[cfg(not(unix))]
fn host() -> String {
    std::env::var("COMPUTERNAME").unwrap_or_default()
}

fn name_of_host(host: &str) -> String {
    let plain = |c: &char| c.is_ascii_alphanumeric() || "-_".contains(*c);
    let name: String = host.split('.').next().unwrap_or_default().chars().filter(plain).take(NAME_MOST).collect();
    if name.is_empty() { "laptop".to_owned() } else { name.to_ascii_lowercase() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_laptop_keeps_its_number_and_another_has_another() {
        let folder = tempfile::tempdir().unwrap();
        let laptop = |name: &str| Laptop { name: name.to_owned(), state: folder.path().join(name) };
        let (ann, bob) = (laptop("ann-2"), laptop("bob"));
        let seat = ann.seat().unwrap();
        assert_eq!(ann.seat().unwrap(), seat);
        assert_ne!(bob.seat().unwrap(), seat);
        fs::write(ann.state.join(SEAT), "0199a000-00").unwrap();
        let new = ann.seat().unwrap();
        assert_ne!(new, seat);
        assert_eq!(ann.seat().unwrap(), new);
        fs::write(folder.path().join("file"), "").unwrap();
        assert!(matches!(laptop("file").seat(), Err(SessionError::File { .. })));
    }

    #[test]
    fn names_are_short_and_can_be_shown() {
        assert_eq!(Laptop::named(" ann-2 ").unwrap(), "ann-2");
        assert_eq!(Laptop::named("café 1").unwrap(), "café 1");
        for wrong in ["", "  ", "a\nb", "a\u{1b}[2J", "a name of too many characters"] {
            assert!(Laptop::named(wrong).is_err(), "{wrong:?}");
        }
        for (host, name) in [("Ann-2.local", "ann-2"), ("", "laptop"), ("é", "laptop"), ("a_b c", "a_bc")] {
            assert_eq!(name_of_host(host), name);
        }
        assert!(Laptop::named(&Laptop::host()).is_ok());
    }
}
