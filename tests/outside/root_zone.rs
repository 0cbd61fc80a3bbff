//! Root zone classes, bounds and the mapping between methods.

use crate::basis::{Basis, Row};
use benchwalk::crop::root_zone::{
    EcClass, Moisture, PhBounds, PhState, SaltBounds, SaltState, Situation, Step, class_of, convert, judge_ph,
    judge_salts, salt_steps,
};
use benchwalk::terms::TestMethod;
use benchwalk::units::Conductivity;

const UMASS: Basis = Basis::Published(
    "UMass Extension, Soil tests: interpreting results of greenhouse soil tests (class table, read at one decimal through a copy)",
);
const UCONN: Basis =
    Basis::Published("Testing media for nutrients (UConn and UMass material), 2008: what 2.6 means by method");
const FLOORS: Basis =
    Basis::Published("Whipker, Warfield, Cloyd, Gibson and Cavins 2002, Avoiding top problems of poinsettias");
const NEWSLETTER: Basis =
    Basis::Published("university newsletter, poinsettia factsheet as quoted in a trade summary: pour-through 2.0-4.3");
const PENN: Basis =
    Basis::Published("Penn State Extension 2012, Roots infected with Pythium: SME 1-2 normal, sick 6-10");
const PLACE: Basis = Basis::Computed(
    "equal place within the class of the UMass Extension table, worked by hand; a house rule, not a regression",
);

const PT: TestMethod = TestMethod::PourThrough;
const SME: TestMethod = TestMethod::Sme;
const HALF: TestMethod = TestMethod::OneToTwo;

fn ms(value: f64) -> Conductivity {
    Conductivity::from_ms_cm(value)
}

fn yes(is: bool) -> f64 {
    f64::from(u8::from(is))
}

fn class(name: &str, basis: Basis, method: TestMethod, ec: f64, expected: EcClass) -> Row {
    Row::new(
        format!("{name} {ec} {method:?} is {expected:?}"),
        basis,
        1.0,
        0.0,
        yes(class_of(method, ms(ec)) == Ok(expected)),
    )
}

fn state(basis: Basis, method: TestMethod, ec: f64, expected: SaltState) -> Row {
    let got = judge_salts(ms(ec), &SaltBounds::published(method));
    Row::new(format!("{ec} {method:?} is {expected:?}"), basis, 1.0, 0.0, yes(got == Ok(expected)))
}

fn ph(basis: Basis, ph: f64, expected: PhState) -> Row {
    Row::new(
        format!("pH {ph} is {expected:?}"),
        basis,
        1.0,
        0.0,
        yes(judge_ph(ph, &PhBounds::ESTABLISHED) == Ok(expected)),
    )
}

pub(crate) fn rows() -> Vec<Row> {
    [classes(), mapping(), bounds(), bands()].concat()
}

fn classes() -> Vec<Row> {
    use EcClass::{Extreme, High, Low, Normal, VeryHigh, VeryLow};
    vec![
        class("reading", UCONN, HALF, 2.6, Extreme),
        class("reading", UCONN, SME, 2.6, Normal),
        class("reading", UCONN, PT, 2.6, Low),
        class("reading", UCONN, PT, 2.6, Normal).refuted(),
        class("inside", UMASS, PT, 0.9, VeryLow),
        class("inside", UMASS, PT, 4.0, Normal),
        class("inside", UMASS, PT, 5.5, High),
        class("inside", UMASS, PT, 7.0, VeryHigh),
        class("inside", UMASS, PT, 8.0, Extreme),
        class("inside", UMASS, SME, 0.5, VeryLow),
        class("inside", UMASS, SME, 1.5, Low),
        class("inside", UMASS, SME, 4.0, High),
        class("inside", UMASS, SME, 5.5, VeryHigh),
        class("inside", UMASS, SME, 6.1, Extreme),
        class("inside", UMASS, HALF, 0.2, VeryLow),
        class("inside", UMASS, HALF, 0.5, Low),
        class("inside", UMASS, HALF, 1.0, Normal),
        class("inside", UMASS, HALF, 1.5, High),
        class("inside", UMASS, HALF, 2.0, VeryHigh),
    ]
}

