//! A layout on real places: which benches, rows and columns make a block, and which treatment was drawn for each place.
//!
//! Blocks are compact stretches across the way in which the places differ, so that a gradient lies between blocks and not within one.

mod stretches;

pub use stretches::NotCompact;

use super::{completely_randomized, latin_square, randomized_blocks};
use crate::record::{Plot, Revision};
use crate::stats::Draw;
use crate::terms::Design;
use stretches::{At, Ground, blocks};
use uuid::Uuid;

/// Fewest and most treatments of a Latin square: with fewer too little is left to judge by, more are rarely laid (house rule).
pub const SQUARES: std::ops::RangeInclusive<usize> = 3..=8;
/// Most plots of one trial (house rule).
pub const MOST_PLOTS: usize = 1_000;

/// Which way the places differ most; blocks lie across it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Differ {
    /// Not known: taken to be along the longer side of the bench.
    Unknown,
    /// From row to row.
    Rows,
    /// From column to column.
    Columns,
    /// From bench to bench.
    Benches,
    /// From house to house.
    Houses,
}

/// A bench that places are taken from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stand {
    /// Its code.
    pub bench: String,
    /// The house it stands in.
    pub house: String,
}

/// A layout that is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// The code of the trial, which is part of the draw.
    pub trial: String,
    /// The treatments by name.
    pub treatments: Vec<String>,
    /// How often each stands in a block; as many as there are treatments.
    pub shares: Vec<usize>,
    /// How the plots get their places.
    pub design: Design,
    /// The number it is drawn with, 8 digits.
    pub seed: String,
    /// The benches in walking order.
    pub benches: Vec<Stand>,
    /// Rows of places on each bench; 1 row of 1 column where a whole bench is one plot.
    pub rows: u32,
    /// Columns of places on each bench.
    pub columns: u32,
    /// Blocks, or plots of each treatment where there are none.
    pub blocks: usize,
    /// Which way the places differ most.
    pub differ: Differ,
    /// Pots of each plot.
    pub pots: u32,
}

/// Why a layout cannot be laid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotLaid {
    /// The plots are not as many as the places.
    Places {
        /// Plots wanted.
        plots: usize,
        /// Places there are.
        places: usize,
        /// Plots of one block, or of all treatments once.
        block: usize,
    },
    /// The plots of a block have no compact stretch of their own.
    Block(NotCompact),
    /// A Latin square of so many treatments needs as many rows and columns on one bench, and as many of them as [`SQUARES`] says.
    Square(usize),
    /// Each treatment would stand once.
    Once,
    /// Each treatment would have one bench.
    OwnBench,
    /// A treatment stands more often than another, which is made in blocks only.
    Shares,
    /// A layout that is not drawn cannot be drawn.
    NotDrawn,
    /// More plots than one trial may have.
    Many(usize),
}

/// The 8 digits that a new id gives to draw a layout with.
pub fn seed_of(id: Uuid) -> String {
    format!("{:08}", id.as_u128() % 100_000_000)
}

/// What a trial asks, where nobody said it; it names no treatment, so that readers may see it.
pub fn question_of(treatments: usize, rate_unit: Option<&str>) -> String {
    rate_unit.map_or_else(|| format!("comparison of {treatments} treatments"), |unit| format!("rates in {unit}"))
}

