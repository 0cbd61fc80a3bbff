//! Paths of more than 260 characters on Windows: the standard library spells them out for the system by itself, SQLite does not.

use std::path::{Path, PathBuf};

/// The longest path that needs nothing, in characters of the system. With the ending of a log or a journal (`-journal`) it stays
/// below the 260 that Windows takes, and below what it keeps free of those in a folder.
const SHORT: usize = 240;

/// How the database reaches a file with a longer path.
const LONG_PATHS: &str = "win32-longpath";

/// An absolute path as SQLite has to be given it: a long one on Windows in the spelling that the system takes as it stands.
pub(super) fn spelled_out(path: &Path) -> PathBuf {
    match path.to_str().filter(|text| cfg!(windows) && is_long(text)) {
        Some(text) => PathBuf::from(spelled(text)),
        None => path.to_owned(),
    }
}

/// How the database reaches a file of this absolute path; `None` in the usual way.
pub(super) fn vfs(path: &Path) -> Option<&'static str> {
    path.to_str().is_some_and(|text| cfg!(windows) && is_long(text)).then_some(LONG_PATHS)
}

fn is_long(path: &str) -> bool {
    path.encode_utf16().count() > SHORT
}

/// `C:\a` as `\\?\C:\a`, and `\\server\share\a` as `\\?\UNC\server\share\a`.
fn spelled(path: &str) -> String {
    let bytes = path.as_bytes();
    match path.strip_prefix(r"\\") {
        Some(rest) if rest.starts_with(['?', '.']) => path.to_owned(),
        Some(share) => format!(r"\\?\UNC\{share}"),
        None if bytes.get(1) == Some(&b':') => format!(r"\\?\{path}"),
        None => path.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_paths_are_spelled_out_for_windows() {
        for (path, wanted) in [
            (r"C:\a\season.db", r"\\?\C:\a\season.db"),
            (r"\\server\share\season.db", r"\\?\UNC\server\share\season.db"),
            (r"\\?\C:\a", r"\\?\C:\a"),
            (r"\\.\C:\a", r"\\.\C:\a"),
            (r"\a", r"\a"),
        ] {
            assert_eq!(spelled(path), wanted);
        }
    }

    #[test]
    fn only_long_ones_and_only_there() {
        let long = format!(r"C:\{}\season.db", "a".repeat(240));
        let long = Path::new(&long);
        assert_eq!(vfs(long).is_some(), cfg!(windows));
        assert_eq!(spelled_out(long) != long, cfg!(windows));
        let short = Path::new(r"C:\seasons\season.db");
        assert_eq!((vfs(short), spelled_out(short)), (None, short.to_owned()));
    }
}
