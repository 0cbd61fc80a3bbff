//! A bench's heights against its lot's window: what the height rules and the charts share.
//!
//! Readings go from the bench to the growing tip. The window grows along the chosen curve from the start (the pinch; day 14 where
//! none is wanted) to the finished window at the sale. The start height is the mean of the first reading from the start to 7 days
//! after, else pot height + 7.6 cm, and the warning says so; without either there is no window and nothing is said.

use super::due::height_start;
use super::{BenchDay, Step};
use crate::crop::height::{
    Curve, Firmness, Outlook, Pace, Projection, Reading, Sample, Target, Verdict, Window, project, verdict,
};
use crate::dates::days_between;
use crate::record::{Entry, Kind, KindName};

/// What a bench's heights are held against.
pub(super) struct Held<'a> {
    pub(super) target: Target,
    pub(super) estimated: bool,
    pub(super) readings: Vec<(&'a Entry, &'a [f64])>,
}

pub(super) fn held<'a>(bench: &BenchDay<'a>) -> Option<Held<'a>> {
    let limits = &bench.limits().growth;
    let start = height_start(bench)?;
    let readings: Vec<(&Entry, &[f64])> = bench
        .of(KindName::Height)
        .iter()
        .filter(|e| e.day() >= start)
        .filter_map(|e| if let Kind::Height { cm } = &*e.kind { Some((*e, cm.as_slice())) } else { None })
        .collect();
    let measured = readings
        .first()
        .filter(|(e, _)| days_between(start, e.day()) <= limits.start_within)
        .and_then(|(_, cm)| Sample::of(cm))
        .map(|s| s.mean);
    let start_cm = measured.or_else(|| bench.lot.pot_height_cm.map(|pot| pot + limits.start_plant_cm))?;
    // A side the plan leaves open is set where it can never speak.
    let low_cm = bench.lot.height_low_cm.unwrap_or(0.0);
    let high_cm = bench.lot.height_high_cm.unwrap_or(OPEN_CM);
    let curve = Curve::chosen(&bench.limits().choices.curve).ok()?;
    let finished = Window { low_cm, high_cm };
    let target = Target::new(curve, (start, start_cm), bench.lot.ready_by, finished).ok()?;
    Some(Held { target, estimated: measured.is_none(), readings })
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
pub(super) fn stands(bench: &BenchDay<'_>, held: &Held<'_>, (entry, cm): (&Entry, &[f64])) -> Option<Verdict> {
    let late_enough = days_between(held.target.start(), entry.day()) >= bench.limits().growth.height_from;
    let window = held.target.window(entry.day());
    if late_enough { verdict(cm, window, firmness(bench)) } else { None }
}

/// The projection as it looks from the last reading, where the plan names both sides of the window.
pub(super) fn projected(bench: &BenchDay<'_>, held: &Held<'_>) -> Option<Projection> {
    bench.lot.height_low_cm.and(bench.lot.height_high_cm)?;
    let (last, _) = *held.readings.last()?;
    outlook(bench, held, last).map(|(projection, _)| projection)
}

/// The projection as it looked at a reading, and how it lies against the finished window.
pub(super) fn outlook(bench: &BenchDay<'_>, held: &Held<'_>, at: &Entry) -> Option<(Projection, Outlook)> {
    let readings: Vec<Reading<'_>> =
        held.readings.iter().map(|(e, cm)| Reading { day: e.day(), cm }).take_while(|r| r.day <= at.day()).collect();
    let pace = Pace { confidence: bench.limits().growth.height_confidence / 100.0, ..Pace::default() };
    let projection = project(&held.target, &readings, at.day(), pace)?;
    let outlook = projection.outlook(held.target.finished());
    Some((projection, outlook))
}

impl Step {
    /// A remark: the window starts from the pot, not from a measured plant.
    pub const START_HEIGHT_CALCULATED: Self =
        Self::remark("The start height was estimated from the pot, not measured.");
}
