//! Handling of results: entries stored or refused, plan lines stored, a season opened or loaded.

use super::App;
use crate::compare::LastYear;
use crate::model::{About, Effect, Joined, Model, NotOpened, Outcome, Rescued, go};
use crate::popups::Popup;
use crate::record::{Entry, Kind, Line};
use crate::screens::Screen;
use crate::season::Season;
use uuid::Uuid;

impl App {
    /// Handles the result of an effect.
    pub fn answer(&mut self, outcome: Outcome) -> Vec<Effect> {
        let mut effects = Vec::new();
        match outcome {
            Outcome::Saved(ids) => saved(&mut self.model, &ids),
            Outcome::NotSaved { why, again: true, .. } => self.model.not_saved_yet(why),
            Outcome::NotSaved { ids, why, again: false } => {
                self.model.drop_refused(&ids);
                self.model.trouble(format!("NOT SAVED: {why}"));
            }
            Outcome::PlanKept(lines) => self.plan_kept(lines),
            Outcome::PlanWaits(lines) => {
                self.model.revise_unsaved(lines);
                self.plan_written();
            }
            Outcome::PlanNotKept(why) => self.model.trouble(format!("NOT SAVED: {why} Enter tries again.")),
            Outcome::Opened { plan, path, rescued } => {
                // What was said of the file was of another one.
                self.model.notice(About::File, None);
                self.model.open(plan, path);
                self.popups.clear();
                self.below.clear();
                self.screen = Screen::round(&self.model);
                self.offer(rescued);
            }
            Outcome::Loaded(entries) => self.model.load(entries),
            Outcome::Joined { plan, entries } => {
                let laptops = self.model.laptops_of_new(&plan, &entries);
                let joined = self.model.join(plan, entries);
                if let Some(text) = joined_text(joined, &laptops) {
                    self.model.add_word(text);
                }
                effects.extend(self.leave_findings());
            }
            Outcome::NotOpened(NotOpened::Faults(text)) => {
                effects.push(Effect::popup(go::Popup::Text("Not imported", text)));
            }
            Outcome::NotOpened(NotOpened::Trouble(why)) => self.model.trouble(why),
        }
        self.changed();
        self.settle(effects)
    }

    /// The season is read and indexed.
    pub fn take_indexed(&mut self, season: &Season) {
        self.model.take_indexed(season);
        self.changed();
    }

    /// Last year's season was read, or cannot be: every page takes it up.
    pub fn set_last_year(&mut self, last: Result<LastYear, String>) {
        self.model.set_last_year(last);
        self.changed();
    }

    /// Offers to save what earlier runs could not; nothing where there is nothing of the kind.
    pub fn offer(&mut self, rescued: Vec<Rescued>) {
        if !rescued.is_empty() {
            let context = self.context();
            self.popups.extend(Popup::open(go::Popup::Rescued(rescued), &self.model, context));
        }
    }

    /// Plan lines are in the file: applies them and closes the form that made them.
    fn plan_kept(&mut self, lines: Vec<Line>) {
        let what = crate::report::plan::said(&lines);
        self.model.revise(lines);
        self.model.saved_plan(what);
        self.plan_written();
    }

    /// Closes the form that lines of the plan were written in, and opens the one that comes next.
    fn plan_written(&mut self) {
        if let Some(Popup::Plan(form)) = self.popups.pop_if(|popup| matches!(popup, Popup::Plan(_))) {
            self.popups.extend(form.next(&self.model).map(|next| Popup::Plan(Box::new(next))));
        }
        self.popups.pop_if(|popup| matches!(popup, Popup::Trial(_)));
        if let Some(Popup::Settle(settled)) = self.popups.pop_if(|popup| matches!(popup, Popup::Settle(_))) {
            self.popups.extend(settled.next(&self.model).map(|next| Popup::Settle(Box::new(next))));
        }
        self.below.retain(|screen| !matches!(screen, Screen::First(_)));
    }
}

/// What another program or other laptops wrote, in words; `None` where nothing of it was new.
fn joined_text(joined: Joined, laptops: &[String]) -> Option<String> {
    let (who, they) = match laptops {
        [] => ("another program".to_owned(), "it"),
        [one] => (one.clone(), "it"),
        [most @ .., last] => (format!("{} and {last}", most.join(", ")), "they"),
    };
    let entries = match joined.entries {
        0 => None,
        1 => Some(format!("1 entry from {who} loaded")),
        n => Some(format!("{n} entries from {who} loaded")),
    };
    match (entries, joined.plan) {
        (Some(entries), true) => Some(format!("{entries}; {they} changed the plan too.")),
        (Some(entries), false) => Some(entries + "."),
        (None, true) if laptops.is_empty() => Some("Another program changed the plan; it is loaded.".to_owned()),
        (None, true) => Some(format!("{who} changed the plan; it is loaded.")),
        (None, false) => None,
    }
}

/// Entries are in the file: shows their words with the places of all where they say the same, else the last of them.
fn saved(model: &mut Model, ids: &[Uuid]) {
    model.kept(ids);
    let written: Vec<Entry> = ids.iter().filter_map(|id| model.season.entry(*id).cloned()).collect();
    let Some(last) = written.last() else {
        let plan = model.season.plan().lines().into_iter();
        let lines: Vec<Line> = plan.filter(|line| ids.contains(&line.id())).collect();
        if !lines.is_empty() {
            model.saved_plan(crate::report::plan::said(&lines));
        }
        return;
    };
    let line = |entry: &Entry| crate::report::entry::line(entry, model.system());
    let words = |entry: &Entry| match &*entry.kind {
        Kind::Strike { entry: struck, .. } => {
            model.season.entry(*struck).map_or_else(|| line(entry), |struck| format!("voided: {}", line(struck)))
        }
        _ => line(entry),
    };
    let what = words(last);
    let text = if written.iter().all(|entry| words(entry) == what) {
        format!("{} {what}", super::status_line::places_of(&written))
    } else {
        format!("{} entries, the last {} {what}", written.len(), crate::report::entry::about(last))
    };
    model.saved(&text);
}
