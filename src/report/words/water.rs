//! Water and roots.

use super::Words;
use crate::warnings::WarningName as N;

#[expect(clippy::too_many_lines, reason = "a table: one arm a warning")]
pub(super) const fn words(name: N) -> Words {
    match name {
        N::StayingWet => Words {
            title: "staying wet",
            why: "Roots in wet mix get no air: they brown first, and the lower leaves tell it late.",
            next: &[
                "Hold the water until it reads 2.",
                "Knock out three pots and score the roots.",
                "Look for a drip, a blocked drain or a cold spot.",
            ],
        },
        N::WateredWet => Words {
            title: "watered while wet",
            why: "Water on wet mix starts the rot that shows weeks later.",
            next: &[
                "Lift a pot before the hose: water only at 2 or less.",
                "Tell whoever waters which benches are to be left.",
            ],
        },
        N::WiltingWet => Words {
            title: "wilting in wet mix",
            why: "A plant that wilts in wet mix has roots that no longer drink; more water kills it.",
            next: &[
                "Do not water. Knock out pots and look at the roots.",
                "Set the worst aside; hose ends off the floor, clean hands and tools.",
            ],
        },
        N::WetBase => Words {
            title: "base soaked",
            why: "The top can feel right while the base stands in water and grows smooth water roots.",
            next: &[
                "Hold the water until the base reads 2.",
                "Check that the pots drain and do not stand in a puddle.",
            ],
        },
        N::DryBase => Words {
            title: "base dry",
            why: "Roots do not grow into a dry base, and salts gather there.",
            next: &["Water through at the next watering, until it drains."],
        },
        N::TooDry => Words {
            title: "too dry",
            why: "Drought burns roots and drops lower leaves.",
            next: &[
                "Water today, not with cold water on a very dry pot.",
                "Look for a blocked emitter or a bench end that is missed.",
            ],
        },
        N::RootsBrowning => Words {
            title: "roots browning",
            why: "Brown roots come before yellow leaves; dried down now, they grow back.",
            next: &[
                "Let it dry down to 2 between waterings.",
                "Check the EC of the root zone; score the roots again in a week.",
            ],
        },
        N::RootsFailing => Words {
            title: "roots failing",
            why: "Sound tops prove nothing: much of the root can be dead before a leaf shows it.",
            next: &[
                "Hold the water and sort out the worst pots today.",
                "Send a sample to a laboratory before any treatment.",
                "Walk this bench last; clean hands and tools after it.",
            ],
        },
        N::RootsDiseased => Words {
            title: "signs of root disease",
            why: "The sign points at a disease that spreads with water, tools and hands.",
            next: &[
                "Send a sample to a laboratory: it decides, not the eye.",
                "Set sick pots aside; walk this bench last.",
            ],
        },
        N::RootsUnchecked => Words {
            title: "roots not looked at",
            why: "Tops lag the roots by weeks; only a knocked-out pot tells.",
            next: &["Knock out three pots and score the worst."],
        },
        _ => Words {
            title: "losses rising",
            why: "Pots lost to rot or wilt on one bench seldom stop by themselves.",
            next: &["Knock out the neighbors of the lost pots.", "Write the cause beside each loss."],
        },
    }
}
