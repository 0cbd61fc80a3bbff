//! `benchwalk review`: the flagged benches of a day and the next day's work.

use super::{CommandError, Context};
use crate::progress::{Step, Work};
use crate::report::{html, review};
use crate::review::{Review, build};
use crate::warnings::{Warning, assess_all, not_known, slower_on};
use clap::{Args, ValueEnum};

/// Options of `review`.
#[derive(Debug, Args)]
pub struct ReviewArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = ReviewFormat::Text)]
    format: ReviewFormat,
}

/// Forms of the evening review.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ReviewFormat {
    /// Plain text.
    Text,
    /// For other programs.
    Json,
    /// One HTML file, to print or send.
    Html,
}

/// Prints the evening review.
pub(super) fn run(args: &ReviewArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let review = of_day(context)?;
    let text = match args.format {
        ReviewFormat::Text => review::text(&review),
        ReviewFormat::Html => html::review(&review),
        ReviewFormat::Json => review::json(&review).map_err(std::io::Error::from)?,
    };
    context.print(whole, &text)
}

/// The review of the working day.
pub(super) fn of_day(context: &mut Context<'_>) -> Result<Review, CommandError> {
    let season = context.season()?;
    let (day, limits) = (context.day(&season), context.settings.limits()?);
    let _work = Work::begin(Step::Assess, 0);
    let of = |day| -> Vec<Warning> { assess_all(&season, day, &limits).all().cloned().collect() };
    let before = day.pred_opt().map(of).unwrap_or_default();
    let review = build(&season, day, of(day), &before, context.settings.limits_name())
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })?;
    let (not_known, slower) = (not_known(&season, day, &limits), slower_on(&season, day, &limits));
    let now = context.clock.now();
    // Only on its own day the clock says which lines are later than now.
    let to_settle = season.on(day).to_settle_at(Some(now).filter(|now| season.day_of(*now) == day));
    Ok(review.with_not_known(not_known).with_slower(slower).with_to_settle(to_settle).as_of(now))
}
