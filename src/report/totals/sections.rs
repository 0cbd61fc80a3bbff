//! What is said of a season's end, in the order it is read: a section each with its notes and tables. Text, HTML and the page of
//! the screens are laid out from these.

use super::SeasonEnd;
use crate::dates;
use crate::mix::{mass, volume};
use crate::report::chart::Table;
use crate::totals::{Cause, Given, Labor, LotSales, OrderMet, PAUSE_MIN, Product, Totals};
use crate::units::{Mass, System, Volume, plain};
use chrono::NaiveDate;

/// A part of what is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// Its title.
    pub title: &'static str,
    /// Its tables, each under a caption.
    pub tables: Vec<(&'static str, Table)>,
    /// Sentences below them.
    pub notes: Vec<String>,
}

fn table<const N: usize>(heads: [&str; N], rows: Vec<[String; N]>) -> Table {
    Table {
        heads: heads.into_iter().map(ToOwned::to_owned).collect(),
        rows: rows.into_iter().map(|row| row.into_iter().collect()).collect(),
    }
}

fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

/// Everything that is said, in order.
pub fn sections(end: &SeasonEnd) -> Vec<Section> {
    let totals = &end.totals;
    let mut all = vec![
        pots(&totals.lots),
        sold(totals),
        losses(&totals.losses),
        labor(&totals.labor),
        regulators(totals),
        feed(totals),
    ];
    all.extend(trials(end));
    all
}

fn pots(lots: &[LotSales]) -> Section {
    let rows = lots.iter().map(|lot| {
        [
            lot.lot.clone(),
            lot.placed.to_string(),
            lot.sold.to_string(),
            lot.dumped.to_string(),
            lot.lost.to_string(),
            lot.standing.to_string(),
            lot.not_accounted.to_string(),
            lot.committed.to_string(),
        ]
    });
    let heads = ["lot", "placed", "sold", "dumped", "lost", "standing", "no record", "ordered"];
    let missing = lots.iter().any(|lot| lot.not_accounted != 0);
    let note = "No record: placed, but neither sold, dumped, lost nor standing; below 0, more than were placed. A count that \
                differs from what was logged makes it.";
    Section {
        title: "Pots",
        tables: vec![("Pots by lot", table(heads, rows.collect()))],
        notes: missing.then(|| note.to_owned()).into_iter().collect(),
    }
}

fn sold(totals: &Totals) -> Section {
    let mut orders = Vec::new();
    let mut days = Vec::new();
    for lot in &totals.lots {
        orders.extend(lot.orders.iter().map(|order| order_row(lot, order, totals.on)));
        days.extend(day_rows(lot));
    }
    let mut notes = Vec::new();
    let beyond = totals.lots.iter().filter(|lot| lot.beyond > 0);
    notes.extend(beyond.map(|lot| format!("Lot {}: {} pots sold beyond its orders.", lot.lot, lot.beyond)));
    if days.is_empty() {
        notes.push("No sale and no grading is logged.".to_owned());
    } else {
        notes.push(
            "A sale names no grade in the record: salable, seconds and dumped are those of the gradings of that day."
                .to_owned(),
        );
    }
    let mut tables = Vec::new();
    if orders.is_empty() {
        notes.push("No pots are ordered.".to_owned());
    } else {
        notes.push("Sales fill the orders of their lot in order of date (Benchwalk's rule of thumb).".to_owned());
        let heads = ["lot", "ordered for", "pots", "by then", "later", "not sold", "order"];
        tables.push(("Orders", table(heads, orders)));
    }
    if !days.is_empty() {
        let heads = ["lot", "day", "sold", "salable", "seconds", "dumped"];
        tables.push(("Sold and graded by day", table(heads, days)));
    }
    Section { title: "Sold against the orders", tables, notes }
}

fn order_row(lot: &LotSales, order: &OrderMet, on: NaiveDate) -> [String; 7] {
    let state = match (order.open(), order.last) {
        (0, Some(last)) if order.late > 0 => format!("late, filled {}", dates::short(last)),
        (0, _) => "filled".to_owned(),
        (_, _) if order.date > on => "to come".to_owned(),
        (open, _) => format!("SHORT {open}"),
    };
    [
        lot.lot.clone(),
        dates::weekday(order.date),
        order.pots.to_string(),
        order.on_time.to_string(),
        order.late.to_string(),
        order.open().to_string(),
        state,
    ]
}

