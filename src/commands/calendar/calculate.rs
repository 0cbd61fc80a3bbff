//! From what was typed to the answer.

use super::CalendarArgs;
use super::answer::{Answer, Backward, Bracts, Forward, Nights, Order, Range, Room};
use crate::commands::arg_values::{day, number, quantity, refused, refused_in};
use crate::commands::location::Where;
use crate::commands::{CommandError, Context};
use crate::crop::calendar::{
    self, BackwardPlan, Darkness, ForwardPlan, Layout, PinchPlan, backward_from_sale, bench_area, cuttings_to_order,
    darkness, forward_from_planting, usual_centers, usual_cuttings, usual_leads,
};
use crate::crop::color::{Forecast, Look, MOST_DAYS, Response};
use crate::crop::night::{self, start_of_short_days};
use crate::crop::{Days, Estimate};
use crate::limits::Limits;
use crate::record::typed::Facing;
use crate::terms::NightConvention;
use crate::units::{Length, System, Temperature};
use chrono::NaiveDate;

/// A rim under this is a small pot, cm: between 5 and 6 in.
const SMALL_RIM_CM: f64 = 14.0;
/// Spare cuttings, percent (rule of thumb; no published figure was found).
const SPARE_PERCENT: f64 = 5.0;

/// What was typed, and what it is to be read by.
pub(super) struct Asked<'a> {
    pub(super) args: &'a CalendarArgs,
    pub(super) dates: Dates,
    pub(super) system: System,
    pub(super) limits: &'a Limits,
    pub(super) here: Where,
}

/// The days typed.
pub(super) struct Dates {
    ready_by: Option<NaiveDate>,
    planted: Option<NaiveDate>,
    pinched_on: Option<NaiveDate>,
    blackout_from: Option<NaiveDate>,
    lights_until: Option<NaiveDate>,
    looks: Vec<Look>,
}

impl Dates {
    /// Reads them, the month or the day first by the units of the answer.
    ///
    /// # Errors
    /// The first that cannot be read.
    pub(super) fn of(args: &CalendarArgs, system: System, context: &Context<'_>) -> Result<Self, CommandError> {
        let one = |option, typed: &Option<String>, facing| {
            typed.as_deref().map(|typed| day(option, (typed, facing), Some(system), context)).transpose()
        };
        let looks = args.seen.iter().map(|typed| look(typed, system, context));
        Ok(Self {
            ready_by: one("--ready-by", &args.ready_by, Facing::Ahead)?,
            planted: one("--planted", &args.planted, Facing::Back)?,
            pinched_on: one("--pinched-on", &args.pinched_on, Facing::Back)?,
            blackout_from: one("--blackout-from", &args.blackout_from, Facing::Ahead)?,
            lights_until: one("--lights-until", &args.lights_until, Facing::Ahead)?,
            looks: looks.collect::<Result<_, _>>()?,
        })
    }
}

/// Where the usual numbers come from; each fits a narrow screen.
const BASIS: [&str; 6] = [
    "plant and pinch: UF/IFAS 2004 and 2011; Iowa State 2023",
    "growth regulator: Purdue 2010; magnesium, molybdenum: common practice, week 6",
    "color: J. Barrett (University of Florida), about 2008, scaled;",
    "  low confidence; full color: Benchwalk's rule of thumb",
    "temperature: the same, and a University of New Hampshire trial",
    "cuttings: Texas A&M; centers: University of Georgia 2012",
];

/// Everything asked for.
pub(super) fn calculate(asked: &Asked<'_>) -> Result<Answer, CommandError> {
    let Asked { args, system, .. } = *asked;
    let dates = &asked.dates;
    let typed =
        args.response.as_deref().ok_or_else(|| refused("--response")("give the response weeks of the cultivar"))?;
    let weeks = number("--response", typed, &["weeks", "wk", "w"])?;
    let rim = args.rim.as_deref().map(|rim| quantity::<Length>("--rim", rim, system)).transpose()?;
    let back = dates.ready_by.map(|sale| back(asked, sale, weeks, rim)).transpose()?;
    let forward = forward(asked, back.as_ref(), weeks)?;
    let (order, room) = match args.pots {
        Some(pots) => (order(args, pots, rim)?, room(args, pots, rim, system)?),
        None => (None, None),
    };
    Ok(Answer { response_weeks: weeks, back, order, room, forward, basis: BASIS.to_vec() })
}

