//! The faults, what tells of each, and when its loss can be seen by anybody.

use benchwalk::warnings::{Severity, WarningName};

/// A fault put into a season.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Fault {
    /// Nothing goes wrong.
    None,
    /// A drip line leaks on one bench, after day 36.
    Leak,
    /// The same on a bench of young plants, day 15 to 30.
    LeakYoung,
    /// Pots of one bench stand in water: the base stays soaked, the top dries.
    Puddle,
    /// A line is blocked: one bench is no longer watered.
    Dry,
    /// The sixth week's magnesium and molybdenum are forgotten on one lot.
    Drench,
    /// A lamp shines on a house from some night of the first weeks of short days on.
    Lamp,
    /// A week of warm nights in the first four weeks of short days.
    Heat,
    /// Whitefly arrives on one bench.
    Whitefly,
    /// One night the cloth is not drawn.
    Night,
    /// A drip line leaks in the last five weeks, when everything dries slowly.
    LeakLate,
    /// From two weeks of short days on the houses are kept cool and the weather is dull: the color comes after the sale.
    CoolFinish,
    /// Branches crack where they join the stem, on two benches.
    Cracked,
    /// Fumes of a heater bend the leaf stalks down in a house.
    Ethylene,
    /// A lot is fed too little potassium: salts fall, then the edges of old leaves turn yellow.
    Potassium,
    /// The pH of a lot rises, test by test.
    PhDrift,
    /// Some days of great heat in the first three weeks.
    HeatYoung,
    /// Nothing is wrong, but at four looks in ten a trifle is written: a yellow leaf, a chewed one.
    Trifles,
    /// Nothing is wrong, but in the last five weeks a watering lasts five days.
    SlowLate,
}

impl Fault {
    pub(crate) const ALL: [Self; 19] = [
        Self::None,
        Self::Leak,
        Self::LeakYoung,
        Self::Puddle,
        Self::Dry,
        Self::Drench,
        Self::Lamp,
        Self::Heat,
        Self::Whitefly,
        Self::Night,
        Self::LeakLate,
        Self::CoolFinish,
        Self::Cracked,
        Self::Ethylene,
        Self::Potassium,
        Self::PhDrift,
        Self::HeatYoung,
        Self::Trifles,
        Self::SlowLate,
    ];

    pub(crate) const fn text(self) -> &'static str {
        match self {
            Self::None => "no fault",
            Self::Leak => "leaking line",
            Self::LeakYoung => "leaking line, young plants",
            Self::Puddle => "pots stand in water",
            Self::Dry => "blocked line",
            Self::Drench => "forgotten drench",
            Self::Lamp => "lamp at night",
            Self::Heat => "week of hot nights",
            Self::Whitefly => "whitefly arrives",
            Self::Night => "a night not covered",
            Self::LeakLate => "leaking line, last five weeks",
            Self::CoolFinish => "cool dull finish",
            Self::Cracked => "branches crack",
            Self::Ethylene => "fumes of a heater",
            Self::Potassium => "potassium short",
            Self::PhDrift => "pH rises",
            Self::HeatYoung => "great heat after planting",
            Self::Trifles => "trifles noted, nothing wrong",
            Self::SlowLate => "slow to dry late, nothing wrong",
        }
    }

    /// The warnings that tell of it.
    pub(crate) const fn told_by(self) -> &'static [WarningName] {
        match self {
            Self::None | Self::Trifles | Self::SlowLate => &[],
            Self::Cracked => &[WarningName::StemBroken],
            Self::Ethylene => &[WarningName::LeafSigns],
            Self::Potassium => &[WarningName::LeafSigns, WarningName::SaltsLow],
            Self::PhDrift => &[WarningName::PhHigh],
            Self::HeatYoung => &[WarningName::HeatEarly],
            Self::CoolFinish => &[WarningName::ColorBehind],
            Self::Leak | Self::LeakYoung | Self::LeakLate => &[
                WarningName::StayingWet,
                WarningName::WateredWet,
                WarningName::WetBase,
                WarningName::RootsBrowning,
                WarningName::RootsFailing,
            ],
            Self::Puddle => &[WarningName::WetBase, WarningName::RootsBrowning, WarningName::RootsFailing],
            Self::Dry => &[WarningName::TooDry],
            Self::Drench => &[WarningName::MagnesiumMissed, WarningName::MolybdenumMissed],
            Self::Lamp => &[WarningName::NightLight],
            Self::Heat => &[WarningName::HeatDelay],
            Self::Whitefly => &[WarningName::Whitefly],
            Self::Night => &[WarningName::BlackoutMissed],
        }
    }

    /// The level from which it counts as told: whitefly below a fifth of the plants is looked after, not sprayed; of cracked
    /// branches, potassium and early heat a watch is all that is wanted.
    pub(crate) const fn told_at(self) -> Severity {
        match self {
            Self::Whitefly | Self::Cracked | Self::Potassium | Self::HeatYoung => Severity::Watch,
            _ => Severity::Act,
        }
    }

    /// Everything else that may rightly speak once it has happened.
    pub(crate) const fn also(self) -> &'static [WarningName] {
        match self {
            // A bench that is never watered never gets its dose, which goes with a watering.
            Self::Leak | Self::LeakYoung | Self::LeakLate | Self::Puddle | Self::Dry => &[
                WarningName::DryBase,
                WarningName::StayingWet,
                WarningName::Unfed,
                WarningName::HouseTrouble,
                WarningName::LossesRising,
                WarningName::MagnesiumMissed,
                WarningName::MolybdenumMissed,
            ],
            Self::Drench => &[WarningName::MagnesiumDue, WarningName::MolybdenumDue],
            Self::Lamp | Self::Heat | Self::Night => &[WarningName::ColorBehind],
            Self::CoolFinish => &[WarningName::ColdNights],
            Self::Cracked => &[WarningName::LeafSigns],
            Self::None
            | Self::Whitefly
            | Self::Ethylene
            | Self::Potassium
            | Self::PhDrift
            | Self::HeatYoung
            | Self::Trifles
            | Self::SlowLate => &[],
        }
    }

    /// True where nothing is wrong: there is nothing to be told.
    pub(crate) const fn is_none(self) -> bool {
        matches!(self, Self::None | Self::Trifles | Self::SlowLate)
    }

    /// True for a fault that browns the roots: it is to be told days before that is seen.
    pub(crate) const fn is_wet(self) -> bool {
        matches!(self, Self::Leak | Self::LeakYoung | Self::LeakLate | Self::Puddle)
    }
}
