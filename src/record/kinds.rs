//! Every kind of entry: one row makes its variant of [`Kind`], its names, its fields for files and forms, and the way
//! between the record and its values.
//!
//! A row reads: the kind's number in the season file (never changed, never used again), its variant, its name in files, how
//! it reads, `Finding` (seen) or `Work` (done), and its place among the forms offered (`None`: it has no form of its own).
//! Then a field a line: `need` or `may`, name, type, form, unit and meaning, and what else there is to say of it: `label` in
//! the forms, `was` in version 1 of the journal, `named` where the journal's name is another, `unasked` where no form asks for
//! it. After them `of` names fields that are kept together in one value, `closes` the field with the hours that people
//! are kept out, `rule` what must hold between the fields.
//!
//! A new kind is its row here, its line in the log's words (`report::entry`) and a view in a migration.
#![deny(clippy::wildcard_enum_match_arm)]

use super::between;
use super::checker::Checker;
use super::field::{
    COUNT, EC, Field, FieldKind, HOURS, ML, NAME, PERCENT, PH, PPM, RecordSchema, SENTENCE, SOME, term, terms_of,
};
use super::value::Values;
use crate::terms::{
    How, JobOutcome, LeafSign, Material, Method, PestName, PinchHow, PlantPart, Reach, RootSign, Term, TestMethod,
};
use chrono::{DateTime, FixedOffset, NaiveDate};
use uuid::Uuid;

/// Whether an entry says what was seen or what was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Seen.
    Finding,
    /// Done.
    Work,
}

/// One active ingredient in a tank.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Active ingredient by its common name.
    pub ai: String,
    /// ppm of the active ingredient in the finished solution.
    pub ppm: f64,
}

/// Fields that are kept together in one value of a kind.
pub(super) trait Group: Sized {
    /// The fields.
    const FIELDS: &'static [Field];
    /// Sets those that have a value.
    fn put(&self, values: &mut Values);
    /// Of the fields; `None` where they do not fit together.
    fn of(values: &Values) -> Option<Self>;
}

/// A group that few entries fill in is kept aside, so that all others stay small.
impl<T: Group> Group for Box<T> {
    const FIELDS: &'static [Field] = T::FIELDS;

    fn put(&self, values: &mut Values) {
        self.as_ref().put(values);
    }

    fn of(values: &Values) -> Option<Self> {
        T::of(values).map(Self::new)
    }
}

/// How a pest was counted.
#[derive(Debug, Clone, PartialEq)]
pub enum PestCount {
    /// Plants checked, and how many are infested.
    Plants {
        /// Plants checked.
        inspected: u32,
        /// Plants infested.
        infested: u32,
    },
    /// Sticky cards.
    Cards {
        /// Cards read.
        cards: u32,
        /// Insects on all of them.
        count: u32,
        /// Days the cards hung.
        days: u32,
    },
    /// Larvae on a potato wedge.
    Wedge {
        /// Larvae per wedge.
        larvae: f64,
    },
}

impl Group for PestCount {
    const FIELDS: &'static [Field] = &[
        Field::may("inspected", SOME, "plants", "plants checked").label("plants checked"),
        Field::may("infested", COUNT, "plants", "plants infested").label("plants infested"),
        Field::may("cards", SOME, "", "sticky cards read").label("cards read"),
        Field::may("count", COUNT, "", "insects on all of them"),
        Field::may("days", FieldKind::Count { least: 1, most: 366 }, "days", "days the cards hung").label("days hung"),
        Field::may("larvae", FieldKind::Number { least: 0.0, most: 10_000.0 }, "", "larvae per potato wedge")
            .label("larvae per wedge"),
    ];

    fn put(&self, values: &mut Values) {
        match self {
            Self::Plants { inspected, infested } => {
                values.set_some("inspected", inspected);
                values.set_some("infested", infested);
            }
            Self::Cards { cards, count, days } => {
                values.set_some("cards", cards);
                values.set_some("count", count);
                values.set_some("days", days);
            }
            Self::Wedge { larvae } => values.set_some("larvae", larvae),
        }
    }

    fn of(values: &Values) -> Option<Self> {
        if let (Some(inspected), Some(infested)) = (values.take("inspected"), values.take("infested")) {
            Some(Self::Plants { inspected, infested })
        } else if let (Some(cards), Some(count), Some(days)) =
            (values.take("cards"), values.take("count"), values.take("days"))
        {
            Some(Self::Cards { cards, count, days })
        } else {
            values.take("larvae").map(|larvae| Self::Wedge { larvae })
        }
    }
}

