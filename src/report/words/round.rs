//! How far the round of a day got, in words.

use crate::review::Review;
use chrono::{DateTime, Utc};

/// `20 of 24 benches walked, 2 closed`, read at an instant.
pub fn round(review: &Review, now: Option<DateTime<Utc>>) -> String {
    let closed = match review.closed_count(now) {
        0 => String::new(),
        many => format!(", {many} closed"),
    };
    format!("{} of {} benches walked{closed}", review.walked, review.benches)
}
