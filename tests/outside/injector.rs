//! Printed tables of ounces, grams and ppm: straight into the tank and through an injector.
//!
//! Tables are made with one of three constants (75, the label's 74.074, the exact 74.892) and rounded: they are held to 2%.

use crate::basis::{Basis, Row};
use benchwalk::crop::feed::{Fraction, Injector, batch_of_stock, material_for, oz_per_gal, stock_g_per_l};
use benchwalk::terms::Material;
use benchwalk::units::{Concentration, Mass, Volume};

const UMASS: Basis = Basis::Published("UMass, Fertilizer calculations for greenhouse crops");
const TEXAS: Basis = Basis::Published("Texas A&M, Nutrition and Fertility: ppm formulas");
const TEXAS_WRONG: Basis =
    Basis::Published("Texas A&M, Nutrition and Fertility: prints 0.33 x 75 = 29.75 and works on with it");
const LABEL: Basis =
    Basis::Published("a supplier's newsletter 38, How to mix a concentrate for an injector: 15-5-15 label table");
const CORNELL: Basis = Basis::Published("Mattson (Cornell), Fertilizer calculations and practice questions");
const ARGO: Basis = Basis::Published("Understanding pH management and plant nutrition, part 5 (series by Argo)");
const BY_HAND: Basis =
    Basis::Computed("ppm x ratio / (1000 x share), worked by hand with the constant 75 or in g per L");

fn ppm(value: f64) -> Concentration {
    Concentration::from_ppm(value)
}

fn gallons(value: f64) -> Volume {
    Volume::from_ml(value * 3_785.411_784)
}

fn ounces(mass: Mass) -> f64 {
    mass.g() / 28.349_523_125
}

/// Ounces in 100 gallons, as Benchwalk reckons it.
fn straight(percent: f64, target: f64) -> f64 {
    Fraction::from_percent(percent)
        .and_then(|share| material_for(ppm(target), share, gallons(100.0)))
        .map_or(f64::NAN, ounces)
}

/// Ounces in a gallon of stock, as Benchwalk reckons it.
fn stock(percent: f64, target: f64, ratio: f64) -> f64 {
    let made =
        Fraction::from_percent(percent).and_then(|share| stock_g_per_l(ppm(target), share, Injector::one_to(ratio)?));
    made.and_then(oz_per_gal).unwrap_or(f64::NAN)
}

pub(crate) fn rows() -> Vec<Row> {
    [into_the_tank(), wrong_in_print(), label_table(), metric_stock()].concat()
}

fn into_the_tank() -> Vec<Row> {
    let small = Fraction::from_percent(20.0).and_then(|share| material_for(ppm(100.0), share, gallons(5.0)));
    let small = small.map_or(f64::NAN, Mass::g);
    let pound = |grams: f64| {
        let of_one_ppm = Fraction::from_percent(100.0).and_then(|share| material_for(ppm(1.0), share, gallons(100.0)));
        of_one_ppm.map_or(f64::NAN, |mass| grams / mass.g())
    };
    vec![
        Row::new("20% N, 200 ppm, oz/100 gal", UMASS, 13.5, 0.27, straight(20.0, 200.0)),
        Row::new("20% N, 200 ppm, oz/100 gal, exact", BY_HAND, 13.35, 0.005, straight(20.0, 200.0)),
        Row::new("15% N, 200 ppm, oz/100 gal", UMASS, 18.0, 0.36, straight(15.0, 200.0)),
        Row::new("15% N, 250 ppm, oz/100 gal, to the ounce", TEXAS, 22.0, 0.5, straight(15.0, 250.0)),
        Row::new("15% N, 150 ppm, oz/100 gal, to the ounce", TEXAS, 13.0, 0.5, straight(15.0, 150.0)),
        Row::new("20% N, 100 ppm, 5 gal, oz", ARGO, 0.33, 0.006, small / 28.349_523_125),
        Row::new("20% N, 100 ppm, 5 gal, g (about 9)", ARGO, 9.0, 0.5, small),
        Row::new("ppm of a pound in 100 gal", BY_HAND, 1198.3, 0.05, pound(453.592_37)),
        Row::new("ppm of a pound in 100 gal, rule of thumb", TEXAS, 1200.0, 2.0, pound(453.592_37)),
    ]
}

