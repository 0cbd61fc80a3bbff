//! What a pot uses in a day against measured use.

use crate::basis::{Basis, Row};
use benchwalk::crop::water::typical_use;
use benchwalk::units::Volume;

const IMTA: Basis = Basis::Published(
    "Pacheco-Hernandez and others 2014, weighed 15-cm poinsettia pots, Rev. Mex. Cienc. Agric. 5(8): 40, 70, 150, 122 mL a day",
);
const LINE: Basis = Basis::Computed("straight lines between the measured weeks of Pacheco-Hernandez and others 2014");

pub(crate) fn rows() -> Vec<Row> {
    let week = |week: f64| typical_use(week).map_or(f64::NAN, Volume::ml);
    let refused = |yes: bool| f64::from(u8::from(yes));
    vec![
        Row::new("use in week 1", IMTA, 40.0, 0.01, week(1.0)),
        Row::new("use in week 4", IMTA, 70.0, 0.01, week(4.0)),
        Row::new("use in week 10", IMTA, 150.0, 0.01, week(10.0)),
        Row::new("use in week 13", IMTA, 122.0, 0.01, week(13.0)),
        Row::new("use in week 7", LINE, 110.0, 0.01, week(7.0)),
        Row::new("fall from week 10 to 13", IMTA, 0.19, 0.005, 1.0 - week(13.0) / week(10.0)),
        Row::new("week 0 refused", LINE, 1.0, 0.0, refused(typical_use(0.0).is_err())),
        Row::new("week 15 refused", LINE, 1.0, 0.0, refused(typical_use(15.0).is_err())),
    ]
}
