//! How many plants are enough: to find a pest, to judge a bench by its share of infested plants, to know its mean height.

use crate::crop::height::{Firmness, Sample, plants_for};
use crate::crop::pests::{Stop, StopLines, detection_chance, plants_to_detect};
use crate::limits::Limits;
use crate::record::{Kind, KindName};
use crate::season::Season;
use crate::units::{Length, Quantity, System};
use chrono::NaiveDate;

/// The share that is to be found: one plant in twenty, as many as the watch of whitefly begins with (house rule).
const TO_FIND: f64 = 0.05;
/// How surely it is to be found: 19 times in 20 (house rule).
const SURELY: f64 = 0.95;
/// The risk of a wrong stop, either way (house rule).
const RISK: f64 = 0.10;
/// Counts of infested plants that are told apart in [`stop_row`].
const COUNTS: u32 = 10;

/// The stop lines of whitefly: low at the share to watch, high at the share to act on; `None` where the limits leave no room
/// between the two.
fn lines(limits: &Limits) -> Option<StopLines> {
    StopLines::new(limits.pests.whitefly_watch / 100.0, limits.pests.whitefly_act / 100.0, RISK, RISK).ok()
}

/// What is to be done after so many plants: `enough (few)`, `11 more`.
fn step(lines: &StopLines, inspected: u32, infested: u32) -> String {
    match lines.judge(inspected, infested) {
        Stop::Low => "enough (few)".to_owned(),
        Stop::High => "enough (many)".to_owned(),
        Stop::GoOn => format!("{} more", still(lines, inspected, infested)),
    }
}

/// The plants still to be checked before so many infested are few.
fn still(lines: &StopLines, inspected: u32, infested: u32) -> u32 {
    lines.fewest_low(infested).saturating_sub(inspected)
}

/// Whether enough plants were checked for whitefly: `20 looked at, 2: 11 more`.
pub fn stop(limits: &Limits, inspected: u32, infested: u32) -> Option<String> {
    let lines = lines(limits)?;
    (infested <= inspected).then(|| format!("{inspected} looked at, {infested}: {}", step(&lines, inspected, infested)))
}

/// The plants still to be checked after some, where it is not enough yet.
pub fn more(limits: &Limits, inspected: u32, infested: u32) -> Option<u32> {
    let lines = lines(limits)?;
    (lines.judge(inspected, infested) == Stop::GoOn).then(|| still(&lines, inspected, infested))
}

/// The same for every count of infested plants: `Of 20: 0 is enough; 1: 2 more; … 4 or over is enough.`
pub fn stop_row(limits: &Limits, inspected: u32) -> Option<String> {
    let lines = lines(limits)?;
    let of = |infested: u32| match lines.judge(inspected, infested) {
        Stop::GoOn => format!("{infested}: {}", step(&lines, inspected, infested)),
        Stop::Low | Stop::High => format!("{infested} is enough"),
    };
    let high = (0..COUNTS).find(|k| lines.judge(inspected, *k) == Stop::High);
    let counts = 0..high.unwrap_or(COUNTS).min(inspected.saturating_add(1));
    let mut all: Vec<String> = counts.map(of).collect();
    all.extend(high.map(|k| format!("{k} or over is enough")));
    Some(format!("Of {inspected}: {}.", all.join("; ")))
}

/// What the stop lines rest on.
pub fn stop_basis(limits: &Limits) -> String {
    let (low, high) = (limits.pests.whitefly_watch, limits.pests.whitefly_act);
    format!("Few is {low}% of plants, many {high}%; wrong 1 time in 10 (Wald 1945; the shares are a rule of thumb).")
}

/// How many plants find a pest on one plant in twenty, and how surely so many do.
pub fn to_find(plants: Option<u32>) -> Option<String> {
    let needed = plants_to_detect(TO_FIND, SURELY).ok()?;
    let finds = format!("To find a pest on 1 plant in 20 (95% sure): check {needed}");
    let so_far = plants.filter(|n| *n < needed).and_then(|n| Some((n, detection_chance(n, TO_FIND).ok()?)));
    Some(match so_far {
        Some((n, chance)) => format!("{finds}; {n} find it {:.0}% of the time.", chance * 100.0),
        None => format!("{finds}."),
    })
}

