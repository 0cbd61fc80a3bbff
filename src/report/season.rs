//! The season on one page: every lot's calendar, the nights, the pots, what stands where, and the charts of the benches that are
//! asked for. As text here, as HTML in `html`.

use super::chart::Chart;
use super::series::{self, HouseClimate, LotCalendar, LotPots, Nights, Reach, Topic};
use super::trial;
use crate::compare::LastYear;
use crate::dates;
use crate::limits::Limits;
use crate::mix::cautions::APPLICATION_RECORD;
use crate::record::Site;
use crate::season::Season;
use crate::trials::{Readings, Rules};
use chrono::NaiveDate;

/// The benches whose own charts are drawn.
#[derive(Debug, Clone, Copy)]
pub enum Charted<'a> {
    /// None: what stands where is a table.
    None,
    /// Every bench with pots.
    All,
    /// Those of these with pots.
    Of(&'a [String]),
}

impl Charted<'_> {
    fn holds(self, bench: &str) -> bool {
        match self {
            Self::None => false,
            Self::All => true,
            Self::Of(benches) => benches.iter().any(|one| one == bench),
        }
    }
}

/// One bench with pots.
#[derive(Debug, Clone)]
pub struct StandingBench {
    /// Its code.
    pub bench: String,
    /// The lot on it.
    pub lot: String,
    /// How many pots.
    pub pots: u32,
    /// The charts with data; `None` where they were not asked for.
    pub charts: Option<Vec<(Topic, Chart)>>,
}

impl StandingBench {
    /// What stands on it.
    pub fn stands(&self) -> String {
        format!("lot {}, {} pots", self.lot, self.pots)
    }
}

/// What a season's report is made from.
#[derive(Debug, Clone)]
pub struct SeasonReport {
    /// The site.
    pub site: Site,
    /// The day of the report.
    pub on: NaiveDate,
    /// Every lot's calendar.
    pub calendars: Vec<LotCalendar>,
    /// The days all calendars cover.
    pub days: (NaiveDate, NaiveDate),
    /// The night curve; `None` where the sun of the place is not known.
    pub nights: Option<Nights>,
    /// The climate of the houses that have a logger.
    pub climate: Vec<HouseClimate>,
    /// Pots by lot.
    pub pots: Vec<LotPots>,
    /// The benches with pots, in walking order.
    pub benches: Vec<StandingBench>,
    /// The trials, each read up to that day.
    pub trials: Vec<trial::Report>,
    /// Treatments that close benches were logged.
    pub treated: bool,
    /// The source of the limits.
    pub limits: String,
    /// The file of last year that is drawn in the charts, and how it was chosen.
    pub last_year: Option<String>,
}

/// Builds the report with the charts of these benches; `None` when the season has no site or no lot.
pub fn build(
    season: &Season,
    on: NaiveDate,
    (limits, limits_name): (&Limits, String),
    charted: Charted<'_>,
) -> Option<SeasonReport> {
    let benches = season.benches();
    let standing = benches.iter().filter_map(|b| season.standing(&b.bench, on).map(|s| (b.bench.as_str(), s)));
    Some(SeasonReport {
        site: season.site()?.clone(),
        on,
        calendars: series::calendar(season, on, limits),
        days: series::season_days(season)?,
        nights: series::nights(season, limits),
        climate: series::climate(season, on, limits),
        pots: series::pots(season, on),
        benches: standing
            .map(|(bench, s)| StandingBench {
                bench: bench.to_owned(),
                lot: s.lot,
                pots: s.pots,
                charts: charted.holds(bench).then(|| charts(season, bench, on, limits)),
            })
            .collect(),
        trials: trials(season, on, Rules::of(limits)),
        treated: season.entries().iter().any(|entry| entry.day() <= on && entry.kind.re_entry_h().is_some()),
        limits: limits_name,
        last_year: None,
    })
}

impl SeasonReport {
    /// Draws last year's lots into the charts of the benches.
    #[must_use]
    pub fn with_last_year(mut self, season: &Season, last: &LastYear) -> Self {
        for bench in &mut self.benches {
            if let Some(charts) = &mut bench.charts {
                series::with_last_year(season, (&bench.bench, self.on), last, charts);
            }
        }
        self.last_year = Some(super::compare::file(last));
        self
    }
}

/// The trials of which anything was read.
pub(super) fn trials(season: &Season, on: NaiveDate, rules: Rules) -> Vec<trial::Report> {
    let Some(site) = season.site() else { return Vec::new() };
    let of = |of: &crate::record::Trial| {
        let readings = Readings::of(season, &of.trial, on)?;
        let report = trial::Report::of(&readings, (None, false), rules, (&site.name, site.units));
        report.found.data.is_some().then_some(report)
    };
    season.trials().into_iter().filter_map(of).collect()
}

fn charts(season: &Season, bench: &str, on: NaiveDate, limits: &Limits) -> Vec<(Topic, Chart)> {
    let days = series::days(season, bench, (Reach::Season, on));
    // What the logger of a house gave is shown once, with the house.
    let own = series::has_own_logger(season, bench, on);
    let all = series::every(season, bench, on, days, limits).into_iter();
    all.filter(|(topic, chart)| (own || *topic != Topic::Climate) && topic.has_readings(chart)).collect()
}

/// The report as text, for reading in a terminal.
pub fn text(report: &SeasonReport) -> String {
    let mut out = format!("{}, season as of {}\nlimits: {}\n", report.site.name, dates::long(report.on), report.limits);
    out.extend(report.last_year.iter().map(|file| format!("last year: {file}\n")));
    for calendar in &report.calendars {
        out.push_str(&format!("\n{}  {}\n", calendar.lot, calendar.title));
        for step in &calendar.steps {
            out.push_str(&format!("  {:<18} {:<9} {}\n", step.name, step.state.word(), step.words));
        }
        if let Some(by) = &calendar.forecast {
            out.push_str(&format!("  {:<18} {by}\n", "color forecast"));
        }
    }
    if let Some(nights) = &report.nights {
        out.push('\n');
        lines(&nights.chart.text, &mut out);
    }
    for house in &report.climate {
        out.push('\n');
        lines(&house.chart.text, &mut out);
    }
    if !report.pots.is_empty() {
        out.push_str("\npots              placed  lost/dumped   sold  on bench  committed\n");
    }
    for pots in &report.pots {
        out.push_str(&format!(
            "{:<16}{:>8}{:>13}{:>7}{:>10}{:>11}  {}\n",
            pots.lot,
            pots.placed,
            pots.lost + pots.dumped,
            pots.sold,
            pots.standing,
            pots.committed,
            pots.left_text()
        ));
    }
    for bench in &report.benches {
        out.push_str(&format!("\n{}  {}\n", bench.bench, bench.stands()));
        for (_, chart) in bench.charts.iter().flatten() {
            lines(&chart.text, &mut out);
        }
    }
    if report.treated {
        out.push('\n');
        lines(APPLICATION_RECORD, &mut out);
    }
    out
}

/// A text in lines of 78 characters at most, indented by two blanks.
fn lines(text: &str, out: &mut String) {
    const WIDE: usize = 78;
    let mut used = 0;
    for word in text.split_whitespace() {
        if used > 0 && used + 1 + word.chars().count() > WIDE {
            out.push('\n');
            used = 0;
        }
        out.push_str(if used == 0 { "  " } else { " " });
        out.push_str(word);
        used += word.chars().count() + if used == 0 { 2 } else { 1 };
    }
    out.push('\n');
}
