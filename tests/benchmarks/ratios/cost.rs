//! What a command took, from the system.

use nix::sys::resource::{Usage, UsageWho, getrusage};
use std::fs::File;
use std::path::Path;
use std::process::{Command, Stdio};

/// The first argument of this program where it is only to start another and say what that took.
pub(crate) const MEASURE: &str = "measure";

/// What a process took.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cost {
    /// Processor time in both modes, in seconds.
    pub(crate) seconds: f64,
    /// The most memory it held, in MB.
    pub(crate) megabytes: f64,
}

/// Processor time in both modes, in seconds.
pub(crate) fn seconds(usage: &Usage) -> f64 {
    let of = |time: nix::sys::time::TimeVal| time.tv_sec() as f64 + time.tv_usec() as f64 / 1e6;
    of(usage.user_time()) + of(usage.system_time())
}

/// Starts the command of these arguments, waits, and prints what it took.
pub(crate) fn measure(args: &[String]) {
    let status =
        Command::new(&args[0]).args(&args[1..]).stdin(Stdio::null()).stdout(Stdio::inherit()).status().unwrap();
    assert!(status.success(), "{args:?}: {status}");
    let usage = getrusage(UsageWho::RUSAGE_CHILDREN).unwrap();
    // Standard output is the command's.
    std::fs::write(std::env::var_os("COST").unwrap(), format!("{} {}", seconds(&usage), usage.max_rss())).unwrap();
}

/// What a command takes, the least of so many runs; what it printed stands in `out`. `before` is done before each run.
pub(crate) fn of(args: &[&str], out: &Path, runs: usize, mut before: impl FnMut()) -> Cost {
    let mut least: Option<Cost> = None;
    let said = out.with_extension("cost");
    for _ in 0..runs {
        before();
        let mut command = Command::new(std::env::current_exe().unwrap());
        command.arg(MEASURE).args(args).env("COST", &said).stdout(File::create(out).unwrap()).stderr(Stdio::null());
        assert!(command.status().unwrap().success(), "{args:?}");
        let text = std::fs::read_to_string(&said).unwrap();
        let (seconds, kilobytes) = text.split_once(' ').unwrap();
        let cost = Cost { seconds: seconds.parse().unwrap(), megabytes: kilobytes.parse::<f64>().unwrap() / 1024.0 };
        if least.is_none_or(|least| cost.seconds < least.seconds) {
            least = Some(cost);
        }
    }
    least.unwrap()
}
