//! Ranges with a likely value.

use super::CropError;
use chrono::NaiveDate;

/// The least, the usual and the most a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<T> {
    /// The least (or first).
    pub low: T,
    /// The one to plan by.
    pub mid: T,
    /// The most (or last).
    pub high: T,
}

/// A range of days, first and last, with the one to plan by.
pub type Days = Span<NaiveDate>;

impl<T> Span<T> {
    /// From its three numbers; the caller brings them in order.
    pub const fn new(low: T, mid: T, high: T) -> Self {
        Self { low, mid, high }
    }

    /// The same range with each of its numbers made into something else.
    ///
    /// # Errors
    /// The first that `make` gives.
    pub fn try_map<U>(self, mut make: impl FnMut(T) -> Result<U, CropError>) -> Result<Span<U>, CropError> {
        Ok(Span { low: make(self.low)?, mid: make(self.mid)?, high: make(self.high)? })
    }
}
