//! How quick the rules are: `cargo bench --bench rules`.
//!
//! On 500 benches with a whole season each: one bench assessed again after an entry, all benches at once, lots and houses
//! alone, one history, one entry added. It prints medians and the 99th of a hundred; nothing is asserted on time here.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a benchmark prints, and stops where it cannot go on"
)]

mod times;

use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Bench, Entry, Kind, Line, Place, Placement, Plan};
use benchwalk::season::Season;
use benchwalk::warnings::{assess, assess_all, assess_group, groups_on};
use times::{timed, told};
use uuid::Uuid;

/// The first bench of the quiet case, 500 times over in ten houses.
fn large() -> Season {
    let lines = journal::read(include_str!("../cases/quiet-season-1.jsonl")).expect("a good journal");
    let mut plan = Plan::default();
    let mut entries = Vec::new();
    let mut first = None;
    for line in &lines {
        match line {
            Line::Site(site) => plan.sites.push(site.clone()),
            Line::Lot(lot) => plan.lots.push(lot.clone()),
            Line::Bench(bench) => first = first.or(Some(bench.bench.as_str())),
            _ => {}
        }
    }
    let first = first.expect("a bench");
    for n in 0..500_u32 {
        let code = format!("E{n}");
        for line in &lines {
            match line.clone() {
                Line::Bench(bench) if bench.bench == first => {
                    let house = format!("House {}", n / 50);
                    plan.benches.push(Bench { bench: code.clone(), house, order: n, ..bench });
                }
                Line::Placement(placement) if placement.bench == first => {
                    plan.placements.push(Placement { bench: code.clone(), ..placement });
                }
                Line::Entry(entry) if entry.place == Place::Bench(first.into()) => {
                    let id = Uuid::from_u128(entries.len() as u128 + 1);
                    entries.push(Entry { id, place: Place::Bench(code.as_str().into()), ..entry });
                }
                _ => {}
            }
        }
    }
    Season::new(plan, entries)
}

fn main() {
    // Under `cargo test` a benchmark is only tried.
    let quick = std::env::args().any(|a| a == "--test");
    let rounds = if quick { 1 } else { 30 };
    let mut large = large();
    let limits = Limits::default();
    let on = "2026-11-20".parse().expect("a day");
    println!("500 benches, {} entries", large.entries().len());
    let (mut whole, mut wide, mut history) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..rounds {
        let all = timed(&mut whole, || assess_all(&large, on, &limits));
        for place in groups_on(&large, on) {
            timed(&mut wide, || assess_group(&large, (&place, on), &limits, &all.by_bench));
        }
    }
    for n in 0..if quick { 1 } else { 500 } {
        timed(&mut history, || large.history(&format!("E{n}"), on).all().len());
    }
    let mut entry = large.entries().last().expect("an entry").clone();
    let (mut insert, mut one) = (Vec::new(), Vec::new());
    for n in 0..if quick { 1 } else { 500_u32 } {
        entry.id = Uuid::from_u128(1 << 100 | u128::from(n));
        entry.place = Place::Bench(format!("E{n}").into());
        entry.kind = Kind::Water { level: 2, base: None }.into();
        timed(&mut insert, || large.insert(entry.clone()));
        timed(&mut one, || assess(&large, &format!("E{n}"), on, &limits).len());
    }
    told("all benches, lots and houses", whole);
    told("lots and houses alone", wide);
    told("one bench after an entry", one);
    told("one history", history);
    told("one entry added", insert);
}
