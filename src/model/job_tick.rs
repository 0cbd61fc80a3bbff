//! The tick of a listed job: what is written when it was done, was not needed or is put to the next day.

use crate::record::{JobOutcome, Kind, Place};
use crate::review::{Job, Review};
use chrono::NaiveDate;

/// A listed job and what became of it, before it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobTick {
    /// The job as it was listed.
    pub step: String,
    /// The day it was listed for.
    pub listed_for: NaiveDate,
    /// What became of it.
    pub outcome: JobOutcome,
    /// Its benches, or its houses where it is about houses.
    pub places: Vec<Place>,
}

impl JobTick {
    /// The tick of a job of a review: of the benches that can be worked on, of all where each has to wait.
    pub fn of(job: &Job, review: &Review, outcome: JobOutcome) -> Self {
        let bench = |code: &String| Place::Bench(code.as_str().into());
        let places = match (job.houses.as_slice(), job.benches.as_slice()) {
            ([_, ..], _) => job.houses.iter().map(|house| Place::House(house.as_str().into())).collect(),
            ([], []) => job.all().map(bench).collect(),
            ([], [_, ..]) => job.benches.iter().map(bench).collect(),
        };
        Self { step: job.step.to_owned(), listed_for: review.listed_for(), outcome, places }
    }

    /// What is written, place by place.
    pub fn kinds(&self, why: Option<&str>) -> Vec<(Place, Kind)> {
        let kind = Kind::Job {
            step: self.step.clone(),
            listed_for: self.listed_for,
            outcome: self.outcome,
            why: why.map(str::to_owned),
        };
        self.places.iter().map(|place| (place.clone(), kind.clone())).collect()
    }

    /// The same for those of its places that work was logged on, given as benches.
    #[must_use]
    pub fn on(self, worked: &[String]) -> Self {
        let is_there = |place: &Place| match place {
            Place::Bench(bench) => worked.iter().any(|code| **code == **bench),
            Place::House(_) | Place::Lot(_) => true,
        };
        Self { places: self.places.into_iter().filter(is_there).collect(), ..self }
    }
}
