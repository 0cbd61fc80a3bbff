//! Files written whole or not at all.

use super::SessionError;
use std::fs;
use std::io::Write;
use std::path::Path;
use tempfile::NamedTempFile;

/// Writes a new file. A file that is already there is left alone: with the same content that is as good as written, with other
/// content it is an error.
///
/// # Errors
/// [`SessionError::Exists`] or [`SessionError::File`].
pub fn write_new(path: &Path, content: &[u8]) -> Result<(), SessionError> {
    let failed = |error| SessionError::File { path: path.to_owned(), error };
    match fs::read(path) {
        Ok(there) if there == content => return Ok(()),
        Ok(_) => return Err(SessionError::Exists { path: path.to_owned() }),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {}
        Err(error) => return Err(failed(error)),
    }
    let written = written_beside(path, content).map_err(failed)?;
    match written.persist_noclobber(path) {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == std::io::ErrorKind::AlreadyExists => {
            Err(SessionError::Exists { path: path.to_owned() })
        }
        Err(error) => Err(failed(error.error)),
    }
}

/// Writes a file of the program, new or replacing the one that is there.
///
/// # Errors
/// [`SessionError::File`].
pub fn write_over(path: &Path, content: &[u8]) -> Result<(), SessionError> {
    let failed = |error| SessionError::File { path: path.to_owned(), error };
    written_beside(path, content).map_err(failed)?.persist(path).map_err(|error| failed(error.error))?;
    Ok(())
}

/// The content in a temporary file of the same folder, on the disk. Dropped without a name of its own it is removed.
fn written_beside(path: &Path, content: &[u8]) -> std::io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".benchwalk-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any file the user writes: what others may read of it is the umask's to say.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder_of(path))?;
    file.write_all(content)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// The folder a file is in; one named by nothing is the present one.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
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
    fn a_file_can_be_read_by_whom_the_umask_lets() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let (ours, plain) = (folder.path().join("ours"), folder.path().join("plain"));
        write_new(&ours, b"x").unwrap();
        fs::write(&plain, b"x").unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode(&ours), mode(&plain));
    }
}
