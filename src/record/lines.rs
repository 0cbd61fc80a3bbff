//! The lines of the plan: one table row a field makes the struct, the field table, the values and the key of a line.
//!
//! A row reads `need` or `may`, the field's name and type, its form, its unit and its meaning; after it `label`, its name in
//! forms where that is another, and `fact` for a fact of the past, such as a planting day: a revision of it is taken for a
//! correction unless its writer says otherwise. A new field is its row here, its column in a migration, and the row of the form
//! that asks for it.
#![deny(clippy::wildcard_enum_match_arm)]

use super::field::{ANY, COUNT, Field, FieldKind, HOUSE, NAME, PPM, RecordSchema, SOME, term, terms_of};
use super::value::Values;
use super::{Before, Design, Entry, Nights, Pinch, Region, TrialReading};
use crate::dates::Tz;
use crate::units::System;
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use std::fmt;
use uuid::Uuid;

const LATITUDE: FieldKind = FieldKind::Number { least: -90.0, most: 90.0 };
const LONGITUDE: FieldKind = FieldKind::Number { least: -180.0, most: 180.0 };
const POT_CM: FieldKind = FieldKind::Number { least: 1.0, most: 200.0 };
const PLANT_CM: FieldKind = FieldKind::Number { least: 1.0, most: 500.0 };

/// Who writes a line of the plan before anybody said who they are.
pub const NOBODY: &str = "?";

/// What a line of the plan is about; lines of one key are revisions of one another. Reads as words: `lot R1`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LineKey(String);

impl fmt::Display for LineKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// When and by whom a line of the plan was written, and which lines of its key its writer had seen.
///
/// A line without `at` is of version 1: it holds for every day, and has seen the lines of its key with a lower `rev`.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// Number of the revision, from 1, of a line of version 1; 1 for all others.
    pub rev: u32,
    /// Its id where one was given; [`Line::id`] is there for every line.
    pub id: Option<Uuid>,
    /// When it was written; whole seconds, with the writer's own offset.
    pub at: Option<DateTime<FixedOffset>>,
    /// Who wrote it, 1-8 characters.
    pub by: Option<String>,
    /// Ids of the lines of its key that it takes the place of, ascending. `None` in a line written by hand: it takes the
    /// place of all that stand before it.
    pub replaces: Option<Vec<Uuid>>,
    /// True where it mends a fact of the past: what it changes then holds for every day.
    pub corrects: bool,
}

impl Revision {
    /// A line of version 1.
    pub const fn number(rev: u32) -> Self {
        Self { rev, id: None, at: None, by: None, replaces: None, corrects: false }
    }

    fn values(&self, values: &mut Values) {
        values.set_some("rev", &self.rev);
        values.set_some("id", &self.id);
        values.set_some("at", &self.at);
        values.set_some("by", &self.by);
        values.set_some("replaces", &self.replaces);
        values.set_some("corrects", &self.corrects);
    }

    fn of(values: &Values) -> Option<Self> {
        let mut replaces: Option<Vec<Uuid>> = values.take("replaces")?;
        if let Some(list) = &mut replaces {
            list.sort_unstable();
            list.dedup();
        }
        Some(Self {
            rev: values.take::<Option<u32>>("rev")?.unwrap_or(1),
            id: values.take("id")?,
            at: values.take("at")?,
            by: values.take("by")?,
            replaces,
            corrects: values.take("corrects")?,
        })
    }
}

impl Default for Revision {
    fn default() -> Self {
        Self::number(1)
    }
}

/// What every line of the plan has beside its own fields.
pub(in crate::record) static REVISION: RecordSchema = RecordSchema {
    name: "revision",
    fields: &[
        Field::may(
            "rev",
            FieldKind::Count { least: 1, most: ANY },
            "",
            "revision of a line without at, 1 when left out",
        ),
        Field::may("id", FieldKind::Id, "", "unique; made from the content when left out"),
        Field::may("at", FieldKind::Instant, "", "when it was written"),
        Field::may("by", FieldKind::By, "", "who wrote it"),
        Field::may(
            "replaces",
            FieldKind::Ids,
            "",
            "ids of the lines it takes the place of; all before it when left out",
        ),
        Field::may("corrects", FieldKind::YesNo, "", "true where it mends a fact of the past, for every day"),
    ],
};

