//! Pests, disease, count and round.

use super::Words;
use crate::warnings::WarningName as N;

#[expect(clippy::too_many_lines, reason = "a table: one arm a warning")]
pub(super) const fn words(name: N) -> Words {
    match name {
        N::Whitefly => Words {
            title: "whitefly",
            why: "More than a few plants in a hundred now becomes more than the market takes at the sale.",
            next: &[
                "Decide with your adviser: more beneficials, or a spray before colored bracts.",
                "Look under the leaves of the worst plants.",
            ],
        },
        N::Thrips => Words {
            title: "thrips",
            why: "Cards over the limit: crinkled leaves and marked bracts follow.",
            next: &["Find where they come from (vents, weeds); decide with your adviser."],
        },
        N::FungusGnats => Words {
            title: "fungus gnats",
            why: "Larvae eat root hairs, carry rot, and say that the mix stays wet.",
            next: &[
                "Let the mix dry down; clear algae and puddles.",
                "Nematodes or predators early, as their label says.",
            ],
        },
        N::Mites => Words {
            title: "mites",
            why: "Mites hide under leaves until the harm is done.",
            next: &["Bag the plant and its neighbors; look with a 20x lens on this cultivar."],
        },
        N::Mealybugs => Words {
            title: "mealybugs",
            why: "They hide in axils and on roots and spread with the pots.",
            next: &["Bag the plant and its neighbors; look into axils and pot bases."],
        },
        N::PowderyMildew => Words {
            title: "powdery mildew",
            why: "White patches spread fast in cool, damp weather and end the sale of the pot.",
            next: &[
                "Bag the leaf or plant at the bench, before it is moved.",
                "Look at the undersides of its neighbors.",
            ],
        },
        N::GrayMold => Words {
            title: "gray mold",
            why: "Gray fuzz seeds the whole house in damp air.",
            next: &["Bag the tissue at the bench; heat and vent at the end of the day."],
        },
        N::Scab => Words {
            title: "scab suspected",
            why: "Raised spots with one stretched stem point at scab, which splashes with water.",
            next: &["Set the plants apart; keep leaves dry; send a sample to a laboratory."],
        },
        N::Unscouted => Words {
            title: "not looked at for pests",
            why: "Pests that are not looked for are found at the sale.",
            next: &["Turn over leaves on the benches that were missed."],
        },
        N::NotWalked => Words {
            title: "not walked",
            why: "What is not looked at is unchecked, never fine.",
            next: &["Walk these benches first tomorrow."],
        },
        N::HouseTrouble => Words {
            title: "the house's own trouble",
            why: "The same trouble on several benches points at what they share.",
            next: &["Look at the line, boiler, drain and door before the benches."],
        },
        _ => Words {
            title: "short of the promised",
            why: "Fewer pots stand than are promised.",
            next: &["Count the lot; tell the buyer, or move pots from another lot."],
        },
    }
}
