//! The real program on pipes, devices, full disks and closed streams: it ends at once, with the exit code the README names.
#![cfg(unix)]

use crate::{Laptop, SMALL, water};
use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc;
use std::time::Duration;

/// Far more than any of these takes, also on a busy machine.
const DEADLINE: Duration = Duration::from_mins(1);

/// How the program ended.
#[derive(Debug)]
struct Ended {
    code: Option<i32>,
    out: String,
    err: String,
}

/// A shell that runs `$BENCHWALK` as a script says, in the laptop's root folder, on a season that is there.
fn shell(laptop: &Laptop, script: &str) -> Ended {
    let mut command = Command::new("sh");
    command.args(["-c", script]).current_dir(laptop.root.path());
    command.env("BENCHWALK", env!("CARGO_BIN_EXE_benchwalk"));
    for (name, sub) in
        [("HOME", "."), ("XDG_DATA_HOME", "data"), ("XDG_CONFIG_HOME", "config"), ("XDG_STATE_HOME", "state")]
    {
        command.env(name, laptop.path(sub));
    }
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let (ends, ended) = mpsc::channel();
    let out = reader(child.stdout.take().unwrap(), ends.clone());
    let err = reader(child.stderr.take().unwrap(), ends);
    let status = waited(child, &ended, script);
    Ended { code: status.code(), out: out.join().unwrap(), err: err.join().unwrap() }
}

/// Reads a stream to its end, which letting `ends` go reports.
fn reader(mut from: impl Read + Send + 'static, ends: mpsc::Sender<()>) -> std::thread::JoinHandle<String> {
    std::thread::spawn(move || {
        let mut bytes = Vec::new();
        from.read_to_end(&mut bytes).unwrap();
        drop(ends);
        String::from_utf8_lossy(&bytes).into_owned()
    })
}

fn waited(mut child: Child, ended: &mpsc::Receiver<()>, script: &str) -> ExitStatus {
    if ended.recv_timeout(DEADLINE) == Err(mpsc::RecvTimeoutError::Timeout) {
        child.kill().unwrap();
        panic!("still runs after {DEADLINE:?}: {script}");
    }
    child.wait().unwrap()
}

/// A laptop whose default season holds a few records, for the real program too.
fn laptop() -> Laptop {
    let laptop = Laptop::new();
    laptop.file("in.jsonl", &format!("{SMALL}{}\n", water(11, 3)));
    let made = shell(&laptop, "exec \"$BENCHWALK\" import in.jsonl");
    assert_eq!(made.code, Some(0), "{made:?}");
    laptop
}

