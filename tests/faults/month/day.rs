//! One day: the screens are opened, the round is walked, a reading from elsewhere is imported, the screens are left.

use super::trouble::Trouble;
use super::{BY, Life, day_of, evening, left_behind};
use crate::rng::Rng;
use crate::season::instant;
use crate::terminal::{DEADLINE, Pty, Start};
use crate::walker::{OFFER, Shown, WIDE, answer, asked, at_round, in_words, is_there, nothing_left, pending, read};
use benchwalk::record::Entry;
use benchwalk::units::System;
use chrono::{DateTime, FixedOffset, TimeDelta};
use serde_json::Value;
use std::time::{Duration, Instant};

/// Steps of a day after which it cannot end any more.
const MOST_STEPS: usize = 2_000;

/// A day under way.
pub(super) struct Walking<'a> {
    pub(super) life: &'a mut Life,
    pub(super) day: u64,
    pub(super) pty: Pty,
    /// What this program showed as saved.
    pub(super) shown: Shown,
    /// What the programs of this day before it showed as saved.
    saved: Vec<String>,
    /// The evening's reading is imported.
    pub(super) imported: bool,
    /// Checks answered.
    step: usize,
}

/// Walks a day with these troubles, each after so many answers.
pub(super) fn walk_day(life: &mut Life, day: u64, mut troubles: Vec<(usize, Trouble)>, rng: &mut Rng) {
    life.stand_at(instant(day_of(day), (6, 50)));
    let (pty, shown) = open(life);
    let mut walking = Walking { life, day, pty, shown, saved: Vec::new(), imported: false, step: 0 };
    walking.take_offers();
    loop {
        assert!(walking.step < MOST_STEPS, "day {day} does not end:\n{}", walking.pty.text());
        if let Some(at) = troubles.iter().position(|(at, _)| *at <= walking.step) {
            let (_, trouble) = troubles.remove(at);
            *walking.life.struck.entry(trouble.name()).or_default() += 1;
            trouble.strike(&mut walking, rng);
            continue;
        }
        if !walking.go_on(true) {
            break;
        }
    }
    // Troubles that were due after the last answer.
    for (_, trouble) in troubles {
        *walking.life.struck.entry(trouble.name()).or_default() += 1;
        trouble.strike(&mut walking, rng);
        while walking.go_on(true) {}
    }
    walking.evening();
}

fn open(life: &Life) -> (Pty, Shown) {
    let file = life.file();
    let start = Start { folder: Some(life.home.path()), size: WIDE, env: &life.preload.env(), ..Start::default() };
    let mut pty = Pty::start_as(start, &["--season", file.to_str().unwrap(), "--by", BY]);
    let shown = Shown::default();
    shown.watch(&pty);
    pty.wait("the Round", |text| at_round(text) || text.contains(OFFER));
    (pty, shown)
}