macro_rules! lines {
    ($(
        $(#[$doc:meta])*
        $line:ident in $lines:ident, $name:literal, $table:ident, key($($key:ident),*) $words:literal {
            $($needed:ident $field:ident: $type:ty, $form:expr, $unit:literal, $meaning:literal $(, $more:ident $($arg:literal)?)*;)+
        }
    )+) => {
        $(
            $(#[$doc])*
            #[derive(Debug, Clone, PartialEq)]
            pub struct $line {
                $(
                    #[doc = $meaning]
                    pub $field: $type,
                )+
                /// When and by whom it was written.
                pub revision: Revision,
            }

            static $table: RecordSchema = RecordSchema {
                name: $name,
                fields: &[$(Field::$needed(stringify!($field), $form, $unit, $meaning)$(.$more($($arg)?))*,)+],
            };
        )+

        /// One line of a journal after its first.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Line {
            $($(#[$doc])* $line($line),)+
            /// A finding or work.
            Entry(Entry),
        }

        /// Every plan line kept, all revisions.
        #[derive(Debug, Clone, PartialEq, Default)]
        pub struct Plan {
            $(
                /// All revisions of these lines.
                pub $lines: Vec<$line>,
            )+
        }

        /// The plan's line types, in the order they are written.
        pub(in crate::record) static TABLES: &[&RecordSchema] = &[$(&$table),+];

        impl Line {
            /// Its type, as the journal names it.
            pub const fn type_name(&self) -> &'static str {
                match self {
                    $(Self::$line(_) => $name,)+
                    Self::Entry(_) => "entry",
                }
            }

            /// What it is about: lines of the plan with one key are revisions of one another; an entry is alone under its own.
            pub fn key(&self) -> LineKey {
                match self {
                    $(Self::$line(_l) => LineKey(format!($words, $($key = _l.$key),*)),)+
                    Self::Entry(entry) => LineKey(format!("entry {}", entry.id)),
                }
            }

            /// When and by whom it was written, of a line of the plan.
            pub const fn revision(&self) -> Option<&Revision> {
                match self {
                    $(Self::$line(line) => Some(&line.revision),)+
                    Self::Entry(_) => None,
                }
            }

            /// The same, to be set.
            pub const fn revision_mut(&mut self) -> Option<&mut Revision> {
                match self {
                    $(Self::$line(line) => Some(&mut line.revision),)+
                    Self::Entry(_) => None,
                }
            }

            /// The own fields of a line of the plan; none for an entry.
            pub fn content(&self) -> Values {
                let mut values = Values::new();
                match self {
                    $(Self::$line(line) => { $(values.set_some(stringify!($field), &line.$field);)+ })+
                    Self::Entry(_) => {}
                }
                values
            }
        }

        impl Plan {
            /// Keeps a line. An entry is no part of a plan: it is given back.
            pub fn keep(&mut self, line: Line) -> Option<Entry> {
                match line {
                    $(Line::$line(line) => self.$lines.push(line),)+
                    Line::Entry(entry) => return Some(entry),
                }
                None
            }

            /// Every line, by type.
            pub fn lines(&self) -> Vec<Line> {
                let mut all = Vec::new();
                $(all.extend(self.$lines.iter().cloned().map(Line::$line));)+
                all
            }
        }

        /// The line of this type with these values; `None` where they do not fit it.
        pub(in crate::record) fn line_of(name: &str, values: &Values) -> Option<Line> {
            Some(match name {
                $($name => Line::$line($line {
                    $($field: values.take(stringify!($field))?,)+
                    revision: Revision::of(values)?,
                }),)+
                _ => return None,
            })
        }
    };
}

impl Line {
    /// The fields of a line of the plan, its revision's among them; none for an entry.
    pub(in crate::record) fn plan_values(&self) -> Values {
        let mut values = self.content();
        if let Some(revision) = self.revision() {
            revision.values(&mut values);
        }
        values
    }

    /// Lines of the plan stand by instant and id, those of version 1 before all others by their number and content.
    pub fn order(&self) -> (Option<DateTime<Utc>>, u32, Uuid) {
        let revision = self.revision();
        (revision.and_then(|r| r.at).map(|at| at.to_utc()), revision.map_or(1, |r| r.rev), self.id())
    }
}

lines! {
    /// The place of the season: one site, one file.
    Site in sites, "site", SITE, key() "the site" {
        need name: String, NAME, "", "the site's name", fact;
        need latitude: f64, LATITUDE, "degrees", "north positive", fact;
        need longitude: f64, LONGITUDE, "degrees", "east positive", fact;
        need time_zone: Tz, FieldKind::Zone, "", "IANA time zone", fact, label "time zone";
        need units: System, term::<System>(), "", "what the site reads and types", fact;
        may region: Region, term::<Region>(), "", "fall climate, cool when left out", fact, label "fall climate";
        may low_light_houses: Vec<String>, FieldKind::Texts { most: 24 }, "", "houses with little light, which dry slowly", label "low-light houses",
            was "dull_houses";
        may emergency: Option<String>, FieldKind::Text { most: 500 }, "", "shown with the cautions", label "emergency note";
        may no_temperature: bool, FieldKind::YesNo, "", "true where the walk does not ask for the temperature of a house",
            label "skip house temp";
    }

    /// Plants of one cultivar, one container and one planting date.
    Lot in lots, "lot", LOT, key(lot) "lot {lot}" {
        need lot: String, FieldKind::Code, "", "its code", label "code";
        need cultivar: String, NAME, "", "color and response, in words", fact;
        need container: String, NAME, "", "the container, in words", fact;
        may rim_cm: Option<f64>, POT_CM, "cm", "pot diameter at the rim", fact, label "pot diameter";
        may pot_height_cm: Option<f64>, POT_CM, "cm", "height of the pot", fact, label "pot height";
        need cuttings_per_pot: u32, FieldKind::Count { least: 1, most: 100 }, "", "cuttings in one pot", fact, label "cuttings per pot";
        need pots: u32, SOME, "", "pots of the lot";
        need planted: NaiveDate, FieldKind::Day, "", "day 0 of the crop", fact;
        need pinch: Pinch, term::<Pinch>(), "", "the pinch planned";
        need response_weeks: f64, FieldKind::Number { least: 4.0, most: 20.0 }, "weeks", "short days to first pollen", fact, label "response weeks";
        may response_c: Option<f64>, FieldKind::Number { least: 16.0, most: 24.0 }, "°C",
            "mean of day and night at which the response weeks hold; 21.1 °C (70 °F) when left out", fact, label "response temp";
        need nights: Nights, term::<Nights>(), "", "how it gets short days", label "short days by";
        may blackout_from: Option<NaiveDate>, FieldKind::Day, "", "first evening under black cloth", label "black cloth from";
        may lights_until: Option<NaiveDate>, FieldKind::Day, "", "last evening with lights", label "lights until";
        may height_low_cm: Option<f64>, PLANT_CM, "cm", "minimum finished height, pot included", label "finished ht, min";
        may height_high_cm: Option<f64>, PLANT_CM, "cm", "maximum finished height, pot included", label "finished ht, max";
        need ready_by: NaiveDate, FieldKind::Day, "", "the sale", label "ready by";
        may feed_n_ppm: Option<f64>, PPM, "ppm", "N of constant feed and water together", label "feed N";
        may feed_mg_ppm: Option<f64>, PPM, "ppm", "Mg of constant feed and water together", label "feed Mg";
        may feed_mo_ppm: Option<f64>, PPM, "ppm", "Mo of constant feed and water together", label "feed Mo";
        may slow_release_g: Option<f64>, FieldKind::Number { least: 0.0, most: 1_000.0 }, "g", "slow-release per pot at planting", fact, label "slow release";
        may calcium: bool, FieldKind::YesNo, "", "true where calcium sprays are wanted", label "calcium sprays";
        may program_n_ppm: Option<f64>, FieldKind::Number { least: 1.0, most: 100_000.0 }, "ppm", "N of the feed program, feed and water together",
            label "feed program, N";
        may program_bag: Option<String>, NAME, "", "the fertilizer of the feed program, as on its bag", label "its bag";
        may program_from: Option<NaiveDate>, FieldKind::Day, "", "first feeding day of the feed program", label "its first day";
        may program_days: Option<u32>, FieldKind::Count { least: 1, most: 60 }, "days",
            "days from one feeding of the program to the next; at every watering when left out", label "every, days";
        may program_clear: Option<u32>, FieldKind::Count { least: 2, most: 20 }, "",
            "every so manieth feeding of the program is clear water; none when left out", label "clear every";
        may next_release_g: Option<f64>, FieldKind::Number { least: 0.0, most: 1_000.0 }, "g",
            "slow-release per pot for the next season's crop", label "next season";
        may next_release_basis: Option<String>, NAME, "", "what that amount goes by, such as a trial", label "by";
    }

    /// What was done to a lot before its record began; what is left out is not known.
    LotHistory in histories, "history", HISTORY, key(lot) "the history of lot {lot}" {
        need lot: String, FieldKind::Code, "", "the lot", fact;
        may pinch: Option<Before>, term::<Before>(), "", "whether it was pinched before the record began", fact;
        may pinched_on: Option<NaiveDate>, FieldKind::Day, "", "the day of that pinch", fact, label "pinched on";
        may feed: Option<Before>, term::<Before>(), "", "whether it was fed before the record began", fact, label "feeding";
        may fed_last: Option<NaiveDate>, FieldKind::Day, "", "the last day of that feeding", fact, label "last fed";
        may magnesium: Option<Before>, term::<Before>(), "", "whether magnesium was given before the record began", fact;
        may magnesium_on: Option<NaiveDate>, FieldKind::Day, "", "the last day of that magnesium", fact, label "magnesium on";
        may molybdenum: Option<Before>, term::<Before>(), "", "whether molybdenum was given before the record began", fact;
        may molybdenum_on: Option<NaiveDate>, FieldKind::Day, "", "the day of that molybdenum", fact, label "molybdenum on";
        may regulator: Option<Before>, term::<Before>(), "", "whether a growth regulator was applied before the record began",
            fact, label "growth regulator";
        may regulator_on: Option<NaiveDate>, FieldKind::Day, "", "the last day of that growth regulator", fact, label "applied on";
        may regulator_used: Option<String>, NAME, "", "which growth regulator it was, in words", fact, label "which one";
    }

    /// The smallest place that is scored.
    Bench in benches, "bench", BENCH, key(bench) "bench {bench}" {
        need bench: String, FieldKind::Code, "", "its code";
        need house: String, HOUSE, "", "the house it stands in", fact;
        need order: u32, COUNT, "", "its place in the walk", label "walking order";
        may area_m2: Option<f64>, FieldKind::Number { least: 0.01, most: 100_000.0 }, "m2", "its area", fact, label "area";
    }

    /// Where pots are first placed; 0 pots in a later revision removes it.
    Placement in placements, "placement", PLACEMENT, key(bench, from) "the placement on bench {bench} from {from}" {
        need bench: String, FieldKind::Code, "", "the bench";
        need lot: String, FieldKind::Code, "", "the lot", fact;
        need pots: u32, COUNT, "", "pots placed; 0 in a later revision removes it", fact;
        need from: NaiveDate, FieldKind::Day, "", "the day", label "date";
    }

    /// Pots committed for a day.
    Order in orders, "order", ORDER, key(lot, date) "the order of lot {lot} for {date}" {
        need lot: String, FieldKind::Code, "", "the lot";
        need date: NaiveDate, FieldKind::Day, "", "the day committed", label "date";
        need pots: u32, COUNT, "", "pots committed; 0 in a later revision removes it";
    }

    /// A trial on the benches: what is compared, how places were given, what is read and when.
    Trial in trials, "trial", TRIAL, key(trial) "trial {trial}" {
        need trial: String, FieldKind::Code, "", "its code, 1 to 10 letters, digits or -", label "code";
        need lot: String, FieldKind::Code, "", "the lot it is made with", fact;
        need question: String, NAME, "", "what it asks, in words";
        need treatments: Vec<String>, FieldKind::Texts { most: 16 }, "", "what is compared, 2 to 24 treatments", fact;
        may rates: Option<Vec<f64>>, FieldKind::Numbers { least: 0.0, most: 1_000_000.0 }, "", "a rate for each treatment, ascending, where they are rates of one thing", fact;
        may rate_unit: Option<String>, FieldKind::Text { most: 16 }, "", "the unit of the rates, such as g per pot", fact, label "rates in";
        may control: Option<String>, FieldKind::Text { most: 16 }, "", "the treatment that the others are compared with";
        need design: Design, term::<Design>(), "", "how the plots got their places", fact;
        may seed: Option<String>, FieldKind::Text { most: 8 }, "", "the number the layout was drawn with, 8 digits", fact;
        may drawn: Option<u32>, FieldKind::Count { least: 1, most: 1_000 }, "", "how often it was drawn before one was taken; once when left out", fact;
        need reads: Vec<TrialReading>, terms_of::<TrialReading>(), "", "what is read of each plot, the main reading first", label "readings";
        may every_days: Option<u32>, FieldKind::Count { least: 1, most: 60 }, "days", "days from one reading to the next, 7 when left out", label "every, days";
        need from: NaiveDate, FieldKind::Day, "", "the first day of readings", label "first reading";
        may until: Option<NaiveDate>, FieldKind::Day, "", "the last day of readings", label "last reading";
        may matters: Option<f64>, FieldKind::Number { least: 0.0, most: 100_000.0 }, "", "the difference that matters, in the unit of the main reading", label "matters";
        may guard: bool, FieldKind::YesNo, "", "true where a ring of guard pots stands around the plots", label "guard pots";
        may near_side: Option<String>, HOUSE, "", "what lies beside the first column, such as aisle", label "first column by";
        may far_side: Option<String>, HOUSE, "", "what lies beside the last column, such as wall", label "last column by";
        may shared_feed: bool, FieldKind::YesNo, "", "true where feed runs together on the bench", label "shared feed";
        may ended_because: Option<String>, NAME, "", "why it ended before it was planned to", label "ended because";
    }

    /// An experimental unit of a trial: a pot or a group of pots that got one treatment by its own draw.
    Plot in plots, "plot", PLOT, key(plot) "plot {plot}" {
        need plot: String, FieldKind::Plot, "", "its code: the trial's, a point and its number in walking order";
        need trial: String, FieldKind::Code, "", "the trial";
        need bench: String, FieldKind::Code, "", "the bench it stands on";
        need row: u32, FieldKind::Count { least: 1, most: 1_000 }, "", "its row on the bench";
        need column: u32, FieldKind::Count { least: 1, most: 1_000 }, "", "its column on the bench";
        may block: Option<u32>, FieldKind::Count { least: 1, most: 1_000 }, "", "its block";
        need treatment: String, FieldKind::Text { most: 16 }, "", "its treatment", fact;
        need pots: u32, SOME, "", "its pots";
    }
}

impl Trial {
    /// Days from one reading to the next.
    pub fn every(&self) -> u32 {
        self.every_days.unwrap_or(EVERY_DAYS)
    }

    /// The rate of a treatment; `None` without rates.
    pub fn rate(&self, treatment: &str) -> Option<f64> {
        self.rates.as_ref()?.get(self.treatment(treatment)?).copied()
    }

    /// True where its rates are grams of slow-release per pot.
    pub fn rates_are_grams(&self) -> bool {
        let unit = self.rate_unit.as_deref().map(|unit| unit.trim().to_lowercase());
        self.rates.is_some() && unit.is_some_and(|unit| GRAMS.contains(&unit.as_str()))
    }

    /// Which of its treatments this is.
    pub fn treatment(&self, name: &str) -> Option<usize> {
        self.treatments.iter().position(|treatment| treatment == name)
    }
}

/// How grams per pot are written as the unit of rates.
const GRAMS: [&str; 3] = ["g per pot", "g/pot", "g"];

/// A trial is read once a week where nothing else is said (common practice, no source).
const EVERY_DAYS: u32 = 7;

impl Plot {
    /// Its number in the trial, in walking order.
    pub fn number(&self) -> u32 {
        self.plot.rsplit_once('.').and_then(|(_, number)| number.parse().ok()).unwrap_or(0)
    }
}

impl LotHistory {
    /// The fields that say more of work that was done before the record began: the work's field, then the field of its day, or of
    /// which one it was. They go only with work that was done.
    pub const DETAILS: [(&'static str, &'static str); 6] = [
        ("pinch", "pinched_on"),
        ("feed", "fed_last"),
        ("magnesium", "magnesium_on"),
        ("molybdenum", "molybdenum_on"),
        ("regulator", "regulator_on"),
        ("regulator", "regulator_used"),
    ];
}
