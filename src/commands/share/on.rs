//! `benchwalk share on` and `join`: a season begins to be shared, or a laptop joins one.

use super::{exchanged, failed, told};
use crate::commands::shell::word;
use crate::commands::{CommandError, Context, Settings};
use crate::files::shown;
use crate::report::share::lines;
use crate::session::share::{
    CarrierPlace, CarrierSetting, EVERY, ShareError, SharedSeason, Sharer, add, begin, join as join_season,
};
use crate::store::Store;
use clap::Args;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// Where a season is shared.
#[derive(Debug, Args)]
#[group(required = true, multiple = false)]
pub struct Where {
    /// A folder that all laptops reach, on a network drive or a stick.
    #[arg(long, value_name = "DIR")]
    folder: Option<PathBuf>,
    /// A hub on PostgreSQL: the name of its service, or key words such as service=benchwalk.
    #[arg(long, value_name = "SERVICE")]
    hub: Option<String>,
}

/// Options of `share on`.
#[derive(Debug, Args)]
pub struct OnArgs {
    /// Where it lies.
    #[command(flatten)]
    pub place: Where,
    /// Make this file part of a season that lies there, even where it was set up separately: its id, or the name of its site.
    #[arg(long, value_name = "SEASON", conflicts_with = "new")]
    join: Option<String>,
    /// Begin another season although one of the same site lies there.
    #[arg(long)]
    new: bool,
    /// What to call it; default: the last part of the folder's name, or `office`.
    #[arg(long, value_name = "NAME", value_parser = CarrierSetting::named)]
    name: Option<String>,
}

/// Options of `share join`.
#[derive(Debug, Args)]
pub struct JoinArgs {
    /// Where it lies.
    #[command(flatten)]
    pub place: Where,
    /// Which season, where several lie there: its id, or the name of its site.
    #[arg(value_name = "SEASON")]
    which: Option<String>,
    /// What to call the folder or hub; default: the last part of the folder's name, or `office`.
    #[arg(long, value_name = "NAME", value_parser = CarrierSetting::named)]
    name: Option<String>,
}

impl Where {
    pub(super) fn place(&self) -> Result<CarrierPlace, CommandError> {
        match (&self.folder, &self.hub) {
            (Some(folder), _) => {
                let failed = |error| CommandError::File { path: folder.clone(), error };
                Ok(CarrierPlace::Folder(std::path::absolute(folder).map_err(failed)?))
            }
            (None, Some(words)) if words.contains('=') => Ok(CarrierPlace::Hub(words.clone())),
            (None, words) => Ok(CarrierPlace::Hub(format!("service={}", words.as_deref().unwrap_or_default()))),
        }
    }
}

/// How the other laptops name a place.
fn option(place: &CarrierPlace) -> String {
    match place {
        CarrierPlace::Folder(path) => format!("--folder {}", word(&shown(path))),
        CarrierPlace::Hub(words) => format!("--hub {}", word(words)),
    }
}

/// That none of these carriers has a name.
fn is_free(name: Option<&String>, others: &[CarrierSetting]) -> Result<(), CommandError> {
    match name.filter(|name| others.iter().any(|carrier| carrier.name == **name)) {
        None => Ok(()),
        Some(name) => {
            let reason = format!("another folder or hub of this season is called '{name}'; give another name");
            Err(CommandError::Typed { option: "--name", reason })
        }
    }
}

/// The carrier of a season at a place: the one of the settings, where its file was lost or its hub was set up again, or a new one.
fn carrier(
    settings: &Settings,
    season: Uuid,
    place: &CarrierPlace,
    name: Option<&String>,
) -> Result<CarrierSetting, CommandError> {
    let others = settings.sharer.of(season);
    if let Some(there) = others.iter().find(|carrier| carrier.place == *place) {
        return Ok(there.clone());
    }
    is_free(name, &others)?;
    let taken: Vec<&str> = others.iter().map(|carrier| carrier.name.as_str()).collect();
    let name = name.cloned().unwrap_or_else(|| CarrierSetting::free_name(place, &taken));
    let carrier = CarrierSetting { season, name, place: place.clone(), every: EVERY };
    add(&settings.config_file, &carrier)?;
    Ok(carrier)
}

