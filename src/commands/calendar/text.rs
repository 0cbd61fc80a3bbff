//! The calendar in words.

use super::answer::{Answer, Backward, Bracts, Forward, Nights, Order, Range, Room};
use super::calculate::usual_pinch;
use crate::dates;
use crate::units::{Area, Length, Quantity, System, Temperature, plain};
use chrono::NaiveDate;
use std::fmt::{Result, Write};

/// The answer as lines.
pub(super) fn text(answer: &Answer, system: System) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    lines(&mut out, answer, system).ok();
    out
}

fn lines(out: &mut String, answer: &Answer, system: System) -> Result {
    if let Some(part) = &answer.back {
        back(out, part, answer.response_weeks)?;
    }
    if let Some(part) = &answer.order {
        order(out, part)?;
    }
    if let Some(part) = &answer.room {
        room(out, part, system)?;
    }
    forward(out, &answer.forward, (answer.back.as_ref().map(|b| b.ready_by), system))?;
    writeln!(out, "Basis")?;
    answer.basis.iter().try_for_each(|line| writeln!(out, "  {line}"))
}

/// One dated line.
fn dated(out: &mut String, day: NaiveDate, what: &str, note: &str) -> Result {
    writeln!(out, "{}", format!("  {:<10}  {what:<18}  {note}", dates::weekday(day)).trim_end())
}

fn back(out: &mut String, back: &Backward, response: f64) -> Result {
    writeln!(out, "Counting back from the sale on {}", dates::long(back.ready_by))?;
    let usual = usual_pinch();
    match (back.pinch, back.pinch_weeks, back.pinch_days) {
        (Some(pinch), Some(weeks), Some(days)) => {
            let (low, high) = (plain(usual.plant_days.low), plain(usual.plant_days.high));
            dated(out, back.planting, "plant", &format!("{} days before the pinch (usual {low}-{high})", plain(days)))?;
            let (low, high) = (plain(usual.pinch_weeks.low), plain(usual.pinch_weeks.high));
            let note = format!("{} weeks before short days (sources {low}-{high})", plain(weeks));
            dated(out, pinch, "pinch", &note)?;
        }
        _ => dated(out, back.planting, "plant, no pinch", "")?,
    }
    dated(out, back.short_days, "short days start", &format!("{}-week response before the sale", plain(response)))?;
    back.nights.as_ref().map_or(Ok(()), |part| nights(out, part))
}

fn nights(out: &mut String, nights: &Nights) -> Result {
    let natural = nights.natural.map_or_else(String::new, dates::weekday);
    let days = nights.days.map_or_else(String::new, |d| if d == 1 { "1 day".to_owned() } else { format!("{d} days") });
    match (nights.to_do, nights.day) {
        ("light-until", Some(last)) => {
            writeln!(out, "  Nights are long enough from {natural}, {days} earlier:")?;
            writeln!(out, "  light the lot through {}, or expect the crop that much earlier.", dates::weekday(last))
        }
        ("cover-from", Some(first)) if nights.natural.is_some() => {
            writeln!(out, "  Nights are long enough only from {natural}, {days} later:")?;
            writeln!(out, "  black cloth from {}.", dates::weekday(first))
        }
        ("cover-from", Some(first)) => {
            writeln!(out, "  Nights here never get long enough naturally:")?;
            writeln!(out, "  black cloth from {}.", dates::weekday(first))
        }
        _ => writeln!(out, "  Nights get long enough naturally on that day."),
    }
}

fn order(out: &mut String, order: &Order) -> Result {
    let spare = plain(order.spare_percent);
    write!(out, "Order {} cuttings: {} pots, {} each", order.cuttings, order.pots, order.cuttings_per_pot)?;
    if let Some([least, most]) = order.usual {
        write!(out, " (sources {least}-{most})")?;
    }
    writeln!(out, ", {spare}% spare")?;
    if order.spare_basis == "typed" { Ok(()) } else { writeln!(out, "  (spare: Benchwalk's {})", order.spare_basis) }
}

fn room(out: &mut String, room: &Room, system: System) -> Result {
    let rows = if room.staggered { "staggered rows" } else { "square" };
    let (centers, area) = (Length::from_cm(room.centers_cm).show(system), Area::from_m2(room.area_m2));
    let other = if system == System::Us { System::Metric } else { System::Us };
    writeln!(out, "Bench space at {centers} centers, {rows}: {} ({})", area.show(system), area.show(other))
}

/// `Nov 9 (Nov 2 to Nov 18)`, or the one day.
fn range([low, mid, high]: Range) -> String {
    if low == high {
        dates::short(mid)
    } else {
        format!("{} ({} to {})", dates::short(mid), dates::short(low), dates::short(high))
    }
}

fn forward(out: &mut String, forward: &Forward, (sale, system): (Option<NaiveDate>, System)) -> Result {
    writeln!(out, "Forward from planting on {}", dates::long(forward.planted))?;
    let mut line = |what: &str, days: Range, note: &str| {
        writeln!(out, "{}", format!("  {what:<21}  {:<25}  {note}", range(days)).trim_end())
    };
    if let Some(days) = forward.pinch {
        line("pinch", days, "roots at the pot wall")?;
    }
    if let Some(days) = forward.growth_regulator_decision {
        line("growth regulator", days, "first decision: apply or not")?;
    }
    let [shown, due, missed] = forward.magnesium_and_molybdenum;
    line(
        "magnesium, molybdenum",
        [due; 3],
        &format!("reminder {}, late {}", dates::short(shown), dates::short(missed)),
    )?;
    let Some(days) = forward.short_days else {
        return writeln!(out, "  Short days never start naturally here: no color without black cloth.");
    };
    line("short days start", [days; 3], "")?;
    forward.color.as_ref().map_or(Ok(()), |part| color(out, part, (sale, system)))
}

fn color(out: &mut String, color: &Bracts, (sale, system): (Option<NaiveDate>, System)) -> Result {
    for (what, days) in [
        ("first color", color.first_color),
        ("cyathia visible", color.cyathia),
        ("full color", color.full_color),
        ("first pollen", color.first_pollen),
    ] {
        writeln!(out, "  {what:<21}  {}", range(days))?;
    }
    let show = |c: f64| Temperature::from_c(c).show(system);
    let taken = if color.response_c_assumed { "taken" } else { "given" };
    writeln!(out, "  Response {taken} at {}.", show(color.response_c))?;
    let by = color.mean_c.map_or_else(
        || "No temperatures written: the range takes in a mean 3.6 °F (2 °C) off.".to_owned(),
        |mean| format!("Every day counted at {}; the range is that of the response and of heat.", show(mean)),
    );
    writeln!(out, "  {by}")?;
    if color.beyond {
        writeln!(out, "  Nothing is published of such a mean: expect it later than this.")?;
    }
    let [_, likely, last] = color.full_color;
    match sale {
        Some(sale) if likely > sale => {
            writeln!(out, "  Full color is likely only after the sale on {}.", dates::short(sale))
        }
        Some(sale) if last > sale => writeln!(out, "  Full color may come after the sale on {}.", dates::short(sale)),
        _ => Ok(()),
    }
}
