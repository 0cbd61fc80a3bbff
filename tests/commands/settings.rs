//! Options, config file, exit codes.

use crate::{Laptop, arg};
use benchwalk::commands::{Context, run_from};

#[test]
fn without_a_command_the_screens_open_on_the_default_file() {
    let laptop = Laptop::new();
    assert_eq!(laptop.done(&[]), "screens on [root]/data/season.db, day None, by None\n");
}

#[test]
fn who_writes_comes_from_the_option_then_the_config_file() {
    let laptop = Laptop::new();
    laptop.file("config/config.toml", "by = \"kt\"\n");
    assert!(laptop.done(&[]).ends_with("by Some(\"kt\")\n"));
    assert!(laptop.done(&["--by", "rk"]).ends_with("by Some(\"rk\")\n"));
    for (text, wanted) in
        [("by = \"much too long\"", "give 1 to 8 characters"), ("buy = 1", "buy"), ("by = ", "line 1")]
    {
        laptop.file("config/config.toml", text);
        let said = laptop.run(&[]);
        assert_eq!(said.code, 1);
        assert!(said.err.contains("config.toml") && said.err.contains(wanted), "{text}: {}", said.err);
    }
}

#[test]
fn wrong_use_is_exit_code_2_and_on_standard_error() {
    let laptop = Laptop::new();
    let wrong: [&[&str]; 7] = [
        &["sing"],
        &["--on", "12.10.2026"],
        &["--on", "26-10-12"],
        &["--by", "much too long"],
        &["import"],
        &["review", "--format", "yaml"],
        &["--sesaon", "x"],
    ];
    for arguments in wrong {
        let said = laptop.run(arguments);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!said.err.is_empty(), "{arguments:?}");
    }
    for arguments in [["--help"], ["--version"]] {
        let said = laptop.run(&arguments);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{arguments:?}");
        assert!(said.out.contains("benchwalk"));
    }
}

#[test]
fn the_limits_printed_are_the_limits_read() {
    let laptop = Laptop::new();
    let printed = laptop.done(&["limits"]);
    let path = laptop.file("config/limits.toml", &printed);
    laptop.done(&["limits"]);
    laptop.done(&["demo", "--no-open"]);
    std::fs::write(&path, "[water]\nwet_from = \"four\"\n").unwrap();
    let said = laptop.run(&["review", "--season", arg(&laptop.path("data/demo-1.db"))]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("limits.toml") && said.err.contains("line 2"), "{}", said.err);
}

/// A pipe whose reader has gone, or a full disk.
struct Gone(std::io::ErrorKind);

impl std::io::Write for Gone {
    fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
        Err(self.0.into())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_reader_that_has_read_enough_is_no_failure_but_a_full_disk_is() {
    use std::io::ErrorKind::{BrokenPipe, StorageFull};
    for (kind, wanted) in [(BrokenPipe, 0), (StorageFull, 1)] {
        let laptop = Laptop::new();
        let (mut out, mut err, mut input) = (Gone(kind), Vec::new(), std::io::empty());
        let mut context = Context::new((&mut out, &mut err, &mut input), &laptop.clock, laptop.folders());
        assert_eq!(run_from(["benchwalk", "limits"], &mut context), wanted);
        assert_eq!(err.is_empty(), wanted == 0);
    }
}

#[test]
fn what_went_wrong_is_in_the_log() {
    let laptop = Laptop::new();
    laptop.run(&["export"]);
    assert!(laptop.path("state/benchwalk.log").exists());
}
