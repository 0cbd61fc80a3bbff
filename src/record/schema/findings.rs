//! The own fields of the findings.

use super::super::{KindName, LeafSign, PestName, PlantPart, Reach, RootSign, TestMethod};
use super::{COUNT, EC, Field, Form, NAME, PERCENT, PH, PPM, SOME, Table, codes};

const DIGIT: Form = Form::Level { least: 1, most: 5 };
const CELSIUS: Form = Form::Number { least: -60.0, most: 70.0 };

pub(super) fn table(kind: KindName) -> &'static Table {
    match kind {
        KindName::Water => &WATER,
        KindName::Roots => &ROOTS,
        KindName::Bracts => &BRACTS,
        KindName::Height => &HEIGHT,
        KindName::Leaves => &LEAVES,
        KindName::Pests => &PESTS,
        KindName::RootZone => &ROOT_ZONE,
        KindName::FeedCheck => &FEED_CHECK,
        KindName::Climate => &CLIMATE,
        KindName::NightLight => &NIGHT_LIGHT,
        KindName::Losses => &LOSSES,
        KindName::Counted => &COUNTED,
        KindName::Grade => &GRADE,
        _ => &NOTE,
    }
}

static WATER: Table = Table {
    name: "water",
    fields: &[
        Field::need("level", DIGIT, "", "by lift and surface: 1 dry to 5 saturated"),
        Field::may("base", DIGIT, "", "at the base of the pot: 1 dry to 5 saturated"),
    ],
};
static ROOTS: Table = Table {
    name: "roots",
    fields: &[
        Field::need("score", Form::Level { least: 0, most: 5 }, "", "the worst pot: 0 white to 5 more than 75 % brown"),
        Field::may("pots", SOME, "", "pots knocked out"),
        Field::may("bad", COUNT, "", "of these, the bad ones"),
        Field::may("signs", Form::Terms(codes::<RootSign>), "", "signs of disease or pest"),
        Field::may("reach", Form::Term(codes::<Reach>), "", "how far the roots reach"),
    ],
};
static BRACTS: Table =
    Table { name: "bracts", fields: &[Field::need("stage", Form::Level { least: 1, most: 7 }, "", "bract stage")] };
static HEIGHT: Table = Table {
    name: "height",
    fields: &[Field::need(
        "cm",
        Form::Numbers { least: 1.0, most: 500.0 },
        "cm",
        "bench to growing tip, the tagged plants in their order",
    )],
};
static LEAVES: Table = Table {
    name: "leaves",
    fields: &[
        Field::need("signs", Form::Terms(codes::<LeafSign>), "", "what was seen; empty: looked, nothing seen"),
        Field::may("where", Form::Term(codes::<PlantPart>), "", "where on the plant"),
    ],
};
static PESTS: Table = Table {
    name: "pests",
    fields: &[
        Field::need("pest", Form::Term(codes::<PestName>), "", "the pest looked for"),
        Field::may("inspected", SOME, "plants", "plants looked at"),
        Field::may("infested", COUNT, "plants", "plants with it"),
        Field::may("cards", SOME, "", "sticky cards read"),
        Field::may("count", COUNT, "", "insects on all of them"),
        Field::may("days", Form::Count { least: 1, most: 366 }, "days", "days the cards hung"),
        Field::may("larvae", Form::Number { least: 0.0, most: 10_000.0 }, "", "larvae a potato wedge"),
    ],
};
static ROOT_ZONE: Table = Table {
    name: "root-zone",
    fields: &[
        Field::need("method", Form::Term(codes::<TestMethod>), "", "how it was tested"),
        Field::may("ph", PH, "", "pH"),
        Field::may("ec_ms_cm", EC, "mS/cm", "EC"),
        Field::may("pots", SOME, "", "pots sampled"),
    ],
};
static FEED_CHECK: Table = Table {
    name: "feed-check",
    fields: &[
        Field::may("ph", PH, "", "pH at the hose"),
        Field::may("ec_ms_cm", EC, "mS/cm", "EC at the hose"),
        Field::may("alkalinity_ppm", PPM, "ppm", "alkalinity as calcium carbonate"),
        Field::may("mg_ppm", PPM, "ppm", "Mg at the hose"),
    ],
};
static CLIMATE: Table = Table {
    name: "climate",
    fields: &[
        Field::may("day_c", CELSIUS, "°C", "mean of the day"),
        Field::may("night_c", CELSIUS, "°C", "mean of the night"),
        Field::may("humidity_percent", PERCENT, "%", "relative humidity"),
    ],
};
static NIGHT_LIGHT: Table = Table {
    name: "night-light",
    fields: &[Field::need("lux", Form::Number { least: 0.0, most: 200_000.0 }, "lux", "light among the plants")],
};
static LOSSES: Table = Table {
    name: "losses",
    fields: &[Field::need("pots", SOME, "", "pots lost"), Field::may("cause", NAME, "", "the cause, in words")],
};
static COUNTED: Table = Table { name: "counted", fields: &[Field::need("pots", COUNT, "", "pots standing now")] };
static GRADE: Table = Table {
    name: "grade",
    fields: &[
        Field::need("sell", COUNT, "pots", "fit to sell"),
        Field::need("second", COUNT, "pots", "second grade"),
        Field::need("dump", COUNT, "pots", "to dump; they leave the count"),
    ],
};
static NOTE: Table = Table { name: "note", fields: &[] };
