//! Any bytes as a limits file or as `config.toml`, read as a command reads them. The first byte says which.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::clock::Real;
use benchwalk::commands::{Context, Folders, run_from};
use benchwalk::limits::{Limits, changed};
use libfuzzer_sys::fuzz_target;
use std::fs;
use std::path::PathBuf;
use std::sync::LazyLock;

/// One folder for the whole run.
static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
    let folder = tempfile::tempdir().expect("a folder").keep();
    fs::create_dir_all(folder.join("config")).expect("a folder");
    folder
});

fuzz_target!(|data: &[u8]| {
    let Some((which, rest)) = data.split_first() else { return };
    if *which % 2 == 0 {
        let Ok(text) = std::str::from_utf8(rest) else { return };
        match Limits::parse(text) {
            Ok(limits) => {
                let again = Limits::parse(&changed(&limits)).expect("what was written is read");
                assert!(again.own().eq(limits.own()));
            }
            Err(faults) => {
                for said in faults.iter().map(ToString::to_string) {
                    assert!(!said.chars().any(hidden), "not clean: {said:?}");
                }
            }
        }
        return;
    }
    fs::write(FOLDER.join("config/config.toml"), rest).expect("a file is written");
    let (mut out, mut err, mut input) = (Vec::new(), Vec::new(), std::io::empty());
    let code = {
        let mut context = Context::new((&mut out, &mut err, &mut input), &Real, Folders::under(&FOLDER));
        run_from(["benchwalk", "night", "--help"], &mut context);
        run_from(["benchwalk", "limits"], &mut context)
    };
    assert!(code <= 2, "it ended with {code}");
    let said = String::from_utf8(err).expect("a message is text");
    assert!(!said.chars().any(|c| c != '\n' && hidden(c)), "not clean: {said:?}");
});
