//! The journal, in and out: what is read is what was meant, and what is wrong is named.

mod cases;
