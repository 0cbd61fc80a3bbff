//! The demo's trial: four rates of slow-release on single pots of one bench, in six blocks along it.
//!
//! The pots at one end of the bench grow taller and greener than those at the other, by more than the rates do. Everything is
//! invented: what the rates do, the gradient and the spread of the pots.

use crate::grow::book::Book;
use crate::grow::{date, days};
use crate::rng::Rng;
use benchwalk::record::{Design, Entry, Kind, Plot, Revision, Trial, TrialReading, derived_id};
use benchwalk::stats::Draw;
use benchwalk::trials::randomized_blocks;
use chrono::NaiveDate;

const CODE: &str = "T1";
const SEED: &str = "48213907";
/// The bench it stands on: 200 pots of a lot that gets no slow-release otherwise, spaced onto it two days before the first reading.
const BENCH: &str = "D8";
const BLOCKS: u32 = 6;
const RATES: [f64; 4] = [0.0, 4.0, 8.0, 12.0];

/// The day of the readings before the treatment, the day of the treatment, and the days of the readings after it.
const BEFORE: (u32, u32) = (9, 23);
const GIVEN: (u32, u32) = (9, 24);
const READ: [(u32, u32); 3] = [(9, 29), (10, 6), (10, 13)];

/// What a rate does to the height in the three weeks after it, cm, and to greenness, classes.
const TALLER_CM: [f64; 4] = [0.0, 0.8, 1.3, 1.5];
const GREENER: [f64; 4] = [0.0, 0.6, 1.1, 1.3];
/// What the bench does from the first block to the last, cm and classes, and how single pots spread.
const GRADIENT: (f64, f64) = (-2.4, -1.6);
const SPREAD: (f64, f64) = (0.4, 0.35);

fn treatment(rate: f64) -> String {
    format!("{rate} g")
}

pub(crate) fn line() -> Trial {
    let day = |(month, day)| date(month, day);
    Trial {
        trial: CODE.to_owned(),
        lot: "C1".to_owned(),
        question: "slow-release rate".to_owned(),
        treatments: RATES.map(treatment).into(),
        rates: Some(RATES.into()),
        rate_unit: Some("g per pot".to_owned()),
        control: Some(treatment(0.0)),
        design: Design::RandomizedBlocks,
        seed: Some(SEED.to_owned()),
        drawn: None,
        reads: vec![TrialReading::Height, TrialReading::Greenness],
        every_days: Some(7),
        from: day(READ[0]),
        until: Some(date(11, 24)),
        matters: Some(1.0),
        guard: true,
        near_side: Some("aisle".to_owned()),
        far_side: Some("wall".to_owned()),
        shared_feed: false,
        ended_because: None,
        revision: Revision::number(1),
    }
}

/// A row of four pots is a block. The rows are walked to and fro, so the numbers run back in every second one.
pub(crate) fn plots() -> Vec<Plot> {
    let blocks = randomized_blocks(&[1; RATES.len()], BLOCKS as usize, &mut Draw::new(CODE, SEED, "layout"));
    let mut plots = Vec::new();
    for (row, block) in (1..).zip(blocks) {
        let mut places: Vec<(u32, usize)> = (1..).zip(block).collect();
        if row % 2 == 0 {
            places.reverse();
        }
        for (column, rate) in places {
            plots.push(Plot {
                plot: format!("{CODE}.{}", plots.len() + 1),
                trial: CODE.to_owned(),
                bench: BENCH.to_owned(),
                row,
                column,
                block: Some(row),
                treatment: treatment(RATES[rate]),
                pots: 1,
                revision: Revision::number(1),
            });
        }
    }
    plots
}

/// What a pot is like: its rate, its own height and greenness beside the others', and its place from 0 to 1 along the bench.
struct Pot {
    rate: usize,
    own: (f64, f64),
    along: f64,
}

impl Pot {
    /// The part of what the rate does that is there by a day.
    fn of_rate(day: NaiveDate) -> f64 {
        days(date(GIVEN.0, GIVEN.1), day).max(0) as f64 / 19.0
    }

    fn height(&self, day: NaiveDate, rng: &mut Rng) -> f64 {
        let grown = 18.2 + 0.2 * days(date(BEFORE.0, BEFORE.1), day) as f64;
        let place = GRADIENT.0 * (self.along - 0.5);
        let cm = grown + place + self.own.0 + Self::of_rate(day) * TALLER_CM[self.rate] + 0.05 * rng.normal();
        (cm * 10.0).round() / 10.0
    }

    fn greenness(&self, day: NaiveDate, rng: &mut Rng) -> u8 {
        let place = GRADIENT.1 * (self.along - 0.5);
        let judged = 2.6 + place + self.own.1 + Self::of_rate(day) * GREENER[self.rate] + 0.1 * rng.normal();
        (1..5).rev().find(|class| judged >= f64::from(*class) + 0.5).map_or(1, |class| class + 1)
    }
}

