//! Pinch, height and growth regulators.

use super::Words;
use crate::warnings::WarningName as N;

#[expect(clippy::too_many_lines, reason = "a table: one arm a warning")]
pub(super) const fn words(name: N) -> Words {
    match name {
        N::PinchDue => Words {
            title: "pinch due",
            why: "Roots at the pot wall carry the breaks; each week later costs height and heads.",
            next: &["Pinch, and write the nodes left."],
        },
        N::PinchOverdue => Words {
            title: "pinch overdue",
            why: "Each week later costs height and heads before short days begin.",
            next: &["Pinch now, and write the nodes left."],
        },
        N::PinchedInError => Words {
            title: "pinched in error",
            why: "The plan leaves this lot unpinched: one large head a cutting.",
            next: &["Stop pinching; set the pinched pots apart and revise the plan, or strike out the entry."],
        },
        N::TooTall => Words {
            title: "too tall",
            why: "The whole bench stands over its window; stretch does not come back.",
            next: &[
                "Decide on a growth regulator on the Mixing page: only before its last-safe day, by the label.",
                "Cooler mornings and room between pots hold it too.",
            ],
        },
        N::TooShort => Words {
            title: "too short",
            why: "The whole bench stands under its window.",
            next: &[
                "No growth regulator; warmer days than nights and no drought stress.",
                "Look at the roots: a short plant is often a rootless one.",
            ],
        },
        N::FinishingTall => Words {
            title: "heading too tall",
            why: "Inside today, but at this pace it ends over the window.",
            next: &["Measure again in a week; look at night and day temperature and spacing."],
        },
        N::FinishingShort => Words {
            title: "heading too short",
            why: "Inside today, but at this pace it ends under the window.",
            next: &["Hold any growth regulator; measure again in a week."],
        },
        N::Unmeasured => Words {
            title: "heights not measured",
            why: "A week is enough to leave the window.",
            next: &["Measure the tagged plants, bench to growing tip."],
        },
        N::GrowthRegulatorLate => Words {
            title: "growth regulator late",
            why: "After this day it makes small bracts and late color.",
            next: &["Do not repeat it; watch bract size and color."],
        },
        _ => Words {
            title: "growth regulator strong",
            why: "Stronger than usual, or on plants under stress: leaves may burn and growth stop.",
            next: &[
                "Check the entry against the mix; look for burn in three to five days.",
                "The label decides the rate.",
            ],
        },
    }
}
