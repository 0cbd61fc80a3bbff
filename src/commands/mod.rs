//! The command line: one file a command, each thin.
//!
//! A command reads its arguments, opens what it needs, asks the modules that know, and writes to [`Context::out`]. Only `import`
//! and the screens create or change a season file; everything else opens it read-only. To add a command: its file here, its
//! variant in [`args::Action`], its arm in `run`.

mod applications;
mod arg_values;
pub mod args;
mod backup;
mod calendar;
mod climate;
mod close;
mod compare;
mod demo;
pub mod edge;
mod error;
mod export;
mod help;
mod import;
mod labels;
mod left_behind;
mod limits;
mod location;
mod log;
mod manual;
mod mix;
mod night;
pub mod progress;
mod restore;
mod review;
mod screens;
mod season;
mod settings;
mod share;
mod sheet;
mod shell;
mod trial;
mod version;

pub use error::CommandError;
pub use progress::ProgressLine;
pub use settings::{Folders, Settings};

use crate::clock::{self, Clock};
use crate::dates::Tz;
use crate::progress::{Work, go_on, watched};
use crate::record::typed::{DayReader, Facing};
use crate::season::Season;
use crate::session::origins_of;
use crate::store::{Store, StoreError};
use crate::units::System;
use args::{Action, Cli};
use chrono::{DateTime, FixedOffset, NaiveDate};
use clap::Parser;
use std::ffi::OsString;
use std::io::{self, ErrorKind, Read, Write};
use std::rc::Rc;

/// Everything a command uses of its environment, so that tests can replace all of it.
pub struct Context<'a> {
    /// Standard output.
    pub out: &'a mut dyn Write,
    /// Standard error.
    pub err: &'a mut dyn Write,
    /// Standard input.
    pub input: &'a mut dyn Read,
    /// The clock.
    pub clock: &'a dyn Clock,
    /// The platform's folders.
    pub folders: Folders,
    /// The global options with the config file behind them; filled in by [`run_from`].
    pub settings: Settings,
    /// How far the work of a command got.
    pub line: Rc<ProgressLine>,
    /// Opens the screens on `settings`.
    pub screens: fn(&mut Context<'_>) -> Result<(), CommandError>,
}

impl<'a> Context<'a> {
    /// A context of these streams, this clock and these folders.
    pub fn new(
        (out, err, input): (&'a mut dyn Write, &'a mut dyn Write, &'a mut dyn Read),
        clock: &'a dyn Clock,
        folders: Folders,
    ) -> Self {
        let line = Rc::new(ProgressLine::silent());
        Self { out, err, input, clock, folders, settings: Settings::default(), line, screens: screens::open }
    }
}

impl Context<'_> {
    /// The season of the settings, opened read-only, with the plan as it stood on the day to work on.
    ///
    /// # Errors
    /// When there is none or it cannot be read.
    pub(crate) fn season(&self) -> Result<Season, CommandError> {
        let store = Store::open_read_only(&self.settings.season)?;
        let ((plan, entries), origins) = (store.load()?, origins_of(&store)?);
        store.close()?;
        let mut season = Season::new(plan, entries);
        season.add_origins(&origins);
        let day = self.day(&season);
        Ok(season.on(day))
    }

    /// Fails where the command was asked to stop: to be tried before anything is written out.
    ///
    /// # Errors
    /// [`StoreError::Stopped`].
    pub(crate) fn go_on() -> Result<(), CommandError> {
        Ok(go_on().map_err(StoreError::from)?)
    }

    /// Ends the work of a command, and prints what came of it.
    ///
    /// # Errors
    /// [`StoreError::Stopped`] where the command was asked to stop: then nothing is printed.
    fn print(&mut self, whole: Work, text: &str) -> Result<(), CommandError> {
        Self::go_on()?;
        drop(whole);
        self.out.write_all(text.as_bytes())?;
        self.out.flush()?;
        Ok(())
    }

    /// The zone of the season's site, where there is one.
    fn zone(&self) -> Option<Tz> {
        let plan = Store::open_read_only(&self.settings.season).and_then(|store| store.load_plan());
        plan.ok().and_then(|plan| Season::new(plan, Vec::new()).site().map(|site| site.time_zone))
    }

    /// What days typed on the command line are read by: the season file, where there is one that can be read.
    pub(crate) fn day_reader(&self) -> DayReader {
        let plan = Store::open_read_only(&self.settings.season).and_then(|store| store.load_plan());
        let season = Season::new(plan.unwrap_or_default(), Vec::new());
        let system = season.site().map_or(System::Us, |site| site.units);
        DayReader { today: self.day(&season), system, season: season.planned_days() }
    }

