//! What the digits of a score mean, in words: of the checks of a bench and of the readings of a plot.

/// Levels of water, by the weight of the pot: a five-step scale taught in the trade, in Benchwalk's own words.
pub const WATER: &[(u8, &str)] = &[
    (1, "dry: feather-light, gap at the pot wall"),
    (2, "light: time to water"),
    (3, "medium: clearly lighter than a full pot"),
    (4, "heavy: squeeze wets your fingers"),
    (5, "soaked: heaviest, drips when lifted"),
];
/// The same levels where the mix is felt, not lifted.
pub const BASE: &[(u8, &str)] = &[
    (1, "dry: crumbles, dusty"),
    (2, "light: barely damp, falls apart"),
    (3, "medium: moist, holds its shape"),
    (4, "heavy: squeeze wets your fingers"),
    (5, "soaked: drips without squeezing"),
];
/// Roots, by the worst pot knocked out.
pub const ROOTS: &[(u8, &str)] = &[
    (0, "white to the tips"),
    (1, "up to 10% brown"),
    (2, "up to 25% brown"),
    (3, "up to 50% brown"),
    (4, "up to 75% brown"),
    (5, "over 75% brown, or dead"),
];
/// How far out the roots have grown.
pub const REACH: &[(u8, &str)] =
    &[(1, "still in the plug, or the center of the pot"), (2, "at the pot wall"), (3, "at the base of the pot")];
/// Bract stages 1 to 7, after the scale of floral development used in Kansas State University trials, in Benchwalk's own
/// words.
pub const BRACTS: &[(u8, &str)] = &[
    (1, "no color yet"),
    (2, "first color"),
    (3, "coloring, cyathia showing"),
    (4, "full color, no pollen"),
    (5, "full color, first pollen"),
    (6, "pollen on every cyathium"),
    (7, "setting seed"),
];
/// Plants with whitefly among those checked.
pub const WHITEFLY: &[(u8, &str)] =
    &[(0, "none of the plants checked"), (9, "1 to 9: plants with whitefly; for 10 or more press m")];
/// Classes of greenness, judged beside five kept leaves or a card: our own.
pub const GREENNESS: &[(u8, &str)] = &[(1, "yellow"), (2, "pale"), (3, "middle"), (4, "green"), (5, "dark")];
/// Grades of a single pot.
pub const GRADES: &[(u8, &str)] = &[(1, "salable"), (2, "second"), (3, "dump")];
