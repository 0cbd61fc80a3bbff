//! A season lived day by day says the same as one opened on that day, and as one read in another order.

use crate::faults::Fault;
use crate::grow::{after, date};
use crate::lived::{FIRST, LAST, live};
use benchwalk::limits::Limits;
use benchwalk::record::Entry;
use benchwalk::season::Season;
use benchwalk::warnings::assess_all;

fn told(season: &Season, day: chrono::NaiveDate) -> Vec<String> {
    assess_all(season, day, &Limits::default()).all().map(|w| format!("{w:?}")).collect()
}

#[test]
fn replaying_day_by_day_is_opening_on_that_day() {
    for (seed, fault) in [(1, Fault::Leak), (2, Fault::LeakYoung), (3, Fault::Whitefly), (4, Fault::Heat)] {
        let whole = live(seed, fault).season;
        let mut growing = Season::new(whole.plan().clone(), Vec::new());
        let mut entries = whole.entries().iter().cloned().peekable();
        let mut day = date(FIRST.0, FIRST.1);
        while day <= date(LAST.0, LAST.1) {
            while let Some(entry) = entries.next_if(|e: &Entry| e.day() <= day) {
                growing.insert(entry);
            }
            assert_eq!(told(&growing, day), told(&whole, day), "seed {seed}, {day}");
            day = after(day, 3);
        }
    }
}

#[test]
fn the_order_of_entries_does_not_matter() {
    let whole = live(5, Fault::Drench).season;
    let mut turned: Vec<Entry> = whole.entries().to_vec();
    turned.reverse();
    let middle = turned.len() / 3;
    turned.rotate_left(middle);
    let turned = Season::new(whole.plan().clone(), turned);
    for n in [20, 45, 60, 90] {
        let day = after(date(FIRST.0, FIRST.1), n);
        assert_eq!(told(&turned, day), told(&whole, day), "{day}");
    }
}
