//! What is left from yesterday, in one line; the day that a job is put to.

use crate::dates;
use crate::review::Review;

/// `Left from yesterday: 2 jobs: hold E3; feed R6 (E1 E2; 160 pots).`; `None` where nothing is.
pub fn left(review: &Review) -> Option<String> {
    let jobs: Vec<String> = review.left().map(crate::review::Job::short).collect();
    let many = match jobs.len() {
        0 => return None,
        1 => "1 job".to_owned(),
        n => format!("{n} jobs"),
    };
    Some(format!("Left from yesterday: {many}: {}.", jobs.join("; ")))
}

/// The day after the one that jobs are listed for, in words: a job that is put off is put to it.
pub fn day_after(review: &Review) -> String {
    review.listed_for().succ_opt().map_or_else(String::new, dates::weekday)
}
