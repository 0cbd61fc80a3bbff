//! Trials on the benches: how surely treatments are told apart, and what is left to judge by.

use super::table::{Basis, limits};

/// Mead 1988, the resource equation: 10 to 20 degrees of freedom for the rest.
const RESOURCE: Basis = Basis::FromMemory;

limits!(
    /// Trials on the benches.
    Trial = trial {
        alpha: f64 = 0.05, 0.001..0.2, "share of trials", Basis::CommonPractice, "a difference may be found where there is none this often (statistical convention); intervals are of 1 less this";
        power: f64 = 0.8, 0.5..0.99, "share of trials", Basis::CommonPractice, "a difference that matters is to be found this often (statistical convention)";
        shuffles: u32 = 9999, 99..1_000_000, "times", Basis::CommonPractice, "treatments are dealt again this often, to see what the draw alone would have shown";
        least_error_df: u32 = 4, 1..100, "degrees of freedom", Basis::HouseRule, "with fewer left for the rest, means are shown without intervals";
        good_error_df: u32 = 10, 1..100, "degrees of freedom", RESOURCE, "with fewer left for the rest, only big differences can show; a trial is planned with as many";
    }
);
