//! `benchwalk night`: how long tonight is, and when short days start.

use super::arg_values::Format;
use super::arg_values::{self, refused};
use super::location::PlaceArgs;
use super::{CommandError, Context};
use crate::crop::night::{self, Light, Night, Place, Sky, delay_of_missed_nights, first_night_reaching};
use crate::dates::{self, Tz};
use crate::terms::{NightConvention, Term};
use chrono::{DateTime, Datelike, NaiveDate, SecondsFormat, Utc};
use clap::Args;
use serde::Serialize;
use std::fmt::Write;

/// Options of `night`; the day is the global `--on`.
#[derive(Debug, Args)]
#[command(after_help = "Example: benchwalk night --at 44.10,-70.21 --zone America/New_York --on 2026-10-12")]
pub struct NightArgs {
    /// Where.
    #[command(flatten)]
    pub place: PlaceArgs,
    /// Night length that starts short days, such as 11h40 or 700 (minutes); default from the limits (11 h 40 min).
    #[arg(long, value_name = "LENGTH")]
    pub reach: Option<String>,
    /// Nights missed early in short days; prints the delay.
    #[arg(long, value_name = "NIGHTS")]
    pub missed: Option<u32>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

#[derive(Debug, Serialize)]
struct Answer {
    on: NaiveDate,
    latitude: f64,
    longitude: f64,
    time_zone: &'static str,
    sun: Times,
    civil: Times,
    short_days: Start,
    #[serde(skip_serializing_if = "Option::is_none")]
    missed_nights: Option<Missed>,
}

/// One way of counting the night.
#[derive(Debug, Serialize)]
struct Times {
    /// Sunset, or civil dusk.
    night_begins: Option<String>,
    /// The next sunrise, or civil dawn.
    night_ends: Option<String>,
    night_minutes: f64,
    /// `night`, `no-night` or `no-day`.
    kind: &'static str,
}

#[derive(Debug, Serialize)]
struct Start {
    night_minutes: f64,
    /// Which way of counting the limits pick.
    counted: &'static str,
    sunset_to_sunrise: Option<NaiveDate>,
    civil_twilight: Option<NaiveDate>,
    /// Where the length comes from; none where it is the grower's own.
    basis: Option<&'static str>,
}

#[derive(Debug, Serialize)]
struct Missed {
    nights: u32,
    delay_days: [u32; 2],
}

/// Calculates the night and prints it.
pub(super) fn run(args: &NightArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let here = args.place.resolve(context)?;
    let (place, zone) = (here.needed()?, here.zone);
    let on = context.settings.on.unwrap_or_else(|| context.clock.now().with_timezone(&zone).date_naive());
    let limits = context.settings.limits()?;
    let counted = limits.choices.night;
    let reach = args.reach.as_deref().map_or(Ok(f64::from(limits.round.night_start_min)), length)?;
    let first =
        |convention| first_night_reaching(place, half_year(place, on), reach, convention).map_err(refused("--reach"));
    let answer = Answer {
        on,
        latitude: place.latitude(),
        longitude: place.longitude(),
        time_zone: zone.name(),
        sun: times(place, on, NightConvention::SunsetToSunrise, zone)?,
        civil: times(place, on, NightConvention::CivilTwilight, zone)?,
        short_days: Start {
            night_minutes: reach,
            counted: counted.code(),
            sunset_to_sunrise: first(NightConvention::SunsetToSunrise)?,
            civil_twilight: first(NightConvention::CivilTwilight)?,
            basis: ((reach - night::CRITICAL_NIGHT_MINUTES).abs() < f64::EPSILON)
                .then_some("R. Kobayashi, Poinsettia Flower Initiation"),
        },
        missed_nights: args.missed.map(|nights| {
            let (least, most) = delay_of_missed_nights(nights);
            Missed { nights, delay_days: [least, most] }
        }),
    };
    arg_values::print(context, args.format, &text(&answer, counted), &answer)
}

/// The year of the half-year of lengthening nights the day lies in, or that comes next.
fn half_year(place: &Place, on: NaiveDate) -> i32 {
    if place.is_northern() || (on.month(), on.day()) <= (6, 21) { on.year() } else { on.year().saturating_add(1) }
}

/// `11h40`, `11 h 40 min`, `11:40`, `700`, `700 min`: minutes.
fn length(typed: &str) -> Result<f64, CommandError> {
    let parts: Vec<&str> = typed.split(|c: char| !c.is_ascii_digit()).filter(|p| !p.is_empty()).collect();
    let letters: String = typed.chars().filter(char::is_ascii_alphabetic).collect::<String>().to_ascii_lowercase();
    let hours = typed.contains(':') || letters.starts_with('h');
    let known = matches!(letters.as_str(), "" | "h" | "hmin" | "hm" | "min" | "m") && !typed.contains(['-', '.']);
    let minutes = match (parts.as_slice(), hours) {
        _ if !known => None,
        ([h, m], true) => h.parse::<u16>().ok().zip(m.parse::<u16>().ok()).filter(|(_, m)| *m < 60),
        ([h], true) => h.parse().ok().map(|h| (h, 0)),
        ([m], false) => m.parse().ok().map(|m| (0, m)),
        _ => None,
    };
    minutes.map(|(h, m)| f64::from(h) * 60.0 + f64::from(m)).ok_or_else(|| {
        refused("--reach")(format!("'{typed}' is not a night length; type one such as 11h40 or 700 (minutes)"))
    })
}

fn times(place: &Place, on: NaiveDate, convention: NightConvention, zone: Tz) -> Result<Times, CommandError> {
    let light = |day| -> Result<Option<Light>, CommandError> {
        let sky = night::sun_times(place, day).map_err(refused("--on"))?;
        let sky = if convention == NightConvention::SunsetToSunrise { sky.sun } else { sky.civil };
        Ok(if let Sky::Crosses(light) = sky { Some(light) } else { None })
    };
    let local = |at: DateTime<Utc>| at.with_timezone(&zone).to_rfc3339_opts(SecondsFormat::Secs, false);
    let length = night::night(place, on, convention).map_err(refused("--on"))?;
    let kind = match length {
        Night::Minutes(_) => "night",
        Night::None => "no-night",
        Night::Unbroken => "no-day",
    };
    let next = on.succ_opt().map_or(Ok(None), light)?;
    Ok(Times {
        night_begins: light(on)?.map(|l| local(l.ends)),
        night_ends: next.map(|l| local(l.begins)),
        night_minutes: (length.minutes() * 10.0).round() / 10.0,
        kind,
    })
}

/// `12 h 50 min`.
fn hours(minutes: f64) -> String {
    let whole = minutes.round();
    format!("{:.0} h {:02.0} min", (whole / 60.0).floor(), whole % 60.0)
}

fn text(answer: &Answer, counted: NightConvention) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    lines(&mut out, answer, counted).ok();
    out
}