/// Writes the treatments as given and what was read.
pub(crate) fn readings(book: &mut Book) {
    let mut rng = Rng::new(48_213_907);
    let plots = plots();
    let pot = |plot: &Plot| Pot {
        rate: RATES.iter().position(|rate| treatment(*rate) == plot.treatment).unwrap(),
        own: (SPREAD.0 * rng.normal(), SPREAD.1 * rng.normal()),
        along: f64::from(plot.row - 1) / f64::from(BLOCKS - 1),
    };
    let pots: Vec<Pot> = plots.iter().map(pot).collect();
    let mut write = |day: NaiveDate, seconds: usize, plot: &Plot, kind: Kind| {
        book.by = "jo";
        book.bench(book.at(day, 10, seconds), BENCH, kind);
        let entry: &mut Entry = book.entries.last_mut().unwrap();
        entry.plot = Some(plot.plot.as_str().into());
        entry.id = derived_id(entry);
    };
    let mut rng = Rng::new(739_048);
    for (n, (plot, pot)) in plots.iter().zip(&pots).enumerate() {
        let before = date(BEFORE.0, BEFORE.1);
        write(before, n * 10, plot, Kind::Height { cm: vec![pot.height(before, &mut rng)] });
        let kind = Kind::Topdressed { g_per_pot: RATES[pot.rate], n_percent: Some(12.0) };
        write(date(GIVEN.0, GIVEN.1), 0, plot, kind);
        for day in READ.map(|(month, day)| date(month, day)) {
            write(day, n * 15, plot, Kind::Height { cm: vec![pot.height(day, &mut rng)] });
            let kind = Kind::Greenness { class: Some(pot.greenness(day, &mut rng)), spad: None };
            write(day, n * 15 + 6, plot, kind);
        }
    }
}

mod tests {
    use super::*;
    use benchwalk::season::Season;
    use benchwalk::stats::Draw;
    use benchwalk::trials::{Analysis, Difference, Over, Readings, Refused, Rules, analyze};

    fn demo() -> Season {
        let (plan, entries) = crate::story::season();
        Season::new(plan, entries)
    }

    fn read_on() -> NaiveDate {
        date(crate::story::DAY.0, crate::story::DAY.1)
    }

    /// Its readings of the last day, in blocks and as if the same layout had been drawn without them.
    fn analyzed(reading: TrialReading) -> (Analysis, Analysis) {
        let readings = Readings::of(&demo(), CODE, read_on()).unwrap();
        let day = readings.reported(reading).unwrap();
        assert_eq!(day, date(10, 13));
        let data = readings.data(reading, Over::Day(day), false).unwrap();
        let without = benchwalk::trials::Data { design: Design::CompletelyRandomized, ..data.clone() };
        (analyze(&data, Rules::default()).unwrap(), analyze(&without, Rules::default()).unwrap())
    }

    #[test]
    fn the_gradient_hides_the_rates_without_blocks_and_shows_them_with() {
        let (blocks, without) = analyzed(TrialReading::Height);
        let found = |of: &Analysis| of.comparisons.iter().flat_map(|c| &c.differences).filter(|d| d.is_found()).count();
        assert!(found(&blocks) >= 3 && blocks.treatment.p.unwrap() < 0.001, "{:?}", blocks.comparisons);
        assert!(found(&without) == 0 && without.treatment.p.unwrap() > 0.05, "{:?}", without.comparisons);
        assert!(blocks.position.share > 0.5 && blocks.position.share < 0.8, "{:?}", blocks.position);
        assert!(blocks.efficiency.unwrap() > 2.0, "{:?}", blocks.efficiency);
        // Nothing else speaks, and the taller are those with more.
        assert!(!blocks.checks.doubt_intervals() && blocks.checks.odd_plot().is_none(), "{:?}", blocks.checks);
        assert!(blocks.means.windows(2).all(|pair| pair[0].mean < pair[1].mean), "{:?}", blocks.means);
        assert!(blocks.verdict().iter().filter(|d| d.is_found()).all(|d: &Difference| d.pair.0 > d.pair.1));
    }

    #[test]
    fn greenness_is_told_apart_by_ranks_in_its_blocks() {
        let (blocks, without) = analyzed(TrialReading::Greenness);
        let reshuffled = |of: &Analysis| {
            let mut reshuffle = of.reshuffle(Draw::new(CODE, SEED, "reshuffle greenness")).unwrap();
            reshuffle.step(1_999);
            reshuffle.found().p
        };
        let (with, alone) = (reshuffled(&blocks), reshuffled(&without));
        assert!(with < 0.01 && alone > 0.05, "{with} {alone}");
    }

    #[test]
    fn it_stands_within_the_pots_of_its_bench_and_was_given_as_drawn() {
        let season = demo();
        let standing = season.standing(BENCH, read_on()).unwrap();
        assert_eq!(standing.lot, "C1");
        // Six rows of four and a ring of guard pots around them.
        assert!(standing.pots >= 8 * 6, "{}", standing.pots);
        let readings = Readings::of(&season, CODE, read_on()).unwrap();
        assert_eq!(readings.plots.len(), 24);
        for (plot, given) in readings.given() {
            assert_eq!(Some(&plot.treatment), given.map(treatment).as_ref(), "{}", plot.plot);
        }
        assert_eq!(readings.baseline(TrialReading::Height), Some(date(9, 23)));
    }

    #[test]
    fn before_the_treatment_nothing_is_told_apart() {
        let readings = Readings::of(&demo(), CODE, date(9, 23)).unwrap();
        let before = readings.data(TrialReading::Height, Over::Day(date(9, 23)), false).unwrap();
        let analysis = analyze(&before, Rules::default()).unwrap();
        assert!(analysis.treatment.p.unwrap() > 0.05 && !analysis.verdict().iter().any(Difference::is_found));
        let greenness = readings.data(TrialReading::Greenness, Over::Day(date(9, 23)), false);
        assert_eq!(greenness.map(|data| analyze(&data, Rules::default()).map(|_| ())), None::<Result<(), Refused>>);
    }
}
