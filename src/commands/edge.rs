//! The edge of the program: how a failed command and a panic are reported.
//!
//! A failure is one line of what happened, the causes that line does not name, then what to do. Where in the source it came up
//! is of no use to a grower and is left out; a panic, which is a fault of the program, names it.

use super::CommandError;
use crate::characters::printable;
use color_eyre::config::{HookBuilder, Theme};
use color_eyre::eyre::Report;
use std::io::Write;
#[cfg(unix)]
use std::sync::Arc;

/// Sets up the reports of the program; called once, by `main`. The terminal's own panic hook goes before this one, so that what
/// it prints can be read.
///
/// # Errors
/// When reports were set up already, or the system allows no handler for a signal.
pub fn install() -> Result<(), Report> {
    // A file that may not grow (`ulimit -f`) would end the program; so the write fails, with a reason that can be said.
    #[cfg(unix)]
    signal_hook::flag::register(signal_hook::consts::SIGXFSZ, Arc::default())?;
    HookBuilder::default()
        .theme(Theme::new())
        .display_env_section(false)
        .panic_section("This is a fault of the program. What was shown as saved is saved; report the text above.")
        .install()
}

/// Reports a failed command and gives its exit code.
pub fn report(error: CommandError, err: &mut dyn Write) -> u8 {
    let (code, help) = (error.exit_code(), error.help());
    tracing::error!(error = error.for_log(), "the command failed");
    let report = Report::new(error);
    // Where even standard error is gone only the exit code is left to say it.
    say(&text(&report, help), err).ok();
    code
}

/// Writes a message to standard error; every message goes through here. What a terminal would not show as it is, from the name of a
/// file or out of it, is written out.
///
/// # Errors
/// When it cannot be written.
pub fn say(message: &str, err: &mut dyn Write) -> std::io::Result<()> {
    err.write_all(printable(message).as_bytes())?;
    err.flush()
}

/// The report in lines.
fn text(report: &Report, help: Option<&str>) -> String {
    let mut text = format!("benchwalk: {report}\n");
    for cause in report.chain().skip(1).map(ToString::to_string) {
        if !text.contains(&cause) {
            text.push_str(&format!("  because: {cause}\n"));
        }
    }
    if let Some(help) = help {
        text.push_str(&format!("  help: {help}\n"));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use color_eyre::eyre::eyre;
    use std::io;
    use std::path::PathBuf;

    fn said(error: CommandError) -> (u8, String) {
        let mut err = Vec::new();
        let code = report(error, &mut err);
        (code, String::from_utf8(err).unwrap())
    }

    #[test]
    fn a_failure_is_its_line_then_what_to_do() {
        let error = io::Error::other("the disk is gone");
        let (code, text) = said(CommandError::File { path: PathBuf::from("a.jsonl"), error });
        assert_eq!(code, 1);
        assert_eq!(text, "benchwalk: the disk is gone: a.jsonl\n  help: check the path, and the permissions there\n");
    }

    #[test]
    fn a_failure_that_says_what_to_do_says_it_once() {
        let typed = CommandError::Typed { option: "--ppm", reason: "0 ppm needs nothing".to_owned() };
        assert_eq!(said(typed), (2, "benchwalk: --ppm: 0 ppm needs nothing\n".to_owned()));
    }

    #[test]
    fn causes_that_the_line_does_not_name_follow_it() {
        let deep = eyre!("the cable is out").wrap_err("the disk is gone").wrap_err("a.jsonl: the disk is gone");
        assert_eq!(text(&deep, None), "benchwalk: a.jsonl: the disk is gone\n  because: the cable is out\n");
    }
}