fn back(asked: &Asked<'_>, ready_by: NaiveDate, weeks: f64, rim: Option<Length>) -> Result<Backward, CommandError> {
    let args = asked.args;
    let leads = usual_leads(rim.is_some_and(|rim| rim.cm() < SMALL_RIM_CM));
    let or = |option, typed: &Option<String>, units: &[&str], usual| {
        typed.as_deref().map_or(Ok(usual), |typed| number(option, typed, units))
    };
    let pinch = if args.unpinched {
        let typed = args.plant_weeks.as_deref().ok_or_else(|| {
            refused("--plant-weeks")(
                "give the weeks from planting to short days; there is no usual figure for an unpinched lot",
            )
        })?;
        PinchPlan::Unpinched { plant_weeks_before_sd: number("--plant-weeks", typed, &["weeks", "wk", "w"])? }
    } else {
        PinchPlan::Pinched {
            weeks_before_sd: or("--pinch-weeks", &args.pinch_weeks, &["weeks", "wk", "w"], leads.pinch_weeks.likely)?,
            days_after_planting: or("--pinch-days", &args.pinch_days, &["days", "d"], leads.plant_days.likely)?,
        }
    };
    let dates =
        backward_from_sale(&BackwardPlan { ready_by, response_weeks: weeks, pinch }).map_err(refused("calendar"))?;
    let (pinch_weeks, pinch_days) = match pinch {
        PinchPlan::Pinched { weeks_before_sd, days_after_planting } => {
            (Some(weeks_before_sd), Some(days_after_planting))
        }
        PinchPlan::Unpinched { .. } => (None, None),
    };
    let nights = natural(asked, dates.planting)?.map(|natural| nights(dates.short_days, natural)).transpose()?;
    Ok(Backward {
        ready_by,
        short_days: dates.short_days,
        pinch: dates.pinch,
        planting: dates.planting,
        pinch_weeks,
        pinch_days,
        nights,
    })
}

/// The start of short days as the season gives it for a planting; nothing where no place was typed.
#[expect(clippy::option_option, reason = "no place typed, and a place whose nights never get so long, are two things")]
fn natural(asked: &Asked<'_>, planted: NaiveDate) -> Result<Option<Option<NaiveDate>>, CommandError> {
    let Some(place) = asked.here.place() else { return Ok(None) };
    let (convention, minutes) = counted(asked.limits);
    start_of_short_days(place, planted, night::Nights::Natural, minutes, convention).map(Some).map_err(refused("--at"))
}

fn counted(limits: &Limits) -> (NightConvention, f64) {
    (limits.choices.night, f64::from(limits.round.night_start_min))
}

fn nights(wanted: NaiveDate, natural: Option<NaiveDate>) -> Result<Nights, CommandError> {
    let (to_do, day, days) = match darkness(wanted, natural).map_err(refused("--ready-by"))? {
        Darkness::Natural => ("nothing", None, Some(0)),
        Darkness::LightUntil { last, days } => ("light-until", Some(last), Some(days)),
        Darkness::CoverFrom { first, days } => ("cover-from", Some(first), Some(days)),
        Darkness::CoverAlways { first } => ("cover-from", Some(first), None),
    };
    Ok(Nights { natural, to_do, day, days })
}

fn order(args: &CalendarArgs, pots: u32, rim: Option<Length>) -> Result<Option<Order>, CommandError> {
    let usual = rim.and_then(|rim| usual_cuttings(rim, !args.unpinched));
    let Some(each) = args.cuttings.or(usual.map(|(least, _)| least)) else { return Ok(None) };
    let spare = args.spare.as_deref().map_or(Ok(SPARE_PERCENT), |typed| number("--spare", typed, &["%", "percent"]))?;
    let cuttings = cuttings_to_order(pots, each, spare / 100.0).map_err(refused("--pots, --cuttings, --spare"))?;
    let usual = usual.filter(|(least, most)| least != most && args.cuttings.is_none()).map(|(a, b)| [a, b]);
    Ok(Some(Order {
        pots,
        cuttings_per_pot: each,
        usual,
        spare_percent: spare,
        spare_basis: if args.spare.is_some() { "typed" } else { "rule of thumb" },
        cuttings,
    }))
}

