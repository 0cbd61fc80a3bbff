//! Which commit the program is built from, for `benchwalk --version`.
//!
//! It is the commit of the repository this folder is the top of, with `+` behind it where a file that is built differs from it.
//! Where there is no repository, as in an unpacked archive, the variable `BENCHWALK_COMMIT` names it; without either it is not
//! known. No time of the build: the same sources give the same program.

use std::env;
use std::error::Error;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Names the commit where there is no repository.
const VARIABLE: &str = "BENCHWALK_COMMIT";
/// What the program is built from. Tests and pages may differ without changing it.
const BUILT_FROM: [&str; 5] = ["src", "demo-data", ".cargo", "Cargo.toml", "Cargo.lock"];
/// Digits of a commit shown; git's own short form grows with the repository.
const DIGITS: usize = 12;

/// Tells cargo the commit, and what changes it.
pub(crate) fn tell() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?);
    let mut out = io::stdout();
    for path in BUILT_FROM {
        writeln!(out, "cargo::rerun-if-changed={path}")?;
    }
    writeln!(out, "cargo::rerun-if-env-changed={VARIABLE}")?;
    let commit = match Repository::of(&folder) {
        Some(repository) => {
            for path in repository.moves() {
                writeln!(out, "cargo::rerun-if-changed={}", path.display())?;
            }
            repository.commit()
        }
        None => match env::var(VARIABLE) {
            Ok(named) => Some(checked(&named)?),
            Err(env::VarError::NotPresent) => None,
            Err(error) => return Err(format!("{VARIABLE}: {error}").into()),
        },
    };
    writeln!(out, "cargo::rustc-env=BENCHWALK_BUILT_FROM={}", commit.unwrap_or_default())?;
    Ok(())
}

/// A commit as the variable names it: 7 to 40 hexadecimal digits, and `+` where files differ from it.
fn checked(named: &str) -> Result<String, String> {
    let (digits, sign) = named.strip_suffix('+').map_or((named, ""), |digits| (digits, "+"));
    if !(7..=40).contains(&digits.len()) || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
        return Err(format!(
            "{VARIABLE} is {named:?}; give the 7 to 40 digits of a commit, such as 0123abc, or 0123abc+"
        ));
    }
    Ok(short(digits) + sign)
}

fn short(commit: &str) -> String {
    commit.chars().take(DIGITS).collect::<String>().to_lowercase()
}

/// The repository the sources are in.
struct Repository<'f> {
    folder: &'f Path,
}

impl<'f> Repository<'f> {
    /// None where the folder is not the top of one: sources unpacked inside another repository are not of its commit.
    fn of(folder: &'f Path) -> Option<Self> {
        let repository = Self { folder };
        let top = repository.ask(&["rev-parse", "--show-toplevel"])?;
        (Path::new(&top).canonicalize().ok()? == folder.canonicalize().ok()?).then_some(repository)
    }

    /// What git answers; none where there is no git or it answers nothing.
    fn ask(&self, arguments: &[&str]) -> Option<String> {
        let mut git = Command::new("git");
        git.arg("--no-optional-locks").args(arguments).current_dir(self.folder);
        // A hook of git names a repository in the environment, which need not be this one.
        for name in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"] {
            git.env_remove(name);
        }
        let done = git.output().ok().filter(|done| done.status.success())?;
        let said = String::from_utf8(done.stdout).ok()?;
        Some(said.trim_end().to_owned())
    }

    /// The files that change when another commit is checked out or made. A file that is not there would have the script run at
    /// every build.
    fn moves(&self) -> Vec<PathBuf> {
        let branch = self.ask(&["symbolic-ref", "--quiet", "HEAD"]).unwrap_or_default();
        ["HEAD", "logs/HEAD", branch.as_str(), "packed-refs"]
            .iter()
            .filter(|name| !name.is_empty())
            .filter_map(|name| self.ask(&["rev-parse", "--git-path", name]))
            .map(|path| self.folder.join(path))
            .filter(|path| path.exists())
            .collect()
    }

    fn commit(&self) -> Option<String> {
        let commit = short(&self.ask(&["rev-parse", "--verify", "HEAD"])?);
        let status: Vec<&str> = ["status", "--porcelain", "--"].into_iter().chain(BUILT_FROM).collect();
        let sign = if self.ask(&status)?.is_empty() { "" } else { "+" };
        Some(commit + sign)
    }
}
