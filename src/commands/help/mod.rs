//! `benchwalk help`: the commands and the topics, in one namespace.
//!
//! A topic is one Markdown file in this folder. The terminal and the manual page show the same text; what a topic lists
//! (kinds, fields, warnings) is generated from the tables that the program itself uses, so it cannot go out of date.
//! The examples in a topic are run by `tests/commands/examples.rs`.

mod layout;
mod tables;

use super::args::Cli;
use super::{CommandError, Context};
use clap::{Args, CommandFactory, Parser};

/// Options of `help`.
#[derive(Debug, Args)]
pub struct HelpArgs {
    /// A command, a command and its part (`mix feed`), or a topic.
    #[arg(value_name = "NAME")]
    pub names: Vec<String>,
}

/// A page of help that is not about one command.
#[derive(Debug, Clone, Copy)]
pub(super) struct Topic {
    /// The word after `benchwalk help`.
    pub(super) name: &'static str,
    /// Its Markdown; the first line is the title, and a line `{{name}}` stands for a generated list.
    source: &'static str,
}

/// Every topic, in the order of the lists.
pub(super) const TOPICS: [Topic; 12] = [
    Topic { name: "journal", source: include_str!("journal.md") },
    Topic { name: "sql", source: include_str!("sql.md") },
    Topic { name: "mixing", source: include_str!("mixing.md") },
    Topic { name: "trials", source: include_str!("trials.md") },
    Topic { name: "rules", source: include_str!("rules.md") },
    Topic { name: "dates", source: include_str!("dates.md") },
    Topic { name: "backups", source: include_str!("backups.md") },
    Topic { name: "spreadsheets", source: include_str!("spreadsheets.md") },
    Topic { name: "loggers", source: include_str!("loggers.md") },
    Topic { name: "scanning", source: include_str!("scanning.md") },
    Topic { name: "share", source: include_str!("share.md") },
    Topic { name: "last-year", source: include_str!("last-year.md") },
];

impl Topic {
    /// True where a command has the same name: then `help` shows the topic, and the command its own page by `--help`.
    pub(super) fn explains(&self, command: &clap::Command) -> bool {
        command.find_subcommand(self.name).is_some()
    }

    /// What the topic is about, in one line.
    pub(super) fn title(&self) -> &'static str {
        self.source.lines().next().unwrap_or_default().trim_start_matches("# ")
    }

    /// The Markdown with the generated lists in place.
    fn markdown(&self) -> String {
        let mut text = String::new();
        for line in self.source.lines() {
            let inserted = line.strip_prefix("{{").and_then(|rest| rest.strip_suffix("}}")).and_then(tables::table);
            if let Some(table) = inserted {
                text.push_str(&table);
            } else {
                text.push_str(line);
                text.push('\n');
            }
        }
        text
    }

    /// As plain text of at most 80 columns.
    pub(super) fn text(&self) -> String {
        layout::terminal(&self.markdown())
    }

    /// As a section of the manual page.
    pub(super) fn man(&self) -> String {
        layout::man(self.name, &self.markdown())
    }
}

/// Shown below the commands by `benchwalk --help`.
pub(super) fn list_of_topics() -> String {
    let mut text = "Topics:\n".to_owned();
    for topic in TOPICS {
        text.push_str(&format!("  {:<12} {}\n", topic.name, topic.title()));
    }
    text.push_str("\n`benchwalk help NAME` explains a command or a topic.");
    text
}

/// Prints the page of a command or topic; without a name, the list of both.
pub(super) fn run(args: &HelpArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let text = page(&args.names)?;
    context.out.write_all(text.as_bytes())?;
    context.out.flush()?;
    Ok(())
}

fn page(names: &[String]) -> Result<String, CommandError> {
    if let [name] = names
        && let Some(topic) = TOPICS.iter().find(|topic| topic.name == name)
    {
        return Ok(topic.text());
    }
    let command = Cli::command();
    if let [name, part, ..] = names
        && TOPICS.iter().any(|topic| topic.name == name && !topic.explains(&command))
    {
        let reason = format!("'{name}' is a topic, which has no part '{part}'");
        return Err(CommandError::NoHelp { path: "help".to_owned(), reason });
    }
    let mut found = &command;
    for (depth, name) in names.iter().enumerate() {
        let inside = names.get(..depth).unwrap_or_default();
        found = found.find_subcommand(name).ok_or_else(|| unknown(inside, name, &known(found, depth == 0)))?;
    }
    // The page is the one that `--help` shows, so it is asked for in the same way.
    let line = ["benchwalk"].into_iter().chain(names.iter().map(String::as_str)).chain(["--help"]);
    Ok(Cli::try_parse_from(line).map_or_else(|page| page.to_string(), |_| String::new()))
}

/// The names that can follow: subcommands, and at the top the topics too.
fn known(command: &clap::Command, top: bool) -> Vec<String> {
    let topics = TOPICS.iter().filter(|topic| top && !topic.explains(command)).map(|topic| topic.name.to_owned());
    command.get_subcommands().map(|sub| sub.get_name().to_owned()).chain(topics).collect()
}

fn unknown(inside: &[String], name: &str, known: &[String]) -> CommandError {
    let path = ["help".to_owned()].iter().chain(inside).cloned().collect::<Vec<_>>().join(" ");
    let reason = if known.is_empty() {
        format!("'{}' has no parts, so there is no '{name}' to explain", inside.join(" "))
    } else {
        format!("there is no '{name}'; known are {}", known.join(", "))
    };
    CommandError::NoHelp { path, reason }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn topics_and_commands_have_one_namespace_and_only_sharing_is_both() {
        let command = Cli::command();
        let both: Vec<&str> = TOPICS.iter().filter(|topic| topic.explains(&command)).map(|topic| topic.name).collect();
        assert_eq!(both, ["share"]);
        let mut names: Vec<&str> = command.get_subcommands().map(clap::Command::get_name).collect();
        names.extend(TOPICS.iter().map(|topic| topic.name).filter(|name| !both.contains(name)));
        let all = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), all, "{names:?}");
    }

    #[test]
    fn every_topic_fits_eighty_columns_and_keeps_no_markup() {
        for topic in TOPICS {
            let text = topic.text();
            for line in text.lines() {
                assert!(line.chars().count() <= 80, "{}: {line}", topic.name);
                // Comments of a journal and of a table begin with one such sign.
                let heading = line.starts_with("##");
                let markup = line.contains("```") || line.contains("{{") || heading;
                assert!(!markup, "{}: {line}", topic.name);
            }
            assert!(topic.title().len() <= 68, "{}", topic.title());
        }
    }
}
