//! Whether a file lies on a network file system, where the write-ahead log is not safe.

use std::path::Path;

/// The network file system a path lies on, where the system tells.
#[cfg(not(windows))]
pub(super) fn name_of(path: &Path) -> Option<String> {
    let path = path.canonicalize().ok()?;
    let mounts = std::fs::read_to_string("/proc/self/mounts").ok()?;
    of(&mounts, &path)
}

/// The share a path lies on: the letter of a drive that stands for one is followed to it.
#[cfg(windows)]
pub(super) fn name_of(path: &Path) -> Option<String> {
    share(path.canonicalize().or_else(|_| std::path::absolute(path)).ok()?.to_str()?)
}

/// The server of a path on Windows that names a share: `\\server\share\…`, or spelled out `\\?\UNC\server\share\…`.
#[cfg(any(windows, test))]
fn share(path: &str) -> Option<String> {
    let rest = match path.strip_prefix(r"\\?\") {
        Some(spelled_out) => spelled_out.strip_prefix(r"UNC\")?,
        None => path.strip_prefix(r"\\").filter(|rest| !rest.starts_with(r".\"))?,
    };
    rest.split('\\').next().filter(|server| !server.is_empty()).map(|server| format!("the share of {server}"))
}

/// The same, from the text of the mount table.
#[cfg(any(not(windows), test))]
fn of(mounts: &str, path: &Path) -> Option<String> {
    const NETWORK: [&str; 9] = ["nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "afs", "fuse.sshfs", "fuse.rclone"];
    let mut best: Option<(usize, &str)> = None;
    for line in mounts.lines() {
        let mut words = line.split(' ').skip(1);
        let (Some(at), Some(kind)) = (words.next(), words.next()) else { continue };
        let at = at.replace("\\040", " ");
        // Of two mounts at one place the later lies on top.
        if path.starts_with(&at) && best.is_none_or(|(length, _)| at.len() >= length) {
            best = Some((at.len(), kind));
        }
    }
    best.map(|(_, kind)| kind).filter(|kind| NETWORK.contains(kind)).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_deepest_mount_decides() {
        let mounts =
            "/dev/sda1 / ext4 rw 0 0\nserver:/home /home nfs4 rw 0 0\n/dev/sdb1 /home/kt/my\\040stick vfat rw 0 0\n";
        let kind = |path: &str| of(mounts, Path::new(path));
        assert_eq!(kind("/srv/season.db"), None);
        assert_eq!(kind("/home/kt/season.db").as_deref(), Some("nfs4"));
        assert_eq!(kind("/home/kt/my stick/season.db"), None);
        assert_eq!(kind("/homestead/season.db"), None);
    }

    #[test]
    fn shares_of_windows_are_known_in_both_spellings() {
        for path in [r"\\barn\seasons\season.db", r"\\?\UNC\barn\seasons\season.db"] {
            assert_eq!(share(path).as_deref(), Some("the share of barn"), "{path}");
        }
        for path in
            [r"C:\seasons\season.db", r"\\?\C:\seasons\season.db", r"\\.\C:\season.db", r"\\?\Volume{1}\a", r"\a", ""]
        {
            assert_eq!(share(path), None, "{path}");
        }
    }
}
