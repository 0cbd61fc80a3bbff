//! Every rule, one file each; this list is their one order, in the review and everywhere else.
//!
//! A file holds everything about its warning. Its head says what the rule sees, why that matters, its numbers with their bases,
//! how strong it is, what ends it and of which class it is (state, event or date: how long it lasts unanswered); its [`Rule`]
//! holds name, words, cause, class, answers and signs; below stands the rule itself. Two warnings share a file where one rule
//! decides between them.

use super::rule::Rule;
use crate::record::Term;

mod base_moisture;
mod blackout_missed;
mod bract_burn;
mod bracts_unchecked;
mod buds_dropping;
mod calcium_due;
mod cold_nights;
mod color_ahead;
mod color_behind;
mod dry_young;
mod finishing;
mod fungus_gnats;
mod gray_mold;
mod growth_regulator_late;
mod growth_regulator_strong;
mod heat_delay;
mod heat_early;
mod house_trouble;
mod humid_leaves;
mod leaf_signs;
mod lights_missed;
mod losses_rising;
mod magnesium;
mod mealybugs;
mod mites;
mod mold_weather;
mod molybdenum;
mod night_light;
mod not_walked;
mod outside_window;
mod ph;
mod pinch;
mod pinched_in_error;
mod powdery_mildew;
mod root_zone_untested;
mod roots_browning;
mod roots_diseased;
mod roots_failing;
mod roots_unchecked;
mod salts_high;
mod salts_low;
mod scab;
mod short_count;
mod staying_wet;
mod stem_broken;
mod taper_feed;
mod thrips;
mod too_dry;
mod unfed;
mod unmeasured;
mod unscouted;
mod watered_wet;
mod whitefly;
mod wilting_wet;

macro_rules! rules {
    ($($name:ident = $file:ident::$rule:ident;)+) => {
        /// The name of a warning; its spelling stands in the review and in `put-off` entries.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[expect(missing_docs, reason = "each name is its meaning; the rule's own file says the rest")]
        pub enum WarningName { $($name),+ }

        impl WarningName {
            /// Everything about the warning of this name.
            pub fn rule(self) -> &'static Rule {
                match self { $(Self::$name => &$file::$rule),+ }
            }

            /// What it is, in two to four words.
            pub fn title(self) -> &'static str {
                self.rule().title
            }
        }

        impl Term for WarningName {
            const ALL: &'static [Self] = &[$(Self::$name),+];
            fn code(self) -> &'static str { self.rule().code }
            fn text(self) -> &'static str { self.code() }
        }

        /// Every rule, in the order of the review.
        pub static RULES: &[&Rule] = &[$(&$file::$rule),+];
    };
}

rules! {
    StayingWet = staying_wet::RULE;
    WateredWet = watered_wet::RULE;
    WiltingWet = wilting_wet::RULE;
    WetBase = base_moisture::WET;
    DryBase = base_moisture::DRY;
    TooDry = too_dry::RULE;
    DryYoung = dry_young::RULE;
    RootsBrowning = roots_browning::RULE;
    RootsFailing = roots_failing::RULE;
    RootsDiseased = roots_diseased::RULE;
    RootsUnchecked = roots_unchecked::RULE;
    LossesRising = losses_rising::RULE;
    MagnesiumDue = magnesium::DUE;
    MagnesiumMissed = magnesium::MISSED;
    MolybdenumDue = molybdenum::DUE;
    MolybdenumMissed = molybdenum::MISSED;
    Unfed = unfed::RULE;
    SaltsHigh = salts_high::RULE;
    SaltsLow = salts_low::RULE;
    PhLow = ph::LOW;
    PhHigh = ph::HIGH;
    RootZoneUntested = root_zone_untested::RULE;
    TaperFeed = taper_feed::RULE;
    CalciumDue = calcium_due::RULE;
    PinchDue = pinch::DUE;
    PinchOverdue = pinch::OVERDUE;
    PinchedInError = pinched_in_error::RULE;
    TooTall = outside_window::TALL;
    TooShort = outside_window::SHORT;
    FinishingTall = finishing::TALL;
    FinishingShort = finishing::SHORT;
    Unmeasured = unmeasured::RULE;
    GrowthRegulatorLate = growth_regulator_late::RULE;
    GrowthRegulatorStrong = growth_regulator_strong::RULE;
    NightLight = night_light::RULE;
    BlackoutMissed = blackout_missed::RULE;
    LightsMissed = lights_missed::RULE;
    ColorBehind = color_behind::RULE;
    ColorAhead = color_ahead::RULE;
    BractsUnchecked = bracts_unchecked::RULE;
    HeatEarly = heat_early::RULE;
    HeatDelay = heat_delay::RULE;
    ColdNights = cold_nights::RULE;
    HumidLeaves = humid_leaves::RULE;
    MoldWeather = mold_weather::RULE;
    Whitefly = whitefly::RULE;
    Thrips = thrips::RULE;
    FungusGnats = fungus_gnats::RULE;
    Mites = mites::RULE;
    Mealybugs = mealybugs::RULE;
    PowderyMildew = powdery_mildew::RULE;
    GrayMold = gray_mold::RULE;
    Scab = scab::RULE;
    BractBurn = bract_burn::RULE;
    StemBroken = stem_broken::RULE;
    BudsDropping = buds_dropping::RULE;
    LeafSigns = leaf_signs::RULE;
    Unscouted = unscouted::RULE;
    NotWalked = not_walked::RULE;
    HouseTrouble = house_trouble::RULE;
    ShortCount = short_count::RULE;
}

