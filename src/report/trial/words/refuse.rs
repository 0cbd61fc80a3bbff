//! Why nothing is separated, and what must be said beside a judgment.

use super::{Words, plots};
use crate::dates;
use crate::trials::{Caution, Over, Refused};

impl Words<'_> {
    /// Why nothing is separated; `None` where something is.
    pub fn refused(&self) -> Option<String> {
        Some(match self.found.refused()? {
            Refused::Once => {
                "Each treatment stands once: this is a demonstration. It cannot separate treatment from position; the \
                              readings are shown, nothing is told apart."
                    .to_owned()
            }
            Refused::OwnBench => {
                "Each treatment has its own bench. The pots on a bench are subsamples: bench and treatment cannot be \
                                  told apart. Two benches per treatment are the least, four are fair."
                    .to_owned()
            }
            Refused::Together(treatment) => format!(
                "Treatment and position run together here{}. Their difference cannot be separated.",
                self.only_there(*treatment)
            ),
            Refused::FewLeft(df) => {
                let degrees = if *df == 1 { "degree of freedom is" } else { "degrees of freedom are" };
                let df = if *df == 0 { "No".to_owned() } else { format!("Only {df}") };
                format!("{df} {degrees} left for the rest: no intervals. Means are shown.")
            }
            Refused::NoSpread => "All readings of a treatment are equal: nothing to judge by.".to_owned(),
            Refused::NotRead(missing, living) => {
                let are = if *missing == 1 { "is" } else { "are" };
                format!("{missing} of {} {are} not read{}{}.", plots(*living), self.on_the_day(), self.last_full())
            }
            Refused::Thin(treatment) => {
                format!("Fewer than 2 plots are read {}{}{}.", self.at(*treatment), self.on_the_day(), self.last_full())
            }
        })
    }

    fn on_the_day(&self) -> String {
        match self.found.over {
            Over::Day(_) => {
                let (first, last) = self.found.span();
                format!(" on {}", dates::range(first, last))
            }
            Over::Growth => " on three days".to_owned(),
        }
    }

    /// The last day read in full before the one shown, where there is one.
    fn last_full(&self) -> String {
        let Over::Day(day) = self.found.over else { return String::new() };
        let days = self.found.readings.days(self.found.reading);
        let full = days.iter().rev().find(|of| of.day != day && of.is_full());
        full.map_or_else(String::new, |full| format!("; the last day read in full is {}", dates::short(full.day)))
    }

    /// ` (8 g stands only in block 2)`, where that is why.
    fn only_there(&self, treatment: usize) -> String {
        let Some(data) = &self.found.data else { return String::new() };
        let only = |of: &dyn Fn(&crate::trials::Plot) -> Option<u32>| {
            let mut places =
                data.plots.iter().filter(|plot| plot.treatment == treatment && plot.value.is_some()).map(of);
            let first = places.next().flatten()?;
            places.all(|place| place == Some(first)).then_some(first)
        };
        let places = [
            ("block", only(&|plot| plot.block)),
            ("row", only(&|plot| Some(plot.row))),
            ("column", only(&|plot| Some(plot.column))),
        ];
        places.into_iter().find_map(|(word, place)| Some((word, place?))).map_or_else(String::new, |(word, place)| {
            format!(" ({} stands only in {word} {place})", self.treatment(treatment))
        })
    }

    /// All that is said beside a judgment, a sentence each; also that a trial ended early, and what is not logged as given.
    pub fn cautions(&self) -> Vec<String> {
        let said = self.found.cautions.iter().map(|caution| self.caution(caution));
        said.chain(self.ended()).chain(self.not_given()).collect()
    }

    /// One caution.
    pub fn caution(&self, caution: &Caution) -> String {
        match caution {
            Caution::FewDegrees(df) => format!("Few degrees of freedom ({df}): only big differences can show."),
            Caution::NotDrawn => {
                "Not drawn by lot: someone chose the places. The intervals hold only if places were as good as drawn."
                    .to_owned()
            }
            Caution::Lost(counts) => self.lost(counts),
            Caution::Benches => {
                "Every bench has one treatment: the benches are compared, the pots on a bench are subsamples."
                    .to_owned()
            }
            Caution::Moved(day) => {
                format!("Pots were moved on {}: blocks before and after are not the same places.", dates::short(*day))
            }
            Caution::SharedFeed => "Feed runs together on this bench: rates cannot differ from pot to pot.".to_owned(),
            Caution::Readings(count) => {
                format!("{count} readings were compared; about 1 in 20 would show a difference by chance.")
            }
        }
    }

    /// `3 plots lost, 2 of them at 12 g. If the treatment killed them, the means flatter it.`
    fn lost(&self, counts: &[usize]) -> String {
        let all: usize = counts.iter().sum();
        let of: Vec<(usize, usize)> = counts.iter().copied().enumerate().filter(|(_, count)| *count > 0).collect();
        let by = match of.as_slice() {
            [(only, _)] => self.at(*only),
            several => {
                let parts = several.iter().enumerate().map(|(at, (treatment, count))| {
                    format!("{count}{} {}", if at == 0 { " of them" } else { "" }, self.at(*treatment))
                });
                parts.collect::<Vec<_>>().join(", ")
            }
        };
        let them = if all == 1 { "it" } else { "them" };
        let comma = if of.len() > 1 { "," } else { "" };
        format!("{} lost{comma} {by}. If the treatment killed {them}, the means flatter it.", plots(all))
    }
}
