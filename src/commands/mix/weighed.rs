//! What nutrients and feeds have in common: a weight of a solid for a tank, or for the stock of an injector.

use super::page::Page;
use super::{mass, off, volume};
use crate::commands::CommandError;
use crate::commands::args::{Format, UnitsArg};
use crate::commands::typed::{number, quantity, quantity_in, refused};
use crate::crop::feed::{
    Batch, Fraction, Injector, Scale, Weighed, batch_of_feed, batch_of_stock, material_for, oz_per_gal, weigh,
};
use crate::units::{Concentration, Mass, Unit, Volume, plain};
use clap::{ArgGroup, Args};
use serde_json::{Value, json};

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
    /// Instead: the volume of feed the stock is to make.
    #[arg(long, value_name = "VOLUME", requires = "injector", allow_hyphen_values = true)]
    pub feed: Option<String>,
    /// The smallest step of the scale.
    #[arg(long, value_name = "WEIGHT", default_value = "1 g", allow_hyphen_values = true)]
    pub scale: String,
    /// Units of numbers typed without one, and which stand first in the answer.
    #[arg(long, value_enum, default_value_t = UnitsArg::Us)]
    pub units: UnitsArg,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

const G: Unit = Unit { names: &["g"], factor: 1.0, offset: 0.0 };

/// What to weigh, and for what.
pub(super) struct Weighing {
    pub(super) target: Concentration,
    pub(super) share: Fraction,
    /// The tank, or the stock.
    pub(super) tank: Volume,
    pub(super) stock: Option<(Injector, Batch)>,
    pub(super) exact: Mass,
    pub(super) scale: Scale,
    pub(super) weighed: Weighed,
}

impl Weighing {
    /// Reckons the weight that was asked for.
    pub(super) fn of(args: &WeighedArgs, target: Concentration, share: Fraction) -> Result<Self, CommandError> {
        let system = args.units.into();
        let typed =
            |option, text: &Option<String>| text.as_deref().map(|t| quantity::<Volume>(option, t, system)).transpose();
        let injector = args
            .injector
            .as_deref()
            .map(|t| {
                let ratio = number("--injector", t.trim().trim_start_matches("1:"), &[])?;
                Injector::one_to(ratio).map_err(refused("--injector"))
            })
            .transpose()?;
        let whole = typed("--volume", &args.volume)?;
        let (stock, feed) = (typed("--stock", &args.stock)?, typed("--feed", &args.feed)?);
        let (tank, stock, exact) = match (injector, whole, stock, feed) {
            (Some(injector), _, Some(stock), _) => {
                let batch = batch_of_stock(target, share, injector, stock).map_err(refused("--stock"))?;
                (stock, Some((injector, batch)), batch.material)
            }
            (Some(injector), _, None, Some(feed)) => {
                let batch = batch_of_feed(target, share, injector, feed).map_err(refused("--feed"))?;
                (batch.stock, Some((injector, batch)), batch.material)
            }
            (_, Some(volume), ..) => (volume, None, material_for(target, share, volume).map_err(refused("--volume"))?),
            _ => return Err(refused("--volume")("give the volume, or --injector with --stock or --feed")),
        };
        let scale = Scale::steps_of(quantity_in("--scale", &args.scale, &G)?).map_err(refused("--scale"))?;
        let weighed = weigh(exact, scale).map_err(refused("--volume"))?;
        Ok(Self { target, share, tank, stock, exact, scale, weighed })
    }

    /// What it is for, in words.
    pub(super) fn purpose(&self, units: UnitsArg) -> String {
        match &self.stock {
            None => format!("in {}", volume(units, self.tank)),
            Some((injector, batch)) => format!(
                "through an injector 1:{}, {} of stock for {} of feed",
                plain(injector.ratio()),
                volume(units, self.tank),
                volume(units, batch.feed)
            ),
        }
    }

    /// The lines every answer has.
    pub(super) fn lines(&self, page: &mut Page, units: UnitsArg) -> Result<(), CommandError> {
        page.item("weigh", mass(units, self.exact));
        if !self.weighed.too_small {
            let off = off(self.weighed.off);
            let makes = plain(self.weighed.gives(self.target).ppm());
            page.item("to a step", format!("{} g, which makes {makes} ppm ({off})", plain(self.weighed.weigh.g())));
        }
        let in_a_liter = self.exact.g() / (self.tank.ml() / 1000.0);
        let ounces = oz_per_gal(in_a_liter).map_err(refused("--volume"))?;
        page.item("that is", format!("{} oz a gallon, {} g a liter", plain(ounces), plain(in_a_liter)));
        if let Some((_, batch)) = &self.stock {
            page.item("in the stock", format!("{} ppm", plain(batch.stock_strength.ppm())));
        }
        let strength = self.stock.map_or(self.target, |(_, batch)| batch.stock_strength);
        page.item(
            "reckoned",
            format!(
                "g = ppm x liters / (1000 x share) = {} x {} / (1000 x {}) = {}",
                plain(strength.ppm()),
                plain(self.tank.ml() / 1000.0),
                plain(self.share.share()),
                plain(self.exact.g())
            ),
        );
        Ok(())
    }

    /// The fields every answer has.
    pub(super) fn json(&self) -> Value {
        json!({
            "ppm": self.target.ppm(),
            "share": self.share.share(),
            "tank_ml": self.tank.ml(),
            "injector": self.stock.map(|(injector, _)| injector.ratio()),
            "stock_ppm": self.stock.map(|(_, batch)| batch.stock_strength.ppm()),
            "feed_ml": self.stock.map(|(_, batch)| batch.feed.ml()),
            "exact_g": self.exact.g(),
            "weighed_g": self.weighed.weigh.g(),
            "weighed_makes_ppm": self.weighed.gives(self.target).ppm(),
            "too_small_to_weigh": self.weighed.too_small,
        })
    }
}
