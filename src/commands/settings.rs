//! Where things are and who works: the global options, the config file behind them, the platform's folders.

use super::CommandError;
use crate::characters::short;
use crate::compare::{Chosen, Match};
use crate::files::{self, FILE, SETTINGS_MOST};
use crate::input::Palette;
use crate::journal::FAULTS_SHOWN;
use crate::journal::logger::{Mapping, RawMapping};
use crate::limits::Limits;
use crate::session::daily_backup::Backups;
use crate::session::share::{CarrierSetting, Laptop, RawCarrier, Sharer};
use crate::session::{WantedLastYear, who};
use chrono::NaiveDate;
use clap::Args;
#[cfg(not(windows))]
use etcetera::AppStrategy;
use serde::de::Error;
use serde::{Deserialize, Deserializer};
use std::path::{Path, PathBuf};
use toml::Spanned;

/// Characters of a message that may quote a settings file.
const QUOTED: usize = 200;

/// Options that every command accepts.
#[derive(Debug, Default, Args)]
pub struct Global {
    /// The season file; default: `season.db` in the platform's data folder.
    #[arg(long, global = true, value_name = "FILE")]
    pub season: Option<PathBuf>,
    /// The day to work on, such as 10/12, Oct 12, Fri, -1 or 2026-10-12; default: today at the site.
    #[arg(long, global = true, value_name = "DAY", allow_hyphen_values = true)]
    pub on: Option<String>,
    /// The limits file; default: `limits.toml` in the config folder, if there is one.
    #[arg(long, global = true, value_name = "FILE")]
    pub limits: Option<PathBuf>,
    /// Last year's season file, shown beside this one (see `benchwalk help last-year`), or `none`; default: `beside` in
    /// `config.toml`, or the season of the same site a year before, in the folder of the season or the data folder.
    #[arg(long, global = true, value_name = "FILE")]
    pub beside: Option<PathBuf>,
    /// A lot of last year to show beside one of this year, such as R6=R8; can be repeated.
    #[arg(long = "match", global = true, value_name = "LAST=THIS", value_parser = Match::parse)]
    pub matches: Vec<Match>,
    /// Your initials, 1 to 8 characters; default: `by` in `config.toml`, or asked once.
    #[arg(long, global = true, value_name = "WHO", value_parser = who)]
    pub by: Option<String>,
    /// Use ASCII characters only on the screens; default where the locale is not UTF-8.
    #[arg(long, global = true)]
    pub ascii: bool,
}

/// The folders of this user. Nothing is made until something is to be written there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folders {
    /// Season files.
    pub data: PathBuf,
    /// `config.toml`, `limits.toml`.
    pub config: PathBuf,
    /// The log.
    pub state: PathBuf,
}

impl Folders {
    /// The platform's own folders.
    ///
    /// # Errors
    /// When the user has no home folder.
    pub fn of_platform() -> Result<Self, CommandError> {
        #[cfg(windows)]
        {
            use etcetera::BaseStrategy;
            let base =
                etcetera::base_strategy::Windows::new().map_err(|error| CommandError::NoHome(error.to_string()))?;
            Ok(Self::of_windows(&base.config_dir(), &base.cache_dir()))
        }
        #[cfg(not(windows))]
        Self::of_unix()
    }

    /// Where Windows keeps them: settings go with the user to other machines; a season and its copies stay on this one, for a file
    /// that is open is not copied whole.
    #[cfg(any(windows, test))]
    fn of_windows(roaming: &Path, local: &Path) -> Self {
        let (ours, local) = (roaming.join("benchwalk"), local.join("benchwalk"));
        Self { data: local.join("data"), config: ours.join("config"), state: local.join("state") }
    }

    #[cfg(not(windows))]
    fn of_unix() -> Result<Self, CommandError> {
        let app = etcetera::AppStrategyArgs {
            top_level_domain: String::new(),
            author: String::new(),
            app_name: "benchwalk".to_owned(),
        };
        let native = etcetera::app_strategy::choose_native_strategy(app)
            .map_err(|error| CommandError::NoHome(error.to_string()))?;
        let data = native.data_dir();
        let state = native.state_dir().unwrap_or_else(|| data.join("log"));
        Ok(Self { data, config: native.config_dir(), state })
    }

    /// All folders under one; for tests and for a stick.
    pub fn under(root: &Path) -> Self {
        Self { data: root.join("data"), config: root.join("config"), state: root.join("state") }
    }
}

