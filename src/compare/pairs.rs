//! Which lot of last year stands beside which of this one.

use crate::record::Lot;
use crate::season::Season;

/// Two lots set beside each other by hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Match {
    /// The lot of last year.
    pub last: String,
    /// The lot of this year.
    pub this: String,
}

impl Match {
    /// Reads `R6=R7`: last year's lot, then this year's.
    ///
    /// # Errors
    /// What would be right, in words.
    pub fn parse(text: &str) -> Result<Self, String> {
        let codes = text.split_once('=').map(|(last, this)| (last.trim().to_owned(), this.trim().to_owned()));
        let whole = codes.filter(|(last, this)| !last.is_empty() && !this.is_empty() && !this.contains('='));
        whole
            .map(|(last, this)| Self { last, this })
            .ok_or_else(|| format!("'{text}' is not two lots; give last year's lot, =, this year's, such as R6=R8"))
    }
}

/// How two lots came to stand beside each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// By hand.
    Hand,
    /// By cultivar and container.
    CultivarAndContainer,
}

/// A lot of this year, and the one of last year beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pair {
    /// This year's lot.
    pub this: String,
    /// Last year's lot; `None` where none fits.
    pub last: Option<(String, By)>,
}

/// All lots of both years.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Pairs {
    /// This year's lots, by code.
    pub pairs: Vec<Pair>,
    /// Last year's lots that stand beside none, by code.
    pub left: Vec<String>,
    /// Matches by hand that name a lot which is not there, or a lot twice.
    pub unknown: Vec<Match>,
}

/// True where two lots are of one cultivar in one container, whatever the case.
fn fits(last: &Lot, this: &Lot) -> bool {
    let same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    same(&last.cultivar, &this.cultivar) && same(&last.container, &this.container)
}

impl Pairs {
    /// Matches the lots of two seasons: first those named by hand, then by cultivar and container. Where several lots fit, they
    /// are taken in the order of their planting: the first of last year beside the first of this year.
    pub fn of(last: &Season, this: &Season, by_hand: &[Match]) -> Self {
        let in_order = |season: &Season| -> Vec<Lot> {
            let mut lots: Vec<Lot> = season.lots().into_iter().cloned().collect();
            lots.sort_by(|a, b| (a.planted, &a.lot).cmp(&(b.planted, &b.lot)));
            lots
        };
        let (mut old, mut new) = (in_order(last), in_order(this));
        let mut found = Self::default();
        for hand in by_hand {
            let at = old.iter().position(|lot| lot.lot == hand.last);
            let to = new.iter().position(|lot| lot.lot == hand.this);
            match (at, to) {
                (Some(at), Some(to)) => {
                    old.remove(at);
                    new.remove(to);
                    found.add(&hand.this, Some((hand.last.clone(), By::Hand)));
                }
                _ => found.unknown.push(hand.clone()),
            }
        }
        for lot in new {
            let fit = old.iter().position(|last| fits(last, &lot)).map(|at| old.remove(at));
            found.add(&lot.lot, fit.map(|last| (last.lot, By::CultivarAndContainer)));
        }
        found.pairs.sort_by(|a, b| a.this.cmp(&b.this));
        found.left = old.into_iter().map(|lot| lot.lot).collect();
        found.left.sort();
        found
    }

    fn add(&mut self, this: &str, last: Option<(String, By)>) {
        self.pairs.push(Pair { this: this.to_owned(), last });
    }

    /// The lot of last year beside one of this year.
    pub fn beside(&self, this: &str) -> Option<&str> {
        let pair = self.pairs.iter().find(|pair| pair.this == this)?;
        pair.last.as_ref().map(|(lot, _)| lot.as_str())
    }

    /// The lot of this year beside one of last year.
    pub fn now(&self, last: &str) -> Option<&str> {
        let is = |pair: &&Pair| pair.last.as_ref().is_some_and(|(lot, _)| lot == last);
        self.pairs.iter().find(is).map(|pair| pair.this.as_str())
    }
}