/// A group whose fields may all be left out.
macro_rules! group {
    ($(#[$doc:meta])* $name:ident { $(
        $field:ident: $type:ty, $form:expr, $unit:literal, $meaning:literal $(, $more:ident $($arg:literal)?)*;
    )+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Default)]
        pub struct $name {
            $(
                #[doc = $meaning]
                pub $field: Option<$type>,
            )+
        }

        impl Group for $name {
            const FIELDS: &'static [Field] =
                &[$(Field::may(stringify!($field), $form, $unit, $meaning)$(.$more($($arg)?))*),+];
            fn put(&self, values: &mut Values) { $(values.set_some(stringify!($field), &self.$field);)+ }
            fn of(values: &Values) -> Option<Self> {
                Some(Self { $($field: values.take(stringify!($field))?),+ })
            }
        }
    };
}

group!(
    /// What the record of an application holds beside what was put on.
    Application {
        epa_reg_no: String, FieldKind::Text { most: 40 }, "", "EPA registration number, from the label",
            label "EPA reg. no.";
        started_at: DateTime<FixedOffset>, FieldKind::Instant, "", "when the application began",
            label "began at";
        amount_used: String, NAME, "", "product used in all, with its unit", label "amount used";
        area_m2: f64, FieldKind::Number { least: 0.01, most: 1_000_000.0 }, "m2", "area treated",
            label "area treated";
        target: String, NAME, "", "crop or site treated", label "crop treated";
        applicator: String, NAME, "", "who put it on";
        license: String, FieldKind::Text { most: 40 }, "", "license number of the applicator";
    }
);

group!(
    /// What a climate logger gives of a day beside the means.
    ClimateLog {
        low_c: f64, CELSIUS, "°C", "least of the day", unasked;
        high_c: f64, CELSIUS, "°C", "most of the day", unasked;
        humid_hours: f64, FieldKind::Number { least: 0.0, most: 24.0 }, "h", "hours over humid_over", unasked;
        humid_over: f64, PERCENT, "%", "the humidity that humid_hours are counted over", unasked;
        vpd_kpa: f64, FieldKind::Number { least: 0.0, most: 15.0 }, "kPa", "mean vapor-pressure deficit of the daylight",
            unasked;
        light_mol: f64, FieldKind::Number { least: 0.0, most: 100.0 }, "mol/m2", "daily light integral (DLI)", unasked;
        warm_h: f64, FieldKind::Number { least: 0.0, most: 1_000.0 }, "°C h",
            "degree-hours of the night over the warm limit", unasked;
        readings: u32, SOME, "", "readings the figures are made of", unasked;
    }
);

const DIGIT: FieldKind = FieldKind::Level { least: 1, most: 5 };
const CELSIUS: FieldKind = FieldKind::Number { least: -60.0, most: 70.0 };

const BLANK: Field = Field::may("", COUNT, "", "");

/// How many fields some groups have.
const fn count(mut groups: &[&[Field]]) -> usize {
    let mut all = 0;
    while let Some((first, rest)) = groups.split_first() {
        all += first.len();
        groups = rest;
    }
    all
}

/// The fields of some groups, one after another.
#[expect(clippy::indexing_slicing, reason = "runs at compile time, where a wrong index is an error of the build")]
const fn flat<const N: usize>(mut groups: &[&[Field]]) -> [Field; N] {
    let mut all = [BLANK; N];
    let mut at = 0;
    while let Some((first, rest)) = groups.split_first() {
        let mut fields = *first;
        while let Some((field, more)) = fields.split_first() {
            all[at] = *field;
            at += 1;
            fields = more;
        }
        groups = rest;
    }
    all
}

