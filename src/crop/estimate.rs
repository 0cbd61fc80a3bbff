//! Ranges with a likely value.

use super::CropError;
use chrono::NaiveDate;

/// The least, the usual and the most a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<T> {
    /// The least (or first).
    pub low: T,
    /// The one to plan by.
    pub likely: T,
    /// The most (or last).
    pub high: T,
}

/// A range of days, first and last, with the one to plan by.
pub type Days = Estimate<NaiveDate>;

impl<T> Estimate<T> {
    /// From its three numbers; the caller brings them in order.
    pub const fn new(low: T, likely: T, high: T) -> Self {
        Self { low, likely, high }
    }

    /// The same range with each of its numbers made into something else.
    ///
    /// # Errors
    /// The first that `make` gives.
    pub fn try_map<U>(self, mut make: impl FnMut(T) -> Result<U, CropError>) -> Result<Estimate<U>, CropError> {
        Ok(Estimate { low: make(self.low)?, likely: make(self.likely)?, high: make(self.high)? })
    }
}
