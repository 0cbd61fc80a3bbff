//! A wall clock that is wrong, or that jumps while the program runs: every entry is saved, its day and minute are what the
//! screen said, the order of writing is kept, and an export comes back equal.

use crate::harness::{Campaign, Run, count};
use crate::preload::{Faults, Preload};
use crate::rng::Rng;
use crate::season::{Crop, date, lot};
use crate::terminal::{Pty, Start};
use crate::walker::{Shown, WIDE, asked, at_round, begin, in_words, is, pending, read};
use benchwalk::dates;
use benchwalk::record::{Entry, Lot, Pinch};
use benchwalk::units::System;
use chrono::{DateTime, Days, NaiveDate, TimeDelta, Utc};
use std::collections::HashMap;
use std::path::Path;

fn instant(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

/// A season, and instants the clock is set to one after the other; after each some checks are answered.
struct Case {
    what: &'static str,
    /// The zone of the site.
    zone: &'static str,
    /// The zone of the laptop, where it is another one.
    laptop: &'static str,
    times: &'static [&'static str],
    on: Option<&'static str>,
    /// Entries can be written then: the years of the record are 2000 to 2100.
    writes: bool,
}

const PLAIN: Case = Case { what: "", zone: "America/New_York", laptop: "UTC", times: &[], on: None, writes: true };

const CASES: [Case; 25] = [
    Case { what: "an hour back", times: &["2026-10-12T14:00:00Z", "2026-10-12T13:00:00Z"], ..PLAIN },
    Case { what: "two days back", times: &["2026-10-12T14:00:00Z", "2026-10-10T14:00:00Z"], ..PLAIN },
    Case {
        what: "two days back and put right",
        times: &["2026-10-12T14:00:00Z", "2026-10-10T14:00:00Z", "2026-10-12T14:10:00Z"],
        ..PLAIN
    },
    Case { what: "an hour forward", times: &["2026-10-12T14:00:00Z", "2026-10-12T15:00:00Z"], ..PLAIN },
    Case { what: "two days forward", times: &["2026-10-12T14:00:00Z", "2026-10-14T14:00:00Z"], ..PLAIN },
    Case {
        what: "three weeks forward and back",
        times: &["2026-10-12T14:00:00Z", "2026-11-02T14:00:00Z", "2026-10-12T14:05:00Z"],
        ..PLAIN
    },
    Case { what: "over midnight", times: &["2026-10-13T03:59:59Z", "2026-10-13T04:00:00Z"], ..PLAIN },
    Case { what: "back over midnight", times: &["2026-10-13T04:00:01Z", "2026-10-13T03:59:58Z"], ..PLAIN },
    Case {
        what: "the double hour in New York",
        times: &["2026-11-01T05:30:00Z", "2026-11-01T06:30:00Z", "2026-11-01T05:45:00Z"],
        ..PLAIN
    },
    Case { what: "the missing hour in New York", times: &["2026-03-08T06:59:59Z", "2026-03-08T07:00:00Z"], ..PLAIN },
    Case {
        what: "the missing midnight in Santiago",
        zone: "America/Santiago",
        times: &["2025-09-07T03:59:59Z", "2025-09-07T04:00:00Z"],
        ..PLAIN
    },
    Case {
        what: "the half hour of Lord Howe Island",
        zone: "Australia/Lord_Howe",
        times: &["2026-04-04T14:50:00Z", "2026-04-04T15:20:00Z"],
        ..PLAIN
    },
    Case {
        what: "the day that Samoa left out",
        zone: "Pacific/Apia",
        times: &["2011-12-30T09:59:59Z", "2011-12-30T10:00:00Z"],
        ..PLAIN
    },
    Case {
        what: "the month of fasting in Casablanca",
        zone: "Africa/Casablanca",
        times: &["2026-02-15T01:30:00Z", "2026-02-15T02:30:00Z"],
        ..PLAIN
    },
    Case {
        what: "the farthest zone east",
        zone: "Pacific/Kiritimati",
        times: &["2026-10-12T09:59:59Z", "2026-10-12T10:00:01Z"],
        ..PLAIN
    },
    Case {
        what: "the farthest zone west",
        zone: "Pacific/Pago_Pago",
        times: &["2026-10-12T10:59:59Z", "2026-10-12T11:00:01Z"],
        ..PLAIN
    },
    Case {
        what: "a zone of three quarters",
        zone: "Asia/Kathmandu",
        times: &["2026-10-12T18:14:59Z", "2026-10-12T18:15:01Z"],
        ..PLAIN
    },
    Case {
        what: "a laptop of another zone",
        laptop: "Asia/Tokyo",
        times: &["2026-10-12T14:00:00Z", "2026-10-13T03:59:00Z"],
        ..PLAIN
    },
    Case {
        what: "the first day of the record's years",
        times: &["2000-03-01T14:00:00Z", "2000-03-01T15:00:00Z"],
        ..PLAIN
    },
    Case { what: "beyond 2038", times: &["2038-01-19T03:14:07Z", "2038-01-19T03:14:08Z"], ..PLAIN },
    Case { what: "no leap day in 2100", times: &["2100-02-28T14:00:00Z", "2100-03-01T14:00:00Z"], ..PLAIN },
    Case { what: "the year 1970", times: &["1970-01-02T00:00:00Z"], writes: false, ..PLAIN },
    Case {
        what: "the last year of nanoseconds",
        times: &["2262-04-11T23:47:16Z", "2262-04-12T00:00:00Z"],
        writes: false,
        ..PLAIN
    },
    Case {
        what: "a given day while the clock jumps",
        times: &["2026-10-12T14:00:00Z", "2026-12-24T18:00:00Z"],
        on: Some("2026-10-05"),
        ..PLAIN
    },
    Case {
        what: "a given day in the double hour",
        times: &["2026-10-12T05:30:00Z", "2026-10-12T06:30:00Z"],
        on: Some("2026-11-01"),
        ..PLAIN
    },
];

