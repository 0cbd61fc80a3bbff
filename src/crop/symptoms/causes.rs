//! The causes: their words, how to confirm each, what it is mistaken for, and who says so. One row a cause.

use super::seen::said;

said!(
    /// A way to confirm or rule out a cause.
    Confirm {
        PullSleeve = "pull a root: does the outer sleeve slide off a white thread?",
        KnockOut = "knock out pots and check the roots",
        Laboratory = "send plants to a lab, at least once per outbreak",
        MixTemperature = "take the temperature of the mix",
        RootZoneEc = "test the root zone's EC",
        RootZonePh = "test the root zone's pH",
        PotatoPiece = "lay potato pieces on the mix, count larvae after 48 hours",
        CountFlies = "count gnats and shore flies on a flat card",
        SoilLine = "look for a dry sunken canker at the soil line",
        WetOrDryCanker = "is the canker dry and sunken, or soft and wet inside?",
        Webbing = "look for coarse webbing with a lens",
        Fuzz = "check for gray fuzz the morning after a damp night",
        BoxTemperature = "what was the temperature in the box and on the bench?",
        WaterDays = "review the last 7 days of watering",
        PotWeight = "lift the pots or weigh them",
        LineAndEmitter = "look for a blocked or leaking line; compare the neighbors",
        Undersides = "turn leaves over: nymphs, with a 10x lens",
        StrongLens = "undersides with a 20x lens or stronger",
        Axils = "check the leaf axils and under the pot rim for white wax",
        WhitePatch = "is there a white patch on the underside, right behind the spot?",
        StemScabs = "look for scabs on the stem",
        LightSide = "does it lean to the sunny side, or stand in a shaded one?",
        RegulatorLog = "review which growth regulators this bench got, and when",
        HumidityLog = "review humidity and nights",
        FeedLog = "review the feed: ammonium, strength, calcium sprays",
        WaterMagnesium = "test water and feed for magnesium; Ca:Mg over 5 is too wide",
        FeedMolybdenum = "does the feed supply 0.1 ppm molybdenum?",
        FeedSulfurPhosphorus = "does the feed supply any sulfate and phosphorus?",
        Tissue = "leaf analysis of sick and healthy leaves",
        AmmoniumShare = "SME ammonium over 10 ppm, or more than 40% of the N as ammonium and urea?",
        WaterBoron = "test the water for boron (over 0.5 ppm)",
        NewLeaves = "are only few plants hit, and are later leaves clean?",
        TipLens = "look into the growing tip with a 20x lens",
        SprayLog = "review what was sprayed here and next door",
        SpotEdges = "are the spots angular between the veins, wet below, with a pale halo?",
        FeelJoint = "feel the branch where it joins the stem: loose like a tooth?",
        HeaterFlue = "check heaters, flues, engines and the fresh-air intake for leaks",
        IndicatorPlant = "set a tomato plant beside them: does it bend down too?",
        Unpacked = "when were they unpacked, sleeved or taken out of sleeves?",
        PrickBlister = "prick a fresh blister: does white sap run out?",
        LightsLog = "review the lights, and the day on which short days began",
        LightAndNights = "were the weeks dull and the nights warm?",
        SlimeTrails = "look for slime trails and slugs after dark, under pots and benches",
        Droppings = "look for droppings and caterpillars under the leaves",
        NightsLog = "review the nights since short days began",
        WingsAndLegs = "frail with a Y in the wing, or stout with pale spots on the wings?",
    }
);

/// The table below as an enum with its words, confirmations, look-alikes and source.
macro_rules! causes {
    ($($variant:ident = $words:literal, by [$($confirm:ident),+], not [$($twin:literal),*], $source:literal;)+) => {
        /// A cause to check; a possibility, never a diagnosis.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Cause { $(#[doc = $words] $variant),+ }

        impl Cause {
            /// Every cause.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// In the trade's plain words.
            pub const fn words(self) -> &'static str { match self { $(Self::$variant => $words),+ } }

            /// How to confirm it or rule it out, the quickest first.
            pub const fn confirm(self) -> &'static [Confirm] {
                match self { $(Self::$variant => &[$(Confirm::$confirm),+]),+ }
            }

            /// What it is mistaken for.
            pub const fn look_alikes(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($twin),*]),+ }
            }

            /// Who describes it so.
            pub const fn source(self) -> &'static str { match self { $(Self::$variant => $source),+ } }
        }
    };
}

