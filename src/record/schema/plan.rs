//! The fields of the plan's lines.

use super::super::{Nights, Pinch, Region};
use super::{ANY, COUNT, Field, Form, HOUSE, NAME, PPM, SOME, Table, codes};
use crate::units::System;

const REV: Field = Field::may("rev", Form::Count { least: 1, most: ANY }, "", "revision of this line, 1 when left out");
const LATITUDE: Form = Form::Number { least: -90.0, most: 90.0 };
const LONGITUDE: Form = Form::Number { least: -180.0, most: 180.0 };
const POT_CM: Form = Form::Number { least: 1.0, most: 200.0 };
const PLANT_CM: Form = Form::Number { least: 1.0, most: 500.0 };

pub(super) static SITE: Table = Table {
    name: "site",
    fields: &[
        Field::need("name", NAME, "", "the site's name"),
        Field::need("latitude", LATITUDE, "degrees", "north positive"),
        Field::need("longitude", LONGITUDE, "degrees", "east positive"),
        Field::need("time_zone", Form::Zone, "", "IANA time zone"),
        Field::need("units", Form::Term(codes::<System>), "", "what the site reads and types"),
        Field::may("region", Form::Term(codes::<Region>), "", "its autumns, cool when left out"),
        Field::may("dull_houses", Form::Texts { most: 24 }, "", "houses with little light, which dry slowly"),
        Field::may("emergency", Form::Text { most: 500 }, "", "shown with the cautions"),
        REV,
    ],
};

pub(super) static LOT: Table = Table {
    name: "lot",
    fields: &[
        Field::need("lot", Form::Code, "", "its code"),
        Field::need("cultivar", NAME, "", "color and response, in words"),
        Field::need("container", NAME, "", "the container, in words"),
        Field::may("rim_cm", POT_CM, "cm", "diameter of the rim"),
        Field::may("pot_height_cm", POT_CM, "cm", "height of the pot"),
        Field::need("cuttings_per_pot", Form::Count { least: 1, most: 100 }, "", "cuttings in one pot"),
        Field::need("pots", SOME, "", "pots of the lot"),
        Field::need("planted", Form::Day, "", "day 0 of the crop"),
        Field::need("pinch", Form::Term(codes::<Pinch>), "", "the pinch planned"),
        Field::need("response_weeks", Form::Number { least: 4.0, most: 20.0 }, "weeks", "short days to first pollen"),
        Field::need("nights", Form::Term(codes::<Nights>), "", "how it gets its long nights"),
        Field::may("blackout_from", Form::Day, "", "first evening under cloth"),
        Field::may("lights_until", Form::Day, "", "last evening with lamps"),
        Field::may("height_low_cm", PLANT_CM, "cm", "least finished height, pot included"),
        Field::may("height_high_cm", PLANT_CM, "cm", "greatest finished height, pot included"),
        Field::need("ready_by", Form::Day, "", "the sale"),
        Field::may("feed_n_ppm", PPM, "ppm", "N of constant feed and water together"),
        Field::may("feed_mg_ppm", PPM, "ppm", "Mg of constant feed and water together"),
        Field::may("feed_mo_ppm", PPM, "ppm", "Mo of constant feed and water together"),
        Field::may("slow_release_g", Form::Number { least: 0.0, most: 1_000.0 }, "g", "slow-release a pot at potting"),
        Field::may("calcium", Form::YesNo, "", "true where calcium sprays are wanted"),
        REV,
    ],
};

pub(super) static BENCH: Table = Table {
    name: "bench",
    fields: &[
        Field::need("bench", Form::Code, "", "its code"),
        Field::need("house", HOUSE, "", "the house it stands in"),
        Field::need("order", COUNT, "", "its place in the walk"),
        Field::may("area_m2", Form::Number { least: 0.01, most: 100_000.0 }, "m2", "its area"),
        REV,
    ],
};

pub(super) static PLACEMENT: Table = Table {
    name: "placement",
    fields: &[
        Field::need("bench", Form::Code, "", "the bench"),
        Field::need("lot", Form::Code, "", "the lot"),
        Field::need("pots", COUNT, "", "pots set down; 0 in a later revision takes it back"),
        Field::need("from", Form::Day, "", "the day"),
        REV,
    ],
};

pub(super) static ORDER: Table = Table {
    name: "order",
    fields: &[
        Field::need("lot", Form::Code, "", "the lot"),
        Field::need("date", Form::Day, "", "the day promised"),
        Field::need("pots", COUNT, "", "pots promised; 0 in a later revision takes it back"),
        REV,
    ],
};
