//! The state that all screens share.

use super::listing::Listing;
use super::undo::{Step, UndoStack};
use super::{Cache, DraftKey, Drafts, Effect, FormRequest, Setting, closed, wrong_clock};
use crate::compare::LastYear;
use crate::controls::Field;
use crate::dates;
use crate::exchange::Sharing;
use crate::input::{Look, Palette};
use crate::limits::Limits;
use crate::record::typed::DayReader;
use crate::record::{Entry, FieldFault, Kind, KindName, Line, LineKey, NOBODY, Place, Plan, Revision};
use crate::report::compare::Comparison;
use crate::report::{entry, words};
use crate::review::{ListedFor, Review, build_for};
use crate::season::{Season, SeasonFault, Unsettled};
use crate::units::System;
use crate::warnings::{Slower, Warning};
use chrono::{DateTime, Datelike, FixedOffset, NaiveDate, TimeZone, Timelike, Utc};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::ops::Deref;
use std::sync::{Arc, OnceLock};
use uuid::Uuid;

/// The time as `run` gives it before each event, and an id to make ids from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Now {
    /// The instant, in the site's zone, whole seconds.
    pub at: DateTime<FixedOffset>,
    /// Milliseconds since the program started; never decreases.
    pub ms: u64,
    /// A fresh id. Further entries of the same event count on from it.
    pub id: Uuid,
}

/// The hour from which on the evening's list is for the next day.
const NOON: u32 = 12;

/// Entries of another program up to which the season is added to rather than indexed again.
const FEW: usize = 64;

/// What another program wrote that was not known here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Joined {
    /// Entries.
    pub entries: usize,
    /// Lines of the plan.
    pub plan: bool,
}

/// What the line below every page says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Status {
    /// Informational.
    Info(String),
    /// Safe in the file; with an optional follow-up message for the same key.
    Saved(String, Option<String>),
    /// Something did not work.
    Trouble(String),
}

/// What a standing notice is about. There is one notice of each at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// The lines that are not saved yet: why, and what to do.
    Saving,
    /// The season file: it cannot be written, or is damaged.
    File,
    /// Last year's season, which cannot be read.
    LastYear,
}

/// What the screens read of the state. [`Model`] gives it out by `Deref`, so every fact reads as a field and changes only
/// through the methods of [`Model`], which keep them in step.
#[derive(Debug, Clone)]
pub struct Facts {
    /// The season, entries just recorded included, with the plan as known on the day.
    pub season: Season,
    /// The numbers the rules go by.
    pub limits: Limits,
    /// The limits file in force, where it is not the defaults.
    pub limits_file: Option<String>,
    /// The assessment of the season, bench by bench.
    pub cache: Cache,
    /// Its assessment for the day before, to tell what is new, worse and over.
    pub before: Cache,
    /// What of the jobs of yesterday evening is left, in one line; `None` where nothing is, and until it is worked out.
    pub left: Option<String>,
    /// The time.
    pub now: Now,
    /// The day that new entries belong to.
    pub day: NaiveDate,
    /// Who writes; empty until asked.
    pub by: String,
    /// Entries and lines of the plan that are shown but not yet safe in the file, oldest first.
    pub pending: Vec<Uuid>,
    /// What the line below the page says: a message about the last key.
    pub status: Option<Status>,
    /// What holds until it is over: shown above the status line on every page.
    pub notices: BTreeMap<About, String>,
    /// What the terminal can show.
    pub look: Look,
    /// Columns and rows of the window, without the band of another day.
    pub size: (u16, u16),
    /// Where the season file lies.
    pub path: String,
    /// False until the entries of the season file are read, and again while those of another program are.
    pub loaded: bool,
    /// How far that reading got, hundredths; `None` where it is not known.
    pub read: Option<u8>,
    /// Why the record could not be read to its end. What is closed is not known then, and no bench can be walked.
    pub unread: Option<String>,
    /// True where the day is a given one (`--on`), not that of the clock.
    pub replayed: bool,
    /// Which benches lists show, and in which order.
    pub listing: Listing,
    /// The day the program was put on from within, where it is not its own.
    pub other_day: Option<NaiveDate>,
    /// Last year's season beside this one; `None` where there is none, and until it is read.
    pub last_year: Option<Arc<LastYear>>,
    /// The comparison with it as the Season page made it, and how many entries there were; `None` until it is made.
    pub compared: Option<(usize, Arc<Comparison>)>,
    /// What is known of the laptops and carriers of the season; `None` where it is not shared.
    pub sharing: Option<Arc<Sharing>>,
    /// True while lines are exchanged because that was asked for.
    pub exchanging: bool,
    /// What is to settle, as worked out at the last rest.
    pub to_settle: Arc<Vec<Unsettled>>,
    /// The review of the day, as put together at the last rest; `None` before, and without a site.
    pub review: Option<Arc<Review>>,
}

