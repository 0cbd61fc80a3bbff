//! `benchwalk completions` and `benchwalk man`: both come from the command definitions, so they cannot lie.

use super::args::{Cli, CompletionsArgs};
use super::{CommandError, Context};
use clap::CommandFactory;
use std::io::Write;

/// Prints the completions of a shell.
pub(super) fn completions(args: &CompletionsArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), "benchwalk", &mut text);
    context.out.write_all(&text)?;
    context.out.flush()?;
    Ok(())
}

/// Prints the manual page: the program's own, then one section for each command.
pub(super) fn page(context: &mut Context<'_>) -> Result<(), CommandError> {
    let mut command = Cli::command();
    command.build();
    let mut text = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut text)?;
    for sub in command.get_subcommands().filter(|c| c.get_name() != "help") {
        let man = clap_mangen::Man::new(sub.clone());
        writeln!(text, ".SH \"COMMAND {}\"", sub.get_name().to_uppercase())?;
        man.render_description_section(&mut text)?;
        man.render_options_section(&mut text)?;
    }
    context.out.write_all(&text)?;
    context.out.flush()?;
    Ok(())
}
