//! Every threshold of the rules from both sides, each case with the basis it goes by; how the record is read; and that a
//! season replayed day by day says what opening it on that day says.

#[cfg(test)]
mod crop;
#[cfg(test)]
mod edges;

#[cfg(test)]
mod feed;
#[cfg(test)]
mod growth;
#[cfg(test)]
mod light;
#[cfg(test)]
mod pests;
#[cfg(test)]
mod reading;
#[cfg(test)]
mod replay;
#[cfg(test)]
mod round;
#[cfg(test)]
#[cfg(test)]
mod water;
