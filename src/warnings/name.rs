//! Every warning by name, in the order of the review.

use crate::record::Term;

macro_rules! names {
    ($($variant:ident = $code:literal;)+) => {
        /// The name of a warning; its spelling stands in the review and in `put-off` entries.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[expect(missing_docs, reason = "each name is its meaning; the rule's own file says the rest")]
        pub enum WarningName { $($variant),+ }

        impl Term for WarningName {
            const ALL: &'static [Self] = &[$(Self::$variant),+];
            fn code(self) -> &'static str { match self { $(Self::$variant => $code),+ } }
            fn text(self) -> &'static str { self.code() }
        }
    };
}

names! {
    StayingWet = "staying-wet";
    WateredWet = "watered-wet";
    WiltingWet = "wilting-wet";
    WetBase = "wet-base";
    DryBase = "dry-base";
    TooDry = "too-dry";
    RootsBrowning = "roots-browning";
    RootsFailing = "roots-failing";
    RootsDiseased = "roots-diseased";
    RootsUnchecked = "roots-unchecked";
    LossesRising = "losses-rising";
    MagnesiumDue = "magnesium-due";
    MagnesiumMissed = "magnesium-missed";
    MolybdenumDue = "molybdenum-due";
    MolybdenumMissed = "molybdenum-missed";
    Unfed = "unfed";
    SaltsHigh = "salts-high";
    SaltsLow = "salts-low";
    PhLow = "ph-low";
    PhHigh = "ph-high";
    RootZoneUntested = "root-zone-untested";
    TaperFeed = "taper-feed";
    CalciumDue = "calcium-due";
    PinchDue = "pinch-due";
    PinchOverdue = "pinch-overdue";
    PinchedInError = "pinched-in-error";
    TooTall = "too-tall";
    TooShort = "too-short";
    FinishingTall = "finishing-tall";
    FinishingShort = "finishing-short";
    Unmeasured = "unmeasured";
    GrowthRegulatorLate = "growth-regulator-late";
    GrowthRegulatorStrong = "growth-regulator-strong";
    NightLight = "night-light";
    BlackoutMissed = "blackout-missed";
    LightsMissed = "lights-missed";
    ColorBehind = "color-behind";
    ColorAhead = "color-ahead";
    HeatDelay = "heat-delay";
    ColdNights = "cold-nights";
    MoldWeather = "mold-weather";
    Whitefly = "whitefly";
    Thrips = "thrips";
    FungusGnats = "fungus-gnats";
    Mites = "mites";
    Mealybugs = "mealybugs";
    PowderyMildew = "powdery-mildew";
    GrayMold = "gray-mold";
    Scab = "scab";
    Unscouted = "unscouted";
    NotWalked = "not-walked";
    HouseTrouble = "house-trouble";
    ShortCount = "short-count";
}
