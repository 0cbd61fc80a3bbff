//! The key table: what a key does in each context. The hint row, the help page and the look-up read the same rows, so they agree.
//!
//! A new screen adds one file of rows here, its context to [`Context`], and what its keys do to [`Command`].

mod command;
mod context;
mod rows;

pub use command::Command;
pub use context::Context;

use crate::input::{Code, Key};

/// The keys of a row.
#[derive(Debug, Clone, Copy)]
pub enum Keys {
    /// Each of these, written as [`Key::row`] reads them; the first is the one hints show.
    These(&'static [&'static str]),
    /// The digits from one to another.
    Digits(u8, u8),
}

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// Where it holds.
    pub context: Context,
    /// The keys.
    pub keys: Keys,
    /// What they do. For digits the command carries 0 and the look-up fills in the digit.
    pub command: Command,
    /// One or two words for the hint row; empty: not shown there.
    pub hint: &'static str,
    /// One line for the help page.
    pub help: &'static str,
}

impl Row {
    /// Its keys as the help shows them: `j, Down`, `0-9`.
    pub fn shown(&self) -> String {
        match self.keys {
            Keys::Digits(from, to) => format!("{from}-{to}"),
            Keys::These(names) => names.iter().map(|n| shown(n)).collect::<Vec<_>>().join(", "),
        }
    }

    /// The first of its keys, for the hint row.
    pub fn first_shown(&self) -> String {
        match self.keys {
            Keys::Digits(from, to) => format!("{from}-{to}"),
            Keys::These(names) => names.first().map(|n| shown(n)).unwrap_or_default(),
        }
    }

    /// The key for the hint row of a context: the first that is a command there.
    pub fn hint_key(&self, context: Context) -> String {
        let heard = self.bindings().into_iter().find(|(key, command)| context.hears(*command, *key));
        match (self.keys, heard) {
            // Before "next bench" the name alone would read as a word of the hint.
            (Keys::These(_), Some((key, _))) if key.code == Code::Right => format!("{key}-arrow"),
            (Keys::These(_), Some((key, _))) => key.to_string(),
            _ => self.first_shown(),
        }
    }

    /// Every key of the row with its command.
    pub fn bindings(&self) -> Vec<(Key, Command)> {
        match self.keys {
            Keys::Digits(from, to) => (from..=to)
                .map(|d| (Key::new(Code::Char(char::from(b'0'.saturating_add(d)))), Command::Digit(d)))
                .collect(),
            Keys::These(names) => names
                .iter()
                .filter_map(|n| Key::row(n))
                .filter_map(|keys| keys.first().copied())
                .map(|key| (key, self.command))
                .collect(),
        }
    }
}

fn shown(name: &str) -> String {
    Key::row(name).and_then(|keys| keys.first().map(ToString::to_string)).unwrap_or_default()
}

/// Every row, in the order of the help page.
pub fn table() -> impl Iterator<Item = &'static Row> {
    rows::ALL.iter().flat_map(|part| part.iter())
}

/// The rows that hold in a context: its own first, then those of the wider contexts around it.
pub fn rows_of(context: Context) -> impl Iterator<Item = &'static Row> {
    context.chain().iter().flat_map(|c| table().filter(move |row| row.context == *c))
}

/// The rows for the hint row of a context. The card and the page of a bench leave some pages to the help: their own keys need
/// the room.
pub fn hints_of(context: Context) -> impl Iterator<Item = &'static Row> {
    let bench = matches!(
        context,
        Context::Walk
            | Context::WalkShut
            | Context::Plots
            | Context::PlotsShut
            | Context::Bench
            | Context::Charts
            | Context::Trial
    );
    let shown =
        |command| matches!(command, Command::Find | Command::Undo | Command::Round | Command::Review | Command::Mix);
    rows_of(context)
        .filter(|row| !row.hint.is_empty())
        .filter(move |row| !bench || row.context != Context::Pages || shown(row.command))
}