/// A row for each day on which pots of a lot were sold or graded; blank where nothing is logged.
fn day_rows(lot: &LotSales) -> Vec<[String; 6]> {
    let mut all: Vec<NaiveDate> =
        lot.days.iter().map(|day| day.day).chain(lot.grades.iter().map(|day| day.day)).collect();
    all.sort_unstable();
    all.dedup();
    let row = |day: NaiveDate| {
        let sold =
            lot.days.iter().find(|sales| sales.day == day).map_or_else(String::new, |sales| sales.pots.to_string());
        let graded = lot.grades.iter().find(|grades| grades.day == day);
        let of = |get: fn(&crate::totals::DayGrades) -> u64| graded.map_or_else(String::new, |g| get(g).to_string());
        [lot.lot.clone(), dates::weekday(day), sold, of(|g| g.salable), of(|g| g.seconds), of(|g| g.dumped)]
    };
    all.into_iter().map(row).collect()
}

fn losses(causes: &[Cause]) -> Section {
    let all: u64 = causes.iter().map(|cause| cause.pots).sum();
    let share = |pots: u64| {
        let of = |n: u64| u32::try_from(n).map_or(f64::INFINITY, f64::from);
        format!("{}%", plain((of(pots) / of(all) * 100.0).round()))
    };
    let rows = causes.iter().map(|cause| {
        let lots = cause.lots.iter().map(|(lot, pots)| {
            let lot = if lot.is_empty() { "unknown" } else { lot };
            format!("{lot} {pots}")
        });
        [
            cause.cause.clone().unwrap_or_else(|| "no cause written".to_owned()),
            cause.pots.to_string(),
            share(cause.pots),
            dates::range(cause.first, cause.last),
            lots.collect::<Vec<_>>().join(", "),
        ]
    });
    let rows: Vec<[String; 5]> = rows.collect();
    if rows.is_empty() {
        return Section { title: "Losses", tables: Vec::new(), notes: vec!["No losses are logged.".to_owned()] };
    }
    let heads = ["cause", "pots", "share", "days", "lots"];
    let pots = if all == 1 { "pot" } else { "pots" };
    let note = format!(
        "{all} {pots} lost in all. Causes are as they were written; pots dumped at grading are not among them."
    );
    Section { title: "Losses", tables: vec![("Losses by cause", table(heads, rows))], notes: vec![note] }
}

/// A time in hours, in minutes where it is under one.
fn time(seconds: i64) -> String {
    let seconds = i32::try_from(seconds).map_or(f64::INFINITY, f64::from);
    if seconds < 3600.0 { format!("{} min", plain(seconds / 60.0)) } else { format!("{} h", plain(seconds / 3600.0)) }
}

fn labor(labor: &Labor) -> Section {
    let title = "Time of the round";
    let rate = |rate: Option<f64>| rate.map_or_else(|| "-".to_owned(), plain);
    let Some(all) = labor.rate() else {
        let note = "The stamps of the record give no time: no two benches were looked at one after the other.";
        return Section { title, tables: Vec::new(), notes: vec![note.to_owned()] };
    };
    let mut text = format!(
        "{} benches a minute over {}, {} in all",
        plain(all),
        count(labor.rounds.len(), "round", "rounds"),
        time(labor.seconds())
    );
    if let Some((least, most)) = labor.rates().filter(|_| labor.rounds.len() > 1) {
        text.push_str(&format!("; {} to {} by round", plain(least), plain(most)));
    }
    text.push('.');
    let pauses: u32 = labor.rounds.iter().map(|round| round.pauses).sum();
    let mut notes = vec![
        text,
        format!(
            "From the stamps of what was seen on benches, by person and day. More than {PAUSE_MIN} minutes between two stamps \
             is a pause and left out (Benchwalk's rule of thumb): {}.",
            count(usize::try_from(pauses).unwrap_or(usize::MAX), "pause", "pauses")
        ),
    ];
    if labor.typed_together > 0 {
        let looks = count(labor.typed_together, "look is", "looks are");
        notes.push(format!(
            "{looks} left out: one person has several benches in the same second, so they were typed together."
        ));
    }
    if labor.without_time > 0 {
        let days = count(labor.without_time, "day gives", "days give");
        notes.push(format!("{days} no time: no two benches were looked at one after the other."));
    }
    let rows = labor.weeks().into_iter().map(|week| {
        [
            dates::short(week.monday),
            week.rounds.to_string(),
            week.benches.to_string(),
            time(week.seconds),
            rate(week.rate()),
        ]
    });
    let heads = ["week of", "rounds", "benches", "time", "benches a min"];
    Section { title, tables: vec![("Rounds by week", table(heads, rows.collect()))], notes }
}

