//! Layouts drawn by lot. Treatments are numbers from 0 on, places stand in walking order: row by row, then by column.

use crate::stats::Draw;

/// Each treatment the same number of times, anywhere.
pub fn completely_randomized(treatments: usize, times: usize, draw: &mut Draw) -> Vec<usize> {
    let mut places: Vec<usize> = (0..times).flat_map(|_| 0..treatments).collect();
    draw.shuffle(&mut places);
    places
}

/// Every treatment in every block, each as often as its share says, in an order drawn for each block.
pub fn randomized_blocks(shares: &[usize], blocks: usize, draw: &mut Draw) -> Vec<Vec<usize>> {
    let most = shares.iter().copied().max().unwrap_or_default();
    // Round by round, so that equal shares are laid as one run of treatments after another before they are shuffled.
    let round =
        |n: usize| shares.iter().enumerate().filter(move |(_, share)| **share > n).map(|(treatment, _)| treatment);
    let block: Vec<usize> = (0..most).flat_map(round).collect();
    let drawn = |_| {
        let mut places = block.clone();
        draw.shuffle(&mut places);
        places
    };
    (0..blocks).map(drawn).collect()
}

/// A square in which every treatment stands once in every row and every column: rows, columns and letters of the cyclic square in
/// orders drawn by lot, which is a valid randomization (Bailey 2008, from memory).
pub fn latin_square(treatments: usize, draw: &mut Draw) -> Vec<Vec<usize>> {
    let mut order = || {
        let mut order: Vec<usize> = (0..treatments).collect();
        draw.shuffle(&mut order);
        order
    };
    let (rows, columns, letters) = (order(), order(), order());
    let letter = |at: usize| letters.get(at % treatments.max(1)).copied().unwrap_or_default();
    rows.iter().map(|r| columns.iter().map(|c| letter(r + c)).collect()).collect()
}
