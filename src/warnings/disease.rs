//! `powdery-mildew`, `gray-mold` and `scab`: signs on leaves that point at a disease, while they speak (7 days, or until a look
//! without them). All act.
//!
//! - **powdery-mildew**: white powder (Cornell 2016 and 2023). - **gray-mold**: gray fuzz (Georgia 2023, Maryland).
//! - **scab**: raised spots together with one stem stretched (NC State 2012, Purdue 2013): either alone has look-alikes.

use super::bench_day::BenchDay;
use super::builder::of_bench;
use super::{Basis, Level, Warning, WarningName};
use crate::record::LeafSign;

const MILDEW: Basis = Basis::Published("Cornell 2016 and 2023, powdery mildew on poinsettia");
const GRAY: Basis = Basis::Published("University of Georgia 2023; University of Maryland: gray mold");
const SCAB: Basis = Basis::Published("NC State 2012, Purdue 2013: scab spots and a stretched stem");

pub(super) fn mildew(bench: &BenchDay<'_>) -> Option<Warning> {
    one(bench, WarningName::PowderyMildew, LeafSign::WhitePowder).map(|w| w.on(MILDEW))
}

pub(super) fn gray_mold(bench: &BenchDay<'_>) -> Option<Warning> {
    one(bench, WarningName::GrayMold, LeafSign::GrayFuzz).map(|w| w.on(GRAY))
}

fn one(bench: &BenchDay<'_>, name: WarningName, sign: LeafSign) -> Option<Warning> {
    let seen = bench.sign(sign)?;
    Some(of_bench(bench, name, Level::Act, bench.sign_since(sign, seen)).saw(seen))
}

pub(super) fn scab(bench: &BenchDay<'_>) -> Option<Warning> {
    let (spots, stem) = (bench.sign(LeafSign::RaisedSpots)?, bench.sign(LeafSign::Stretched)?);
    let since = spots.day().max(stem.day());
    let warning = of_bench(bench, WarningName::Scab, Level::Act, since).saw(spots);
    Some(if spots.id == stem.id { warning } else { warning.saw(stem) }.on(SCAB))
}
