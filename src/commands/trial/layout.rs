//! `benchwalk trial layout`: draws the layout of a trial and prints its lines for `import`.

use super::super::arg_values::{self, quantity, refused, term};
use super::super::edge::say;
use super::super::{CommandError, Context};
use crate::journal;
use crate::record::typed::Facing;
use crate::record::{FieldFault, Line, Revision, Trial, codec};
use crate::report::trial::laying::not_laid;
use crate::season::Season;
use crate::season::places::{self, Meant};
use crate::terms::{Design, Term, TrialReading};
use crate::trials::{Differ, Stand, Wanted, place, question_of, seed_of};
use crate::units::{Length, System};
use clap::{Args, ValueEnum};

/// Options of `trial layout`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: benchwalk trial layout --trial T1 --lot R6 --rates 0,4,8,12 --blocks 6 --bench M4 --grid 6x4 > t1.jsonl\n\n\
                  It reads the season for houses and lots where there is one, and writes nothing: import the lines it prints. \
                  The same seed draws the same layout again."
)]
pub struct LayoutArgs {
    /// The code of the trial, 1 to 10 letters, digits or -.
    #[arg(long, value_name = "CODE")]
    trial: String,
    /// The lot it is made with; left out, the one on the first bench.
    #[arg(long)]
    lot: Option<String>,
    /// What it asks, in words.
    #[arg(long, value_name = "WORDS")]
    question: Option<String>,
    /// Rates of one thing, ascending, such as 0,4,8,12.
    #[arg(long, value_delimiter = ',', required_unless_present = "treatments")]
    rates: Vec<f64>,
    /// The unit of the rates.
    #[arg(long, value_name = "UNIT", default_value = "g per pot")]
    rate_unit: String,
    /// Treatments by name, where they are not rates, or under other names than their rates.
    #[arg(long, value_delimiter = ',')]
    treatments: Vec<String>,
    /// The treatment that the others are compared with; left out, rate 0 where there is one.
    #[arg(long, value_name = "TREATMENT")]
    control: Option<String>,
    /// How often the control stands in each block.
    #[arg(long, value_name = "TIMES", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=10))]
    control_plots: u8,
    /// How the plots get their places.
    #[arg(long, value_parser = term::<Design>(), default_value = "randomized-blocks")]
    design: Design,
    /// Blocks; plots of each treatment where the design has none.
    #[arg(long)]
    blocks: u16,
    /// Benches: codes, or a row such as M1-M8.
    #[arg(long, value_name = "BENCHES")]
    bench: String,
    /// Rows by columns of places on each bench; 1x1 where a whole bench is one plot.
    #[arg(long, value_name = "ROWSxCOLUMNS", default_value = "1x1")]
    grid: String,
    /// Which way the places differ most; blocks lie across it.
    #[arg(long, value_enum, default_value_t = Way::Unknown)]
    differ: Way,
    /// Pots of each plot.
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pots: u32,
    /// The 8 digits it is drawn with; left out, they are drawn now and shown.
    #[arg(long)]
    seed: Option<String>,
    /// What is read, the main reading first.
    #[arg(long, value_delimiter = ',', value_parser = term::<TrialReading>(), default_value = "height")]
    reads: Vec<TrialReading>,
    /// Days from one reading to the next; 7 when left out.
    #[arg(long, value_name = "DAYS")]
    every: Option<u32>,
    /// The first day of readings; today when left out.
    #[arg(long, value_name = "DAY")]
    from: Option<String>,
    /// The last day of readings.
    #[arg(long, value_name = "DAY")]
    until: Option<String>,
    /// The difference that matters, of the main reading: a length such as 1in, or a plain number.
    #[arg(long, value_name = "DIFFERENCE")]
    matters: Option<String>,
    /// A ring of guard pots stands around the plots.
    #[arg(long)]
    guard: bool,
    /// What lies beside the first column, such as aisle.
    #[arg(long, value_name = "WORD")]
    near: Option<String>,
    /// What lies beside the last column, such as wall.
    #[arg(long, value_name = "WORD")]
    far: Option<String>,
    /// Feed runs together on the bench: rates of feed cannot differ from pot to pot.
    #[arg(long)]
    shared_feed: bool,
}

