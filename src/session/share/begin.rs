//! How a season begins to be shared, and how a laptop joins one.

use super::hubs::HubClock;
use super::season::site_of;
use super::settings::{CarrierPlace, Sharer};
use crate::exchange::{Carrier, CarrierError, Offered, Stream};
use crate::files::shown;
use crate::record::Line;
use crate::session::{SessionError, is_there};
use crate::store::{Store, StoreError};
use chrono::{DateTime, Utc};
use std::path::{Path, PathBuf};
use thiserror::Error;
use uuid::Uuid;

/// The fewest digits of an id that name a season.
const DIGITS: usize = 4;

/// Why a season is not shared.
#[derive(Debug, Error)]
pub enum ShareError {
    /// What the season file says.
    #[error(transparent)]
    Session(#[from] SessionError),
    /// What the folder or hub says.
    #[error("{place}: {error}")]
    Carrier {
        /// The folder, or the words of the hub.
        place: String,
        /// Why.
        error: CarrierError,
    },
    /// Do what the text says.
    #[error("{0}")]
    Refused(String),
}

impl From<StoreError> for ShareError {
    fn from(error: StoreError) -> Self {
        Self::Session(SessionError::Store(error))
    }
}

/// A season that is shared from now on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Begun {
    /// Its id.
    pub season: Uuid,
    /// The name of its site.
    pub site: String,
    /// The season file to go on with.
    pub path: PathBuf,
    /// True where lines of it lie there already, or a place was made for them.
    pub lay_there: bool,
    /// The other seasons that lie there.
    pub others: Vec<Offered>,
}

/// The seasons that lie at a place.
fn lying_at(place: &CarrierPlace, now: DateTime<Utc>) -> Result<Vec<Offered>, ShareError> {
    asked(place, now, |carrier| carrier.seasons())
}

pub(super) fn asked<T>(
    place: &CarrierPlace,
    now: DateTime<Utc>,
    ask: impl FnOnce(&mut dyn Carrier) -> Result<T, CarrierError>,
) -> Result<T, ShareError> {
    let clock = HubClock::default();
    clock.set(now);
    let carrier = place.open(Stream(Uuid::nil()), &clock);
    let answer = carrier.and_then(|mut carrier| ask(carrier.as_mut()));
    answer.map_err(|error| match error {
        CarrierError::NotThere { place } => {
            ShareError::Refused(format!("{place} is not there; put the stick in, or make the folder first"))
        }
        error => ShareError::Carrier { place: place.to_string(), error },
    })
}

/// Finds the season that was asked for: by its id, some digits at its start or end, or the name of its site.
fn find<'a>(offered: &'a [Offered], place: &CarrierPlace, text: &str) -> Result<&'a Offered, ShareError> {
    let digits: String = text.to_lowercase().chars().filter(|c| *c != '-').collect();
    let is_id = digits.len() >= DIGITS && digits.bytes().all(|b| b.is_ascii_hexdigit());
    let by_id = |offered: &Offered| {
        let id = offered.season.simple().to_string();
        is_id && (id.starts_with(&digits) || id.ends_with(&digits))
    };
    let by_name =
        |offered: &Offered| offered.name.as_ref().is_some_and(|name| name.to_lowercase() == text.to_lowercase());
    let found: Vec<&Offered> = offered.iter().filter(|offered| by_id(offered) || by_name(offered)).collect();
    match found.as_slice() {
        [one] => Ok(one),
        [] => Err(ShareError::Refused(format!(
            "'{}' does not lie in {place}; {}",
            crate::characters::in_one_line(text),
            listed(offered)
        ))),
        several => Err(ShareError::Refused(format!(
            "'{}' names {} seasons in {place}; give one by its id: {}",
            crate::characters::in_one_line(text),
            several.len(),
            several.iter().map(|offered| offered.called()).collect::<Vec<_>>().join(", ")
        ))),
    }
}

fn listed(offered: &[Offered]) -> String {
    if offered.is_empty() {
        return "no season lies there".to_owned();
    }
    let all: Vec<String> = offered.iter().map(Offered::called).collect();
    format!("there {}: {}", if all.len() == 1 { "is" } else { "are" }, all.join(", "))
}

/// Begins to share the season of a file over a place, or goes on with what lies there of it. With `join` it is the season named so,
/// also where this file was begun by itself at the same site; `new` begins a season although one of the same site lies there.
///
/// # Errors
/// [`ShareError`]; nothing was changed.
pub fn begin(
    path: &Path,
    sharer: &Sharer,
    place: &CarrierPlace,
    (join, new): (Option<&str>, bool),
    now: DateTime<Utc>,
) -> Result<Begun, ShareError> {
    if !is_there(path)? {
        return Err(ShareError::Refused(format!(
            "there is no season file yet: {}; begin the season, or make the file from what lies there with 'benchwalk share join'",
            shown(path)
        )));
    }
    let mut store = Store::open(path)?;
    let site = site_of(&store)?;
    let Some(own) = store.season_id()? else {
        return Err(ShareError::Refused(format!("the season has no site yet: {}; set it up first", shown(path))));
    };
    let offered = lying_at(place, now)?;
    let (others, here): (Vec<Offered>, Vec<Offered>) = offered.iter().cloned().partition(|o| o.season != own);
    let named = join.map(|text| find(&offered, place, text)).transpose()?;
    let same_site = others.iter().find(|offered| offered.name.as_deref() == Some(site.as_str()));
    let (season, path) = match (named, same_site) {
        (Some(named), _) if named.season != own => {
            if named.name.as_deref() != Some(site.as_str()) {
                return Err(other_site(named, place, &site, path));
            }
            if store.is_shared()? {
                return Err(ShareError::Refused(format!(
                    "{} is shared as a season of its own already; it cannot become another one",
                    shown(path)
                )));
            }
            (named.season, brought_in(&store, named.season, path)?)
        }
        (None, Some(other)) if here.is_empty() && !new => return Err(same_site_there(other, place, path)),
        _ => (own, path.to_owned()),
    };
    if season != own {
        store.close()?;
        store = Store::open(&path)?;
    }
    asked(place, now, |carrier| carrier.begin(season, &site))?;
    store.share(sharer.laptop.seat()?, &sharer.laptop.name)?;
    store.close()?;
    let lay_there = offered.iter().any(|offered| offered.season == season);
    let others = offered.into_iter().filter(|offered| offered.season != season).collect();
    Ok(Begun { season, site, path, lay_there, others })
}

