//! One warning with its evidence.

use super::{Step, WarningName};
use crate::crop::Days;
use crate::crop::color::{Milestone, Temperatures};
use crate::crop::symptoms::{self, Confirm};
use crate::limits::{Basis, Limit};
use crate::record::{Entry, KindName, LeafSign, Place, Term};
use chrono::NaiveDate;

/// Severity of a warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Look again.
    Watch,
    /// Do something today.
    Act,
    /// The crop or the sale is at stake.
    Urgent,
}

impl Severity {
    /// Its spelling in the review and on the screens.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Watch => "watch",
            Self::Act => "act",
            Self::Urgent => "urgent",
        }
    }
}

/// A number behind a warning: its meaning fixes its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Figure {
    /// Days the condition has lasted.
    Days,
    /// Days since planting.
    CropDay,
    /// Days after the first color that the plan expects.
    DaysPastColor,
    /// Days to the sale.
    DaysToSale,
    /// Days to (negative: since) the start of short days.
    DaysToShortDays,
    /// Mean height now, cm.
    HeightNow,
    /// Projected height at the sale, cm.
    HeightAtSale,
    /// pH.
    Ph,
    /// EC, mS/cm.
    Ec,
    /// Delay of the crop, days.
    DelayDays,
    /// Light at night, lux.
    Lux,
    /// Temperature, °C.
    Celsius,
    /// Relative humidity, %.
    Humidity,
    /// Hours of a day over a humidity.
    HumidHours,
    /// Share of plants infested, %.
    Infested,
    /// Plants looked at.
    Plants,
    /// Insects per card per week.
    CardWeek,
    /// Larvae per wedge.
    Larvae,
    /// Pots lost.
    Lost,
    /// Pots standing.
    Standing,
    /// Pots promised and not sold.
    Promised,
    /// Benches concerned, of the house.
    Benches,
    /// ppm of the active ingredient or nutrient.
    Ppm,
    /// mg of the active ingredient per pot.
    MgPerPot,
    /// Hours since the last watering.
    HoursSinceWatering,
}

/// A piece of evidence.
#[derive(Debug, Clone, PartialEq)]
pub enum Evidence {
    /// Something written down.
    Entry(Entry),
    /// Never done or seen, or not since a day.
    Missing {
        /// What is missing.
        kind: KindName,
        /// When it was last there.
        last: Option<NaiveDate>,
    },
    /// What was found no longer counts by its age, and nobody has looked since.
    NotChecked {
        /// What would be looked at.
        kind: KindName,
        /// The day of the last look.
        since: NaiveDate,
    },
    /// A calculated number, with the limit it is compared with.
    Figure {
        /// Its meaning.
        figure: Figure,
        /// Its value.
        value: f64,
        /// Its uncertainty, low and high.
        range: Option<(f64, f64)>,
        /// The limit, by its key in the limits file.
        limit: Option<Limit>,
    },
    /// A day that matters; which one is clear from the warning (the last-safe day).
    Forecast {
        /// First day.
        from: NaiveDate,
        /// Last day.
        to: NaiveDate,
    },
    /// When a stage of the color is expected.
    Color {
        /// The stage.
        milestone: Milestone,
        /// First, likely and last day.
        days: Days,
        /// What of the temperatures that goes by.
        temperatures: Temperatures,
    },
    /// Another warning that is part of this one.
    Warning(WarningName),
}

/// A cause worth checking, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LikelyCause {
    /// The cause: a possibility, never a diagnosis.
    pub cause: symptoms::Cause,
    /// The quickest way to confirm it or rule it out that has not been taken.
    pub confirm: Confirm,
}

impl LikelyCause {
    /// `Check for iron short at high pH: leaf analysis, sick and healthy leaves side by side.`
    pub fn to_check(&self) -> String {
        // The sentence has one colon already.
        let how = self.confirm.words().replace(": ", ", ");
        let end = if how.ends_with('?') { "" } else { "." };
        format!("Check for {}: {how}{end}", self.cause.words())
    }
}

/// What a rule says of a bench, a lot or a house.
#[derive(Debug, Clone, PartialEq)]
pub struct Warning {
    /// Which warning.
    pub name: WarningName,
    /// Its severity.
    pub level: Severity,
    /// True of a watch that is only noted: nothing is done about it unless it is seen again.
    pub noted: bool,
    /// Of what: a bench, a lot or a house.
    pub place: Place,
    /// Every bench it concerns, in walking order.
    pub benches: Vec<String>,
    /// The lot it concerns, where it is one.
    pub lot: Option<String>,
    /// The day the condition began.
    pub since: NaiveDate,
    /// The evidence, oldest first.
    pub evidence: Vec<Evidence>,
    /// Steps that depend on the evidence.
    pub steps: Vec<Step>,
    /// The signs on the plant it is raised for, where its name does not say them.
    pub signs: Vec<LeafSign>,
    /// Why it matters, where its rule's own reason does not hold.
    pub other_why: Option<&'static str>,
    /// Causes to check, the likeliest first, two at most: from the symptom key, for the signs of this warning.
    pub likely_causes: Vec<LikelyCause>,
    /// When to look again; never before a keep-out ends.
    pub look_again: NaiveDate,
    /// What the rule rests on.
    pub basis: Basis,
    /// Put off until this day by the grower.
    pub put_off_until: Option<NaiveDate>,
}

impl Warning {
    /// Its severity in a word: a watch that is only noted says so.
    pub const fn said_level(&self) -> &'static str {
        if self.noted { "noted" } else { self.level.code() }
    }

    /// What it is, with the signs that its name does not say: `leaf signs (stippling)`.
    pub fn title(&self) -> String {
        titled(self.name.title(), &self.signs)
    }

    /// Why it matters, in one sentence.
    pub fn why(&self) -> &'static str {
        self.other_why.unwrap_or(self.name.rule().why)
    }

    /// The steps, most urgent first: those that follow from the evidence, then the usual ones of its rule.
    pub fn steps_in_order(&self) -> Vec<Step> {
        Step::in_order(&self.steps, self.name.rule().next)
    }

    /// What to do, most urgent first: the steps that follow from the evidence, then the usual ones of its rule, with the
    /// causes to check after the first of these.
    pub fn next(&self) -> Vec<String> {
        let steps = self.steps_in_order();
        let mut all: Vec<String> = steps.iter().map(|step| step.text.to_owned()).collect();
        // After the usual first step: what else the sign may mean.
        let at = (self.steps.len() + 1).min(all.len());
        all.splice(at..at, self.likely_causes.iter().map(LikelyCause::to_check));
        all
    }
}

/// A title with the signs behind it.
pub(crate) fn titled(title: &str, signs: &[LeafSign]) -> String {
    if signs.is_empty() {
        return title.to_owned();
    }
    let signs: Vec<&str> = signs.iter().map(|sign| sign.text()).collect();
    format!("{title} ({})", signs.join(", "))
}
