//! Nights, color and climate.

use super::Words;
use crate::warnings::WarningName as N;

pub(super) const fn words(name: N) -> Words {
    match name {
        N::NightLight => Words {
            title: "light at night",
            why: "A little light in the long night stops or delays the bud.",
            next: &[
                "Find the lamp and shade it tonight; read the light again after dark.",
                "At night: cords and wet floors.",
            ],
        },
        N::BlackoutMissed => Words {
            title: "night not covered",
            why: "Each missed night in the first six weeks costs one to two days.",
            next: &["Cover tonight; write every night.", "Nobody under the cloth while it closes."],
        },
        N::LightsMissed => Words {
            title: "lamps missed",
            why: "A night without lamps lets the bud start early.",
            next: &["Check timer, fuse and bulbs before dark.", "Power off before a hand is on a lamp."],
        },
        N::ColorBehind => Words {
            title: "color behind the sale",
            why: "By its own stages the lot is ready after its sale day.",
            next: &[
                "Keep nights long, dark and at temperature; tell the buyer early.",
                "Look for stray light and warm nights.",
            ],
        },
        N::ColorAhead => Words {
            title: "color early",
            why: "Ripe bracts fade and bruise while they wait.",
            next: &["Cooler and lean within its limits; offer an earlier day."],
        },
        N::HeatDelay => Words {
            title: "warm nights delay",
            why: "Heat in the first weeks of short days holds back bud and color.",
            next: &["Vent and cool in the evening; open the cloth after dark where the house is warm."],
        },
        N::ColdNights => Words {
            title: "cold nights",
            why: "Cold turns red bracts blue and stops their growth.",
            next: &["Check heat and vents tonight."],
        },
        _ => Words {
            title: "gray mold weather",
            why: "Wet bracts and damp air bring gray mold within days.",
            next: &[
                "Heat and vent at the end of the day; no water after noon.",
                "Bag fallen and gray tissue at the bench.",
            ],
        },
    }
}
