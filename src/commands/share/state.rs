//! `benchwalk share state`: what is known of folders, hubs and laptops. Nothing is asked of them.

use super::not_shared;
use crate::commands::{CommandError, Context};
use crate::report::share::lines;
use crate::run::Exchanger;
use crate::session::share::SharedSeason;
use clap::{Args, ValueEnum};

/// Options of `share state`.
#[derive(Debug, Args)]
pub struct StateArgs {
    /// How to print it.
    #[arg(long, value_enum, default_value_t = StateFormat::Text)]
    format: StateFormat,
}

/// Forms of the state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum StateFormat {
    /// Plain text.
    Text,
    /// For other programs.
    Json,
}

/// Prints it.
pub(super) fn run(args: &StateArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let opened = SharedSeason::reading(&context.settings.season, &context.settings.sharer)?;
    let Some(mut season) = opened else { return Err(not_shared(context)) };
    let (sharing, site) = (season.state(), season.site().to_owned());
    season.close()?;
    let text = match args.format {
        StateFormat::Text => lines::state(&sharing, &site, context.clock.now()),
        StateFormat::Json => format!("{:#}\n", lines::state_json(&sharing, &site)),
    };
    context.out.write_all(text.as_bytes())?;
    Ok(())
}
