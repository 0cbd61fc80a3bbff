//! Benches that dry slower than their lot: rare where nothing is wrong, and seen of a bench that does.

use crate::faults::Fault;
use crate::grow::{after, date};
use crate::lived::{FIRST, LAST, live};
use benchwalk::limits::Limits;
use benchwalk::warnings::slower_on;

/// Bench-days of lot A on which a bench is named, and all of them, over some seasons; the lot is on E1 to E3.
fn named(fault: Fault, seasons: u64, whom: impl Fn(&[String], &str) -> bool) -> (usize, usize) {
    let (mut told, mut all) = (0, 0);
    for seed in 0..seasons {
        let lived = live(104_729 * seed + 5, fault);
        let mut day = after(date(FIRST.0, FIRST.1), 30);
        while day < date(LAST.0, LAST.1) {
            day = after(day, 1);
            let slow = slower_on(&lived.season, day, &Limits::default());
            told += slow.iter().filter(|s| whom(&lived.benches, &s.bench)).count();
            all += 3;
        }
    }
    (told, all)
}

#[test]
fn in_a_sound_season_a_bench_is_rarely_said_to_dry_slower_than_its_lot() {
    let (told, all) = named(Fault::None, 6, |_, _| true);
    assert!(told * 50 <= all, "{told} of {all} bench-days");
}
