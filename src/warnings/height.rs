//! `too-tall`, `too-short`, `finishing-tall` and `finishing-short`: a bench's heights against its lot's window.
//!
//! **Sees** readings from the bench to the growing tip. The window grows along the chosen curve from the start (the pinch; day
//! 14 where none is wanted) to the finished window at the sale. The start height is the mean of the first reading from the start
//! to 7 days after, else pot height + 7.6 cm, and it says so; without either there is no window and nothing is said.
//! - **too-tall, too-short** (act): the last reading, of 3 plants or more, taken 21 days or more after the start and 9 days old
//!   at most, lies beyond its day's limit with the whole 90 % interval of its mean, and by 1.0 cm or more. Too short is watch
//!   from first color on, when little can be done.
//! - **finishing-tall, finishing-short**: inside today, but projected outside at the sale at two readings running: with the
//!   whole 90 % interval both times act, with the likely height watch.
//!
//! **Why** stretch does not come back; both the gap and the pace count (Fisher and Heins 1995). **Numbers** house rules where no
//! source is named; a trial at Georgia (2015) held crops within 2.5 cm. **Ends** with the next reading.
//! A lot with only one finished height in its plan is held against that side alone.

use super::bench_day::BenchDay;
use super::builder::{days, of_bench, plus};
use super::due::height_start;
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::crop::height::{
    Curve, Firmness, Outlook, Pace, Place, Projection, Reading, Sample, Target, Verdict, Window, project, verdict,
};
use crate::record::{Entry, Kind, KindName};

const CURVE: Basis =
    Basis::Published("Fisher and Heins 1995 (curve and control); University of Georgia 2015; margins are house rules");

/// What a bench's heights are held against.
pub(super) struct Held<'a> {
    pub(super) target: Target,
    pub(super) reckoned: bool,
    readings: Vec<(&'a Entry, &'a [f64])>,
}

pub(super) fn held<'a>(bench: &BenchDay<'a>) -> Option<Held<'a>> {
    let limits = &bench.limits().growth;
    let start = height_start(bench)?;
    let readings: Vec<(&Entry, &[f64])> = bench
        .of(KindName::Height)
        .iter()
        .filter(|e| e.day() >= start)
        .filter_map(|e| if let Kind::Height { cm } = &e.kind { Some((*e, cm.as_slice())) } else { None })
        .collect();
    let measured = readings
        .first()
        .filter(|(e, _)| days(start, e.day()) <= limits.start_within)
        .and_then(|(_, cm)| Sample::of(cm))
        .map(|s| s.mean);
    let start_cm = measured.or_else(|| bench.lot.pot_height_cm.map(|pot| pot + limits.start_plant_cm))?;
    // A side the plan leaves open is set where it can never speak.
    let low_cm = bench.lot.height_low_cm.unwrap_or(0.0);
    let high_cm = bench.lot.height_high_cm.unwrap_or(OPEN_CM);
    let curve = Curve::chosen(&bench.limits().choices.curve).ok()?;
    let finished = Window { low_cm, high_cm };
    let target = Target::new(curve, (start, start_cm), bench.lot.ready_by, finished).ok()?;
    Some(Held { target, reckoned: measured.is_none(), readings })
}

/// Above any potted crop: the upper limit of a lot that has none.
const OPEN_CM: f64 = 300.0;

fn firmness(bench: &BenchDay<'_>) -> Firmness {
    let limits = &bench.limits().growth;
    Firmness {
        plants: usize::try_from(limits.height_plants).unwrap_or(usize::MAX),
        beyond_cm: limits.height_beyond_cm,
        confidence: limits.height_confidence / 100.0,
    }
}

/// Where a reading stands against the window of its day; `None` for one nearer the start than the limit.
fn stands(bench: &BenchDay<'_>, held: &Held<'_>, (entry, cm): (&Entry, &[f64])) -> Option<Verdict> {
    let late_enough = days(held.target.start(), entry.day()) >= bench.limits().growth.height_from;
    let window = held.target.window(entry.day());
    if late_enough { verdict(cm, window, firmness(bench)) } else { None }
}

