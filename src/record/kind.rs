//! Every kind of entry with its own fields. Field names and units are the journal's.

use super::{How, LeafSign, Material, Method, PestName, PinchHow, PlantPart, Reach, RootSign, TestMethod};
use crate::terms::terms;
use chrono::NaiveDate;
use uuid::Uuid;

/// One active ingredient in a tank.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Active ingredient by its common name.
    pub ai: String,
    /// ppm of the active ingredient in the finished solution.
    pub ppm: f64,
}

/// How a pest was counted.
#[derive(Debug, Clone, PartialEq)]
pub enum PestCount {
    /// Plants looked at, and how many carry it.
    Plants {
        /// Plants looked at.
        inspected: u32,
        /// Plants with it.
        infested: u32,
    },
    /// Sticky cards.
    Cards {
        /// Cards read.
        cards: u32,
        /// Insects on all of them.
        count: u32,
        /// Days the cards hung.
        days: u32,
    },
    /// Larvae on a potato wedge.
    Wedge {
        /// Larvae a wedge.
        larvae: f64,
    },
}

/// What was seen or done.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "the fields are the journal's, described in the field table of `schema`")]
pub enum Kind {
    Water {
        level: u8,
        base: Option<u8>,
    },
    Roots {
        score: u8,
        pots: Option<u32>,
        bad: Option<u32>,
        signs: Vec<RootSign>,
        reach: Option<Reach>,
    },
    Bracts {
        stage: u8,
    },
    Height {
        cm: Vec<f64>,
    },
    Leaves {
        signs: Vec<LeafSign>,
        r#where: Option<PlantPart>,
    },
    Pests {
        pest: PestName,
        count: PestCount,
    },
    RootZone {
        method: TestMethod,
        ph: Option<f64>,
        ec_ms_cm: Option<f64>,
        pots: Option<u32>,
    },
    FeedCheck {
        ph: Option<f64>,
        ec_ms_cm: Option<f64>,
        alkalinity_ppm: Option<f64>,
        mg_ppm: Option<f64>,
    },
    Climate {
        day_c: Option<f64>,
        night_c: Option<f64>,
        humidity_percent: Option<f64>,
    },
    NightLight {
        lux: f64,
    },
    Losses {
        pots: u32,
        cause: Option<String>,
    },
    Counted {
        pots: u32,
    },
    Grade {
        sell: u32,
        second: u32,
        dump: u32,
    },
    Note,
    Watered {
        ml_per_pot: Option<f64>,
    },
    Fed {
        n_ppm: f64,
        mg_ppm: Option<f64>,
        mo_ppm: Option<f64>,
        ml_per_pot: Option<f64>,
    },
    Topdressed {
        g_per_pot: f64,
        n_percent: Option<f64>,
    },
    Nutrient {
        material: Material,
        ppm: f64,
        how: Method,
        ml_per_pot: Option<f64>,
    },
    GrowthRegulator {
        parts: Vec<Part>,
        how: Method,
        re_entry_h: f64,
        ml_per_pot: Option<f64>,
        product: Option<String>,
        rate: Option<String>,
    },
    Sprayed {
        ai: String,
        against: String,
        how: How,
        re_entry_h: f64,
        product: Option<String>,
        rate: Option<String>,
    },
    Released {
        species: String,
        count: u32,
    },
    Pinched {
        how: PinchHow,
        nodes_left: Option<u32>,
    },
    Blackout {
        night: NaiveDate,
        covered: bool,
    },
    Lights {
        night: NaiveDate,
        on: bool,
    },
    Spaced {
        centers_cm: f64,
    },
    Moved {
        to: String,
        pots: u32,
    },
    Sold {
        pots: u32,
    },
    PutOff {
        warning: String,
        until: NaiveDate,
        why: String,
    },
    Strike {
        entry: Uuid,
        why: String,
        reopen: bool,
    },
}

terms!(
    /// The names of the kinds.
    #[expect(missing_docs, reason = "each is the name of the `Kind` of that name")]
    KindName {
        Water = "water", "water";
        Roots = "roots", "roots";
        Bracts = "bracts", "bracts";
        Height = "height", "height";
        Leaves = "leaves", "leaves";
        Pests = "pests", "pests";
        RootZone = "root-zone", "root zone";
        FeedCheck = "feed-check", "feed check";
        Climate = "climate", "climate";
        NightLight = "night-light", "night light";
        Losses = "losses", "losses";
        Counted = "counted", "counted";
        Grade = "grade", "grade";
        Note = "note", "note";
        Watered = "watered", "watered";
        Fed = "fed", "fed";
        Topdressed = "topdressed", "topdressed";
        Nutrient = "nutrient", "nutrient";
        GrowthRegulator = "growth-regulator", "growth regulator";
        Sprayed = "sprayed", "sprayed";
        Released = "released", "beneficials released";
        Pinched = "pinched", "pinched";
        Blackout = "blackout", "black cloth";
        Lights = "lights", "lamps";
        Spaced = "spaced", "spaced";
        Moved = "moved", "moved";
        Sold = "sold", "sold";
        PutOff = "put-off", "put off";
        Strike = "strike", "struck out";
    }
);

impl KindName {
    /// True for findings (seen), false for work (done).
    pub const fn is_finding(self) -> bool {
        (self as u8) <= (Self::Note as u8)
    }
}

impl Kind {
    /// Its name.
    pub const fn name(&self) -> KindName {
        match self {
            Self::Water { .. } => KindName::Water,
            Self::Roots { .. } => KindName::Roots,
            Self::Bracts { .. } => KindName::Bracts,
            Self::Height { .. } => KindName::Height,
            Self::Leaves { .. } => KindName::Leaves,
            Self::Pests { .. } => KindName::Pests,
            Self::RootZone { .. } => KindName::RootZone,
            Self::FeedCheck { .. } => KindName::FeedCheck,
            Self::Climate { .. } => KindName::Climate,
            Self::NightLight { .. } => KindName::NightLight,
            Self::Losses { .. } => KindName::Losses,
            Self::Counted { .. } => KindName::Counted,
            Self::Grade { .. } => KindName::Grade,
            Self::Note => KindName::Note,
            Self::Watered { .. } => KindName::Watered,
            Self::Fed { .. } => KindName::Fed,
            Self::Topdressed { .. } => KindName::Topdressed,
            Self::Nutrient { .. } => KindName::Nutrient,
            Self::GrowthRegulator { .. } => KindName::GrowthRegulator,
            Self::Sprayed { .. } => KindName::Sprayed,
            Self::Released { .. } => KindName::Released,
            Self::Pinched { .. } => KindName::Pinched,
            Self::Blackout { .. } => KindName::Blackout,
            Self::Lights { .. } => KindName::Lights,
            Self::Spaced { .. } => KindName::Spaced,
            Self::Moved { .. } => KindName::Moved,
            Self::Sold { .. } => KindName::Sold,
            Self::PutOff { .. } => KindName::PutOff,
            Self::Strike { .. } => KindName::Strike,
        }
    }
}
