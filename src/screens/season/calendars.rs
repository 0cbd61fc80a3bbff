//! The calendars of the lots: of so many benches at once with the page, of the others lot by lot in idle slices.

use crate::model::Model;
use crate::report::series::{self, LotCalendar};
use std::collections::VecDeque;

/// Benches whose lots are worked out with the page: that takes a few milliseconds, and no key may wait for more than sixteen.
const AT_ONCE: usize = 100;
/// Benches whose lots are worked out in one idle slice.
const IN_A_SLICE: usize = 50;

/// The calendars of all lots, by lot. One that waits has no steps yet, or those it had.
#[derive(Debug, Clone, Default)]
pub(super) struct Calendars {
    all: Vec<LotCalendar>,
    /// Those that wait, by their place.
    left: VecDeque<usize>,
}

impl Calendars {
    /// As of the day of the round.
    pub(super) fn new(model: &Model) -> Self {
        let all: Vec<LotCalendar> = model.season.lots().into_iter().map(LotCalendar::without_steps).collect();
        let left = (0..all.len()).collect();
        let mut calendars = Self { all, left };
        calendars.work_out(model, AT_ONCE);
        calendars
    }

    /// The same after a change: until they are worked out again lots are shown as they were.
    pub(super) fn renewed(self, model: &Model) -> Self {
        let mut now = Self::new(model);
        for at in &now.left {
            let Some(waiting) = now.all.get_mut(*at) else { continue };
            if let Some(known) = self.all.iter().find(|known| known.lot == waiting.lot) {
                waiting.clone_from(known);
            }
        }
        now
    }

    /// All of them.
    pub(super) fn all(&self) -> &[LotCalendar] {
        &self.all
    }

    /// True while some wait.
    pub(super) fn waits(&self) -> bool {
        !self.left.is_empty()
    }

    /// Works out a few of those that wait; false where none does.
    pub(super) fn step(&mut self, model: &Model) -> bool {
        let waits = self.waits();
        self.work_out(model, IN_A_SLICE);
        waits
    }

    fn work_out(&mut self, model: &Model, benches: usize) {
        let mut done = 0_usize;
        while done < benches {
            let Some(at) = self.left.pop_front() else { return };
            let Some(calendar) = self.all.get_mut(at) else { continue };
            let Some(lot) = model.season.lot(&calendar.lot) else { continue };
            *calendar = series::calendar_of(&model.season, lot, model.day, &model.limits);
            done = done.saturating_add(model.season.benches_of_lot(&lot.lot, model.day).len().max(1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Look, Palette};
    use crate::limits::Limits;
    use crate::model::Now;
    use crate::record::Line;
    use crate::season::Season;
    use uuid::Uuid;

    /// Twelve lots on twenty benches each.
    fn model() -> Model {
        let mut text = String::from(
            "{\"type\":\"journal\",\"version\":1}\n{\"type\":\"site\",\"name\":\"Home\",\"latitude\":44.1,\"longitude\":-70.2,\
             \"time_zone\":\"America/New_York\",\"units\":\"us\"}\n",
        );
        for lot in 10..22 {
            text.push_str(&format!(
                "{{\"type\":\"lot\",\"lot\":\"L{lot}\",\"cultivar\":\"red\",\"container\":\"6 in\",\"cuttings_per_pot\":1,\
                 \"pots\":1600,\"planted\":\"2026-08-13\",\"pinch\":\"soft\",\"response_weeks\":9,\"nights\":\"natural\",\
                 \"ready_by\":\"2026-11-27\"}}\n"
            ));
            for n in 0..20 {
                let bench = format!("E{lot}{n:02}");
                text.push_str(&format!(
                    "{{\"type\":\"bench\",\"bench\":\"{bench}\",\"house\":\"H1\",\"order\":{lot}{n:02}}}\n\
                     {{\"type\":\"placement\",\"bench\":\"{bench}\",\"lot\":\"L{lot}\",\"pots\":80,\"from\":\"2026-08-13\"}}\n"
                ));
            }
        }
        let lines: Vec<Line> = crate::journal::read(&text).unwrap();
        let at = chrono::DateTime::parse_from_rfc3339("2026-10-12T07:30:00-04:00").unwrap();
        let now = Now { at, ms: 0, id: Uuid::from_u128(1) };
        let look = Look { color: true, ascii: false, palette: Palette::Usual };
        Model::new(&Season::of(lines), Limits::default(), "kt".into(), now, look)
    }

    #[test]
    fn lots_wait_for_rest_beyond_so_many_benches_and_are_shown_as_they_were_meanwhile() {
        let model = model();
        let whole = series::calendar(&model.season, model.day, &model.limits);
        let mut calendars = Calendars::new(&model);
        let known = |calendars: &Calendars| calendars.all().iter().filter(|lot| !lot.steps.is_empty()).count();
        assert_eq!((calendars.all().len(), known(&calendars)), (12, 5));
        assert!(calendars.step(&model));
        assert_eq!(known(&calendars), 8, "three lots have sixty benches");
        while calendars.step(&model) {}
        assert_eq!(calendars.all(), whole);
        let calendars = calendars.renewed(&model);
        assert!(calendars.waits());
        assert_eq!(calendars.all(), whole);
    }
}
