//! `benchwalk review`: the flagged benches of a day and the next day's work, of one season or of many.

mod all;

use super::{CommandError, Context};
use crate::limits::Limits;
use crate::progress::{Step, Work};
use crate::report::{html, review};
use crate::review::{ListedFor, Review, build_for};
use crate::season::Season;
use crate::warnings::{AssessedDay, assess_all, assess_day};
use chrono::{DateTime, NaiveDate, Utc};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Options of `review`.
#[derive(Debug, Args)]
pub struct ReviewArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = ReviewFormat::Text)]
    format: ReviewFormat,
    /// One review over many season files, or over those in a folder (*.db): what is flagged at all sites, worst first, and how far
    /// each is known. A site not heard today comes first. The exit code is 1 where a file could not be reviewed.
    #[arg(long, num_args = 1.., value_name = "DIR|FILE")]
    all: Vec<PathBuf>,
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
    if !args.all.is_empty() {
        return all::run(args, context);
    }
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
    of_season(&season, day, (&limits, context.settings.limits_name()), context.clock.now())
        .ok_or_else(|| CommandError::NoSite { path: context.settings.season.clone() })
}

/// The review of a season, as it stood on a day, read at an instant; `None` where it has no site.
fn of_season(season: &Season, day: NaiveDate, (limits, name): (&Limits, String), now: DateTime<Utc>) -> Option<Review> {
    let of = |day| assess_all(season, day, limits).into_all();
    let before = day.pred_opt().map(of).unwrap_or_default();
    let AssessedDay { assessment, walked, not_known, slower } = assess_day(season, day, limits);
    let today = (assessment.into_all(), walked);
    let review = build_for(season, (day, ListedFor::Tomorrow), today, &before, name)?;
    // Only on its own day the clock says which lines are later than now.
    let to_settle = season.on(day).to_settle_at(Some(now).filter(|now| season.day_of(*now) == day));
    Some(review.with_not_known(not_known).with_slower(slower).with_to_settle(to_settle).as_of(now))
}
