//! What is said of two seasons side by side, row by row: the same on the screen, in text and in HTML.

use super::Comparison;
use crate::compare::{By, Chosen, Come, ComeRow, Cost, LotBeside, Measure, MeasureRow, Pairs, Pots, StoodRow};
use crate::dates;
use crate::record::{Place, Term};
use crate::units::{Length, Quantity, System, Temperature, plain};
use chrono::NaiveDate;

/// A row of a lot: what it is about, this year, last year, and what differs in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// What it is about.
    pub what: String,
    /// This year.
    pub this: String,
    /// Last year.
    pub last: String,
    /// What differs; empty where nothing does or nothing can be said.
    pub differs: String,
}

impl Row {
    /// All of it in one sentence: `pinched: Aug 25, day 7; last year Sep 3, day 14: 7 days earlier`.
    pub fn sentence(&self) -> String {
        let differs = if self.differs.is_empty() { String::new() } else { format!(": {}", self.differs) };
        format!("{}; last year {}{differs}", self.this, self.last)
    }
}

/// How last year's file was chosen.
pub const fn chosen(chosen: Chosen) -> &'static str {
    match chosen {
        Chosen::Named => "as named on the command line",
        Chosen::Configured => "as named in config.toml",
        Chosen::Found => "found in the folder of the season or the data folder",
        Chosen::Demo => "made with the demo",
    }
}

/// `R1 beside R6 of last year`.
pub fn heading(lot: &LotBeside) -> String {
    format!("{} beside {} of last year", lot.this.lot, lot.last.lot)
}

/// What both lots are, up to which day they are compared, and how they were matched.
pub fn matched(lot: &LotBeside) -> String {
    let by = match lot.by {
        By::Hand => "matched by hand",
        By::CultivarAndContainer => "matched by cultivar and container",
    };
    let other = if (&lot.last.cultivar, &lot.last.container) == (&lot.this.cultivar, &lot.this.container) {
        String::new()
    } else {
        format!(" ({} was {} {})", lot.last.lot, lot.last.cultivar, lot.last.container)
    };
    format!(
        "{} {}{other}; day {} of the crop, week {}; {by}",
        lot.this.cultivar,
        lot.this.container,
        lot.crop_day,
        week(lot.crop_day)
    )
}

/// The crop week of a crop day, counted from 1.
const fn week(crop_day: i64) -> i64 {
    crop_day.div_euclid(7).saturating_add(1)
}

/// `3 days`, `1 day`.
fn days(n: i64) -> String {
    if n == 1 { "1 day".to_owned() } else { format!("{n} days") }
}

/// All rows of a lot.
pub fn rows(lot: &LotBeside, system: System, assessed: bool) -> Vec<Row> {
    let mut rows: Vec<Row> = lot.came.iter().map(|row| came(row, lot)).collect();
    rows.extend(lot.measured.iter().map(|row| measured(row, system)));
    rows.extend(lot.watered.map(|(this, last)| {
        let shown = |rate: f64| format!("{rate:.1} a bench and week");
        let (a, b) = (this.a_week(), last.a_week());
        let differs = compared(a, b, 1, ("more often", "less often"));
        Row {
            what: "watered".into(),
            this: shown(a),
            last: shown(b),
            differs: differs.map(|(_, way)| way.to_owned()).unwrap_or_default(),
        }
    }));
    rows.extend(pots(lot));
    if assessed {
        rows.extend(lot.stood.iter().map(|row| stood(row, lot)));
    }
    rows
}

fn came(row: &ComeRow, lot: &LotBeside) -> Row {
    let what = match row.what {
        Come::Planted => "planted".to_owned(),
        Come::Pinched => "pinched".to_owned(),
        Come::Spaced => "spaced".to_owned(),
        Come::GrowthRegulator => "growth regulator".to_owned(),
        Come::ShortDays => "short days".to_owned(),
        Come::Color(milestone) => milestone.words().to_owned(),
        Come::Sold => "first sold".to_owned(),
    };
    let shown = |day: Option<NaiveDate>, planted: NaiveDate| match day {
        None => None,
        Some(day) if row.what == Come::Planted => Some(dates::short(day)),
        Some(day) => Some(format!("{}, day {}", dates::short(day), dates::days_between(planted, day))),
    };
    let later = row.later.map(|n| match n {
        0 => "the same day".to_owned(),
        n if n < 0 => format!("{} earlier", days(n.saturating_neg())),
        n if row.this.is_none() => format!("{} later so far", days(n)),
        n => format!("{} later", days(n)),
    });
    Row {
        what,
        this: shown(row.this, lot.this.planted).unwrap_or_else(|| "not yet".to_owned()),
        last: shown(row.last, lot.last.planted).unwrap_or_else(|| "not logged".to_owned()),
        differs: later.unwrap_or_default(),
    }
}

