//! `night-light`: lamps that shorten the night.
//!
//! **Sees** the latest light reading taken at night in short days, 60 minutes or more after sunset and before sunrise (so that
//! twilight is not taken for a lamp: house rule), for 14 days or until a later night reading.
//! **Numbers** over 11 lux watch (Michigan State: some plants sense under 1 foot-candle), over 20 (Texas A&M: under 2
//! foot-candles cancels the night) urgent in the first 6 weeks of short days (Kansas State), then act.
//! **Ends** with a later night reading of 11 lux or less.

use super::made::days;
use super::made::of_bench;
use super::sight::Sight;
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::crop::night::{self, Sky};
use crate::record::{Entry, Kind, KindName};
use chrono::{NaiveDate, TimeDelta, Timelike};

const SOURCES: Basis = Basis::Published(
    "Texas A&M: under 2 foot-candles cancels the night; Michigan State: some sense under 1; 60 min: house rule",
);

pub(super) fn rule(sight: &Sight<'_>) -> Option<Warning> {
    let limits = &sight.limits().light;
    let short_days = sight.short_days()?;
    let readings =
        sight.of(KindName::NightLight).iter().rev().copied().take_while(|e| sight.age(e) <= limits.reading_days);
    let dark: Vec<&Entry> = readings.filter(|e| evening(sight, e).is_some_and(|d| d >= short_days)).collect();
    let last = dark.first()?;
    let lux = lux(last)?;
    let (level, key) = if lux > limits.lux_harm {
        let early = days(short_days, sight.day()) < limits.first_weeks;
        (if early { Level::Urgent } else { Level::Act }, "light.lux_harm")
    } else if lux > limits.lux_watch {
        (Level::Watch, "light.lux_watch")
    } else {
        return None;
    };
    let bright = dark.iter().take_while(|e| self::lux(e).is_some_and(|l| l > limits.lux_watch));
    let since = bright.last().map_or_else(|| last.day(), |e| e.day());
    let warning = of_bench(sight, WarningName::NightLight, level, since).saw(last);
    Some(warning.figure(Figure::Lux, lux, sight.ground.limit(key)).on(SOURCES))
}

const fn lux(entry: &Entry) -> Option<f64> {
    if let Kind::NightLight { lux } = &entry.kind { Some(*lux) } else { None }
}

/// The evening of the night a reading was taken in; `None` for one taken by day or in twilight.
fn evening(sight: &Sight<'_>, entry: &Entry) -> Option<NaiveDate> {
    let place = sight.ground.place()?;
    let margin = TimeDelta::try_minutes(sight.limits().light.dark_after_min)?;
    let local = entry.at.with_timezone(&sight.ground.site()?.time_zone);
    let date = local.date_naive();
    let evening = if local.hour() < 12 { date.pred_opt()? } else { date };
    let at = entry.instant();
    let after_sunset = match night::sun_times(&place, evening).ok()?.sun {
        Sky::Crosses(light) => at >= light.ends.checked_add_signed(margin)?,
        Sky::StaysDown => true,
        Sky::StaysUp => false,
    };
    let before_sunrise = match night::sun_times(&place, evening.succ_opt()?).ok()?.sun {
        Sky::Crosses(light) => at <= light.begins.checked_sub_signed(margin)?,
        Sky::StaysDown => true,
        Sky::StaysUp => false,
    };
    (after_sunset && before_sunrise).then_some(evening)
}