/// What happened since the last event.
#[derive(Debug, Clone, Copy, Default)]
struct SinceEvent {
    /// The status was set.
    said: bool,
    /// The other day was put on or put back.
    moved: bool,
}

/// The state that all screens share.
#[derive(Debug, Clone)]
pub struct Model {
    pub(super) facts: Facts,
    /// What was typed and left.
    drafts: Drafts,
    /// Houses whose temperature was skipped, with the day.
    pub(super) unasked: BTreeSet<(String, NaiveDate)>,
    since: SinceEvent,
    pub(super) undo_stack: UndoStack,
    /// Ids made since the last event.
    made: u32,
    /// The time as it was given, before it is moved to another day.
    pub(super) own: DateTime<FixedOffset>,
    /// The instant at which what is known of laptops and carriers was set, and the milliseconds since the start then.
    pub(super) shared_at: (DateTime<Utc>, u64),
    /// Columns and rows of the window.
    window: (u16, u16),
    /// True where the day was given at the start (`--on`).
    pub(super) given: bool,
    /// Who wrote in this session, the newest last.
    pub(super) writers: Vec<String>,
    /// How often the palette could not be kept.
    palettes_lost: u32,
    /// The review is to be put together again.
    review_stale: bool,
    /// The benches that dry slower than their lot, for the review that is put together next.
    slower: Option<Vec<Slower>>,
    /// The instant as of which what is to settle was worked out; `None` where it is to be worked out again.
    pub(super) settled_as_of: Option<DateTime<FixedOffset>>,
    /// The instant of the last entry that says something of this laptop's clock, once it was asked for: every page asks.
    pub(super) last_entry: OnceLock<Option<DateTime<Utc>>>,
}

impl Deref for Model {
    type Target = Facts;

    fn deref(&self) -> &Facts {
        &self.facts
    }
}

impl Model {
    /// A shared state around a season whose entries are all there.
    pub fn new(season: &Season, limits: Limits, by: String, now: Now, look: Look) -> Self {
        let season = season.on(now.at.date_naive());
        let cache = Cache::of(&season);
        let facts = Facts {
            season,
            limits,
            limits_file: None,
            before: cache.clone(),
            cache,
            left: None,
            now,
            day: now.at.date_naive(),
            by,
            pending: Vec::new(),
            status: None,
            notices: BTreeMap::new(),
            look,
            size: (80, 24),
            path: String::new(),
            loaded: true,
            read: None,
            unread: None,
            replayed: false,
            listing: Listing::default(),
            other_day: None,
            last_year: None,
            compared: None,
            sharing: None,
            exchanging: false,
            to_settle: Arc::default(),
            review: None,
        };
        Self {
            facts,
            drafts: Drafts::default(),
            unasked: BTreeSet::new(),
            since: SinceEvent::default(),
            undo_stack: UndoStack::default(),
            made: 0,
            own: now.at,
            shared_at: (now.at.to_utc(), now.ms),
            window: (80, 24),
            given: false,
            writers: Vec::new(),
            palettes_lost: 0,
            review_stale: true,
            slower: None,
            settled_as_of: None,
            last_entry: OnceLock::new(),
        }
    }

    /// The text of a draft, which may be empty; `None` where nothing was left.
    pub fn draft(&self, key: &DraftKey) -> Option<&str> {
        self.drafts.text(key)
    }

    /// A text field with the draft.
    pub fn draft_field(&self, key: &DraftKey) -> Field {
        self.drafts.field(key)
    }

    /// Stores a text as a draft, also an empty one.
    pub fn keep_draft(&mut self, key: DraftKey, text: String) {
        self.drafts.keep(key, text);
    }

    /// Stores a half-typed line as a draft; a blank one removes the draft.
    pub fn keep_draft_field(&mut self, key: DraftKey, field: &Field) {
        self.drafts.keep_field(key, field);
    }

    /// Removes a draft.
    pub fn forget_draft(&mut self, key: &DraftKey) {
        self.drafts.forget(key);
    }

    /// Says where the season file lies, and which limits file is in force.
    pub fn set_files(&mut self, path: String, limits_file: Option<String>) {
        (self.facts.path, self.facts.limits_file) = (path, limits_file);
    }

