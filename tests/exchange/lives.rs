//! Random lives of two to eight laptops: whatever is cut, put back or copied, all hold the same season at the end, and come to
//! rest.

use crate::hub::Hub;
use crate::lines::{Laptop, line, on_bench, plan};
use benchwalk::exchange::Batches;
use benchwalk::record::codec;
use benchwalk::stats::Draw;
use std::collections::BTreeSet;

#[derive(Debug, Default)]
struct Counts {
    lines: usize,
    cuts: usize,
    files_put_back: usize,
    copied: usize,
    hubs_put_back: usize,
    written_again: usize,
    other_content: usize,
}

/// How far each side got, and what each laptop exports.
type State = (Vec<Vec<(u64, String)>>, Vec<Hub>, Vec<String>);

struct World {
    dice: Draw,
    laptops: Vec<Laptop>,
    /// Each with a copy of it.
    hubs: Vec<(Hub, Option<Hub>)>,
    copies: Vec<(usize, Vec<u8>, BTreeSet<String>)>,
    wrote: BTreeSet<String>,
    /// What only a file had that was put back: lost by that, not by an exchange.
    lost: BTreeSet<String>,
    counts: Counts,
}

impl World {
    fn new(seed: u64) -> Self {
        let mut dice = Draw::new("store", &seed.to_string(), "life");
        let many = 2 + dice.below(4);
        let laptops = (0..many).map(|n| Laptop::new(u8::try_from(n).unwrap() + 1, &format!("laptop-{n}"), &plan()));
        let hubs = (0..=usize::from(!seed.is_multiple_of(3))).map(|_| (Hub::default(), None)).collect();
        let wrote = plan().iter().map(codec::line_text).collect();
        Self {
            laptops: laptops.collect(),
            dice,
            hubs,
            copies: Vec::new(),
            wrote,
            lost: BTreeSet::new(),
            counts: Counts::default(),
        }
    }

    fn write(&mut self, laptop: usize) {
        let n = self.dice.number();
        let (minute, level) = (u32::try_from(n % 40_000).unwrap(), u32::try_from(1 + n % 5).unwrap());
        let lines = match self.dice.below(10) {
            // A bench of its own, that the others hear of with its entries or before them.
            0 => {
                let bench = format!("N{}", self.dice.below(40));
                let text = format!(
                    r#"{{"type":"bench","bench":"{bench}","house":"North","order":2,"at":"2026-10-{:02}T09:00:00-04:00","by":"l{laptop}"}}"#,
                    1 + n % 28
                );
                vec![line(&text), on_bench(&bench, u128::from(n), minute, level)]
            }
            // A revision of the one lot, as others may write it at the same time.
            1 => vec![line(&format!(
                r#"{{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":{},"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27","at":"2026-10-{:02}T10:00:00-04:00","by":"l{laptop}"}}"#,
                200 + n % 50,
                1 + n % 28
            ))],
            // An entry whose id others may give to another one, as edited journals do.
            2 => vec![on_bench("E1", 1 + u128::from(n % 3), minute, level)],
            _ => vec![on_bench("E1", u128::from(n) << 8, minute, level)],
        };
        match self.laptops[laptop].store().append(&lines) {
            Ok(_) => self.wrote.extend(lines.iter().map(codec::line_text)),
            Err(error) => assert!(error.to_string().contains("is already written with other content"), "{error}"),
        }
    }

    fn exchange(&mut self, laptop: usize, hub: usize, batches: Batches, left: Option<u32>) {
        let hub = &mut self.hubs[hub].0;
        hub.left = left;
        let (did, whole) = self.laptops[laptop].exchange_by(hub, batches);
        hub.left = None;
        self.counts.cuts += usize::from(!whole);
        self.counts.written_again += did.written_again;
    }

