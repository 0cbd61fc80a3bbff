//! How far the walk got, as a map of the houses: a sign a bench in walking order.

use super::overview::OfHouse;
use super::{Overview, Seen};
use crate::model::{Model, Walked};
use crate::ui::{Role, fit, width};
use crate::warnings::Severity;
use ratatui::text::{Line, Span};

/// Cells between two houses.
const GAP: usize = 4;
/// The most cells of a house's name.
const NAME: usize = 14;
/// How many benches one sign stands for, where not each has its own.
const GROUPS: [usize; 11] = [1, 2, 3, 5, 10, 20, 50, 100, 200, 500, 1000];

/// A bench in the map, the more to be looked at the greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Mark {
    /// Walked.
    Walked,
    /// Under restricted entry, and not walked.
    Closed,
    /// Not walked, or not wholly.
    Left,
    /// Flagged and not walked.
    Flagged,
}

impl Mark {
    /// Its sign and role.
    const fn sign(self) -> (&'static str, Role) {
        match self {
            Self::Walked => ("#", Role::Dim),
            Self::Closed => ("x", Role::Closed),
            Self::Left => (".", Role::Plain),
            Self::Flagged => ("!", Role::Act),
        }
    }
}

/// A house with its benches that have pots, in walking order.
#[derive(Debug, Clone, PartialEq, Eq)]
struct House {
    /// Its name.
    name: String,
    /// Its benches.
    marks: Vec<Mark>,
}

impl House {
    /// Benches walked.
    fn walked(&self) -> usize {
        self.marks.iter().filter(|mark| **mark == Mark::Walked).count()
    }

    fn count(&self) -> String {
        format!("{} of {}", self.walked(), self.marks.len())
    }

    fn spans(&self, each: usize, model: &Model) -> Vec<Span<'static>> {
        let look = model.look;
        let mut spans = vec![Span::styled(format!("{}  ", cut(&self.name)), look.style(Role::Dim))];
        for group in self.marks.chunks(each.max(1)) {
            let (sign, role) = group.iter().max().copied().unwrap_or(Mark::Walked).sign();
            spans.push(Span::styled(sign, look.style(role)));
        }
        spans.push(Span::raw(format!("  {}", self.count())));
        spans
    }

    /// Cells where a sign stands for so many benches.
    fn cells(&self, each: usize) -> usize {
        let signs = self.marks.len().div_ceil(each.max(1));
        let name = usize::from(width(&cut(&self.name)));
        name.saturating_add(signs).saturating_add(self.count().len()).saturating_add(4)
    }
}

fn cut(name: &str) -> String {
    let name = name.to_uppercase();
    if usize::from(width(&name)) > NAME { fit(&name, NAME) } else { name }
}

/// The houses in walking order; one without pots is left out.
fn houses(all: &Overview<'_>) -> Vec<House> {
    let marked = |(house, benches): OfHouse<'_>| House {
        name: house.to_owned(),
        marks: benches.into_iter().filter_map(mark).collect(),
    };
    all.by_house().into_iter().map(marked).filter(|house| !house.marks.is_empty()).collect()
}

/// `None` for a bench without pots. One not assessed yet counts as not walked.
fn mark(seen: &Seen<'_>) -> Option<Mark> {
    if seen.summary.is_some_and(|s| s.standing.is_none()) {
        return None;
    }
    let walked = seen.summary.is_some_and(|s| s.walked() == Walked::Yes);
    Some(if walked {
        Mark::Walked
    } else if seen.closed.is_some() {
        Mark::Closed
    } else if seen.level >= Some(Severity::Act) {
        Mark::Flagged
    } else {
        Mark::Left
    })
}

