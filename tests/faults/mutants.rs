//! What the campaigns of mutated files share: bounded commands, random bytes, and text that no message may hold.

use crate::harness::{Done, Run, is_full};
use crate::rng::Rng;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Starts the program with 4 GB of address space: one that eats the memory fails instead of taking the machine with it.
pub(crate) const BOUNDED: [&str; 2] = ["prlimit", "--as=4000000000"];

/// How long a command may take. The short form runs a debug build on a machine that has other things to do.
pub(crate) fn patience() -> Duration {
    Duration::from_secs(if is_full() { 10 } else { 30 })
}

/// Runs `benchwalk` on a season file, at home in `folder`, bounded in time and memory.
pub(crate) fn ask(folder: &Path, season: &Path, arguments: &[&OsStr], stdin: &[u8]) -> Done {
    let mut all: Vec<&OsStr> = vec!["--season".as_ref(), season.as_os_str()];
    all.extend(arguments);
    Run { prefix: &BOUNDED.map(OsStr::new), stdin, deadline: patience(), ..Run::at(folder) }.go(&all)
}

/// What is wrong with a message and an exit code, whatever was asked.
pub(crate) fn message_faults(done: &Done) -> Vec<String> {
    let (mut why, said) = (done.unsound(), done.err());
    if done.code == Some(1) && said.trim().is_empty() {
        why.push("failed without a word".to_owned());
    }
    if done.code == Some(2) {
        why.push(format!("taken for wrong use: {said:.300}"));
    }
    if controls(&done.stderr) {
        why.push(format!("control characters in the message: {said:.300?}"));
    }
    if hidden(&done.stderr) {
        why.push(format!("hidden characters in the message: {said:.300?}"));
    }
    why
}

/// Control characters that text for a terminal must not hold: all but the tab and the line feed.
pub(crate) fn controls(text: &[u8]) -> bool {
    text.iter().any(|byte| (*byte < 0x20 && !b"\t\n".contains(byte)) || *byte == 0x7f)
        || String::from_utf8_lossy(text).chars().any(|c| ('\u{80}'..'\u{a0}').contains(&c))
}

/// Characters that are not seen, or that turn the text around them.
fn hidden(text: &[u8]) -> bool {
    let is_hidden = |c| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{feff}');
    String::from_utf8_lossy(text).chars().any(is_hidden)
}

/// Keeps what failed, to be tried again.
pub(crate) fn keep(name: &str, data: &[u8]) -> String {
    let folder: PathBuf = std::env::temp_dir().join("benchwalk-faults");
    let path = folder.join(name);
    let kept = std::fs::create_dir_all(&folder).and_then(|()| std::fs::write(&path, data));
    kept.map_or_else(|error| format!("not kept: {error}"), |()| path.display().to_string())
}

/// Any byte.
pub(crate) fn byte(rng: &mut Rng) -> u8 {
    rng.next().to_le_bytes()[0]
}

/// So many of these in any order, each at most once.
pub(crate) fn sample<T: Clone>(rng: &mut Rng, of: &[T], many: usize) -> Vec<T> {
    let mut places: Vec<usize> = (0..of.len()).collect();
    rng.shuffle(&mut places);
    places.into_iter().take(many).map(|at| of[at].clone()).collect()
}

/// The same text with the line breaks of another system.
pub(crate) fn other_breaks(text: &[u8]) -> Vec<u8> {
    text.split(|byte| *byte == b'\n').collect::<Vec<_>>().join(b"\r\n".as_slice())
}