/// What heights in cm say of the mean of the bench, and how many plants fix it within the limit's distance: `6 plants: mean
/// 12.6 in, give or take 0.5; 9 plants for 0.4 in`. `None` of fewer than two.
pub fn heights(limits: &Limits, cm: &[f64], system: System) -> Option<String> {
    let sample = Sample::of(cm)?;
    let half = sample.half_width(Firmness::default().confidence)?;
    let unit = Length::unit_name(system);
    let show = |cm: f64| format!("{:.1}", Length::from_cm(cm).in_system(system));
    let mean = format!("{} plants: mean {} {unit}, give or take {}", sample.n, show(sample.mean), show(half));
    Some(match enough(limits, &sample) {
        Some(needed) if needed > sample.n => {
            format!("{mean}; {needed} plants for {} {unit} (90% sure).", show(limits.growth.height_beyond_cm))
        }
        _ => format!("{mean} (90% sure)."),
    })
}

/// How many plants of a bench to measure, by the spread of the heights measured there last.
pub fn to_measure(limits: &Limits, (season, bench, day): (&Season, &str, NaiveDate), system: System) -> Option<String> {
    let history = season.history(bench, day);
    match &*history.of(KindName::Height).next_back()?.kind {
        Kind::Height { cm } => by_spread(limits, cm, system),
        _ => None,
    }
}

fn by_spread(limits: &Limits, before: &[f64], system: System) -> Option<String> {
    let needed = enough(limits, &Sample::of(before)?)?;
    let within = Length::from_cm(limits.growth.height_beyond_cm).in_system(system);
    let unit = Length::unit_name(system);
    Some(format!("By the spread last time, {needed} plants give the mean within {within:.1} {unit} (90% sure)."))
}

/// How many plants fix the mean within the distance that counts as beyond a window.
fn enough(limits: &Limits, sample: &Sample) -> Option<usize> {
    plants_for(limits.growth.height_beyond_cm, sample.sd?, Firmness::default().confidence).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enough_is_said_where_it_is() {
        let limits = Limits::default();
        let at = |n, k| stop(&limits, n, k).unwrap();
        assert_eq!(at(20, 0), "20 looked at, 0: enough (few)");
        assert_eq!(at(20, 2), "20 looked at, 2: 11 more");
        assert_eq!(at(31, 2), "31 looked at, 2: enough (few)");
        assert_eq!(at(20, 4), "20 looked at, 4: enough (many)");
        assert_eq!((stop(&limits, 3, 4), more(&limits, 20, 3)), (None, Some(20)));
        let row = stop_row(&limits, 20).unwrap();
        assert_eq!(row, "Of 20: 0 is enough; 1: 2 more; 2: 11 more; 3: 20 more; 4 or over is enough.");
    }

    #[test]
    fn limits_without_room_between_them_have_no_stop_lines() {
        let mut limits = Limits::default();
        limits.pests.whitefly_watch = limits.pests.whitefly_act;
        assert_eq!((stop(&limits, 20, 0), stop_row(&limits, 20), more(&limits, 20, 1)), (None, None, None));
    }

    #[test]
    fn one_in_twenty_takes_fifty_nine_plants() {
        let found = to_find(Some(20)).unwrap();
        assert_eq!(found, "To find a pest on 1 plant in 20 (95% sure): check 59; 20 find it 64% of the time.");
        assert!(to_find(Some(59)).unwrap().ends_with("check 59."));
    }

    #[test]
    fn plants_to_measure_follow_from_the_spread() {
        let limits = Limits::default();
        let cm = [30.0, 32.0, 34.0];
        let said = heights(&limits, &cm, System::Metric).unwrap();
        assert_eq!(said, "3 plants: mean 32.0 cm, give or take 3.4; 13 plants for 1.0 cm (90% sure).");
        assert!(by_spread(&limits, &cm, System::Us).unwrap().contains("13 plants give the mean within 0.4 in"));
        assert_eq!((heights(&limits, &[30.0], System::Metric), by_spread(&limits, &[], System::Us)), (None, None));
        assert_eq!(
            heights(&limits, &[30.0, 30.0], System::Metric).unwrap(),
            "2 plants: mean 30.0 cm, give or take 0.0 (90% sure)."
        );
    }
}
