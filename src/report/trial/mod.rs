//! One reading of a trial: what is found of it, as words, text, JSON and HTML.

mod chart;
mod days;
mod grid;
mod html;
mod json;
pub mod labels;
pub mod laying;
pub mod map;
mod means;
mod plots;
mod report;
mod scale;
mod text;
mod verdict;
pub mod words;

pub use days::DayLine;
pub use grid::Laid;
pub use html::{html, section};
pub use json::json;
pub use means::{MeanRow, bar};
pub use plots::by_day;
pub use report::Report;
pub use scale::Scale;
pub use text::text;
pub use verdict::{By, Told, Verdict};
pub use words::Words;

use crate::record::{Trial, TrialReading};
use crate::stats::Draw;
use crate::terms::Design;
use crate::trials::{Analysis, Caution, Data, Over, Readings, Refused, Reshuffle, Reshuffled, Rules, analyze};
use chrono::NaiveDate;

/// What is known of one reading of a trial, on one day or as growth.
#[derive(Debug, Clone)]
pub struct Found {
    /// The trial with all that was read of it.
    pub readings: Readings,
    /// What was read.
    pub reading: TrialReading,
    /// The day, or growth over all days.
    pub over: Over,
    /// The numbers the analysis goes by.
    pub rules: Rules,
    /// The plots with their values; `None` where nothing was read.
    pub data: Option<Data>,
    /// What the reading says of treatment and position, or why nothing is separated.
    pub analysis: Result<Analysis, Refused>,
    /// What reshuffling found; `None` before it is done, or where the layout was not drawn.
    pub reshuffled: Option<Reshuffled>,
    /// The same without the odd plot, where a check names one.
    pub without_odd: Option<(u32, Box<Analysis>)>,
    /// The day before the treatment whose reading is taken into account.
    pub before: Option<NaiveDate>,
    /// All that is said beside it.
    pub cautions: Vec<Caution>,
}

impl Found {
    /// Analyzes one reading of a trial; not reshuffled yet.
    pub fn of(readings: &Readings, reading: TrialReading, over: Over, rules: Rules) -> Self {
        Self::with_before(readings, (reading, over), rules, false)
    }

    /// As [`Found::of`]; with `before`, what every plot read before the treatment is taken into account.
    pub fn with_before(readings: &Readings, (reading, over): (TrialReading, Over), rules: Rules, before: bool) -> Self {
        let data = readings.data(reading, over, before);
        let living = readings.plots.len();
        let analysis = data.as_ref().map_or(Err(Refused::NotRead(living, living)), |data| analyze(data, rules));
        let own = analysis.as_ref().map(|analysis| analysis.cautions.clone()).unwrap_or_default();
        let without_odd = analysis.as_ref().ok().and_then(|analysis| without_odd(analysis, rules));
        let cautions = own.into_iter().chain(readings.cautions()).collect();
        let baseline = if before { readings.baseline(reading) } else { None };
        let readings = readings.clone();
        Self {
            readings,
            reading,
            over,
            rules,
            data,
            analysis,
            reshuffled: None,
            without_odd,
            before: baseline,
            cautions,
        }
    }

    /// The main reading on the last day that was read in full; of a trial that was never read in full, on its last day of readings.
    pub fn main(readings: &Readings, rules: Rules) -> Self {
        let reading = readings.trial.reads.first().copied().unwrap_or(TrialReading::Height);
        Self::of(readings, reading, Over::Day(last(readings, reading)), rules)
    }

    /// The trial.
    pub const fn trial(&self) -> &Trial {
        &self.readings.trial
    }

    /// Begins to reshuffle with the trial's own seed; `None` of a layout that was not drawn, or with nothing to judge by.
    pub fn reshuffle(&self) -> Option<Reshuffle> {
        let trial = self.trial();
        let analysis = self.analysis.as_ref().ok().filter(|analysis| analysis.refused.is_none())?;
        let purpose = format!("reshuffle {}", crate::terms::Term::code(self.reading));
        analysis.reshuffle(Draw::new(&trial.trial, trial.seed.as_deref()?, &purpose))
    }

    /// The same, reshuffled so many times.
    #[must_use]
    pub fn reshuffled(mut self, times: u32) -> Self {
        self.reshuffled = self.reshuffle().map(|mut deal| {
            deal.step(times);
            deal.found()
        });
        self
    }

    /// The chance that decides on the treatments as a whole: by reshuffling for scores and where the usual intervals are in doubt, else
    /// by F; where position that was left over decides, that of the clearest difference. `None` where nothing is separated, or while it is
    /// still reshuffled.
    pub fn chance(&self) -> Option<f64> {
        let analysis = self.judged()?;
        if self.goes_by_reshuffling() {
            return Some(self.reshuffled.as_ref()?.p);
        }
        match &analysis.with_position {
            Some(with) if analysis.position_decides => with.differences.iter().map(|of| of.p).reduce(f64::min),
            _ => analysis.treatment.p,
        }
    }

    /// The analysis, where it separates anything.
    pub fn judged(&self) -> Option<&Analysis> {
        self.analysis.as_ref().ok().filter(|analysis| analysis.refused.is_none())
    }

    /// Why nothing is separated.
    pub fn refused(&self) -> Option<&Refused> {
        match &self.analysis {
            Err(refused) => Some(refused),
            Ok(analysis) => analysis.refused.as_ref(),
        }
    }

    /// True where reshuffling decides: the layout was drawn, and the values are scores or a check doubts the usual intervals.
    pub fn goes_by_reshuffling(&self) -> bool {
        let doubted = self.judged().is_some_and(|analysis| analysis.checks.doubt_intervals());
        self.trial().design != Design::AsLaid && (self.is_scored() || doubted)
    }

    /// True where the values are judged in classes.
    pub fn is_scored(&self) -> bool {
        self.data.as_ref().is_some_and(|data| data.reading == crate::trials::Reading::Scored)
    }

    /// First and last day of what is shown.
    pub fn span(&self) -> (NaiveDate, NaiveDate) {
        match self.over {
            Over::Day(day) => (self.readings.begun(self.reading, day), day),
            Over::Growth => {
                let days = self.readings.days(self.reading);
                let day = self.readings.day;
                (days.first().map_or(day, |first| first.day), days.last().map_or(day, |last| last.day))
            }
        }
    }
}

/// The day that is shown of a reading: the last one read in full, else the last one read at all, else the day as of which it is read.
pub fn last(readings: &Readings, reading: TrialReading) -> NaiveDate {
    let any = || readings.days(reading).last().map(|day| day.day);
    readings.reported(reading).or_else(any).unwrap_or(readings.day)
}

/// The analysis without the plot that a check names as odd.
fn without_odd(analysis: &Analysis, rules: Rules) -> Option<(u32, Box<Analysis>)> {
    let (at, _) = analysis.checks.odd_plot()?;
    let (number, _) = analysis.residuals().into_iter().nth(at)?;
    let mut data = analysis.data().clone();
    for plot in data.plots.iter_mut().filter(|plot| plot.number == number) {
        // Not counted among what is still to be read.
        (plot.value, plot.lost) = (None, true);
    }
    Some((number, Box::new(analyze(&data, rules).ok()?)))
}
