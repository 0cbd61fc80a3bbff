//! Options, config file, exit codes.

use crate::{Laptop, SMALL, arg};
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
fn a_palette_is_one_of_three_words() {
    let laptop = Laptop::new();
    for name in ["usual", "sunlight", "night"] {
        laptop.file("config/config.toml", &format!("by = \"kt\"\npalette = \"{name}\"\n"));
        assert!(laptop.done(&[]).ends_with("by Some(\"kt\")\n"), "{name}");
    }
    for wrong in ["\"dark\"", "\"\"", "\"Night\"", "7"] {
        laptop.file("config/config.toml", &format!("by = \"kt\"\n\npalette = {wrong}\n"));
        let said = laptop.run(&[]);
        assert_eq!(said.code, 1, "{wrong}");
        assert!(said.err.contains("line 3") && said.err.contains("usual, sunlight, night"), "{wrong}: {}", said.err);
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
    let said = laptop.run(&["--help"]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    assert!(said.out.contains("benchwalk"));
}

/// The day the screens open on.
fn opened_on(laptop: &Laptop, typed: &[&str]) -> String {
    let said = laptop.done(typed);
    said.split_once("Some(").and_then(|(_, rest)| rest.split_once(')')).unwrap().0.to_owned()
}

#[test]
fn dates_are_taken_as_people_type_them_on_the_command_line() {
    let laptop = Laptop::new();
    // It is Monday, October 12, and no season tells that days come first.
    for (typed, wanted) in [
        (["--on", "-1"], "2026-10-11"),
        (["--on", "yesterday"], "2026-10-11"),
        (["--on", "Fri"], "2026-10-09"),
        (["--on", "10/9"], "2026-10-09"),
        (["--on", "Oct 9"], "2026-10-09"),
        (["--on", "9oct26"], "2026-10-09"),
        (["--on", "2026-10-09"], "2026-10-09"),
    ] {
        assert_eq!(opened_on(&laptop, &typed), wanted, "{typed:?}");
    }
    let refused = laptop.run(&["--on", "25/11"]);
    assert_eq!((refused.code, refused.out.as_str()), (2, ""));
    assert!(refused.err.contains("--on: \"25/11\"; give 11/25 (month first), Nov 25, Fri"), "{}", refused.err);
    // The season file says how days are typed at its site, and of which year they are.
    let metric = SMALL.replace("\"units\":\"us\"", "\"units\":\"metric\"");
    laptop.done(&["import", arg(&laptop.file("a.jsonl", &metric))]);
    assert_eq!(opened_on(&laptop, &["--on", "9/10"]), "2026-10-09");
    let refused = laptop.run(&["--on", "10/25"]);
    assert!(refused.code == 2 && refused.err.contains("25/11 (day first), 25 Nov"), "{}", refused.err);
    let review = |day: &str| laptop.done(&["--on", day, "review"]);
    assert_eq!(review("9/10"), review("2026-10-09"));
}

#[test]
fn the_dates_of_a_calculation_are_taken_as_people_type_them() {
    let laptop = Laptop::new();
    let with = |units: &str, days: [&str; 3]| {
        let [ready, planted, seen] = days;
        let seen = format!("{seen}=2");
        let all = ["calendar", "--response", "9.5", "--at", "44.10,-70.21", "--units", units];
        let typed = ["--ready-by", ready, "--planted", planted, "--seen", &seen];
        laptop.run(&[all.as_slice(), typed.as_slice()].concat())
    };
    let iso = with("us", ["2026-11-27", "2026-08-17", "2026-11-02"]);
    assert_eq!(iso.code, 0, "{iso:?}");
    // It is October 12: a sale is to come, a planting is done; a bract stage seen in November needs its year.
    assert_eq!(with("us", ["11/27", "8/17", "11/2/26"]).out, iso.out);
    assert_eq!(with("us", ["Nov 27", "17 Aug", "nov2 2026"]).out, iso.out);
    let metric = with("metric", ["2026-11-27", "2026-08-17", "2026-11-02"]);
    assert_eq!(with("metric", ["27/11", "17.8.", "2.11.26"]).out, metric.out);
    let refused = with("metric", ["11/27", "17/8", "2/11/26"]);
    assert!(refused.code == 2 && refused.err.contains("--ready-by: \"11/27\"; give 25/11 (day first)"), "{refused:?}");
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
