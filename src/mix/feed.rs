//! Liquid feed from a bag of fertilizer, straight or through an injector.

use super::cautions;
use super::weighing::mg_per_pot;
use super::{Apart, Into, MixField, MixRefusal, Weighing, apart, refuse};
use crate::crop::feed::{Analysis, Carries, Elements, Fraction, InjectorCheck, LabelEc, injector_check};
use crate::crop::growth_regulator::Caution;
use crate::units::{Concentration, Conductivity, Mass, Volume};

/// The bag's own chart: the EC at a ppm of N, the EC of the plain water, and what the feed reads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chart {
    /// The EC the chart gives.
    pub ec: Conductivity,
    /// The ppm of N of that line.
    pub n: Concentration,
    /// The EC of the plain water.
    pub water: Conductivity,
    /// What the feed reads.
    pub feed: Option<Conductivity>,
}

/// The request.
#[derive(Debug, Clone)]
pub struct FeedRequest {
    /// N, P2O5, K2O of the bag, percent.
    pub analysis: [f64; 3],
    /// The target ppm of N.
    pub n: Concentration,
    /// Tank or stock.
    pub into: Into,
    /// The step of the scale.
    pub scale: Mass,
    /// The volume per pot.
    pub per_pot: Option<Volume>,
    /// The bag's chart.
    pub chart: Option<Chart>,
    /// Other materials of the tank.
    pub beside: Vec<(&'static str, Carries)>,
}

/// The request and its answer.
#[derive(Debug, Clone)]
pub struct FeedAnswer {
    /// The request.
    pub request: FeedRequest,
    /// The weight.
    pub weighing: Weighing,
    /// P and K that come with the N.
    pub carries: Elements,
    /// The EC the feed should have, and the verdict on its reading.
    pub check: Option<(Conductivity, Option<InjectorCheck>)>,
    /// N per pot, mg.
    pub mg_per_pot: Option<f64>,
    /// Pairs of the tank that must not share it.
    pub clashes: Vec<Apart>,
    /// The cautions that go with it.
    pub cautions: Vec<Caution>,
}

/// Reads the three numbers of a bag.
///
/// # Errors
/// [`MixRefusal`] for text that is not three numbers.
pub fn three_numbers(typed: &str) -> Result<[f64; 3], MixRefusal> {
    let numbers: Vec<f64> = typed.split('-').filter_map(|n| n.trim().parse().ok()).collect();
    match (numbers.as_slice().try_into(), typed.split('-').count()) {
        (Ok(three), 3) => Ok(three),
        _ => Err(refuse(MixField::Analysis)(format!(
            "'{typed}' is not three numbers; type them as on the bag, like 15-5-15"
        ))),
    }
}

impl FeedRequest {
    /// Calculates it.
    ///
    /// # Errors
    /// [`MixRefusal`] for a bag, a strength, a volume or a chart that cannot be.
    pub fn calculate(self) -> Result<FeedAnswer, MixRefusal> {
        let [n, p2o5, k2o] = self.analysis;
        let analysis = Analysis::new(n, p2o5, k2o).map_err(refuse(MixField::Analysis))?;
        let share = Fraction::from_percent(n).map_err(refuse(MixField::Analysis))?;
        if self.n.ppm() <= 0.0 {
            return Err(refuse(MixField::Ppm)("0 ppm is plain water; type the target ppm"));
        }
        let weighing = Weighing::of(self.n, share, self.into, self.scale)?;
        let carries = analysis.at_n(self.n).map_err(refuse(MixField::Ppm))?;
        let check = self.chart.map(|chart| check(&chart, self.n)).transpose()?;
        let said = cautions::of_feed(weighing.stock.is_some(), cautions::names(&self.beside));
        let mg_per_pot = mg_per_pot(weighing.target, self.per_pot)?;
        let clashes = self.clashes();
        Ok(FeedAnswer { request: self, weighing, carries, check, mg_per_pot, clashes, cautions: said })
    }

    /// The bag by its three numbers: `15-5-15`.
    pub fn bag(&self) -> String {
        self.analysis.map(|n| format!("{n}")).join("-")
    }

    fn clashes(&self) -> Vec<Apart> {
        let [_, p2o5, _] = self.analysis;
        let bag = self.bag();
        let mut tank = vec![(bag.as_str(), Carries { phosphate: p2o5 > 0.0, ..Carries::default() })];
        tank.extend(&self.beside);
        apart(&tank)
    }
}

fn check(chart: &Chart, n: Concentration) -> Result<(Conductivity, Option<InjectorCheck>), MixRefusal> {
    let label = LabelEc::from_chart(chart.ec, chart.n).map_err(refuse(MixField::Chart))?;
    let expected = label.expected(n, chart.water).map_err(refuse(MixField::WaterEc))?;
    let read = chart.feed.map(|feed| injector_check(label, n, feed, chart.water).map_err(refuse(MixField::FeedEc)));
    Ok((expected, read.transpose()?))
}

#[cfg(test)]
mod tests {
    use super::three_numbers;

    #[test]
    fn a_bag_has_three_numbers() {
        assert_eq!(format!("{:?}", three_numbers("15-5-15").unwrap()), "[15.0, 5.0, 15.0]");
        for wrong in ["15-5", "15-5-15-3", "a-b-c", "15--15", ""] {
            assert!(three_numbers(wrong).is_err(), "{wrong}");
        }
    }
}
