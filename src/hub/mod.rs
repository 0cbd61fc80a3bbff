//! PostgreSQL as a carrier: the only user of its library.
