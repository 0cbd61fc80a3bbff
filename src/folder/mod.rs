//! A folder or stick as a carrier: pieces of streams that are ordinary journals with a checked end.