/// What a view of a bench shows of the extra nutrients: when each was given.
pub(super) use magnesium::last_given as last_magnesium;
pub(super) use molybdenum::first_given as first_molybdenum;
pub use not_walked::is_walk;
pub(super) use not_walked::last_walk;
pub(super) use not_walked::unwalked;
pub(super) use unscouted::last_look;

#[cfg(test)]
mod tests {
    use super::WarningName as N;
    use super::*;
    use crate::crop::feed::published_range;
    use crate::record::KindName;
    use crate::warnings::{Cause, Class, Find, Remedy};
    use std::collections::BTreeSet;

    #[test]
    fn the_list_is_in_the_order_of_the_names_and_every_name_finds_its_own_rule() {
        let names: Vec<WarningName> = RULES.iter().map(|rule| rule.name).collect();
        assert_eq!(names, WarningName::ALL);
        for name in WarningName::ALL {
            assert_eq!(name.rule().name, *name);
        }
        let codes: BTreeSet<&str> = RULES.iter().map(|rule| rule.code).collect();
        assert_eq!(codes.len(), RULES.len(), "a code names one warning");
        for code in codes {
            assert!(code.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{code}");
        }
    }

    #[test]
    fn every_rule_has_words_that_fit_a_line() {
        for rule in RULES {
            assert!((1..=28).contains(&rule.title.chars().count()), "{}", rule.title);
            assert!(!rule.next.is_empty(), "{}", rule.code);
            for text in rule.next.iter().map(|step| step.text).chain([rule.why]) {
                assert!(text.ends_with('.') && text.chars().count() <= 150, "{text}");
            }
        }
    }

    #[test]
    fn every_rule_is_complete() {
        for rule in RULES {
            let code = rule.code;
            if let Find::Twin(name) = rule.find {
                assert!(matches!(name.rule().find, Find::Bench(_)), "{code}: its twin looks for it");
                assert_eq!(name.rule().cause, rule.cause, "{code}: twins have one cause");
            }
            if let Cause::Pest(name) = rule.cause {
                assert_eq!(name, rule.name, "{code}: a pest is its own cause");
            }
            if let Some(signs) = &rule.signs {
                assert!(signs.roots || !signs.leaves.is_empty(), "{code} speaks of signs");
            }
            if let Some(work) = &rule.follow_up {
                assert!(!work.kinds.is_empty(), "{code}");
                assert_eq!(work.kinds.contains(&KindName::Sprayed), !work.against.is_empty(), "{code}");
                assert!(work.against.iter().all(|word| *word == word.to_lowercase()), "{code}");
            }
            for answer in rule.answers {
                assert!(!answer.title.is_empty(), "{code}");
                match answer.remedy {
                    Remedy::Nutrient { material, given } => {
                        assert!(published_range(material, given).is_some(), "{code}: none published");
                    }
                    Remedy::LastNight(kind) => assert!(matches!(kind, KindName::Blackout | KindName::Lights), "{code}"),
                    Remedy::Spray { against } => {
                        let work = rule.follow_up.as_ref().expect("a spray is followed up");
                        assert!(work.against.iter().any(|word| against.contains(word)), "{code}: {against}");
                    }
                    Remedy::Entry(_) | Remedy::Feed | Remedy::GrowthRegulator | Remedy::Pinch | Remedy::Count(_) => {}
                }
            }
        }
    }

    /// What stands until a newer look.
    const STATES: &[N] = &[
        N::StayingWet,
        N::WiltingWet,
        N::BractBurn,
        N::WetBase,
        N::DryBase,
        N::TooDry,
        N::RootsBrowning,
        N::RootsFailing,
        N::RootsDiseased,
        N::SaltsHigh,
        N::SaltsLow,
        N::PhLow,
        N::PhHigh,
        N::TooTall,
        N::TooShort,
        N::FinishingTall,
        N::FinishingShort,
        N::NightLight,
        N::Whitefly,
        N::Thrips,
        N::FungusGnats,
        N::Mites,
        N::Mealybugs,
        N::PowderyMildew,
        N::GrayMold,
        N::Scab,
        N::HouseTrouble,
        N::ShortCount,
    ];

    /// What fades by days.
    const EVENTS: &[N] = &[
        N::DryYoung,
        N::HeatEarly,
        N::HumidLeaves,
        N::WateredWet,
        N::LossesRising,
        N::PinchedInError,
        N::GrowthRegulatorLate,
        N::GrowthRegulatorStrong,
        N::BlackoutMissed,
        N::LightsMissed,
        N::HeatDelay,
        N::ColdNights,
        N::MoldWeather,
        N::StemBroken,
        N::BudsDropping,
        N::LeafSigns,
    ];

    /// What stands until done or moot.
    const DATES: &[N] = &[
        N::BractsUnchecked,
        N::RootsUnchecked,
        N::MagnesiumDue,
        N::MagnesiumMissed,
        N::MolybdenumDue,
        N::MolybdenumMissed,
        N::Unfed,
        N::RootZoneUntested,
        N::TaperFeed,
        N::CalciumDue,
        N::PinchDue,
        N::PinchOverdue,
        N::Unmeasured,
        N::ColorBehind,
        N::ColorAhead,
        N::Unscouted,
        N::NotWalked,
    ];

    /// The class of a warning, beside the rules themselves; `None` where it is not in one list.
    fn class_of(name: N) -> Option<Class> {
        let lists = [(STATES, Class::State), (EVENTS, Class::Event), (DATES, Class::Date)];
        let mut of = lists.into_iter().filter(|(names, _)| names.contains(&name)).map(|(_, class)| class);
        of.next().filter(|_| of.next().is_none())
    }

    #[test]
    fn every_rule_has_its_class_and_its_head_names_it() {
        let dir = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/warnings/rules");
        for rule in RULES {
            assert_eq!(Some(rule.class), class_of(rule.name), "{}", rule.code);
        }
        for path in std::fs::read_dir(dir).unwrap().map(|e| e.unwrap().path()).filter(|p| !p.ends_with("mod.rs")) {
            let text = std::fs::read_to_string(&path).unwrap();
            let head: String = text.lines().take_while(|l| l.starts_with("//!")).collect();
            for rule in RULES.iter().filter(|rule| text.contains(&format!("code: \"{}\"", rule.code))) {
                let named = format!("**Class** {}", rule.class.text());
                assert!(head.contains(&named), "{}: {} is no {named}", path.display(), rule.code);
            }
        }
    }

    #[test]
    fn every_file_of_rules_is_listed_and_its_head_says_what_ends_it() {
        let dir = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/warnings/rules");
        let mut listed = 0;
        for path in std::fs::read_dir(dir).unwrap().map(|e| e.unwrap().path()).filter(|p| !p.ends_with("mod.rs")) {
            let text = std::fs::read_to_string(&path).unwrap();
            let head: String = text.lines().take_while(|l| l.starts_with("//!")).collect();
            assert!(head.contains("**Ends**"), "{}", path.display());
            let own = RULES.iter().filter(|rule| text.contains(&format!("code: \"{}\"", rule.code)));
            let codes: Vec<&str> = own.map(|rule| rule.code).collect();
            assert!(!codes.is_empty(), "{} holds no rule", path.display());
            for code in &codes {
                assert!(head.contains(&format!("`{code}`")), "{}: {code}", path.display());
            }
            listed += codes.len();
            for group in ["water", "feed", "growth", "light", "leaves", "pests", "round"] {
                let literal = format!("\"{group}.");
                assert!(!text.contains(&literal), "{}: a limit is named by its typed key", path.display());
            }
        }
        assert_eq!(listed, RULES.len(), "each rule stands in one file");
    }
}
