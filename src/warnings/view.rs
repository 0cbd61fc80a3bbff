//! What the rules see of a bench, for the pages and reports that draw it.
//!
//! A chart that calculated its own window or forecast could differ from the warning beside it.
//! So both come from here: readings as `bench` sorts them, the height window, the projection and the color forecast.

use super::before::{EarlierWork, NotKnown};
use super::bench_day::{BenchDay, DayContext};
use super::due::Check;
use super::warning::Warning;
use super::{assess, before, color_forecast, drying, due, heights, root_zone, rules, treatments};
use crate::crop::Days;
use crate::crop::color::{Forecast, Temperatures};
use crate::crop::dry_down::Drying;
use crate::crop::growth_regulator::{CutoffDays, Ingredient};
use crate::crop::height::{Projection, Target};
use crate::crop::root_zone::SaltBounds;
use crate::limits::Limits;
use crate::record::{Entry, KindName, Lot, TestMethod};
use crate::season::{History, Season, Standing};
use crate::terms::Region;
use chrono::{DateTime, NaiveDate, Utc};

/// The window of a bench's heights, and where they will end.
#[derive(Debug, Clone, PartialEq)]
pub struct Heights {
    /// The two curves.
    pub target: Target,
    /// True when the height at the start was estimated (pot height and a plant), not measured.
    pub estimated: bool,
    /// Whether the plan names a least and a greatest finished height; a side it leaves open is no limit.
    pub sides: (bool, bool),
    /// Projected height at the sale, from the last reading.
    pub projection: Option<Projection>,
}

/// What the rules see of a bench with pots.
#[derive(Debug, Clone)]
pub struct BenchView<'a> {
    /// The lot on it.
    pub lot: &'a Lot,
    /// The pots on it.
    pub standing: Standing,
    /// Everything that counts up to the day, oldest first.
    pub entries: Vec<&'a Entry>,
    /// The water of each day that has one (before its watering), 1-5.
    pub water: Vec<(NaiveDate, u8)>,
    /// The water at the base, likewise.
    pub bases: Vec<(NaiveDate, u8)>,
    /// The days on which it was watered, fed or drenched.
    pub waterings: Vec<NaiveDate>,
    /// The height window; `None` where none is planned or the pinch is still to come.
    pub heights: Option<Heights>,
    /// The start of the lot's short days.
    pub short_days: Option<NaiveDate>,
    /// The color forecast, adjusted by the stages seen on this bench.
    pub color: Option<Forecast>,
    /// The first pinch written, or what the plan says of one before the record began.
    pub pinched: Option<NaiveDate>,
    /// Work due before the record began of which nobody said whether it was done.
    pub not_known: Vec<EarlierWork>,
    /// The day magnesium was last given enough of.
    pub magnesium: Option<NaiveDate>,
    /// The day molybdenum was first given enough of.
    pub molybdenum: Option<NaiveDate>,
}

impl<'a> BenchView<'a> {
    /// Entries of a kind, oldest first.
    pub fn of(&self, kind: KindName) -> impl DoubleEndedIterator<Item = &'a Entry> + '_ {
        self.entries.iter().copied().filter(move |e| e.name() == kind)
    }
}

/// The height window of a bench at the end of a day, where one is planned, and its height entries, oldest first; `None` when it is
/// empty or unknown.
pub fn heights_of<'a>(
    season: &'a Season,
    bench: &str,
    day: NaiveDate,
    limits: &Limits,
) -> Option<(Option<Heights>, Vec<&'a Entry>)> {
    let context = DayContext::new(season, day, limits);
    let bench = BenchDay::new(&context, bench)?;
    let entries = bench.of(KindName::Height).iter().filter_map(|e| season.entry(e.id)).collect();
    Some((window(&bench), entries))
}

fn window(bench: &BenchDay<'_>) -> Option<Heights> {
    heights::held(bench).map(|held| Heights {
        projection: heights::projected(bench, &held),
        sides: (bench.lot.height_low_cm.is_some(), bench.lot.height_high_cm.is_some()),
        estimated: held.estimated,
        target: held.target,
    })
}

/// What the rules see of a bench at the end of a day; `None` when it is empty or unknown.
pub fn bench_view<'a>(season: &'a Season, bench: &str, day: NaiveDate, limits: &Limits) -> Option<BenchView<'a>> {
    bench_views(season, [bench], day, limits).pop()
}

/// The same of several benches; those that are empty or unknown are left out. What they share is worked out once.
pub fn bench_views<'a, 'b>(
    season: &'a Season,
    benches: impl IntoIterator<Item = &'b str>,
    day: NaiveDate,
    limits: &Limits,
) -> Vec<BenchView<'a>> {
    let context = DayContext::new(season, day, limits);
    benches.into_iter().filter_map(|bench| view_of(season, bench, &context)).collect()
}

