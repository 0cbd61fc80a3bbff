//! A seeded random walk with held keys, closures that come while a card is open, undo and redo. After every key:
//! - nothing that needs a person at the bench is logged of a moment at which the bench is closed;
//! - nothing is voided but by a key that asks for it;
//! - undo and redo add up: so many steps back and as many again show the same record.
//!
//! 12,500 keys here, 200,000 with `BENCHWALK_SWEEP=1`; `BENCHWALK_SEED=n` takes other ones.

use crate::desk::{COLOR, Desk, cases};
use crate::rng::Rng;
use crate::season::{Crop, bench, date, entry, house, lot, sprayed};
use benchwalk::input::{Code, Event, Key};
use benchwalk::keys::Context;
use benchwalk::model::Outcome;
use benchwalk::record::{Entry, Kind, KindName, Lot, Pinch, Place};
use benchwalk::season::Season;
use chrono::{DateTime, Duration, NaiveDate, TimeDelta, Utc};
use std::collections::HashSet;
use uuid::Uuid;

/// Keys walked on one morning's record before another is taken.
const MORNING: usize = 500;
/// How many keys are tried where not everything is.
const SAMPLE: u32 = 12_500;
/// Hits of a closed bench in so many keys, at least.
const KEYS_A_HIT: usize = 200;

const BENCHES: [(&str, &str); 6] =
    [("E1", "East"), ("E2", "East"), ("E3", "East"), ("W1", "West"), ("W2", "West"), ("W3", "West")];

/// What is seen or done at the bench itself, as this test has it.
const AT_THE_BENCH: [KindName; 10] = [
    KindName::Water,
    KindName::Roots,
    KindName::Bracts,
    KindName::Height,
    KindName::Leaves,
    KindName::Pests,
    KindName::Losses,
    KindName::Counted,
    KindName::Note,
    KindName::Pinched,
];

/// The keys of the walk and the pages next to it, the frequent ones several times.
const KEYS: [Code; 52] = [
    Code::Char('1'),
    Code::Char('2'),
    Code::Char('3'),
    Code::Char('4'),
    Code::Char('5'),
    Code::Char('1'),
    Code::Char('2'),
    Code::Char('3'),
    Code::Char('4'),
    Code::Char('5'),
    Code::Char('0'),
    Code::Char('0'),
    Code::Char('0'),
    Code::Char('7'),
    Code::Char('9'),
    Code::Char('d'),
    Code::Char('d'),
    Code::Char('-'),
    Code::Char('-'),
    Code::Char('u'),
    Code::Char('u'),
    Code::Char('u'),
    Code::Char('y'),
    Code::Char('y'),
    Code::Char('b'),
    Code::Char('m'),
    Code::Char('l'),
    Code::Char('n'),
    Code::Char('a'),
    Code::Char('c'),
    Code::Char('x'),
    Code::Char('f'),
    Code::Char('f'),
    Code::Char('w'),
    Code::Char('w'),
    Code::Char('w'),
    Code::Char('h'),
    Code::Char('e'),
    Code::Char(' '),
    Code::Right,
    Code::Left,
    Code::Tab,
    Code::Tab,
    Code::BackTab,
    Code::Enter,
    Code::Enter,
    Code::Enter,
    Code::Esc,
    Code::Esc,
    Code::Esc,
    Code::Down,
    Code::Up,
];

fn season() -> Season {
    let young = Lot { pots: 60, planted: date(9, 28), pinch: Pinch::None, ..lot("L1") };
    let crop = BENCHES.iter().zip(1..).fold(Crop::bare().with_lot(young), |crop, ((code, house), n)| {
        crop.bench_in(code, house, n).filled(code, "L1", 10, (9, 28))
    });
    crop.with_derived_ids().season()
}

/// How long a treatment of so many hours closes.
fn closed_for(hours: f64) -> TimeDelta {
    TimeDelta::from_std(std::time::Duration::from_secs_f64(hours * 3600.0)).expect("some hours")
}

/// One entry of a place that stands, without its id: what the record shows.
type Shown = (String, String, DateTime<Utc>);

/// The walk, and what it has come to.
struct Walk {
    desk: Desk,
    rng: Rng,
    known: HashSet<Uuid>,
    pressed: usize,
    hits: usize,
    voided: usize,
    redone: usize,
    /// The last key, and when.
    last: Option<(Code, u64)>,
    /// When something was last undone.
    undone: Option<u64>,
    foreign: u128,
}

