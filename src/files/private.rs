//! Files that only the user may read.
//!
//! On Unix a file is made with the mode 0600 and a folder with 0700. On Windows a file takes over who may read it from its folder,
//! which is private in the user's profile and need not be anywhere else: it is given to the user alone, beside the system and the
//! administrators, who may read everything there as root may here. A file system that keeps no such list, as on most sticks, is
//! as open as it is.

use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::Path;

/// Opens or makes a file; one that is made only the user may read.
///
/// # Errors
/// What the system says.
pub fn private_file(how: &mut OpenOptions, path: &Path) -> io::Result<File> {
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(how, 0o600);
    let new = cfg!(windows) && path.symlink_metadata().is_err();
    let file = how.open(path)?;
    if new {
        keep_private(path, Kind::File);
    }
    Ok(file)
}

/// Makes a folder, and those above it, where they are missing; only the user may read what is made.
///
/// # Errors
/// What the system says.
pub fn private_folder(path: &Path) -> io::Result<()> {
    let mut how = fs::DirBuilder::new();
    how.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut how, 0o700);
    let new = cfg!(windows) && path.symlink_metadata().is_err();
    how.create(path)?;
    if new {
        keep_private(path, Kind::Folder);
    }
    Ok(())
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    File,
    Folder,
}

#[cfg(not(windows))]
fn keep_private(_path: &Path, _kind: Kind) {}

/// Gives a new file or folder to the user. Where that is refused it stays as its folder is: so it is on file systems without lists
/// of who may read.
#[cfg(windows)]
fn keep_private(path: &Path, kind: Kind) {
    windows::keep_private(path, kind)
        .unwrap_or_else(|error| tracing::info!(%error, "a new file is as private as its folder"));
}

#[cfg(windows)]
mod windows {
    use super::Kind;
    use std::fs::{File, OpenOptions};
    use std::io;
    use std::os::windows::fs::OpenOptionsExt;
    use std::path::Path;
    use windows_permissions::constants::{SeObjectType, SecurityInformation};
    use windows_permissions::utilities::current_process_sid;
    #[cfg(test)]
    use windows_permissions::wrappers::GetSecurityInfo;
    use windows_permissions::wrappers::SetSecurityInfo;
    use windows_permissions::{LocalBox, SecurityDescriptor};

    /// `READ_CONTROL | WRITE_DAC`: who may read is read and written, and nothing of the content.
    const RIGHTS: u32 = 0x0002_0000 | 0x0004_0000;
    /// `FILE_FLAG_BACKUP_SEMANTICS`: a folder can be opened.
    const FOLDERS_TOO: u32 = 0x0200_0000;

    fn open(path: &Path) -> io::Result<File> {
        OpenOptions::new().access_mode(RIGHTS).custom_flags(FOLDERS_TOO).open(path)
    }

    pub(super) fn keep_private(path: &Path, kind: Kind) -> io::Result<()> {
        let user = current_process_sid()?;
        // What is made in a folder later takes it over.
        let passed_on = if kind == Kind::Folder { "OICI" } else { "" };
        let all = |who: &str| format!("(A;{passed_on};FA;;;{who})");
        let list = format!("D:P{}{}{}", all(&user.to_string()), all("SY"), all("BA"));
        let wanted: LocalBox<SecurityDescriptor> = list.parse()?;
        let taken = SecurityInformation::Dacl | SecurityInformation::ProtectedDacl;
        SetSecurityInfo(&mut open(path)?, SeObjectType::SE_FILE_OBJECT, taken, None, None, wanted.dacl(), None)
    }

    /// Who may do what, in the system's own spelling.
    #[cfg(test)]
    pub(super) fn who_may(path: &Path) -> io::Result<String> {
        let list = GetSecurityInfo(&open(path)?, SeObjectType::SE_FILE_OBJECT, SecurityInformation::Dacl)?;
        list.as_sddl().map(|text| text.to_string_lossy().into_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn only_the_user_may_read_what_is_made() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let (new, file) = (folder.path().join("a/b"), folder.path().join("a/b/c"));
        private_folder(&new).unwrap();
        private_file(OpenOptions::new().write(true).create_new(true), &file).unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!((mode(&new), mode(&file)), (0o700, 0o600));
    }

    /// Windows spells a list as `D:P(A;;FA;;;S-1-5-21-…)(A;;FA;;;SY)`: nobody is in it but these three.
    #[cfg(windows)]
    #[test]
    fn only_the_user_may_read_what_is_made() {
        let folder = tempfile::tempdir().unwrap();
        let (new, file) = (folder.path().join("a\\b"), folder.path().join("a\\b\\c"));
        private_folder(&new).unwrap();
        private_file(OpenOptions::new().write(true).create_new(true), &file).unwrap();
        let user = windows_permissions::utilities::current_process_sid().unwrap().to_string();
        // Wine adds what the folder passes on, whether it is said to or not.
        let passed_on: &[&str] = if std::env::var_os("BENCHWALK_WINE").is_some() { &["WD"] } else { &[] };
        for path in [new, file] {
            let list = windows::who_may(&path).unwrap();
            let entry = |text: &str| -> Option<(String, String)> {
                let mut parts = text.split(')').next()?.split(';').skip(2).map(str::to_owned);
                Some((parts.next()?, parts.last()?))
            };
            let entries: Vec<(String, String)> = list.split('(').skip(1).filter_map(entry).collect();
            assert!(entries.contains(&("FA".to_owned(), user.clone())), "{}: {list}", path.display());
            let known = |who: &str| [user.as_str(), "SY", "BA"].contains(&who) || passed_on.contains(&who);
            assert!(entries.iter().all(|(_, who)| known(who)), "{}: {list}", path.display());
        }
    }
}
