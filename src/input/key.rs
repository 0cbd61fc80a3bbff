//! One key, and how rows of keys are written in the key table and in tests: `j3{Enter}u`.

use std::fmt;

/// Which key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Code {
    /// A character, with shift folded in (`Q`, not shift-q).
    Char(char),
    /// Enter.
    Enter,
    /// Esc.
    Esc,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// Tab.
    Tab,
    /// Shift and Tab.
    BackTab,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// A function key.
    F(u8),
}

/// The keys that have a name: as hints show it, and written between braces in rows of keys.
const NAMES: [(Code, &str); 15] = [
    (Code::Enter, "Enter"),
    (Code::Esc, "Esc"),
    (Code::Backspace, "Backspace"),
    (Code::Delete, "Delete"),
    (Code::Tab, "Tab"),
    (Code::BackTab, "Shift-Tab"),
    (Code::Up, "Up"),
    (Code::Down, "Down"),
    (Code::Left, "Left"),
    (Code::Right, "Right"),
    (Code::Home, "Home"),
    (Code::End, "End"),
    (Code::PageUp, "PgUp"),
    (Code::PageDown, "PgDn"),
    (Code::Char(' '), "Space"),
];

/// A key with its modifiers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Key {
    /// Which key.
    pub code: Code,
    /// Ctrl was down.
    pub ctrl: bool,
    /// Alt was down.
    pub alt: bool,
    /// The terminal says that the key is held down and repeats.
    pub repeat: bool,
}

impl Key {
    /// A key by itself.
    pub const fn new(code: Code) -> Self {
        Self { code, ctrl: false, alt: false, repeat: false }
    }

    /// A key with Ctrl.
    pub const fn ctrl(c: char) -> Self {
        Self { code: Code::Char(c), ctrl: true, alt: false, repeat: false }
    }

    /// The key without its repeat flag, as the key table looks it up.
    #[must_use]
    pub const fn pressed(self) -> Self {
        Self { repeat: false, ..self }
    }

    /// The character it types into a text field. On some keyboards characters come with Ctrl **and** Alt (`AltGr`).
    pub fn typed(&self) -> Option<char> {
        match self.code {
            Code::Char(c) if self.ctrl == self.alt && !c.is_control() => Some(c),
            _ => None,
        }
    }

    /// The digit it types, if it is one pressed by itself.
    pub fn digit(&self) -> Option<u8> {
        match self.code {
            Code::Char(c) if !self.ctrl && !self.alt => c.to_digit(10).and_then(|d| u8::try_from(d).ok()),
            _ => None,
        }
    }

    /// Reads a row of keys: characters as themselves, other keys by their names in braces (`{Enter}`, `{Ctrl-L}`, `{F5}`;
    /// `{{}` is a brace). `None` when a name is unknown.
    pub fn row(text: &str) -> Option<Vec<Self>> {
        let mut keys = Vec::new();
        let mut rest = text;
        while let Some(c) = rest.chars().next() {
            if c == '{' {
                let (name, after) = rest.strip_prefix('{')?.split_once('}')?;
                keys.push(Self::named(name)?);
                rest = after;
            } else {
                keys.push(Self::new(Code::Char(c)));
                rest = rest.strip_prefix(c)?;
            }
        }
        Some(keys)
    }

    fn named(name: &str) -> Option<Self> {
        if let Some(rest) = name.strip_prefix("Ctrl-") {
            return Some(Self { ctrl: true, ..Self::held(rest)? });
        }
        if let Some(rest) = name.strip_prefix("Alt-") {
            return Some(Self { alt: true, ..Self::held(rest)? });
        }
        if let Some((code, _)) = NAMES.iter().find(|(_, shown)| *shown == name) {
            return Some(Self::new(*code));
        }
        if let Some(n) = name.strip_prefix('F').and_then(|n| n.parse().ok()) {
            return Some(Self::new(Code::F(n)));
        }
        let mut chars = name.chars();
        match (chars.next(), chars.next()) {
            (Some(c), None) => Some(Self::new(Code::Char(c))),
            _ => None,
        }
    }

    /// The key held with Ctrl or Alt: terminals report its character in lower case, hints show it in upper case.
    fn held(name: &str) -> Option<Self> {
        let key = Self::named(name)?;
        Some(match key.code {
            Code::Char(c) => Self { code: Code::Char(c.to_ascii_lowercase()), ..key },
            _ => key,
        })
    }
}

impl fmt::Display for Key {
    /// As a hint shows it: `w`, `Enter`, `Ctrl-L`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.ctrl {
            f.write_str("Ctrl-")?;
        }
        if self.alt {
            f.write_str("Alt-")?;
        }
        match (self.code, NAMES.iter().find(|(code, _)| *code == self.code)) {
            (_, Some((_, shown))) => f.write_str(shown),
            (Code::Char(c), None) if self.ctrl || self.alt => write!(f, "{}", c.to_ascii_uppercase()),
            (Code::Char(c), None) => write!(f, "{c}"),
            (Code::F(n), None) => write!(f, "F{n}"),
            (_, None) => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_of_keys_are_read() {
        let keys = Key::row("j3{Enter}{Ctrl-L}{F5}{{}}<").unwrap();
        assert_eq!(keys.len(), 8);
        assert_eq!(keys[2], Key::new(Code::Enter));
        assert_eq!(keys[3], Key::ctrl('l'));
        assert_eq!(keys[4], Key::new(Code::F(5)));
        assert_eq!(keys[5..].iter().map(|k| k.code).collect::<Vec<_>>(), ['{', '}', '<'].map(Code::Char));
        assert_eq!(Key::row("{nothing}"), None);
        assert_eq!(Key::row("{Enter"), None);
    }

    #[test]
    fn keys_read_as_hints_show_them() {
        let shown = |t: &str| Key::row(t).unwrap().first().map(ToString::to_string).unwrap();
        assert_eq!(shown("{Enter}"), "Enter");
        assert_eq!(shown("{Ctrl-L}"), "Ctrl-L");
        assert_eq!(shown("?"), "?");
        assert_eq!(shown("{Space}"), "Space");
    }

    #[test]
    fn every_key_is_written_in_a_row_as_hints_show_it() {
        let plain = NAMES.iter().map(|(code, _)| Key::new(*code)).chain([Key::new(Code::F(12)), Key::ctrl('l')]);
        let alt = plain.clone().map(|key| Key { alt: true, ..key });
        for key in plain.chain(alt) {
            assert_eq!(Key::row(&format!("{{{key}}}")), Some(vec![key]), "{key}");
        }
    }

    #[test]
    fn characters_with_ctrl_and_alt_are_typed() {
        let key = Key { code: Code::Char('}'), ctrl: true, alt: true, repeat: false };
        assert_eq!(key.typed(), Some('}'));
        assert_eq!(Key::ctrl('x').typed(), None);
        assert_eq!(Key::new(Code::Char('7')).digit(), Some(7));
    }
}