macro_rules! kinds {
    ($(
        $number:literal $kind:ident $code:literal $text:literal $side:ident $offered:expr => {
            $(
                $needed:ident $field:ident: $type:ty, $form:expr, $unit:literal, $meaning:literal
                $(, $more:ident $($arg:literal)?)*;
            )*
        } $(, of $group:ident: $grouped:ty)? $(, closes $hours:ident)? $(, rule $rule:expr)?;
    )+) => {
        /// What was seen or done.
        #[derive(Debug, Clone, PartialEq)]
        #[expect(missing_docs, reason = "each field is described by its meaning in the field table")]
        pub enum Kind { $($kind { $($field: $type,)* $($group: $grouped,)? },)+ }

        crate::terms::terms!(
            /// The names of the kinds.
            #[expect(missing_docs, reason = "each is the name of the `Kind` of that name")]
            KindName { $($kind = $code, $text;)+ }
        );

        /// What the table says of a kind beside its names.
        struct Row {
            number: i64,
            side: Side,
            offered: Option<u8>,
            fields: &'static RecordSchema,
            rule: fn(&mut Checker, &Values),
        }

        impl KindName {
            const fn row(self) -> &'static Row {
                match self {
                    $(Self::$kind => {
                        const FIELDS: &[&[Field]] = &[
                            &[$(Field::$needed(stringify!($field), $form, $unit, $meaning)$(.$more($($arg)?))*),*],
                            $(<$grouped as Group>::FIELDS)?
                        ];
                        const MANY: usize = count(FIELDS);
                        static FLAT: [Field; MANY] = flat(FIELDS);
                        static TABLE: RecordSchema = RecordSchema { name: $code, fields: &FLAT };
                        #[allow(unused_mut, unused_assignments, reason = "not every kind has a rule between its fields")]
                        const RULE: fn(&mut Checker, &Values) = {
                            let mut rule: fn(&mut Checker, &Values) = |_, _| {};
                            $(rule = $rule;)?
                            rule
                        };
                        static ROW: Row =
                            Row { number: $number, side: Side::$side, offered: $offered, fields: &TABLE, rule: RULE };
                        &ROW
                    })+
                }
            }
        }

        impl Kind {
            /// Its name.
            pub const fn name(&self) -> KindName {
                match self { $(Self::$kind { .. } => KindName::$kind,)+ }
            }

            /// How long it keeps people out of its place from its end on, hours, as the product's label says; `None` for a kind
            /// that never does. Zero keeps nobody out.
            pub const fn re_entry_h(&self) -> Option<f64> {
                match self {
                    $(Self::$kind { $($hours,)? .. } => {
                        #[allow(unused_mut, unused_assignments, reason = "most kinds close nothing")]
                        let mut hours = None;
                        $(hours = Some(*$hours);)?
                        hours
                    })+
                }
            }

            /// True where it keeps people out of its place: only a strike that says so opens the place again.
            pub fn closes(&self) -> bool {
                self.re_entry_h().is_some_and(|hours| hours > 0.0)
            }

            /// The values of its own fields.
            pub fn values(&self) -> Values {
                let mut values = Values::new();
                match self {
                    $(Self::$kind { $($field,)* $($group,)? } => {
                        $({
                            const FIELD: Field =
                                Field::$needed(stringify!($field), $form, $unit, $meaning)$(.$more($($arg)?))*;
                            values.set_some(FIELD.name, $field);
                        })*
                        $($group.put(&mut values);)?
                    })+
                }
                values
            }

            /// The kind of these values; `None` where one is missing or misshapen. Ranges are not judged here.
            pub(super) fn of(name: KindName, values: &Values) -> Option<Self> {
                Some(match name {
                    $(KindName::$kind => Self::$kind {
                        $($field: {
                            const FIELD: Field =
                                Field::$needed(stringify!($field), $form, $unit, $meaning)$(.$more($($arg)?))*;
                            values.take(FIELD.name)?
                        },)*
                        $($group: <$grouped as Group>::of(values)?,)?
                    },)+
                })
            }
        }
    };
}

