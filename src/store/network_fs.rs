//! Whether a file lies on a network file system, where the write-ahead log is not safe.

use std::path::Path;

/// The network file system a path lies on, where the system tells.
pub(super) fn name_of(path: &Path) -> Option<String> {
    let path = path.canonicalize().ok()?;
    let mounts = std::fs::read_to_string("/proc/self/mounts").ok()?;
    of(&mounts, &path)
}

/// The same, from the text of the mount table.
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
}