    /// Sets last year's season beside this one, or says why it is not shown.
    pub fn set_last_year(&mut self, last: Result<LastYear, String>) {
        match last {
            Ok(last) => {
                self.facts.last_year = Some(Arc::new(last));
                self.notice(About::LastYear, None);
            }
            Err(why) => self.notice(About::LastYear, Some(why)),
        }
    }

    /// Keeps a comparison with last year that is whole, for the file that is written of it.
    pub fn keep_comparison(&mut self, comparison: Comparison) {
        self.facts.compared = Some((self.season.entries().len(), Arc::new(comparison)));
    }

    /// The comparison with last year, where it is one of today's season.
    pub fn comparison(&self) -> Option<&Comparison> {
        let (entries, comparison) = self.compared.as_ref()?;
        (*entries == self.season.entries().len() && comparison.on == self.day).then_some(&**comparison)
    }

    /// What reports call the limits in force: the file, or the defaults.
    pub fn limits_name(&self) -> String {
        self.limits_file.clone().unwrap_or_else(|| "defaults".to_owned())
    }

    /// The entries of the season are still to be read ([`Model::load`] brings them).
    pub fn wait_for_entries(&mut self) {
        (self.facts.loaded, self.facts.read) = (false, None);
    }

    /// Says how far the reading got: entries read, of how many.
    pub fn reading(&mut self, read: usize, of: usize) {
        let hundredths = read.saturating_mul(100).checked_div(of).unwrap_or(100).min(100);
        self.facts.read = u8::try_from(hundredths).ok();
    }

    /// The record could not be read to its end. No bench can be walked until it is.
    pub fn could_not_read(&mut self, why: String) {
        self.trouble(format!("The season could not be read: {why}"));
        (self.facts.loaded, self.facts.unread) = (true, Some(why));
    }

    /// Says whether the day is a given one (`--on`) rather than that of the clock.
    pub fn set_replayed(&mut self, replayed: bool) {
        self.given = replayed;
        self.facts.replayed = replayed || self.other_day.is_some();
    }

    /// Sets which benches lists show, and in which order.
    pub fn set_listing(&mut self, listing: Listing) {
        self.facts.listing = listing;
    }

    /// Sets the size of the window, columns and rows.
    pub fn resize(&mut self, size: (u16, u16)) {
        self.window = size;
        let band = u16::from(self.other_day.is_some());
        self.facts.size = (size.0, size.1.saturating_sub(band));
    }

    /// Sets the initials of the writer.
    pub fn set_by(&mut self, by: &str) {
        self.writers.push(self.facts.by.clone());
        by.clone_into(&mut self.facts.by);
    }

    /// Goes on to the next palette and says so; gives the setting to be kept.
    pub fn next_palette(&mut self) -> Setting {
        let palette = self.look.palette.next();
        self.set_palette(palette);
        self.say(format!("Palette: {} (F8 changes it).", palette.name()));
        Setting::Palette(palette)
    }

    /// Sets the palette.
    pub fn set_palette(&mut self, palette: Palette) {
        self.facts.look.palette = palette;
    }

    /// Says that a setting holds only until the program is left. Of the palette it is said once: its key is pressed again and
    /// again.
    pub fn not_kept(&mut self, setting: &Setting, why: &str) {
        self.palettes_lost = self.palettes_lost.saturating_add(u32::from(matches!(setting, Setting::Palette(_))));
        if !matches!(setting, Setting::Palette(_)) || self.palettes_lost == 1 {
            self.trouble(format!("{} is used until you quit; it could not be saved: {why}", setting.value()));
        }
    }

    /// Sets the time. True when it has become another day.
    pub fn tick(&mut self, now: Now) -> bool {
        self.own = now.at;
        self.facts.now = Now { at: self.on_day(now.at), ..now };
        self.made = 0;
        self.since.said = false;
        self.age_to_settle();
        self.turn()
    }

    /// Puts the program on another day, or back on its own, at once.
    pub fn put_on(&mut self, day: Option<NaiveDate>) {
        self.facts.other_day = day;
        self.facts.replayed = self.given || day.is_some();
        self.facts.now.at = self.on_day(self.own);
        self.resize(self.window);
        self.since.moved = true;
        self.turn();
        self.say_day();
    }

    /// The day of the time as it is given: that of the clock, or of `--on`.
    pub(super) fn own_day(&self) -> NaiveDate {
        self.own.date_naive()
    }