kinds! {
    1 Water "water" "water" Finding None => {
        need level: u8, DIGIT, "", "by pot weight and surface: 1 dry to 5 soaked";
        may base: Option<u8>, DIGIT, "", "at the base of the pot: 1 dry to 5 soaked", label "at the base";
    };
    2 Roots "roots" "roots" Finding Some(22) => {
        need score: u8, FieldKind::Level { least: 0, most: 5 }, "", "the worst pot: 0 white to 5 over 75% brown",
            label "roots score";
        may pots: Option<u32>, SOME, "", "pots knocked out";
        may bad: Option<u32>, COUNT, "", "of these, the bad ones", label "of these, bad";
        may signs: Vec<RootSign>, terms_of::<RootSign>(), "", "signs of disease or pest";
        may reach: Option<Reach>, term::<Reach>(), "", "how far the roots reach", label "root reach";
    },
        rule between::roots;
    3 Bracts "bracts" "bracts" Finding None => {
        need stage: u8, FieldKind::Level { least: 1, most: 7 }, "", "bract stage", label "bract stage";
    };
    4 Height "height" "height" Finding Some(24) => {
        need cm: Vec<f64>, FieldKind::Numbers { least: 1.0, most: 500.0 }, "cm",
            "bench top to growing tip, tagged plants in order", label "heights";
    };
    5 Leaves "leaves" "leaves" Finding Some(23) => {
        need signs: Vec<LeafSign>, terms_of::<LeafSign>(), "", "symptoms; blank: checked, none seen";
        may plant_part: Option<PlantPart>, term::<PlantPart>(), "", "where on the plant", named "where",
            label "on which leaves";
        may plants: Option<u32>, SOME, "", "plants of the bench that show it", label "plants showing it";
    };
    6 Pests "pests" "pests" Finding Some(21) => {
        need pest: PestName, term::<PestName>(), "", "the pest scouted";
    }, of count: PestCount,
        rule between::pests;
    7 RootZone "root-zone" "root zone" Finding Some(16) => {
        need method: TestMethod, term::<TestMethod>(), "", "how it was tested";
        may ph: Option<f64>, PH, "", "pH", label "pH";
        may ec_ms_cm: Option<f64>, EC, "mS/cm", "EC", label "EC";
        may pots: Option<u32>, SOME, "", "pots sampled";
    },
        rule |checker, values| between::one_at_least(checker, values, &["ph", "ec_ms_cm"]);
    8 FeedCheck "feed-check" "feed check" Finding Some(17) => {
        may ph: Option<f64>, PH, "", "pH at the hose", label "pH";
        may ec_ms_cm: Option<f64>, EC, "mS/cm", "EC at the hose", label "EC";
        may alkalinity_ppm: Option<f64>, PPM, "ppm", "alkalinity as calcium carbonate", label "alkalinity";
        may mg_ppm: Option<f64>, PPM, "ppm", "Mg at the hose", label "Mg";
    },
        rule |checker, values| between::one_at_least(checker, values, &["ph", "ec_ms_cm", "alkalinity_ppm", "mg_ppm"]);
    9 Climate "climate" "climate" Finding Some(14) => {
        may day_c: Option<f64>, CELSIUS, "°C", "day average", label "day average";
        may night_c: Option<f64>, CELSIUS, "°C", "night average", label "night average";
        may humidity_percent: Option<f64>, PERCENT, "%", "relative humidity", label "humidity";
    }, of log: Box<ClimateLog>,
        rule between::climate;
    10 NightLight "night-light" "night light" Finding Some(15) => {
        need lux: f64, FieldKind::Number { least: 0.0, most: 200_000.0 }, "lux", "light among the plants", label "light";
    };
    11 Losses "losses" "losses" Finding Some(18) => {
        need pots: u32, SOME, "", "pots lost";
        may cause: Option<String>, NAME, "", "the cause, in words";
    };
    12 Counted "counted" "counted" Finding Some(19) => {
        need pots: u32, COUNT, "", "pots there now";
    };
    13 Grade "grade" "grade" Finding Some(20) => {
        need sell: u32, COUNT, "pots", "fit to sell", label "salable";
        need second: u32, COUNT, "pots", "seconds", label "seconds";
        need dump: u32, COUNT, "pots", "to dump; they leave the count", label "dump";
    };
    14 Note "note" "note" Finding Some(25) => {};
    15 Greenness "greenness" "greenness" Finding None => {
        may class: Option<u8>, DIGIT, "", "1 yellow, 2 pale, 3 middle, 4 green, 5 dark, beside kept leaves or a card";
        may spad: Option<f64>, PERCENT, "", "mean of a chlorophyll meter, its own units", label "meter";
    },
        rule |checker, values| between::one_at_least(checker, values, &["class", "spad"]);
    16 BractWidth "bract-width" "bract width" Finding None => {
        need cm: Vec<f64>, FieldKind::Numbers { least: 0.5, most: 100.0 }, "cm", "across the bracts of one head each",
            label "bract widths";
    };
    31 Watered "watered" "watered" Work Some(1) => {
        may ml_per_pot: Option<f64>, ML, "mL", "water per pot", label "amount per pot";
    };
    32 Fed "fed" "fed" Work Some(2) => {
        need n_ppm: f64, PPM, "ppm", "N of feed and water together", label "N";
        may mg_ppm: Option<f64>, PPM, "ppm", "Mg of feed and water together", label "Mg";
        may mo_ppm: Option<f64>, PPM, "ppm", "Mo of feed and water together", label "Mo";
        may ml_per_pot: Option<f64>, ML, "mL", "solution per pot", label "amount per pot";
    };
    33 Topdressed "topdressed" "topdressed" Work Some(3) => {
        need g_per_pot: f64, FieldKind::Number { least: 0.0, most: 1_000.0 }, "g", "slow-release per pot",
            label "amount per pot";
        may n_percent: Option<f64>, PERCENT, "%", "N, from the label", label "N, %";
    };
    34 Nutrient "nutrient" "nutrient" Work Some(4) => {
        need material: Material, term::<Material>(), "", "the salt";
        need ppm: f64, PPM, "ppm", "of Mg, Mo or Ca in the finished solution";
        need how: Method, term::<Method>(), "", "how it was applied", label "method";
        may ml_per_pot: Option<f64>, ML, "mL", "solution per pot", label "amount per pot";
    };
    35 GrowthRegulator "growth-regulator" "growth regulator" Work Some(5) => {
        need parts: Vec<Part>, FieldKind::Parts, "", "active ingredients of the tank and their ppm", label "ingredients";
        need how: Method, term::<Method>(), "", "how it was applied", label "method";
        need rei_h: f64, HOURS, "h", "restricted-entry interval (REI), from this product's label", was "re_entry_h",
            label "REI, hours";
        may ml_per_pot: Option<f64>, ML, "mL", "solution per pot", label "amount per pot";
        may product: Option<String>, NAME, "", "the product, as on its label";
        may rate: Option<String>, NAME, "", "the rate, in words";
    }, of application: Box<Application>, closes rei_h;
    36 Sprayed "sprayed" "sprayed" Work Some(6) => {
        need ai: String, NAME, "", "active ingredient by its common name", label "ingredient";
        need against: String, NAME, "", "the pest or disease";
        need how: How, term::<How>(), "", "how it was applied; fog also stands for mist, aerosol and smoke", label "method";
        need rei_h: f64, HOURS, "h", "restricted-entry interval (REI), from this product's label", was "re_entry_h",
            label "REI, hours";
        may product: Option<String>, NAME, "", "the product, as on its label";
        may rate: Option<String>, NAME, "", "the rate, in words";
    }, of application: Box<Application>, closes rei_h;
    37 Released "released" "beneficials released" Work Some(7) => {
        need species: String, NAME, "", "the beneficial";
        need count: u32, SOME, "", "how many";
    };
    38 Pinched "pinched" "pinched" Work Some(8) => {
        need how: PinchHow, term::<PinchHow>(), "", "how the pinch was made", label "method";
        may nodes_left: Option<u32>, FieldKind::Count { least: 1, most: 50 }, "", "nodes left", label "nodes left";
    };
    39 Blackout "blackout" "black cloth" Work Some(9) => {
        need night: NaiveDate, FieldKind::Day, "", "the date of its evening", label "night of";
        need covered: bool, FieldKind::YesNo, "", "true if the black cloth was pulled";
    };
    40 Lights "lights" "lights" Work Some(10) => {
        need night: NaiveDate, FieldKind::Day, "", "the date of its evening", label "night of";
        need on: bool, FieldKind::YesNo, "", "true if the lights were on", label "lights on";
    };
    41 Spaced "spaced" "spaced" Work Some(11) => {
        need centers_cm: f64, FieldKind::Number { least: 1.0, most: 500.0 }, "cm", "pot center to pot center",
            label "centers";
    };
    42 Moved "moved" "moved" Work Some(12) => {
        need to: String, FieldKind::Code, "", "the bench they go to", label "to bench";
        need pots: u32, SOME, "", "pots moved";
    };
    43 Sold "sold" "sold" Work Some(13) => {
        need pots: u32, SOME, "", "pots sold";
    };
    44 PutOff "put-off" "postponed" Work None => {
        need warning: String, NAME, "", "the warning's name", unasked;
        need until: NaiveDate, FieldKind::Day, "", "the day it comes back";
        need why: String, SENTENCE, "", "the reason", label "reason";
    };
    45 Strike "strike" "voided" Work None => {
        need entry: Uuid, FieldKind::Id, "", "the entry voided", unasked;
        need why: String, SENTENCE, "", "the reason", label "reason";
        may reopen: bool, FieldKind::YesNo, "", "true: its restricted-entry interval (REI) ends too", unasked;
    };
    46 Job "job" "job" Work None => {
        need step: String, SENTENCE, "", "the job as it was listed, without place and amounts", unasked;
        need listed_for: NaiveDate, FieldKind::Day, "", "the day it was listed for", unasked;
        need outcome: JobOutcome, term::<JobOutcome>(), "", "what became of it", unasked;
        may why: Option<String>, SENTENCE, "", "the reason; of a job that was not needed it must be given", label "reason";
    },
        rule between::job;
}

