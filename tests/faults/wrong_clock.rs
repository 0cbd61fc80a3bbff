//! A wall clock that stands before the last entry: the screen says so, and a closed bench stays closed.

use crate::harness::{Campaign, demo};
use crate::preload::Preload;
use crate::terminal::{Pty, Start};
use crate::walker::{WIDE, asked, at_round};
use chrono::{DateTime, Utc};

/// Opens the demo at an instant and types some keys; gives the screen.
fn demo_at(instant: DateTime<Utc>, keys: &[&str], wanted: impl Fn(&str) -> bool) -> String {
    let folder = tempfile::tempdir().unwrap();
    let preload = Preload::new(folder.path());
    preload.stand_at(instant);
    demo(&folder.path().join("season.db"));
    let start = Start { folder: Some(folder.path()), size: WIDE, env: &preload.env(), ..Start::default() };
    let mut pty = Pty::start_as(start, &["--season", "season.db", "--by", "zz"]);
    pty.wait("the Round", at_round);
    for key in keys {
        let before = pty.frames();
        pty.send(key);
        pty.wait_out("a frame", |out| out.frames > before);
    }
    pty.wait("what is said", wanted)
}

fn instant(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

/// The whole card: the terminal may be read while a frame is half drawn.
fn is_card_of_d3(text: &str) -> bool {
    text.starts_with("Walk  D3") && asked(text).is_some()
}

#[test]
fn a_wrong_clock_is_said_and_a_closed_bench_stays_closed() {
    let mut campaign = Campaign::new("wrong clocks");
    // In the demo D3 is treated on October 13 at 19:15 and closed until October 14, 08:15 (23:15 and 12:15 UTC).
    let to_d3 = [["j"; 14].as_slice(), &["f"]].concat();
    for (at, closed) in
        [("2026-10-14T11:00:00Z", true), ("2026-10-14T12:30:00Z", false), ("2026-10-13T20:00:00Z", true)]
    {
        let text = demo_at(instant(at), &to_d3, |text| text.contains("is closed until") || is_card_of_d3(text));
        let walks = is_card_of_d3(&text);
        let why = (closed == walks).then(|| format!("closed: {closed}, and the screen says:\n{text}"));
        campaign.case(&format!("D3 at {at}"), &why.into_iter().collect::<Vec<_>>());
    }
    for at in ["2026-10-12T12:00:00Z", "2015-01-01T12:00:00Z", "1970-01-02T00:00:00Z"] {
        let text = demo_at(instant(at), &[], at_round);
        let told = text.contains("This laptop's clock says") && text.contains("2026");
        let why = (!told).then(|| format!("nothing is said of the clock:\n{text}"));
        campaign.case(&format!("the clock at {at}"), &why.into_iter().collect::<Vec<_>>());
    }
    campaign.end();
}
