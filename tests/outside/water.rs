//! Water in the pot against measured use and worked weights.

use crate::basis::{Basis, Row};
use benchwalk::crop::water::{days_to_trigger, trigger_weight, typical_use, typical_use_between, water_left};
use benchwalk::units::{Mass, Volume};

const IMTA: Basis = Basis::Published(
    "Pacheco-Hernandez and others 2014, weighed 15-cm poinsettia pots, Rev. Mex. Cienc. Agric. 5(8): 40, 70, 150, 122 mL a day",
);
const LINE: Basis = Basis::Computed("straight lines between the measured weeks of Pacheco-Hernandez and others 2014");
const WEIGHTS: Basis = Basis::Computed(
    "by hand from the definitions in UC ANR 'When to irrigate containers' and Dumroese, Montville and Pinto 2015",
);

pub(crate) fn rows() -> Vec<Row> {
    let week = |week: f64| typical_use(week).map_or(f64::NAN, Volume::ml);
    let left = |now: f64| water_left(Mass::from_g(1900.0), Mass::from_g(1000.0), Mass::from_g(now));
    let refused = |yes: bool| f64::from(u8::from(yes));
    let mut rows = vec![
        Row::new("use in week 1", IMTA, 40.0, 0.01, week(1.0)),
        Row::new("use in week 4", IMTA, 70.0, 0.01, week(4.0)),
        Row::new("use in week 10", IMTA, 150.0, 0.01, week(10.0)),
        Row::new("use in week 13", IMTA, 122.0, 0.01, week(13.0)),
        Row::new("use in week 7", LINE, 110.0, 0.01, week(7.0)),
        Row::new("use from week 1 to 13, L", LINE, 8.6, 0.05, total(1.0, 13.0)),
        Row::new("fall from week 10 to 13", IMTA, 0.19, 0.005, 1.0 - week(13.0) / week(10.0)),
        Row::new("week 0 refused", LINE, 1.0, 0.0, refused(typical_use(0.0).is_err())),
        Row::new("week 15 refused", LINE, 1.0, 0.0, refused(typical_use(15.0).is_err())),
        Row::new("now heavier than full refused", WEIGHTS, 1.0, 0.0, refused(left(1901.0).is_err())),
        Row::new("450 mL at 150 mL a day", WEIGHTS, 3.0, 1e-9, days(450.0, 150.0)),
    ];
    for (now, available, full) in
        [(1450.0, 0.500, 0.763), (1225.0, 0.250, 0.645), (1900.0, 1.0, 1.0), (1000.0, 0.0, 0.526)]
    {
        let got = left(now);
        let part = |pick: fn(&benchwalk::crop::water::WaterLeft) -> f64| got.as_ref().map_or(f64::NAN, pick);
        rows.push(Row::new(format!("{now} g of available"), WEIGHTS, available, 0.0005, part(|l| l.of_available)));
        rows.push(Row::new(format!("{now} g of full weight"), WEIGHTS, full, 0.0005, part(|l| l.of_full_weight)));
    }
    // The trap: one pot, two "percents"; they must not be taken for each other.
    let half = left(1450.0).map_or(f64::NAN, |l| l.of_full_weight);
    rows.push(Row::new("half the water is half the weight", WEIGHTS, 0.5, 0.05, half).refuted());
    let trigger = trigger_weight(Mass::from_g(1900.0), Mass::from_g(1000.0), 0.5).map_or(f64::NAN, Mass::g);
    rows.push(Row::new("trigger at half the water", WEIGHTS, 1450.0, 1e-9, trigger));
    rows
}

fn total(from: f64, to: f64) -> f64 {
    typical_use_between(from, to).map_or(f64::NAN, |v| v.ml() / 1000.0)
}

fn days(above: f64, per_day: f64) -> f64 {
    days_to_trigger(Volume::from_ml(above), Volume::from_ml(per_day)).unwrap_or(f64::NAN)
}
