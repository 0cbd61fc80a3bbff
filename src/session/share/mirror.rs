//! Mirrors of all seasons that lie at a folder or hub: a file each, to be read only, brought up to date by an exchange that gives
//! nothing.

use super::CarrierPlace;
use super::begin::{ShareError, asked};
use crate::exchange::{Batches, Carrier, CarrierError, Exchanged, Offered, Stopped, take_only};
use crate::progress::{Step, Work};
use crate::session::SessionError;
use crate::store::{Mirror, StoreError};
use chrono::{DateTime, Utc};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// The most characters of a site's name in the name of a file.
const NAME_MOST: usize = 40;

/// The digits of the season's id in the name of a file: its last ones, for the first are often those of a time.
const DIGITS: usize = 12;

/// Why the mirror of a season was not brought up to date.
#[derive(Debug)]
pub enum NotMirrored {
    /// The folder or hub.
    Carrier(CarrierError),
    /// The file.
    Store(StoreError),
    /// A file of another season has its name.
    OtherSeason,
}

/// What became of the mirror of a season.
#[derive(Debug)]
pub struct Mirrored {
    /// The season, as it is offered.
    pub offered: Offered,
    /// Its file.
    pub path: PathBuf,
    /// What was taken, also where it failed later.
    pub did: Exchanged,
    /// Why it is not up to date.
    pub failed: Option<NotMirrored>,
}

/// Brings the mirrors of all seasons that lie at a place up to date, and makes those that are missing. A season that fails does not
/// keep the others back.
///
/// # Errors
/// [`ShareError`] where the place cannot be asked what lies there, the folder of the mirrors cannot be used, or the work was asked to
/// stop.
pub fn mirror(place: &CarrierPlace, folder: &Path, now: DateTime<Utc>) -> Result<Vec<Mirrored>, ShareError> {
    let failed = |error| SessionError::File { path: folder.to_owned(), error };
    std::fs::create_dir_all(folder).map_err(failed)?;
    let there = files(folder).map_err(failed)?;
    asked(place, now, |carrier| {
        let offered = carrier.seasons()?;
        Ok(all(carrier, offered, &there, folder))
    })?
    .map_err(ShareError::from)
}

/// One season after the other.
fn all(
    carrier: &mut dyn Carrier,
    offered: Vec<Offered>,
    there: &[PathBuf],
    folder: &Path,
) -> Result<Vec<Mirrored>, StoreError> {
    let mut work = Work::begin(Step::Mirror, offered.len());
    let mut done = Vec::new();
    for offered in offered {
        let path = path_of(&offered, there, folder);
        let mut did = Exchanged::default();
        let failed = match one(carrier, offered.season, &path, &mut did) {
            Err(NotMirrored::Store(StoreError::Stopped)) => return Err(StoreError::Stopped),
            result => result.err(),
        };
        done.push(Mirrored { offered, path, did, failed });
        work.reached(done.len())?;
    }
    Ok(done)
}

fn one(carrier: &mut dyn Carrier, season: Uuid, path: &Path, did: &mut Exchanged) -> Result<(), NotMirrored> {
    let opened = if path.symlink_metadata().is_ok() { Mirror::open(path) } else { Mirror::create(path, season) };
    let mut mirror = opened.map_err(NotMirrored::Store)?;
    if mirror.season_id().map_err(NotMirrored::Store)? != Some(season) {
        return Err(NotMirrored::OtherSeason);
    }
    let taken = take_only(&mut mirror, carrier, season, Batches::default(), did);
    let closed = mirror.close();
    taken.map_err(|stopped| match stopped {
        Stopped::Carrier(error) => NotMirrored::Carrier(error),
        Stopped::Replica(error) => NotMirrored::Store(error),
    })?;
    closed.map_err(NotMirrored::Store)
}

/// The season files of a folder, by name.
fn files(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let all = std::fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path()));
    let mut all: Vec<PathBuf> = all.collect::<Result<_, _>>()?;
    all.sort();
    Ok(all)
}

/// The file of a season: the one that has its digits, whatever its site was called then, else a new name.
fn path_of(offered: &Offered, there: &[PathBuf], folder: &Path) -> PathBuf {
    let id = offered.season.simple().to_string();
    let ending = format!("-{}.db", id.get(id.len().saturating_sub(DIGITS)..).unwrap_or_default());
    let has = |path: &&PathBuf| path.file_name().is_some_and(|name| name.to_string_lossy().ends_with(&ending));
    let new = || folder.join(format!("{}{ending}", plain(offered.name.as_deref().unwrap_or_default())));
    there.iter().find(has).cloned().unwrap_or_else(new)
}

/// A name of small letters, digits and dashes, such as every file system takes.
fn plain(name: &str) -> String {
    let mut out = String::new();
    for c in name.to_lowercase().chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
        if out.len() >= NAME_MOST {
            break;
        }
    }
    let out = out.trim_end_matches('-');
    if out.is_empty() { "season".to_owned() } else { out.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_by_its_site_and_season_and_keeps_its_name() {
        let offered = |name: Option<&str>| Offered {
            season: Uuid::from_u128(0x0199_0000_0000_7000_8000_00ab_cdef_0123),
            name: name.map(str::to_owned),
            may_write: false,
        };
        let folder = Path::new("/mirror");
        let name = |name: Option<&str>, there: &[PathBuf]| path_of(&offered(name), there, folder);
        assert_eq!(name(Some("Quillby Rise"), &[]), folder.join("quillby-rise-00abcdef0123.db"));
        assert_eq!(name(Some("../Dell & Mill: «nord» "), &[]), folder.join("dell-mill-nord-00abcdef0123.db"));
        assert_eq!(name(Some("温室"), &[]), folder.join("season-00abcdef0123.db"));
        assert_eq!(name(None, &[]), folder.join("season-00abcdef0123.db"));
        let long = name(Some(&"long name ".repeat(30)), &[]);
        assert!(long.file_name().unwrap().len() <= NAME_MOST + DIGITS + 4, "{long:?}");
        let there = [folder.join("birch-flat-00abcdef9999.db"), folder.join("rise-00abcdef0123.db")];
        assert_eq!(name(Some("Quillby Rise"), &there), there[1]);
    }
}