fn other_site(named: &Offered, place: &CarrierPlace, site: &str, path: &Path) -> ShareError {
    let file = shown(path);
    ShareError::Refused(format!(
        "{} in {place} is the season of another site than {file}, which holds {site}; to walk both, make a file of its own: \
         benchwalk share join … {} --season NEW.db",
        named.called(),
        named.season
    ))
}

fn same_site_there(other: &Offered, place: &CarrierPlace, path: &Path) -> ShareError {
    let (file, id) = (shown(path), other.season);
    ShareError::Refused(format!(
        "{place} holds a season of the same site that was begun by itself: {}. To make {file} one with it, add --join {id}; to begin \
         another season next to it, add --new",
        other.called()
    ))
}

/// Writes what a file holds into a new one of another season; gives its path.
fn brought_in(store: &Store, season: Uuid, path: &Path) -> Result<PathBuf, ShareError> {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let new = path.with_file_name(format!("{stem}-shared.db"));
    if is_there(&new)? {
        return Err(ShareError::Refused(format!(
            "{} is there already; move it away, or go on with it: --season",
            shown(&new)
        )));
    }
    let (plan, entries) = store.load()?;
    let mut lines = plan.lines();
    lines.extend(entries.into_iter().map(Line::Entry));
    let (store, _saved) = Store::create_with(&new, &lines, Some(season))?;
    store.close()?;
    Ok(new)
}

/// Makes a season file for what lies at a place, still without lines; the first exchange fills it. Gives what lies there of it.
///
/// # Errors
/// [`ShareError`]; no file was made.
pub fn join(
    path: &Path,
    sharer: &Sharer,
    place: &CarrierPlace,
    text: Option<&str>,
    now: DateTime<Utc>,
) -> Result<Offered, ShareError> {
    if is_there(path)? {
        return Err(ShareError::Refused(format!(
            "there is a season file already: {}; name a new one with --season, or share that one with 'benchwalk share on'",
            shown(path)
        )));
    }
    let offered = lying_at(place, now)?;
    let found = match (text, offered.as_slice()) {
        (Some(text), _) => find(&offered, place, text)?,
        (None, [one]) => one,
        (None, []) => {
            return Err(ShareError::Refused(format!(
                "no season lies in {place}; begin one on the laptop that has it: benchwalk share on"
            )));
        }
        (None, several) => {
            return Err(ShareError::Refused(format!("several seasons lie in {place}; name one: {}", listed(several))));
        }
    };
    let season = found.season;
    if asked(place, now, |carrier| carrier.heads(season))?.is_empty() {
        return Err(ShareError::Refused(format!(
            "nothing of {} lies in {place} yet; exchange first on the laptop that has it: benchwalk share",
            found.called()
        )));
    }
    let seat = sharer.laptop.seat()?;
    let (mut store, _saved) = Store::create_with(path, &[], Some(season))?;
    store.share(seat, &sharer.laptop.name)?;
    store.close()?;
    Ok(found.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn offered() -> Vec<Offered> {
        let one = |id: u128, name: Option<&str>| Offered {
            season: Uuid::from_u128(id),
            name: name.map(str::to_owned),
            may_write: true,
        };
        vec![one(0xabcd_0001, Some("Wrenby Hill")), one(0xabcd_0002, Some("Wrenby Hill")), one(0x77_7777, None)]
    }

    #[test]
    fn a_season_is_found_by_its_id_or_its_site() {
        let (all, place) = (offered(), CarrierPlace::Folder("/mnt/stick".into()));
        let found =
            |text: &str| find(&all, &place, text).map(|o| o.season.as_u128()).map_err(|error| error.to_string());
        assert_eq!(found("abcd0002"), Ok(0xabcd_0002));
        assert_eq!(found("00000000-0000-0000-0000-0000abcd0001"), Ok(0xabcd_0001));
        assert_eq!(found("7777"), Ok(0x77_7777));
        let several = found("wrenby hill").unwrap_err();
        assert!(
            several.starts_with("'wrenby hill' names 2 seasons in /mnt/stick; give one by its id: Wrenby Hill (000"),
            "{several}"
        );
        let none = found("Birch Flat").unwrap_err();
        assert!(none.starts_with("'Birch Flat' does not lie in /mnt/stick; there are: Wrenby Hill (0"), "{none}");
        assert!(none.contains("a season without a name ("), "{none}");
        assert_eq!(
            find(&[], &place, "x").unwrap_err().to_string(),
            "'x' does not lie in /mnt/stick; no season lies there"
        );
    }
}