causes! {
    Pythium = "Pythium root rot", by [PullSleeve, RootZoneEc, MixTemperature, Laboratory],
        not ["Phytophthora", "gnat larvae", "salt injury"],
        "PNW Plant Disease Handbook; Michigan State Extension; Penn State Extension 2012";
    PythiumCool = "Pythium root rot, the cool species", by [PullSleeve, MixTemperature, RootZoneEc, Laboratory],
        not ["Phytophthora", "gnat larvae", "salt injury"],
        "a substrate supplier's text on Pythium of poinsettias: worst at 62 °F, no serious damage at 80 °F";
    PythiumWarm = "Pythium root rot, the warm species", by [PullSleeve, MixTemperature, RootZoneEc, Laboratory],
        not ["Phytophthora", "gnat larvae", "salt injury"],
        "a substrate supplier's text on Pythium of poinsettias: above 77 °F; Delaware extension 2016";
    Phytophthora = "Phytophthora crown rot", by [WetOrDryCanker, KnockOut, Laboratory],
        not ["Pythium", "Botrytis canker"],
        "Ontario floriculture IPM 2017";
    Thielaviopsis = "black root rot (Thielaviopsis)", by [KnockOut, RootZonePh, MixTemperature, CountFlies, Laboratory],
        not ["Pythium"],
        "PNW Plant Disease Handbook: 55-70 °F, pH 5.5 and over; pH 5.2 holds it back but is under the crop's range";
    Rhizoctonia = "Rhizoctonia crown rot", by [SoilLine, Webbing, Laboratory],
        not ["Pythium", "soft rot"],
        "PNW Plant Disease Handbook 2024; a seed firm's pathologists 2025 (they differ on its warmth)";
    SoftRot = "bacterial soft rot", by [BoxTemperature, Webbing, Laboratory],
        not ["Rhizoctonia", "Pythium"],
        "PNW Plant Disease Handbook; UMass, Diseases of poinsettias";
    GnatLarvae = "fungus gnat larvae at the roots", by [PotatoPiece, CountFlies, KnockOut],
        not ["Pythium", "salt injury"],
        "Cornell greenhouse gallery; Rutgers 2009";
    SaltInjury = "salt injury", by [RootZoneEc, KnockOut, FeedLog],
        not ["Pythium", "growth regulator too strong", "drying out"],
        "Penn State Extension 2012; Whipker, McCall and Barnes, Identifying poinsettia nutritional disorders";
    OverWet = "mix too wet for too long", by [WaterDays, KnockOut, LineAndEmitter],
        not ["low nitrogen", "first root rot"],
        "Iowa State Extension; Purdue (Lopez) 2008";
    UnderWatering = "too dry", by [PotWeight, LineAndEmitter, KnockOut],
        not ["root rot: wilts too, but in wet mix"],
        "Iowa State Extension; Purdue (Lopez) 2008: tepid water if the mix is bone dry";
    RootBound = "pot full of roots, dries too fast", by [KnockOut, PotWeight],
        not ["under-watering"],
        "common practice, no source";
    DroughtHeat = "drought or scorch in hot, bright weather", by [PotWeight, RootZoneEc],
        not ["salt injury", "molybdenum"],
        "Purdue (Lopez) 2008";
    LowNitrogen = "low nitrogen or low feed", by [RootZoneEc, FeedLog, KnockOut],
        not ["root loss", "over-leaching", "Lewis mite"],
        "Avoiding top problems of poinsettias 2002: EC under 1.0 pour-through, 0.75 SME, 0.25 1:2";
    Sulfur = "sulfur deficiency", by [FeedSulfurPhosphorus, Tissue],
        not ["low nitrogen (old leaves)", "molybdenum"],
        "Whipker (NC State), What's wrong with my plants?";
    Magnesium = "magnesium deficiency", by [RootZonePh, WaterMagnesium, Tissue, KnockOut],
        not ["iron or manganese (young leaves)", "molybdenum (margin only)"],
        "Owen (Michigan State Extension); Humble, Veazie and Whipker, university newsletter; Texas A&M";
    Iron = "iron deficiency at high pH", by [RootZonePh, KnockOut, Tissue],
        not ["manganese", "dead or drowned roots"],
        "Avoiding top problems of poinsettias 2002: above pH 6.5";
    Manganese = "manganese deficiency", by [RootZonePh, Tissue],
        not ["iron"],
        "Mattson (Cornell), 5 tips to diagnose a nutrient deficiency";
    TraceTogether = "iron, manganese and molybdenum deficiency together", by [RootZonePh, Tissue],
        not ["magnesium", "one of them alone"],
        "university newsletter, as summarized: seen at pH 6.3-6.4";
    DeadRoots = "roots dead or drowned", by [KnockOut, WaterDays],
        not ["iron or magnesium deficiency"],
        "Avoiding top problems of poinsettias 2002; University of Maryland: look at the roots first";
    Molybdenum = "molybdenum deficiency", by [RootZonePh, FeedMolybdenum, Tissue],
        not ["potassium (old leaves)", "calcium (young leaves)", "salt injury"],
        "Owen (Michigan State): middle leaves; Texas A&M: old leaves first (they differ)";
    Potassium = "potassium deficiency", by [Tissue, FeedLog],
        not ["molybdenum (higher up)", "salt injury"],
        "Connecticut Greenhouse Newsletter 101";
    Ammonium = "ammonium injury in cool wet mix", by [AmmoniumShare, MixTemperature, FeedLog],
        not ["salt injury", "root rot"],
        "UMass Soil Lab; UMass Greenhouse Update 2019";
    BoronExcess = "too much boron in the water", by [WaterBoron, Tissue],
        not ["potassium", "salt injury"],
        "a supplier's newsletter 2012; Whipker (NC State)";
    Calcium = "calcium deficiency in young leaves", by [Tissue, AmmoniumShare, HumidityLog],
        not ["boron", "thrips", "a swing in humidity"],
        "Avoiding top problems of poinsettias 2002; Bierman, Rosen and Wilkins";
    BractEdgeBurn = "bract edge burn", by [Fuzz, HumidityLog, FeedLog],
        not ["Botrytis", "spray injury"],
        "University of Florida; trade press, Production pointers";
    Botrytis = "gray mold (Botrytis)", by [Fuzz, HumidityLog],
        not ["bract edge burn", "scorch"],
        "Georgia (Williams-Woodward) 2023; Maryland (Rane)";
    PowderyMildew = "powdery mildew", by [WhitePatch, Undersides],
        not ["spray residue", "leaf spots"],
        "Cornell (Daughtrey) 2016; NYS IPM";
    Whitefly = "whitefly", by [Undersides],
        not ["mealybug", "mildew from above"],
        "Alberta Agriculture; Purdue lab note 2009";
    LewisMite = "Lewis mite", by [StrongLens],
        not ["low nitrogen"],
        "Cornell (Gilrein), Managing Lewis mites";
    Mealybug = "mealybug", by [Axils, KnockOut],
        not ["whitefly"],
        "trade press, Root aphids and mealybugs, 2014";
    Scab = "poinsettia scab", by [StemScabs, LightSide, Laboratory],
        not ["edema", "a stretched stem without spots"],
        "NC State clinic 2012; Purdue (Owen, Lopez) 2013; Daughtrey";
    MissedRegulator = "missed by the growth regulator", by [RegulatorLog, LightSide, StemScabs],
        not ["scab"],
        "Benchwalk's ranking; the look-alike of scab in Daughtrey's note";
    Edema = "edema (water blisters)", by [WaterDays, StemScabs],
        not ["scab"],
        "named as a look-alike of scab, Purdue (Owen, Lopez) 2013";
    EarlyDistortion = "early distortion by heat, humidity swings or latex at the pinch; it grows out", by [NewLeaves],
        not ["thrips", "broad mite", "herbicide"],
        "university newsletter, Leaf and stem abnormalities, 2021; Texas A&M; UMass";
    BroadMite = "broad mite", by [TipLens],
        not ["herbicide", "early distortion"],
        "university newsletter, Leaf and stem abnormalities, 2021";
    Herbicide = "herbicide drift or residue", by [SprayLog, NewLeaves],
        not ["broad mite"],
        "university newsletter, Leaf and stem abnormalities, 2021";
    Thrips = "thrips", by [TipLens, CountFlies],
        not ["early distortion"],
        "Delaware extension 2009, from an NC State key";
    Phosphorus = "phosphorus deficiency", by [FeedSulfurPhosphorus, KnockOut, Tissue],
        not ["cold or waterlogged roots"],
        "Whipker, McCall and Barnes, Identifying poinsettia nutritional disorders";
    TraceExcess = "iron or manganese toxicity at low pH", by [RootZonePh, Tissue],
        not ["leaf spot disease", "spray injury"],
        "New England Greenhouse Update 2009 (seen on other crops, not on poinsettia)";
    RegulatorTooStrong = "growth regulator too strong", by [RegulatorLog, RootZoneEc],
        not ["high salts"],
        "Whipker, McCall and Barnes, Identifying poinsettia nutritional disorders (the look-alike)";
    Boron = "boron deficiency", by [Tissue],
        not ["injury to the tip"],
        "Mattson (Cornell), 5 tips to diagnose a nutrient deficiency";
    TipInjury = "injury to the tip", by [NewLeaves, SprayLog],
        not ["boron deficiency"],
        "Mattson (Cornell), 5 tips to diagnose a nutrient deficiency (the look-alike)";
    BacterialSpot = "bacterial leaf spot", by [SpotEdges, Laboratory],
        not ["scab", "spray injury", "other leaf spots"],
        "from memory, no source looked up";
    StemBreak = "branch cracked where it joins the stem", by [FeelJoint],
        not ["root rot: the whole plant wilts", "a canker"],
        "UMass Extension, photo note Lateral stem breakage on poinsettia";
    Ethylene = "ethylene: heater exhaust, engines, ripening fruit", by [HeaterFlue, IndicatorPlant],
        not ["wilting", "sleeves", "nights warmer than days"],
        "NC State diagnostic key, as reprinted by Delaware extension 2009; university newsletter 2015";
    SleeveDroop = "leaf stalks bent in the box or sleeve", by [Unpacked],
        not ["ethylene in the house"],
        "UMass: from ethylene made in the sleeve, worse with time and above 65 °F";
    LatexEruption = "latex eruption: sap under pressure", by [PrickBlister, HumidityLog],
        not ["edema", "scab", "mealybug"],
        "from memory, no source looked up";
    EarlyBuds = "flower buds begun too early", by [LightsLog],
        not ["injury to the tip", "herbicide"],
        "from memory, no source looked up";
    WarmDull = "low light with warm nights", by [LightAndNights, WaterDays],
        not ["ethylene", "old plants past pollen"],
        "NC State diagnostic key, as reprinted by Delaware extension 2009";
    Slugs = "slugs or snails", by [SlimeTrails],
        not ["caterpillars"],
        "university newsletter 2024, Slugs in poinsettia: floor-grown plants, slime trails";
    Caterpillars = "caterpillars", by [Droppings],
        not ["slugs"],
        "common practice, no source";
    HeatDelay = "heat in the first weeks of short days", by [NightsLog],
        not ["a late cultivar"],
        "J. Barrett (University of Florida) about 2008; R. Kobayashi";
    FungusGnats = "fungus gnats: mix wet, algae", by [WingsAndLegs, PotatoPiece, WaterDays],
        not ["shore flies"],
        "a biocontrol supplier, Getting rid of gnats; UMass and UConn";
    ShoreFlies = "shore flies: algae, wet floors", by [WingsAndLegs, WaterDays],
        not ["fungus gnats"],
        "a biocontrol supplier, Getting rid of gnats";
}
