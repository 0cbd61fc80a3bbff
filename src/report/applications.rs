//! The application record: one line a treatment with what the federal rules ask for, blanks marked MISSING.

use super::chart::Table;
use super::html;
use crate::dates;
use crate::record::{Kind, Term};
use crate::season::{Season, Treatment};
use crate::units::{Area, Quantity, plain};
use chrono::NaiveDate;

/// What stands where something was not logged.
pub const MISSING: &str = "MISSING";

/// Where the list of fields comes from, and what it is not.
pub const SOURCE: [&str; 3] = [
    "Fields: what the federal Worker Protection Standard (40 CFR part 170) asks for as application-specific information \
     (product, EPA registration number, active ingredient, crop or site treated, location, date, times of start and end, \
     restricted-entry interval), and the federal recordkeeping rule for restricted-use pesticides (7 CFR part 110: also total \
     amount, size of the area, name and certification number of the certified applicator).",
    "Your state may ask for more, or for another form. The product label and federal, state and local rules decide; this list \
     is only as complete as what was logged.",
    "A license or certification number is asked for where the product is a restricted-use pesticide; this program does not know \
     which are.",
];

/// One column: its name in a table for spreadsheets.
const COLUMNS: [&str; 18] = [
    "date",
    "start",
    "end",
    "product",
    "EPA reg. no.",
    "active ingredient",
    "crop or site treated",
    "location",
    "area",
    "amount used",
    "REI, h",
    "open from",
    "applicator",
    "license",
    "against",
    "method",
    "rate",
    "logged by",
];

/// A treatment as it is printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    day: NaiveDate,
    start: Option<String>,
    end: String,
    product: Option<String>,
    epa_reg_no: Option<String>,
    ingredient: String,
    crop: Option<String>,
    location: String,
    area: Option<String>,
    amount: Option<String>,
    rei: String,
    open_from: String,
    applicator: Option<String>,
    license: Option<String>,
    against: String,
    method: &'static str,
    rate: String,
    by: String,
}

/// The record of a span of days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Record {
    /// The name of the site.
    pub site: String,
    /// The first and the last day.
    pub days: (NaiveDate, NaiveDate),
    /// A line a treatment, in the order of their ends.
    pub lines: Vec<Line>,
}

/// The treatments of a span of days, as the record stands at the end of a day; `None` without a site.
pub fn build(season: &Season, days: (NaiveDate, NaiveDate), day: NaiveDate) -> Option<Record> {
    let site = season.site()?;
    let treatments = season.treatments(days, day);
    let lines = treatments.iter().filter_map(|treatment| Line::of(treatment, season)).collect();
    Some(Record { site: site.name.clone(), days, lines })
}

/// The whole record as it stands at the end of a day; `None` without a site.
pub fn whole(season: &Season, day: NaiveDate) -> Option<Record> {
    let first = season.entries().first().map_or(day, crate::record::Entry::day);
    build(season, (first.min(day), day), day)
}

impl Line {
    fn of(treatment: &Treatment<'_>, season: &Season) -> Option<Self> {
        let entry = treatment.entry()?;
        let of = treatment.application()?;
        let site = season.site()?;
        let (at, zone) = (entry.at.with_timezone(&site.time_zone), site.time_zone);
        let start = of.started_at.map(|start| {
            let start = start.with_timezone(&zone);
            let day = start.date_naive();
            let time = dates::time(&start);
            if day == at.date_naive() { time } else { format!("{} {time}", dates::short(day)) }
        });
        let open_from = treatment.open_from().map(|until| {
            let until = until.with_timezone(&zone);
            format!("{} {}", dates::weekday(until.date_naive()), dates::time(&until))
        });
        let (ingredient, against, method, rate, product) = match &*entry.kind {
            Kind::GrowthRegulator { parts, how, rate, product, .. } => {
                let names = parts.iter().map(|part| part.ai.as_str()).collect::<Vec<_>>().join(" + ");
                let ppm = parts.iter().map(|part| format!("{} ppm", plain(part.ppm))).collect::<Vec<_>>().join(" + ");
                let rate = [Some(ppm), rate.clone()].into_iter().flatten().collect::<Vec<_>>().join(", ");
                (names, "height (growth regulator)".to_owned(), how.text(), rate, product)
            }
            Kind::Sprayed { ai, against, how, rate, product, .. } => {
                (ai.clone(), against.clone(), how.text(), rate.clone().unwrap_or_default(), product)
            }
            _ => return None,
        };
        Some(Self {
            day: at.date_naive(),
            start,
            end: dates::time(&at),
            product: product.clone(),
            epa_reg_no: of.epa_reg_no.clone(),
            ingredient,
            crop: of.target.clone().or_else(|| crop(treatment, season)),
            location: treatment.site(season),
            area: of.area_m2.map(|m2| Area::from_m2(m2).show(site.units)),
            amount: of.amount_used.clone(),
            rei: entry.kind.re_entry_h().map(plain).unwrap_or_default(),
            open_from: open_from.unwrap_or_default(),
            applicator: of.applicator.clone(),
            license: of.license.clone(),
            against,
            method,
            rate,
            by: entry.by.to_string(),
        })
    }

    /// How many of what the federal rules ask for are blank.
    pub fn missing(&self) -> usize {
        let asked = [
            &self.start,
            &self.product,
            &self.epa_reg_no,
            &self.crop,
            &self.area,
            &self.amount,
            &self.applicator,
            &self.license,
        ];
        asked.into_iter().filter(|value| value.is_none()).count()
    }

