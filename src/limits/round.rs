//! The round: what is due when, and signs that a whole house shares.

use super::table::{Basis, limits};

limits!(
    /// The round and its house-wide signs.
    Round = round {
        not_walked_watch: i64 = 2, 1..30, "days", Basis::HouseRule, "a bench without an observation this long: watch";
        not_walked_act: i64 = 4, 1..60, "days", Basis::HouseRule, "a bench without an observation this long: act";
        house_benches: u32 = 3, 2..100, "benches", Basis::HouseRule, "same warning at act on this many benches of a house becomes house-wide";
        bracts_every: i64 = 7, 1..30, "days", Basis::CommonPractice, "bract stage is due this often from the start of short days";
        pests_every: i64 = 7, 1..30, "days", Basis::Published("New England scouting guidelines 2016: weekly"), "scouting for pests is due this often";
        pests_plants: u32 = 20, 1..200, "plants", Basis::Published("Ontario floriculture IPM 2018: 15 to 20 plants per bench"), "plants turned over for whitefly on a bench";
        height_first: i64 = 14, 1..90, "days after planting", Basis::Published("UF/IFAS 2004 schedules: pinch 12 to 14 days after planting"), "height start of a lot that is not pinched";
        height_every: i64 = 7, 1..30, "days", Basis::Published("UF/IFAS height-control pages 2011: weekly"), "heights are due this often";
        night_start_min: u32 = 700, 600..840, "minutes", Basis::Published("R. Kobayashi, poinsettia flower initiation: night of 11 h 40 min"), "short days start with the first night this long";
    }
);
