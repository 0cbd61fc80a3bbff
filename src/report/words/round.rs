//! How far the round of a day got, in words.

use crate::review::Review;
use crate::warnings::Flagged;
use chrono::{DateTime, Utc};

/// `20 of 24 benches walked, 2 closed`, read at an instant.
pub fn round(review: &Review, now: Option<DateTime<Utc>>) -> String {
    let closed = match review.closed_count(now) {
        0 => String::new(),
        many => format!(", {many} closed"),
    };
    format!("{} of {} benches walked{closed}", review.walked, review.benches)
}

/// `2 flagged`, or `2 benches and 1 lot flagged`: a trouble of a lot is counted as one, not on each of its benches.
pub fn flagged(flags: &Flagged) -> String {
    let (benches, lots, houses) = flags.counts();
    if lots == 0 && houses == 0 {
        return format!("{benches} flagged");
    }
    let counted = |n: usize, one: &str, many: &str| match n {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let parts =
        [counted(benches, "bench", "benches"), counted(lots, "lot", "lots"), counted(houses, "house", "houses")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let text = match parts.as_slice() {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        all => all.concat(),
    };
    format!("{text} flagged")
}