impl Walk {
    fn new(seed: u64) -> Self {
        let desk = Desk::of(&season(), COLOR, (80, 24));
        let known = desk.app.model.season.entries().iter().map(|e| e.id).collect();
        Self {
            desk,
            rng: Rng::new(seed),
            known,
            pressed: 0,
            hits: 0,
            voided: 0,
            redone: 0,
            last: None,
            undone: None,
            foreign: 0x7000_0000,
        }
    }

    /// What stands, in order.
    fn shown(&self) -> Vec<Shown> {
        let season = &self.desk.app.model.season;
        let stands = |e: &&Entry| e.name() != KindName::Strike && !season.is_struck(e, NaiveDate::MAX);
        let mut all: Vec<Shown> = season
            .entries()
            .iter()
            .filter(stands)
            .map(|e| (format!("{:?}", e.place), format!("{:?} {:?}", e.kind, e.note), e.instant()))
            .collect();
        all.sort();
        all
    }

    /// The treatments that close something, by this test's own reading of the record.
    fn closures(&self) -> Vec<(Place, DateTime<Utc>, DateTime<Utc>)> {
        let entries = self.desk.app.model.season.entries();
        let opened = |id: Uuid| {
            entries.iter().any(|e| matches!(*e.kind, Kind::Strike { entry, reopen: true, .. } if entry == id))
        };
        let closing = entries.iter().filter(|e| e.kind.closes() && !opened(e.id));
        closing
            .map(|e| {
                let hours = e.kind.re_entry_h().unwrap_or(0.0);
                (e.place.clone(), e.instant(), e.instant() + closed_for(hours))
            })
            .collect()
    }

    /// Presses a key so many milliseconds after the last, and checks what it did.
    fn press(&mut self, code: Code, gap: u64) {
        self.desk.ms += gap;
        let ms = self.desk.ms;
        let (context, closures) = (self.desk.app.context(), self.closures());
        let held = self.last.is_some_and(|(last, then)| last == code && ms - then < 100);
        self.desk.event(Event::Key(Key::new(code)));
        self.pressed += 1;
        let text = match &self.desk.app.model.status {
            Some(benchwalk::model::Status::Trouble(text)) => text.clone(),
            _ => String::new(),
        };
        if text.contains("is closed until") {
            self.hits += 1;
        }
        let made: Vec<Entry> = {
            let entries = self.desk.app.model.season.entries();
            entries.iter().filter(|e| !self.known.contains(&e.id)).cloned().collect()
        };
        self.known.extend(made.iter().map(|e| e.id));
        for entry in &made {
            self.judge(entry, code, (context, held), &closures);
        }
        if made.iter().any(|e| matches!(&*e.kind, Kind::Strike { why, .. } if why == "undone")) {
            self.undone = Some(ms);
        }
        self.last = Some((code, ms));
    }

    /// One entry that a key made.
    fn judge(
        &mut self,
        entry: &Entry,
        code: Code,
        (context, held): (Context, bool),
        closures: &[(Place, DateTime<Utc>, DateTime<Utc>)],
    ) {
        let said = || format!("key {code:?} in {context:?}, number {}: {entry:?}", self.pressed);
        if let Kind::Strike { why, .. } = &*entry.kind {
            self.voided += 1;
            assert!(!held, "a held key voided: {}", said());
            let soon = self.undone.is_some_and(|then| self.desk.ms - then < 3_000);
            let asked = match why.as_str() {
                "undone" if context == Context::Question => code == Code::Enter,
                "undone" => code == Code::Char('u') && !context.types() && !soon,
                "redone" => code == Code::Char('y') && !context.types(),
                "scored again" => match context {
                    Context::Walk => matches!(code, Code::Char('0'..='9')),
                    Context::WalkLine => code == Code::Enter,
                    _ => false,
                },
                _ => context == Context::Form && code == Code::Enter,
            };
            assert!(asked, "voided without being asked: {}", said());
            return;
        }
        let house = |code: &str| BENCHES.iter().find(|(bench, _)| *bench == code).map_or("", |(_, house)| *house);
        if let Place::Bench(here) = &entry.place
            && AT_THE_BENCH.contains(&entry.name())
        {
            let of = |place: &Place| match place {
                Place::Bench(closed) => closed == here,
                Place::House(closed) => **closed == *house(here),
                Place::Lot(_) => true,
            };
            let at = entry.instant();
            // What is brought back was logged before, at its own moment.
            let same = |e: &&Entry| e.place == entry.place && e.kind == entry.kind && e.instant() == at;
            let brought = self.desk.app.model.season.entries().iter().filter(same).count() > 1;
            if brought && matches!(code, Code::Char('u' | 'y') | Code::Enter) {
                return;
            }
            let shut = closures.iter().any(|(place, from, to)| of(place) && *from <= at && at < *to);
            assert!(!shut, "logged on a closed bench: {}", said());
        }
    }