fn lines(out: &mut String, answer: &Answer, counted: NightConvention) -> std::fmt::Result {
    let (lat, lon) = (answer.latitude, answer.longitude);
    writeln!(out, "Night of {} at {lat:.2}, {lon:.2} ({})", dates::long(answer.on), answer.time_zone)?;
    line(out, "sunset to sunrise", &answer.sun, "the sun does not go down", "the sun does not come up")?;
    line(out, "civil dusk to dawn", &answer.civil, "it does not get dark", "it does not get light")?;
    let start = &answer.short_days;
    let length = hours(start.night_minutes);
    let (first, other, name, other_name) = match counted {
        NightConvention::SunsetToSunrise => {
            (start.sunset_to_sunrise, start.civil_twilight, "sunset to sunrise", "civil twilight")
        }
        NightConvention::CivilTwilight => {
            (start.civil_twilight, start.sunset_to_sunrise, "civil dusk to dawn", "sunset to sunrise")
        }
    };
    match first {
        Some(first) => writeln!(out, "Short days start {}: first night of {length}, {name}", dates::long(first))?,
        None => writeln!(out, "Short days never start naturally: no night reaches {length}, {name}")?,
    }
    if start.basis.is_some() {
        writeln!(out, "  (11 h 40 min: R. Kobayashi, Poinsettia Flower Initiation)")?;
    }
    match other {
        Some(other) => writeln!(out, "  (counted by {other_name} it is {})", dates::long(other))?,
        None => writeln!(out, "  (counted by {other_name} no night gets that long)")?,
    }
    if let Some(missed) = &answer.missed_nights {
        let [least, most] = missed.delay_days;
        let nights = if missed.nights == 1 { "night" } else { "nights" };
        writeln!(out, "{} {nights} missed early in short days: {least} to {most} days later", missed.nights)?;
        writeln!(out, "  (1 day per night: newspaper column, 2020; 2 days: Kansas State)")?;
    }
    Ok(())
}

fn line(out: &mut String, name: &str, times: &Times, no_night: &str, no_day: &str) -> std::fmt::Result {
    // The instants are RFC 3339: hour and minute stand at a fixed place.
    let clock = |at: &Option<String>| at.as_deref().and_then(|t| t.get(11..16)).unwrap_or("-").to_owned();
    match times.kind {
        "night" => {
            let (begins, ends) = (clock(&times.night_begins), clock(&times.night_ends));
            writeln!(out, "  {name:<20} {begins} to {ends}   {}", hours(times.night_minutes))
        }
        "no-night" => writeln!(out, "  {name:<20} no night: {no_night}"),
        _ => writeln!(out, "  {name:<20} no day: {no_day}"),
    }
}

#[cfg(test)]
mod tests {
    use super::length;

    #[test]
    fn lengths_of_a_night_are_read() {
        for typed in ["11h40", "11 h 40 min", "11:40", "700", "700 min", "11h40m"] {
            assert!((length(typed).unwrap() - 700.0).abs() < 1e-9, "{typed}");
        }
        assert!((length("12h").unwrap() - 720.0).abs() < 1e-9);
        for wrong in ["", "long", "11h75", "-700", "11.5", "11 days", "99999h"] {
            assert!(length(wrong).is_err(), "{wrong}");
        }
    }
}