/// Draws a layout; plots are numbered in walking order, which goes up one row and down the next.
///
/// The draw deals treatments to places row by row, then by column: the same seed gives the same layout whatever way it is walked.
///
/// # Errors
/// Why it cannot be laid.
///
/// ```
/// use benchwalk::terms::Design;
/// use benchwalk::trials::{Differ, Stand, Wanted, place};
///
/// let wanted = Wanted {
///     trial: "T1".to_owned(),
///     treatments: ["0 g", "4 g", "8 g", "12 g"].map(str::to_owned).to_vec(),
///     shares: vec![1; 4],
///     design: Design::RandomizedBlocks,
///     seed: "48213907".to_owned(),
///     benches: vec![Stand { bench: "M4".to_owned(), house: "Mill".to_owned() }],
///     rows: 6,
///     columns: 4,
///     blocks: 6,
///     differ: Differ::Rows,
///     pots: 1,
/// };
/// let plots = place(&wanted).unwrap();
/// assert_eq!((plots.len(), plots[0].treatment.as_str(), plots[0].block), (24, "4 g", Some(1)));
/// // The second row is walked back: plot 5 stands in its last column.
/// assert_eq!((plots[4].row, plots[4].column), (2, 4));
/// ```
pub fn place(wanted: &Wanted) -> Result<Vec<Plot>, NotLaid> {
    let once: usize = wanted.shares.iter().sum();
    let plots = once.saturating_mul(wanted.blocks);
    if wanted.blocks < 2 {
        return Err(if wanted.is_of_whole_benches() { NotLaid::OwnBench } else { NotLaid::Once });
    }
    if plots > MOST_PLOTS {
        return Err(NotLaid::Many(plots));
    }
    let places = wanted.ground().places();
    if wanted.design != Design::LatinSquare && (plots != places.len() || plots == 0) {
        return Err(NotLaid::Places { plots, places: places.len(), block: once });
    }
    let mut draw = Draw::new(&wanted.trial, &wanted.seed, "layout");
    let dealt = match wanted.design {
        Design::RandomizedBlocks => in_blocks(wanted, once, &mut draw)?,
        Design::CompletelyRandomized => anywhere(wanted, places, &mut draw)?,
        Design::LatinSquare => in_a_square(wanted, places, &mut draw)?,
        Design::AsLaid => return Err(NotLaid::NotDrawn),
    };
    Ok(numbered(wanted, dealt))
}

impl Wanted {
    /// True where a whole bench is one plot.
    pub const fn is_of_whole_benches(&self) -> bool {
        self.rows == 1 && self.columns == 1
    }

    fn ground(&self) -> Ground<'_> {
        Ground { benches: &self.benches, rows: self.rows, columns: self.columns }
    }
}

/// A place with its block and the treatment dealt to it.
type Dealt = (At, Option<u32>, usize);

fn in_blocks(wanted: &Wanted, once: usize, draw: &mut Draw) -> Result<Vec<Dealt>, NotLaid> {
    let blocks = blocks(&wanted.ground(), once, wanted.differ).map_err(NotLaid::Block)?;
    let drawn = randomized_blocks(&wanted.shares, blocks.len(), draw);
    let all = (1..).zip(blocks.into_iter().zip(drawn));
    Ok(all
        .flat_map(|(block, (places, drawn))| places.into_iter().zip(drawn).map(move |(at, t)| (at, Some(block), t)))
        .collect())
}

fn anywhere(wanted: &Wanted, places: Vec<At>, draw: &mut Draw) -> Result<Vec<Dealt>, NotLaid> {
    if wanted.shares.iter().any(|share| *share != 1) {
        return Err(NotLaid::Shares);
    }
    let drawn = completely_randomized(wanted.treatments.len(), wanted.blocks, draw);
    Ok(places.into_iter().zip(drawn).map(|(at, t)| (at, None, t)).collect())
}

fn in_a_square(wanted: &Wanted, places: Vec<At>, draw: &mut Draw) -> Result<Vec<Dealt>, NotLaid> {
    let size = wanted.treatments.len();
    if wanted.shares.iter().any(|share| *share != 1) {
        return Err(NotLaid::Shares);
    }
    let side = |n: u32| usize::try_from(n).is_ok_and(|n| n == size);
    let fits = wanted.benches.len() == 1 && side(wanted.rows) && side(wanted.columns) && wanted.blocks == size;
    if !fits || !SQUARES.contains(&size) {
        return Err(NotLaid::Square(size));
    }
    let drawn = latin_square(size, draw).concat();
    Ok(places.into_iter().zip(drawn).map(|(at, t)| (at, None, t)).collect())
}

/// The plots, numbered as they are walked: bench by bench, one row up and the next one down.
fn numbered(wanted: &Wanted, mut dealt: Vec<Dealt>) -> Vec<Plot> {
    let walked = |at: &At| {
        let along = if at.row.is_multiple_of(2) { wanted.columns.saturating_sub(at.column) } else { at.column };
        (at.bench, at.row, along)
    };
    dealt.sort_by_key(|(at, ..)| walked(at));
    let plot = |(number, (at, block, treatment)): (u32, Dealt)| {
        Some(Plot {
            plot: format!("{}.{number}", wanted.trial),
            trial: wanted.trial.clone(),
            bench: wanted.benches.get(at.bench)?.bench.clone(),
            row: at.row,
            column: at.column,
            block,
            treatment: wanted.treatments.get(treatment)?.clone(),
            pots: wanted.pots,
            revision: Revision::default(),
        })
    };
    (1..).zip(dealt).filter_map(plot).collect()
}

#[cfg(test)]
mod tests;
