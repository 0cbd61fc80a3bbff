//! What the first-run page does.

use super::State;
use crate::keys::Command;
use crate::model::{Effect, Msg, PlanAsk, Shared, To};

/// How to start a season of one's own.
const HOW: &str = "\
A season is one file. It is made by form (key s on the first page), or from a journal: a text file with one line for each \
thing of the plan.

1. Write the journal in any editor. Five kinds of line make a plan (each on one line):
   {\"type\":\"journal\",\"version\":1}
   {\"type\":\"site\",\"name\":\"...\",\"latitude\":44.1,\"longitude\":-70.2,\"time_zone\":\"America/New_York\",\"units\":\"us\"}
   {\"type\":\"lot\",\"lot\":\"P6\",\"cultivar\":\"mid red\",\"container\":\"6 in\",\"cuttings_per_pot\":1,\"pots\":240,\
\"planted\":\"2026-08-17\",\"pinch\":\"soft\",\"response_weeks\":9,\"nights\":\"natural\",\"ready_by\":\"2026-11-27\"}
   {\"type\":\"bench\",\"bench\":\"N1\",\"house\":\"North\",\"order\":1}
   {\"type\":\"placement\",\"bench\":\"N1\",\"lot\":\"P6\",\"pots\":80,\"from\":\"2026-08-17\"}
   One site line; a lot line for each lot; a bench line for each bench; a placement for what stands where.

2. Import it: key i here, or `benchwalk import FILE`. Every fault is told by line and field; nothing is written unless \
all lines are good.

3. Walk: key w on the Round. Each digit is saved at once.

The README says what every field means. `benchwalk export` writes the whole season out again at any time.";

/// Takes what the page is told.
pub fn update(_state: &mut State, _shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Do(Command::SetUp) => vec![Effect::Go(To::SetUp), Effect::Go(To::Plan(PlanAsk::Site))],
        Msg::Do(Command::Demo) => vec![Effect::OpenDemo],
        Msg::Do(Command::Import) => vec![Effect::Go(To::Path)],
        Msg::Do(Command::HowToStart) => vec![Effect::Go(To::Text("How to start", HOW.to_owned()))],
        _ => Vec::new(),
    }
}
