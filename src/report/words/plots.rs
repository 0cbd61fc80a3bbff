//! How many plots of a trial are to be read, in words.

use crate::trials::DueOn;

/// `24 plots`.
pub fn plots(count: usize) -> String {
    if count == 1 { "1 plot".to_owned() } else { format!("{count} plots") }
}

/// `T1: 24 plots due`.
pub fn plots_due(due: &DueOn) -> String {
    format!("{}: {} due", due.trial, plots(due.plots()))
}
