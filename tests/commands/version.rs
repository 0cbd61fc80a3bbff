//! What the program says of itself, and the commit the build script finds: of this repository, of a changed tree, of none.

use crate::Laptop;
use benchwalk::record::codec;
use benchwalk::store::NEWEST;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

#[test]
fn version_names_package_commit_formats_and_hubs() {
    let said = Laptop::new().done(&["--version"]);
    let lines: Vec<&str> = said.lines().collect();
    let [name, commit, formats, hubs] = lines[..] else { panic!("{said}") };
    assert_eq!(name, concat!("benchwalk ", env!("CARGO_PKG_VERSION")));
    assert!(commit.starts_with("commit "), "{said}");
    assert_eq!(formats, format!("season file format {NEWEST}, journal format {}", codec::VERSION));
    let wanted = if cfg!(feature = "hub") { "hubs: built in" } else { "hubs: left out" };
    assert!(hubs.starts_with(wanted), "{said}");
}

#[test]
fn the_short_version_is_one_line_and_that_of_a_command_is_the_same() {
    let laptop = Laptop::new();
    let said = laptop.done(&["-V"]);
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(said.starts_with(concat!("benchwalk ", env!("CARGO_PKG_VERSION"))), "{said}");
    let of_a_command = laptop.done(&["review", "-V"]);
    assert_eq!(of_a_command.split_once(' ').unwrap().1, said.split_once(' ').unwrap().1);
}

#[test]
fn the_manual_names_what_version_says() {
    let laptop = Laptop::new();
    let (manual, version) = (laptop.done(&["man"]), laptop.done(&["-V"]));
    // A hyphen is written with a backslash before it there.
    let written = manual.replace('\\', "");
    assert!(written.contains(version.trim()), "no {version:?} in the head of the manual");
    assert!(written.contains(&format!("season file format {NEWEST}")), "the manual does not name the format");
}

/// The build script as a program, and a folder of sources it is run for.
struct Script {
    folder: TempDir,
    program: PathBuf,
}

fn git(folder: &Path, arguments: &[&str]) -> String {
    let mut git = Command::new("git");
    git.args(["-c", "user.name=t", "-c", "user.email=t@example.invalid", "-c", "commit.gpgsign=false"]);
    let done = git.args(arguments).current_dir(folder).output().unwrap();
    assert!(done.status.success(), "git {arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap().trim().to_owned()
}

/// Makes a folder a repository and commits all of it.
fn committed(folder: &Path) -> String {
    git(folder, &["init", "--quiet"]);
    git(folder, &["add", "."]);
    git(folder, &["commit", "--quiet", "--message", "one"]);
    git(folder, &["rev-parse", "HEAD"])[..12].to_owned()
}

impl Script {
    /// `None` under Wine, where neither a compiler nor git can be run: the script is one of the machine that builds.
    fn new() -> Option<Self> {
        if std::env::var_os("BENCHWALK_WINE").is_some() {
            return None;
        }
        let folder = tempfile::tempdir().unwrap();
        let program = folder.path().join(format!("script{}", std::env::consts::EXE_SUFFIX));
        let commit = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/build/commit.rs").display().to_string();
        let source = folder.path().join("script.rs");
        let text = format!(
            "#[path = {commit:?}]\nmod commit;\nfn main() -> Result<(), Box<dyn std::error::Error>> {{\n    commit::tell()\n}}\n"
        );
        fs::write(&source, text).unwrap();
        let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
        let built = Command::new(rustc).args(["--edition", "2024", "-o"]).arg(&program).arg(&source).status().unwrap();
        assert!(built.success());
        let script = Self { folder, program };
        script.write("src/lib.rs", "// one\n");
        for name in ["Cargo.toml", "Cargo.lock", "demo-data/a", ".cargo/a", "tests/a.rs"] {
            script.write(name, "");
        }
        Some(script)
    }

    fn sources(&self) -> PathBuf {
        self.folder.path().join("sources")
    }

    fn write(&self, name: &str, text: &str) {
        let path = self.sources().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// What it prints, with or without the variable.
    fn run(&self, commit: Option<&str>) -> Result<String, String> {
        let mut run = Command::new(&self.program);
        run.env("CARGO_MANIFEST_DIR", self.sources()).env_remove("BENCHWALK_COMMIT");
        // The folder may itself lie in a repository.
        run.env("GIT_CEILING_DIRECTORIES", self.folder.path());
        if let Some(commit) = commit {
            run.env("BENCHWALK_COMMIT", commit);
        }
        let done = run.output().unwrap();
        let said = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        if done.status.success() { Ok(said(&done.stdout)) } else { Err(said(&done.stderr)) }
    }

    /// The commit it gives to the build.
    fn commit(&self, commit: Option<&str>) -> String {
        let said = self.run(commit).unwrap();
        let line = said.lines().find_map(|line| line.strip_prefix("cargo::rustc-env=BENCHWALK_BUILT_FROM="));
        line.unwrap_or_else(|| panic!("{said}")).to_owned()
    }
}

#[test]
fn without_a_repository_the_variable_names_the_commit_or_it_is_not_known() {
    let Some(script) = Script::new() else { return };
    assert_eq!(script.commit(None), "");
    assert_eq!(script.commit(Some("0123ABC")), "0123abc");
    assert_eq!(script.commit(Some("0123456789abcdef0123456789abcdef01234567+")), "0123456789ab+");
    for wrong in ["", "main", "0123ab", "0123abcg", "0123abc++", "0123456789abcdef0123456789abcdef012345678"] {
        let said = script.run(Some(wrong)).unwrap_err();
        assert!(said.contains("give the 7 to 40 digits"), "{wrong:?}: {said}");
    }
}

#[test]
fn the_commit_of_a_repository_has_a_plus_where_what_is_built_was_changed() {
    let Some(script) = Script::new() else { return };
    let commit = committed(&script.sources());
    assert_eq!(script.commit(None), commit);
    assert_eq!(script.commit(Some("0123abc")), commit, "the repository knows better than the variable");
    script.write("tests/a.rs", "// other\n");
    script.write("README.md", "other\n");
    assert_eq!(script.commit(None), commit, "tests and pages are not built into the program");
    script.write("src/lib.rs", "// two\n");
    assert_eq!(script.commit(None), format!("{commit}+"));
    script.write("src/lib.rs", "// one\n");
    script.write("src/new.rs", "");
    assert_eq!(script.commit(None), format!("{commit}+"), "a new file counts too");
}

#[test]
fn sources_inside_another_repository_are_not_of_its_commit() {
    let Some(script) = Script::new() else { return };
    committed(script.folder.path());
    assert_eq!(script.commit(None), "");
}

#[test]
fn the_script_runs_again_after_a_commit_and_watches_no_file_that_is_not_there() {
    let Some(script) = Script::new() else { return };
    committed(&script.sources());
    let said = script.run(None).unwrap();
    let watched: Vec<PathBuf> = said
        .lines()
        .filter_map(|line| line.strip_prefix("cargo::rerun-if-changed="))
        .map(|path| script.sources().join(path))
        .collect();
    assert!(watched.iter().all(|path| path.exists()), "{said}");
    let texts = || watched.iter().filter(|p| p.is_file()).map(|p| fs::read(p).unwrap()).collect::<Vec<_>>();
    let before = texts();
    git(&script.sources(), &["commit", "--quiet", "--allow-empty", "--message", "two"]);
    assert!(before != texts(), "a commit changes no watched file: {said}");
}
