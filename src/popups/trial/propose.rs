//! What the form proposes: the design and why, how many blocks, the layout itself.

use super::rows::F;
use super::{State, read};
use crate::model::Model;
use crate::record::Plot;
use crate::report::trial::laying::not_laid;
use crate::terms::{Design, Term};
use crate::trials::{Against, Differ, Planned, Rules, SQUARES, Wanted, WhichWay, place, planned, which_way};
use std::collections::BTreeSet;

/// What a calculation of blocks goes by.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Asked {
    design: Design,
    treatments: usize,
    sd: f64,
    matters: f64,
    against: Against,
}

/// How many blocks show what matters, with what it was calculated from.
#[derive(Debug, Clone, Default)]
pub(super) struct HowMany {
    asked: Option<Asked>,
    /// `None` where even a hundred do not show it.
    pub(super) rows: Option<(Vec<Planned>, usize)>,
}

impl HowMany {
    /// True where it was calculated.
    pub(super) const fn is_known(&self) -> bool {
        self.asked.is_some()
    }

    /// Calculates it again where something it goes by has changed: slower than a key, so only between fields.
    pub(super) fn renew(&mut self, asked: Option<Asked>, rules: Rules) {
        if self.asked == asked {
            return;
        }
        self.rows = asked.as_ref().and_then(|asked| {
            let Asked { design, treatments, sd, matters, against } = *asked;
            planned((design, treatments), (sd, matters), against, rules)
        });
        self.asked = asked;
    }
}

/// What blocks would be calculated from; `None` where spread or difference are not known, or a square gives their number.
pub(super) fn asked(state: &State, model: &Model) -> Option<Asked> {
    let treatments = read::treatments(state).ok()?;
    let design = design(state).filter(|design| *design != Design::LatinSquare)?;
    let sd = read::amount(state, model, F::Spread).ok()??;
    let matters = read::amount(state, model, F::Matters).ok()??;
    let control = !state.text(F::Control).trim().is_empty() && treatments.rates.is_none();
    let against = if control { Against::Control } else { Against::All };
    Some(Asked { design, treatments: treatments.names.len(), sd, matters, against })
}

/// What the grower's own heights say of the house and the lot of the trial.
pub(super) fn own_heights(state: &State, model: &Model) -> Option<WhichWay> {
    let benches = read::benches(state, model).ok()?;
    let house = benches.first()?.house.clone();
    which_way(&model.season, (&house, &state.text(F::Lot)), model.day)
}

/// The design picked.
pub(super) fn design(state: &State) -> Option<Design> {
    Design::from_code(&state.text(F::Design))
}

/// The design that is proposed, and why.
pub(super) fn proposed(state: &State, own: Option<&WhichWay>) -> (Design, &'static str) {
    let treatments = read::treatments(state).map(|t| t.names.len()).unwrap_or_default();
    let side = |n: u32| usize::try_from(n).is_ok_and(|n| n == treatments);
    let square = read::grid(state).is_ok_and(|(rows, columns)| side(rows) && side(columns));
    match state.text(F::Differ).as_str() {
        "both" if square && treatments > *SQUARES.start() && SQUARES.contains(&treatments) => {
            (Design::LatinSquare, "it differs both ways, and rows and columns are as many as treatments")
        }
        "both" => (Design::RandomizedBlocks, "it differs both ways: blocks take up the stronger one"),
        "none" if own.is_some_and(|own| !own.gradient.is_found()) => {
            (Design::CompletelyRandomized, "no difference is known, and your own heights show none")
        }
        "none" => (Design::RandomizedBlocks, "no heights of your own say that nothing differs; blocks cost little"),
        "unknown" => (Design::RandomizedBlocks, "which way growth differs is not known; blocks cost little"),
        _ => (Design::RandomizedBlocks, "growth differs one way: each block is a stretch across it"),
    }
}

/// Blocks that the places hold; 0 where they do not.
pub(super) fn room(state: &State, model: &Model) -> usize {
    let (Ok(benches), Ok((rows, columns))) = (read::benches(state, model), read::grid(state)) else { return 0 };
    let each = usize::try_from(rows.saturating_mul(columns)).unwrap_or_default();
    let once: usize = shares(state).iter().sum();
    benches.len().saturating_mul(each).checked_div(once).unwrap_or_default()
}

/// How often each treatment stands in a block.
fn shares(state: &State) -> Vec<usize> {
    let names = read::treatments(state).map(|t| t.names).unwrap_or_default();
    let control = state.text(F::Control);
    let times = read::whole(state, F::ControlPlots, 1).unwrap_or(1);
    names.iter().map(|name| if *name == control.trim() { times } else { 1 }).collect()
}

/// The layout wanted, on no more places than its plots need.
pub(super) fn wanted(state: &State, model: &Model) -> Result<Wanted, read::Fault> {
    let treatments = read::treatments(state)?.names;
    let benches = read::benches(state, model)?;
    let (rows, columns) = read::grid(state)?;
    let blocks = read::whole(state, F::Blocks, 0)?;
    let pots = u32::try_from(read::whole(state, F::Pots, 1)?).unwrap_or(1);
    read::whole(state, F::ControlPlots, 1)?;
    let design = design(state).unwrap_or(Design::RandomizedBlocks);
    let (trial, seed) = (state.text(F::Code).trim().to_owned(), state.seed.clone());
    let (shares, differ) = (shares(state), read::differ(state));
    Ok(trimmed(Wanted { trial, treatments, shares, design, seed, benches, rows, columns, blocks, differ, pots }))
}

/// Leaves out whole benches, then rows, then columns that no plot needs.
fn trimmed(wanted: Wanted) -> Wanted {
    let plots = wanted.shares.iter().sum::<usize>().saturating_mul(wanted.blocks);
    let count = |n: u32| usize::try_from(n).unwrap_or(usize::MAX);
    let (rows, columns) = (count(wanted.rows), count(wanted.columns));
    let spare =
        |n: usize, each: usize| plots.checked_div(each).filter(|need| need * each == plots && (1..n).contains(need));
    let houses = wanted.differ == Differ::Houses;
    let benches = wanted.benches.len();
    if plots >= benches.saturating_mul(rows).saturating_mul(columns) {
        return wanted;
    }
    if let Some(need) = spare(benches, rows.saturating_mul(columns)).filter(|_| !houses) {
        return Wanted { benches: wanted.benches.into_iter().take(need).collect(), ..wanted };
    }
    if let Some(need) = spare(rows, benches.saturating_mul(columns)).and_then(|n| u32::try_from(n).ok()) {
        return Wanted { rows: need, ..wanted };
    }
    if let Some(need) = spare(columns, benches.saturating_mul(rows)).and_then(|n| u32::try_from(n).ok()) {
        return Wanted { columns: need, ..wanted };
    }
    wanted
}

/// The plots as they are drawn now.
pub(super) fn laid(state: &State, model: &Model) -> Result<Vec<Plot>, read::Fault> {
    let wanted = wanted(state, model)?;
    let placed = place(&wanted).map_err(|why| (F::Blocks, not_laid(&why, &wanted)))?;
    let benches: BTreeSet<&String> = placed.iter().map(|plot| &plot.bench).collect();
    let standing = |bench: &&&String| {
        model.season.standing(bench, model.day).is_some_and(|standing| standing.lot != state.text(F::Lot))
    };
    match benches.iter().find(standing) {
        Some(other) => Err((F::Lot, format!("other pots stand on {other}; give its lot, or other benches"))),
        None => Ok(placed),
    }
}