    /// A time on the other day, where the program is put on one: the same time of day.
    fn on_day(&self, at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
        let Some(day) = self.other_day else { return at };
        let local = day.and_time(at.time());
        let found = match self.season.site() {
            Some(site) => dates::at_local(site.time_zone, local),
            None => at.offset().from_local_datetime(&local).earliest(),
        };
        found.unwrap_or(at)
    }

    /// Goes on to the day of the present time. True when it is another one.
    fn turn(&mut self) -> bool {
        let today = self.now.at.date_naive();
        let turned = today != self.day;
        let moved = std::mem::take(&mut self.since.moved);
        if turned {
            let went_back = today < self.day;
            self.facts.day = today;
            self.facts.season = self.season.whole().on(today);
            self.all_stale();
            if moved {
                return true;
            }
            let back = if went_back { "The clock went back: it" } else { "It" };
            self.say(format!("{back} is now {}. New entries go to this day.", dates::long(today)));
        }
        turned
    }

    /// Everything is to be assessed again.
    pub fn all_stale(&mut self) {
        self.settle_again();
        let Facts { cache, before, season, .. } = &mut self.facts;
        cache.all_stale(season);
        before.all_stale(season);
    }

    /// Works out a piece: today first, then the day before, what is to settle, and the review of it all. False when nothing is
    /// left.
    pub fn step(&mut self) -> bool {
        let Facts { season, limits, cache, before, day, loaded, .. } = &mut self.facts;
        let yesterday = day.pred_opt().unwrap_or(*day);
        if !*loaded {
            return false;
        }
        if cache.step(season, *day, limits) || before.step(season, yesterday, limits) {
            (self.review_stale, self.slower) = (true, None);
            return true;
        }
        if self.step_to_settle() {
            (self.review_stale, self.slower) = (true, None);
            return true;
        }
        let stale = self.review_is_stale();
        if stale && self.slower.is_none() {
            self.slower = Some(self.cache.slower(&self.season, self.day));
        } else if stale {
            self.review_stale = false;
            let review = self.put_together();
            self.facts.left = review.as_ref().and_then(words::left);
            self.facts.review = review.map(Arc::new);
        }
        stale
    }

    /// True where the review is not that of what is assessed, or at noon of another day's jobs.
    fn review_is_stale(&self) -> bool {
        self.review_stale || self.review.as_ref().is_some_and(|review| review.listed != self.jobs_for())
    }

    /// True until everything was assessed once, since the season was read and the day began.
    pub const fn is_new(&self) -> bool {
        !(self.facts.cache.is_whole() && self.facts.before.is_whole())
    }

    /// True when everything is assessed.
    pub fn is_settled(&self) -> bool {
        self.cache.is_fresh() && self.before.is_fresh() && self.settled_as_of.is_some() && !self.review_is_stale()
    }

    /// The review of the day as assessed last; `None` where the season has no site.
    fn put_together(&mut self) -> Option<Review> {
        let slower = self.slower.take().unwrap_or_default();
        let today: Vec<Warning> = self.cache.warnings(&self.season).cloned().collect();
        let before: Vec<Warning> = self.before.warnings(&self.season).cloned().collect();
        let limits = self.limits_name();
        let review =
            build_for(&self.season, (self.day, self.jobs_for()), (today, self.cache.walked()), &before, limits)?;
        let review = review.with_not_known(self.cache.not_known()).with_slower(slower);
        Some(review.with_to_settle(self.to_settle.to_vec()))
    }

    /// Which day the jobs are for: before noon those of the day itself, as the evening before listed them and as the round changes
    /// them; from noon on, and on a given day, those of the next.
    pub fn jobs_for(&self) -> ListedFor {
        let morning = self.now.at.hour() < NOON;
        if morning && !self.replayed { ListedFor::Today } else { ListedFor::Tomorrow }
    }

    /// Assesses a few benches. False when none waits.
    pub fn step_benches(&mut self) -> bool {
        let Facts { season, limits, cache, day, loaded, .. } = &mut self.facts;
        *loaded && cache.step_benches(season, *day, limits)
    }

    /// Assesses a bench at once: for the one a page is about to show.
    pub fn assess_bench(&mut self, bench: &str) {
        let Facts { season, limits, cache, day, .. } = &mut self.facts;
        cache.now(season, bench, *day, limits);
    }

