//! The demo season.

use crate::{Laptop, arg};
use benchwalk::store::Store;

#[test]
fn each_demo_is_a_file_of_its_own_opened_on_its_own_day() {
    let laptop = Laptop::new();
    let first = laptop.done(&["demo"]);
    let day = Store::open_read_only(&laptop.path("data/demo-1.db")).unwrap().load().unwrap().1;
    let day = day.iter().map(benchwalk::record::Entry::day).max().unwrap();
    assert_eq!(
        first,
        format!(
            "screens on [root]/data/demo-1.db, day Some({day}), by Some(\"demo\")\n\
             The demo season is in [root]/data/demo-1.db\n\
             Open it again: benchwalk --season [root]/data/demo-1.db --on {day}\n"
        )
    );
    assert!(laptop.done(&["demo", "--no-open"]).starts_with("The demo season is in [root]/data/demo-2.db"));
    assert!(!laptop.path("data/season.db").exists());
}

#[test]
fn a_demo_never_goes_over_a_file() {
    let laptop = Laptop::new();
    let path = laptop.file("mine.db", "mine");
    let said = laptop.run(&["--season", arg(&path), "demo"]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("mine.db: already exists"), "{}", said.err);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    let new = laptop.path("my demo.db");
    let said = laptop.done(&["--season", arg(&new), "--by", "kt", "--on", "2026-10-01", "demo"]);
    assert!(said.starts_with("screens on [root]/my demo.db, day Some(2026-10-01), by Some(\"kt\")\n"), "{said}");
    let quote = if cfg!(windows) { '"' } else { '\'' };
    assert!(said.contains(&format!("--season {quote}[root]/my demo.db{quote} --on 2026-10-01")), "{said}");
}

#[cfg(unix)]
#[test]
fn a_season_is_private_to_its_user() {
    use std::os::unix::fs::PermissionsExt;
    let laptop = Laptop::new();
    laptop.done(&["demo"]);
    let mode = std::fs::metadata(laptop.path("data/demo-1.db")).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
}
