//! Writing it down: entries with local times and derived ids.

use benchwalk::record::{Entry, Kind, Place, derived_id};
use chrono::{DateTime, FixedOffset, NaiveDate, NaiveTime, TimeDelta, TimeZone};

pub(crate) struct Book {
    pub(crate) entries: Vec<Entry>,
    pub(crate) by: &'static str,
    zone: chrono_tz::Tz,
}

impl Book {
    pub(crate) const fn new(zone: chrono_tz::Tz) -> Self {
        Self { entries: Vec::new(), by: "jo", zone }
    }

    /// A local time, so many seconds after a full hour.
    pub(crate) fn at(&self, day: NaiveDate, hour: u32, seconds: usize) -> DateTime<FixedOffset> {
        let local = day.and_time(NaiveTime::from_hms_opt(hour, 0, 0).unwrap())
            + TimeDelta::seconds(i64::try_from(seconds).unwrap());
        self.zone.from_local_datetime(&local).earliest().unwrap().fixed_offset()
    }

    pub(crate) fn bench(&mut self, at: DateTime<FixedOffset>, bench: &str, kind: Kind) {
        self.write(at, Place::Bench(bench.into()), kind, None);
    }

    pub(crate) fn write(&mut self, at: DateTime<FixedOffset>, place: Place, kind: Kind, note: Option<&str>) {
        let note = note.map(ToOwned::to_owned);
        let mut entry = Entry {
            id: uuid::Uuid::nil(),
            at,
            by: self.by.to_owned().into(),
            place,
            plot: None,
            kind: kind.into(),
            note: note.map(Into::into),
        };
        entry.id = derived_id(&entry);
        self.entries.push(entry);
    }
}