impl KindName {
    /// Its number in the season file.
    pub const fn number(self) -> i64 {
        self.row().number
    }

    /// The kind of this number in the season file.
    pub fn from_number(number: i64) -> Option<Self> {
        Self::ALL.iter().copied().find(|name| name.number() == number)
    }

    /// True for findings (seen), false for work (done).
    pub const fn is_finding(self) -> bool {
        matches!(self.row().side, Side::Finding)
    }

    /// Its own fields.
    pub const fn table(self) -> &'static RecordSchema {
        self.row().fields
    }

    /// The kinds with a form of their own, in the order they are offered.
    pub fn offered() -> Vec<Self> {
        let mut all: Vec<(u8, Self)> = Self::ALL.iter().filter_map(|name| Some((name.row().offered?, *name))).collect();
        all.sort_unstable();
        all.into_iter().map(|(_, name)| name).collect()
    }

    /// Judges what must hold between its fields.
    pub(super) fn judge(self, checker: &mut Checker, values: &Values) {
        (self.row().rule)(checker, values);
    }
}

#[cfg(test)]
mod tests {
    use super::{KindName, Term};
    use std::collections::BTreeSet;

    /// What season files hold. A row is added for a new kind; none is ever changed.
    const FROZEN: [(i64, &str); 30] = [
        (1, "water"),
        (2, "roots"),
        (3, "bracts"),
        (4, "height"),
        (5, "leaves"),
        (6, "pests"),
        (7, "root-zone"),
        (8, "feed-check"),
        (9, "climate"),
        (10, "night-light"),
        (11, "losses"),
        (12, "counted"),
        (13, "grade"),
        (14, "note"),
        (31, "watered"),
        (32, "fed"),
        (33, "topdressed"),
        (34, "nutrient"),
        (35, "growth-regulator"),
        (36, "sprayed"),
        (37, "released"),
        (38, "pinched"),
        (39, "blackout"),
        (40, "lights"),
        (41, "spaced"),
        (42, "moved"),
        (43, "sold"),
        (44, "put-off"),
        (45, "strike"),
        (46, "job"),
    ];

