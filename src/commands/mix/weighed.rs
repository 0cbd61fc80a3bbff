//! What nutrients and feeds have in common: the solution and the scale, as typed.

use crate::commands::CommandError;
use crate::commands::arg_values::{Format, term};
use crate::commands::arg_values::{number, quantity, quantity_in, refused};
use crate::crop::feed::Injector;
use crate::mix::Into;
use crate::terms::Term;
use crate::units::{Mass, System, Unit, Volume};
use clap::{ArgGroup, Args};

/// The solution and the scale.
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("into").required(true).args(["volume", "stock", "feed"])))]
pub struct WeighedArgs {
    /// The volume of the finished solution, mixed straight into a tank.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true, conflicts_with = "injector")]
    pub volume: Option<String>,
    /// The injector, 1:15 to 1:200.
    #[arg(long, value_name = "1:RATIO", allow_hyphen_values = true)]
    pub injector: Option<String>,
    /// The volume of stock to make for the injector.
    #[arg(long, value_name = "VOLUME", requires = "injector", allow_hyphen_values = true)]
    pub stock: Option<String>,
    /// Or: volume of feed to make from the stock.
    #[arg(long, value_name = "VOLUME", requires = "injector", allow_hyphen_values = true)]
    pub feed: Option<String>,
    /// Scale resolution.
    #[arg(long, value_name = "WEIGHT", default_value = "1 g", allow_hyphen_values = true)]
    pub scale: String,
    /// Units of numbers typed without one, and which come first in the answer.
    #[arg(long, value_name = "UNITS", value_parser = term::<System>(), default_value = System::Us.code())]
    pub units: System,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

const G: Unit = Unit { names: &["g"], factor: 1.0, offset: 0.0 };

impl WeighedArgs {
    /// Into what it is weighed.
    pub(super) fn read(&self) -> Result<Into, CommandError> {
        let system = self.units;
        let typed =
            |option, text: &Option<String>| text.as_deref().map(|t| quantity::<Volume>(option, t, system)).transpose();
        let injector = self
            .injector
            .as_deref()
            .map(|t| {
                let ratio = number("--injector", t.trim().trim_start_matches("1:"), &[])?;
                Injector::one_to(ratio).map_err(refused("--injector"))
            })
            .transpose()?;
        let whole = typed("--volume", &self.volume)?;
        let (stock, feed) = (typed("--stock", &self.stock)?, typed("--feed", &self.feed)?);
        match (injector, whole, stock, feed) {
            (Some(injector), _, Some(stock), _) => Ok(Into::Stock(injector, stock)),
            (Some(injector), _, None, Some(feed)) => Ok(Into::Feed(injector, feed)),
            (_, Some(volume), ..) => Ok(Into::Tank(volume)),
            _ => Err(refused("--volume")("give the volume, or --injector with --stock or --feed")),
        }
    }

    /// The step of the scale.
    pub(super) fn step(&self) -> Result<Mass, CommandError> {
        quantity_in("--scale", &self.scale, &G)
    }
}
