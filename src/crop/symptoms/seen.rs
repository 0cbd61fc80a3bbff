//! What is seen and known of a bench, and the single facts in it.

use super::super::root_zone::SaltState;
use crate::terms::{LeafSign, PlantPart, RootSign};

/// A macro for closed lists whose words are their documentation, so that the words exist once.
macro_rules! said {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $words:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $(#[doc = $words] $variant),+ }

        impl $name {
            /// Every one, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// In the trade's plain words.
            pub const fn words(self) -> &'static str { match self { $(Self::$variant => $words),+ } }
        }
    };
}
pub(super) use said;

said!(
    /// A sign of a cause for which the journal has no word.
    Unwritten {
        DarkShort = "dark green and short",
        TipDead = "growing tip dead",
        Mush = "stem base soft and rotted",
    }
);

/// What is seen and known of a bench. What is not known is left out: it then speaks neither for nor against.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Seen {
    /// Signs on the plant.
    pub signs: Vec<LeafSign>,
    /// Signs the journal has no word for.
    pub unwritten: Vec<Unwritten>,
    /// Where on the plant the leaf signs are.
    pub place: Option<PlantPart>,
    /// Water level 1 (dry) to 5 (soaked).
    pub water: Option<u8>,
    /// Root score 0 (white to the tips) to 5.
    pub roots: Option<u8>,
    /// Signs at the roots.
    pub root_signs: Vec<RootSign>,
    /// Root-zone pH.
    pub ph: Option<f64>,
    /// The band of the root-zone EC.
    pub salts: Option<SaltState>,
    /// Weeks after planting.
    pub week: Option<u32>,
    /// Temperature of the mix, or of the nights where that was not taken, °C.
    pub night_c: Option<f64>,
    /// Small dark flies over the pots or on cards.
    pub small_flies: bool,
    /// Whitefly found on the bench lately.
    pub whitefly: bool,
    /// Only one or a few cultivars show it.
    pub one_cultivar: bool,
}

said!(
    /// One fact that speaks for or against a cause.
    Clue {
        LowerYellow = "entire leaves yellow",
        Rolled = "leaves rolled",
        Wilted = "wilted",
        BetweenVeins = "yellow between the veins",
        EdgeYellow = "yellow leaf margins",
        EdgeBrown = "brown margins",
        PaleSpots = "pale spots",
        RaisedSpots = "raised spots",
        Stipple = "stippling",
        Sticky = "sticky leaves",
        Crinkled = "crinkled leaves",
        Stretched = "one stem stretched",
        GrayFuzz = "gray fuzz",
        WhitePowder = "white powder",
        WetBracts = "wet bracts",
        BudBeforeColor = "budded before the color",
        BrownSpots = "brown or haloed spots",
        Broken = "branch broken or hanging",
        BentDown = "leaves bent down but firm",
        RedOld = "old leaves red or purple",
        Blisters = "corky or milky blisters",
        Split = "split bracts",
        DroppedBuds = "buds yellow or dropped",
        Chewed = "chewed leaves",
        PaleNew = "newest leaves pale",
        DarkShort = "dark green and short",
        TipDead = "growing tip dead",
        Mush = "stem base soft and rotted",
        OnOld = "on old leaves",
        OnMiddle = "on middle leaves",
        OnYoung = "on young leaves",
        OnBracts = "on bracts",
        PlaceUnsaid = "leaf position not logged",
        MixWet = "mix wet (4-5)",
        MixDry = "mix dry (1)",
        MixFair = "mix neither wet nor dry",
        RootsWhite = "roots white (0-1)",
        RootsBrown = "roots brown (2 or more)",
        RootsFailing = "roots mostly brown (3 or more); healthy tops prove nothing",
        RootsUnseen = "roots not checked",
        SleeveOff = "the outer sleeve of roots slides off",
        BlackFirm = "roots black but firm",
        Canker = "a canker at the soil line",
        Larvae = "larvae in the mix",
        PhUnder55 = "root-zone pH under 5.5",
        Ph55AndOver = "root-zone pH 5.5 or more",
        PhFrom63 = "root-zone pH 6.3 or more",
        SaltsHigh = "salts high",
        SaltsLow = "salts low",
        CoolNight = "cool",
        WarmNight = "warm",
        FirstWeeks = "first 5 weeks",
        FromWeekSix = "week 6 or later",
        SmallFlies = "small dark flies",
        WhiteflySeen = "whitefly found lately",
        OneCultivar = "one cultivar only",
    }
);