    /// Another program sprays a bench or fogs a house; often the one on the card.
    fn close(&mut self) {
        let codes = self.desk.text();
        let here = codes.lines().next().and_then(|l| l.strip_prefix("Walk  ")).and_then(|l| l.split(' ').next());
        let any = self.rng.pick(&BENCHES).0;
        let code = here.map_or(any, |here| BENCHES.iter().find(|(b, _)| *b == here).map_or(any, |(b, _)| *b));
        let place =
            if self.rng.chance(0.2) { house(if self.rng.chance(0.5) { "East" } else { "West" }) } else { bench(code) };
        let hours = *self.rng.pick(&[0.5, 1.0, 4.0]);
        self.foreign += 1;
        let model = &self.desk.app.model;
        let (at, plan) = (model.now.at, model.season.plan().clone());
        let fog = entry(self.foreign, at, place, sprayed("pyrethrins", hours));
        self.known.insert(fog.id);
        self.desk.app.model.wait_for_entries();
        self.desk.answer(Outcome::Joined { plan, entries: vec![fog] });
    }

    /// Leaves a line that is typed.
    fn leave_text(&mut self) {
        if self.desk.app.context().types() {
            self.press(Code::Esc, 400);
        }
    }

    /// Undoes so many steps, each after three seconds, and redoes them: the record shows what it did at each step.
    fn there_and_back(&mut self, steps: usize) {
        while !self.desk.app.popups.is_empty() {
            self.press(Code::Esc, 400);
        }
        self.leave_text();
        let mut states = vec![self.shown()];
        for _ in 0..steps {
            let before = self.desk.app.model.season.entries().len();
            self.press(Code::Char('u'), 3_500);
            if !self.desk.app.popups.is_empty() {
                // A treatment: its form asks.
                self.press(Code::Esc, 400);
                break;
            }
            // A score given twice shows the same before and after: a step all the same.
            if self.desk.app.model.season.entries().len() == before {
                break;
            }
            states.push(self.shown());
        }
        while states.len() > 1 {
            states.pop();
            // With its last digit brought back the card asks for heights, where a letter is text.
            self.leave_text();
            self.press(Code::Char('y'), 500);
            assert_eq!(Some(&self.shown()), states.last(), "key {}\n{}", self.pressed, self.desk.text());
            self.redone += 1;
        }
    }

    fn step(&mut self) {
        match self.rng.below(100) {
            0..=1 => self.close(),
            2 => {
                let minutes = self.rng.below(300);
                self.desk.pass(Duration::minutes(i64::try_from(minutes).unwrap()));
            }
            3 => {
                let steps = 1 + self.rng.below(4);
                self.there_and_back(steps);
            }
            4..=7 => {
                let code = *self.rng.pick(&KEYS);
                let (delay, every) = (*self.rng.pick(&[40, 250, 500, 660]), 30 + self.rng.below(50) as u64);
                self.press(code, 400);
                self.press(code, delay);
                for _ in 0..self.rng.below(20) {
                    self.press(code, every);
                }
            }
            _ => {
                let (code, gap) = (*self.rng.pick(&KEYS), 40 + self.rng.below(1_200) as u64);
                self.press(code, gap);
            }
        }
    }
}

#[test]
fn a_random_walk_writes_on_no_closed_bench_and_voids_nothing_unasked() {
    let keys = usize::try_from(cases(SAMPLE)).unwrap();
    let seed = std::env::var("BENCHWALK_SEED").map_or(2026, |text| text.parse().expect("BENCHWALK_SEED is a number"));
    let (mut pressed, mut hits, mut voided, mut redone, mut written) = (0, 0, 0, 0, 0);
    for morning in 0.. {
        if pressed >= keys {
            break;
        }
        let mut walk = Walk::new(seed + morning);
        while walk.pressed < MORNING {
            walk.step();
        }
        pressed += walk.pressed;
        hits += walk.hits;
        voided += walk.voided;
        redone += walk.redone;
        written += walk.desk.kept.len();
    }
    let counts =
        format!("{pressed} keys, {written} entries, {hits} on closed benches, {voided} voided, {redone} redone");
    assert!(hits * KEYS_A_HIT >= keys, "{counts}");
    assert!(voided * 50 >= keys && redone * 200 >= keys && written * 20 >= keys, "{counts}");
}
