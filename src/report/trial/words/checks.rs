//! What the checks say, and what follows from it.

use super::{Words, chance};
use crate::report::trial::Verdict;
use crate::terms::Design;

/// A check, its chance, and what it says where it speaks.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// What was checked.
    pub name: &'static str,
    /// How often as much comes about by chance.
    pub p: f64,
    /// What it says; `None` where it does not speak.
    pub says: Option<String>,
}

/// A check speaks below this chance: they are many and blunt (house rule). Position left over goes by the trial's own alpha.
const SPEAKS: f64 = 0.01;

impl Words<'_> {
    /// The checks that could be made.
    pub fn checks(&self) -> Vec<Check> {
        let Some(analysis) = self.found.judged() else { return Vec::new() };
        let checks = &analysis.checks;
        let says = |p: f64, least: f64, said: &str| (p < least).then(|| format!("{said} ({})", chance(p)));
        let spread = match analysis.data().design {
            Design::CompletelyRandomized => ("spread", "treatments spread differently"),
            _ => ("adding up", "position and treatment do not simply add up"),
        };
        let odd = self.odd_plot().map_or_else(String::new, |number| {
            format!("plot {number} is odd: look at the pot and the entry; void it only for a mistake")
        });
        let one = |name, p, least, said: &str| Check { name, p, says: says(p, least, said) };
        [
            checks.spread.map(|test| one(spread.0, test.p, SPEAKS, spread.1)),
            checks.normal.map(|test| one("normal rest", test.p, SPEAKS, "the rest is not normal")),
            checks.odd.map(|(_, test)| one("odd plot", test.p, SPEAKS, &odd)),
            checks.left_over.as_ref().map(|left| {
                one("position left over", left.p, self.found.rules.alpha, "position is left over along the bench")
            }),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// The checks in one line: `Checks: nothing speaks.`
    pub fn checks_line(&self) -> String {
        let says: Vec<String> = self.checks().into_iter().filter_map(|check| check.says).collect();
        if says.is_empty() { "Checks: nothing speaks.".to_owned() } else { format!("Checks: {}.", says.join("; ")) }
    }

    /// The number of the oddest plot.
    fn odd_plot(&self) -> Option<u32> {
        let analysis = self.found.judged()?;
        let (at, _) = analysis.checks.odd?;
        analysis.residuals().get(at).map(|(number, _)| *number)
    }

    /// Position left over: what it means, and the differences that do not decide beside those that do.
    pub fn left_over(&self) -> Option<(String, Vec<String>)> {
        let analysis = self.found.judged()?;
        analysis.with_position.as_ref()?;
        if let Some(with) = self.found.with_position() {
            let said =
                "Plots differ along the bench beyond the design. The design decides; with the place on the bench:";
            return Some((said.to_owned(), self.listed(&with)));
        }
        let plain = self.found.compared(analysis.comparisons.as_ref()?.against)?;
        let said = "Plots differ along the bench, and the design did not take that up. Without the place on the bench:";
        Some((said.to_owned(), self.listed(&plain)))
    }

    /// The verdict without the odd plot, where one is named.
    pub fn without_odd(&self) -> Option<String> {
        let (number, without) = self.found.verdict_without_odd()?;
        let pairs = |of: &Verdict| {
            let mut pairs: Vec<_> = of.told.iter().map(crate::report::trial::Told::pair).collect();
            pairs.sort_unstable();
            pairs
        };
        let same = self.found.verdict().is_some_and(|with| pairs(&with) == pairs(&without));
        let told = if same { "the same pairs are told apart: " } else { "other pairs are told apart: " };
        let said = self.listed(&without).join(" ");
        Some(format!("Without plot {number} {told}{said}"))
    }

    /// A verdict in sentences.
    fn listed(&self, of: &Verdict) -> Vec<String> {
        let mut all = Vec::new();
        if of.told.is_empty() {
            all.push("no treatment is told apart.".to_owned());
        } else {
            all.push(format!("{}.", self.told(of).join("; ")));
            all.extend(self.untold(of).map(|untold| format!("{untold}.")));
        }
        all
    }
}
