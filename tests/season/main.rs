//! How a season reads its record: strikes, moves, pots standing, house and lot entries, keep-out, rules across lines.
//!
//! The expectations come from the journal's rules ("house rule"): there is nothing outside to hold them against.

#[cfg(test)]
mod check;
#[cfg(test)]
mod history;
#[cfg(test)]
mod keep_out;
#[cfg(test)]
mod make;
#[cfg(test)]
mod pots;
#[cfg(test)]
mod property;