/// Six benches of a lot planted three weeks before a day, at a site of a zone.
fn season(zone: &str, day: NaiveDate) -> Crop {
    let planted = day - Days::new(21);
    let one = Lot { planted, ready_by: day + Days::new(70), pinch: Pinch::None, slow_release_g: None, ..lot("L1") };
    let mut crop = Crop::bare().site(|site| site.time_zone = zone.parse().unwrap()).with_lot(one);
    for (n, bench) in (1..).zip(["E1", "E2", "E3", "E4", "E5", "E6"]) {
        crop = crop.bench_in(bench, "East", n).filled(bench, "L1", 50, planted);
    }
    crop
}

/// A folder with a season, opened in a terminal, and what it showed as saved.
struct Walk {
    folder: tempfile::TempDir,
    preload: Preload,
    pty: Pty,
    shown: Shown,
    typed: usize,
}

impl Walk {
    fn open(crop: &Crop, first: DateTime<Utc>, laptop: &str, on: Option<&str>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        begin(&folder.path().join("season.db"), &crop.lines());
        let preload = Preload::new(folder.path());
        preload.stand_at(first);
        let mut env = preload.env().to_vec();
        env.push(("TZ", Some(laptop)));
        let start = Start { folder: Some(folder.path()), size: WIDE, env: &env, ..Start::default() };
        let mut arguments = vec!["--season", "season.db", "--by", "zz"];
        arguments.extend(on.map(|day| ["--on", day]).into_iter().flatten());
        let mut pty = Pty::start_as(start, &arguments);
        pty.wait("the Round", at_round);
        let shown = Shown::default();
        shown.watch(&pty);
        Self { folder, preload, pty, shown, typed: 0 }
    }

    /// From the Round to the first card.
    fn begin(&mut self) {
        self.pty.send("w");
        self.pty.wait("a card", |text| asked(text).is_some());
    }

    /// Digits that differ from one time to the next, so that no two lines below the page are the same.
    fn digit(&mut self, check: &str) -> String {
        self.typed += 1;
        let odd = self.typed % 2;
        match check {
            "whitefly" => ["0", "8"][odd].to_owned(),
            "heights" => format!("9 9.{odd}\r"),
            _ => format!("9{}", ["1", "2"][odd]),
        }
    }

    /// Answers what is asked, and waits until it is saved; false when nothing is left to answer. Where the day has turned since
    /// the card was drawn another check is asked now, and a digit that it does not take is refused: then what is asked is read
    /// once more, as a person would.
    fn answer(&mut self, meanwhile: impl Fn(&mut Self)) -> bool {
        for _ in 0..3 {
            let text = self.pty.wait("a card or the Round", |text| at_round(text) || asked(text).is_some());
            let Some((_, check)) = asked(&text) else { return false };
            let (keys, before, frames) = (self.digit(&check), self.shown.lines().len(), self.pty.frames());
            self.pty.send(&keys);
            meanwhile(self);
            let shown = self.shown.clone();
            let refused = |text: &str| text.contains("ignored") && !text.contains("9 was ignored");
            self.pty.wait_out("saved or refused", |out| {
                let text = out.screen.screen().contents();
                let saved = shown.lines().len() > before && pending(&text) == 0;
                saved || out.frames > frames && refused(&text)
            });
            if shown.lines().len() > before {
                return true;
            }
        }
        panic!("never taken:\n{}", self.pty.text());
    }

    /// What does not hold of everything written, after leaving.
    fn end(mut self) -> Vec<String> {
        self.pty.send("\u{11}");
        let code = self.pty.ended().0.exit_code();
        let file = self.folder.path().join("season.db");
        let entries = read(&file);
        let words = in_words(&entries, System::Us);
        let mut why = Vec::new();
        if code != 0 {
            why.push(format!("left with {code}"));
        }
        let mut order = written(&file, &entries).into_iter();
        for (line, title) in self.shown.with_titles() {
            let found = entries.iter().zip(&words).find(|(entry, words)| {
                let (day, time) = (dates::weekday(entry.at.date_naive()), dates::time(&entry.at));
                is(&line, words) && title.contains(&day) && title.contains(&time)
            });
            match found {
                None => why.push(format!("{line} is not in the file for what the screen said ({})", title.trim_end())),
                Some((entry, _)) if !order.any(|id| id == entry.id) => {
                    why.push(format!("{line} was not written in its order"));
                }
                Some(_) => {}
            }
        }
        why.extend(replayed(self.folder.path()));
        why
    }
}