/// The amount and the direction in which the first of two numbers differs, as far as so many decimals show.
fn compared<'w>(a: f64, b: f64, decimals: usize, (more, less): (&'w str, &'w str)) -> Option<(String, &'w str)> {
    let amount = format!("{:.decimals$}", (a - b).abs());
    let none = amount.chars().all(|c| matches!(c, '0' | '.'));
    (!none).then_some((amount, if a > b { more } else { less }))
}

/// What is measured: its name, its unit in this system, its decimals, and the words for more and less.
fn about(measure: Measure, system: System) -> (String, &'static str, usize, (&'static str, &'static str)) {
    let warm = ("warmer", "cooler");
    match measure {
        Measure::Height => ("height".into(), Length::unit_name(system), 1, ("taller", "shorter")),
        Measure::Water => ("water (1 to 5)".into(), "", 1, ("wetter", "drier")),
        Measure::Roots => ("roots (0 to 5)".into(), "", 1, ("browner", "whiter")),
        Measure::Bracts => ("bract stage".into(), "", 1, ("further", "less far")),
        Measure::Ph => ("root zone pH".into(), "", 1, ("higher", "lower")),
        Measure::Salts(method) => (format!("EC by {}", method.text()), "mS/cm", 1, ("higher", "lower")),
        Measure::Day => ("day temperature".into(), Temperature::unit_name(system), 1, warm),
        Measure::Night => ("night temperature".into(), Temperature::unit_name(system), 1, warm),
        Measure::Humidity => ("humidity".into(), "%", 0, ("more humid", "less humid")),
    }
}

/// A measured value in the units of a system.
pub(super) fn in_system(measure: Measure, value: f64, system: System) -> f64 {
    match measure {
        Measure::Height => Length::from_cm(value).in_system(system),
        Measure::Day | Measure::Night => Temperature::from_c(value).in_system(system),
        _ => value,
    }
}

fn measured(row: &MeasureRow, system: System) -> Row {
    let (name, unit, decimals, ways) = about(row.what, system);
    let (a, b) = (in_system(row.what, row.this, system), in_system(row.what, row.last, system));
    let space = if unit.is_empty() || unit == "%" { "" } else { " " };
    let shown = |value: f64| format!("{value:.decimals$}{space}{unit}");
    // The difference of what is shown, so that the row adds up.
    let round = |value: f64| format!("{value:.decimals$}").parse().unwrap_or(value);
    let differs = compared(round(a), round(b), decimals, ways);
    let scored = matches!(row.what, Measure::Water | Measure::Roots | Measure::Bracts);
    Row {
        what: format!("{name}, week {}", row.week),
        this: shown(a),
        last: shown(b),
        differs: differs.map_or_else(
            || "the same".to_owned(),
            |(amount, way)| if scored { way.to_owned() } else { format!("{amount}{space}{unit} {way}") },
        ),
    }
}

fn share(pots: Pots) -> String {
    if pots.placed == 0 {
        return String::new();
    }
    format!(" ({}%)", plain((1000.0 * pots.lost as f64 / pots.placed as f64).round() / 10.0))
}

fn pots(lot: &LotBeside) -> Vec<Row> {
    let row = lot.pots;
    let causes = |causes: &[(String, u64)]| -> String {
        let named: Vec<String> = causes.iter().map(|(cause, pots)| format!("{pots} {cause}")).collect();
        if named.is_empty() { String::new() } else { format!(": {}", named.join(", ")) }
    };
    let one = |what: &str, this: String, last: String| Row { what: what.into(), this, last, differs: String::new() };
    let mut rows = vec![
        one("pots placed", row.this.placed.to_string(), row.whole.placed.to_string()),
        one(
            "pots lost",
            format!("{}{}{}", row.this.lost, share(row.this), causes(&lot.causes.0)),
            format!(
                "{} by that day, {}{} in all{}",
                row.last.lost,
                row.whole.lost,
                share(row.whole),
                causes(&lot.causes.1)
            ),
        ),
    ];
    if row.this.sold > 0 || row.whole.sold > 0 {
        rows.push(one(
            "pots sold",
            row.this.sold.to_string(),
            format!("{} by that day, {} in all", row.last.sold, row.whole.sold),
        ));
    }
    rows.push(one("pots standing", row.this.standing.to_string(), format!("{} on that day", row.last.standing)));
    rows
}

