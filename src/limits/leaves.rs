//! Signs on leaves, stems and bracts.

use super::table::{Basis, limits};

const CRINKLED: Basis = Basis::Published(
    "university newsletter 2021, Texas A&M, UMass: crinkled young leaves of the first weeks grow out; the days are Benchwalk's rule of thumb",
);

limits!(
    /// Signs on leaves, stems and bracts.
    Leaves = leaves {
        second_from: i64 = 5, 1..30, "days", Basis::HouseRule, "a sign that is only noted becomes a watch where it is seen again after this many days";
        second_until: i64 = 14, 1..60, "days", Basis::HouseRule, "and before more than this many";
        again_days: i64 = 14, 1..60, "days", Basis::HouseRule, "leaf-signs: the same sign of a bench is raised once in this time";
        few_in: u32 = 20, 1..1000, "plants", Basis::HouseRule, "on one plant in this many or fewer a sign is only noted";
        late_days: i64 = 28, 0..90, "days before the sale", Basis::HouseRule, "yellow lower leaves are only noted in these last days";
        crinkled_until: i64 = 35, 0..90, "days after planting", CRINKLED, "crinkled young leaves are only noted up to this day";
        crinkled_pinch: i64 = 14, 0..60, "days after the pinch", CRINKLED, "or in these days";
        crinkled_thrips: f64 = 10.0, 1..1000, "a card", Basis::HouseRule, "from this many thrips on crinkled leaves count as any other";
        bent_from: i64 = 7, 0..60, "days after planting", Basis::HouseRule, "leaves bent down from this day on: act; before, unpacking does it too";
        broken_benches: u32 = 2, 2..50, "benches of a lot", Basis::HouseRule, "stem-broken: broken branches on this many";
        broken_days: i64 = 14, 1..60, "days", Basis::HouseRule, "stem-broken: within this time";
        buds_night_c: f64 = 21.0, 10..40, "°C", Basis::HouseRule, "buds-dropping: nights at or above this in a low-light house from full color on";
        buds_nights: u32 = 3, 1..14, "nights", Basis::HouseRule, "buds-dropping: on this many nights";
        buds_days: i64 = 7, 1..30, "days", Basis::HouseRule, "buds-dropping: of the last days";
    }
);
