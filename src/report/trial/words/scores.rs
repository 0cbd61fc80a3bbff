//! Scores are said as counts: how many plots of each treatment reached a class.

use super::Words;
use crate::record::TrialReading;
use crate::trials::Over;

impl Words<'_> {
    /// How many of some treatments reached the class that separates them most: `roots 2 or worse: 1 of 12 pots at 4 g, 7 of 12 at 12 g`.
    /// `None` of what is not scored in classes, or where all are of one class.
    pub fn counts(&self, treatments: &[usize]) -> Option<String> {
        let (thing, more) = match self.found.reading {
            TrialReading::Greenness => ("greenness", "greener"),
            TrialReading::Bracts => ("bracts", "further"),
            TrialReading::Roots => ("roots", "worse"),
            TrialReading::Water => ("water", "wetter"),
            TrialReading::Height | TrialReading::BractWidth | TrialReading::RootZone | TrialReading::Grade => {
                return None;
            }
        };
        if !self.found.is_scored() || self.found.over == Over::Growth {
            return None;
        }
        let data = self.found.data.as_ref()?;
        let of = |treatment: usize| -> Vec<f64> {
            data.plots.iter().filter(|plot| plot.treatment == treatment).filter_map(|plot| plot.value).collect()
        };
        let values: Vec<Vec<f64>> = treatments.iter().map(|treatment| of(*treatment)).collect();
        let reach = |values: &[f64], class: f64| values.iter().filter(|value| **value >= class - 1e-9).count();
        let share = |values: &[f64], class: f64| reach(values, class) as f64 / values.len().max(1) as f64;
        let apart = |class: f64| {
            let shares: Vec<f64> = values.iter().map(|values| share(values, class)).collect();
            let range = shares.iter().fold((1.0_f64, 0.0_f64), |(low, high), s| (low.min(*s), high.max(*s)));
            range.1 - range.0
        };
        let classes = (1..=7_u8).map(f64::from);
        let class = classes.max_by(|a, b| apart(*a).total_cmp(&apart(*b)))?;
        if apart(class) <= 0.0 {
            return None;
        }
        let single = self.found.readings.plots.iter().all(|plot| plot.pots == 1);
        let noun = if single { "pots" } else { "plots" };
        let one = |(at, (treatment, values)): (usize, (&usize, &Vec<f64>))| {
            let noun = if at == 0 { format!(" {noun}") } else { String::new() };
            format!("{} of {}{noun} {}", reach(values, class), values.len(), self.at(*treatment))
        };
        let counts: Vec<String> = treatments.iter().zip(&values).enumerate().map(one).collect();
        Some(format!("{thing} {class} or {more}: {}", counts.join(", ")))
    }

    /// The counts of all treatments, as a sentence.
    pub fn all_counts(&self) -> Option<String> {
        let all: Vec<usize> = (0..self.found.trial().treatments.len()).collect();
        Some(format!("Of all treatments {}.", self.counts(&all)?))
    }
}
