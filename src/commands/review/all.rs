//! `benchwalk review --all`: one evening review over many season files, read and assessed two at a time.

use super::{ReviewArgs, ReviewFormat, of_season};
use crate::clock::{Clock, day};
use crate::commands::{CommandError, Context};
use crate::dates::{Tz, at_local};
use crate::exchange::LaptopState;
use crate::files::shown;
use crate::limits::Limits;
use crate::progress::{Step, Work};
use crate::report::sites;
use crate::review::{Heard, Laptop, NotReviewed, SameSeason, SiteReview, Sites};
use crate::season::Season;
use crate::session::sites::{Files, Held, Other, find, read};
use crate::store::StoreError;
use chrono::{DateTime, NaiveDate, Utc};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Duration;

/// Files that are read and assessed at one time.
const AT_ONCE: usize = 2;

/// How often the progress is shown, and whether to stop is asked, while files are assessed.
const LOOK: Duration = Duration::from_millis(50);

/// What a file came to.
type Came = Result<SiteReview, NotReviewed>;

/// How each file is reviewed.
struct How<'a> {
    on: Option<NaiveDate>,
    limits: Limits,
    limits_name: String,
    now: DateTime<Utc>,
    clock: &'a dyn Clock,
}

impl How<'_> {
    /// The instant up to which lines count as heard: now, or the end of a later day that was asked for.
    fn read_at(&self, zone: Tz) -> DateTime<Utc> {
        let end = self.on.and_then(|on| at_local(zone, on.and_hms_opt(23, 59, 59)?));
        end.map_or(self.now, |end| self.now.max(end.with_timezone(&Utc)))
    }
}

/// Prints the review over many sites.
pub(super) fn run(args: &ReviewArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let how = How {
        on: context.settings.on,
        limits: context.settings.limits()?,
        limits_name: context.settings.limits_name(),
        now: context.clock.now(),
        clock: context.clock,
    };
    let files = find(&args.all)?;
    let (reviewed, mut not_reviewed) = review(&files.seasons, &how)?;
    let on = day(context.clock, None, how.on);
    let mut all = Sites::of(on, reviewed, how.limits_name);
    let Files { others, unread, .. } = files;
    not_reviewed.extend(unread.into_iter().map(|unread| NotReviewed { file: shown(&unread.path), why: unread.why }));
    not_reviewed.sort_by(|a, b| a.file.cmp(&b.file));
    all.not_reviewed = not_reviewed;
    let same = |of: Other| SameSeason { file: shown(&of.path), used: shown(&of.used), lacking: of.lacking };
    all.same_season = others.into_iter().map(same).collect();
    let text = match args.format {
        ReviewFormat::Text => sites::text(&all),
        ReviewFormat::Html => sites::html(&all),
        ReviewFormat::Json => sites::json(&all).map_err(std::io::Error::from)?,
    };
    context.print(whole, &text)?;
    match all.not_reviewed.len() {
        0 => Ok(()),
        files => Err(CommandError::NotAllReviewed { files }),
    }
}

/// Reviews all files; those that cannot be reviewed come by themselves.
fn review(files: &[PathBuf], how: &How<'_>) -> Result<(Vec<SiteReview>, Vec<NotReviewed>), CommandError> {
    let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
    let (came, coming) = channel();
    std::thread::scope(|scope| {
        for _ in 0..AT_ONCE.min(files.len()) {
            let came = came.clone();
            let (next, stop) = (&next, &stop);
            scope.spawn(move || work(files, how, (next, stop), &came));
        }
        drop(came);
        let collected = collect(files.len(), &coming);
        // The threads end with the file they are at.
        stop.store(true, Ordering::Relaxed);
        collected
    })
}

/// What one thread does: one file after the other, until none is left.
fn work(files: &[PathBuf], how: &How<'_>, (next, stop): (&AtomicUsize, &AtomicBool), came: &Sender<Came>) {
    while !stop.load(Ordering::Relaxed) {
        let Some(path) = files.get(next.fetch_add(1, Ordering::Relaxed)) else { return };
        if came.send(one(path, how)).is_err() {
            return;
        }
    }
}

/// Waits for what the threads send.
fn collect(files: usize, coming: &Receiver<Came>) -> Result<(Vec<SiteReview>, Vec<NotReviewed>), CommandError> {
    let (mut reviewed, mut not_reviewed) = (Vec::new(), Vec::new());
    let mut step = Work::begin(Step::ReviewSites, files);
    loop {
        match coming.recv_timeout(LOOK) {
            Ok(Ok(site)) => reviewed.push(site),
            Ok(Err(why)) => not_reviewed.push(why),
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => return Ok((reviewed, not_reviewed)),
        }
        step.reached(reviewed.len().saturating_add(not_reviewed.len())).map_err(StoreError::from)?;
    }
}

/// A laptop, as it is named; one that does not call itself anything by the stream it writes.
fn laptop(state: &LaptopState) -> Laptop {
    Laptop { known_to: state.known_to, name: state.name.clone().unwrap_or_else(|| state.stream.laptop()) }
}

/// Reviews one file, on the day of its own site.
fn one(path: &Path, how: &How<'_>) -> Came {
    let file = shown(path);
    let not_reviewed = |why: String| NotReviewed { file: file.clone(), why };
    let Held { plan, entries, origins, laptops } = read(path).map_err(|unread| not_reviewed(unread.why))?;
    let mut season = Season::new(plan, entries);
    season.add_origins(&origins);
    let no_site = || not_reviewed("no site in it yet; import a journal with a site line".to_owned());
    let zone = season.site().map(|site| site.time_zone).ok_or_else(no_site)?;
    let on = day(how.clock, Some(zone), how.on);
    let laptops = laptops.iter().map(laptop);
    let heard = Heard::of(season.entries().iter().map(|entry| entry.at), laptops, zone, how.read_at(zone));
    let season = season.on(on);
    let review = of_season(&season, on, (&how.limits, how.limits_name.clone()), how.now).ok_or_else(no_site)?;
    Ok(SiteReview { name: review.site.name.clone(), file, review, heard })
}