/// The map in one line of so many cells: `MILL  ####..!.....  4 of 12    DELL  ..x.  0 of 4`. Where there are too many benches a
/// sign stands for several and shows what is most to be looked at; where there are too many houses all are one.
pub fn line(all: &Overview<'_>, model: &Model, cells: usize) -> Line<'static> {
    map(&houses(all), model, cells)
}

fn map(houses: &[House], model: &Model, cells: usize) -> Line<'static> {
    let room = |houses: &[House], each: usize| {
        let all: usize = houses.iter().map(|house| house.cells(each)).sum();
        all.saturating_add(houses.len().saturating_sub(1).saturating_mul(GAP)).saturating_add(remark(each).len())
    };
    let fits = |houses: &[House]| GROUPS.into_iter().find(|each| room(houses, *each) <= cells);
    let whole = [House {
        name: "all houses".to_owned(),
        marks: houses.iter().flat_map(|house| house.marks.iter().copied()).collect(),
    }];
    let last = GROUPS.last().copied().unwrap_or(1);
    let (shown, each) = match (fits(houses), fits(&whole)) {
        (Some(each), _) => (houses, each),
        (None, each) => (whole.as_slice(), each.unwrap_or(last)),
    };
    let mut spans = Vec::new();
    for house in shown {
        if !spans.is_empty() {
            spans.push(Span::raw(" ".repeat(GAP)));
        }
        spans.extend(house.spans(each, model));
    }
    spans.push(Span::styled(remark(each), model.look.style(Role::Dim)));
    Line::from(spans)
}

/// What one sign stands for, where it is not one bench.
fn remark(each: usize) -> String {
    if each > 1 { format!("  a sign: {each} benches") } else { String::new() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Look, Palette};
    use crate::limits::Limits;
    use crate::model::Now;
    use crate::season::Season;
    use chrono::DateTime;

    fn drawn(houses: &[(&str, &str)], cells: usize) -> String {
        let now = DateTime::parse_from_rfc3339("2026-10-14T06:10:00-04:00").unwrap();
        let now = Now { at: now, ms: 0, id: uuid::Uuid::nil() };
        let look = Look { color: false, ascii: true, palette: Palette::Usual };
        let model = Model::new(&Season::of([]), Limits::default(), "kt".into(), now, look);
        let mark = |sign: char| match sign {
            '#' => Mark::Walked,
            'x' => Mark::Closed,
            '!' => Mark::Flagged,
            _ => Mark::Left,
        };
        let house =
            |(name, marks): &(&str, &str)| House { name: (*name).to_owned(), marks: marks.chars().map(mark).collect() };
        let houses: Vec<House> = houses.iter().map(house).collect();
        map(&houses, &model, cells).to_string()
    }

    #[test]
    fn each_bench_has_its_sign_in_walking_order() {
        let houses = [("Mill", "####..!....."), ("Dell", "..x..!...!..")];
        assert_eq!(drawn(&houses, 60), "MILL  ####..!.....  4 of 12    DELL  ..x..!...!..  0 of 12");
    }

    #[test]
    fn where_there_is_no_room_a_sign_stands_for_several_and_shows_the_worst_of_them() {
        let houses = [("Mill", "######..!..."), ("Dell", "##xx....")];
        assert_eq!(drawn(&houses, 74), "MILL  ######..!...  6 of 12    DELL  ##xx....  2 of 8");
        assert_eq!(drawn(&houses, 50), "ALL HOUSES  ######..!...##xx....  8 of 20");
        let many = "#".repeat(40);
        let houses = [("Mill", many.as_str()), ("Dell", "..................x!")];
        assert_eq!(drawn(&houses, 60), "MILL  ##  40 of 40    DELL  !  0 of 20  a sign: 20 benches");
    }

    #[test]
    fn any_number_of_houses_stays_in_its_cells() {
        for count in [0, 1, 3, 40] {
            let names: Vec<String> = (0..count).map(|n| format!("A house of a long name {n}")).collect();
            let benches = "#".repeat(50);
            let houses: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), benches.as_str())).collect();
            for cells in [60, 90, 190] {
                assert!(drawn(&houses, cells).len() <= cells, "{}", drawn(&houses, cells));
            }
        }
    }
}