fn view_of<'a>(season: &'a Season, bench: &str, context: &DayContext<'_>) -> Option<BenchView<'a>> {
    let history = season.history(bench, context.day);
    let bench = &BenchDay::read(context, (bench, &history), DateTime::<Utc>::MAX_UTC)?;
    let mut waterings: Vec<NaiveDate> = bench.waterings.iter().map(|e| e.day()).collect();
    waterings.dedup();
    let codes = |readings: &[super::bench_day::Reading<'_>]| readings.iter().map(|r| (r.day, r.level)).collect();
    let given = |logged: Option<&Entry>, work| logged.map(Entry::day).or_else(|| bench.done_earlier(work));
    Some(BenchView {
        lot: season.lot(&bench.lot.lot)?,
        standing: bench.standing.clone(),
        entries: history.all().to_vec(),
        water: codes(&bench.readings),
        bases: codes(&bench.bases),
        waterings,
        heights: window(bench),
        short_days: bench.short_days(),
        color: color_forecast::expected(bench),
        pinched: bench.pinch_day(),
        not_known: before::not_known_of(bench),
        magnesium: given(rules::last_magnesium(bench), EarlierWork::Magnesium),
        molybdenum: given(rules::first_molybdenum(bench), EarlierWork::Molybdenum),
    })
}

/// How the pots on a bench come on, as of a day; without pots there is nothing of it.
#[derive(Debug, Clone, Default)]
pub struct Outlook {
    /// Their height window, a side the plan leaves open set where it never speaks; `None` where none is planned or the pinch is
    /// still to come.
    pub target: Option<Target>,
    /// When their bracts are expected in full color, by what was seen of them; `None` where the nights never get long enough.
    pub full_color: Option<Days>,
    /// What of the temperatures that goes by.
    pub color_by: Option<Temperatures>,
    /// How fast they dry down.
    pub drying: Drying,
}

fn outlook_of(bench: &BenchDay<'_>) -> Outlook {
    let color = color_forecast::expected(bench);
    Outlook {
        target: heights::held(bench).map(|held| held.target),
        full_color: color.map(|forecast| forecast.full_color),
        color_by: color.map(|forecast| forecast.temperatures),
        drying: drying::of_bench(bench),
    }
}

/// What is said of a bench at the end of a day.
#[derive(Debug, Clone)]
pub struct BenchNow<'a> {
    /// What was written of its pots.
    pub history: History<'a>,
    /// How they come on.
    pub outlook: Outlook,
    /// As [`due`](super::due).
    pub due: Vec<Check>,
    /// As [`assess`](super::assess).
    pub warnings: Vec<Warning>,
    /// What is not known of its lot as far as this bench goes.
    pub not_known: Option<NotKnown>,
}

/// All that is said of some benches at the end of a day, in their order: the record of each is read once, and what they share is
/// worked out once.
pub fn benches_now<'a>(season: &'a Season, benches: &[String], day: NaiveDate, limits: &Limits) -> Vec<BenchNow<'a>> {
    let context = DayContext::new(season, day, limits);
    let now = |bench: &String| {
        let history = season.history(bench, day);
        let known = BenchDay::read(&context, (bench, &history), DateTime::<Utc>::MAX_UTC);
        let known = known.as_ref();
        BenchNow {
            outlook: known.map(outlook_of).unwrap_or_default(),
            due: known.map(due::of_bench).unwrap_or_default(),
            warnings: known.map(assess::of_bench).unwrap_or_default(),
            not_known: known.and_then(before::of_bench),
            history,
        }
    };
    benches.iter().map(now).collect()
}

/// The start of a lot's short days by the convention in force; `None` when its nights never get that long.
pub fn short_days(season: &Season, lot: &Lot, day: NaiveDate, limits: &Limits) -> Option<NaiveDate> {
    DayContext::new(season, day, limits).short_days(lot)
}

/// The last day a lot may be sprayed with an ingredient without being late; `None` where no figure was found.
pub fn last_spray(
    season: &Season,
    lot: &Lot,
    ingredient: Ingredient,
    day: NaiveDate,
    limits: &Limits,
) -> Option<NaiveDate> {
    treatments::last_spray(&DayContext::new(season, day, limits), lot, ingredient)
}

/// What the last safe day of a growth regulator goes by at a site: its fall climate, and the days of the limits.
pub fn last_safe_rules(season: &Season, day: NaiveDate, limits: &Limits) -> (Region, CutoffDays) {
    let context = DayContext::new(season, day, limits);
    (treatments::region(&context), treatments::last_safe_rules(&context))
}

/// The bounds of salts by a test method.
pub fn salt_bounds(limits: &Limits, method: TestMethod) -> SaltBounds {
    root_zone::salt_bounds(limits, method).0
}