impl Walking<'_> {
    /// The time of day at which a check is answered: its own, whatever came before.
    fn time_of(&self, bench: &str, check: &str) -> DateTime<FixedOffset> {
        let checks = ["note", "watered", "water", "base", "roots", "reach", "bracts", "whitefly", "heights"];
        let bench = (0..self.life.benches).position(|n| bench_code(n) == bench).expect(bench);
        let check = checks.iter().position(|known| *known == check).expect(check);
        let seconds = i64::try_from(bench * 90 + check * 10).unwrap();
        instant(day_of(self.day), (7, 0)) + TimeDelta::seconds(seconds)
    }

    /// Opens the season again after the program ended, and takes the offer of what was not saved; everything shown as saved
    /// before is there.
    pub(super) fn open_again(&mut self) {
        self.life.stand_at(instant(day_of(self.day), (6, 55)));
        self.saved.extend(self.shown.lines());
        self.all_there();
        let (pty, shown) = open(self.life);
        (self.pty, self.shown) = (pty, shown);
        self.take_offers();
    }

    fn take_offers(&mut self) {
        let mut taken = 0;
        while self.pty.wait("the Round", |text| at_round(text) || text.contains(OFFER)).contains(OFFER) {
            taken += 1;
            assert!(taken < 9, "offered again and again:\n{}", self.pty.text());
            let before = self.pty.frames();
            self.pty.send("\r");
            self.pty.wait_out("an answer", |out| out.frames > before);
            self.pty.wait("taken", |text| !text.contains(OFFER) && at_round(text) || text.contains("more such"));
        }
        // The Round stands again a moment before the import of the last offer is done.
        let until = Instant::now() + DEADLINE;
        while !left_behind(self.life.home.path()).is_empty() {
            let left = left_behind(self.life.home.path());
            assert!(Instant::now() < until, "day {}: {left:?} were not taken:\n{}", self.day, self.pty.text());
            self.pty.pause(Duration::from_millis(5));
        }
        self.pty.settle(Duration::from_millis(50));
        self.pty.wait("the Round after the offers", at_round);
    }

    /// Entries that lie in a journal of what is not saved, but for those that the season file held before.
    pub(super) fn journaled(&self, before: &[Entry]) -> usize {
        let texts =
            left_behind(self.life.home.path()).into_iter().filter_map(|path| std::fs::read_to_string(path).ok());
        let held = |line: &Value| before.iter().any(|entry| line["id"] == entry.id.to_string());
        let is_new = |line: &Value| line["type"] == "entry" && !held(line);
        let new = |text: String| text.lines().filter_map(|line| serde_json::from_str(line).ok()).filter(is_new).count();
        texts.map(new).sum()
    }

    /// Everything shown as saved this day is in the file.
    pub(super) fn all_there(&self) {
        let today = day_of(self.day);
        let entries = read(&self.life.file());
        let words = in_words(&entries, System::Us);
        let of_today = entries.iter().map(|e| e.at.date_naive() == today).zip(words).filter(|(of_today, _)| *of_today);
        let words: Vec<String> = of_today.map(|(_, words)| words).collect();
        let gone: Vec<&String> = self.saved.iter().filter(|shown| !is_there(shown, &words)).collect();
        assert!(gone.is_empty(), "day {}, seed {}: shown as saved and gone: {gone:?}", self.day, self.life.seed);
    }

    /// Answers what is asked next; false when the round is done. `saves`: waits until the answer is saved, else until it is
    /// shown as not saved.
    pub(super) fn go_on(&mut self, saves: bool) -> bool {
        let Some((bench, check)) = self.look() else { return false };
        self.step += 1;
        if check == "water" {
            self.before_water(&bench, saves);
        }
        let keys = answer(self.life.seed, self.day.cast_signed(), &bench, &check);
        self.clock(&bench, &check);
        self.write(&keys, saves);
        true
    }

    /// The check that is asked; from the Round by the walk. `None` when the round is done.
    fn look(&mut self) -> Option<(String, String)> {
        let text = self.pty.wait("a card or the Round", |text| at_round(text) || asked(text).is_some());
        if !at_round(&text) {
            return asked(&text);
        }
        if nothing_left(&text) && text.contains(&self.all_walked()) {
            return None;
        }
        let before = self.pty.frames();
        self.pty.send("w");
        self.pty.wait_out("a card", |out| {
            let text = out.screen.screen().contents();
            asked(&text).is_some() || out.frames > before && nothing_left(&text)
        });
        asked(&self.pty.text())
    }

    fn all_walked(&self) -> String {
        format!("walked {0} of {0}", self.life.benches)
    }

    /// Sets the clock to the time of an answer; the faults that hold stay.
    fn clock(&self, bench: &str, check: &str) {
        let at = self.time_of(bench, check);
        self.life.preload.change(|faults| faults.clock = Some(format!("={}", at.timestamp())));
    }

    /// Before the water of a bench is scored: a note on one bench of the day, and on every dry one that it was watered. What
    /// stands there already is not written again.
    fn before_water(&mut self, bench: &str, saves: bool) {
        if bench == bench_of_note(self.day, self.life.benches) {
            let note = format!("looked at on day {}", self.day);
            self.pty.send("c");
            let page = self.pty.wait("the bench page", |text| text.starts_with("Bench"));
            self.pty.send("\u{1b}");
            self.pty.wait("the card", |text| asked(text).is_some());
            if !page.contains(&note) {
                self.clock(bench, "note");
                self.pty.send("n");
                self.pty.wait("the line", |text| text.contains("Note"));
                self.write(&format!("{note}\r"), saves);
            }
        }
        let keys = answer(self.life.seed, self.day.cast_signed(), bench, "water");
        if keys.ends_with('2') {
            self.clock(bench, "watered");
            self.write("d", saves);
        }
    }

    /// Types something that writes an entry, and waits until it is saved, or shown as not saved.
    fn write(&mut self, keys: &str, saves: bool) {
        // What was saved before may be shown a moment later.
        self.pty.settle(Duration::from_millis(10));
        let (before, frames, unsaved) = (self.shown.lines().len(), self.pty.frames(), pending(&self.pty.text()));
        let card = asked(&self.pty.text());
        self.pty.send(keys);
        let shown = self.shown.clone();
        self.pty.wait_out("an answer", |out| {
            let text = out.screen.screen().contents();
            let there = out.frames > frames && text.contains("logged as watered today");
            let lines = shown.lines();
            // A note or watering leaves the question; an answer goes on to another.
            let done = match keys {
                "d" => lines.iter().skip(before).any(|line| line.contains("watered")),
                note if note.ends_with('\r') && note.contains("looked at") => {
                    lines.iter().skip(before).any(|line| line.contains("looked at"))
                }
                _ => asked(&text) != card,
            };
            let saved = pending(&text) == 0 && lines.len() > before && done;
            there || if saves { saved } else { pending(&text) > unsaved }
        });
    }

    /// Ends the day: the evening's reading, everything there, and left in order.
    fn evening(mut self) {
        self.import();
        self.pty.wait("everything saved", |text| pending(text) == 0);
        self.pty.send("\u{11}");
        let code = self.pty.ended().0.exit_code();
        assert_eq!(code, 0, "day {}: left with {code}:\n{}", self.day, self.pty.text());
        self.saved.extend(self.shown.lines());
        self.all_there();
    }

    /// Imports the evening's reading, by another program while the screens are open.
    pub(super) fn import(&mut self) {
        if !self.imported {
            let done = self.life.command(&["import", "-"], &evening(self.day, self.life.seed));
            assert_eq!(done.code, Some(0), "day {}: {}", self.day, done.err());
            self.imported = true;
        }
    }

    /// Types the answer of the check that is asked and waits for nothing; nothing where the round is done.
    pub(super) fn type_blindly(&mut self) {
        let Some((bench, check)) = self.look() else { return };
        // What stands before the water is left to the next time.
        if check != "water" {
            let keys = answer(self.life.seed, self.day.cast_signed(), &bench, &check);
            self.clock(&bench, &check);
            self.pty.send(&keys);
        } else if !bench_of_note(self.day, self.life.benches).eq(&bench) {
            let keys = answer(self.life.seed, self.day.cast_signed(), &bench, "water");
            let watered = keys.ends_with('2');
            self.clock(&bench, if watered { "watered" } else { "water" });
            self.pty.send(if watered { "d" } else { &keys });
        }
    }
}

/// The bench that gets a note on a day.
fn bench_of_note(day: u64, benches: usize) -> String {
    bench_code(usize::try_from(day).unwrap() * 5 % benches)
}

/// The code of a bench of the large season.
fn bench_code(n: usize) -> String {
    format!("H{}-{:02}", n / 50 + 1, n % 50 + 1)
}
