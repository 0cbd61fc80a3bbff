//! What nutrients and feeds have in common, in words.

use super::{Page, off};
use crate::crop::feed::Clash;
use crate::mix::{Apart, Weighing, mass, volume};
use crate::units::{System, plain};
use serde_json::{Value, json};

/// What it is for, in words.
pub(super) fn purpose(weighing: &Weighing, units: System) -> String {
    match &weighing.stock {
        None => format!("in {}", volume(units, weighing.tank)),
        Some((injector, batch)) => format!(
            "through an injector 1:{}, {} of stock for {} of feed",
            plain(injector.ratio()),
            volume(units, weighing.tank),
            volume(units, batch.feed)
        ),
    }
}

/// The lines every answer has.
pub(super) fn lines(page: &mut Page, weighing: &Weighing, units: System) {
    page.item("weigh", mass(units, weighing.exact));
    if !weighing.weighed.too_small {
        let off = off(weighing.weighed.off);
        let makes = plain(weighing.weighed.gives(weighing.target).ppm());
        page.item("rounded", format!("{} g, which makes {makes} ppm ({off})", plain(weighing.weighed.weigh.g())));
    }
    let in_a_liter = weighing.g_per_l();
    if in_a_liter < 0.01 {
        page.item("rate", format!("{} mg per L", plain(in_a_liter * 1000.0)));
    } else {
        page.item("rate", format!("{} oz per gal, {} g per L", plain(weighing.oz_per_gal), plain(in_a_liter)));
    }
    if let Some((_, batch)) = &weighing.stock {
        page.item("in the stock", format!("{} ppm", plain(batch.stock_strength.ppm())));
    }
    page.item(
        "math",
        format!(
            "g = ppm x liters / (1000 x share) = {} x {} / (1000 x {}) = {}",
            plain(weighing.tank_strength().ppm()),
            plain(weighing.tank.ml() / 1000.0),
            plain(weighing.share.share()),
            plain(weighing.exact.g())
        ),
    );
}

/// The fields every answer has.
pub(super) fn json(weighing: &Weighing) -> Value {
    json!({
        "ppm": weighing.target.ppm(),
        "share": weighing.share.share(),
        "tank_ml": weighing.tank.ml(),
        "injector": weighing.stock.map(|(injector, _)| injector.ratio()),
        "stock_ppm": weighing.stock.map(|(_, batch)| batch.stock_strength.ppm()),
        "feed_ml": weighing.stock.map(|(_, batch)| batch.feed.ml()),
        "exact_g": weighing.exact.g(),
        "weighed_g": weighing.weighed.weigh.g(),
        "weighed_makes_ppm": weighing.weighed.gives(weighing.target).ppm(),
        "too_small_to_weigh": weighing.weighed.too_small,
    })
}

/// What a pot gets of an element.
pub(super) fn a_pot_gets(page: &mut Page, mg: Option<f64>, element: &str) {
    if let Some(mg) = mg {
        page.item("per pot", format!("{} mg of {element}", plain(mg)));
    }
}

/// Why two materials must not share a stock tank.
pub(super) fn not_together(page: &mut Page, pairs: &[Apart]) {
    for Apart { first, second, clash } in pairs {
        let why = match clash {
            Clash::CalciumSulfate => {
                "calcium and sulfate precipitate as gypsum and clog lines (North Carolina Agronomic Division)"
            }
            Clash::CalciumPhosphate => "calcium and phosphate precipitate (common practice, no source)",
        };
        page.item("NOT TOGETHER", format!("{first} and {second} not in one stock tank: {why}"));
    }
}
