//! The crop's arithmetic held against numbers from outside the project, one file a subject.
//!
//! Every row names its published source beside it, or says that there is none. A subject file offers `rows()`; to add one,
//! write `mod subject;` (whose `pub(crate) fn rows() -> Vec<Row>` it is) and its line in `SUBJECTS`. `cargo test --test outside -- --nocapture` prints how many rows
//! stand on what.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "this whole binary is a test; clippy only knows functions marked so"
)]

mod basis;
mod calendar;
mod climate;
mod color;
mod feed;
mod growth_regulator;
mod height;
mod injector;
mod label;
mod night;
mod pests;
mod root_zone;
mod trial;
mod water;

use basis::{Basis, Row, wrong};

/// A subject's name and its rows.
type Subject = (&'static str, fn() -> Vec<Row>);

const SUBJECTS: &[Subject] = &[
    ("night", night::rows),
    ("calendar", calendar::rows),
    ("color", color::rows),
    ("climate", climate::rows),
    ("height", height::rows),
    ("growth regulator", growth_regulator::rows),
    ("feed", feed::rows),
    ("labels and water", label::rows),
    ("injector", injector::rows),
    ("root zone", root_zone::rows),
    ("water", water::rows),
    ("pests", pests::rows),
    ("trial", trial::rows),
];

#[test]
fn every_row_holds() {
    let mut all = Vec::new();
    for (subject, rows) in SUBJECTS {
        all.extend(wrong(&rows()).into_iter().map(|row| format!("{subject}: {row}")));
    }
    assert!(all.is_empty(), "{} rows do not hold:\n{}", all.len(), all.join("\n"));
}

#[test]
fn what_the_rows_stand_on() {
    let mut total = [0_usize; 5];
    println!("{:<18}{:>10}{:>10}{:>14}{:>10}{:>10}", "", "published", "computed", "no source", "memory", "refuted");
    let line = |name: &str, n: [usize; 5]| {
        println!("{name:<18}{:>10}{:>10}{:>14}{:>10}{:>10}", n[0], n[1], n[2], n[3], n[4]);
    };
    for (subject, rows) in SUBJECTS {
        let mut n = [0_usize; 5];
        for row in rows() {
            let kind = match row.basis {
                Basis::Published(_) => 0,
                Basis::Computed(_) => 1,
                Basis::CommonPractice => 2,
                Basis::FromMemory => 3,
            };
            n[kind] += 1;
            n[4] += usize::from(row.refuted);
            if let Basis::Published(source) | Basis::Computed(source) = row.basis {
                assert!(source.len() >= 4, "{subject}: '{}' must name its source", row.name);
            }
        }
        assert!(n.iter().any(|c| *c > 0), "{subject} has no rows");
        for (sum, count) in total.iter_mut().zip(n) {
            *sum += count;
        }
        line(subject, n);
    }
    line("all", total);
}
