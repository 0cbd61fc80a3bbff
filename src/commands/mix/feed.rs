//! `benchwalk mix feed`: liquid feed from a bag of fertilizer.

use super::page::Page;
use super::weighed::{WeighedArgs, Weighing};
use crate::commands::typed::{self, quantity, refused};
use crate::commands::{CommandError, Context};
use crate::crop::feed::{Analysis, Elements, Fraction, InjectorCheck, LabelEc, injector_check};
use crate::units::{Concentration, Conductivity, System, plain};
use clap::Args;
use serde_json::json;

const EXAMPLE: &str = "\
Examples:
  benchwalk mix feed --analysis 15-5-15 --n 200 --injector 1:100 --stock 50gal
  benchwalk mix feed --analysis 20-10-20 --n 250 --volume 100gal --chart-ec 0.66 --chart-n 100 --water-ec 0.3";

/// Options of `mix feed`.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLE)]
pub struct FeedArgs {
    /// The three numbers of the bag: N-P2O5-K2O.
    #[arg(long, value_name = "N-P-K")]
    pub analysis: String,
    /// How strong the feed is to be, ppm of N.
    #[arg(long = "n", value_name = "PPM", allow_hyphen_values = true)]
    pub nitrogen: String,
    /// The EC the bag's own chart gives at --chart-n: says what the feed should read.
    #[arg(long, value_name = "EC", requires = "chart_n", allow_hyphen_values = true)]
    pub chart_ec: Option<String>,
    /// The ppm of N of that line of the chart.
    #[arg(long, value_name = "PPM", requires = "chart_ec", allow_hyphen_values = true)]
    pub chart_n: Option<String>,
    /// The EC of the plain water.
    #[arg(long, value_name = "EC", default_value = "0", allow_hyphen_values = true)]
    pub water_ec: String,
    /// What the feed reads: says whether the injector gives what it should.
    #[arg(long, value_name = "EC", requires = "chart_ec", allow_hyphen_values = true)]
    pub feed_ec: Option<String>,
    /// The solution and the scale.
    #[command(flatten)]
    pub into: WeighedArgs,
}

/// Reckons the weight and prints it.
pub(super) fn run(args: &FeedArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let [n, p2o5, k2o] = three_numbers(&args.analysis)?;
    let analysis = Analysis::new(n, p2o5, k2o).map_err(refused("--analysis"))?;
    let share = Fraction::from_percent(n).map_err(refused("--analysis"))?;
    let target: Concentration = quantity("--n", &args.nitrogen, System::Metric)?;
    if target.ppm() <= 0.0 {
        return Err(refused("--n")("0 ppm is plain water; type how strong the feed is to be"));
    }
    let weighing = Weighing::of(&args.into, target, share)?;
    let carries = analysis.at_n(target).map_err(refused("--n"))?;
    let check = Check::of(args, target)?;
    let text = text(args, &weighing, carries, check.as_ref())?;
    let mut answer = weighing.json();
    if let Some(fields) = answer.as_object_mut() {
        fields.insert("analysis".to_owned(), json!([n, p2o5, k2o]));
        fields.insert("feed_p_ppm".to_owned(), json!(carries.p));
        fields.insert("feed_k_ppm".to_owned(), json!(carries.k));
        fields.insert("feed_ec_ms_cm".to_owned(), json!(check.as_ref().map(|c| c.expected.ms_cm())));
        let delivers =
            check.as_ref().and_then(|c| c.read).map(|r| json!({ "n_ppm": r.delivers.ppm(), "of_wanted": r.of_wanted }));
        fields.insert("injector_delivers".to_owned(), json!(delivers));
    }
    typed::print(context, args.into.format, &text, &answer)
}

fn three_numbers(typed: &str) -> Result<[f64; 3], CommandError> {
    let numbers: Vec<f64> = typed.split('-').filter_map(|n| n.trim().parse().ok()).collect();
    match (numbers[..].try_into(), typed.split('-').count()) {
        (Ok(three), 3) => Ok(three),
        _ => {
            Err(refused("--analysis")(format!("'{typed}' is not three numbers; type them as on the bag, like 15-5-15")))
        }
    }
}

/// What the feed's EC says.
struct Check {
    expected: Conductivity,
    read: Option<InjectorCheck>,
}

impl Check {
    fn of(args: &FeedArgs, target: Concentration) -> Result<Option<Self>, CommandError> {
        let (Some(ec), Some(n)) = (&args.chart_ec, &args.chart_n) else { return Ok(None) };
        let ec: Conductivity = quantity("--chart-ec", ec, System::Metric)?;
        let n: Concentration = quantity("--chart-n", n, System::Metric)?;
        let water: Conductivity = quantity("--water-ec", &args.water_ec, System::Metric)?;
        let chart = LabelEc::from_chart(ec, n).map_err(refused("--chart-ec, --chart-n"))?;
        let expected = chart.expected(target, water).map_err(refused("--water-ec"))?;
        let read = args
            .feed_ec
            .as_deref()
            .map(|text| {
                let feed: Conductivity = quantity("--feed-ec", text, System::Metric)?;
                injector_check(chart, target, feed, water).map_err(refused("--feed-ec"))
            })
            .transpose()?;
        Ok(Some(Self { expected, read }))
    }
}

fn text(
    args: &FeedArgs,
    weighing: &Weighing,
    carries: Elements,
    check: Option<&Check>,
) -> Result<String, CommandError> {
    let units = args.into.units;
    let mut page = Page::default();
    let target = plain(weighing.target.ppm());
    page.line(format!("{} at {target} ppm N {}", args.analysis.trim(), weighing.purpose(units)));
    weighing.lines(&mut page, units)?;
    page.item("carries", format!("{} ppm P, {} ppm K (elements) with its N", plain(carries.p), plain(carries.k)));
    if let Some(check) = check {
        page.item("should read", format!("{:.2} mS/cm, plain water included", check.expected.ms_cm()));
        if let Some(read) = check.read {
            let percent = read.of_wanted * 100.0;
            page.item(
                "really gives",
                format!("{} ppm N, {percent:.0} % of what was wanted", plain(read.delivers.ppm())),
            );
        }
    }
    page.item("", "The bag's label and local rules decide. Check the injector with a bucket and the EC.");
    Ok(page.text())
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