fn room(args: &CalendarArgs, pots: u32, rim: Option<Length>, system: System) -> Result<Option<Room>, CommandError> {
    let typed = args.centers.as_deref().map(|typed| quantity::<Length>("--centers", typed, system)).transpose()?;
    let Some(centers) = typed.or_else(|| rim.and_then(usual_centers).map(|c| c.likely)) else { return Ok(None) };
    let layout = if args.staggered { Layout::Staggered } else { Layout::Square };
    let area = bench_area(pots, centers, layout).map_err(refused_in("--centers", system))?;
    Ok(Some(Room { centers_cm: centers.cm(), staggered: args.staggered, area_m2: area.m2() }))
}

fn forward(asked: &Asked<'_>, back: Option<&Backward>, weeks: f64) -> Result<Forward, CommandError> {
    let Asked { args, ref dates, system, .. } = *asked;
    let calculated = back.map(|back| back.planting);
    let planted = dates.planted.or(calculated).ok_or_else(|| refused("--planted")("give the planting date"))?;
    // Counted back from a sale the start is the one wanted: the nights are lit or covered to get it.
    let short_days = match (dates.planted, back) {
        (None, Some(back)) => Some(back.short_days),
        _ => short_days(asked, planted)?,
    };
    let typed = |option, text: &Option<String>| {
        text.as_deref().map(|text| quantity::<Temperature>(option, text, system)).transpose()
    };
    let mean = typed("--mean", &args.mean)?;
    let days_c = mean.map(|mean| vec![Some(mean.c()); MOST_DAYS]).unwrap_or_default();
    let response = Response { weeks, mean: typed("--response-mean", &args.response_mean)? };
    let plan = ForwardPlan {
        planted,
        pinched: !args.unpinched,
        pinched_on: dates.pinched_on,
        short_days,
        response,
        days_c: &days_c,
        looks: &dates.looks,
    };
    let made = forward_from_planting(&plan).map_err(refused_in("calendar", system))?;
    Ok(Forward {
        planted,
        pinch: made.pinch.map(range),
        growth_regulator_decision: made.first_growth_regulator.map(range),
        magnesium_and_molybdenum: range(made.nutrients),
        short_days,
        color: made.color.as_ref().map(|forecast| color(forecast, mean)),
    })
}

fn short_days(asked: &Asked<'_>, planted: NaiveDate) -> Result<Option<NaiveDate>, CommandError> {
    let dates = &asked.dates;
    if let Some(first) = dates.blackout_from {
        return Ok(Some(first.max(planted)));
    }
    let place = asked.here.needed()?;
    let nights = dates.lights_until.map_or(night::Nights::Natural, night::Nights::LightsUntil);
    let (convention, minutes) = counted(asked.limits);
    start_of_short_days(place, planted, nights, minutes, convention).map_err(refused("--at"))
}

fn look(typed: &str, system: System, context: &Context<'_>) -> Result<Look, CommandError> {
    let wrong =
        || refused("--seen")(format!("'{typed}' is not a reading; type date=stage (1-7), such as 2026-11-02=2"));
    let (on, stage) = typed.split_once('=').ok_or_else(wrong)?;
    let stage: u8 = stage.trim().parse().ok().filter(|s| (1..=7).contains(s)).ok_or_else(wrong)?;
    Ok(Look { day: day("--seen", (on.trim(), Facing::Back), Some(system), context)?, stage })
}

const fn range(days: Days) -> Range {
    let Estimate { low, likely, high } = days;
    [low, likely, high]
}

fn color(forecast: &Forecast, mean: Option<Temperature>) -> Bracts {
    Bracts {
        first_color: range(forecast.first_color),
        cyathia: range(forecast.cyathia),
        full_color: range(forecast.full_color),
        first_pollen: range(forecast.first_pollen),
        mean_c: mean.map(Temperature::c),
        response_c: (forecast.temperatures.usual.c() * 10.0).round() / 10.0,
        response_c_assumed: forecast.temperatures.assumed,
        beyond: forecast.temperatures.beyond,
    }
}

/// The usual weeks from pinch to short days, least and most, to show beside the ones used.
pub(super) fn usual_pinch() -> calendar::Leads {
    usual_leads(false)
}
