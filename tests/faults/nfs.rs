//! A network file system whose locks are granted and not kept, or refused: a season on it is saved and outlives kills, and of
//! two programs on it one writes.

use crate::harness::{Campaign, count};
use crate::preload::{Faults, Locks, Preload};
use crate::rng::Rng;
use crate::season::{self, hollow};
use crate::terminal::{Pty, Start};
use crate::walker::{OFFER, Shown, WIDE, answer, asked, at_round, begin, card, nothing_left, pending, read};
use benchwalk::units::System;
use chrono::{DateTime, Days, FixedOffset};
use std::path::Path;
use std::time::Duration;

/// A folder on a network, and the season of six benches in it. The home of the program is not on it.
struct Network {
    home: tempfile::TempDir,
    preload: Preload,
    locks: Locks,
}

impl Network {
    fn new(locks: Locks) -> Self {
        let home = tempfile::tempdir().unwrap();
        let folder = home.path().join("network");
        std::fs::create_dir(&folder).unwrap();
        begin(&folder.join("season.db"), &hollow().lines());
        let preload = Preload::new(&folder);
        let this = Self { home, preload, locks };
        this.day(0);
        this
    }

    /// The morning so many days after the season's own.
    fn day(&self, day: u64) {
        let now: DateTime<FixedOffset> = season::NOW.parse().unwrap();
        let clock = Some(format!("={}", (now + Days::new(day)).timestamp()));
        self.preload.set(&Faults { network: true, locks: Some(self.locks), no_shm: true, write: None, clock });
    }

    fn file(&self) -> std::path::PathBuf {
        self.home.path().join("network/season.db")
    }

    fn open(&self, by: &str) -> Pty {
        let start = Start { folder: Some(self.home.path()), size: WIDE, env: &self.preload.env(), ..Start::default() };
        let mut pty = Pty::start_as(start, &["--season", "network/season.db", "--by", by]);
        pty.wait("the Round", at_round);
        if pty.text().contains(OFFER) {
            pty.send("\r");
            pty.wait("taken", |text| at_round(text) && !text.contains(OFFER));
        }
        pty
    }
}

/// Answers so many checks, each when it is asked and the one before is saved.
fn walk(pty: &mut Pty, day: u64, keys: usize) {
    pty.send("w");
    pty.wait("a card", |text| asked(text).is_some() || nothing_left(text));
    let mut now = None;
    for _ in 0..keys {
        let text = pty.wait("the next check", |text| {
            pending(text) == 0 && (at_round(text) || (asked(text).is_some() && asked(text) != now))
        });
        let Some((bench, check)) = asked(&text) else { return };
        pty.send(&answer(1, day.cast_signed(), &bench, &check));
        now = Some((bench, check));
    }
}

/// What a kill or leaving has left: every entry shown as saved, in a sound file.
fn lost(shown: &Shown, file: &Path) -> Vec<String> {
    shown.missing(&read(file), System::Us).into_iter().map(|line| format!("shown as saved and gone: {line}")).collect()
}

fn alone(name: &'static str, locks: Locks) {
    let network = Network::new(locks);
    let mut campaign = Campaign::new(name);
    let mut saves = 0;
    let days = count(6, 100);
    for n in 0..days {
        let mut rng = campaign.rng(n);
        network.day(n as u64);
        let mut pty = network.open("kt");
        let mut why = Vec::new();
        if !pty.text().contains("use it on one laptop at a time") {
            why.push(format!("the screen does not say that one laptop may use it:\n{}", pty.text()));
        }
        let shown = Shown::default();
        shown.watch(&pty);
        walk(&mut pty, n as u64, 1 + rng.below(10));
        let most = if rng.chance(0.5) { 0.003 } else { 0.2 };
        pty.pause(Duration::from_secs_f64(rng.unit() * most));
        pty.kill();
        why.extend(lost(&shown, &network.file()));
        saves += shown.lines().len();
        if n % 3 == 2 {
            why.extend(left(&network));
        }
        campaign.case(&format!("kill {n}"), &why);
    }
    assert!(saves >= days, "{saves} saves were shown before {days} kills: this says too little");
    campaign.end();
}

/// Opened again after a kill, written once more and left in order: all of it is in the one file.
fn left(network: &Network) -> Vec<String> {
    let mut pty = network.open("kt");
    let shown = Shown::default();
    shown.watch(&pty);
    walk(&mut pty, 500, 2);
    pty.wait("saved", |text| pending(text) == 0);
    pty.send("\u{11}");
    let code = pty.ended().0.exit_code();
    let mut why = lost(&shown, &network.file());
    if code != 0 {
        why.push(format!("left with {code}"));
    }
    why
}

#[test]
fn where_locks_are_not_kept_one_program_alone_loses_nothing() {
    alone("no locks, one program", Locks::NotKept);
}

#[test]
fn where_locks_are_refused_one_program_alone_loses_nothing() {
    alone("locks refused, one program", Locks::Refused);
}

/// Two programs on one file: the second says who has it and writes nothing; what the first showed as saved is there. When both
/// are killed the next one of the same laptop has it, and what was typed into the second is offered.
fn two(name: &'static str, locks: Locks) {
    let mut campaign = Campaign::new(name);
    for n in 0..count(1, 20) {
        together(locks, campaign.rng(n));
        campaign.case(&format!("two programs {n}"), &[]);
    }
    campaign.end();
}

fn together(locks: Locks, mut rng: Rng) {
    let network = Network::new(locks);
    let (mut one, shown) = (network.open("aa"), Shown::default());
    shown.watch(&one);
    let (mut other, others) = (network.open("bb"), Shown::default());
    others.watch(&other);
    let told = other.text();
    assert!(told.contains("has the season open"), "the second program says nothing:\n{told}");
    for pty in [&mut one, &mut other] {
        pty.send("w");
        pty.wait("a card", |text| card(text).is_some());
    }
    for n in 0..20 {
        let pty = if n == 0 || rng.chance(0.5) { &mut one } else { &mut other };
        let Some((bench, check)) = asked(&pty.text()) else { continue };
        let before = pty.frames();
        pty.send(&answer(1, 0, &bench, &check));
        pty.wait_out("an answer", |out| out.frames > before);
    }
    one.wait("saved", |text| pending(text) == 0 && text.contains("saved:"));
    one.kill();
    other.kill();
    let why = lost(&shown, &network.file());
    assert!(why.is_empty(), "{why:?}");
    assert!(!shown.lines().is_empty(), "nothing was saved");
    assert!(others.lines().is_empty(), "the second program says that it saved {:?}", others.lines());
    let why = left(&network);
    assert!(why.is_empty(), "{why:?}");
    assert!(
        !network.home.path().join("network/season.db.writer").exists(),
        "left in order, nothing says that it is written"
    );
}

#[test]
fn where_locks_are_not_kept_a_second_program_loses_nothing() {
    two("no locks, two programs", Locks::NotKept);
}

#[test]
fn where_locks_are_refused_a_second_program_loses_nothing() {
    two("locks refused, two programs", Locks::Refused);
}
