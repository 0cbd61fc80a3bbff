//! One simulated trial: 24 places in a row, a gradient along them, four treatments six times each.

use crate::rng::Rng;
use benchwalk::stats::{Draw, normal_quantile};
use benchwalk::terms::Design;
use benchwalk::trials::{Data, Plot, Reading, Rules, analyze, completely_randomized, randomized_blocks};

pub(super) const TREATMENTS: usize = 4;
pub(super) const BLOCKS: usize = 6;

/// The F tests alone: with so many degrees of freedom asked for, nothing is compared pair by pair.
pub(super) fn f_alone() -> Rules {
    Rules { least_df: usize::MAX, ..Rules::default() }
}

/// How the treatments got their places, and what the analysis knows of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Laid {
    /// Completely randomized.
    Random,
    /// Completely randomized, analyzed with a straight line through the places.
    Line,
    /// Blocks of neighboring places.
    Blocks,
    /// Blocks that each reach from one end of the gradient to the other.
    WrongWay,
}

impl Laid {
    pub(super) const ALL: [Self; 4] = [Self::Random, Self::Line, Self::Blocks, Self::WrongWay];

    pub(super) const fn text(self) -> &'static str {
        match self {
            Self::Random => "completely randomized",
            Self::Line => "+ position line",
            Self::Blocks => "blocks",
            Self::WrongWay => "blocks laid the wrong way",
        }
    }

    /// Place, treatment and block of every plot.
    fn places(self, draw: &mut Draw) -> Vec<(usize, usize, Option<u32>)> {
        if matches!(self, Self::Random | Self::Line) {
            let dealt = completely_randomized(TREATMENTS, BLOCKS, draw);
            return (0..).zip(dealt).map(|(place, treatment)| (place, treatment, None)).collect();
        }
        let place = |block, at| if self == Self::Blocks { block * TREATMENTS + at } else { at * BLOCKS + block };
        let blocks = (0..).zip(randomized_blocks(&[1; TREATMENTS], BLOCKS, draw));
        let in_block = |(block, dealt): (usize, Vec<usize>)| {
            let number = u32::try_from(block + 1).ok();
            (0..).zip(dealt).map(move |(at, treatment)| (place(block, at), treatment, number))
        };
        blocks.flat_map(in_block).collect()
    }
}

/// A normal draw, mean 0 and deviation 1.
pub(super) fn normal(rng: &mut Rng) -> f64 {
    normal_quantile(rng.unit().clamp(1e-12, 1.0 - 1e-12))
}

/// A plot of a simulated trial; `place` counts along the bench, `number` from 1 on.
pub(super) fn plot(number: usize, place: usize, treatment: usize, value: f64) -> Plot {
    Plot {
        number: u32::try_from(number).unwrap(),
        treatment,
        block: None,
        bench: "M4".to_owned(),
        row: 1,
        column: u32::try_from(place + 1).unwrap(),
        value: Some(value),
        before: None,
        lost: false,
    }
}

pub(super) fn data(design: Design, treatments: usize, plots: Vec<Plot>) -> Data {
    let treatments = (0..treatments).map(|t| format!("{} g", 4 * t)).collect();
    Data { treatments, rates: None, control: None, design, reading: Reading::Measured, plots }
}

/// A trial of so many pots' SD from one end to the other, whose treatments do what `effects` says.
pub(super) fn trial(n: usize, laid: Laid, gradient: f64, effects: [f64; TREATMENTS]) -> Data {
    let mut draw = Draw::new("T1", &format!("{n:08}"), "layout");
    let mut rng = Rng::new(6_007 * n as u64 + 15);
    let last = (TREATMENTS * BLOCKS - 1) as f64;
    let plots = (1..).zip(laid.places(&mut draw)).map(|(number, (place, treatment, block))| {
        let along = place as f64 / last;
        let value = gradient * along + effects[treatment] + normal(&mut rng);
        Plot { block, before: (laid == Laid::Line).then_some(along), ..plot(number, place, treatment, value) }
    });
    let blocks = matches!(laid, Laid::Blocks | Laid::WrongWay);
    let design = if blocks { Design::RandomizedBlocks } else { Design::CompletelyRandomized };
    data(design, TREATMENTS, plots.collect())
}

/// Whether the F test tells the treatments apart, and the mean square of the rest.
pub(super) fn by_f(data: &Data) -> (bool, f64) {
    let analysis = analyze(data, f_alone()).unwrap();
    (analysis.treatment.p.unwrap() < 0.05, analysis.rest.squares.mean().unwrap())
}