    /// All on one line, each with its name where it does not speak for itself.
    pub fn text(&self) -> String {
        [self.when(), self.what(), self.treated(), self.used(), self.restricted(), self.person(), self.purpose()]
            .join("; ")
    }

    fn when(&self) -> String {
        format!("{} {} to {}", self.day.format("%Y-%m-%d"), named("start", self.start.as_ref()), self.end)
    }

    fn what(&self) -> String {
        let product = named("product", self.product.as_ref());
        format!("{product}, EPA reg. no. {}, {}", or_missing(self.epa_reg_no.as_ref()), self.ingredient)
    }

    fn treated(&self) -> String {
        format!("{}; {}", named("crop", self.crop.as_ref()), self.location)
    }

    fn used(&self) -> String {
        format!("area {}, amount {}", or_missing(self.area.as_ref()), or_missing(self.amount.as_ref()))
    }

    fn restricted(&self) -> String {
        let open = if self.open_from.is_empty() { String::new() } else { format!(", open from {}", self.open_from) };
        format!("REI {} h{open}", self.rei)
    }

    fn person(&self) -> String {
        let applicator = or_missing(self.applicator.as_ref());
        format!("applicator {applicator}, license {}, logged by {}", or_missing(self.license.as_ref()), self.by)
    }

    fn purpose(&self) -> String {
        let rate = if self.rate.is_empty() { String::new() } else { format!(", {}", self.rate) };
        format!("{}, against {}{rate}", self.method, self.against)
    }

    fn cells(&self) -> [String; 18] {
        [
            self.day.format("%Y-%m-%d").to_string(),
            or_missing(self.start.as_ref()),
            self.end.clone(),
            or_missing(self.product.as_ref()),
            or_missing(self.epa_reg_no.as_ref()),
            self.ingredient.clone(),
            or_missing(self.crop.as_ref()),
            self.location.clone(),
            or_missing(self.area.as_ref()),
            or_missing(self.amount.as_ref()),
            self.rei.clone(),
            self.open_from.clone(),
            or_missing(self.applicator.as_ref()),
            or_missing(self.license.as_ref()),
            self.against.clone(),
            self.method.to_owned(),
            self.rate.clone(),
            self.by.clone(),
        ]
    }
}

/// A line in two: when and what, and all else.
pub fn text_of(line: &Line) -> [String; 2] {
    let rest = [line.treated(), line.used(), line.restricted(), line.person(), line.purpose()].join("; ");
    [format!("{}  {}", line.when(), line.what()), rest]
}

/// The crop by the plan, where no words were typed for it.
fn crop(treatment: &Treatment<'_>, season: &Season) -> Option<String> {
    let lots = treatment.lots(season);
    let word = if lots.len() == 1 { "lot" } else { "lots" };
    (!lots.is_empty()).then(|| format!("poinsettia, {word} {}", lots.join(" ")))
}

fn or_missing(value: Option<&String>) -> String {
    value.map_or(MISSING, String::as_str).to_owned()
}

/// The value, or its name where it is missing: `start MISSING`.
fn named(name: &str, value: Option<&String>) -> String {
    value.cloned().unwrap_or_else(|| format!("{name} {MISSING}"))
}

impl Record {
    fn title(&self) -> String {
        format!("Application record: {}, {}", self.site, dates::range(self.days.0, self.days.1))
    }

    /// How many lines have blanks.
    pub fn summary(&self) -> String {
        let blank = self.lines.iter().filter(|line| line.missing() > 0).count();
        match (self.lines.len(), blank) {
            (0, _) => "No growth regulator or spray is logged for these days.".to_owned(),
            (1, 0) => "1 treatment, nothing missing.".to_owned(),
            (1, _) => format!("1 treatment, with blanks marked {MISSING}."),
            (all, 0) => format!("{all} treatments, nothing missing."),
            (all, some) => format!("{all} treatments, {some} with blanks marked {MISSING}."),
        }
    }
}

/// As text: one line a treatment.
pub fn text(record: &Record) -> String {
    let mut out = format!("{}\n{}\n\n", record.title(), record.summary());
    for line in &record.lines {
        out.push_str(&line.text());
        out.push('\n');
    }
    if !record.lines.is_empty() {
        out.push('\n');
    }
    for source in SOURCE {
        super::layout::wrap(&mut out, "", source);
    }
    out
}

/// As rows of a table for spreadsheets, the names of the columns first.
pub fn rows(record: &Record) -> Vec<Vec<String>> {
    let heads = COLUMNS.into_iter().map(str::to_owned).collect();
    [heads].into_iter().chain(record.lines.iter().map(|line| line.cells().to_vec())).collect()
}

/// As a page to print or send.
pub fn html(record: &Record) -> String {
    let heads = ["when", "product", "treated", "area and amount", "REI", "applicator", "how"];
    let rows = record.lines.iter().map(|line| {
        vec![line.when(), line.what(), line.treated(), line.used(), line.restricted(), line.person(), line.purpose()]
    });
    let title = record.title();
    let mut body = format!("<h1>{}</h1>\n<p>{}</p>\n", html::escape(&title), html::escape(&record.summary()));
    if !record.lines.is_empty() {
        let table = Table { heads: heads.map(str::to_owned).to_vec(), rows: rows.collect() };
        body.push_str(&html::table("One line a treatment", &table));
    }
    for source in SOURCE {
        body.push_str(&format!("<p class=\"soft\">{}</p>\n", html::escape(source)));
    }
    html::page(&title, &body)
}
