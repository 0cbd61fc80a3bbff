//! The carriers as the settings name them.

use super::Laptop;
use crate::characters::in_one_line;
use crate::exchange::{Carrier, CarrierError, Stream};
use crate::files;
use crate::folder::Folder;
use serde::Deserialize;
use std::fmt;
use std::path::PathBuf;
use uuid::Uuid;

/// Minutes between two exchanges while the screens are open, where the settings do not say.
pub const EVERY: u32 = 5;

/// The most minutes between two exchanges.
const EVERY_MOST: u32 = 1_440;

/// The most characters of a carrier's name.
const NAME_MOST: usize = 20;

/// A table `[[share]]` as it is written.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RawCarrier {
    season: String,
    name: String,
    folder: Option<PathBuf>,
    hub: Option<String>,
    every: Option<i64>,
}

/// Where a carrier is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CarrierPlace {
    /// A folder or stick.
    Folder(PathBuf),
    /// A hub, by the key words of its service.
    Hub(String),
}

impl fmt::Display for CarrierPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Folder(path) => f.write_str(&files::shown(path)),
            Self::Hub(words) => f.write_str(&in_one_line(words)),
        }
    }
}

/// A carrier of a season.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CarrierSetting {
    /// The season it carries.
    pub season: Uuid,
    /// What it is called here.
    pub name: String,
    /// Where it is.
    pub place: CarrierPlace,
    /// Minutes between two exchanges while the screens are open; 0 where only by command.
    pub every: u32,
}

impl TryFrom<RawCarrier> for CarrierSetting {
    type Error = String;

    fn try_from(raw: RawCarrier) -> Result<Self, String> {
        let RawCarrier { season, name, folder, hub, every } = raw;
        let season = Uuid::try_parse(&season).map_err(|error| {
            format!(
                "season: '{}' is not the id of a season ({error}); 'benchwalk share on' writes it",
                in_one_line(&season)
            )
        })?;
        let name = Self::named(&name).map_err(|why| format!("name: {why}"))?;
        let place = match (folder, hub) {
            (Some(folder), None) if folder.is_absolute() => CarrierPlace::Folder(folder),
            (Some(folder), None) => {
                let folder = files::shown(&folder);
                return Err(format!(
                    "folder: '{folder}' is not a full path; give one that starts at the root, such as '/mnt/stick'"
                ));
            }
            (None, Some(hub)) => CarrierPlace::Hub(hub),
            _ => return Err(format!("{name}: give one of folder and hub")),
        };
        let every = match every {
            None => EVERY,
            Some(every) => u32::try_from(every)
                .ok()
                .filter(|every| *every <= EVERY_MOST)
                .ok_or_else(|| format!("every: is {every}; give minutes from 0 (only by command) to {EVERY_MOST}"))?,
        };
        Ok(Self { season, name, place, every })
    }
}

impl CarrierSetting {
    /// Reads the name of a carrier.
    ///
    /// # Errors
    /// What is wrong with it, and what would be right.
    pub fn named(text: &str) -> Result<String, String> {
        let good = |c: char| c.is_alphanumeric() || "-_".contains(c);
        if (1..=NAME_MOST).contains(&text.chars().count()) && text.chars().all(good) {
            Ok(text.to_owned())
        } else {
            let text = in_one_line(text);
            Err(format!(
                "'{text}' is not a name of 1 to {NAME_MOST} letters, digits and dashes, such as stick or office"
            ))
        }
    }

    /// A name for a carrier that was given none: the last part of its path, or `office` for a hub; with a number where others have
    /// that name already.
    pub fn free_name(place: &CarrierPlace, taken: &[&str]) -> String {
        let plain = |text: String| -> String {
            let fits = |c: &char| c.is_alphanumeric() || "-_".contains(*c);
            text.to_lowercase().chars().filter(fits).take(NAME_MOST - 3).collect()
        };
        let base = match place {
            CarrierPlace::Folder(path) => plain(path.file_name().unwrap_or_default().to_string_lossy().into_owned()),
            CarrierPlace::Hub(_) => "office".to_owned(),
        };
        let base = if base.is_empty() { "folder".to_owned() } else { base };
        let numbered = (2..).map(|n: u32| format!("{base}-{n}"));
        let mut names = std::iter::once(base.clone()).chain(numbered);
        names.find(|name| !taken.contains(&name.as_str())).unwrap_or(base)
    }
}

impl CarrierPlace {
    /// The carrier there; nothing is asked of it yet. `own` is the stream that this laptop writes.
    pub(super) fn open(
        &self,
        own: Stream,
        clock: &super::hubs::HubClock,
    ) -> Result<Box<dyn Carrier + Send>, CarrierError> {
        match self {
            Self::Folder(root) => Ok(Box::new(Folder::open(root.clone(), own))),
            Self::Hub(words) => super::hubs::open(words, clock),
        }
    }

    /// Where it is, for people.
    pub(super) fn shown(&self) -> String {
        match self {
            Self::Folder(_) => self.to_string(),
            Self::Hub(words) => super::hubs::place(words).unwrap_or_else(|_unknown| self.to_string()),
        }
    }
}

/// What of the settings sharing needs.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sharer {
    /// This laptop.
    pub laptop: Laptop,
    /// The carriers of all seasons, in the order of the settings.
    pub carriers: Vec<CarrierSetting>,
}

impl Sharer {
    /// The carriers of a season.
    pub fn of(&self, season: Uuid) -> Vec<CarrierSetting> {
        self.carriers.iter().filter(|carrier| carrier.season == season).cloned().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(rest: &str) -> Result<CarrierSetting, String> {
        let text = format!("season = \"0199e1e2-0000-7000-8000-000000000001\"\n{rest}");
        let raw: RawCarrier = toml::from_str(&text).map_err(|error| error.message().to_owned())?;
        raw.try_into()
    }

    #[test]
    fn a_carrier_is_a_folder_or_a_hub() {
        let folder = if cfg!(windows) { r"E:\BENCH" } else { "/media/ml/BENCH" };
        let stick = read(&format!("name = \"stick\"\nfolder = '{folder}'")).unwrap();
        assert_eq!((stick.every, stick.place), (5, CarrierPlace::Folder(folder.into())));
        let office = read("name = \"office\"\nhub = \"service=benchwalk\"\nevery = 0").unwrap();
        assert_eq!((office.every, office.place), (0, CarrierPlace::Hub("service=benchwalk".to_owned())));
        for (wrong, said) in [
            ("name = \"stick\"", "stick: give one of folder and hub"),
            ("name = \"a b\"\nfolder = \"/x\"", "name: 'a b' is not a name of 1 to 20 letters"),
            ("name = \"stick\"\nfolder = \"BENCH\"", "folder: 'BENCH' is not a full path"),
            ("name = \"stick\"\nhub = \"host=x\"\nevery = -1", "every: is -1; give minutes from 0"),
            ("name = \"stick\"\nfolder = \"/x\"\nhubs = \"y\"", "unknown field `hubs`"),
        ] {
            let error = read(wrong).unwrap_err();
            assert!(error.starts_with(said), "{error}");
        }
    }

    #[test]
    fn a_carrier_that_was_given_no_name_gets_one() {
        let folder = |path: &str| CarrierPlace::Folder(path.into());
        assert_eq!(CarrierSetting::free_name(&folder("/media/ml/BENCH STICK"), &[]), "benchstick");
        assert_eq!(CarrierSetting::free_name(&folder("/"), &["folder", "folder-2"]), "folder-3");
        assert_eq!(CarrierSetting::free_name(&CarrierPlace::Hub("service=x".to_owned()), &["office"]), "office-2");
    }
}