impl Seen {
    /// True when this fact is among what is seen and known.
    #[expect(clippy::too_many_lines, reason = "a table of clues, one a line")]
    pub fn shows(&self, clue: Clue) -> bool {
        let leaf = |sign| self.signs.contains(&sign);
        let roots = |found: fn(u8) -> bool| self.roots.is_some_and(found);
        let ph = |found: fn(f64) -> bool| self.ph.is_some_and(found);
        let warmth = |found: fn(f64) -> bool| self.night_c.is_some_and(found);
        match clue {
            Clue::LowerYellow => leaf(LeafSign::LowerYellow),
            Clue::Rolled => leaf(LeafSign::Rolled),
            Clue::Wilted => leaf(LeafSign::Wilted),
            Clue::BetweenVeins => leaf(LeafSign::BetweenVeins),
            Clue::EdgeYellow => leaf(LeafSign::EdgeYellow),
            Clue::EdgeBrown => leaf(LeafSign::EdgeBrown),
            Clue::PaleSpots => leaf(LeafSign::PaleSpots),
            Clue::RaisedSpots => leaf(LeafSign::RaisedSpots),
            Clue::Stipple => leaf(LeafSign::Stipple),
            Clue::Sticky => leaf(LeafSign::Sticky),
            Clue::Crinkled => leaf(LeafSign::Crinkled),
            Clue::Stretched => leaf(LeafSign::Stretched),
            Clue::GrayFuzz => leaf(LeafSign::GrayFuzz),
            Clue::WhitePowder => leaf(LeafSign::WhitePowder),
            Clue::WetBracts => leaf(LeafSign::WetBracts),
            Clue::BudBeforeColor => leaf(LeafSign::BudBeforeColor),
            Clue::BrownSpots => leaf(LeafSign::BrownSpots),
            Clue::Broken => leaf(LeafSign::Broken),
            Clue::BentDown => leaf(LeafSign::BentDown),
            Clue::RedOld => leaf(LeafSign::RedOld),
            Clue::Blisters => leaf(LeafSign::Blisters),
            Clue::Split => leaf(LeafSign::Split),
            Clue::DroppedBuds => leaf(LeafSign::DroppedBuds),
            Clue::Chewed => leaf(LeafSign::Chewed),
            Clue::PaleNew => leaf(LeafSign::PaleNew),
            Clue::DarkShort => self.unwritten.contains(&Unwritten::DarkShort),
            Clue::TipDead => self.unwritten.contains(&Unwritten::TipDead),
            Clue::Mush => self.unwritten.contains(&Unwritten::Mush),
            Clue::OnOld => self.place == Some(PlantPart::Old),
            Clue::OnMiddle => self.place == Some(PlantPart::Middle),
            Clue::OnYoung => self.place == Some(PlantPart::Young),
            Clue::OnBracts => self.place == Some(PlantPart::Bract),
            Clue::PlaceUnsaid => self.place.is_none(),
            Clue::MixWet => self.water.is_some_and(|level| level >= 4),
            Clue::MixDry => self.water.is_some_and(|level| level <= 1),
            Clue::MixFair => self.water.is_none_or(|level| (2..=3).contains(&level)),
            Clue::RootsWhite => roots(|score| score <= 1),
            Clue::RootsBrown => roots(|score| score >= 2),
            Clue::RootsFailing => roots(|score| score >= 3),
            Clue::RootsUnseen => self.roots.is_none() && self.root_signs.is_empty(),
            Clue::SleeveOff => self.root_signs.contains(&RootSign::SleeveOff),
            Clue::BlackFirm => self.root_signs.contains(&RootSign::BlackFirm),
            Clue::Canker => self.root_signs.contains(&RootSign::Canker),
            Clue::Larvae => self.root_signs.contains(&RootSign::Larvae),
            Clue::PhUnder55 => ph(|ph| ph < 5.5),
            Clue::Ph55AndOver => ph(|ph| ph >= 5.5),
            Clue::PhFrom63 => ph(|ph| ph >= 6.3),
            Clue::SaltsHigh => self.salts.is_some_and(|state| state >= SaltState::TooHigh),
            Clue::SaltsLow => self.salts.is_some_and(|state| state <= SaltState::LowSide),
            Clue::CoolNight => warmth(|c| c < super::COOL_BELOW_C),
            Clue::WarmNight => warmth(|c| c >= super::WARM_FROM_C),
            Clue::FirstWeeks => self.week.is_some_and(|week| week <= 5),
            Clue::FromWeekSix => self.week.is_some_and(|week| week >= 6),
            Clue::SmallFlies => self.small_flies,
            Clue::WhiteflySeen => self.whitefly,
            Clue::OneCultivar => self.one_cultivar,
        }
    }
}
