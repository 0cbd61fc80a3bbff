//! One difference, and the lists of those told apart and not told apart.

use super::Words;
use crate::report::trial::{By, Told, Verdict};
use crate::trials::{Against, Difference};

impl Words<'_> {
    /// Two treatments that are told apart: `12 g is 3.1 in taller than 0 g (2.0 to 4.3)`.
    pub fn difference(&self, of: &Told) -> String {
        match of {
            Told::Difference(of) => self.by_interval(of),
            Told::Ratio(of) => {
                let (a, b) = (self.treatment(of.pair.0), self.treatment(of.pair.1));
                let (low, high) = (of.interval.0.exp(), of.interval.1.exp());
                format!("{a} is {:.1} times {b} ({low:.1} to {high:.1} times)", of.difference.exp())
            }
            Told::Score((a, b), _) => {
                let counts = self.counts(&[*b, *a]).map_or_else(String::new, |counts| format!(" ({counts})"));
                format!("{} {} than {}{counts}", self.treatment(*a), self.is_more(), self.treatment(*b))
            }
        }
    }

    fn by_interval(&self, of: &Difference) -> String {
        let (a, b) = (self.treatment(of.pair.0), self.treatment(of.pair.1));
        let (amount, interval) = (self.scale.difference(of.difference), self.scale.beyond_zero(of.interval));
        let more = self.scale.more;
        if self.scale.is_growth {
            format!("{a} {more} {amount} more than {b} ({interval})")
        } else {
            format!("{a} is {amount} {more} than {b} ({interval})")
        }
    }

    /// `is greener`, `rose more`.
    fn is_more(&self) -> String {
        if self.scale.is_growth { format!("{} more", self.scale.more) } else { format!("is {}", self.scale.more) }
    }

    /// What stands above those told apart: `Told apart (all pairs, 95% together)`.
    pub fn told_head(&self, verdict: &Verdict) -> String {
        let sure = super::percent(1.0 - self.found.rules.alpha);
        let against = self.against(verdict.against);
        match verdict.by {
            By::Scores => format!("Told apart ({against}, by rank, {sure} together)"),
            _ => format!("Told apart ({against}, {sure} together)"),
        }
    }

    /// Those told apart, a line each.
    pub fn told(&self, verdict: &Verdict) -> Vec<String> {
        verdict.told.iter().map(|of| self.difference(of)).collect()
    }

    /// Those not told apart: `Not told apart: 8 g and 4 g, 12 g and 8 g`; `None` where there is none.
    pub fn untold(&self, verdict: &Verdict) -> Option<String> {
        let higher_first = self.found.trial().rates.is_some();
        let pair = |of: &Told| {
            let (a, b) = of.pair();
            let (a, b) = if higher_first { (a.max(b), a.min(b)) } else { (a.min(b), a.max(b)) };
            format!("{} and {}", self.treatment(a), self.treatment(b))
        };
        let pairs: Vec<String> = verdict.untold.iter().map(pair).collect();
        (!pairs.is_empty()).then(|| format!("Not told apart: {}", pairs.join(", ")))
    }

    /// Where none is told apart: `No treatment is told apart from another (p 0.31); a difference under 0.9 in would often have been
    /// missed.`
    pub fn none_told(&self, verdict: &Verdict) -> Option<String> {
        if !verdict.told.is_empty() {
            return None;
        }
        let other = match (verdict.against, self.found.trial().control.as_deref()) {
            (Against::Control, Some(control)) => control,
            _ => "another",
        };
        let p = self.found.chance().map_or_else(String::new, |p| format!(" ({})", super::chance(p)));
        let seen = self
            .least()
            .map_or_else(String::new, |least| format!("; a difference under {least} would often have been missed"));
        Some(format!("No treatment is told apart from {other}{p}{seen}."))
    }
}
