//! The state that all screens share.

use super::{Cache, Effect, Field};
use crate::input::Look;
use crate::limits::Limits;
use crate::record::{Entry, Kind, Line, Place};
use crate::report::day;
use crate::season::Season;
use crate::units::System;
use crate::warnings::Warning;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::BTreeMap;
use uuid::Uuid;

/// The time as `run` tells it before each event, and an id to make ids from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp {
    /// Now, in the site's zone, whole seconds.
    pub now: DateTime<FixedOffset>,
    /// Milliseconds since the program started; never steps back.
    pub ms: u64,
    /// A fresh id. Further entries of the same event count on from it.
    pub id: Uuid,
}

/// What was said last, below the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// A matter of course.
    Plain(String),
    /// Safe in the file; after it what was said of the same key, if anything was.
    Saved(String, Option<String>),
    /// Something did not work.
    Trouble(String),
}

/// The state that all screens share.
#[derive(Debug, Clone)]
pub struct Shared {
    /// The season, entries just written included.
    pub season: Season,
    /// The numbers the rules go by.
    pub limits: Limits,
    /// The limits file in force, where it is not the defaults.
    pub limits_file: Option<String>,
    /// What was worked out of the season, bench by bench.
    pub cache: Cache,
    /// What was worked out of it for the day before, to tell what is new, worse and over.
    pub before: Cache,
    /// The time.
    pub stamp: Stamp,
    /// The day that new entries belong to.
    pub day: NaiveDate,
    /// Who writes; empty until asked.
    pub by: String,
    /// Entries shown but not yet safe in the file, oldest first.
    pub pending: Vec<Uuid>,
    /// Entries written in this session that can still be struck out by "undo", oldest first.
    pub trail: Vec<Uuid>,
    /// What was said last.
    pub said: Option<Said>,
    /// It was said since the last event.
    pub just_said: bool,
    /// Lines left half typed, by what they were for.
    pub drafts: BTreeMap<String, String>,
    /// What the terminal can show.
    pub look: Look,
    /// Columns and rows of the window.
    pub size: (u16, u16),
    /// Where the season file lies.
    pub path: String,
    /// False until the entries of the season file are read.
    pub loaded: bool,
    /// Entries written together, a list each.
    together: Vec<Vec<Uuid>>,
    made: u32,
}

impl Shared {
    /// A shared state around a season.
    pub fn new(season: Season, limits: Limits, by: String, stamp: Stamp, look: Look) -> Self {
        let cache = Cache::of(&season);
        Self {
            season,
            limits,
            limits_file: None,
            before: cache.clone(),
            cache,
            stamp,
            day: stamp.now.date_naive(),
            by,
            pending: Vec::new(),
            trail: Vec::new(),
            said: None,
            just_said: false,
            drafts: BTreeMap::new(),
            look,
            size: (80, 24),
            path: String::new(),
            loaded: true,
            together: Vec::new(),
            made: 0,
        }
    }

    /// Tells the time. True when it has become another day.
    pub fn tell(&mut self, stamp: Stamp) -> bool {
        self.stamp = stamp;
        self.made = 0;
        self.just_said = false;
        let today = stamp.now.date_naive();
        let turned = today != self.day;
        if turned {
            self.day = today;
            self.all_stale();
            self.say(format!("It is now {}. New entries go to this day.", day::long(today)));
        }
        turned
    }

    /// Everything is to be worked out anew.
    pub fn all_stale(&mut self) {
        self.cache.all_stale(&self.season);
        self.before.all_stale(&self.season);
    }

    /// Works something out: today first, then the day before. False when nothing is left.
    pub fn step(&mut self) -> bool {
        if !self.loaded {
            return false;
        }
        let before = self.day.pred_opt().unwrap_or(self.day);
        self.cache.step(&self.season, self.day, &self.limits) || self.before.step(&self.season, before, &self.limits)
    }

    /// An id for an entry made now.
    fn new_id(&mut self) -> Uuid {
        // Only the last 31 bits count on: the time and version bits of the id stay as they are.
        let base = self.stamp.id.as_u128();
        let low = (base & 0x7FFF_FFFF).wrapping_add(u128::from(self.made)) & 0x7FFF_FFFF;
        self.made = self.made.wrapping_add(1);
        Uuid::from_u128((base & !0xFFFF_FFFF) | low)
    }

    /// Makes an entry of now.
    pub fn entry(&mut self, place: Place, kind: Kind, note: Option<String>) -> Entry {
        let id = self.new_id();
        Entry { id, at: self.stamp.now, by: self.by.clone(), place, kind, note }
    }

    /// Writes something down: it shows at once, pending until the file has it.
    pub fn write(&mut self, place: Place, kind: Kind, note: Option<String>) -> Effect {
        let entry = self.entry(place, kind, note);
        self.keep(entry)
    }

    /// Takes an entry ready made: it shows at once, pending until the file has it.
    pub fn keep(&mut self, entry: Entry) -> Effect {
        self.pending.push(entry.id);
        if !matches!(entry.kind, Kind::Strike { .. }) {
            self.trail.push(entry.id);
        }
        self.cache.touched(&self.season, &entry.place);
        self.season.insert(entry.clone());
        Effect::Append(vec![Line::Entry(entry)])
    }