pub(super) fn outside(bench: &BenchDay<'_>) -> Option<Warning> {
    let held = held(bench)?;
    let last = *held.readings.last()?;
    if bench.age(last.0) > bench.limits().growth.height_days {
        return None;
    }
    let stood = stands(bench, &held, last)?;
    let colored = bench.stage_reached().is_some_and(|(_, s)| s > 1);
    let (has_high, has_low) = (bench.lot.height_high_cm.is_some(), bench.lot.height_low_cm.is_some());
    let (name, level, limit_cm) = match stood.place {
        Place::Above if !has_high => return None,
        Place::Below if !has_low => return None,
        Place::Above => (WarningName::TooTall, Level::Act, stood.window.high_cm),
        Place::Below if colored => (WarningName::TooShort, Level::Watch, stood.window.low_cm),
        Place::Below => (WarningName::TooShort, Level::Act, stood.window.low_cm),
        Place::Inside | Place::TooFew => return None,
    };
    let same = |r: &&(&Entry, &[f64])| stands(bench, &held, **r).is_some_and(|s| s.place == stood.place);
    let since = held.readings.iter().rev().take_while(same).last().map_or_else(|| last.0.day(), |(e, _)| e.day());
    let range = stood.interval.map(|i| (i.low, i.high));
    let limit = Some(super::Limit { key: "growth.height_window", value: limit_cm, own: false });
    let warning = of_bench(bench, name, level, since).saw(last.0);
    let warning = warning.ranged(Figure::HeightNow, stood.sample.mean, range, limit);
    Some(warning.step_if(held.reckoned, Step::StartHeightReckoned).again(bench.in_days(7)).on(CURVE))
}

pub(super) fn finishing(bench: &BenchDay<'_>) -> Option<Warning> {
    // The likely gain is reckoned to the middle of the window, so it takes both sides.
    bench.lot.height_low_cm.and(bench.lot.height_high_cm)?;
    let held = held(bench)?;
    let count = held.readings.len();
    let (last, before) = (*held.readings.last()?, *held.readings.get(count.checked_sub(2)?)?);
    if bench.age(last.0) > bench.limits().growth.height_days || bench.day() > held.target.finish() {
        return None;
    }
    if stands(bench, &held, last)?.place != Place::Inside {
        return None;
    }
    let now = outlook(bench, &held, last.0)?;
    if now.1 == Outlook::Inside {
        // Most benches are: the reading before need not be projected.
        return None;
    }
    let then = outlook(bench, &held, before.0)?;
    let (name, level) = match (now.1, then.1) {
        (Outlook::SurelyTall, Outlook::SurelyTall) => (WarningName::FinishingTall, Level::Act),
        (Outlook::SurelyTall | Outlook::LikelyTall, Outlook::SurelyTall | Outlook::LikelyTall) => {
            (WarningName::FinishingTall, Level::Watch)
        }
        (Outlook::SurelyShort, Outlook::SurelyShort) => (WarningName::FinishingShort, Level::Act),
        (Outlook::SurelyShort | Outlook::LikelyShort, Outlook::SurelyShort | Outlook::LikelyShort) => {
            (WarningName::FinishingShort, Level::Watch)
        }
        _ => return None,
    };
    let finished = held.target.finished();
    let value = if name == WarningName::FinishingTall { finished.high_cm } else { finished.low_cm };
    let limit = Some(super::Limit { key: "growth.height_window", value, own: false });
    let range = Some((now.0.interval.low, now.0.interval.high));
    let warning = of_bench(bench, name, level, last.0.day()).saw(before.0).saw(last.0);
    let warning = warning.ranged(Figure::HeightAtSale, now.0.height_cm, range, limit);
    let again = plus(last.0.day(), bench.limits().round.height_every).max(bench.in_days(1));
    Some(warning.step_if(held.reckoned, Step::StartHeightReckoned).again(again).on(CURVE))
}

/// The projection as it looks from the last reading, where the plan names both sides of the window.
pub(super) fn projected(bench: &BenchDay<'_>, held: &Held<'_>) -> Option<Projection> {
    bench.lot.height_low_cm.and(bench.lot.height_high_cm)?;
    let (last, _) = *held.readings.last()?;
    outlook(bench, held, last).map(|(projection, _)| projection)
}

/// The projection as it looked at a reading, and how it lies against the finished window.
fn outlook(bench: &BenchDay<'_>, held: &Held<'_>, at: &Entry) -> Option<(Projection, Outlook)> {
    let readings: Vec<Reading<'_>> =
        held.readings.iter().map(|(e, cm)| Reading { day: e.day(), cm }).take_while(|r| r.day <= at.day()).collect();
    let pace = Pace { confidence: bench.limits().growth.height_confidence / 100.0, ..Pace::default() };
    let projection = project(&held.target, &readings, at.day(), pace)?;
    let outlook = projection.outlook(held.target.finished());
    Some((projection, outlook))
}
