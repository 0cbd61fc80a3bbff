//! Feed and root zone.

use super::Words;
use crate::warnings::WarningName as N;

#[expect(clippy::too_many_lines, reason = "a table: one arm a warning")]
pub(super) const fn words(name: N) -> Words {
    match name {
        N::MagnesiumDue => Words {
            title: "magnesium due",
            why: "Leaves marked by a want of magnesium stay marked; the feed must come before the sign.",
            next: &["Give magnesium sulfate as its own drench, never with calcium."],
        },
        N::MagnesiumMissed => Words {
            title: "magnesium missed",
            why: "Leaves marked by a want of magnesium stay marked; it is overdue.",
            next: &["Give magnesium sulfate as its own drench, never with calcium."],
        },
        N::MolybdenumDue => Words {
            title: "molybdenum due",
            why: "A want of molybdenum yellows and rolls leaf edges.",
            next: &["Give molybdenum once, through a stock solution."],
        },
        N::MolybdenumMissed => Words {
            title: "molybdenum missed",
            why: "A want of molybdenum yellows and rolls leaf edges; under pH 5.5 little of it is taken up.",
            next: &["Give molybdenum once, through a stock solution.", "Check the pH of the root zone."],
        },
        N::Unfed => Words {
            title: "no feed written",
            why: "The charge of the mix is gone after a few waterings.",
            next: &["Feed at the next watering, or write down what was given."],
        },
        N::SaltsHigh => Words {
            title: "salts high",
            why: "High salts burn roots and open the way for rot.",
            next: &[
                "Leach with clear water once it reads 2, then test again.",
                "Lower the feed until it is back in range.",
            ],
        },
        N::SaltsLow => Words {
            title: "salts low",
            why: "The root zone is hungry.",
            next: &["Raise the feed and test again in a week."],
        },
        N::PhLow => Words {
            title: "pH low",
            why: "Low pH holds back calcium, magnesium and molybdenum.",
            next: &[
                "Test again; then a less acid feed, or a flowable lime as its label says.",
                "Lime burns skin and eyes: gloves and goggles.",
            ],
        },
        N::PhHigh => Words {
            title: "pH high",
            why: "High pH locks up iron: new leaves yellow between the veins.",
            next: &[
                "Test again; check the alkalinity of the water.",
                "Then a more acid feed. Acid goes into water, never water into acid.",
            ],
        },
        N::RootZoneUntested => Words {
            title: "root zone untested",
            why: "pH and EC drift for weeks before a leaf shows it.",
            next: &["Test pH and EC of three pots or more."],
        },
        N::TaperFeed => Words {
            title: "taper the feed",
            why: "A lean, nitrate-based finish keeps bract edges sound.",
            next: &["Step the feed down to 80 to 100 ppm N; do not stop it dead."],
        },
        _ => Words {
            title: "calcium spray due",
            why: "Bract edges burn for want of calcium at the margin.",
            next: &[
                "Spray calcium chloride as the label says, early, on dry bracts; never with sulfates or phosphates.",
            ],
        },
    }
}
