//! The response to rates in words: a plateau, a highest point, or that none was found.

use super::Words;
use crate::record::TrialReading;
use crate::stats::Plateau;
use crate::trials::{Analysis, Data, Response};
use crate::units::plain;

impl Words<'_> {
    /// What is said of the response to rates; `None` without rates, or where nothing may be said: the response is fitted without the place
    /// on the bench.
    pub fn response(&self) -> Option<String> {
        let analysis =
            self.found.judged().filter(|analysis| !analysis.position_decides || analysis.with_position.is_none())?;
        let (data, response) = (analysis.data(), analysis.response.as_ref()?);
        let rates = data.rates.as_ref()?;
        let alpha = self.found.rules.alpha;
        if let Some(plateau) = self.plateau() {
            let range = format!("{} to {}", round(plateau.low, rates), round(plateau.high, rates));
            return Some(format!("Beyond about {} ({range}) more does nothing here.", self.rate(plateau.join, rates)));
        }
        let bends = response.quadratic.is_some_and(|bend| bend.p < alpha);
        if let Some((turn, is_highest)) = bends.then(|| self.turn(analysis, response)).flatten() {
            let most = if is_highest { "Most" } else { "Least" };
            return Some(format!("{most} at about {}.", self.rate(turn, rates)));
        }
        if response.linear.p >= alpha && !bends {
            return Some("No rise or fall with the rate was found.".to_owned());
        }
        let (first, last) = ends(analysis, data)?;
        let more = match (self.found.reading, last > first) {
            (TrialReading::Roots, true) => "a worse score",
            (TrialReading::Roots, false) => "a better score",
            (_, true) => "more",
            (_, false) => "less",
        };
        let highest = self.treatment(data.treatments.len().saturating_sub(1));
        let turns = response.turn.is_some_and(|turn| {
            rates.first().is_some_and(|low| turn > *low) && rates.last().is_some_and(|high| turn < *high)
        });
        if bends && turns {
            return Some("The response bends: where more stops doing anything was not found.".to_owned());
        }
        Some(format!("Up to {highest} more gives {more}: no rate was found beyond which it does nothing."))
    }

    /// The plateau, where it may be said: a straight line fits worse, its join lies below the highest rate, and the means lie on it.
    pub fn plateau(&self) -> Option<Plateau> {
        let (analysis, alpha) = (self.found.judged()?, self.found.rules.alpha);
        let response = analysis.response.as_ref()?;
        let fits = response.lack_of_fit.is_none_or(|lack| lack.p >= alpha);
        response.said_plateau(analysis.data().rates.as_ref()?, alpha).filter(|_| fits)
    }

    /// The rate at which a bent line turns, and whether it is highest there: only within the rates, and only where the treatment there is
    /// told apart from both its neighbors.
    fn turn(&self, analysis: &Analysis, response: &Response) -> Option<(f64, bool)> {
        let rates = analysis.data().rates.as_ref()?;
        let turn = response.turn.filter(|turn| rates.first() < Some(turn) && rates.last() > Some(turn))?;
        let (first, last) = ends(analysis, analysis.data())?;
        let by_mean = |a: &&crate::trials::Mean, b: &&crate::trials::Mean| a.mean.total_cmp(&b.mean);
        let (low, high) = (analysis.means.iter().min_by(by_mean)?, analysis.means.iter().max_by(by_mean)?);
        let verdict = self.found.verdict()?;
        let apart = |a: usize, b: usize| {
            verdict.told.iter().any(|told| matches!(told.pair(), (x, y) if (x, y) == (a, b) || (x, y) == (b, a)))
        };
        let inside = |of: &crate::trials::Mean| {
            let below = of.treatment.checked_sub(1)?;
            let above = Some(of.treatment.saturating_add(1)).filter(|above| *above < rates.len())?;
            (apart(of.treatment, below) && apart(of.treatment, above)).then_some(turn)
        };
        let (ends_low, ends_high) = (first.min(last), first.max(last));
        match (inside(high), inside(low)) {
            (Some(turn), _) if high.mean > ends_high => Some((turn, true)),
            (_, Some(turn)) if low.mean < ends_low => Some((turn, false)),
            _ => None,
        }
    }

    /// A rate with the unit of the treatments' names, else with that of the trial: `8 g`.
    pub fn rate(&self, rate: f64, rates: &[f64]) -> String {
        let trial = self.found.trial();
        let unit_of = |name: &String| name.strip_prefix(&plain(*rates.last()?)).map(str::trim).map(str::to_owned);
        let unit = trial.treatments.last().and_then(unit_of).filter(|unit| !unit.is_empty());
        let unit = unit.or_else(|| trial.rate_unit.clone()).unwrap_or_default();
        format!("{} {unit}", round(rate, rates)).trim_end().to_owned()
    }
}

/// The means at the lowest and the highest rate.
fn ends(analysis: &Analysis, data: &Data) -> Option<(f64, f64)> {
    let mean = |treatment| analysis.means.iter().find(|mean| mean.treatment == treatment).map(|mean| mean.mean);
    Some((mean(0)?, mean(data.treatments.len().checked_sub(1)?)?))
}

/// A rate between those that were tried, rounded to a tenth of the smallest step between them, and to a round number.
fn round(rate: f64, rates: &[f64]) -> String {
    let step = rates.windows(2).filter_map(|pair| Some(pair.last()? - pair.first()?)).fold(f64::INFINITY, f64::min);
    let power = if step.is_finite() && step > 0.0 { 10f64.powf((step / 2.0).log10().floor()) } else { 1.0 };
    plain((rate / power).round() * power)
}
