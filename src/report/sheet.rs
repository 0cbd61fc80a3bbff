//! The round on paper: benches in walking order with check boxes, where no laptop can be carried. What is marked is entered
//! later with `--on DAY`.

use super::html::escape;
use super::html::page;
use super::words;
use crate::dates::{self, Tz};
use crate::limits::Limits;
use crate::mix::cautions::KEEP_OUT;
use crate::season::Season;
use crate::trials::{DueOn, due_on_benches};
use crate::units::System;
use crate::warnings::{Check, CheckName, due};
use chrono::{DateTime, NaiveDate, Utc};

/// One bench on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The house.
    pub house: String,
    /// The bench.
    pub bench: String,
    /// The lot.
    pub lot: String,
    /// Week of the crop, from 1.
    pub week: i64,
    /// What is due, each with what is printed after it.
    pub checks: Vec<(String, String)>,
    /// Closed until.
    pub closed: Option<DateTime<Tz>>,
}

/// The sheet of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The site.
    pub site: String,
    /// The day.
    pub on: NaiveDate,
    /// Benches with pots, in walking order.
    pub rows: Vec<Row>,
    /// The line for the temperature of each house; `None` where the site does not have it asked.
    pub temperature: Option<&'static str>,
}

/// The line for the temperature of a house, in the site's unit.
const fn temperature(units: System) -> &'static str {
    match units {
        System::Us => "house temperature: day ____ night ____ °F  humidity ____%",
        System::Metric => "house temperature: day ____ night ____ °C  humidity ____%",
    }
}

/// The meaning of the digits, printed once.
const SCALES: [&str; 4] = [
    "water 1 dry, 2 light, 3 medium, 4 heavy, 5 soaked: lift a pot, check its top",
    "roots, worst pot: 0 white, 1: up to 10% brown, 2: 25%, 3: 50%, 4: 75%, 5: more",
    "bracts 1 no color, 2 first color, 3 cyathia showing, 4 full color, no pollen,",
    "       5 first pollen, 6 pollen on every cyathium, 7 setting seed",
];

/// The sheet of a day; `None` when the season has no site yet.
pub fn build(season: &Season, on: NaiveDate, limits: &Limits) -> Option<Sheet> {
    let site = season.site()?;
    let trials = due_on_benches(season, on);
    let rows = season
        .benches()
        .iter()
        .filter_map(|bench| {
            let standing = season.standing(&bench.bench, on)?;
            let planted = season.lot(&standing.lot)?.planted;
            let plants = limits.round.pests_plants;
            let checks = due(season, &bench.bench, on, limits).into_iter().map(|c| printed(c, plants));
            Some(Row {
                house: bench.house.clone(),
                bench: bench.bench.clone(),
                week: (on - planted).num_days().max(0) / 7 + 1,
                lot: standing.lot,
                checks: checks.chain(plots(&trials, &bench.bench)).collect(),
                closed: season.closed_on(&bench.bench, on).map(|until| until.with_timezone(&site.time_zone)),
            })
        })
        .collect();
    let temperature = (!site.no_temperature).then(|| temperature(site.units));
    Some(Sheet { site: site.name.clone(), on, rows, temperature })
}

impl Sheet {
    /// The same, read at an instant: on its own day a bench whose closure is over by then is open. Of another day nothing
    /// changes.
    #[must_use]
    pub fn as_of(mut self, now: DateTime<Utc>) -> Self {
        let on = self.on;
        for row in &mut self.rows {
            let over = |until: &DateTime<Tz>| now.with_timezone(&until.timezone()).date_naive() == on && *until <= now;
            row.closed = row.closed.take().filter(|until| !over(until));
        }
        self
    }
}

/// The plots of trials that are to be read on a bench, as a piece of its line.
fn plots(trials: &[DueOn], bench: &str) -> Vec<(String, String)> {
    let on = |due: &DueOn| {
        let (_, plots) = due.benches.iter().find(|(code, _)| code == bench)?;
        Some((due.trial.clone(), format!("{} to read", words::plots(*plots))))
    };
    trials.iter().filter_map(on).collect()
}

/// A check by its name, with what is marked; one that a warning asks for is named so.
fn printed(check: Check, plants: u32) -> (String, String) {
    let (name, marks) = marked(check.what, plants);
    (if check.again.is_some() { format!("re-check: {name}") } else { name.to_owned() }, marks)
}

