//! The command line, driven inside the process with folders, streams and a clock of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod applications;
mod cases;
mod close;
mod compare;
mod crop;
mod demo;
mod examples;
mod help;
mod ics;
mod import;
mod join;
mod labels;
mod layout;
mod logger;
mod mix;
mod paper;
mod program;
mod progress;
mod restore;
mod review;
#[path = "../common/rng.rs"]
mod rng;
mod settings;
mod share;
mod sites;
mod spreadsheets;
mod streams;
mod trial;
mod trial_words;
mod version;

use benchwalk::clock::Fixed;
use benchwalk::commands::{CommandError, Context, Folders, ProgressLine, run_from};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use tempfile::TempDir;

/// A season of two benches, as `tests/store` has it.
const SMALL: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"E1","house":"East","order":1,"area_m2":12}
{"type":"placement","bench":"E1","lot":"R1","pots":80,"from":"2026-08-17"}
"#;

/// One more water score on E1, of a day in October.
fn water(day: u8, level: u8) -> String {
    format!(
        r#"{{"type":"entry","at":"2026-10-{day:02}T07:10:00-04:00","by":"kt","bench":"E1","kind":"water","level":{level}}}"#
    )
}

/// A laptop of its own: folders, a clock standing at 2026-10-12 07:30 in New York.
struct Laptop {
    root: TempDir,
    clock: Fixed,
}

/// What a command said and how it ended.
#[derive(Debug)]
struct Said {
    code: u8,
    out: String,
    err: String,
}

impl Laptop {
    fn new() -> Self {
        let clock = Fixed::at("2026-10-12T11:30:00Z".parse().unwrap());
        Self { root: tempfile::tempdir().unwrap(), clock }
    }

    fn folders(&self) -> Folders {
        Folders::under(self.root.path())
    }

    fn path(&self, name: &str) -> PathBuf {
        // With the separators of the system.
        self.root.path().join(name.split('/').collect::<PathBuf>())
    }

    /// A file in the laptop's root folder.
    fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, text).unwrap();
        path
    }

    /// Runs `benchwalk` with these arguments; the screens only say what they were opened on.
    fn run(&self, arguments: &[&str]) -> Said {
        self.run_with(arguments, "")
    }

    /// The same, with something on standard input.
    fn run_with(&self, arguments: &[&str], input: &str) -> Said {
        self.run_on(arguments, input, ProgressLine::silent())
    }

    /// The same, with a line that shows how far it got.
    fn run_on(&self, arguments: &[&str], input: &str, line: ProgressLine) -> Said {
        let (mut out, mut err, mut input) = (Vec::new(), Vec::new(), input.as_bytes());
        let mut context = Context::new((&mut out, &mut err, &mut input), &self.clock, self.folders());
        context.screens = screens;
        context.line = Rc::new(line);
        let code = run_from(std::iter::once("benchwalk").chain(arguments.iter().copied()), &mut context);
        let text = |bytes: Vec<u8>| named(&String::from_utf8(bytes).unwrap(), self.root.path(), "[root]");
        Said { code, out: text(out), err: text(err) }
    }

    /// Runs a command that must succeed, and gives what it said.
    fn done(&self, arguments: &[&str]) -> String {
        let said = self.run(arguments);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{arguments:?}: {said:?}");
        said.out
    }
}

/// A text with a folder by another name, and the paths below it as Unix spells them; also in JSON, where a backslash stands twice.
fn named(text: &str, folder: &Path, name: &str) -> String {
    let folder = folder.display().to_string();
    if cfg!(unix) {
        return text.replace(&folder, name);
    }
    let text = text.replace(&folder.replace('\\', r"\\"), name).replace(&folder, name);
    let mut parts = text.split(name);
    let mut spelled = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let end = part.find([' ', ',', ':', ';', '\'', '"', '\n', ')']).unwrap_or(part.len());
        spelled.push_str(name);
        spelled.push_str(&part[..end].replace(r"\\", "/").replace('\\', "/"));
        spelled.push_str(&part[end..]);
    }
    spelled
}

/// Stands in for the screens.
fn screens(context: &mut Context<'_>) -> Result<(), CommandError> {
    let s = &context.settings;
    writeln!(context.out, "screens on {}, day {:?}, by {:?}", s.season.display(), s.on, s.by)?;
    Ok(())
}

/// A path as an argument.
fn arg(path: &Path) -> &str {
    path.to_str().unwrap()
}
