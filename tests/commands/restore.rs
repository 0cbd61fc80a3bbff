//! Dated copies kept by `import`, and `benchwalk restore`.

use crate::{Laptop, arg};
use benchwalk::store::Store;
use std::path::PathBuf;

const SITE: &str = "{\"type\":\"journal\",\"version\":2}
{\"type\":\"site\",\"name\":\"Quillby Rise\",\"latitude\":44.1,\"longitude\":-70.2,\"time_zone\":\"America/New_York\",\"units\":\"us\"}
{\"type\":\"lot\",\"lot\":\"R1\",\"cultivar\":\"mid red\",\"container\":\"6.5 in\",\"rim_cm\":16.5,\"cuttings_per_pot\":1,\"pots\":240,\
\"planted\":\"2026-08-17\",\"pinch\":\"soft\",\"response_weeks\":9.5,\"nights\":\"natural\",\"ready_by\":\"2026-11-27\"}
{\"type\":\"bench\",\"bench\":\"E1\",\"house\":\"East\",\"order\":1}
{\"type\":\"placement\",\"bench\":\"E1\",\"lot\":\"R1\",\"pots\":80,\"from\":\"2026-08-17\"}
";

fn water(day: &str, level: u8) -> String {
    format!(
        "{{\"type\":\"journal\",\"version\":2}}\n{{\"type\":\"entry\",\"at\":\"{day}T07:10:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",\
         \"kind\":\"water\",\"level\":{level}}}\n"
    )
}

/// Imports a journal; gives what was said on standard error.
fn import(laptop: &Laptop, journal: &str) -> String {
    let said = laptop.run_with(&["import", "-"], journal);
    assert_eq!(said.code, 0, "{said:?}");
    said.err
}

/// A season with entries of three days, one imported each day, so that the copy of a day holds what was written before.
fn three_days() -> Laptop {
    let laptop = Laptop::new();
    import(&laptop, SITE);
    for day in ["2026-10-12", "2026-10-13", "2026-10-14"] {
        laptop.clock.set(format!("{day}T11:30:00Z").parse().unwrap());
        import(&laptop, &water(day, 3));
        import(&laptop, &water(day, 4).replace("07:10", "07:12"));
    }
    laptop
}

/// The dated copies in the data folder.
fn copies(laptop: &Laptop) -> Vec<PathBuf> {
    let Ok(folders) = std::fs::read_dir(laptop.path("data/backups")) else { return Vec::new() };
    let folders = folders.map(|entry| entry.unwrap().path());
    let mut all: Vec<PathBuf> =
        folders.flat_map(|folder| std::fs::read_dir(folder).unwrap()).map(|entry| entry.unwrap().path()).collect();
    all.sort();
    all
}

fn count(path: &std::path::Path) -> u64 {
    Store::open_read_only(path).unwrap().count().unwrap()
}

#[test]
fn import_keeps_a_copy_of_the_day_before_it_writes() {
    let laptop = three_days();
    let counts: Vec<u64> = copies(&laptop).iter().map(|path| count(path)).collect();
    assert_eq!(counts, [0, 2, 4], "each as it was before the first import of its day: {:?}", copies(&laptop));
    assert_eq!(count(&laptop.path("data/season.db")), 6);
}

#[test]
fn restore_lists_the_copies_and_says_which_are_damaged() {
    let laptop = three_days();
    let listed = laptop.done(&["restore"]);
    let rows: Vec<&str> = listed.lines().filter(|line| line.starts_with("  2026")).collect();
    assert_eq!(rows.len(), 3, "{listed}");
    assert!(rows[0].starts_with("  2026-10-14        4  2026-10-13  ") && rows[0].ends_with(" kB"), "{listed}");
    assert!(rows[2].starts_with("  2026-10-12        0  none        "), "{listed}");
    // The topic shows this list; sizes depend on the version of the library.
    let topic = laptop.done(&["help", "backups"]);
    for row in &rows {
        let shown = row.rsplit_once("  ").unwrap().0.trim_end();
        assert!(topic.lines().any(|line| line.trim_start().starts_with(shown.trim_start())), "{row}");
    }
    std::fs::write(&copies(&laptop)[1], "half a copy").unwrap();
    let listed = laptop.done(&["restore"]);
    assert!(listed.contains("\n  2026-10-13  damaged: not a database\n"), "{listed}");
    assert!(copies(&laptop).iter().all(|path| path.extension().is_some_and(|e| e == "db")), "{:?}", copies(&laptop));
}

#[test]
fn restore_puts_a_copy_beside_the_season_and_changes_neither() {
    let laptop = three_days();
    let season = laptop.path("data/season.db");
    let (before, copy) = (std::fs::read(&season).unwrap(), std::fs::read(&copies(&laptop)[2]).unwrap());
    let said = laptop.done(&["restore", "2026-10-14"]);
    let restored = laptop.path("data/season.restored-2026-10-14.db");
    assert!(said.starts_with("[root]/data/season.restored-2026-10-14.db: 4 entries, verified\n"), "{said}");
    assert_eq!(count(&restored), 4);
    assert!(std::fs::read(&season).unwrap() == before && std::fs::read(&copies(&laptop)[2]).unwrap() == copy);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(std::fs::metadata(&restored).unwrap().permissions().mode() & 0o777, 0o600);
    }
    // What it says to do next works as it stands.
    let commands: Vec<String> =
        said.lines().filter_map(|line| line.trim_start().strip_prefix("benchwalk ")).map(str::to_owned).collect();
    assert_eq!(commands.len(), 3, "{said}");
    let since = laptop.path("since.jsonl");
    for command in commands {
        let command = command.replace("[root]", arg(laptop.root.path())).replace("since.jsonl", arg(&since));
        laptop.done(&command.split(' ').collect::<Vec<_>>());
    }
    assert_eq!(count(&restored), 6, "what was written since is there again");
}

#[test]
fn a_name_that_is_taken_is_passed_over_also_by_a_log_left_behind() {
    let laptop = three_days();
    laptop.file("data/season.restored-2026-10-13.db", "mine");
    laptop.file("data/season.restored-2026-10-13-2.db-wal", "left by another file");
    let said = laptop.done(&["restore", "2026-10-13"]);
    assert!(said.starts_with("[root]/data/season.restored-2026-10-13-3.db: 2 entries, verified\n"), "{said}");
    assert_eq!(std::fs::read(laptop.path("data/season.restored-2026-10-13.db")).unwrap(), b"mine");
}

#[test]
fn any_backup_can_be_put_back_also_when_the_season_file_is_gone_or_damaged() {
    let laptop = three_days();
    laptop.done(&["backup", arg(&laptop.path("stick.db"))]);
    std::fs::write(laptop.path("data/season.db"), "no season any more").unwrap();
    let said = laptop.done(&["restore", arg(&laptop.path("stick.db"))]);
    assert!(said.starts_with("[root]/data/season.restored-stick.db: 6 entries, verified\n"), "{said}");
    std::fs::remove_file(laptop.path("data/season.db")).unwrap();
    let said = laptop.done(&["restore", "2026-10-14"]);
    assert!(said.starts_with("[root]/data/season.restored-2026-10-14.db: 4 entries, verified\n"), "{said}");
    assert!(!laptop.path("data/season.db").exists());
}

#[test]
fn what_cannot_be_put_back_is_refused_and_leaves_nothing() {
    let laptop = three_days();
    laptop.file("broken.db", "half a copy");
    let names = || std::fs::read_dir(laptop.path("data")).unwrap().count();
    let before = names();
    for (which, code, wanted) in [
        ("2026-10-01", 2, "there is no copy of 2026-10-01; 'benchwalk restore' lists those there are"),
        (arg(&laptop.path("broken.db")), 1, "not a database"),
        (arg(&laptop.path("none.db")), 1, "there is no season file"),
    ] {
        let said = laptop.run(&["restore", which]);
        assert_eq!((said.code, said.out.as_str()), (code, ""), "{which}: {said:?}");
        assert!(said.err.contains(wanted), "{which}: {said:?}");
    }
    assert_eq!(names(), before);
    let fresh = Laptop::new();
    assert!(fresh.done(&["restore"]).contains("The first start of a day keeps one in [root]/data/backups."));
}

#[test]
fn the_settings_switch_copies_off_or_put_them_elsewhere() {
    let laptop = Laptop::new();
    import(&laptop, SITE);
    laptop.file("config/config.toml", "daily_backups = false\n");
    import(&laptop, &water("2026-10-12", 3));
    assert!(copies(&laptop).is_empty());
    assert!(laptop.done(&["restore"]).contains("daily_backups = false"));
    let stick = laptop.path("stick");
    laptop.file("config/config.toml", &format!("backup_folder = '{}'\n", stick.display()));
    let said = import(&laptop, &water("2026-10-12", 4));
    assert!(said.contains("no backup copy of today was kept: the backup folder is missing: [root]/stick"), "{said}");
    std::fs::create_dir(&stick).unwrap();
    import(&laptop, &water("2026-10-12", 5));
    assert_eq!(std::fs::read_dir(&stick).unwrap().count(), 1);
    assert!(copies(&laptop).is_empty());
    for (text, wanted) in [
        ("backup_folder = 'stick'", "'stick' is not a full path"),
        ("daily_backups = 'no'", "expected a boolean"),
        ("daily_backup = true", "`daily_backups`"),
    ] {
        laptop.file("config/config.toml", text);
        let said = laptop.run(&["restore"]);
        assert!(said.code == 1 && said.err.contains(wanted), "{said:?}");
    }
}

#[test]
fn a_season_that_is_damaged_is_not_imported_into_and_its_copies_stay() {
    let laptop = three_days();
    let season = laptop.path("data/season.db");
    let mut bytes = std::fs::read(&season).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 4096].fill(0xA5);
    std::fs::write(&season, &bytes).unwrap();
    laptop.clock.set("2026-10-15T11:30:00Z".parse().unwrap());
    let said = laptop.run_with(&["import", "-"], &water("2026-10-15", 3));
    assert!(said.code == 1 && said.err.contains("damaged"), "{said:?}");
    assert_eq!(copies(&laptop).len(), 3);
    assert!(std::fs::read(&season).unwrap() == bytes);
}