/// Amounts of some substances: `N 1.2 lb (544 g), Mg 30 g (1.06 oz)`.
fn substances(given: &Given, units: System) -> String {
    let each = given.grams.iter().filter(|s| s.grams > 0.0).map(|s| {
        let amount = mass(units, Mass::from_g(s.grams));
        if s.name == "product" { amount } else { format!("{} {amount}", s.name) }
    });
    each.collect::<Vec<_>>().join(", ")
}

fn given_table(rows: &[&Given], units: System) -> Table {
    let row = |given: &&Given| {
        let what = if given.how.is_empty() { given.what.clone() } else { format!("{}, {}", given.what, given.how) };
        let solution =
            if given.solution_ml > 0.0 { volume(units, Volume::from_ml(given.solution_ml)) } else { String::new() };
        let known = given.times.saturating_sub(given.without_amount);
        [what, given.times.to_string(), known.to_string(), solution, substances(given, units)]
    };
    table(["what", "logged", "with amount", "solution in all", "in it"], rows.iter().map(row).collect())
}

/// What cannot be summed, in a sentence for each.
fn without_amounts(rows: &[&Given]) -> Vec<String> {
    let missing = rows.iter().filter(|given| given.without_amount > 0);
    let text = |given: &&&Given| {
        let how = if given.how.is_empty() { String::new() } else { format!(", {}", given.how) };
        format!(
            "{}{how}: {} of {} logged without an amount per pot; not in the sum.",
            given.what, given.without_amount, given.times
        )
    };
    missing.map(|given| text(&given)).collect()
}

const HOW_SUMMED: &str =
    "Sums are the amount per pot, times the strength, times the pots that stood there that evening.";

fn regulators(totals: &Totals) -> Section {
    let rows: Vec<&Given> = totals.materials.regulators.iter().collect();
    let title = "Growth regulators";
    if rows.is_empty() {
        return Section { title, tables: Vec::new(), notes: vec!["None is logged.".to_owned()] };
    }
    let mut notes = vec![HOW_SUMMED.to_owned()];
    notes.extend(without_amounts(&rows));
    let mut tables = vec![("Growth regulators", given_table(&rows, totals.units))];
    let products: Vec<[String; 4]> = totals.materials.products.iter().map(product_row).collect();
    tables.push(("Product used, as written", table(["product", "treatments", "used", "not written"], products)));
    Section { title, tables, notes }
}

fn product_row(product: &Product) -> [String; 4] {
    let used = product.used.iter().map(|(unit, number)| format!("{} {unit}", plain(*number)));
    let texts = product.not_summed.iter().map(|text| format!("\"{text}\" (not summed)"));
    [
        product.product.clone(),
        product.treatments.to_string(),
        used.chain(texts).collect::<Vec<_>>().join(", "),
        product.without_amount.to_string(),
    ]
}

fn feed(totals: &Totals) -> Section {
    let rows: Vec<&Given> = totals.materials.feed.iter().collect();
    let title = "Feed and water";
    if rows.is_empty() {
        return Section { title, tables: Vec::new(), notes: vec!["None is logged.".to_owned()] };
    }
    let mut notes = vec![HOW_SUMMED.to_owned()];
    notes.extend(without_amounts(&rows));
    Section { title, tables: vec![("Feed and water", given_table(&rows, totals.units))], notes }
}

fn trials(end: &SeasonEnd) -> Option<Section> {
    if end.trials.is_empty() && end.rates.is_empty() {
        return None;
    }
    let mut notes = Vec::new();
    for report in &end.trials {
        let trial = report.found.trial();
        notes.push(format!("{}: {}. {}", trial.trial, report.words().subject(), SeasonEnd::result(report).join(" ")));
    }
    notes.extend(end.rates.iter().map(rate_words));
    Some(Section { title: "Trials and rates kept", tables: Vec::new(), notes })
}

/// `Lot R6: 2.4 g of slow-release per pot next season (trial T1).`
pub(super) fn rate_words((lot, grams, basis): &(String, f64, Option<String>)) -> String {
    let by = basis.as_ref().map_or_else(String::new, |basis| format!(" ({basis})"));
    format!("Lot {lot}: {} g of slow-release per pot next season{by}.", plain(*grams))
}
