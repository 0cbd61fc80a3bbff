//! Where things are and who works: the global options, the config file behind them, the platform's folders.

use super::CommandError;
use super::args::{Global, who};
use crate::limits::Limits;
use chrono::NaiveDate;
use etcetera::AppStrategy;
use serde::Deserialize;
use std::path::{Path, PathBuf};

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
#[derive(Debug, Clone, Default, PartialEq, Eq)]
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
}

/// The config file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Config {
    by: Option<String>,
}

impl Settings {
    /// The options as typed, then the config folder's files, then the defaults.
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
            on: global.on,
            limits_file: global.limits.or_else(|| own_limits.exists().then_some(own_limits)),
            by: global.by.or(config.by),
            ascii: global.ascii,
            config_file,
        })
    }

    /// What the review calls the limits used: the file, or the defaults.
    pub fn limits_name(&self) -> String {
        self.limits_file.as_ref().map_or_else(|| "defaults".to_owned(), |path| path.display().to_string())
    }

    /// The limits the rules go by.
    ///
    /// # Errors
    /// When the file cannot be read, or every wrong line of it.
    pub fn limits(&self) -> Result<Limits, CommandError> {
        let Some(path) = &self.limits_file else { return Ok(Limits::default()) };
        let text = read(path)?;
        Limits::parse(&text).map_err(|faults| CommandError::Limits {
            path: path.clone(),
            faults: faults.iter().map(ToString::to_string).collect(),
        })
    }
}

/// Writes who writes into the config file, that it is asked only once. What else stands there stays.
///
/// # Errors
/// When the config folder cannot be written.
pub(super) fn keep_by(config_file: &Path, by: &str) -> Result<(), CommandError> {
    let failed = |error| CommandError::File { path: config_file.to_owned(), error };
    let by = who(by).map_err(|text| CommandError::Config { path: config_file.to_owned(), text })?;
    let there = match std::fs::read_to_string(config_file) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => String::new(),
        Err(error) => return Err(failed(error)),
    };
    let kept = there.lines().filter(|line| line.split('=').next().is_none_or(|key| key.trim() != "by"));
    let mut text = format!("by = {}\n", toml::Value::String(by));
    text.extend(kept.flat_map(|line| [line, "\n"]));
    if let Some(folder) = config_file.parent() {
        std::fs::create_dir_all(folder).map_err(failed)?;
    }
    super::files::write_over(config_file, text.as_bytes())
}

fn read_config(path: &Path) -> Result<Config, CommandError> {
    let wrong = |text: String| CommandError::Config { path: path.to_owned(), text };
    let text = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Config::default()),
        Err(error) => return Err(CommandError::File { path: path.to_owned(), error }),
    };
    let mut config: Config = toml::from_str(&text).map_err(|error| wrong(error.to_string()))?;
    config.by = config.by.map(|by| who(&by)).transpose().map_err(|text| wrong(format!("by: {text}")))?;
    Ok(config)
}

fn read(path: &Path) -> Result<String, CommandError> {
    std::fs::read_to_string(path).map_err(|error| CommandError::File { path: path.to_owned(), error })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_writes_is_kept_beside_what_stands_there() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep/config.toml");
        keep_by(&path, "ml").unwrap();
        std::fs::write(&path, "# mine\nby = \"ml\"\n").unwrap();
        keep_by(&path, "r\"k").unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "by = 'r\"k'\n# mine\n");
        assert_eq!(read_config(&path).unwrap().by.as_deref(), Some("r\"k"));
        assert!(keep_by(&path, "much too long").is_err());
    }
}