fn marked(check: CheckName, plants: u32) -> (&'static str, String) {
    match check {
        CheckName::Water => ("water", "1 2 3 4 5".to_owned()),
        CheckName::Base => ("base", "1 2 3 4 5".to_owned()),
        CheckName::Roots => ("roots", "0 1 2 3 4 5".to_owned()),
        CheckName::Reach => ("reach", "center wall base".to_owned()),
        CheckName::Bracts => ("bracts", "1 2 3 4 5 6 7".to_owned()),
        CheckName::Whitefly => ("whitefly", format!("___ of {plants}")),
        CheckName::Height => ("heights", "____ ____ ____ ____".to_owned()),
        CheckName::Climate => ("house temperature", "day ____ night ____".to_owned()),
    }
}

/// The sheet for an 80-column printer.
pub fn text(sheet: &Sheet) -> String {
    let mut out = format!("{}: the round of {}     walked by ______\n", sheet.site, dates::long(sheet.on));
    for scale in SCALES {
        out.push_str(&format!("  {scale}\n"));
    }
    let mut house = "";
    for row in &sheet.rows {
        if row.house != house {
            out.push_str(&format!("\n{}\n", row.house));
            if let Some(line) = sheet.temperature {
                out.push_str(&format!("  {line}\n"));
            }
            house = &row.house;
        }
        let head = format!("[ ] {:<6} {:<8} crop wk {:<3}", row.bench, row.lot, row.week);
        if let Some(until) = &row.closed {
            out.push_str(&format!(
                "{head} CLOSED (REI) until {} {}\n",
                dates::weekday(until.date_naive()),
                dates::time(until)
            ));
            continue;
        }
        let boxes = row.checks.iter().map(|(name, scale)| format!("{name} {scale}")).chain(["watered [ ]".to_owned()]);
        let hang = " ".repeat(head.chars().count());
        let mut line = head;
        for piece in boxes {
            if line.chars().count() + 2 + piece.chars().count() > 80 {
                out.push_str(&line);
                out.push('\n');
                line.clone_from(&hang);
            }
            line.push_str("  ");
            line.push_str(&piece);
        }
        out.push_str(&line);
        out.push('\n');
    }
    out.push_str(&format!("\nStay out of closed benches ({KEEP_OUT}).\nEnter this sheet with --on {}.\n", sheet.on));
    out
}

/// The sheet for the printer of the office.
pub fn html(sheet: &Sheet) -> String {
    let title = format!("{}: the round of {}", sheet.site, dates::long(sheet.on));
    let mut body = format!("<h1>{}</h1>\n<p>walked by ____________</p>\n", escape(&title));
    for scale in SCALES {
        body.push_str(&format!("<p class=\"soft\">{}</p>\n", escape(scale)));
    }
    let mut house = "";
    for row in &sheet.rows {
        if row.house != house {
            if !house.is_empty() {
                body.push_str("</table>\n");
            }
            body.push_str(&format!(
                "<h2>{}</h2>\n{}<table><tr><th scope=\"col\">bench</th><th scope=\"col\">lot, crop wk</th><th scope=\"col\">due</th></tr>\n",
                escape(&row.house),
                sheet.temperature.map_or_else(String::new, |line| format!("<p>{}</p>\n", escape(line)))
            ));
            house = &row.house;
        }
        let due = row.closed.as_ref().map_or_else(
            || {
                row.checks
                    .iter()
                    .fold(String::new(), |out, (name, scale)| format!("{out}<b>{name}</b> {scale} &emsp; "))
                    + "<span class=\"box\"></span>watered"
            },
            |until| format!("<b>CLOSED (REI)</b> until {} {}", dates::weekday(until.date_naive()), dates::time(until)),
        );
        body.push_str(&format!(
            "<tr><td><span class=\"box\"></span><b>{}</b></td><td>{}, {}</td><td>{due}</td></tr>\n",
            escape(&row.bench),
            escape(&row.lot),
            row.week
        ));
    }
    if !house.is_empty() {
        body.push_str("</table>\n");
    }
    body.push_str(&format!(
        "<p class=\"soft\">Stay out of closed benches ({KEEP_OUT}). Enter this sheet with --on {}.</p>\n",
        sheet.on
    ));
    page(&title, &body)
}