/// Which way the places differ most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Way {
    /// Not known: taken to be along the longer side of the bench.
    Unknown,
    /// From row to row.
    Rows,
    /// From column to column.
    Columns,
    /// From bench to bench.
    Benches,
    /// From house to house.
    Houses,
}

impl From<Way> for Differ {
    fn from(way: Way) -> Self {
        match way {
            Way::Unknown => Self::Unknown,
            Way::Rows => Self::Rows,
            Way::Columns => Self::Columns,
            Way::Benches => Self::Benches,
            Way::Houses => Self::Houses,
        }
    }
}

/// Draws and prints.
pub(super) fn run(args: &LayoutArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let season = context.season().ok();
    let drawn = seed_of(context.clock.id());
    let (trial, wanted) = (trial(args, season.as_ref(), &drawn, context)?, wanted(args, season.as_ref(), &drawn)?);
    let plots = place(&wanted).map_err(|why| refused(blame(args))(not_laid(&why, &wanted)))?;
    let lines: Vec<Line> = std::iter::once(Line::Trial(trial)).chain(plots.into_iter().map(Line::Plot)).collect();
    for line in &lines {
        let read = codec::decode(&codec::encode(line), codec::VERSION);
        let said = |fault: &FieldFault| format!("{} {}", fault.field, fault.text);
        read.map_err(|faults| refused("trial layout")(faults.iter().map(said).collect::<Vec<_>>().join("; ")))?;
    }
    if args.seed.is_none() {
        say(&format!("seed {drawn}, drawn now; --seed {drawn} draws the same layout again"), context.err)?;
    }
    context.out.write_all(journal::write_lines(None, &lines).as_bytes())?;
    Ok(())
}

/// The option that a layout which does not fit is said of.
const fn blame(args: &LayoutArgs) -> &'static str {
    if matches!(args.design, Design::AsLaid) { "--design" } else { "--grid" }
}

fn wanted(args: &LayoutArgs, season: Option<&Season>, drawn: &str) -> Result<Wanted, CommandError> {
    let treatments = treatments(args)?;
    let control = control(args);
    let share = |name: &String| if Some(name) == control.as_ref() { usize::from(args.control_plots) } else { 1 };
    let (rows, columns) = grid(&args.grid).map_err(refused("--grid"))?;
    Ok(Wanted {
        trial: args.trial.clone(),
        shares: treatments.iter().map(share).collect(),
        treatments,
        design: args.design,
        seed: args.seed.clone().unwrap_or_else(|| drawn.to_owned()),
        benches: benches(&args.bench, season, args.differ).map_err(refused("--bench"))?,
        rows,
        columns,
        blocks: usize::from(args.blocks),
        differ: args.differ.into(),
        pots: args.pots,
    })
}

/// Rows by columns: `6x4`.
fn grid(typed: &str) -> Result<(u32, u32), String> {
    let side = |text: &str| text.trim().parse::<u32>().ok().filter(|n| (1..=1_000).contains(n));
    let parts = typed.split_once(['x', 'X', '*']);
    let read = parts.and_then(|(rows, columns)| Some((side(rows)?, side(columns)?)));
    read.ok_or_else(|| format!("'{typed}' is not rows by columns; give such as 6x4"))
}

/// The benches in walking order; without a season those given, in the order given.
fn benches(typed: &str, season: Option<&Season>, differ: Way) -> Result<Vec<Stand>, String> {
    if let Some(season) = season {
        let codes = places::read(season, typed, Meant::EveryBench).map_err(|no| no.to_string())?;
        let of = |code: String| {
            let house = season.bench(&code).map(|bench| bench.house.clone()).unwrap_or_default();
            Stand { bench: code, house }
        };
        return Ok(codes.into_iter().map(of).collect());
    }
    if differ == Way::Houses {
        return Err("without a season the houses of benches are not known; give --season, or other blocks".to_owned());
    }
    let codes = typed.split([',', ' ']).map(str::trim).filter(|code| !code.is_empty());
    Ok(codes.map(|code| Stand { bench: code.to_owned(), house: String::new() }).collect())
}

