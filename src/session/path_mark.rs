//! What stands for the path of a season file in the names of the files and folders that belong to it elsewhere.

use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// Eight hexadecimal digits that stand for the full path of a season file.
pub(super) fn mark(season: &Path) -> String {
    hash(resolved(season).as_os_str().as_encoded_bytes())
}

/// The path by which a file is known, whatever was typed: without links, as far as it is there.
pub(super) fn resolved(season: &Path) -> PathBuf {
    if let Ok(path) = season.canonicalize() {
        return path;
    }
    let absolute = std::path::absolute(season).unwrap_or_else(|_| season.to_owned());
    let folder = absolute.parent().and_then(|folder| folder.canonicalize().ok());
    match (folder, absolute.file_name()) {
        (Some(folder), Some(name)) => folder.join(name),
        _ => absolute,
    }
}

/// Eight hexadecimal digits of a hash.
pub(super) fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().take(4).fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
}