/// What the command works on.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Settings {
    /// The season file.
    pub season: PathBuf,
    /// True when it was named on the command line.
    pub season_named: bool,
    /// The day given.
    pub on: Option<NaiveDate>,
    /// The limits file used; none means the defaults.
    pub limits_file: Option<PathBuf>,
    /// Who writes, when known.
    pub by: Option<String>,
    /// The config file, there or not.
    pub config_file: PathBuf,
    /// Only ASCII signs on the screens.
    pub ascii: bool,
    /// How the weights of text are drawn on the screens.
    pub palette: Palette,
    /// Dated copies of the season.
    pub backups: Backups,
    /// The climate loggers.
    pub loggers: Vec<Mapping>,
    /// What is wanted of last year.
    pub last_year: WantedLastYear,
    /// This laptop, and the folders and hubs that seasons are shared over.
    pub sharer: Sharer,
}

/// The config file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Config {
    by: Option<String>,
    daily_backups: Option<bool>,
    backup_folder: Option<PathBuf>,
    #[serde(default, deserialize_with = "palette")]
    palette: Palette,
    beside: Option<PathBuf>,
    #[serde(default, rename = "match", deserialize_with = "matches")]
    matches: Vec<Match>,
    #[serde(default)]
    logger: Vec<Spanned<RawMapping>>,
    /// The loggers, once they are found to be good.
    #[serde(skip)]
    loggers: Vec<Mapping>,
    laptop: Option<String>,
    #[serde(default)]
    share: Vec<Spanned<RawCarrier>>,
    /// The carriers, once they are found to be good.
    #[serde(skip)]
    carriers: Vec<CarrierSetting>,
}

/// Reads lots that are matched by hand.
fn matches<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Match>, D::Error> {
    let wrong =
        |error: D::Error| D::Error::custom(format!("match: give a list of pairs, such as [\"R6=R8\"]: {error}"));
    let texts: Vec<String> = Vec::deserialize(from).map_err(wrong)?;
    let one =
        |text: &String| Match::parse(text).map_err(|why| D::Error::custom(format!("match: {}", short(&why, QUOTED))));
    texts.iter().map(one).collect()
}

/// What is wanted of last year, by the options and the config file; `none` in the place of a file means nothing.
fn last_year(beside: Option<PathBuf>, matches: Vec<Match>, config: (Option<PathBuf>, Vec<Match>)) -> WantedLastYear {
    let named = beside.map(|path| (path, Chosen::Named));
    let (mut file, mut off) = (named.or_else(|| config.0.map(|path| (path, Chosen::Configured))), false);
    if file.as_ref().is_some_and(|(path, _)| path == Path::new("none")) {
        (file, off) = (None, true);
    }
    // What was typed comes first: of two matches of one lot the first is used.
    WantedLastYear { file, off, by_hand: matches.into_iter().chain(config.1).collect() }
}

/// Reads a palette by its name.
fn palette<'de, D: Deserializer<'de>>(from: D) -> Result<Palette, D::Error> {
    let value = toml::Value::deserialize(from)?;
    value.as_str().and_then(Palette::named).ok_or_else(|| {
        let known = Palette::ALL.map(Palette::name).join(", ");
        D::Error::custom(format!("palette: {} is not one of {known}", short(&value.to_string(), QUOTED / 4)))
    })
}

impl Settings {
    /// The options as typed, then the config folder's files, then the defaults. `on` is left open: a day is read by the site.
    ///
    /// # Errors
    /// When the config file cannot be read or says something it does not know.
    pub(super) fn resolve(global: Global, folders: &Folders) -> Result<Self, CommandError> {
        let config_file = folders.config.join("config.toml");
        let config = read_config(&config_file)?;
        let own_limits = folders.config.join("limits.toml");
        Ok(Self {
            season_named: global.season.is_some(),
            season: global.season.unwrap_or_else(|| folders.data.join("season.db")),
            on: None,
            limits_file: global.limits.map_or_else(|| there(own_limits), |named| Ok(Some(named)))?,
            by: global.by.or(config.by),
            ascii: global.ascii,
            palette: config.palette,
            last_year: last_year(global.beside, global.matches, (config.beside, config.matches)),
            backups: Backups::new(&folders.data, config.daily_backups, config.backup_folder),
            loggers: config.loggers,
            sharer: Sharer {
                laptop: Laptop { name: config.laptop.unwrap_or_else(Laptop::host), state: folders.state.clone() },
                carriers: config.carriers,
            },
            config_file,
        })
    }

    /// What the review calls the limits used: the file, or the defaults.
    pub fn limits_name(&self) -> String {
        self.limits_file.as_ref().map_or_else(|| "defaults".to_owned(), |path| files::shown(path))
    }

