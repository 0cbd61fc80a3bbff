//! Several new files in one folder, none of them over another file.

use super::SessionError;
use super::atomic_write;
use crate::files::FILE;
use std::path::Path;

/// Writes new files into a folder, which is made where it is not there. Before the first is written all names are looked at: a file
/// that is there with other content is an error, and nothing is written then.
///
/// # Errors
/// [`SessionError::Exists`] or [`SessionError::File`].
pub fn write_new(folder: &Path, contents: &[(impl AsRef<str>, String)]) -> Result<(), SessionError> {
    let failed = |error| SessionError::File { path: folder.to_owned(), error };
    for (name, content) in contents {
        atomic_write::is_written(&folder.join(name.as_ref()), content.as_bytes(), FILE)?;
    }
    std::fs::create_dir_all(folder).map_err(failed)?;
    for (name, content) in contents {
        atomic_write::write_new(&folder.join(name.as_ref()), content.as_bytes())?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_one_name_is_taken_nothing_is_written() {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("a/b");
        let files = [("one.csv", "1\n".to_owned()), ("two.csv", "2\n".to_owned())];
        write_new(&into, &files).unwrap();
        write_new(&into, &files).unwrap();
        let other = [("new.csv", "0\n".to_owned()), ("two.csv", "other\n".to_owned())];
        assert!(matches!(write_new(&into, &other), Err(SessionError::Exists { .. })));
        assert!(!into.join("new.csv").exists());
        let beside = folder.path().join("file");
        std::fs::write(&beside, "x").unwrap();
        assert!(matches!(write_new(&beside, &files), Err(SessionError::File { .. })));
    }
}