fn stood(row: &StoodRow, lot: &LotBeside) -> Row {
    let count = |n: usize| days(i64::try_from(n).unwrap_or(i64::MAX));
    let from = |planted: NaiveDate, (began, n): (NaiveDate, usize)| {
        format!("{} from {}, week {}", count(n), dates::short(began), week(dates::days_between(planted, began)))
    };
    let this = row.this.map_or_else(|| "none".to_owned(), |it| from(lot.this.planted, it));
    let last = match (row.last, row.whole) {
        (_, None) => "none".to_owned(),
        (None, Some(whole)) => format!("none by that day, then {}", from(lot.last.planted, whole)),
        (Some(then), Some(whole)) if then.1 == whole.1 => from(lot.last.planted, whole),
        (Some(then), Some(whole)) => {
            format!("{} by that day, {} in all", from(lot.last.planted, then), count(whole.1))
        }
    };
    let differs = match (row.this, row.whole) {
        (Some((now, _)), Some((before, _))) => {
            let at = |planted: NaiveDate, day: NaiveDate| dates::days_between(planted, day);
            match at(lot.this.planted, now).saturating_sub(at(lot.last.planted, before)) {
                0 => "began on the same day".to_owned(),
                n if n < 0 => format!("began {} earlier", days(n.saturating_neg())),
                n => format!("began {} later", days(n)),
            }
        }
        (Some(_), None) => "new this year".to_owned(),
        (None, _) => String::new(),
    };
    Row { what: format!("warning: {}", row.name.title()), this, last, differs }
}

/// Lots without a partner, a sentence each.
pub fn unmatched(pairs: &Pairs) -> Vec<String> {
    let new = pairs.pairs.iter().filter(|pair| pair.last.is_none());
    let new = new.map(|pair| format!("Lot {} has no lot of the same cultivar and container last year.", pair.this));
    let old = pairs.left.iter().map(|lot| format!("Lot {lot} of last year has no such lot this year."));
    let mut all: Vec<String> = new.chain(old).collect();
    if !all.is_empty() {
        all.push("Match lots by hand with --match LAST=THIS, or with match in config.toml.".to_owned());
    }
    all
}

/// Matches by hand that could not be used.
pub fn unknown(pairs: &Pairs) -> Vec<String> {
    let say = |hand: &crate::compare::Match| {
        format!("{}={} was not used: no such lot last year or this year, or matched twice.", hand.last, hand.this)
    };
    pairs.unknown.iter().map(say).collect()
}

/// What the list of costs is.
pub const fn costs_head() -> &'static str {
    "Last year's warnings at act or urgent that stood longest or lost most pots, those of one cause in one lot together. \
     Pots are those lost on their benches while they stood."
}

/// A cost in a sentence, when that day of the crop is this year, and what its warning says to do first.
pub fn cost(cost: &Cost, comparison: &Comparison) -> (String, Vec<String>) {
    let place = match &cost.of {
        Place::Lot(code) => format!("lot {code}"),
        Place::House(name) => format!("house {name}"),
        Place::Bench(code) => code.to_string(),
    };
    let benches = if cost.benches.is_empty() { String::new() } else { format!(" ({})", cost.benches.join(", ")) };
    let pots = match cost.pots {
        0 => "no pots lost meanwhile".to_owned(),
        1 => "1 pot lost".to_owned(),
        n => format!("{n} pots lost"),
    };
    let title = cost.name.title();
    let said = format!(
        "{title}, {place}{benches}: began {}, {}, {pots}.",
        dates::weekday(cost.began),
        days(i64::try_from(cost.days).unwrap_or(i64::MAX))
    );
    let mut more = Vec::new();
    if !cost.then.is_empty() {
        let then: Vec<String> =
            cost.then.iter().map(|(name, day)| format!("{} from {}", name.title(), dates::short(*day))).collect();
        more.push(format!("Then {}.", then.join(", ")));
    }
    let beside = comparison.courses.iter().find(|(_, last)| Place::Lot(last.lot.lot.as_str().into()) == cost.of);
    if let Some((this, last)) = beside {
        let crop_day = last.crop_day(cost.began);
        more.push(format!(
            "Day {crop_day} of the crop; in {} that is {}.",
            this.lot.lot,
            dates::weekday(this.day(crop_day))
        ));
    }
    more.extend(cost.name.rule().next.first().map(|step| format!("First: {}", step.text)));
    (said, more)
}
