//! What a benchmark does in the place of a file.

use benchwalk::app::App;
use benchwalk::model::{Effect, Outcome};
use benchwalk::record::Line;

/// Answers what was recorded as saved.
pub(crate) fn saved(app: &mut App, effects: Vec<Effect>) {
    for effect in effects {
        if let Effect::Append(lines) = effect {
            let ids = lines.iter().filter_map(|l| if let Line::Entry(e) = l { Some(e.id) } else { None }).collect();
            app.answer(Outcome::Saved(ids));
        }
    }
}
