//! What the screens could not save in an earlier run: said by the commands that read the season, which it is missing from.

use super::Context;
use super::args::Action;
use crate::characters::in_one_line;
use crate::session::rescue;
use crate::store::Store;

/// True for the commands whose answer lacks what is not saved.
pub(super) const fn concerns(action: Option<&Action>) -> bool {
    matches!(
        action,
        Some(
            Action::Export(_)
                | Action::Backup(_)
                | Action::Review(_)
                | Action::Season(_)
                | Action::Close(_)
                | Action::Sheet(_)
        )
    )
}

/// Says it on standard error, a line a journal.
pub(super) fn tell(context: &mut Context<'_>) {
    let (state, season) = (&context.folders.state, &context.settings.season);
    if !rescue::is_any(state) {
        return;
    }
    let store = Store::open_read_only(season).ok();
    for left in rescue::left_behind(state, season, store.as_ref()).into_iter().filter(|left| !left.done) {
        let path = in_one_line(&left.rescued.path);
        let entries = match left.rescued.lines.len() {
            0 => "What is".to_owned(),
            1 => "1 entry".to_owned(),
            n => format!("{n} entries"),
        };
        let are = if left.rescued.lines.len() > 1 { "are" } else { "is" };
        // Where even standard error is gone nobody reads it.
        writeln!(context.err, "{entries} not saved yet {are} in {path}: benchwalk import {path}").ok();
    }
}