fn season(laptop: &Laptop) -> std::path::PathBuf {
    laptop.path("data/benchwalk/season.db")
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_pipe_or_a_device_is_refused_before_it_is_opened() {
    let laptop = laptop();
    let made = Command::new("mkfifo").arg(laptop.path("pipe")).status().unwrap();
    assert!(made.success());
    let before = fs::read(season(&laptop)).unwrap();
    for (command, kind) in [
        ("--season pipe export", "a pipe"),
        ("--season pipe review", "a pipe"),
        ("--season pipe import in.jsonl", "a pipe"),
        ("--limits pipe review", "a pipe"),
        ("--limits /dev/zero review", "a device"),
        ("import pipe", "a pipe"),
        ("import /dev/zero", "a device"),
        ("import /dev/stdin < in.jsonl", "a stream"),
        ("import /proc/self/fd/0 < in.jsonl", "a stream"),
        ("import data", "a folder"),
        ("export pipe", "a pipe"),
        ("export /dev/full", "a device"),
        ("export /dev/stdout", "a stream"),
        ("export /dev/stdout > out", "a stream"),
        ("backup pipe", "a pipe"),
        ("backup /dev/full", "a device"),
    ] {
        let said = shell(&laptop, &format!("\"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(1), "{command}: {said:?}");
        assert!(said.err.contains(&format!("{kind}, not an ordinary file")), "{command}: {}", said.err);
    }
    let said = shell(&laptop, "exec \"$BENCHWALK\" import pipe");
    assert!(said.err.contains("give an ordinary file, or - to read standard input: pipe"), "{}", said.err);
    fs::create_dir_all(laptop.path("config/benchwalk")).unwrap();
    fs::rename(laptop.path("pipe"), laptop.path("config/benchwalk/config.toml")).unwrap();
    let said = shell(&laptop, "exec \"$BENCHWALK\" review");
    assert_eq!(said.code, Some(1), "{said:?}");
    assert!(said.err.contains("it is a pipe, not an ordinary file"), "{}", said.err);
    assert!(fs::read(season(&laptop)).unwrap() == before);
}

#[test]
fn links_and_the_streams_by_their_own_sign_are_fine() {
    let laptop = laptop();
    std::os::unix::fs::symlink(laptop.path("in.jsonl"), laptop.path("link.jsonl")).unwrap();
    for command in ["import link.jsonl", "import - < in.jsonl", "export -"] {
        let said = shell(&laptop, &format!("\"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(0), "{command}: {said:?}");
    }
    assert!(!laptop.path("-").exists());
}

#[test]
fn a_file_that_is_too_large_is_refused_by_its_size() {
    let laptop = laptop();
    for (name, megabytes, command) in [("big.jsonl", 256, "import"), ("big.toml", 1, "review --limits")] {
        let file = fs::File::create(laptop.path(name)).unwrap();
        file.set_len(megabytes * 1_000_000 + 1).unwrap();
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command} {name}"));
        assert_eq!(said.code, Some(1), "{said:?}");
        let wanted = format!("it is larger than {megabytes} MB, the most that is read: {name}");
        assert!(said.err.contains(&wanted), "{}", said.err);
    }
}

#[test]
fn of_very_many_faults_a_hundred_are_shown_and_the_rest_is_counted() {
    let laptop = laptop();
    let many = 3_000;
    laptop.file("bad.jsonl", &format!("{}\n{}", SMALL.lines().next().unwrap(), "[[[\n".repeat(many)));
    laptop.file("bad.csv", &format!("bench,house\n{}", "!,\n".repeat(many)));
    laptop.file(
        "bad.toml",
        &format!("[water]\n{}", (0..many).fold(String::new(), |all, n| all + &format!("a{n} = 1\n"))),
    );
    for (command, all) in [("import bad.jsonl", many), ("import bad.csv", 2 * many), ("--limits bad.toml review", many)]
    {
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(1), "{command}");
        let more = format!("\n  … and {},{:03} more\n", (all - 100) / 1000, (all - 100) % 1000);
        assert!(said.err.contains(&more), "{command}: {}", said.err.chars().rev().take(300).collect::<String>());
        assert_eq!(said.err.matches("\n  line ").count(), 100, "{command}");
    }
    // What nests without end, and a line without end, are faults of their lines.
    let text = format!("{SMALL}{}\n{{\"a\":\"{}\"}}\n", "[".repeat(200_000), "x".repeat(1_000_001));
    laptop.file("deep.jsonl", &text);
    let said = shell(&laptop, "exec \"$BENCHWALK\" import deep.jsonl");
    assert!(said.err.contains("2 errors in deep.jsonl") && said.err.len() < 1000, "{}", said.err);
    assert!(said.err.contains("line 6: is not JSON") && said.err.contains("line 7: has 1000009 bytes"), "{}", said.err);
}

#[test]
fn streams_that_are_full_closed_or_gone() {
    let laptop = laptop();
    let before = fs::read(season(&laptop)).unwrap();
    for (command, code, wanted) in [
        ("review > /dev/full", 1, "benchwalk: standard output: No space left on device"),
        ("export > /dev/full", 1, "benchwalk: standard output: No space left on device"),
        ("help journal > /dev/full", 1, "benchwalk: standard output: No space left on device"),
        ("--version > /dev/full", 1, "benchwalk: standard output: No space left on device"),
        ("review 2> /dev/full", 0, ""),
        ("import none 2> /dev/full", 1, ""),
        ("--nonsense 2> /dev/full", 2, ""),
        ("import none 2>&-", 1, ""),
        ("review >&-", 0, ""),
        ("export out.jsonl <&- >&- 2>&-", 0, ""),
        ("import - <&-", 1, "there is no record"),
    ] {
        let said = shell(&laptop, &format!("\"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(code), "{command}: {said:?}");
        assert!(said.err.contains(wanted), "{command}: {}", said.err);
    }
    assert!(fs::read_to_string(laptop.path("out.jsonl")).unwrap().contains("\n# end: "));
    // The reader has read enough.
    let said = shell(&laptop, "{ \"$BENCHWALK\" help journal; echo \"ended $?\" >&2; } | true");
    assert_eq!((said.out.as_str(), said.err.as_str()), ("", "ended 0\n"));
    assert!(fs::read(season(&laptop)).unwrap() == before);
}

#[test]
fn what_is_no_terminal_gets_no_count_however_long_it_takes() {
    let laptop = laptop();
    let more: String = (0..1_500_u32)
        .map(|n| {
            water(11, 3).replace("07:10:00", &format!("{:02}:{:02}:{:02}", 8 + n / 3600, n / 60 % 60, n % 60)) + "\n"
        })
        .collect();
    laptop.file("more.jsonl", &format!("{SMALL}{more}"));
    for command in ["import more.jsonl", "review --format json", "export", "backup copy.db", "export out.jsonl"] {
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{command}");
        assert!(!said.out.contains('\r'), "{command}");
    }
}

#[test]
fn the_reason_stands_before_a_long_path() {
    let laptop = laptop();
    let long = format!("{}/none.jsonl", "a-very-long-folder-name".repeat(5));
    laptop.file("config/benchwalk/limits.toml", "[water]\nwet = 3\n");
    for (command, reason) in [
        (format!("import {long}"), "No such file or directory"),
        (format!("export {long}"), "No such file or directory"),
        ("review".to_owned(), "the limits cannot be used"),
        (format!("--limits {long} review"), "No such file or directory"),
    ] {
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        let start: String = said.err.chars().take(80).collect();
        assert!(said.code == Some(1) && start.contains(reason), "{command}: {said:?}");
    }
}

#[test]
fn what_a_terminal_would_obey_is_written_out() {
    let laptop = laptop();
    laptop.file("config/benchwalk/config.toml", "by = \u{1b}[2J\u{202e}\n");
    for command in [
        "review",
        "--by \"$(printf 'a\\033[2Jb')\" review",
        "\"$(printf 'x\\033]0;t\\007')\"",
        "--limits \"$(printf 'no\\033[2J\\342\\200\\256.toml')\" review",
        "--season \"$(printf 'no\\033[2J\\nx.db')\" review",
        "import \"$(printf 'no\\033[2J\\342\\200\\213.jsonl')\"",
    ] {
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        assert!(matches!(said.code, Some(1 | 2)), "{command}: {said:?}");
        let raw = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{202e}' | '\u{200b}');
        assert!(!said.err.contains(raw), "{command}: {:?}", said.err);
        if command != "review" {
            // The reader of the command line takes them out of what it quotes.
            let kept = !command.contains('.');
            assert!(kept || said.err.contains("\\u{1b}"), "{command}: {:?}", said.err);
            continue;
        }
        assert!(said.err.starts_with("benchwalk: line 1: "), "{}", said.err);
        fs::remove_file(laptop.path("config/benchwalk/config.toml")).unwrap();
    }
}

#[test]
fn a_folder_that_cannot_be_looked_into_is_no_first_start() {
    let laptop = laptop();
    std::os::unix::fs::symlink("loop", laptop.path("loop")).unwrap();
    for command in ["--season loop/season.db", "--season in.jsonl/season.db", "--season loop/season.db import in.jsonl"]
    {
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(1), "{command}: {said:?}");
        let reason = ["Not a directory", "Too many levels of symbolic links"].iter().any(|why| said.err.contains(why));
        assert!(reason && !said.err.contains("need a terminal"), "{command}: {}", said.err);
    }
}

#[test]
fn what_a_killed_run_left_is_gone_after_the_next_one_and_nothing_else_is() {
    let laptop = laptop();
    let beside = season(&laptop).parent().unwrap().to_owned();
    let root = laptop.root.path().to_owned();
    let left = |folder: &Path, base: &str| {
        for ending in ["", "-journal", "-wal", "-shm", ".lock"] {
            fs::write(folder.join(format!("{base}{ending}")), if ending == ".lock" { "" } else { "half" }).unwrap();
        }
    };
    for (folder, base, command) in [
        (&root, ".benchwalk-text-4711-aaaaaaaa", "export new.jsonl"),
        (&root, ".benchwalk-backup-4711-bbbbbbbb", "backup new.db"),
        (&beside, ".benchwalk-season-4711-cccccccc", "--season data/benchwalk/other.db import in.jsonl"),
        (&root, ".benchwalk-season-4711-dddddddd", "--season demo.db demo --no-open"),
    ] {
        let mine = folder.join(".benchwalk-season-mine");
        fs::write(&mine, "mine").unwrap();
        left(folder, base);
        // A lock that is held says that its file is in use.
        let used = ".benchwalk-text-4712-eeeeeeee";
        left(folder, used);
        let held = fs::OpenOptions::new().write(true).open(folder.join(format!("{used}.lock"))).unwrap();
        held.lock().unwrap();
        let said = shell(&laptop, &format!("exec \"$BENCHWALK\" {command}"));
        assert_eq!(said.code, Some(0), "{command}: {said:?}");
        let there = names(folder);
        assert!(!there.iter().any(|name| name.starts_with(base)), "{command}: {there:?}");
        assert_eq!(there.iter().filter(|name| name.starts_with(used)).count(), 5, "{command}: {there:?}");
        assert!(mine.exists() && season(&laptop).exists());
        drop(held);
    }
}

#[test]
fn reading_commands_leave_nothing_beside_a_closed_season() {
    let laptop = laptop();
    let (path, beside) = (season(&laptop), season(&laptop).parent().unwrap().to_owned());
    let (before, there) = (fs::read(&path).unwrap(), names(&beside));
    for command in ["export", "review", "season", "sheet", "backup ../../copy.db", "night", "restore"] {
        let said = shell(&laptop, &format!("cd data/benchwalk && \"$BENCHWALK\" {command}"));
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{command}: {said:?}");
        assert_eq!(names(&beside), there, "{command}");
        assert!(fs::read(&path).unwrap() == before, "{command}");
    }
}
