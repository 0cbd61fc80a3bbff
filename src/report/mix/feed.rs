//! Liquid feed from a bag of fertilizer, straight or through an injector.

use super::weighing::a_pot_gets;
use super::{Asked, Into, Page, Refused, Weighing, apart, cautions_json, refuse};
use crate::crop::feed::{Analysis, Carries, Elements, Fraction, InjectorCheck, LabelEc, injector_check};
use crate::crop::growth_regulator::Caution;
use crate::report::cautions::{Work, cautions};
use crate::units::{Concentration, Conductivity, Mass, System, Volume, plain};
use serde_json::{Value, json};

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

/// What is asked.
#[derive(Debug, Clone)]
pub struct Ask {
    /// N, P2O5, K2O of the bag, percent.
    pub analysis: [f64; 3],
    /// How strong the feed is to be, of N.
    pub n: Concentration,
    /// Into what.
    pub into: Into,
    /// The step of the scale.
    pub scale: Mass,
    /// What a pot gets.
    pub per_pot: Option<Volume>,
    /// The bag's chart.
    pub chart: Option<Chart>,
    /// What else goes into the tank.
    pub beside: Vec<(&'static str, Carries)>,
}

/// What was asked and what it comes to.
#[derive(Debug, Clone)]
pub struct Answer {
    ask: Ask,
    /// The weight.
    pub weighing: Weighing,
    /// What comes with the N.
    pub carries: Elements,
    /// What the feed should read, and what the reading says.
    pub check: Option<(Conductivity, Option<InjectorCheck>)>,
    /// What is said with it.
    pub cautions: Vec<Caution>,
}

/// Reads the three numbers of a bag.
///
/// # Errors
/// [`Refused`] for text that is not three numbers.
pub fn three_numbers(typed: &str) -> Result<[f64; 3], Refused> {
    let numbers: Vec<f64> = typed.split('-').filter_map(|n| n.trim().parse().ok()).collect();
    match (numbers.as_slice().try_into(), typed.split('-').count()) {
        (Ok(three), 3) => Ok(three),
        _ => Err(refuse(Asked::Analysis)(format!(
            "'{typed}' is not three numbers; type them as on the bag, like 15-5-15"
        ))),
    }
}

/// Reckons it.
///
/// # Errors
/// [`Refused`] for a bag, a strength, a volume or a chart that cannot be.
pub fn reckon(ask: Ask) -> Result<Answer, Refused> {
    let [n, p2o5, k2o] = ask.analysis;
    let analysis = Analysis::new(n, p2o5, k2o).map_err(refuse(Asked::Analysis))?;
    let share = Fraction::from_percent(n).map_err(refuse(Asked::Analysis))?;
    if ask.n.ppm() <= 0.0 {
        return Err(refuse(Asked::Ppm)("0 ppm is plain water; type how strong the feed is to be"));
    }
    let weighing = Weighing::of(ask.n, share, ask.into, ask.scale)?;
    let carries = analysis.at_n(ask.n).map_err(refuse(Asked::Ppm))?;
    let check = ask.chart.map(|chart| check(&chart, ask.n)).transpose()?;
    let mut said = cautions(Work::Fertilizer).to_vec();
    said.extend(cautions(Work::Injector).iter().filter(|_| weighing.stock.is_some()));
    Ok(Answer { ask, weighing, carries, check, cautions: said })
}

fn check(chart: &Chart, n: Concentration) -> Result<(Conductivity, Option<InjectorCheck>), Refused> {
    let label = LabelEc::from_chart(chart.ec, chart.n).map_err(refuse(Asked::Chart))?;
    let expected = label.expected(n, chart.water).map_err(refuse(Asked::WaterEc))?;
    let read = chart.feed.map(|feed| injector_check(label, n, feed, chart.water).map_err(refuse(Asked::FeedEc)));
    Ok((expected, read.transpose()?))
}

impl Answer {
    fn bag(&self) -> String {
        self.ask.analysis.map(|n| format!("{n}")).join("-")
    }

    /// To read.
    ///
    /// # Errors
    /// [`Refused`] for a volume that cannot be.
    pub fn page(&self, units: System) -> Result<Page, Refused> {
        let (weighing, carries) = (&self.weighing, self.carries);
        let mut page = Page::default();
        let target = plain(weighing.target.ppm());
        page.line(format!("{} at {target} ppm N {}", self.bag(), weighing.purpose(units)));
        for clash in self.clashes() {
            page.item("NOT TOGETHER", clash);
        }
        weighing.lines(&mut page, units)?;
        if weighing.weighed.too_small {
            page.item("TOO LITTLE", "too little for this scale: mix more at once, or weigh on a finer one");
        }
        page.item("carries", format!("{} ppm P, {} ppm K (elements) with its N", plain(carries.p), plain(carries.k)));
        a_pot_gets(&mut page, weighing.target, self.ask.per_pot, "N")?;
        if let Some((expected, read)) = &self.check {
            page.item("should read", format!("{:.2} mS/cm, plain water included", expected.ms_cm()));
            if let Some(read) = read {
                let percent = read.of_wanted * 100.0;
                page.item(
                    "really gives",
                    format!("{} ppm N, {percent:.0} % of what was wanted", plain(read.delivers.ppm())),
                );
            }
        }
        if weighing.stock.is_some() {
            page.item(
                "apart",
                "calcium never in one stock tank with sulfates (N.C. Agronomic Division) or phosphates (common practice, no \
                 source); a single bag is its maker's affair",
            );
        }
        page.cautions(&self.cautions);
        Ok(page)
    }

    fn clashes(&self) -> Vec<String> {
        let [_, p2o5, _] = self.ask.analysis;
        let bag = self.bag();
        let mut tank = vec![(bag.as_str(), Carries { phosphate: p2o5 > 0.0, ..Carries::default() })];
        tank.extend(&self.ask.beside);
        apart(&tank)
    }

    /// For other programs.
    pub fn json(&self) -> Value {
        let mut answer = self.weighing.json();
        if let Some(fields) = answer.as_object_mut() {
            fields.insert("analysis".to_owned(), json!(self.ask.analysis));
            fields.insert("feed_p_ppm".to_owned(), json!(self.carries.p));
            fields.insert("feed_k_ppm".to_owned(), json!(self.carries.k));
            fields.insert("feed_ec_ms_cm".to_owned(), json!(self.check.as_ref().map(|(expected, _)| expected.ms_cm())));
            let delivers = self.check.and_then(|(_, read)| read);
            let delivers = delivers.map(|r| json!({ "n_ppm": r.delivers.ppm(), "of_wanted": r.of_wanted }));
            fields.insert("injector_delivers".to_owned(), json!(delivers));
            fields.insert("cautions".to_owned(), cautions_json(&self.cautions));
        }
        answer
    }
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
