//! `benchwalk completions` and `benchwalk man`: both are made from the command definitions and the help topics.

use super::args::Cli;
use super::help::TOPICS;
use super::{CommandError, Context};
use clap::{Args, Command, CommandFactory};
use std::io::Write;

/// Options of `completions`.
#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    shell: clap_complete::Shell,
}

/// Prints the completions of a shell.
pub(super) fn completions(args: &CompletionsArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let mut text = Vec::new();
    let mut command = Cli::command();
    let pages: Vec<Command> = command
        .get_subcommands()
        .map(page_of)
        .chain(
            TOPICS
                .iter()
                .filter(|topic| !topic.explains(&command))
                .map(|topic| Command::new(topic.name).about(topic.title())),
        )
        .collect();
    command = command.mut_subcommand("help", |help| {
        let about = help.get_about().cloned().unwrap_or_default();
        Command::new("help").about(about).subcommands(pages)
    });
    clap_complete::generate(args.shell, &mut command, "benchwalk", &mut text);
    context.out.write_all(&text)?;
    context.out.flush()?;
    Ok(())
}

/// The name of a command and its parts, as `help` takes them.
fn page_of(command: &Command) -> Command {
    // clap wants names that live as long as the program, which here ends after printing.
    let name: &'static str = command.get_name().to_owned().leak();
    let about = command.get_about().cloned().unwrap_or_default();
    Command::new(name).about(about).subcommands(command.get_subcommands().map(page_of))
}

/// Prints the manual page: the program's own, then one section for each command and each help topic.
pub(super) fn page(context: &mut Context<'_>) -> Result<(), CommandError> {
    let mut command = Cli::command();
    command.build();
    let mut text = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut text)?;
    for sub in command.get_subcommands() {
        let man = clap_mangen::Man::new(sub.clone());
        writeln!(text, ".SH \"COMMAND {}\"", sub.get_name().to_uppercase())?;
        man.render_description_section(&mut text)?;
        man.render_options_section(&mut text)?;
    }
    for topic in TOPICS {
        text.write_all(topic.man().as_bytes())?;
    }
    context.out.write_all(&text)?;
    context.out.flush()?;
    Ok(())
}
