//! `benchwalk trial plan`: the least difference that each number of blocks would show.

use super::super::arg_values::{self, Format, quantity, refused, term};
use super::super::{CommandError, Context};
use crate::terms::{Design, Term};
use crate::trials::{Against, Planned, Rules, planned};
use crate::units::{Length, Quantity, System};
use clap::{Args, ValueEnum};
use serde::Serialize;

/// Options of `trial plan`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: benchwalk trial plan --treatments 4 --matters 1in --sd 0.6in\n\nThe spread of plots (--sd) is that of \
                  pots of one treatment side by side, as measured on your own benches. It is never guessed."
)]
pub struct PlanArgs {
    /// How many treatments, the control among them.
    #[arg(long, value_parser = clap::value_parser!(u8).range(2..=24))]
    pub treatments: u8,
    /// The least difference that matters to you: a length such as 1in, or a plain number in the unit of the reading.
    #[arg(long, value_name = "DIFFERENCE")]
    pub matters: String,
    /// The standard deviation of plots of one treatment, in the same unit.
    #[arg(long, value_name = "SPREAD")]
    pub sd: String,
    /// What is compared: every treatment with every other, or each with the control.
    #[arg(long, value_enum, default_value_t = Compare::All)]
    pub compare: Compare,
    /// How the plots get their places.
    #[arg(long, value_parser = term::<Design>(), default_value = "randomized-blocks")]
    pub design: Design,
    /// How to print it.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
}

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Compare {
    /// Every treatment with every other (Tukey).
    All,
    /// Each with the control (Dunnett).
    Control,
}

#[derive(Debug, Serialize)]
struct Answer {
    treatments: u8,
    design: &'static str,
    compare: &'static str,
    matters: f64,
    sd: f64,
    unit: &'static str,
    rows: Vec<Row>,
    offered_blocks: usize,
    offered_plots: usize,
}

#[derive(Debug, Serialize)]
struct Row {
    blocks: usize,
    plots: usize,
    error_df: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    least_difference: Option<f64>,
}

/// Calculates and prints.
pub(super) fn run(args: &PlanArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    if !matches!(args.design, Design::RandomizedBlocks | Design::CompletelyRandomized) {
        let said =
            format!("'{}' is not planned here; give randomized-blocks or completely-randomized", args.design.code());
        return Err(refused("--design")(said));
    }
    let system = context.day_reader().system;
    let matters = amount("--matters", &args.matters, system)?;
    let sd = amount("--sd", &args.sd, system)?;
    if matters.1 != sd.1 {
        let said = format!("'{}' is in another unit than --matters '{}'; give both in one", args.sd, args.matters);
        return Err(refused("--sd")(said));
    }
    let against = match args.compare {
        Compare::All => Against::All,
        Compare::Control => Against::Control,
    };
    let rules = Rules::of(&context.settings.limits()?);
    let treatments = usize::from(args.treatments);
    let found = planned((args.design, treatments), (sd.0, matters.0), against, rules);
    let (rows, offered) = found.ok_or_else(|| {
        refused("--matters")("even 100 blocks do not show it; give a larger difference, or a smaller spread")
    })?;
    let row = |of: &Planned| Row {
        blocks: of.blocks,
        plots: of.blocks.saturating_mul(treatments),
        error_df: of.df,
        least_difference: of.seen,
    };
    let answer = Answer {
        treatments: args.treatments,
        design: args.design.code(),
        compare: if args.compare == Compare::All { "all" } else { "control" },
        matters: matters.0,
        sd: sd.0,
        unit: sd.1,
        rows: rows.iter().map(row).collect(),
        offered_blocks: offered,
        offered_plots: offered.saturating_mul(treatments),
    };
    arg_values::print(context, args.format, &text(&answer, args, rules), &answer)
}

/// A length in the units of the system, or a plain number; above zero. With the unit it is printed in.
fn amount(option: &'static str, typed: &str, system: System) -> Result<(f64, &'static str), CommandError> {
    let (value, unit) = if let Ok(number) = typed.trim().parse::<f64>() {
        (number, "")
    } else {
        let length: Length = quantity(option, typed, system)?;
        (length.in_system(system), if system == System::Us { "in" } else { "cm" })
    };
    if value.is_finite() && value > 0.0 {
        return Ok((value, unit));
    }
    Err(refused(option)(format!("'{typed}' is not above zero; type one such as 1in")))
}

/// A share as so many of so many: 1 of 20, 4 of 5, else of a hundred.
fn of_times(share: f64) -> (f64, f64) {
    let part = share.min(1.0 - share);
    let times = (1.0 / part).round();
    if (times * part - 1.0).abs() > 1e-9 {
        return ((share * 100.0).round(), 100.0);
    }
    (if share < 0.5 { 1.0 } else { times - 1.0 }, times)
}

fn text(answer: &Answer, args: &PlanArgs, rules: Rules) -> String {
    let unit = if answer.unit.is_empty() { String::new() } else { format!(" {}", answer.unit) };
    let compared = match args.compare {
        Compare::All => "every treatment with every other",
        Compare::Control => "each treatment with the control",
    };
    let ((found, of), (chance, among)) = (of_times(rules.power), of_times(rules.alpha));
    let (name, one) = match args.design {
        Design::CompletelyRandomized => ("plots each", "completely randomized"),
        _ => ("blocks", "in blocks, every treatment in each"),
    };
    let mut out = format!(
        "{} treatments, {one}; comparing {compared}\nplots of one treatment differ by {}{unit} (standard deviation); {}{unit} matters\n\n",
        answer.treatments, answer.sd, answer.matters
    );
    out.push_str(&format!("  {name:>10}  plots  error df  least difference found {found} times in {of}\n"));
    for row in &answer.rows {
        let mark = if row.blocks == answer.offered_blocks { "*" } else { " " };
        let least = row.least_difference.map_or_else(|| "none".to_owned(), |d| format!("{d:.2}{unit}"));
        out.push_str(&format!("{mark} {:>10}  {:>5}  {:>8}  {least}\n", row.blocks, row.plots, row.error_df));
    }
    out.push_str(&format!(
        "\n* the fewest {name} that show what matters and leave {} degrees of freedom: {} plots\n\
         At most {chance} in {among} trials without any difference shows one. Blocks lie across the way in which growth differs;\n\
         each rate in a spot of its own cannot be told apart from the spot, however many pots it has.\n",
        rules.good_df,
        answer.offered_plots
    ));
    out
}
