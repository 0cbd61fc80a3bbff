//! What the built program prints: the help of every command, every topic, and the reports of the demo season.

use crate::pieces::Piece;
use std::process::Command;
use tempfile::TempDir;

/// The built program in folders of its own.
pub(crate) struct Program {
    folder: TempDir,
}

impl Program {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// What it prints, on standard output, for these arguments.
    fn prints(&self, args: &[&str]) -> String {
        let root = self.folder.path();
        let output = Command::new(env!("CARGO_BIN_EXE_benchwalk"))
            .args(args)
            .current_dir(root)
            .env("HOME", root)
            .env("XDG_DATA_HOME", root.join("data"))
            .env("XDG_CONFIG_HOME", root.join("config"))
            .env("XDG_STATE_HOME", root.join("state"))
            .output()
            .unwrap();
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(output.status.success(), "{args:?}: {}", String::from_utf8_lossy(&output.stderr));
        text
    }

    fn page(&self, args: &[&str]) -> Piece {
        let text = self.prints(args);
        assert!(!text.trim().is_empty(), "{args:?} prints nothing");
        let text = if args.contains(&"html") { without_marks(&text) } else { text };
        Piece::page(&format!("benchwalk {}", args.join(" ")), &text)
    }

    /// The long and the short help of the program and of every command below it, and the manual page.
    pub(crate) fn help(&self) -> Vec<Piece> {
        let mut pages = vec![self.page(&["man"])];
        let mut waiting = vec![Vec::new()];
        while let Some(command) = waiting.pop() {
            let called: Vec<&str> = command.iter().map(String::as_str).collect();
            pages.push(self.page(&[&called[..], &["-h"]].concat()));
            pages.push(self.page(&[&called[..], &["--help"]].concat()));
            let text = self.prints(&[&called[..], &["--help"]].concat());
            waiting.extend(names_below(&text, "Commands:").into_iter().map(|name| [&command[..], &[name]].concat()));
        }
        pages
    }

    /// The topics of help.
    pub(crate) fn topics(&self) -> Vec<Piece> {
        names_below(&self.prints(&["help"]), "Topics:").iter().map(|name| self.page(&["help", name])).collect()
    }

    /// The reports of the demo season on its own day and on a later one, and the limits.
    pub(crate) fn reports(&self) -> Vec<Piece> {
        let season = self.folder.path().join("demo.db");
        let season = season.to_str().unwrap();
        let said = self.prints(&["--season", season, "demo", "--no-open"]);
        let day = said.split("--on ").nth(1).unwrap().trim().to_owned();
        let mut pages = vec![self.page(&["limits"])];
        let later = "2026-11-10";
        for (day, report) in [
            (day.as_str(), &["review"][..]),
            (day.as_str(), &["review", "--format", "json"]),
            (day.as_str(), &["review", "--format", "html"]),
            (day.as_str(), &["season"]),
            (day.as_str(), &["season", "--format", "html"]),
            (day.as_str(), &["sheet"]),
            (day.as_str(), &["sheet", "--format", "html"]),
            (later, &["review"]),
            (later, &["season"]),
            (later, &["sheet"]),
        ] {
            let mut page = self.page(&[&["--season", season, "--on", day], report].concat());
            page.path = format!("benchwalk --on {day} {}", report.join(" "));
            pages.push(page);
        }
        pages
    }
}

/// The names listed under a heading of the help.
fn names_below(help: &str, heading: &str) -> Vec<String> {
    let list = help.lines().skip_while(|line| *line != heading).skip(1);
    let rows = list.take_while(|line| line.starts_with("  ")).filter(|line| !line.starts_with("   "));
    rows.filter_map(|row| row.split_whitespace().next()).map(str::to_owned).collect()
}

/// The text of an HTML page: each mark becomes a gap, each named character itself.
fn without_marks(html: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for c in html.chars() {
        match c {
            '<' => inside = true,
            '>' if inside => {
                inside = false;
                text.push_str("  ");
            }
            other if !inside || other == '\n' => text.push(other),
            _ => {}
        }
    }
    [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&amp;", "&")]
        .iter()
        .fold(text, |text, (name, sign)| text.replace(name, sign))
}