/// The ids in the order they were written.
fn written(file: &Path, entries: &[Entry]) -> Vec<uuid::Uuid> {
    let by_id: HashMap<String, uuid::Uuid> = entries.iter().map(|e| (e.id.simple().to_string(), e.id)).collect();
    let ids = crate::terminal::query(file, "SELECT lower(hex(id)) FROM entry ORDER BY seq");
    ids.iter().filter_map(|id| by_id.get(id).copied()).collect()
}

/// Exported, imported into a new file and exported again, it is equal.
fn replayed(folder: &Path) -> Vec<String> {
    let first = Run::at(folder).go(&["--season", "season.db", "export"]);
    let again = Run { stdin: &first.stdout, ..Run::at(folder) }.go(&["--season", "again.db", "import", "-"]);
    let second = Run::at(folder).go(&["--season", "again.db", "export"]);
    let mut why = Vec::new();
    for done in [&first, &again, &second] {
        if done.code != Some(0) {
            why.push(format!("export and import: {}", done.err()));
        }
    }
    if first.out() != second.out() {
        why.push("exported again it is not the same".to_owned());
    }
    why
}

fn tried(case: &Case) -> Vec<String> {
    let times: Vec<DateTime<Utc>> = case.times.iter().map(|time| instant(time)).collect();
    let day = case.on.map_or_else(|| times[0].date_naive(), |day| day.parse().unwrap());
    let crop = season(case.zone, if case.writes { day } else { date(10, 12) });
    let mut walk = Walk::open(&crop, times[0], case.laptop, case.on);
    if case.writes {
        walk.begin();
    } else {
        walk.pty.send("w");
    }
    let mut answered = 0;
    for time in times {
        walk.preload.stand_at(time);
        for _ in 0..3 {
            if !case.writes {
                walk.pty.send("3");
                continue;
            }
            answered += usize::from(walk.answer(|_| ()));
        }
    }
    let shown = walk.shown.lines().len();
    let mut why = walk.end();
    if case.writes && answered < 3 || shown < answered {
        why.push(format!("{answered} answered, {shown} shown as saved"));
    }
    if !case.writes && shown > 0 {
        why.push(format!("{shown} entries of a year outside of the record's were written"));
    }
    why
}

#[test]
fn days_order_and_replay_hold_whatever_the_clock_does() {
    let mut campaign = Campaign::new("clocks");
    let some: Vec<&Case> = CASES.iter().step_by(25_usize.div_ceil(count(9, 25))).collect();
    campaign.each(&some, |case| case.what.to_owned(), |_, case| tried(case));
    campaign.end();
}

/// Where the clock is when a key is pressed, and where it jumps to before its entry is on the disk.
fn jump(rng: &mut Rng) -> (DateTime<Utc>, TimeDelta) {
    let from = ["2026-10-12T14:00:00Z", "2026-10-13T03:59:58Z", "2026-11-01T05:59:58Z", "2026-03-08T06:59:58Z"];
    let by = [
        TimeDelta::days(-2),
        TimeDelta::days(2),
        TimeDelta::hours(-1),
        TimeDelta::hours(1),
        TimeDelta::seconds(3),
        TimeDelta::days(365),
    ];
    (instant(*rng.pick(&from)), *rng.pick(&by))
}

#[test]
fn a_clock_that_jumps_between_a_key_and_its_save_loses_nothing() {
    let mut campaign = Campaign::new("clock jumps while saving");
    let cases: Vec<usize> = (0..count(8, 40)).collect();
    let seeds: Vec<std::sync::Mutex<Rng>> = cases.iter().map(|n| std::sync::Mutex::new(campaign.rng(*n))).collect();
    campaign.each(
        &cases,
        |n| format!("jump {n}"),
        |n, _| {
            let (from, by) = jump(&mut seeds[n].lock().unwrap());
            let mut walk = Walk::open(&season("America/New_York", from.date_naive()), from, "UTC", None);
            walk.begin();
            let clock = |at: DateTime<Utc>| Some(format!("={}", at.timestamp()));
            for at in [from, from + by, from] {
                // The sync takes a while: the frame that says "not yet saved" comes before it, the jump after that.
                walk.preload.set(&Faults { write: Some("slow"), clock: clock(at), ..Faults::default() });
                let to = if at == from { from + by } else { from };
                walk.answer(|walk| {
                    walk.pty.wait("on its way", |text| pending(text) > 0 || text.contains("saved:"));
                    walk.preload.set(&Faults { clock: clock(to), ..Faults::default() });
                });
            }
            let shown = walk.shown.lines().len();
            let mut why = walk.end();
            if shown < 3 && by < TimeDelta::days(300) {
                why.push(format!("only {shown} entries were shown as saved"));
            }
            why.iter().map(|text| format!("from {from} by {by}: {text}")).collect()
        },
    );
    campaign.end();
}
