//! `benchwalk share mirror`: a file of every season that lies in a folder or on a hub, to be read only.

use super::on::{Where, of};
use crate::commands::{CommandError, Context};
use crate::exchange::CarrierState;
use crate::files::shown;
use crate::progress::Work;
use crate::report::share::{lines::lines, notes};
use crate::session::share::{Mirrored, NotMirrored, mirror};
use chrono::{DateTime, Utc};
use clap::Args;
use std::path::PathBuf;

/// Options of `share mirror`.
#[derive(Debug, Args)]
#[command(
    after_help = "Each season that may be read gets a file, named by its site, and brought up to date the next time; nothing is given \
                  and nothing can be typed into it. `benchwalk review --all DIR` reviews all of them. The exit code is 1 where a \
                  season is not up to date; the others are.\n\n\
                  Example: benchwalk share mirror --folder /media/ml/BENCH mirror && benchwalk review --all mirror"
)]
pub struct MirrorArgs {
    #[command(flatten)]
    place: Where,
    /// The folder of the files; made where it is missing.
    #[arg(value_name = "DIR")]
    to: PathBuf,
}

/// Makes the files, or brings them up to date.
pub(super) fn run(args: &MirrorArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let (place, now) = (args.place.place()?, context.clock.now());
    let all = mirror(&place, &args.to, now).map_err(of)?;
    let late = all.iter().filter(|season| !is_up_to_date(season)).count();
    let said: String =
        all.iter().flat_map(|season| said(season, now)).fold(String::new(), |out, line| out + &line + "\n");
    let none = format!("no season that may be read lies in {place}\n");
    context.print(whole, if all.is_empty() { &none } else { &said })?;
    match late {
        0 => Ok(()),
        late if late == all.len() => Err(CommandError::Share("no season is up to date".to_owned())),
        1 => Err(CommandError::Share("1 season is not up to date; the others are".to_owned())),
        late => Err(CommandError::Share(format!("{late} seasons are not up to date; the others are"))),
    }
}

/// True where all that lies there is in the file.
fn is_up_to_date(season: &Mirrored) -> bool {
    season.failed.is_none() && season.did.damaged.is_empty()
}

/// What is said of a season: what came, or why not, and a line for each thing besides.
fn said(season: &Mirrored, now: DateTime<Utc>) -> Vec<String> {
    let name = season.offered.name.clone().unwrap_or_else(|| format!("season {}", season.offered.season));
    let came = match season.did.taken {
        0 => "nothing new".to_owned(),
        n => format!("{} came", lines(n)),
    };
    let file = shown(&season.path);
    let first = match &season.failed {
        None => format!("{name}: {came}: {file}"),
        Some(why) if season.did.taken == 0 => format!("{name}: NOT UP TO DATE: {}", reason(why, season)),
        Some(why) => format!("{name}: {came}, NOT UP TO DATE: {}", reason(why, season)),
    };
    let carrier = CarrierState { name, did: season.did.clone(), ..CarrierState::default() };
    std::iter::once(first).chain(notes(&carrier, now)).collect()
}

fn reason(why: &NotMirrored, season: &Mirrored) -> String {
    match why {
        NotMirrored::Carrier(error) => error.to_string(),
        NotMirrored::Store(error) => error.to_string(),
        NotMirrored::OtherSeason => {
            format!("{} is the mirror of another season; move it away, or use another folder", shown(&season.path))
        }
    }
}
