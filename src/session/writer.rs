//! Who writes: the rule of the name, and the config file it is kept in.

use super::{SessionError, atomic_write};
use crate::files::{self, FILE, SETTINGS_MOST};
use crate::record::{Value, rules, schema};
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

/// Writes who writes into the config file, so that it is asked only once. The rest of the file is kept.
///
/// # Errors
/// When the name is none, or the config folder cannot be written.
pub fn keep_by(config_file: &Path, by: &str) -> Result<(), SessionError> {
    let failed = |error| SessionError::File { path: config_file.to_owned(), error };
    let by = who(by).map_err(|text| SessionError::Writer { path: config_file.to_owned(), text })?;
    let there = match files::text(config_file, SETTINGS_MOST, FILE) {
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
    atomic_write::write_over(config_file, text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_is_short() {
        assert_eq!(who(" kt ").unwrap(), "kt");
        for wrong in ["", "   ", "ninechars", "a\u{1b}b", "m l"] {
            assert!(who(wrong).is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn who_writes_is_kept_beside_what_stands_there() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep/config.toml");
        keep_by(&path, "kt").unwrap();
        std::fs::write(&path, "# mine\nby = \"kt\"\n").unwrap();
        keep_by(&path, "r\"k").unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "by = 'r\"k'\n# mine\n");
        assert!(keep_by(&path, "much too long").is_err());
    }
}
