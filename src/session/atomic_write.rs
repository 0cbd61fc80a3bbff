//! Files written whole or not at all.

use super::SessionError;
use crate::files::{self, FILE, FILE_OR_STDOUT, Purpose, Unfinished};
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Writes a new file, which only the user may read. A file that is already there is left alone: with the same content that is as
/// good as written, with other content it is an error.
///
/// # Errors
/// [`SessionError::Exists`] or [`SessionError::File`].
pub fn write_new(path: &Path, content: &[u8]) -> Result<(), SessionError> {
    let failed = |error: io::Error| match error.kind() {
        ErrorKind::AlreadyExists => SessionError::Exists { path: path.to_owned() },
        _ => SessionError::File { path: path.to_owned(), error },
    };
    if is_written(path, content, FILE_OR_STDOUT)? {
        return Ok(());
    }
    let file = Unfinished::beside(path, Purpose::Text).map_err(failed)?;
    file.write(content).and_then(|()| file.publish(path)).map_err(failed)
}

/// True where a file is there with this content; false where none is. `advice` says what to give in place of what is no file.
///
/// # Errors
/// [`SessionError::Exists`] where it has other content, or [`SessionError::File`].
pub(super) fn is_written(path: &Path, content: &[u8], advice: &str) -> Result<bool, SessionError> {
    let length = u64::try_from(content.len()).unwrap_or(u64::MAX);
    match files::read(path, length, advice) {
        Ok(there) if there == content => Ok(true),
        Ok(_) => Err(SessionError::Exists { path: path.to_owned() }),
        Err(error) if error.kind() == ErrorKind::FileTooLarge => Err(SessionError::Exists { path: path.to_owned() }),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(SessionError::File { path: path.to_owned(), error }),
    }
}

/// Writes a file of the program, new or replacing the one that is there, which keeps its permissions. Where a link stands the file
/// it leads to is replaced, not the link.
///
/// # Errors
/// [`SessionError::File`]; the file that was there is as it was.
pub fn write_over(path: &Path, content: &[u8]) -> Result<(), SessionError> {
    replace(path, content).map_err(|error| SessionError::File { path: path.to_owned(), error })
}

fn replace(path: &Path, content: &[u8]) -> io::Result<()> {
    let path = end_of_links(path)?;
    let there = match files::look(&path, FILE) {
        Ok(there) => Some(there.permissions()),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(error),
    };
    let file = Unfinished::beside(&path, Purpose::Text)?;
    file.write(content)?;
    if let Some(permissions) = there {
        fs::set_permissions(&file, permissions)?;
    }
    file.replace(&path)
}

/// Where a path leads, also when nothing is there yet.
fn end_of_links(path: &Path) -> io::Result<PathBuf> {
    match path.canonicalize() {
        Ok(end) => Ok(end),
        Err(error) if error.kind() == ErrorKind::NotFound => match fs::read_link(path) {
            Ok(next) => Ok(path.parent().unwrap_or(Path::new("")).join(next)),
            Err(_) => Ok(path.to_owned()),
        },
        Err(error) => Err(error),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect()
    }

    #[test]
    fn a_new_file_is_never_written_over_another() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("season.jsonl");
        write_new(&path, b"one").unwrap();
        write_new(&path, b"one").unwrap();
        assert!(matches!(write_new(&path, b"two"), Err(SessionError::Exists { .. })));
        assert_eq!((fs::read(&path).unwrap(), names(folder.path()).len()), (b"one".to_vec(), 1));
    }

    #[test]
    fn a_file_of_ours_is_replaced_whole_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("config.toml");
        write_over(&path, b"one").unwrap();
        write_over(&path, b"two").unwrap();
        assert_eq!((fs::read(&path).unwrap(), names(folder.path()).len()), (b"two".to_vec(), 1));
        assert!(matches!(write_over(&folder.path().join("none/x"), b"x"), Err(SessionError::File { .. })));
    }

    #[cfg(unix)]
    #[test]
    fn a_file_is_private_and_one_that_was_there_stays_as_open_as_it_was() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        let (export, config) = (folder.path().join("season.jsonl"), folder.path().join("config.toml"));
        write_new(&export, b"x").unwrap();
        write_over(&config, b"x").unwrap();
        assert_eq!((mode(&export), mode(&config)), (0o600, 0o600));
        fs::set_permissions(&config, fs::Permissions::from_mode(0o644)).unwrap();
        write_over(&config, b"y").unwrap();
        assert_eq!((fs::read(&config).unwrap(), mode(&config)), (b"y".to_vec(), 0o644));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_to_the_file_that_is_replaced() {
        use std::os::unix::fs::symlink;
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::create_dir(at("dotfiles")).unwrap();
        fs::write(at("dotfiles/there.toml"), b"one").unwrap();
        symlink("dotfiles/there.toml", at("config.toml")).unwrap();
        symlink("dotfiles/none.toml", at("new.toml")).unwrap();
        for (link, end) in [("config.toml", "dotfiles/there.toml"), ("new.toml", "dotfiles/none.toml")] {
            write_over(&at(link), b"two").unwrap();
            assert!(at(link).is_symlink(), "{link}");
            assert_eq!(fs::read(at(end)).unwrap(), b"two");
        }
        symlink(at("a"), at("b")).unwrap();
        symlink(at("b"), at("a")).unwrap();
        assert!(matches!(write_over(&at("a"), b"x"), Err(SessionError::File { .. })));
    }
}
