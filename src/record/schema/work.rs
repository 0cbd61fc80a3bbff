//! The own fields of the work entries.

use super::super::{How, KindName, Material, Method, PinchHow};
use super::{Field, Form, HOURS, ML, NAME, PERCENT, PPM, SENTENCE, SOME, Table, codes};

const ML_PER_POT: Field = Field::may("ml_per_pot", ML, "mL", "solution a pot");
const RE_ENTRY: Field = Field::need("re_entry_h", HOURS, "h", "re-entry interval, typed from the label");
const PRODUCT: Field = Field::may("product", NAME, "", "the product, as on its label");
const RATE: Field = Field::may("rate", NAME, "", "the rate, in words");

pub(super) fn table(kind: KindName) -> &'static Table {
    match kind {
        KindName::Watered => &WATERED,
        KindName::Fed => &FED,
        KindName::Topdressed => &TOPDRESSED,
        KindName::Nutrient => &NUTRIENT,
        KindName::GrowthRegulator => &GROWTH_REGULATOR,
        KindName::Sprayed => &SPRAYED,
        KindName::Released => &RELEASED,
        KindName::Pinched => &PINCHED,
        KindName::Blackout => &BLACKOUT,
        KindName::Lights => &LIGHTS,
        KindName::Spaced => &SPACED,
        KindName::Moved => &MOVED,
        KindName::Sold => &SOLD,
        KindName::PutOff => &PUT_OFF,
        _ => &STRIKE,
    }
}

static WATERED: Table = Table { name: "watered", fields: &[Field::may("ml_per_pot", ML, "mL", "water a pot")] };
static FED: Table = Table {
    name: "fed",
    fields: &[
        Field::need("n_ppm", PPM, "ppm", "N of feed and water together"),
        Field::may("mg_ppm", PPM, "ppm", "Mg of feed and water together"),
        Field::may("mo_ppm", PPM, "ppm", "Mo of feed and water together"),
        ML_PER_POT,
    ],
};
static TOPDRESSED: Table = Table {
    name: "topdressed",
    fields: &[
        Field::need("g_per_pot", Form::Number { least: 0.0, most: 1_000.0 }, "g", "slow-release a pot"),
        Field::may("n_percent", PERCENT, "%", "N of it, from the pack"),
    ],
};
static NUTRIENT: Table = Table {
    name: "nutrient",
    fields: &[
        Field::need("material", Form::Term(codes::<Material>), "", "the salt"),
        Field::need("ppm", PPM, "ppm", "of Mg, Mo or Ca in the finished solution"),
        Field::need("how", Form::Term(codes::<Method>), "", "how it was given"),
        ML_PER_POT,
    ],
};
static GROWTH_REGULATOR: Table = Table {
    name: "growth-regulator",
    fields: &[
        Field::need("parts", Form::Parts, "", "active ingredients of the tank and their ppm"),
        Field::need("how", Form::Term(codes::<Method>), "", "how it was given"),
        RE_ENTRY,
        ML_PER_POT,
        PRODUCT,
        RATE,
    ],
};
static SPRAYED: Table = Table {
    name: "sprayed",
    fields: &[
        Field::need("ai", NAME, "", "active ingredient by its common name"),
        Field::need("against", NAME, "", "the pest or disease"),
        Field::need("how", Form::Term(codes::<How>), "", "how it was put on"),
        RE_ENTRY,
        PRODUCT,
        RATE,
    ],
};
static RELEASED: Table = Table {
    name: "released",
    fields: &[Field::need("species", NAME, "", "the beneficial"), Field::need("count", SOME, "", "how many")],
};
static PINCHED: Table = Table {
    name: "pinched",
    fields: &[
        Field::need("how", Form::Term(codes::<PinchHow>), "", "how the pinch was made"),
        Field::may("nodes_left", Form::Count { least: 1, most: 50 }, "", "nodes left"),
    ],
};
static BLACKOUT: Table = Table {
    name: "blackout",
    fields: &[
        Field::need("night", Form::Day, "", "the date of its evening"),
        Field::need("covered", Form::YesNo, "", "true where the cloth was drawn"),
    ],
};
static LIGHTS: Table = Table {
    name: "lights",
    fields: &[
        Field::need("night", Form::Day, "", "the date of its evening"),
        Field::need("on", Form::YesNo, "", "true where the lamps burned"),
    ],
};
static SPACED: Table = Table {
    name: "spaced",
    fields: &[Field::need("centers_cm", Form::Number { least: 1.0, most: 500.0 }, "cm", "pot center to pot center")],
};
static MOVED: Table = Table {
    name: "moved",
    fields: &[Field::need("to", Form::Code, "", "the bench they go to"), Field::need("pots", SOME, "", "pots moved")],
};
static SOLD: Table = Table { name: "sold", fields: &[Field::need("pots", SOME, "", "pots sold")] };
static PUT_OFF: Table = Table {
    name: "put-off",
    fields: &[
        Field::need("warning", NAME, "", "the warning's name"),
        Field::need("until", Form::Day, "", "the day it comes back"),
        Field::need("why", SENTENCE, "", "the reason"),
    ],
};
static STRIKE: Table = Table {
    name: "strike",
    fields: &[
        Field::need("entry", Form::Id, "", "the entry struck out"),
        Field::need("why", SENTENCE, "", "the reason"),
        Field::may("reopen", Form::YesNo, "", "true: a re-entry interval of it ends too"),
    ],
};