/// What a key means in a context; letters mean the same in either case. A key that repeats because it is held down means
/// something only where it moves.
pub fn look_up(context: Context, key: Key) -> Option<Command> {
    let wanted = context.folded(key.pressed());
    let found = rows_of(context)
        .flat_map(Row::bindings)
        .find(|(bound, command)| *bound == wanted && (context.hears(*command, wanted)))
        .map(|(_, command)| command)?;
    (!key.repeat || found.moves()).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn no_key_twice_where_both_would_be_heard() {
        for context in Context::ALL {
            let mut seen = BTreeMap::new();
            for row in rows_of(*context).filter(|r| r.context == *context) {
                for (key, command) in row.bindings() {
                    let before = seen.insert(key.to_string(), command);
                    assert!(before.is_none(), "{context:?}: {key} is bound to {before:?} and {command:?}");
                }
            }
        }
    }

    #[test]
    fn an_inner_key_never_hides_an_outer_one() {
        for context in Context::ALL {
            let outer: Vec<_> =
                rows_of(*context).filter(|r| r.context != *context).flat_map(Row::bindings).map(|(k, _)| k).collect();
            for row in rows_of(*context).filter(|r| r.context == *context) {
                for (key, _) in row.bindings() {
                    assert!(!outer.contains(&key), "{context:?}: {key} hides a key of a wider context");
                }
            }
        }
    }

    #[test]
    fn every_name_of_a_row_is_read_as_one_key_bound_to_its_command() {
        for row in table() {
            let expected: Vec<(Key, Command)> = match row.keys {
                Keys::Digits(from, to) => {
                    (from..=to).map(|n| (Key::row(&n.to_string()).unwrap()[0], Command::Digit(n))).collect()
                }
                Keys::These(names) => names
                    .iter()
                    .map(|name| match Key::row(name).unwrap_or_default().as_slice() {
                        [key] => (*key, row.command),
                        other => panic!("{name} is read as {other:?} in {row:?}"),
                    })
                    .collect(),
            };
            assert!(!expected.is_empty(), "no key in {row:?}");
            assert_eq!(row.bindings(), expected, "{row:?}");
        }
    }

    /// The help page has 80 cells: the keys, two blanks, a sentence of its own for each command.
    #[test]
    fn every_row_has_one_sentence_of_help_and_a_short_hint() {
        for row in table() {
            let help = row.help;
            let sentence = help.starts_with(|c: char| c.is_uppercase()) && help.ends_with('.') && !help.contains('\n');
            assert!(sentence && help.len() <= 120, "{row:?}");
            assert!(row.hint.split_whitespace().count() <= 4 && !row.hint.ends_with('.'), "{row:?}");
        }
    }

    /// Text, forms and pick lists take characters, and the first page is a list by letter.
    #[test]
    fn one_key_is_one_command_on_every_page() {
        let mut meant = BTreeMap::new();
        for context in Context::ALL.iter().filter(|c| !c.types() && **c != Context::First) {
            for (key, command) in rows_of(*context).flat_map(Row::bindings) {
                let (before, there) = *meant.entry(key.to_string()).or_insert((command, context));
                assert_eq!(command, before, "{key} is {command:?} in {context:?} and {before:?} in {there:?}");
            }
        }
        assert!(meant.len() > 40, "{meant:?}");
    }

    #[test]
    fn letters_mean_the_same_with_caps_lock() {
        for context in Context::ALL.iter().filter(|c| !c.types()) {
            for (key, command) in rows_of(*context).flat_map(Row::bindings) {
                let Code::Char(c) = key.code else { continue };
                let upper = Key { code: Code::Char(c.to_ascii_uppercase()), ..key };
                assert_eq!(look_up(*context, upper), Some(command), "{context:?} {key}");
            }
        }
        for row in table().filter(|row| !row.context.types()) {
            let capital = row.bindings().iter().any(|(key, _)| matches!(key.code, Code::Char('A'..='Z')));
            assert!(!capital, "a capital letter alone in {row:?}");
        }
    }

    #[test]
    fn a_held_key_only_moves() {
        let held = |text: &str| Key { repeat: true, ..Key::row(text).unwrap()[0] };
        assert_eq!(look_up(Context::Walk, held("3")), None);
        assert_eq!(look_up(Context::Round, held("j")), Some(Command::Down));
        assert_eq!(look_up(Context::Walk, Key::row("3").unwrap()[0]), Some(Command::Digit(3)));
    }

    /// The hints of a page fit two rows of 80 cells: a key, a blank, its words, two blanks.
    #[test]
    fn the_hints_of_every_page_fit_on_two_rows() {
        for context in Context::ALL {
            let (mut row, mut used) = (1, 0);
            for hint in hints_of(*context) {
                let wide = hint.hint_key(*context).len() + hint.hint.len() + 3;
                if used > 0 && used + wide > 82 {
                    (row, used) = (row + 1, 0);
                }
                used += wide;
            }
            assert!(row <= 2, "{context:?} takes {row} rows");
        }
    }

    #[test]
    fn contexts_are_headings_of_the_help_each_its_own_with_rows_under_it() {
        let mut seen = BTreeMap::new();
        for context in Context::ALL {
            let text = context.text();
            assert!(text.starts_with(|c: char| c.is_uppercase()), "{context:?}: {text:?}");
            assert!(text.len() <= 40 && !text.ends_with(['.', ':', ' ']), "{context:?}: {text:?}");
            assert_eq!(seen.insert(text, context), None, "two contexts read {text:?}");
            assert!(table().any(|row| row.context == *context), "no key under {text:?}");
        }
    }
}
