//! `benchwalk share`: a season that several laptops keep, over a folder, a stick or a hub.

mod mirror;
mod on;
mod state;
mod who;

use super::{CommandError, Context};
use crate::exchange::{CarrierState, Gate, Sharing};
use crate::files::shown;
use crate::hub;
use crate::report::share::{fails, held, lines};
use crate::run::{Exchanger, Wanted};
use crate::session::share::{SharedSeason, remove};
use clap::{Args, Subcommand};

/// Options of `share`.
#[derive(Debug, Args)]
#[command(
    after_help = "Without a command it exchanges now with every folder and hub of the season; exit code 1 if one of them failed (the \
                  others were done). `benchwalk help share` explains how two laptops begin.\n\n\
                  Examples:\n  benchwalk share on --folder /media/ml/BENCH\n  benchwalk share join --folder /media/ml/BENCH\n  \
                  benchwalk share state"
)]
pub struct ShareArgs {
    /// What else is wanted.
    #[command(subcommand)]
    pub what: Option<ShareAction>,
}

/// What can be done with a shared season.
#[derive(Debug, Subcommand)]
pub enum ShareAction {
    /// Share this season over a folder or a hub from now on.
    On(on::OnArgs),
    /// Create a new season file from what lies in a folder or a hub.
    Join(on::JoinArgs),
    /// Stop using a folder or a hub; what lies there stays.
    Off(OffArgs),
    /// Print what is known of folders, hubs and laptops.
    State(state::StateArgs),
    /// Print which laptop wrote an entry, and how it came to a hub.
    Who(who::WhoArgs),
    /// Make a file of every season that lies in a folder or on a hub, to be read only, or bring it up to date.
    Mirror(mirror::MirrorArgs),
    /// Print what the owner of a PostgreSQL database runs to make it a hub.
    HubSql,
}

/// Options of `share off`.
#[derive(Debug, Args)]
pub struct OffArgs {
    /// The name of the folder or hub, as `benchwalk share state` has it.
    name: String,
}

/// Answers.
pub(super) fn run(args: &ShareArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    match &args.what {
        None => exchange_all(context),
        Some(ShareAction::On(args)) => on::on(args, context),
        Some(ShareAction::Join(args)) => on::join(args, context),
        Some(ShareAction::Off(args)) => off(args, context),
        Some(ShareAction::State(args)) => state::run(args, context),
        Some(ShareAction::Who(args)) => who::run(args, context),
        Some(ShareAction::Mirror(args)) => mirror::run(args, context),
        Some(ShareAction::HubSql) => {
            context.out.write_all(hub::script().as_bytes())?;
            Ok(())
        }
    }
}

/// That a season is not shared, and how that begins.
fn not_shared(context: &Context<'_>) -> CommandError {
    let path = shown(&context.settings.season);
    CommandError::Share(format!(
        "this season is kept on this laptop alone: {path}; 'benchwalk share on --folder DIR' shares it (see 'benchwalk help share')"
    ))
}

fn exchange_all(context: &mut Context<'_>) -> Result<(), CommandError> {
    let opened = SharedSeason::alone(&context.settings.season, &context.settings.sharer)?;
    let Some(season) = opened else { return Err(not_shared(context)) };
    let sharing = exchanged(season, context)?;
    if sharing.carriers.is_empty() {
        let text = "no folder or hub is named for this season on this laptop; name one with 'benchwalk share on'";
        return Err(CommandError::Share(text.to_owned()));
    }
    told(&sharing.carriers, context)?;
    if let Some(held) = held(&sharing) {
        writeln!(context.out, "{held}")?;
    }
    failed(&sharing.carriers)
}

/// One exchange with all carriers of a season, which is then closed.
fn exchanged(mut season: SharedSeason, context: &Context<'_>) -> Result<Sharing, CommandError> {
    let sharing = season.exchange(Wanted::Asked, context.clock.now(), &Gate::default(), &|_so_far| {});
    season.close()?;
    Ok(sharing)
}

/// Prints what came of an exchange.
fn told(carriers: &[CarrierState], context: &mut Context<'_>) -> Result<(), CommandError> {
    let now = context.clock.now();
    for line in carriers.iter().flat_map(|carrier| lines::done(carrier, now)) {
        writeln!(context.out, "{line}")?;
    }
    Ok(())
}

/// Fails where an exchange failed.
fn failed(carriers: &[CarrierState]) -> Result<(), CommandError> {
    let names: Vec<&str> =
        carriers.iter().filter(|carrier| fails(carrier)).map(|carrier| carrier.name.as_str()).collect();
    if names.is_empty() {
        return Ok(());
    }
    let others = if names.len() == carriers.len() { "" } else { "; the others were done" };
    Err(CommandError::Share(format!("not exchanged with {}{others}", names.join(", "))))
}

fn off(args: &OffArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let settings = &context.settings;
    let opened = SharedSeason::reading(&settings.season, &settings.sharer)?;
    let Some(season) = opened else { return Err(not_shared(context)) };
    let id = season.id();
    season.close()?;
    let carriers = settings.sharer.of(id);
    let Some(carrier) = carriers.iter().find(|carrier| carrier.name == args.name) else {
        let known: Vec<&str> = carriers.iter().map(|carrier| carrier.name.as_str()).collect();
        let known = if known.is_empty() { "there is none".to_owned() } else { format!("known: {}", known.join(", ")) };
        let name = crate::characters::in_one_line(&args.name);
        return Err(CommandError::Share(format!("'{name}' is no folder or hub of this season; {known}")));
    };
    if !remove(&settings.config_file, id, &args.name)? {
        let file = shown(&settings.config_file);
        let text = format!("the table [[share]] of {} was not found in {file}; remove it there by hand", args.name);
        return Err(CommandError::Share(text));
    }
    writeln!(
        context.out,
        "{}: no longer used by this laptop. What lies in {} stays there, and the season file stays as it is.",
        carrier.name, carrier.place
    )?;
    Ok(())
}
