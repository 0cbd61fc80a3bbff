//! The one check of new lines, however they come in: the rules of their own fields, then the rules across lines.
//!
//! The screens record through it (`model`), and so does `import`: a bad line is refused in the same words everywhere.

use super::{Season, SeasonFault};
use crate::record::{Line, rules};
use crate::units::System;

impl Season {
    /// Checks new lines: each by the rules of its own fields, with ranges in the units of `system`, then all of them together
    /// with what is kept.
    ///
    /// # Errors
    /// Every fault, by line. Rules across lines are tried only on lines that are good in themselves.
    pub fn admit(&self, new: &[Line], system: System) -> Result<(), Vec<SeasonFault>> {
        self.admit_each(&new.iter().collect::<Vec<_>>(), system)
    }

    /// [`Season::admit`] of lines that lie apart.
    ///
    /// # Errors
    /// As there.
    pub fn admit_each(&self, new: &[&Line], system: System) -> Result<(), Vec<SeasonFault>> {
        let own = new.iter().enumerate().flat_map(|(index, line)| {
            rules::check_line_in(line, system).into_iter().map(move |fault| SeasonFault {
                index,
                field: (!fault.field.is_empty()).then_some(fault.field),
                text: fault.text,
            })
        });
        let mut faults: Vec<SeasonFault> = own.collect();
        if faults.is_empty() {
            faults = self.check_each(new);
        }
        if faults.is_empty() { Ok(()) } else { Err(faults) }
    }
}
