//! The lines below every page: what holds until it is over, then the last message or save, cut to the width.

use crate::model::{About, Model, Status, WrongClock};
use crate::record::Entry;
use crate::report::entry;
use crate::ui::{Role, said_room, shorten, width};

/// Least columns of a save that are shown before any follow-up message: the bench and the kind.
const LEAST_SAID: u16 = 28;

/// What holds until it is over, what is not saved first.
pub(super) fn standing(model: &Model) -> Vec<String> {
    let notice = |(about, text): (&About, &String)| match about {
        About::Saving => format!("! {} NOT YET SAVED: {text}", model.pending.len()),
        About::File | About::LastYear => format!("! {text}"),
    };
    let clock = WrongClock::of(model).map(|wrong| format!("! {}", wrong.text(model)));
    model.notices.iter().map(notice).chain(clock).collect()
}

/// The line and its role.
pub(super) fn line(model: &Model) -> Option<(String, Role)> {
    model.status.as_ref().map(|said| match said {
        Status::Info(text) => (text.clone(), Role::Said),
        Status::Saved(what, None) => (what.clone(), Role::Good),
        // A long entry must not push out the message after it.
        Status::Saved(what, Some(more)) => {
            let room = said_room(model.size.0).saturating_sub(width(more).saturating_add(2));
            let what = shorten(what, usize::from(room.max(LEAST_SAID)));
            let stop = if what.ends_with("..") { " " } else { ". " };
            (format!("{what}{stop}{more}"), Role::Good)
        }
        Status::Trouble(text) => (format!("! {text}"), Role::Urgent),
    })
}

/// The places of several entries, the last one by name where they are many.
pub(super) fn places_of(written: &[Entry]) -> String {
    let mut places: Vec<&str> = Vec::new();
    for one in written {
        let about = entry::about(one);
        if !places.contains(&about) {
            places.push(about);
        }
    }
    match places.len() {
        0..=4 => places.join(" "),
        n => format!("{n} {}, the last {}:", plural(written), places.last().copied().unwrap_or_default()),
    }
}

/// What several entries are about.
fn plural(written: &[Entry]) -> &'static str {
    if written.iter().all(|entry| entry.plot.is_some()) { "plots" } else { "benches" }
}