    /// When a line of the plan is written now: in the zone of the season's site, where there is one, on the day of `--on`.
    fn written_at(&self) -> DateTime<FixedOffset> {
        clock::stamp(self.clock, self.zone(), self.settings.on)
    }

    /// The day to work on: `--on`, else today at the site.
    pub(crate) fn day(&self, season: &Season) -> NaiveDate {
        clock::day(self.clock, season.site().map(|site| site.time_zone), self.settings.on)
    }
}

/// Runs the program on its arguments (the first is the program's own name) and returns its exit code: 0 done, 1 the command
/// failed (said on standard error), 2 usage error.
pub fn run_from<I, T>(arguments: I, context: &mut Context<'_>) -> u8
where
    I: IntoIterator<Item = T>,
    T: Into<OsString> + Clone,
{
    let cli = match Cli::try_parse_from(arguments) {
        Ok(cli) => cli,
        Err(error) => return answer(&error, context),
    };
    let on = cli.global.on.clone();
    let done = Settings::resolve(cli.global, &context.folders).and_then(|settings| {
        context.settings = settings;
        let on = on.map(|typed| arg_values::day("--on", (&typed, Facing::Back), None, context)).transpose()?;
        context.settings.on = on;
        log::start(&context.folders);
        if left_behind::concerns(cli.action.as_ref()) {
            left_behind::tell(context);
        }
        let line = Rc::clone(&context.line);
        line.set_ascii(screens::is_ascii(context.settings.ascii));
        watched(line, || run(cli.action, context))?;
        Ok(context.out.flush()?)
    });
    match done {
        Ok(()) => 0,
        Err(CommandError::Output(error)) if has_read_enough(&error) => 0,
        Err(error) if error.is_stop() => edge::report(CommandError::Stopped(context.line.asked()), context.err),
        Err(error) => edge::report(error, context.err),
    }
}

/// One command.
fn run(action: Option<Action>, context: &mut Context<'_>) -> Result<(), CommandError> {
    match action {
        None => (context.screens)(context),
        Some(Action::Demo(args)) => demo::run(&args, context),
        Some(Action::Import(args)) => import::run(&args, context),
        Some(Action::Export(args)) => export::run(&args, context),
        Some(Action::Backup(args)) => backup::run(&args, context),
        Some(Action::Restore(args)) => restore::run(&args, context),
        Some(Action::Review(args)) => review::run(&args, context),
        Some(Action::Season(args)) => season::run(&args, context),
        Some(Action::Close(args)) => close::run(&args, context),
        Some(Action::Applications(args)) => applications::run(&args, context),
        Some(Action::Labels(args)) => labels::run(&args, context),
        Some(Action::Compare(args)) => compare::run(&args, context),
        Some(Action::Share(args)) => share::run(&args, context),
        Some(Action::Sheet(args)) => sheet::run(&args, context),
        Some(Action::Completions(args)) => manual::completions(&args, context),
        Some(Action::Man) => manual::page(context),
        Some(Action::Help(args)) => help::run(&args, context),
        Some(Action::Mix(args)) => mix::run(&args, context),
        Some(Action::Limits) => limits::run(context),
        Some(Action::Night(args)) => night::run(&args, context),
        Some(Action::Trial(args)) => trial::run(&args, context),
        Some(Action::Calendar(args)) => calendar::run(&args, context),
        Some(Action::Climate(args)) => climate::run(&args, context),
    }
}

/// Help and version are answers; everything else clap says is a usage error.
fn answer(error: &clap::Error, context: &mut Context<'_>) -> u8 {
    if error.use_stderr() {
        // Where even standard error is gone only the exit code is left to say it.
        edge::say(&error.to_string(), context.err).ok();
        return 2;
    }
    let written = write!(context.out, "{error}").and_then(|()| context.out.flush());
    match written {
        Err(error) if !has_read_enough(&error) => edge::report(error.into(), context.err),
        _ => 0,
    }
}

/// True where the reader of a pipe went: it has read enough. Of a pipe with a name, which is what some shells of Windows make,
/// that system says in words of its own that nobody is at the other end.
fn has_read_enough(error: &io::Error) -> bool {
    const NOT_CONNECTED: i32 = 233;
    error.kind() == ErrorKind::BrokenPipe || cfg!(windows) && error.raw_os_error() == Some(NOT_CONNECTED)
}