    /// Takes entries ready made that belong together: they reach the file in one transaction, and one undo takes all back.
    pub fn keep_all(&mut self, entries: Vec<Entry>) -> Effect {
        let ids: Vec<Uuid> = entries.iter().map(|e| e.id).collect();
        let mut lines = Vec::with_capacity(entries.len());
        for entry in entries {
            if let Kind::Moved { to, .. } = &entry.kind {
                self.cache.touched(&self.season, &Place::Bench(to.clone()));
            }
            if let Effect::Append(more) = self.keep(entry) {
                lines.extend(more);
            }
        }
        if ids.len() > 1 {
            self.together.push(ids);
        }
        Effect::Append(lines)
    }

    /// What "undo" would take back: the last entry written in this session, with all that was written together with it.
    pub fn last_written(&self) -> Vec<Uuid> {
        let Some(last) = self.trail.last() else { return Vec::new() };
        let group = self.together.iter().find(|ids| ids.contains(last));
        group.map_or_else(|| vec![*last], |ids| ids.iter().copied().filter(|id| self.trail.contains(id)).collect())
    }

    /// Takes back what was written last, as "undo" does on every page: struck out at once, but for what keeps people out,
    /// whose strike is asked about in a form. Says so where there is nothing.
    pub fn take_back(&mut self) -> Vec<Effect> {
        let ids = self.last_written();
        let known: Vec<Entry> = ids.iter().filter_map(|id| self.season.entry(*id).cloned()).collect();
        if known.iter().any(|e| super::closes(&e.kind)) {
            let ask = super::Ask::strike(&ids, self);
            return ask.map(|ask| Effect::Go(super::To::Form(Box::new(ask)))).into_iter().collect();
        }
        if known.is_empty() {
            self.say("Nothing of this session is left to take back.");
            return Vec::new();
        }
        let mut strikes = Vec::with_capacity(known.len());
        for entry in &known {
            let kind = Kind::Strike { entry: entry.id, why: "taken back".to_owned(), reopen: false };
            strikes.push(self.entry(entry.place.clone(), kind, None));
        }
        self.trail.retain(|id| !ids.contains(id));
        vec![self.keep_all(strikes)]
    }

    /// Strikes out the last entry written in this session. `None` when there is none.
    pub fn undo(&mut self) -> Option<(Entry, Effect)> {
        let id = self.trail.pop()?;
        let struck = self.season.entry(id)?.clone();
        let kind = Kind::Strike { entry: id, why: "taken back while walking".to_owned(), reopen: false };
        let effect = self.write(struck.place.clone(), kind, None);
        Some((struck, effect))
    }

    /// What the rules say of a bench, as worked out last, those of its lot and house too, but for what is put off; its own
    /// come first.
    pub fn standing_warnings(&self, bench: &str) -> Vec<Warning> {
        let own = self.cache.bench(bench).map(|s| s.warnings.clone()).unwrap_or_default();
        let wide = self.cache.wide().iter().filter(|w| w.benches.iter().any(|b| b == bench)).cloned();
        own.into_iter().chain(wide).filter(|w| w.put_off_until.is_none()).collect()
    }

    /// The unit system of the site.
    pub fn system(&self) -> System {
        self.season.site().map_or(System::Metric, |site| site.units)
    }

    /// A bench is closed at this minute: until when, in the site's time.
    pub fn closed_until(&self, bench: &str) -> Option<DateTime<FixedOffset>> {
        let now = self.stamp.now;
        self.season.keep_out(bench, now.to_utc()).map(|until| self.local(until))
    }

    /// An instant in the site's time.
    pub fn local(&self, instant: DateTime<chrono::Utc>) -> DateTime<FixedOffset> {
        match self.season.site() {
            Some(site) => instant.with_timezone(&site.time_zone).fixed_offset(),
            None => instant.with_timezone(self.stamp.now.offset()),
        }
    }

    /// A field holding what was left half typed under this name.
    pub fn draft(&self, name: &str) -> Field {
        self.drafts.get(name).map_or_else(Field::default, |text| Field::holding(text))
    }

    /// Keeps what is half typed under a name; a blank line is forgotten.
    pub fn keep_draft(&mut self, name: &str, field: &Field) {
        if field.is_blank() {
            self.drafts.remove(name);
        } else {
            self.drafts.insert(name.to_owned(), field.text().to_owned());
        }
    }

    /// Says something below the page.
    pub fn say(&mut self, text: impl Into<String>) {
        self.just_said = true;
        self.said = Some(Said::Plain(text.into()));
    }

    /// Says that something is safe in the file, before what was said of the same key.
    pub fn saved(&mut self, what: &str) {
        self.said = Some(match self.said.take() {
            Some(Said::Plain(text)) if self.just_said => Said::Saved(format!("saved: {what}"), Some(text)),
            Some(Said::Trouble(text)) if self.just_said => Said::Trouble(text),
            _ => Said::Saved(format!("saved: {what}"), None),
        });
    }

    /// Says that something did not work.
    pub fn trouble(&mut self, text: impl Into<String>) {
        self.just_said = true;
        self.said = Some(Said::Trouble(text.into()));
    }
}
