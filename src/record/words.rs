//! The closed word lists of the journal: each has one spelling in files and one in the reader's words.

/// A word of a closed list: its spelling in the journal, and how it reads.
pub trait Word: Sized + Copy + 'static {
    /// Every word of the list, in the order they are offered.
    const ALL: &'static [Self];
    /// Its spelling in the journal and in the database.
    fn code(self) -> &'static str;
    /// In the trade's plain words.
    fn text(self) -> &'static str;
    /// The word with this spelling.
    fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|w| w.code() == code)
    }
    /// All spellings, for messages.
    fn known() -> String {
        Self::ALL.iter().map(|w| w.code()).collect::<Vec<_>>().join(", ")
    }
}

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $code:literal, $text:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }

        impl $crate::record::Word for $name {
            const ALL: &'static [Self] = &[$(Self::$variant),+];
            fn code(self) -> &'static str { match self { $(Self::$variant => $code),+ } }
            fn text(self) -> &'static str { match self { $(Self::$variant => $text),+ } }
        }
    };
}
pub(crate) use words;

words!(
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
words!(
    /// Signs at the roots or the stem base that point at a disease or a pest.
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
words!(
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
        /// A yellow edge.
        EdgeYellow = "edge-yellow", "leaf edge yellow";
        /// A brown edge.
        EdgeBrown = "edge-brown", "leaf or bract edge brown";
        /// Pale, diffuse spots.
        PaleSpots = "pale-spots", "pale spots";
        /// Raised spots.
        RaisedSpots = "raised-spots", "raised spots";
        /// Fine pale dots.
        Stipple = "stipple", "fine pale dots";
        /// Sticky leaves.
        Sticky = "sticky", "sticky leaves";
        /// Crinkled young leaves.
        Crinkled = "crinkled", "crinkled leaves";
        /// One stem far longer than the rest.
        Stretched = "stretched", "one stem stretched";
        /// Gray fuzz.
        GrayFuzz = "gray-fuzz", "gray fuzz";
        /// White powder.
        WhitePowder = "white-powder", "white powder";
        /// Water standing on bracts.
        WetBracts = "wet-bracts", "wet bracts";
        /// The bud shows before the color.
        BudBeforeColor = "bud-before-color", "bud before color";
    }
);
words!(
    /// Where on the plant.
    Where {
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
words!(
    /// Pests that are looked for.
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
words!(
    /// How the root zone was tested.
    Method {
        /// Water poured on the pot, the drainage measured.
        PourThrough = "pour-through", "pour-through";
        /// Saturated media extract.
        Sme = "sme", "saturated media extract";
        /// One part mix, two parts water.
        OneToTwo = "1:2", "1:2 extract";
    }
);
words!(
    /// How something is put on.
    How {
        /// On the leaves.
        Spray = "spray", "spray";
        /// Into the mix.
        Drench = "drench", "drench";
        /// Through the air of the whole house.
        Fog = "fog", "fog";
    }
);
words!(
    /// How the pinch was made.
    PinchHow {
        /// The tip and the expanding leaves.
        Soft = "soft", "soft pinch";
        /// The tip and several leaves.
        Hard = "hard", "hard pinch";
    }
);
words!(
    /// Salts given as extra nutrients.
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
