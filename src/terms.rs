//! The closed lists of the trade, each once: spelling in the journal and the season file, and text on the screen.
//!
//! The limits, the agronomy and the records share these; none of them has a list of its own.

use crate::units::System;

/// One term of a closed list.
pub trait Term: Sized + Copy + 'static {
    /// Every term of the list, in the order they are offered.
    const ALL: &'static [Self];
    /// Its spelling in the journal and in the database.
    fn code(self) -> &'static str;
    /// In the trade's plain words.
    fn text(self) -> &'static str;
    /// The term with this spelling.
    fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|t| t.code() == code)
    }
    /// All spellings, for messages.
    fn known() -> String {
        Self::ALL.iter().map(|t| t.code()).collect::<Vec<_>>().join(", ")
    }
}

/// A closed list: `Variant = "code", "text";` a line.
macro_rules! terms {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $code:literal, $text:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }

        impl $crate::terms::Term for $name {
            const ALL: &'static [Self] = &[$(Self::$variant),+];
            fn code(self) -> &'static str { match self { $(Self::$variant => $code),+ } }
            fn text(self) -> &'static str { match self { $(Self::$variant => $text),+ } }
            fn from_code(code: &str) -> Option<Self> { match code { $($code => Some(Self::$variant),)+ _ => None } }
        }
    };
}

terms!(
    /// The fall climate of a site; it decides some last-safe days of growth regulators.
    Region {
        /// Cool nights and little light in fall (the north).
        Cool = "cool", "cool, dull fall";
        /// Warm and bright into fall (the south).
        Warm = "warm", "warm, bright fall";
    }
);
terms!(
    /// Whether and how a lot is to be pinched.
    Pinch {
        /// The tip and the expanding leaves.
        Soft = "soft", "soft pinch";
        /// The tip and several leaves.
        Hard = "hard", "hard pinch";
        /// Left unpinched.
        None = "none", "not pinched";
    }
);
terms!(
    /// How a lot gets its long nights.
    Nights {
        /// The season's own.
        Natural = "natural", "natural nights";
        /// Black cloth.
        Blackout = "blackout", "black cloth";
        /// Lights hold it back until a day.
        Lights = "lights", "lights until a day";
    }
);
terms!(
    /// How the plots of a trial got their places.
    Design {
        /// Anywhere, by lot.
        CompletelyRandomized = "completely-randomized", "completely randomized";
        /// Every treatment in every block, by lot within the block.
        RandomizedBlocks = "randomized-blocks", "randomized blocks";
        /// Every treatment once in every row and every column, by lot.
        LatinSquare = "latin-square", "Latin square";
        /// As somebody chose.
        AsLaid = "as-laid", "as laid, not drawn";
    }
);
terms!(
    /// What is read of the plots of a trial.
    TrialReading {
        /// Bench top to growing tip.
        Height = "height", "height";
        /// Greenness of the leaves, by class or meter.
        Greenness = "greenness", "greenness";
        /// Bract stage.
        Bracts = "bracts", "bracts";
        /// Across the bracts.
        BractWidth = "bract-width", "bract width";
        /// Roots score.
        Roots = "roots", "roots";
        /// EC of the root zone.
        RootZone = "root-zone", "root zone EC";
        /// Dry to soaked.
        Water = "water", "water";
        /// Share of pots fit to sell.
        Grade = "grade", "grade";
    }
);
terms!(
    /// Whether work was done before the record of a lot began. Nothing said means that it is not known.
    Before {
        /// It was done.
        Done = "done", "done";
        /// It was not done.
        NotDone = "not-done", "not done";
    }
);
terms!(
    /// What became of a job that was listed for a day.
    JobOutcome {
        /// Done as listed.
        Done = "done", "done";
        /// Done in another way.
        Otherwise = "otherwise", "done otherwise";
        /// Not needed, for a reason.
        NotNeeded = "not-needed", "not needed";
        /// Put to the day after.
        Postponed = "postponed", "put to the next day";
    }
);
terms!(
    /// How a night is counted.
    #[derive(Default)]
    NightConvention {
        /// From sunset to the next sunrise.
        #[default]
        SunsetToSunrise = "sunset-to-sunrise", "sunset to sunrise";
        /// From civil dusk to the next civil dawn (the sun 6° under the horizon): twilight counts as day.
        CivilTwilight = "civil-twilight", "civil twilight";
    }
);
terms!(
    /// How far the roots reach.
    Reach {
        /// Still in the middle of the mix.
        Center = "center", "in the center";
        /// At the pot wall.
        Wall = "wall", "at the pot wall";
        /// At the base of the pot.
        Base = "base", "at the base";
    }
);
terms!(
    /// Signs at the roots or the stem base that suggest a disease or a pest.
    RootSign {
        /// The outer sleeve of the root slides off, a white thread stays.
        SleeveOff = "sleeve-off", "sleeve slides off";
        /// Black roots that stay whole.
        BlackFirm = "black-firm", "black but firm";
        /// A sunken canker at the soil line.
        Canker = "canker", "canker at the soil line";
        /// Larvae in the mix.
        Larvae = "larvae", "larvae in the mix";
    }
);
terms!(
    /// What leaves and bracts show.
    LeafSign {
        /// Lower leaves yellow.
        LowerYellow = "lower-yellow", "lower leaves yellow";
        /// Leaves rolled.
        Rolled = "rolled", "leaves rolled";
        /// Wilted.
        Wilted = "wilted", "wilted";
        /// Yellow between the veins.
        BetweenVeins = "between-veins", "yellow between the veins";
        /// A yellow margin.
        EdgeYellow = "edge-yellow", "leaf margin yellow";
        /// A brown margin.
        EdgeBrown = "edge-brown", "leaf or bract margin burn";
        /// Pale, diffuse spots.
        PaleSpots = "pale-spots", "pale spots";
        /// Raised spots.
        RaisedSpots = "raised-spots", "raised spots";
        /// Fine pale dots.
        Stipple = "stipple", "stippling";
        /// Sticky leaves.
        Sticky = "sticky", "sticky leaves";
        /// Crinkled young leaves.
        Crinkled = "crinkled", "crinkled leaves";
        /// One stem that outgrew the others.
        Stretched = "stretched", "one stem stretched";
        /// Gray fuzz.
        GrayFuzz = "gray-fuzz", "gray fuzz";
        /// White powder.
        WhitePowder = "white-powder", "white powder";
        /// Water standing on bracts.
        WetBracts = "wet-bracts", "wet bracts";
        /// The bud shows before the color.
        BudBeforeColor = "bud-before-color", "budded, no color";
        /// Angular spots, brown or with a pale halo.
        BrownSpots = "brown-spots", "brown or haloed spots";
        /// A branch cracked or hanging.
        Broken = "broken", "branch broken or hanging";
        /// Leaf stalks bent down, the leaf firm.
        BentDown = "bent-down", "leaves bent down but firm";
        /// Old leaves red or purple.
        RedOld = "red-old", "old leaves red or purple";
        /// Raised corky or milky patches.
        Blisters = "blisters", "corky or milky blisters";
        /// Forked or split bracts.
        Split = "split", "split bracts";
        /// Cyathia yellow or fallen.
        DroppedBuds = "dropped-buds", "buds yellow or dropped";
        /// Chewed leaves.
        Chewed = "chewed", "chewed leaves";
        /// The youngest leaves pale.
        PaleNew = "pale-new", "newest leaves pale";
    }
);
impl LeafSign {
    /// True for what a disease shows: gray mold, powdery mildew, scab, bacterial leaf spot.
    pub const fn is_disease(self) -> bool {
        matches!(self, Self::GrayFuzz | Self::WhitePowder | Self::RaisedSpots | Self::BrownSpots)
    }
}