    /// An id for an entry made now.
    pub(super) fn new_id(&mut self) -> Uuid {
        // Only the last 31 bits count on: the time and version bits of the id stay as they are.
        let base = self.now.id.as_u128();
        let low = (base & 0x7FFF_FFFF).wrapping_add(u128::from(self.made)) & 0x7FFF_FFFF;
        self.made = self.made.wrapping_add(1);
        Uuid::from_u128((base & !0xFFFF_FFFF) | low)
    }

    /// Makes an entry of now; it is not recorded yet.
    pub fn entry(&mut self, place: Place, kind: Kind, note: Option<String>) -> Entry {
        let id = self.new_id();
        Entry {
            id,
            at: self.now.at,
            by: self.by.as_str().into(),
            place,
            plot: None,
            kind: kind.into(),
            note: note.map(Into::into),
        }
    }

    /// Makes an entry of now of a plot on its bench; it is not recorded yet.
    pub fn plot_entry(&mut self, (bench, plot): (&str, &str), kind: Kind, note: Option<String>) -> Entry {
        let place = Place::Bench(bench.into());
        Entry { plot: Some(plot.into()), ..self.entry(place, kind, note) }
    }

    /// Checks lines as [`Season::admit`] does, with ranges in the units of the site. A fault that not all of several lines
    /// share names its place.
    ///
    /// # Errors
    /// Every fault, by field; nothing is changed.
    pub fn admit(&self, lines: &[Line]) -> Result<(), Vec<FieldFault>> {
        let Err(faults) = self.season.admit(lines, self.system()) else { return Ok(()) };
        let same = |a: &SeasonFault, b: &SeasonFault| a.field == b.field && a.text == b.text;
        let mut once: Vec<FieldFault> = Vec::new();
        for fault in &faults {
            let shared = faults.iter().filter(|f| same(f, fault)).count() >= lines.len();
            let place = lines.get(fault.index).filter(|_| !shared).map(place_of).unwrap_or_default();
            let fault = FieldFault::new(fault.field.clone().unwrap_or_default(), format!("{place}{}", fault.text));
            if !once.contains(&fault) {
                once.push(fault);
            }
        }
        Err(once)
    }

    /// Records entries that belong together, the one way in for all of them: checked first, then shown at once, pending until
    /// the file has them. They reach the file in one transaction, and one undo takes all back.
    ///
    /// # Errors
    /// Every fault, by field; nothing is recorded then.
    pub fn record(&mut self, entries: Vec<Entry>) -> Result<Effect, Vec<FieldFault>> {
        let closed = closed::faults(self, &entries);
        if !closed.is_empty() {
            return Err(closed);
        }
        let (lines, step) = self.take_in(entries)?;
        let season = &self.facts.season;
        let made: Vec<&Entry> = step.made.iter().filter_map(|id| season.entry(*id)).collect();
        let again = |id: Uuid| {
            let old = season.entry(id);
            old.is_some_and(|old| {
                let same = |e: &Entry| e.place == old.place && e.plot == old.plot && e.name() == old.name();
                made.iter().any(|e| same(e) && e.day() == old.day())
            })
        };
        self.undo_stack.supersede(again);
        self.undo_stack.push(step);
        Ok(Effect::Append(lines))
    }

    /// Checks entries and shows them as pending: the lines to save, and what they changed.
    pub(super) fn take_in(&mut self, entries: Vec<Entry>) -> Result<(Vec<Line>, Step), Vec<FieldFault>> {
        let lines: Vec<Line> = entries.iter().cloned().map(Line::Entry).collect();
        self.admit(&lines)?;
        self.settle_again();
        let mut step = Step::default();
        let Facts { season, cache, pending, .. } = &mut self.facts;
        for entry in entries {
            pending.push(entry.id);
            if let Kind::Strike { entry: struck, .. } = &*entry.kind {
                step.voided.push(*struck);
            } else {
                step.made.push(entry.id);
            }
            cache.touched_by(season, &entry);
            season.insert(entry);
        }
        Ok((lines, step))
    }

    /// Records an entry in place of others, which are voided with the reason given.
    ///
    /// # Errors
    /// Every fault, by field; nothing is recorded and nothing voided then.
    pub fn replace(&mut self, old: &[Entry], why: &str, entry: Entry) -> Result<Effect, Vec<FieldFault>> {
        let mut all = self.strikes(old, why);
        all.push(entry);
        self.record(all)
    }

