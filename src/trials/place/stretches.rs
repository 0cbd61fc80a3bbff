//! Places in blocks: compact stretches across the way in which the places differ.

use super::{Differ, Stand};

/// A place: a bench by its place in the walk, a row and a column on it from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct At {
    pub(super) bench: usize,
    pub(super) row: u32,
    pub(super) column: u32,
}

/// The benches and how many places each has.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ground<'a> {
    pub(super) benches: &'a [Stand],
    pub(super) rows: u32,
    pub(super) columns: u32,
}

/// Why the plots of a block have no compact stretch of their own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotCompact {
    /// Blocks would lie over parts of two benches.
    Benches {
        /// Plots of one block.
        block: usize,
        /// Places of one bench.
        places: usize,
    },
    /// Blocks would lie over two houses.
    House {
        /// The house.
        house: String,
        /// Plots of one block.
        block: usize,
        /// Its places.
        places: usize,
    },
}

impl Ground<'_> {
    /// Every place: bench by bench, row by row, then by column.
    pub(super) fn places(&self) -> Vec<At> {
        (0..self.benches.len()).flat_map(|bench| self.of_bench(bench)).collect()
    }

    fn of_bench(&self, bench: usize) -> Vec<At> {
        (1..=self.rows).flat_map(|row| (1..=self.columns).map(move |column| At { bench, row, column })).collect()
    }

    /// The places of a bench as they are passed along the way in which it differs, back and forth, so that any run of them is one stretch.
    fn along(&self, bench: usize, differ: Differ) -> Vec<At> {
        let by_row = match differ {
            Differ::Rows => true,
            Differ::Columns => false,
            // A gradient runs along a bench more often than across it (common practice, no source).
            Differ::Unknown | Differ::Benches | Differ::Houses => self.rows >= self.columns,
        };
        let mut places = self.of_bench(bench);
        let turned = |line: u32, along: u32, most: u32| {
            (line, if line.is_multiple_of(2) { most.saturating_sub(along) } else { along })
        };
        places.sort_by_key(|at| {
            if by_row { turned(at.row, at.column, self.columns) } else { turned(at.column, at.row, self.rows) }
        });
        places
    }
}

/// The places of each block, row by row and then by column: the order in which treatments are dealt.
pub(super) fn blocks(ground: &Ground<'_>, block: usize, differ: Differ) -> Result<Vec<Vec<At>>, NotCompact> {
    let mut all = Vec::new();
    for (house, benches) in groups(ground, differ) {
        let runs: Vec<Vec<At>> = benches.iter().map(|bench| ground.along(*bench, differ)).collect();
        let each = runs.first().map_or(0, Vec::len);
        let places = each.saturating_mul(benches.len());
        if let Some(house) = house.filter(|_| block == 0 || !places.is_multiple_of(block)) {
            return Err(NotCompact::House { house, block, places });
        }
        let whole = each.is_multiple_of(block) || block.is_multiple_of(each);
        if block == 0 || each == 0 || !whole || !places.is_multiple_of(block) {
            return Err(NotCompact::Benches { block, places: each });
        }
        all.extend(runs.concat().chunks(block).map(<[At]>::to_vec));
    }
    for places in &mut all {
        places.sort_unstable();
    }
    Ok(all)
}

/// Benches that a block may lie over: those of one house where houses differ, else all; a house is named where it bounds its blocks.
fn groups(ground: &Ground<'_>, differ: Differ) -> Vec<(Option<String>, Vec<usize>)> {
    if differ != Differ::Houses {
        return vec![(None, (0..ground.benches.len()).collect())];
    }
    let mut houses: Vec<(Option<String>, Vec<usize>)> = Vec::new();
    for (at, stand) in ground.benches.iter().enumerate() {
        match houses.iter_mut().find(|(house, _)| house.as_deref() == Some(stand.house.as_str())) {
            Some((_, benches)) => benches.push(at),
            None => houses.push((Some(stand.house.clone()), vec![at])),
        }
    }
    houses
}
