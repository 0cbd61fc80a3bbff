//! Slow-release topdress: what the pots need in all, and the nitrogen it brings.

use super::words::{mass, off};
use super::{Asked, Page, Refused, refuse};
use crate::crop::feed::{self, Fraction, Scale, Topdress, TopdressAnswer, Weighed, weigh};
use crate::crop::growth_regulator::Caution;
use crate::report::cautions::{Work, cautions};
use crate::units::{Mass, System, plain};

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Ask {
    /// Fertilizer a pot.
    pub per_pot: Mass,
    /// Pots.
    pub pots: u32,
    /// Share of N in the fertilizer, where it is known.
    pub nitrogen: Option<Fraction>,
    /// The step of the scale.
    pub scale: Mass,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct Answer {
    ask: Ask,
    /// What it comes to; its nitrogen counts only where the share was given.
    pub comes_to: TopdressAnswer,
    /// All of it to the step of the scale.
    pub weighed: Weighed,
    /// What is said with it.
    pub cautions: Vec<Caution>,
}

/// Reckons it.
///
/// # Errors
/// [`Refused`] for a weight or a number of pots that cannot be.
pub fn reckon(ask: Ask) -> Result<Answer, Refused> {
    if ask.per_pot.g() <= 0.0 {
        return Err(refuse(Asked::Grams)("0 g is nothing; type what a pot is to get"));
    }
    if ask.pots == 0 {
        return Err(refuse(Asked::Pots)("0 pots; type how many there are"));
    }
    // The weight of the whole does not hang on the nitrogen; any share does where none is known.
    let nitrogen = ask.nitrogen.map_or_else(|| Fraction::from_percent(1.0), Ok).map_err(refuse(Asked::Percent))?;
    let asked = Topdress { per_pot: ask.per_pot, pots: ask.pots, nitrogen };
    let comes_to = feed::topdress(asked).map_err(refuse(Asked::Grams))?;
    let scale = Scale::steps_of(ask.scale).map_err(refuse(Asked::Scale))?;
    let weighed = weigh(comes_to.total, scale).map_err(refuse(Asked::Grams))?;
    Ok(Answer { ask, comes_to, weighed, cautions: cautions(Work::Fertilizer).to_vec() })
}

impl Answer {
    /// To read.
    pub fn page(&self, units: System) -> Page {
        let (ask, comes_to) = (&self.ask, &self.comes_to);
        let mut page = Page::default();
        page.line(format!("Topdress: {} pots at {} a pot", ask.pots, mass(units, ask.per_pot)));
        page.item("weigh", mass(units, comes_to.total));
        let step = plain(self.weighed.weigh.g());
        let makes = plain(ask.per_pot.g() * (1.0 + self.weighed.off));
        page.item("to a step", format!("{step} g, which makes {makes} g a pot ({})", off(self.weighed.off)));
        page.item(
            "reckoned",
            format!("g = g a pot x pots = {} x {} = {}", plain(ask.per_pot.g()), ask.pots, plain(comes_to.total.g())),
        );
        match ask.nitrogen {
            Some(share) => {
                let mg = comes_to.nitrogen_per_pot.g() * 1000.0;
                page.item("a pot gets", format!("{} mg of N ({} %)", plain(mg), plain(share.share() * 100.0)));
                page.item(
                    "against need",
                    format!(
                        "{} times what a plant takes up in 15 weeks (authors from memory: Whipker and Hammer 1997; the mean is \
                         ours)",
                        plain(comes_to.times_uptake)
                    ),
                );
            }
            None => page.item("a pot gets", "type the bag's percent of N to see the nitrogen"),
        }
        page.item("usual", "no published rate a pot was found for poinsettia; the bag's rate decides");
        page.cautions(&self.cautions);
        page
    }
}