    /// The same where nobody is asked: what another laptop wrote stays beside the new entry, and it is said.
    ///
    /// # Errors
    /// Every fault, by field; nothing is recorded and nothing voided then.
    pub fn replace_own(&mut self, old: &[Entry], why: &str, entry: Entry) -> Result<Effect, Vec<FieldFault>> {
        let is_own = |e: &&Entry| self.season.origin(e.id).is_none();
        let (own, others): (Vec<&Entry>, Vec<&Entry>) = old.iter().partition(is_own);
        let stays = others.last().map(|other| {
            let who = words::who_when(&self.season.writer(other), &[], Some(self.day));
            format!("{who} logged it too; both stay. To void that one: its bench's page, x.")
        });
        let own: Vec<Entry> = own.into_iter().cloned().collect();
        let effect = self.replace(&own, why, entry)?;
        if let Some(stays) = stays {
            self.say(stays);
        }
        Ok(effect)
    }

    /// The strikes of entries, for the reason given; none of them reopens a place.
    pub(super) fn strikes(&mut self, old: &[Entry], why: &str) -> Vec<Entry> {
        let strike = |entry: &Entry| {
            let kind = Kind::Strike { entry: entry.id, why: why.to_owned(), reopen: false };
            self.entry(entry.place.clone(), kind, None)
        };
        old.iter().map(strike).collect()
    }

    /// Voids entries that the usual undo would not reach, with a refusal said below the page.
    pub fn take_out(&mut self, old: &[Entry]) -> Vec<Effect> {
        let strikes = self.strikes(old, "undone");
        // A second undo soon after asks, as after any other.
        self.undo_stack.undone_at = Some(self.now.ms);
        self.record_or_say(strikes)
    }

    /// The form that voids entries; `None` where none of them is known.
    pub fn strike_form(&self, ids: &[Uuid]) -> Option<FormRequest> {
        let known = ids.iter().filter_map(|id| self.season.entry(*id));
        // What an entry completes is shown as one with it, and goes with it.
        let strikes: Vec<Uuid> =
            known.flat_map(|e| [Some(e.id), self.season.former(e).map(|f| f.id)]).flatten().collect();
        let place = self.season.entry(*strikes.first()?)?.place.clone();
        Some(FormRequest { strikes, ..FormRequest::new(KindName::Strike, place) })
    }

    /// [`Model::record`] with a refusal said below the page.
    pub fn record_or_say(&mut self, entries: Vec<Entry>) -> Vec<Effect> {
        match self.record(entries) {
            Ok(effect) => vec![effect],
            Err(faults) => {
                self.refuse(&faults);
                Vec::new()
            }
        }
    }

    /// Says below the page why entries were refused: field, value and what would be right.
    pub fn refuse(&mut self, faults: &[FieldFault]) {
        let said = faults.first().map(fault_text).unwrap_or_default();
        self.trouble(format!("Not logged: {said}"));
    }

    /// These entries and lines of the plan are safe in the file.
    pub fn kept(&mut self, ids: &[Uuid]) {
        self.no_longer_pending(ids);
    }

    /// They wait no longer. With the last of them goes the notice that says why they waited.
    fn no_longer_pending(&mut self, ids: &[Uuid]) {
        self.facts.pending.retain(|id| !ids.contains(id));
        if self.pending.is_empty() {
            self.facts.notices.remove(&About::Saving);
        }
    }

    /// The file refused these entries for good: they are taken out again.
    pub fn drop_refused(&mut self, ids: &[Uuid]) {
        self.no_longer_pending(ids);
        self.undo_stack.forget(ids);
        let entries = self.season.entries().iter().cloned().map(Line::Entry);
        let lines = self.season.plan().lines().into_iter().chain(entries);
        let season = Season::of(lines.filter(|line| !ids.contains(&line.id())));
        self.facts.season = season.with_origins_of(&self.season).on(self.day);
        self.all_stale();
    }

    /// When and by whom a line of the plan is written now: the `number`-th of those written together, from 0, in the place of
    /// these.
    pub fn revision(&self, number: u32, mut replaces: Vec<Uuid>, corrects: bool) -> Revision {
        let base = self.now.id.as_u128();
        let low = (base & 0x7FFF_FFFF).wrapping_add(u128::from(self.made.wrapping_add(number))) & 0x7FFF_FFFF;
        replaces.sort_unstable();
        Revision {
            id: Some(Uuid::from_u128((base & !0xFFFF_FFFF) | low)),
            at: Some(self.now.at),
            by: Some(if self.by.is_empty() { NOBODY.to_owned() } else { self.by.clone() }),
            replaces: Some(replaces),
            corrects,
            ..Revision::default()
        }
    }

    /// These lines of the plan are safe in the file and hold from now on.
    pub fn revise(&mut self, lines: Vec<Line>) {
        for line in lines {
            self.facts.season.revise(line);
        }
        self.all_stale();
    }

