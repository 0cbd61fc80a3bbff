//! The config file as the screens change it: one setting at a time, beside what else stands in it.

use super::{SessionError, atomic_write};
use crate::files::{self, FILE, SETTINGS_MOST};
use crate::model::Setting;
use crate::record::{Value, rules, schema};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

/// Reads the name of a writer, by the rule of the journal's field.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub fn who(text: &str) -> Result<String, String> {
    let value = Value::Text(text.trim().to_owned());
    match schema::ENTRY.field("by").and_then(|field| rules::check_value(field, &value)) {
        None => Ok(text.trim().to_owned()),
        Some(fault) => Err(fault.text),
    }
}

/// Writes a setting into the config file, for the next start. The rest of the file is kept.
///
/// # Errors
/// When the name of a writer is none, or the config folder cannot be written.
pub fn keep_setting(config_file: &Path, setting: &Setting) -> Result<(), SessionError> {
    let value = match setting {
        Setting::By(by) => who(by).map_err(|text| SessionError::Writer { path: config_file.to_owned(), text })?,
        Setting::Palette(palette) => palette.name().to_owned(),
    };
    let there = text_of(config_file)?;
    let kept = there.lines().filter(|line| !sets(line, setting.key()));
    let mut text = format!("{} = {}\n", setting.key(), toml::Value::String(value));
    text.extend(kept.flat_map(|line| [line, "\n"]));
    write(config_file, &text)
}

/// The text of the config file; nothing where there is none.
pub(super) fn text_of(config_file: &Path) -> Result<String, SessionError> {
    match files::text(config_file, SETTINGS_MOST, FILE) {
        Ok(text) => Ok(text),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(String::new()),
        Err(error) => Err(SessionError::File { path: config_file.to_owned(), error }),
    }
}

/// Writes it, and makes its folder where that is missing.
pub(super) fn write(config_file: &Path, text: &str) -> Result<(), SessionError> {
    if let Some(folder) = config_file.parent() {
        fs::create_dir_all(folder).map_err(|error| SessionError::File { path: config_file.to_owned(), error })?;
    }
    atomic_write::write_over(config_file, text.as_bytes())
}

/// True for a line of the file that sets a key, quoted or not.
fn sets(line: &str, key: &str) -> bool {
    let name = line.split_once('=').map(|(name, _)| name.trim().trim_matches(['"', '\'']));
    name == Some(key)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::Palette;

    fn by(name: &str) -> Setting {
        Setting::By(name.to_owned())
    }

    #[test]
    fn who_is_short() {
        assert_eq!(who(" kt ").unwrap(), "kt");
        for wrong in ["", "   ", "ninechars", "a\u{1b}b", "m l"] {
            assert!(who(wrong).is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn a_setting_is_kept_beside_what_stands_there() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep/config.toml");
        keep_setting(&path, &by("kt")).unwrap();
        std::fs::write(&path, "# mine\nby = \"kt\"\n").unwrap();
        keep_setting(&path, &by("r\"k")).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "by = 'r\"k'\n# mine\n");
        assert!(keep_setting(&path, &by("much too long")).is_err());
        std::fs::write(&path, "# palette\n\"palette\" = \"night\" # bright\nby = \"kt\"\ndaily_backups = true\n")
            .unwrap();
        keep_setting(&path, &Setting::Palette(Palette::default())).unwrap();
        let text = std::fs::read_to_string(&path).unwrap();
        assert_eq!(text, "palette = \"usual\"\n# palette\nby = \"kt\"\ndaily_backups = true\n");
    }
}