/// The treatments by name: those given, else the rates with the first word of their unit.
fn treatments(args: &LayoutArgs) -> Result<Vec<String>, CommandError> {
    if args.treatments.is_empty() {
        let unit = args.rate_unit.split_whitespace().next().unwrap_or_default();
        return Ok(args.rates.iter().map(|rate| format!("{rate} {unit}").trim_end().to_owned()).collect());
    }
    if !args.rates.is_empty() && args.rates.len() != args.treatments.len() {
        let said = format!("{} names for {} rates; give one for each", args.treatments.len(), args.rates.len());
        return Err(refused("--treatments")(said));
    }
    Ok(args.treatments.iter().map(|name| name.trim().to_owned()).collect())
}

fn control(args: &LayoutArgs) -> Option<String> {
    let zero = || {
        let at = args.rates.iter().position(|rate| rate.abs() < f64::EPSILON)?;
        treatments(args).ok()?.into_iter().nth(at)
    };
    args.control.clone().or_else(zero)
}

fn trial(
    args: &LayoutArgs,
    season: Option<&Season>,
    drawn: &str,
    context: &Context<'_>,
) -> Result<Trial, CommandError> {
    let day = |option, typed: &Option<String>| {
        typed.as_ref().map(|typed| arg_values::day(option, (typed, Facing::Ahead), None, context)).transpose()
    };
    let system = season.and_then(Season::site).map_or(System::Us, |site| site.units);
    let today = season.map_or_else(|| context.written_at().date_naive(), |season| context.day(season));
    let standing = || {
        let season = season?;
        let first = places::read(season, &args.bench, Meant::EveryBench).ok()?.into_iter().next()?;
        season.standing(&first, today).map(|standing| standing.lot)
    };
    let lot = args.lot.clone().or_else(standing).ok_or_else(|| {
        refused("--lot")("is missing, and no season says which lot stands on the bench; give its code")
    })?;
    let treatments = treatments(args)?;
    let has_rates = !args.rates.is_empty();
    let unit = has_rates.then_some(args.rate_unit.as_str());
    let question = args.question.clone().unwrap_or_else(|| question_of(treatments.len(), unit));
    Ok(Trial {
        trial: args.trial.clone(),
        lot,
        question,
        control: control(args),
        rates: has_rates.then(|| args.rates.clone()),
        rate_unit: has_rates.then(|| args.rate_unit.clone()),
        treatments,
        design: args.design,
        seed: Some(args.seed.clone().unwrap_or_else(|| drawn.to_owned())),
        drawn: None,
        reads: args.reads.clone(),
        every_days: args.every,
        from: day("--from", &args.from)?.unwrap_or(today),
        until: day("--until", &args.until)?,
        matters: args.matters.as_ref().map(|typed| matters(typed, &args.reads, system)).transpose()?,
        guard: args.guard,
        near_side: args.near.clone(),
        far_side: args.far.clone(),
        shared_feed: args.shared_feed,
        ended_because: None,
        revision: Revision::default(),
    })
}

/// The difference that matters, in the unit the main reading is kept in.
fn matters(typed: &str, reads: &[TrialReading], system: System) -> Result<f64, CommandError> {
    match reads.first() {
        Some(TrialReading::Height | TrialReading::BractWidth) => {
            Ok(quantity::<Length>("--matters", typed, system)?.cm())
        }
        reading => {
            let of = reading.map_or("the main reading", |reading| reading.text());
            typed.trim().parse().map_err(|_no_number| {
                refused("--matters")(format!("'{typed}' is no number; give one in the unit of {of}"))
            })
        }
    }
}
