//! Every sentence that is said of a trial. Never more digits than the readings have, and never that a treatment did nothing.

mod checks;
mod design;
mod difference;
mod refuse;
mod response;
mod scores;
mod share;

pub use checks::Check;
pub use share::{chance, one_in, percent, share};

use super::{By, Found, Scale, Verdict};
use crate::terms::Design;
use crate::trials::{Against, Analysis, Data};
use crate::units::System;

/// The words for one reading of a trial, in the units of a site.
#[derive(Debug, Clone, Copy)]
pub struct Words<'a> {
    /// What is spoken of.
    pub found: &'a Found,
    /// How its values are shown.
    pub scale: Scale,
}

impl<'a> Words<'a> {
    /// The words for what was found.
    pub fn of(found: &'a Found, system: System) -> Self {
        Self { found, scale: Scale::of(found, system) }
    }

    /// All that is said of the result, a sentence each: what is told apart and what is not, shares, what could have been seen, the response,
    /// reshuffling, checks. Where nothing is separated it is why.
    pub fn result(&self) -> Vec<String> {
        let mut all = self.verdict_lines();
        let Some(verdict) = self.found.verdict() else { return all };
        all.extend(self.by(&verdict));
        all.extend(self.before());
        all.extend(self.all_counts());
        all.extend(self.shares());
        all.extend(self.seen().filter(|_| !verdict.told.is_empty()));
        all.extend(self.response());
        all.extend(self.reshuffled());
        all.push(self.checks_line());
        all.extend(self.left_over().map(|(said, others)| format!("{said} {}", others.join(" "))));
        all.extend(self.without_odd());
        all
    }

    /// What is told apart and what is not, or why nothing is separated, a sentence each.
    pub fn verdict_lines(&self) -> Vec<String> {
        if let Some(refused) = self.refused() {
            return vec![refused];
        }
        let Some(verdict) = self.found.verdict() else {
            return vec!["Reshuffling …".to_owned()];
        };
        if let Some(none) = self.none_told(&verdict) {
            return vec![none];
        }
        let told = format!("{}: {}.", self.told_head(&verdict), self.told(&verdict).join("; "));
        std::iter::once(told).chain(self.untold(&verdict).map(|untold| format!("{untold}."))).collect()
    }

    /// That what was read before the treatment is taken into account.
    pub fn before(&self) -> Option<String> {
        let day = self.found.before?;
        Some(format!("What was read on {}, before the treatment, is taken into account.", crate::dates::short(day)))
    }

    /// The position and the treatment in the spread: `Position explains a quarter of the spread, treatment 62%, the rest 13%.`
    pub fn shares(&self) -> Option<String> {
        let analysis = self.found.judged()?;
        let (treatment, rest) = (percent(analysis.treatment.share), percent(analysis.rest.share));
        if analysis.position.squares.df == 0 {
            return Some(format!("Treatment explains {treatment} of the spread, the rest {rest}."));
        }
        let position = share(analysis.position.share);
        Some(format!("Position explains {position} of the spread, treatment {treatment}, the rest {rest}."))
    }

    /// The least difference that would mostly have been found: `With 6 blocks a difference under 1.5 in would often have been missed.`
    pub fn seen(&self) -> Option<String> {
        Some(format!("With {} a difference under {} would often have been missed.", self.repeated()?, self.least()?))
    }

    /// That least difference with its unit, or as a ratio.
    pub fn least(&self) -> Option<String> {
        let analysis = self.found.judged()?;
        match self.found.verdict()?.by {
            By::Intervals | By::Scores => Some(self.scale.at_least_a_step(analysis.comparisons.as_ref()?.seen?)),
            By::Position => Some(self.scale.at_least_a_step(analysis.with_position.as_ref()?.seen?)),
            By::Ratios => match analysis.instead.as_ref()? {
                crate::trials::Instead::Ratios(ratios) => Some(format!("{:.1} times", ratios.seen?.exp())),
                crate::trials::Instead::Pairs(_) => None,
            },
            By::Pairs => None,
        }
    }

    /// How often treatments were repeated: `6 blocks`.
    fn repeated(&self) -> Option<String> {
        let analysis = self.found.judged()?;
        let data = analysis.data();
        Some(match blocks(data) {
            Some(1) | None if data.design == Design::LatinSquare => {
                format!("{} rows and columns", data.treatments.len())
            }
            Some(blocks) if blocks > 1 => format!("{blocks} blocks"),
            _ => {
                let plots = data.plots.iter().filter(|plot| plot.value.is_some()).count();
                let each = plots.checked_div(data.treatments.len()).unwrap_or_default();
                format!("{each} {} per treatment", if self.is_by_bench(analysis) { "benches" } else { "plots" })
            }
        })
    }

    /// True where whole benches are compared.
    fn is_by_bench(&self, analysis: &Analysis) -> bool {
        self.found.data.as_ref().is_some_and(|data| data.plots.len() != analysis.data().plots.len())
    }

    /// How much better blocks were than none.
    pub fn efficiency(&self) -> Option<String> {
        let times = self.found.judged().filter(|_| !self.found.is_scored())?.efficiency?;
        let blocks = "Blocks made one plot worth as much as";
        Some(format!("{blocks} {times:.1} plots placed anywhere (relative efficiency, Cochran and Cox)."))
    }

    /// How often reshuffling separates the treatments as much: `By reshuffling: 1 in 10,000.` Not where the place on the bench decides:
    /// reshuffling does not take it into account.
    pub fn reshuffled(&self) -> Option<String> {
        self.found.verdict().filter(|verdict| verdict.by != By::Position)?;
        Some(format!("By reshuffling: {}.", one_in(self.found.reshuffled.as_ref()?.p)))
    }

    /// What the verdict goes by, where that is not the usual.
    pub fn by(&self, verdict: &Verdict) -> Option<String> {
        let said = match verdict.by {
            By::Intervals => return None,
            By::Position => {
                "The place on the bench is taken into account: nothing of it was in the design. Means and shares are without it."
            }
            By::Ratios => "The spread grows with the readings: they are compared as ratios.",
            By::Pairs => "The plots do not spread alike: each pair is compared by its own spread.",
            By::Scores => "Scores are compared by rank and by reshuffling; the means only show them.",
        };
        Some(said.to_owned())
    }

    /// What is compared: `all pairs`, `each with 0 g`.
    pub fn against(&self, against: Against) -> String {
        match (against, self.found.trial().control.as_deref()) {
            (Against::Control, Some(control)) => format!("each with {control}"),
            _ => "all pairs".to_owned(),
        }
    }

    /// A treatment by its place among them.
    pub fn treatment(&self, at: usize) -> &'a str {
        self.found.trial().treatments.get(at).map_or("?", String::as_str)
    }

    /// `at 12 g` of a rate, `with B` of another treatment.
    pub fn at(&self, treatment: usize) -> String {
        let word = if self.found.trial().rates.is_some() { "at" } else { "with" };
        format!("{word} {}", self.treatment(treatment))
    }
}

/// `1 plot`, `3 plots`.
pub fn plots(count: usize) -> String {
    if count == 1 { "1 plot".to_owned() } else { format!("{count} plots") }
}

/// The blocks of the plots; `None` where the design has none.
fn blocks(data: &Data) -> Option<usize> {
    let has = matches!(data.design, Design::RandomizedBlocks | Design::AsLaid);
    let blocks: Option<std::collections::BTreeSet<u32>> = data.plots.iter().map(|plot| plot.block).collect();
    blocks.filter(|_| has).map(|blocks| blocks.len())
}