/// A grower who follows these under-feeds by 13 to 18%.
fn wrong_in_print() -> Vec<Row> {
    vec![
        Row::new("33% N, 150 ppm, oz/100 gal", TEXAS_WRONG, 5.0, 0.5, straight(33.0, 150.0)).refuted(),
        Row::new("33% N, 150 ppm, oz/100 gal", BY_HAND, 6.06, 0.02, straight(33.0, 150.0)),
        Row::new("33% N, 200 ppm, oz/100 gal", TEXAS_WRONG, 7.0, 0.5, straight(33.0, 200.0)).refuted(),
        Row::new("33% N, 200 ppm, oz/100 gal", BY_HAND, 8.08, 0.02, straight(33.0, 200.0)),
    ]
}

fn label_table() -> Vec<Row> {
    let mut rows = Vec::new();
    for (basis, percent, target, ratio, printed) in [
        (LABEL, 15.0, 50.0, 100.0, 4.5),
        (LABEL, 15.0, 100.0, 100.0, 9.0),
        (LABEL, 15.0, 200.0, 100.0, 18.0),
        (LABEL, 15.0, 225.0, 100.0, 20.25),
        (LABEL, 15.0, 50.0, 200.0, 9.0),
        (LABEL, 15.0, 100.0, 200.0, 18.0),
        (LABEL, 15.0, 200.0, 200.0, 36.0),
        (LABEL, 15.0, 50.0, 15.0, 0.68),
        (LABEL, 15.0, 100.0, 15.0, 1.35),
        (LABEL, 15.0, 200.0, 15.0, 2.7),
        (CORNELL, 20.0, 150.0, 200.0, 20.25),
    ] {
        let name = format!("{percent}% N, {target} ppm at 1:{ratio}, oz/gal of stock");
        rows.push(Row::new(name, basis, printed, printed * 0.02, stock(percent, target, ratio)));
    }
    let made = |volume: Volume| {
        let share = Fraction::from_percent(15.0)?;
        batch_of_stock(ppm(200.0), share, Injector::one_to(100.0)?, volume)
    };
    let five = made(gallons(5.0)).map_or(f64::NAN, |batch| ounces(batch.material));
    let tank = made(gallons(1.0)).map_or(f64::NAN, |batch| batch.stock_strength.ppm());
    let pounds = Mass::from_g(90.0 * 28.349_523_125).g() / 453.592_37;
    rows.extend([
        Row::new("5 gal of stock at 18 oz/gal, oz", LABEL, 90.0, 1.8, five),
        Row::new("90 oz as lb (5 lb 10 oz)", LABEL, 5.625, 1e-9, pounds),
        Row::new("200 ppm at 1:100, ppm in the tank", CORNELL, 20_000.0, 1e-6, tank),
    ]);
    rows
}

fn metric_stock() -> Vec<Row> {
    let grams = |share: Fraction, target: f64, ratio: f64| {
        Injector::one_to(ratio).and_then(|injector| stock_g_per_l(ppm(target), share, injector)).unwrap_or(f64::NAN)
    };
    let Ok(twenty) = Fraction::from_percent(20.0) else { return Vec::new() };
    let (magnesium, molybdate) = (Material::MagnesiumSulfate.fraction(), Material::SodiumMolybdate.fraction());
    let mut rows = Vec::new();
    for (ratio, feed_g, feed_oz, mg_g, mg_oz, mo_mg) in [
        (100.0, 100.0, 13.33, 40.6, 5.4, 25.2),
        (128.0, 128.0, 17.07, 51.9, 6.9, 32.3),
        (200.0, 200.0, 26.67, 81.1, 10.8, 50.4),
    ] {
        let at = |what: &str| format!("{what} at 1:{ratio}");
        let mg_ounces = oz_per_gal(grams(magnesium, 40.0, ratio)).unwrap_or(f64::NAN);
        rows.extend([
            Row::new(at("20% N, 200 ppm, g/L"), BY_HAND, feed_g, 1e-9, grams(twenty, 200.0, ratio)),
            Row::new(at("20% N, 200 ppm, oz/gal"), BY_HAND, feed_oz, feed_oz * 0.002, stock(20.0, 200.0, ratio)),
            Row::new(at("40 ppm Mg of magnesium sulfate, g/L"), BY_HAND, mg_g, 0.05, grams(magnesium, 40.0, ratio)),
            Row::new(at("40 ppm Mg of magnesium sulfate, oz/gal"), BY_HAND, mg_oz, 0.05, mg_ounces),
            Row::new(
                at("0.1 ppm Mo of sodium molybdate, mg/L"),
                BY_HAND,
                mo_mg,
                0.05,
                grams(molybdate, 0.1, ratio) * 1000.0,
            ),
        ]);
    }
    rows
}