terms!(
    /// Where on the plant.
    PlantPart {
        /// Old leaves.
        Old = "old", "old leaves";
        /// Middle leaves.
        Middle = "middle", "middle leaves";
        /// Young leaves.
        Young = "young", "young leaves";
        /// Bracts.
        Bract = "bract", "bracts";
    }
);
terms!(
    /// Pests that are scouted.
    PestName {
        /// Whitefly, any stage.
        Whitefly = "whitefly", "whitefly";
        /// Thrips.
        Thrips = "thrips", "thrips";
        /// Fungus gnats.
        FungusGnat = "fungus-gnat", "fungus gnats";
        /// Shore flies.
        ShoreFly = "shore-fly", "shore flies";
        /// Mites.
        Mite = "mite", "mites";
        /// Mealybugs.
        Mealybug = "mealybug", "mealybugs";
        /// Aphids.
        Aphid = "aphid", "aphids";
    }
);
terms!(
    /// How the root zone was tested.
    TestMethod {
        /// Water poured on the pot, the drainage measured.
        PourThrough = "pour-through", "pour-through";
        /// Saturated media extract.
        Sme = "sme", "saturated media extract";
        /// One part mix, two parts water.
        OneToTwo = "1:2", "1:2 extract";
    }
);
terms!(
    /// How a solution is given to the plants.
    Method {
        /// Into the mix.
        Drench = "drench", "drench";
        /// On the leaves.
        Spray = "spray", "spray";
    }
);
terms!(
    /// How a pesticide is applied.
    How {
        /// On the leaves.
        Spray = "spray", "spray";
        /// Into the mix.
        Drench = "drench", "drench";
        /// Through the air of the whole house: a fog, mist, aerosol or smoke. The journal holds all of them as `fog`.
        Fog = "fog", "fog, mist or smoke";
    }
);
terms!(
    /// How the pinch was made.
    PinchHow {
        /// The tip and the expanding leaves.
        Soft = "soft", "soft pinch";
        /// The tip and several leaves.
        Hard = "hard", "hard pinch";
    }
);
terms!(
    /// Salts given besides the feed, as they are sold, with their water of crystallization.
    Material {
        /// Magnesium sulfate heptahydrate.
        MagnesiumSulfate = "magnesium-sulfate", "magnesium sulfate";
        /// Sodium molybdate dihydrate.
        SodiumMolybdate = "sodium-molybdate", "sodium molybdate";
        /// Ammonium molybdate tetrahydrate.
        AmmoniumMolybdate = "ammonium-molybdate", "ammonium molybdate";
        /// Calcium chloride dihydrate.
        CalciumChloride = "calcium-chloride", "calcium chloride";
    }
);

impl Term for System {
    const ALL: &'static [Self] = &[Self::Us, Self::Metric];
    fn code(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
        }
    }
    fn text(self) -> &'static str {
        match self {
            Self::Us => "US units",
            Self::Metric => "metric units",
        }
    }
}

pub(crate) use terms;