    /// The limits the rules use.
    ///
    /// # Errors
    /// When the file cannot be read, or every wrong line of it.
    pub fn limits(&self) -> Result<Limits, CommandError> {
        let Some(path) = &self.limits_file else { return Ok(Limits::default()) };
        let failed = |error| CommandError::File { path: path.clone(), error };
        let text = files::text(path, SETTINGS_MOST, FILE).map_err(failed)?;
        Limits::parse(&text).map_err(|faults| CommandError::Limits {
            path: path.clone(),
            faults: faults.iter().take(FAULTS_SHOWN).map(ToString::to_string).collect(),
            more: faults.len().saturating_sub(FAULTS_SHOWN),
        })
    }
}

fn read_config(path: &Path) -> Result<Config, CommandError> {
    let wrong = |text: String| CommandError::Config { path: path.to_owned(), text };
    let text = match files::text(path, SETTINGS_MOST, FILE) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Config::default()),
        Err(error) => return Err(CommandError::File { path: path.to_owned(), error }),
    };
    let mut config: Config = toml::from_str(&text).map_err(|error| wrong(said(&error, &text)))?;
    if let Some(file) = config.beside.as_ref().filter(|file| !file.is_absolute() && *file != Path::new("none")) {
        let file = files::shown(file);
        return Err(wrong(format!(
            "beside: '{file}' is not a full path; give one that starts at the root, such as '/mnt/stick/season.db', or 'none'"
        )));
    }
    config.by = config.by.map(|by| who(&by)).transpose().map_err(|text| wrong(format!("by: {text}")))?;
    if let Some(folder) = config.backup_folder.as_ref().filter(|folder| !folder.is_absolute()) {
        let folder = files::shown(folder);
        return Err(wrong(format!(
            "backup_folder: '{folder}' is not a full path; give one that starts at the root, such as '/mnt/stick'"
        )));
    }
    config.loggers = loggers(std::mem::take(&mut config.logger), &text).map_err(wrong)?;
    config.laptop =
        config.laptop.map(|name| Laptop::named(&name)).transpose().map_err(|text| wrong(format!("laptop: {text}")))?;
    config.carriers = carriers(std::mem::take(&mut config.share), &text).map_err(wrong)?;
    Ok(config)
}

/// The loggers of the config file; what is wrong with one is reported by the line it begins on.
fn loggers(tables: Vec<Spanned<RawMapping>>, text: &str) -> Result<Vec<Mapping>, String> {
    let mut all: Vec<Mapping> = Vec::new();
    for table in tables {
        let line = line_of(text, table.span().start);
        let mapping = Mapping::try_from(table.into_inner()).map_err(|fault| format!("line {line}: {fault}"))?;
        if all.iter().any(|other| other.name == mapping.name) {
            return Err(format!("line {line}: there is a logger {} already; give each its own name", mapping.name));
        }
        all.push(mapping);
    }
    Ok(all)
}

/// The carriers of the config file, in the same way.
fn carriers(tables: Vec<Spanned<RawCarrier>>, text: &str) -> Result<Vec<CarrierSetting>, String> {
    let mut all: Vec<CarrierSetting> = Vec::new();
    for table in tables {
        let line = line_of(text, table.span().start);
        let carrier = CarrierSetting::try_from(table.into_inner()).map_err(|fault| format!("line {line}: {fault}"))?;
        if all.iter().any(|other| (other.season, &other.name) == (carrier.season, &carrier.name)) {
            let name = carrier.name;
            return Err(format!("line {line}: the season is shared over a {name} already; give each its own name"));
        }
        all.push(carrier);
    }
    Ok(all)
}

/// The line of a byte, from 1.
fn line_of(text: &str, byte: usize) -> usize {
    text.get(..byte).unwrap_or_default().matches('\n').count().saturating_add(1)
}

/// What the reader of the file says, with its line; nothing of the file is quoted at length.
fn said(error: &toml::de::Error, text: &str) -> String {
    let line = line_of(text, error.span().map_or(0, |at| at.start));
    format!("line {line}: {}", short(error.message(), QUOTED))
}

/// The file, where it is there. One that cannot be looked at is an error: its limits are not to be left out unseen.
fn there(path: PathBuf) -> Result<Option<PathBuf>, CommandError> {
    match path.try_exists() {
        Ok(there) => Ok(there.then_some(path)),
        Err(error) => Err(CommandError::File { path, error }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn on_windows_only_settings_go_with_the_user() {
        let folders = Folders::of_windows(Path::new("Roaming"), Path::new("Local"));
        assert!(folders.config.starts_with("Roaming/benchwalk"));
        assert!(folders.data.starts_with("Local/benchwalk") && folders.state.starts_with("Local/benchwalk"));
        assert_ne!(folders.data, folders.state);
    }
}