    /// These lines of the plan hold from now on, but are not safe in the file yet.
    pub fn revise_unsaved(&mut self, lines: Vec<Line>) {
        self.facts.pending.extend(lines.iter().map(Line::id));
        self.revise(lines);
    }

    /// Another season was opened; its entries follow.
    pub fn open(&mut self, plan: Plan, path: String) {
        if self.other_day.is_some() {
            self.put_on(None);
        }
        self.facts.season = Season::new(plan, Vec::new()).on(self.day);
        self.settle_again();
        self.facts.path = path;
        self.facts.unread = None;
        (self.facts.last_year, self.facts.compared) = (None, None);
        self.unshare();
        self.notice(About::LastYear, None);
        self.wait_for_entries();
        self.undo_stack = UndoStack::default();
    }

    /// The entries of the open season are here; those recorded meanwhile stay.
    pub fn load(&mut self, entries: Vec<Entry>) {
        let season = self.indexing(entries)();
        self.take_indexed(&season);
    }

    /// What makes a season of the entries that were read, and of those that are here: to be done on any thread, and taken by
    /// [`Model::take_indexed`]. Of many entries it takes longer than a key may wait.
    pub fn indexing(&self, mut entries: Vec<Entry>) -> impl FnOnce() -> Season + Send + use<> {
        let (here, day) = (self.season.clone(), self.day);
        move || {
            entries.extend(here.entries().iter().cloned());
            let season = Season::new(here.plan().clone(), entries).with_origins_of(&here).on(day);
            // What is made when it is first asked for would else be made before the first frame.
            if let Some(bench) = season.benches().first() {
                season.standing(&bench.bench, day);
                season.standing(&bench.bench, day.pred_opt().unwrap_or(day));
            }
            season
        }
    }

    /// The season is read and indexed.
    pub fn take_indexed(&mut self, season: &Season) {
        self.facts.season = season.whole().on(self.day);
        (self.facts.loaded, self.facts.unread) = (true, None);
        self.all_stale();
    }

    /// What another program wrote into the file, joined with what is here: lines known by their id are skipped, entries not
    /// yet saved stay pending, drafts stay. Gives how many entries were new, and whether the plan was.
    pub fn join(&mut self, plan: Plan, mut entries: Vec<Entry>) -> Joined {
        (self.facts.loaded, self.facts.unread) = (true, None);
        entries.retain(|entry| self.season.entry(entry.id).is_none());
        let known: HashSet<(LineKey, Uuid)> =
            self.season.plan().lines().iter().map(|line| (line.key(), line.id())).collect();
        let new_plan = plan.lines().iter().any(|line| !known.contains(&(line.key(), line.id())));
        let joined = Joined { entries: entries.len(), plan: new_plan };
        if new_plan || entries.len() > FEW {
            let plan = if new_plan { plan } else { self.season.plan().clone() };
            entries.extend(self.season.entries().iter().cloned());
            self.facts.season = Season::new(plan, entries).with_origins_of(&self.season).on(self.day);
            self.all_stale();
            return joined;
        }
        self.settle_again();
        let Facts { season, cache, before, .. } = &mut self.facts;
        for entry in entries {
            cache.touched_by(season, &entry);
            before.touched_by(season, &entry);
            season.insert(entry);
        }
        joined
    }

    /// What the rules say of a bench, as worked out last, those of its lot and house too, but for what is postponed; its own
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

