//! The carriers in the config file: a table `[[share]]` is added and removed, and everything else stays as it was typed.

use super::settings::{CarrierPlace, CarrierSetting, EVERY};
use crate::session::SessionError;
use crate::session::config_file::{text_of, write};
use std::path::Path;
use toml::Value;
use uuid::Uuid;

/// What begins a table.
const TABLE: &str = "[[share]]";

/// Adds a carrier at the end of the config file.
///
/// # Errors
/// [`SessionError::File`].
pub fn add(config_file: &Path, carrier: &CarrierSetting) -> Result<(), SessionError> {
    let mut text = text_of(config_file)?;
    if !text.is_empty() && !text.ends_with('\n') {
        text.push('\n');
    }
    if !text.is_empty() {
        text.push('\n');
    }
    text.push_str(&table(carrier));
    write(config_file, &text)
}

fn table(carrier: &CarrierSetting) -> String {
    let string = |text: &str| Value::String(text.to_owned()).to_string();
    let (key, place) = match &carrier.place {
        CarrierPlace::Folder(path) => ("folder", path.to_string_lossy().into_owned()),
        CarrierPlace::Hub(words) => ("hub", words.clone()),
    };
    let season = string(&carrier.season.to_string());
    let mut text =
        format!("{TABLE}\nseason = {season}\nname = {}\n{key} = {}\n", string(&carrier.name), string(&place));
    if carrier.every != EVERY {
        text.push_str(&format!("every = {}\n", carrier.every));
    }
    text
}

/// Removes a carrier of a season from the config file; false where it is not there.
///
/// # Errors
/// [`SessionError::File`].
pub fn remove(config_file: &Path, season: Uuid, name: &str) -> Result<bool, SessionError> {
    let text = text_of(config_file)?;
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let mut from = 0;
    while let Some(start) = lines.iter().skip(from).position(|line| begins_table(line)).map(|at| at + from) {
        let rest = lines.iter().skip(start + 1);
        let end =
            rest.clone().position(|line| line.trim_start().starts_with('[')).map_or(lines.len(), |at| at + start + 1);
        let inside: Vec<&str> = lines.iter().take(end).skip(start + 1).copied().collect();
        if is_of(&inside.concat(), season, name) {
            // Comments and blank lines behind the last value belong to what follows.
            let values = inside.iter().rposition(|line| is_value(line)).map_or(start + 1, |at| start + at + 2);
            let mut before: Vec<&str> = lines.iter().take(start).copied().collect();
            if before.last().is_some_and(|line| line.trim().is_empty()) {
                before.pop();
            }
            before.extend(lines.iter().skip(values));
            write(config_file, &before.concat())?;
            return Ok(true);
        }
        from = end;
    }
    Ok(false)
}

fn begins_table(line: &str) -> bool {
    let head: String = line.split('#').next().unwrap_or_default().chars().filter(|c| !c.is_whitespace()).collect();
    head == TABLE
}

fn is_value(line: &str) -> bool {
    let line = line.trim();
    !line.is_empty() && !line.starts_with('#')
}

/// True where the values of a table name this carrier.
fn is_of(values: &str, season: Uuid, name: &str) -> bool {
    let Ok(table) = toml::from_str::<toml::Table>(values) else { return false };
    let of = |key: &str| table.get(key).and_then(Value::as_str);
    of("name") == Some(name) && of("season").and_then(|id| Uuid::try_parse(id).ok()) == Some(season)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    const SEASON: Uuid = Uuid::from_u128(0x0199_e1e2_0000_7000_8000_0000_0000_0001);

    fn stick() -> CarrierSetting {
        let place = CarrierPlace::Folder("/media/ml/BENCH".into());
        CarrierSetting { season: SEASON, name: "stick".to_owned(), place, every: EVERY }
    }

    #[test]
    fn a_carrier_is_added_and_removed_and_the_rest_stays() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("deep/config.toml");
        add(&path, &stick()).unwrap();
        let id = SEASON.to_string();
        let first = format!("[[share]]\nseason = \"{id}\"\nname = \"stick\"\nfolder = \"/media/ml/BENCH\"\n");
        assert_eq!(fs::read_to_string(&path).unwrap(), first);
        let office = CarrierSetting {
            name: "office".to_owned(),
            place: CarrierPlace::Hub("service=\"bench walk\"".to_owned()),
            every: 0,
            ..stick()
        };
        fs::write(
            &path,
            format!("by = \"kt\" # me\n\n# a logger\n[[logger]]\nname = \"stick\"\n\n{first}# below it\n\n[x]\n"),
        )
        .unwrap();
        add(&path, &office).unwrap();
        let text = fs::read_to_string(&path).unwrap();
        assert!(text.ends_with("[x]\n\n[[share]]\nseason = \"0199e1e2-0000-7000-8000-000000000001\"\nname = \"office\"\nhub = 'service=\"bench walk\"'\nevery = 0\n"), "{text}");
        assert!(!remove(&path, Uuid::from_u128(7), "stick").unwrap());
        assert!(!remove(&path, SEASON, "house").unwrap());
        assert_eq!(fs::read_to_string(&path).unwrap(), text);
        assert!(remove(&path, SEASON, "stick").unwrap());
        assert!(remove(&path, SEASON, "office").unwrap());
        let left = "by = \"kt\" # me\n\n# a logger\n[[logger]]\nname = \"stick\"\n# below it\n\n[x]\n";
        assert_eq!(fs::read_to_string(&path).unwrap(), left);
        assert!(!remove(&path, SEASON, "stick").unwrap());
    }
}
