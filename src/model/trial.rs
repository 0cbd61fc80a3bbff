//! What a trial writes from its page: the treatments as given, the rate that is used next season, and that it ended early.

use super::{Effect, Model};
use crate::record::{Entry, FieldFault, Kind, Line, Lot, Place, Plot, Trial};
use crate::trials::{GIVEN, Readings};
use crate::units::plain;

impl Model {
    /// The plots of a trial whose treatment is not logged as given, by number; those that get nothing are left out.
    pub fn not_given(&self, trial: &str) -> Vec<Plot> {
        let readings = Readings::of(&self.season, trial, self.day);
        readings.map(|readings| readings.not_given().into_iter().cloned().collect()).unwrap_or_default()
    }

    /// Logs the treatments as given, of every plot where they are not yet: slow-release by its rate, else a note.
    ///
    /// # Errors
    /// Every fault, by field; nothing is recorded then.
    pub fn give_treatments(&mut self, code: &str) -> Result<Effect, Vec<FieldFault>> {
        let plots = self.not_given(code);
        let Some(trial) = self.season.trial(code).cloned() else { return Err(Vec::new()) };
        let entries: Vec<Entry> = plots.iter().map(|plot| self.given(&trial, plot)).collect();
        self.record(entries)
    }

    fn given(&mut self, trial: &Trial, plot: &Plot) -> Entry {
        let place = Place::Bench(plot.bench.as_str().into());
        let (kind, note) = match trial.rate(&plot.treatment).filter(|_| trial.rates_are_grams()) {
            Some(g_per_pot) => (Kind::Topdressed { g_per_pot, n_percent: None }, None),
            None => (Kind::Note {}, Some(format!("{GIVEN}: {}", plot.treatment))),
        };
        Entry { plot: Some(plot.plot.as_str().into()), ..self.entry(place, kind, note) }
    }

    /// Keeps a rate as the slow-release of the trial's lot next season, with the trial as its basis.
    ///
    /// # Errors
    /// Every fault, by field.
    pub fn use_rate(&self, trial: &Trial, rate: f64) -> Result<Effect, Vec<FieldFault>> {
        let Some(lot) = self.season.lot(&trial.lot).cloned() else { return Err(Vec::new()) };
        let basis = Some(format!("trial {}, {} g", trial.trial, plain(rate)));
        self.revised(Line::Lot(Lot { next_release_g: Some(rate), next_release_basis: basis, ..lot }))
    }

    /// Ends a trial with the present day, for a reason.
    ///
    /// # Errors
    /// Every fault, by field.
    pub fn end_trial(&self, trial: &Trial, because: String) -> Result<Effect, Vec<FieldFault>> {
        let ended = Trial { until: Some(self.day), ended_because: Some(because), ..trial.clone() };
        self.revised(Line::Trial(ended))
    }

    /// A line of the plan as a revision from today on of what is kept under its key.
    fn revised(&self, mut line: Line) -> Result<Effect, Vec<FieldFault>> {
        let replaces = self.season.heads(&line.key()).iter().map(Line::id).collect();
        if let Some(revision) = line.revision_mut() {
            *revision = self.revision(0, replaces, false);
        }
        let lines = vec![line];
        self.admit(&lines)?;
        Ok(Effect::KeepPlan(lines))
    }
}
