//! `benchwalk share on` and `join`: a season begins to be shared, or a laptop joins one.

use super::{exchanged, failed, told};
use crate::commands::{CommandError, Context};
use crate::files::shown;
use crate::report::share::lines;
use crate::session::share::{
    CarrierPlace, CarrierSetting, EVERY, ShareError, SharedSeason, Sharer, add, begin, join as join_season, lying_at,
};
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
        CarrierPlace::Folder(path) => format!("--folder {}", quoted(&shown(path))),
        CarrierPlace::Hub(words) => format!("--hub {}", quoted(words)),
    }
}

/// As a shell takes it.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "/._-=+:,@~".contains(c);
    if text.chars().all(plain) { text.to_owned() } else { format!("'{}'", text.replace('\'', "'\\''")) }
}

/// The carrier as it goes into the settings. The name is looked at before anything is changed.
fn setting(
    sharer: &Sharer,
    season: Uuid,
    place: &CarrierPlace,
    name: Option<&String>,
) -> Result<CarrierSetting, CommandError> {
    let others = sharer.of(season);
    let taken: Vec<&str> = others.iter().map(|carrier| carrier.name.as_str()).collect();
    if let Some(name) = name.filter(|name| taken.contains(&name.as_str())) {
        let reason = format!("another folder or hub of this season is called '{name}'; give another name");
        return Err(CommandError::Typed { option: "--name", reason });
    }
    let name = name.cloned().unwrap_or_else(|| CarrierSetting::free_name(place, &taken));
    Ok(CarrierSetting { season, name, place: place.clone(), every: EVERY })
}

/// Begins, or goes on with what lies there.
pub(super) fn on(args: &OnArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let place = args.place.place()?;
    let (settings, now) = (&context.settings, context.clock.now());
    let own = || settings.sharer.carriers.iter().filter(|carrier| is_own(carrier, context));
    let there = own().find(|carrier| carrier.place == place).cloned();
    if let Some(name) = &args.name {
        let reason = match &there {
            Some(there) if there.name != *name => Some(format!(
                "this season is shared over it already, as {0}; 'benchwalk share off {0}' first",
                there.name
            )),
            None if own().any(|carrier| carrier.name == *name) => {
                Some(format!("another folder or hub of this season is called '{name}'; give another name"))
            }
            _ => None,
        };
        if let Some(reason) = reason {
            return Err(CommandError::Typed { option: "--name", reason });
        }
    }
    let begun = begin(&settings.season, &settings.sharer, &place, (args.join.as_deref(), args.new), now).map_err(of)?;
    let carrier = if let Some(carrier) = there.filter(|carrier| carrier.season == begun.season) {
        // A hub was set up again, or put back to a day before the season began there.
        carrier
    } else {
        let carrier = setting(&settings.sharer, begun.season, &place, args.name.as_ref())?;
        add(&settings.config_file, &carrier)?;
        carrier
    };
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
        let name = other.name.as_deref().unwrap_or("a season without a name");
        writeln!(context.out, "There lies also: {name} ({})", other.season)?;
    }
    done?;
    writeln!(context.out, "On another laptop: benchwalk share join {}", option(&place))?;
    Ok(())
}

/// True of a carrier of the season of the settings.
fn is_own(carrier: &CarrierSetting, context: &Context<'_>) -> bool {
    let store = crate::store::Store::open_read_only(&context.settings.season);
    store.ok().and_then(|store| store.season_id().ok().flatten()) == Some(carrier.season)
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
    let here = settings.sharer.of(joined.season).into_iter().find(|carrier| carrier.place == place);
    let carrier = if let Some(carrier) = here {
        // The file was lost, and its carrier is in the settings still.
        carrier
    } else {
        let carrier = setting(&settings.sharer, joined.season, &place, args.name.as_ref())?;
        add(&settings.config_file, &carrier)?;
        carrier
    };
    let laptop = settings.sharer.laptop.name.clone();
    let site = joined.site.unwrap_or_else(|| "The season".to_owned());
    let came = first_exchange(&path, carrier, context)?;
    writeln!(context.out, "{}: {site}, {}. This laptop is {laptop}.", shown(&path), lines::lines(came))?;
    if lying_at(&place, now).is_ok_and(|there| there.iter().any(|o| o.season == joined.season && !o.may_write)) {
        writeln!(context.out, "This laptop may only read it there: what is written here stays here.")?;
    }
    Ok(())
}
