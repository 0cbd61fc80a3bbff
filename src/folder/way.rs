//! Which pieces of a stream make up its lines from the first on.

use super::name::Name;
use crate::exchange::Chain;
use std::collections::HashMap;

/// A piece with a right end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) name: Name,
    /// The chain before its first line.
    pub(super) before: Chain,
    /// The chain up to its last line.
    pub(super) chain: Chain,
}

/// How far the pieces after a line reach, and the next of them.
struct Reach<'a> {
    last: u64,
    chain: Chain,
    next: &'a Found,
}

/// The pieces that follow one another from the first line on and reach furthest; of two ways the same on every laptop, whatever the
/// order in which the folder lists them.
pub(super) fn way(pieces: &[Found]) -> Vec<Found> {
    let mut sorted: Vec<&Found> = pieces.iter().collect();
    // The last pieces first, so that what follows a piece is known before it is looked at.
    sorted.sort_by(|a, b| b.name.cmp(&a.name));
    let mut best: HashMap<(u64, Chain), Reach<'_>> = HashMap::new();
    for piece in sorted {
        let (last, chain) = match best.get(&(piece.name.last, piece.chain)) {
            Some(on) => (on.last, on.chain),
            None => (piece.name.last, piece.chain),
        };
        let here = Reach { last, chain, next: piece };
        let place = (piece.name.first.saturating_sub(1), piece.before);
        let old = best.get(&place).map(order);
        if old.is_none_or(|old| old < order(&here)) {
            best.insert(place, here);
        }
    }
    let mut way = Vec::new();
    let mut at = (0, Chain::START);
    while let Some(reach) = best.get(&at) {
        at = (reach.next.name.last, reach.next.chain);
        way.push(reach.next.clone());
    }
    way
}

/// The furthest first, then the greater chain, then the longer piece, then the smaller name.
fn order<'a>(reach: &Reach<'a>) -> (u64, Vec<u8>, u64, std::cmp::Reverse<&'a Name>) {
    (reach.last, reach.chain.as_bytes().to_vec(), reach.next.name.last, std::cmp::Reverse(&reach.next.name))
}

#[cfg(test)]
mod tests {
    use super::super::name::Writer;
    use super::*;
    use crate::exchange::Stream;
    use uuid::Uuid;

    /// A stream whose line n is `n`, and from a line on `n` with a letter.
    fn chain(last: u64, other_from: u64) -> Chain {
        (1..=last).fold(Chain::START, |chain, n| chain.link(&format!("{n}{}", if n >= other_from { "x" } else { "" })))
    }

    fn found(first: u64, last: u64, writer: u128, other_from: u64) -> Found {
        let writer = Writer::of(Stream(Uuid::from_u128(writer << 96)));
        let name = Name { stream: Stream(Uuid::from_u128(1)), first, last, writer };
        Found { name, before: chain(first - 1, other_from), chain: chain(last, other_from) }
    }

    fn ways(mut pieces: Vec<Found>) -> Vec<(u64, u64)> {
        let one = way(&pieces);
        pieces.reverse();
        assert_eq!(one, way(&pieces), "whatever the order");
        one.iter().map(|piece| (piece.name.first, piece.name.last)).collect()
    }

    #[test]
    fn the_pieces_that_reach_furthest_follow_one_another() {
        let whole = u64::MAX;
        let f = |first, last| found(first, last, 1, whole);
        assert_eq!(ways(vec![]), []);
        assert_eq!(ways(vec![f(1, 10), f(11, 30)]), [(1, 10), (11, 30)]);
        assert_eq!(ways(vec![f(1, 10), f(1, 20), f(11, 15)]), [(1, 20)]);
        assert_eq!(ways(vec![f(1, 10), f(1, 20), f(11, 25)]), [(1, 10), (11, 25)]);
        assert_eq!(ways(vec![f(2, 10)]), []);
        assert_eq!(ways(vec![f(1, 10), f(12, 20)]), [(1, 10)]);
        // What another laptop wrote in another way counts where it follows and reaches further.
        assert_eq!(ways(vec![f(1, 10), f(11, 20), found(11, 25, 2, 8)]), [(1, 10), (11, 20)]);
        assert_eq!(ways(vec![f(1, 10), f(11, 20), found(11, 25, 2, 11)]), [(1, 10), (11, 25)]);
        assert_eq!(ways(vec![f(1, 20), found(1, 20, 2, whole)]), [(1, 20)]);
    }
}