fn mapping() -> Vec<Row> {
    let map = |ec: f64, from: TestMethod, to: TestMethod, expected: f64| {
        let got = convert(ms(ec), from, to).map_or(f64::NAN, Conductivity::ms_cm);
        Row::new(format!("{ec} {from:?} as {to:?}"), PLACE, expected, 0.006, got)
    };
    vec![
        map(2.0, PT, SME, 1.55),
        map(2.0, PT, HALF, 0.61),
        map(4.3, PT, SME, 3.28),
        map(4.3, PT, HALF, 1.23),
        map(2.6, PT, SME, 2.0),
        map(3.5, SME, PT, 4.6),
        map(0.3, HALF, PT, 1.0),
        // One method's number is never another's.
        map(2.6, HALF, PT, 2.6).refuted(),
    ]
}

fn bounds() -> Vec<Row> {
    use SaltState::{FarTooHigh, HighSide, InRange, LowSide, TooHigh, TooLow};
    let advice =
        |slow_release, water| salt_steps(FarTooHigh, Situation { water: Some(water), slow_release, few_pots: false });
    vec![
        state(FLOORS, PT, 0.99, TooLow),
        state(FLOORS, PT, 1.0, LowSide),
        state(FLOORS, SME, 0.74, TooLow),
        state(FLOORS, SME, 0.75, InRange),
        state(FLOORS, HALF, 0.24, TooLow),
        state(FLOORS, HALF, 0.25, InRange),
        state(NEWSLETTER, PT, 1.9, LowSide),
        state(NEWSLETTER, PT, 2.0, InRange),
        state(NEWSLETTER, PT, 4.3, InRange),
        state(NEWSLETTER, PT, 4.4, HighSide),
        state(UMASS, PT, 4.7, TooHigh),
        state(UMASS, SME, 3.6, TooHigh),
        state(UMASS, HALF, 1.4, TooHigh),
        state(UMASS, PT, 7.9, FarTooHigh),
        state(UMASS, HALF, 2.4, FarTooHigh),
        state(PENN, SME, 7.0, FarTooHigh),
        state(PENN, SME, 1.5, InRange),
        Row::new(
            "asks for slow-release before leaching",
            PENN,
            1.0,
            0.0,
            yes(advice(None, Moisture::Moist).contains(&Step::AskSlowRelease)),
        ),
        Row::new(
            "never leaches over slow-release",
            PENN,
            0.0,
            0.0,
            yes(advice(Some(true), Moisture::Moist).contains(&Step::LeachClearWater)),
        ),
        Row::new(
            "never leaches a wet pot",
            Basis::CommonPractice,
            0.0,
            0.0,
            yes(advice(Some(false), Moisture::Wet).contains(&Step::LeachClearWater)),
        ),
        Row::new(
            "leaches where it may",
            PENN,
            1.0,
            0.0,
            yes(advice(Some(false), Moisture::Dry).contains(&Step::LeachClearWater)),
        ),
    ]
}

fn bands() -> Vec<Row> {
    const LIME: Basis = Basis::Published(
        "Owen, Whipker and Henry (university newsletter), Properly applying hydrated limestone: act below 5.4",
    );
    const ONTARIO: Basis = Basis::Published(
        "Ontario floriculture 2016, Be proactive about poinsettia nutrition: 5.8-6.2, trouble above 6.5",
    );
    const MSU: Basis = Basis::Published("Owen, MSU Extension, Magnesium deficiency in poinsettia: below 5.5");
    const CASE: Basis = Basis::Published(
        "university newsletter alert as summarized, Fixing micronutrient problems: short of iron and manganese at 6.3-6.4",
    );
    vec![
        ph(LIME, 5.39, PhState::TooLow),
        ph(LIME, 5.4, PhState::LowEdge),
        ph(MSU, 5.49, PhState::LowEdge),
        ph(ONTARIO, 5.8, PhState::OnTarget),
        ph(ONTARIO, 6.2, PhState::OnTarget),
        ph(ONTARIO, 6.6, PhState::TooHigh),
        ph(CASE, 6.3, PhState::HighEdge),
        ph(CASE, 6.4, PhState::HighEdge),
    ]
}