    /// Until when each bench is closed at this minute. Most often nothing is closed anywhere: then no bench is asked.
    pub fn closings(&self) -> impl Fn(&str) -> Option<DateTime<FixedOffset>> + use<'_> {
        let any = self.season.closes_after(self.now.at.to_utc());
        move |bench| any.then(|| self.closed_until(bench)).flatten()
    }

    /// What days and times typed here are read by.
    pub fn day_reader(&self) -> DayReader {
        DayReader { today: self.day, system: self.system(), season: self.season.planned_days() }
    }

    /// A bench is closed at this minute: until when, in the site's time. By the clock a treatment that lies later closes too.
    pub fn closed_until(&self, bench: &str) -> Option<DateTime<FixedOffset>> {
        let now = self.now.at.to_utc();
        let until =
            if self.replayed { self.season.keep_out(bench, now) } else { self.season.keep_out_at_present(bench, now) };
        until.map(|until| self.local(until))
    }

    /// A day and time in words: the day where it is not today's, the year where it is not this one.
    pub fn day_and_time(&self, at: DateTime<FixedOffset>) -> String {
        let (day, time) = (at.date_naive(), dates::time(&at));
        match day {
            today if today == self.day => time,
            day if day.year() == self.day.year() => format!("{} {time}", dates::short(day)),
            day => format!("{}, {} {time}", dates::short(day), day.year()),
        }
    }

    /// Until when a bench was or is closed at a moment; `None` when it is open then. Of the present as [`Model::closed_until`].
    pub fn closed_at(&self, bench: &str, at: DateTime<FixedOffset>) -> Option<DateTime<FixedOffset>> {
        if at >= self.now.at {
            return self.closed_until(bench);
        }
        self.season.was_closed(bench, at.to_utc()).map(|until| self.local(until))
    }

    /// An instant in the site's time.
    pub fn local(&self, instant: DateTime<Utc>) -> DateTime<FixedOffset> {
        match self.season.site() {
            Some(site) => instant.with_timezone(&site.time_zone).fixed_offset(),
            None => instant.with_timezone(self.now.at.offset()),
        }
    }

    /// Says something below the page.
    pub fn say(&mut self, text: impl Into<String>) {
        self.since.said = true;
        self.facts.status = Some(Status::Info(text.into()));
    }

    /// Says something that is no answer to a key; what did not work stays said.
    pub fn add_word(&mut self, text: String) {
        if !matches!(self.status, Some(Status::Trouble(_))) {
            self.facts.status = Some(Status::Info(text));
        }
    }

    /// True where days are to be shown with their year: it is not that of the last entry.
    pub fn shows_year(&self) -> bool {
        wrong_clock::last_day(self).is_some_and(|last| last.year() != self.day.year())
    }

    /// Says that something is safe in the file, before what was said of the same key.
    pub fn saved(&mut self, what: &str) {
        let said = self.facts.status.take().filter(|_| self.since.said);
        self.facts.status = Some(match said {
            Some(Status::Info(text)) => Status::Saved(format!("saved: {what}"), Some(text)),
            Some(Status::Trouble(text)) => Status::Trouble(text),
            Some(Status::Saved(..)) | None => Status::Saved(format!("saved: {what}"), None),
        });
    }

    /// Says that lines of the plan are safe in the file.
    pub fn saved_plan(&mut self, what: String) {
        self.facts.status = Some(Status::Saved(what, None));
    }

    /// Forgets what the line below the page says, unless it was said about the present key: on another page it would read as
    /// if it held now.
    pub fn forget_status(&mut self) {
        if !self.since.said {
            self.facts.status = None;
        }
    }

    /// Takes back what was said below the page: it no longer holds.
    pub fn unsay(&mut self) {
        self.facts.status = None;
    }

    /// Takes back what was said of no key; what did not work and what was saved stay said.
    pub fn unsay_info(&mut self) {
        if matches!(self.status, Some(Status::Info(_))) {
            self.facts.status = None;
        }
    }

    /// Says something that holds until it is over, on every page; `None` when it is over.
    pub fn notice(&mut self, about: About, text: Option<String>) {
        match text {
            Some(text) => self.facts.notices.insert(about, text),
            None => self.facts.notices.remove(&about),
        };
    }

    /// Says why what is pending is not saved yet. A save shown before is no longer what is to be read first.
    pub fn not_saved_yet(&mut self, why: String) {
        if matches!(self.status, Some(Status::Saved(..))) {
            self.facts.status = None;
        }
        self.notice(About::Saving, Some(why));
    }

    /// Says that something did not work.
    pub fn trouble(&mut self, text: impl Into<String>) {
        self.since.said = true;
        self.facts.status = Some(Status::Trouble(text.into()));
    }
}

/// The place of a line, before a fault of it.
fn place_of(line: &Line) -> String {
    match line {
        Line::Entry(e) => format!("{}: ", entry::about(e)),
        Line::Placement(p) => format!("{}: ", p.bench),
        Line::Bench(b) => format!("{}: ", b.bench),
        Line::Site(_) | Line::Lot(_) | Line::LotHistory(_) | Line::Order(_) => String::new(),
        Line::Trial(t) => format!("{}: ", t.trial),
        Line::Plot(p) => format!("{}: ", p.plot),
    }
}

/// A fault as one text: its field by name, then what is wrong and what would be right.
pub fn fault_text(fault: &FieldFault) -> String {
    match fault.field.as_str() {
        "" => fault.text.clone(),
        field => format!("{field} {}", fault.text),
    }
}
