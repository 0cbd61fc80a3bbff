//! The part "last year": what is worked out of it in idle slices, and what was made of that.

use crate::compare::{Course, Courses, Judge};
use crate::model::Model;
use crate::report::compare::Comparison;
use chrono::NaiveDate;

/// What of this season is read: its courses, then its warnings day by day.
#[derive(Debug, Clone)]
enum Work {
    /// The courses are read.
    Courses(Box<Courses>),
    /// The courses are there, and the days are assessed.
    Days(Vec<Course>, Box<Judge>),
    /// All is there.
    Done(Vec<Course>, Box<Judge>),
}

/// What is worked out, and of what.
#[derive(Debug, Clone, Default)]
pub(super) struct LastYear {
    /// The day and the entries there were.
    of: Option<(NaiveDate, usize)>,
    work: Option<Work>,
    /// There is a season of last year: without one nothing is worked out.
    wanted: bool,
    comparison: Option<Box<Comparison>>,
}

fn key(model: &Model) -> (NaiveDate, usize) {
    (model.day, model.season.entries().len())
}

impl LastYear {
    /// Nothing worked out yet.
    pub(super) fn new(model: &Model) -> Self {
        Self { wanted: model.last_year.is_some(), ..Self::default() }
    }

    /// The comparison, as far as it is worked out.
    pub(super) fn comparison(&self) -> Option<&Comparison> {
        self.comparison.as_deref()
    }

    /// How many of the days are assessed, of so many, while they are.
    pub(super) fn far(&self) -> Option<(usize, usize)> {
        match &self.work {
            Some(Work::Days(_, judge)) => Some(judge.far()),
            _ => None,
        }
    }

    /// True while there is something to work out.
    pub(super) const fn waits(&self) -> bool {
        self.wanted && !matches!(self.work, Some(Work::Done(..)))
    }

    /// Takes up a season that changed, or last year's that was read: what still holds is kept.
    pub(super) fn refresh(&mut self, model: &Model) {
        if self.of == Some(key(model)) {
            self.wanted = model.last_year.is_some();
            self.compare(model);
        } else {
            *self = Self::new(model);
        }
    }

    /// Does a slice of what waits.
    pub(super) fn step(&mut self, model: &Model) {
        let (season, limits) = (&model.season, &model.limits);
        let next = match self.work.take() {
            None => {
                self.of = Some(key(model));
                Work::Courses(Box::new(Courses::new(season, model.day, limits)))
            }
            Some(Work::Courses(mut courses)) => {
                if courses.step() {
                    Work::Courses(courses)
                } else {
                    let judge = Judge::new(season, model.day, limits);
                    Work::Days(courses.read(), Box::new(judge))
                }
            }
            Some(Work::Days(courses, mut judge)) => {
                if judge.step() {
                    Work::Days(courses, judge)
                } else {
                    Work::Done(courses, judge)
                }
            }
            Some(done @ Work::Done(..)) => done,
        };
        let shows = match &next {
            Work::Courses(_) => false,
            Work::Days(..) => self.comparison.is_none(),
            Work::Done(..) => true,
        };
        self.work = Some(next);
        if shows {
            self.compare(model);
        }
    }

    /// Sets both years beside each other, as far as they are worked out.
    fn compare(&mut self, model: &Model) {
        let (courses, now) = match &self.work {
            Some(Work::Days(courses, _)) => (courses, None),
            Some(Work::Done(courses, judge)) => (courses, Some(judge.judged())),
            _ => return,
        };
        let Some(last) = &model.last_year else { return };
        let this = (&model.season, model.path.as_str());
        self.comparison = Comparison::of(last, this, model.day, (courses, now)).map(Box::new);
    }
}