    fn step(&mut self) {
        let laptop = self.dice.below(self.laptops.len());
        match self.dice.below(100) {
            0..45 => self.write(laptop),
            45..85 => {
                let hub = self.dice.below(self.hubs.len());
                let most = [1, 3, 7][self.dice.below(3)];
                let left = (self.dice.below(100) < 50).then(|| u32::try_from(self.dice.below(26)).unwrap());
                self.exchange(laptop, hub, Batches { take: most, give: most }, left);
            }
            85..88 => {
                let (at, again) = (self.dice.below(self.hubs.len()), self.dice.below(100) < 50);
                let (hub, copy) = &mut self.hubs[at];
                match copy {
                    Some(copy) if again => {
                        hub.clone_from(copy);
                        self.counts.hubs_put_back += 1;
                    }
                    _ => *copy = Some(hub.clone()),
                }
            }
            88..92 => {
                let texts = self.laptops[laptop].logged();
                self.copies.push((laptop, self.laptops[laptop].file(), texts));
            }
            92..95 if !self.copies.is_empty() => {
                let (laptop, bytes, texts) = self.copies[self.dice.below(self.copies.len())].clone();
                self.lost.extend(self.laptops[laptop].logged().difference(&texts).cloned());
                self.laptops[laptop].put_back(&bytes);
                self.counts.files_put_back += 1;
            }
            95..98 if self.laptops.len() < 8 => {
                let bytes = self.laptops[laptop].file();
                let seat = u8::try_from(self.laptops.len()).unwrap() + 1;
                self.laptops.push(Laptop::with_file(seat, &format!("copied-{seat}"), &bytes));
                self.counts.copied += 1;
            }
            _ => self.laptops[laptop].quit(),
        }
    }

    fn round(&mut self) {
        for laptop in 0..self.laptops.len() {
            for hub in 0..self.hubs.len() {
                self.exchange(laptop, hub, Batches::default(), None);
            }
        }
    }

    fn state(&mut self) -> State {
        let heads = self.laptops.iter_mut().map(Laptop::heads).collect();
        let exports = self.laptops.iter_mut().map(Laptop::export).collect();
        (heads, self.hubs.iter().map(|(hub, _)| hub.clone()).collect(), exports)
    }

    fn live(&mut self, steps: usize) {
        for _ in 0..steps {
            self.step();
        }
        for _ in 0..4 {
            self.round();
        }
        let before = self.state();
        for (n, export) in before.2.iter().enumerate() {
            assert!(*export == before.2[0], "laptop {n}:\n{export}\nthe first:\n{}", before.2[0]);
        }
        let all = self.hubs[0].0.texts();
        for (hub, _) in &self.hubs {
            assert!(hub.texts() == all, "the carriers hold the same lines");
        }
        let gone: Vec<_> = self.wrote.difference(&all).filter(|text| !self.lost.contains(*text)).collect();
        assert!(gone.is_empty(), "gone: {gone:?}");
        self.counts.lines = all.len();
        let counts = self.laptops[0].texts();
        // Of lines with one id the least counts, and every other line.
        let mut least: std::collections::BTreeMap<_, &String> = std::collections::BTreeMap::new();
        for text in &all {
            let line = line(text);
            least.entry((line.type_name(), line.id())).and_modify(|t| *t = (*t).min(text)).or_insert(text);
        }
        assert_eq!(counts, least.into_values().cloned().collect());
        self.counts.other_content = all.len() - counts.len();
        self.round();
        assert!(self.state() == before, "one more round changed something");
        for laptop in &mut self.laptops {
            assert_eq!(laptop.store().to_send(&self.hubs[0].0.all_heads()).unwrap(), 0);
            laptop.store().check().unwrap();
        }
    }
}

/// How many random lives; as `LIVES` says.
fn lives() -> u64 {
    let asked = std::env::var("LIVES").ok().and_then(|lives| lives.parse().ok());
    asked.unwrap_or(if cfg!(debug_assertions) { 6 } else { 100 })
}

#[test]
fn whatever_is_cut_put_back_or_copied_all_laptops_export_the_same_season() {
    let mut all = Counts::default();
    for seed in 0..lives() {
        let mut world = World::new(seed);
        println!("life {seed}: {} laptops", world.laptops.len());
        world.live(90);
        let c = world.counts;
        all.lines += c.lines;
        all.cuts += c.cuts;
        all.files_put_back += c.files_put_back;
        all.copied += c.copied;
        all.hubs_put_back += c.hubs_put_back;
        all.written_again += c.written_again;
        all.other_content += c.other_content;
    }
    println!("{} lives: {all:?}", lives());
    for (what, many) in [
        ("cuts", all.cuts),
        ("files put back", all.files_put_back),
        ("copied", all.copied),
        ("written again", all.written_again),
        ("of other content", all.other_content),
    ] {
        assert!(many > 0, "no {what}");
    }
}
