//! What comes back from outside: entries kept or refused, lines of the plan kept, a season opened or loaded.

use super::App;
use crate::model::{Effect, Msg, Said, Shared, Task, To};
use crate::popups::Popup;
use crate::record::{Entry, Kind, Line, Place};
use crate::screens::Screen;
use crate::season::Season;

impl App {
    /// Takes what came of an effect.
    pub fn answer(&mut self, task: Task) -> Vec<Effect> {
        let shared = &mut self.shared;
        match task {
            Task::Saved(ids) => {
                shared.pending.retain(|id| !ids.contains(id));
                let touched: Vec<Entry> = ids.iter().filter_map(|id| shared.season.entry(*id).cloned()).collect();
                for entry in &touched {
                    touch(shared, entry);
                }
                if let Some(entry) = touched.last() {
                    let what = crate::report::entry::line(entry, shared.system());
                    let what = match &entry.kind {
                        Kind::Strike { entry: struck, .. } => shared.season.entry(*struck).map_or(what, |struck| {
                            format!("struck out: {}", crate::report::entry::line(struck, shared.system()))
                        }),
                        _ => what,
                    };
                    let text = format!("{} {what}", super::said::places_of(&touched, entry));
                    shared.saved(&text);
                }
            }
            Task::NotSaved { ids, why, again } => not_saved(shared, &ids, &why, again),
            Task::PlanKept(lines) => self.plan_kept(lines),
            Task::PlanNotKept(why) => shared.trouble(format!("NOT SAVED: {why} Enter tries again.")),
            Task::Opened { plan, path } => {
                shared.season = Season::new(plan, Vec::new());
                shared.path = path;
                shared.loaded = false;
                self.popups.clear();
                self.below.clear();
                self.screen = Screen::round(&self.shared);
            }
            Task::Loaded(entries) => {
                let mut all = entries;
                all.extend(shared.season.entries().iter().cloned());
                shared.season = Season::new(shared.season.plan().clone(), all);
                shared.loaded = true;
                shared.all_stale();
            }
            Task::NotOpened(why) if why.contains('\n') => {
                let effects = vec![Effect::Go(To::Text("Not imported", why))];
                return self.settle(effects);
            }
            Task::NotOpened(why) => shared.trouble(why),
        }
        let effects = self.screen.update(&mut self.shared, &Msg::Changed);
        self.settle(effects)
    }

    /// Lines of the plan are in the file: they hold from now on, and the form that made them is done.
    fn plan_kept(&mut self, lines: Vec<Line>) {
        let what = crate::report::plan::said(&lines);
        for line in lines {
            self.shared.season.revise(line);
        }
        self.shared.all_stale();
        self.shared.said = Some(Said::Saved(what, None));
        if matches!(self.popups.last(), Some(Popup::Plan(_))) {
            self.popups.pop();
        }
        self.below.retain(|screen| !matches!(screen, Screen::First(_)));
    }
}

/// The benches an entry touches are to be worked out anew.
fn touch(shared: &mut Shared, entry: &Entry) {
    shared.cache.touched(&shared.season, &entry.place);
    if let Kind::Moved { to, .. } = &entry.kind {
        shared.cache.touched(&shared.season, &Place::Bench(to.clone()));
    }
}

/// What the file refused for good is taken off the screen again, and said so; what may still be saved stays pending.
fn not_saved(shared: &mut Shared, ids: &[uuid::Uuid], why: &str, again: bool) {
    if again {
        shared.trouble(format!("not saved yet: {why} Trying again."));
        return;
    }
    shared.pending.retain(|id| !ids.contains(id));
    shared.trail.retain(|id| !ids.contains(id));
    let kept = shared.season.entries().iter().filter(|e| !ids.contains(&e.id)).cloned().collect();
    shared.season = Season::new(shared.season.plan().clone(), kept);
    shared.all_stale();
    shared.trouble(format!("NOT SAVED: {why}"));
}