    #[test]
    fn numbers_are_those_of_the_files_and_each_is_one_kinds() {
        for (number, code) in FROZEN {
            assert_eq!(KindName::from_number(number).map(Term::code), Some(code));
        }
        let numbers: BTreeSet<i64> = KindName::ALL.iter().map(|k| k.number()).collect();
        let codes: BTreeSet<&str> = KindName::ALL.iter().map(|k| k.code()).collect();
        assert_eq!((numbers.len(), codes.len()), (KindName::ALL.len(), KindName::ALL.len()));
        assert!(
            KindName::ALL.iter().all(|k| k.is_finding() == (k.number() < 31)),
            "observations below 31, work from 31 on"
        );
    }

    #[test]
    fn every_field_has_a_name_of_its_own_in_its_kind_and_every_offer_its_place() {
        for kind in KindName::ALL {
            let table = kind.table();
            assert_eq!(table.name, kind.code());
            let mut names: Vec<&str> = table.fields.iter().flat_map(|f| f.was.into_iter().chain([f.name])).collect();
            let all = names.len();
            names.sort_unstable();
            names.dedup();
            assert!(names.len() == all && names.iter().all(|n| !n.is_empty()), "{kind:?}: {names:?}");
        }
        let places: BTreeSet<u8> = KindName::ALL.iter().filter_map(|k| k.row().offered).collect();
        assert_eq!(places.len(), KindName::offered().len());
    }
}
