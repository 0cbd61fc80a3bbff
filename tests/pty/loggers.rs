//! A folder in which a climate logger leaves its files, while the screens are open.

use crate::terminal::{Pty, Start, program, query};
use benchwalk::clock::{Clock, Real};
use chrono::TimeDelta;
use std::path::Path;
use std::process::Command;

/// Four days of readings, ten minutes apart, to the present.
fn readings() -> String {
    let now = Real.now();
    let row =
        |n: i64| format!("{},{:.1}\n", (now - TimeDelta::minutes(10 * n)).to_rfc3339(), 18.0 + (n % 90) as f64 / 20.0);
    let rows: Vec<String> = (1..=4 * 144).rev().map(row).collect();
    format!("Stamp,T\n{}", rows.concat())
}

/// A season of the demo's journal in a folder, and a config file that names the folder of a logger.
fn begin(folder: &Path) {
    let (config, loggers) = (folder.join("config/benchwalk"), folder.join("loggers"));
    std::fs::create_dir_all(&config).unwrap();
    std::fs::create_dir_all(&loggers).unwrap();
    let text = format!(
        "by = \"kt\"\n\n[[logger]]\nname = \"log-m\"\nhouse = \"Mill\"\ntime = \"Stamp\"\ntemperature = {{ column = \"T\", unit = \"C\" }}\nfolder = '{}'\n",
        loggers.display()
    );
    std::fs::write(config.join("config.toml"), text).unwrap();
    let journal = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/demo.jsonl");
    let mut import = Command::new(program());
    import.arg("--season").arg(folder.join("season.db")).arg("import").arg(journal).env("HOME", folder);
    for (name, sub) in [("XDG_DATA_HOME", "data"), ("XDG_CONFIG_HOME", "config"), ("XDG_STATE_HOME", "state")] {
        import.env(name, folder.join(sub));
    }
    let done = import.output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
}

#[test]
fn what_a_logger_leaves_in_its_folder_is_read_while_no_key_is_pressed() {
    let folder = tempfile::tempdir().unwrap();
    begin(folder.path());
    std::fs::write(folder.path().join("loggers/mill.csv"), readings()).unwrap();
    let start = Start { folder: Some(folder.path()), size: (120, 40), ..Start::default() };
    let mut pty = Pty::start_as(start, &["--season", "season.db"]);
    pty.wait_round();
    pty.wait("what was read", |text| text.contains("log-m: ") && text.contains(" days read, "));
    let of_logger = "SELECT count(*) FROM entry WHERE author = 'log-m'";
    let count: i64 = query(&pty.path("season.db"), of_logger)[0].parse().unwrap();
    assert!((2..=4).contains(&count), "{count}");
    // A bad file is named, and stands in the way of nothing.
    std::fs::write(pty.path("loggers/next.csv"), "Stamp,T\nyesterday,20\n").unwrap();
    pty.wait("what is wrong with it", |text| {
        text.contains("log-m: next.csv: line 2, Stamp: 'yesterday' is not a time")
    });
    pty.send("w");
    pty.wait("a card", |text| text.starts_with("Walk"));
    assert_eq!(query(&pty.path("season.db"), of_logger), [count.to_string()]);
}