/// Begins, or goes on with what lies there.
pub(super) fn on(args: &OnArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let place = args.place.place()?;
    let (settings, now) = (&context.settings, context.clock.now());
    // The name is looked at before anything is changed.
    let own = season_of(settings).map(|season| settings.sharer.of(season)).unwrap_or_default();
    match own.iter().find(|carrier| carrier.place == place) {
        Some(there) if args.name.as_ref().is_some_and(|name| *name != there.name) => {
            let reason =
                format!("this season is shared over it already, as {0}; 'benchwalk share off {0}' first", there.name);
            return Err(CommandError::Typed { option: "--name", reason });
        }
        Some(_) => {}
        None => is_free(args.name.as_ref(), &own)?,
    }
    let begun = begin(&settings.season, &settings.sharer, &place, (args.join.as_deref(), args.new), now).map_err(of)?;
    let carrier = carrier(settings, begun.season, &place, args.name.as_ref())?;
    let laptop = settings.sharer.laptop.name.clone();
    let how = if begun.lay_there { "goes on with what lies there" } else { "begins there" };
    writeln!(context.out, "{}: shared over {} ({place}), {how}. This laptop is {laptop}.", begun.site, carrier.name)?;
    if begun.path != context.settings.season {
        let (old, new) = (shown(&context.settings.season), shown(&begun.path));
        writeln!(
            context.out,
            "All of {old} is in {new} now, as part of that season. Go on with {new} (--season); {old} stays as it was."
        )?;
    }
    let done = first_exchange(&begun.path, carrier, context);
    for other in &begun.others {
        writeln!(context.out, "There lies also: {}", other.called())?;
    }
    done?;
    writeln!(context.out, "On another laptop: benchwalk share join {}", option(&place))?;
    Ok(())
}

/// The season of the file that the settings name; `None` where it is not there or cannot be read.
fn season_of(settings: &Settings) -> Option<Uuid> {
    Store::open_read_only(&settings.season).ok()?.season_id().ok().flatten()
}

/// A failure of sharing as one of the command.
pub(super) fn of(error: ShareError) -> CommandError {
    match error {
        ShareError::Session(error) => CommandError::Session(error),
        other => CommandError::Share(other.to_string()),
    }
}

/// The first exchange, with this carrier alone.
fn first_exchange(path: &Path, carrier: CarrierSetting, context: &mut Context<'_>) -> Result<usize, CommandError> {
    let sharer = Sharer { carriers: vec![carrier], ..context.settings.sharer.clone() };
    let Some(season) = SharedSeason::alone(path, &sharer)? else { return Ok(0) };
    let sharing = exchanged(season, context)?;
    told(&sharing.carriers, context)?;
    failed(&sharing.carriers)?;
    Ok(sharing.carriers.iter().map(|carrier| carrier.did.taken).sum())
}

/// Makes a season file of what lies there.
pub(super) fn join(args: &JoinArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let place = args.place.place()?;
    let (settings, now) = (&context.settings, context.clock.now());
    let path = settings.season.clone();
    let joined = join_season(&path, &settings.sharer, &place, args.which.as_deref(), now).map_err(of)?;
    let carrier = carrier(settings, joined.season, &place, args.name.as_ref())?;
    let laptop = settings.sharer.laptop.name.clone();
    let site = joined.name.unwrap_or_else(|| "The season".to_owned());
    let came = first_exchange(&path, carrier, context)?;
    writeln!(context.out, "{}: {site}, {}. This laptop is {laptop}.", shown(&path), lines::lines(came))?;
    if !joined.may_write {
        writeln!(context.out, "This laptop may only read it there: what is written here stays here.")?;
    }
    Ok(())
}
