//! `color-ahead`: full color long before the sale.
//!
//! **Sees** stage 4 or more, seen within 14 days, with more than 21 days to the sale. **Numbers** of days: house rule; of
//! temperatures, in the advice: Camberato, Lopez and Krug 2012 (70/63 °F from two weeks after the start of short days), Clemson
//! 2011.
//! **Level** watch. **Ends** as the sale comes near.
//! **Class** date: it stands until done or moot.

use crate::crop::color::Milestone;
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `color-ahead`.
pub(super) static RULE: Rule = Rule {
    name: N::ColorAhead,
    code: "color-ahead",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Date,
    title: "color early",
    why: "Mature bracts fade and bruise while they wait.",
    next: &[
        Step::todo(
            "Cooler nights: go down in steps, no lower than 70 °F (21 °C) days and 63 °F (17 °C) nights, a published cool finish \
             (HortScience 47:745).",
        ),
        Step::remark("A mean of 60 °F (15.5 °C) from first color on left bracts small (Clemson 2011)."),
        Step::todo("Feed leaner; do not cut it off."),
        Step::todo("Offer an earlier ship date: plants keep best sold with little or no pollen (LSU AgCenter 2003)."),
        Step::check("Check response weeks and start of short days against the plan: the next lots may be early, too."),
    ],
    answers: &[Answer { title: "bracts scored", remedy: Remedy::Entry(KindName::Bracts) }],
    basis: COOL_FINISH,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const COOL_FINISH: Basis = Basis::Published(
    "temperatures: Camberato, Lopez and Krug 2012, Clemson 2011; keeping: LSU AgCenter 2003; days: Benchwalk's rule of thumb",
);

/// Bracts fully colored.
const FULL: u8 = Milestone::FullColor.stage();

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let (look, _) = bench.stage_within(limits.reading_days).filter(|(_, s)| *s >= FULL)?;
    let left = bench.days_to_sale();
    (left > limits.ahead_days).then(|| {
        let since = bench.first_stage(FULL).map_or_else(|| look.day(), Entry::day);
        let warning = of_bench(bench, N::ColorAhead, Severity::Watch, since).saw(look);
        let warning = warning.figure(Figure::DaysToSale, left as f64, bench.context.limit(Light::ahead_days));
        warning.again(bench.in_days(7))
    })
}
