//! File systems of one's own, in a mount namespace that goes with the process.

use super::campaign::have;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Set in the process that has mounts of its own.
const OWN: &str = "BENCHWALK_TEST_OWN_MOUNTS";

/// Runs the test of this path (`fulldisk::name`) again as a process that may mount what it likes, and gives false; in that
/// process gives true. `as_root`: not by way of a user namespace, in which there is but one user.
pub(crate) fn in_own_mounts(test: &str, as_root: bool) -> bool {
    if std::env::var_os(OWN).is_some() {
        return true;
    }
    let ways: &[&str] = if as_root { &["-m"] } else { &["-m", "-Urm"] };
    let works =
        |way: &&&str| Command::new("unshare").args([way, "true"]).output().is_ok_and(|done| done.status.success());
    let way = ways.iter().find(works);
    if !have("a file system of its own (unshare)", way.is_some()) {
        return false;
    }
    let mut command = Command::new("unshare");
    command.arg(way.unwrap()).arg(std::env::current_exe().unwrap());
    command.args([test, "--exact", "--include-ignored", "--nocapture", "--test-threads=1"]).env(OWN, "1");
    let done = command.output().unwrap();
    let told = String::from_utf8_lossy(&done.stdout).into_owned();
    for line in told.lines().filter(|line| line.contains(": tried ")) {
        // The first line stands behind the name of the test.
        println!("{}", line.rsplit(" ... ").next().unwrap_or(line));
    }
    assert!(done.status.success(), "{told}{}", String::from_utf8_lossy(&done.stderr));
    assert!(told.contains("1 passed"), "the test {test} was not found:\n{told}");
    false
}

/// Mounts a file system in memory of this size (`1M`) on a folder.
pub(crate) fn mount_small(folder: &Path, size: &str) -> Mounted {
    mount(&["-t", "tmpfs", "-o", &format!("size={size}"), "tmpfs"], folder);
    Mounted(folder.to_owned())
}

/// Mounts a folder read-only on itself.
pub(crate) fn mount_read_only(folder: &Path) -> Mounted {
    let text = folder.to_str().unwrap();
    mount(&["--bind", text], folder);
    mount(&["-o", "remount,bind,ro"], folder);
    Mounted(folder.to_owned())
}

/// A mount, taken away when this is dropped so that the folder can be removed.
pub(crate) struct Mounted(PathBuf);

impl Drop for Mounted {
    fn drop(&mut self) {
        // Where a program still has a file open, the mount goes when that one ends.
        Command::new("umount").arg("-l").arg(&self.0).status().ok();
    }
}

fn mount(arguments: &[&str], folder: &Path) {
    let done = Command::new("mount").args(arguments).arg(folder).output().unwrap();
    assert!(done.status.success(), "mount: {}", String::from_utf8_lossy(&done.stderr));
}
