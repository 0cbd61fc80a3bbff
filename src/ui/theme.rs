//! Roles and their styles. Meaning is always in a word or a sign; color only adds to it.

use crate::input::Look;
use ratatui::style::{Color, Modifier, Style};

/// The role of a piece of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Plain text.
    Plain,
    /// The title of a page.
    Title,
    /// The heads of columns.
    Head,
    /// The cursor.
    Chosen,
    /// A key in a hint.
    Key,
    /// `watch`.
    Watch,
    /// `act`.
    Act,
    /// `urgent`.
    Urgent,
    /// Done, saved, within the window.
    Good,
    /// Written but not yet safe in the file.
    Pending,
    /// A bench under restricted entry.
    Closed,
    /// The name of a thing next to its value.
    Label,
    /// Struck out.
    Struck,
    /// The status line.
    Said,
}

impl Look {
    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let style = Style::new();
        let (modifier, color) = match role {
            Role::Plain => (Modifier::empty(), None),
            Role::Title => (Modifier::BOLD, None),
            Role::Head => (Modifier::BOLD.union(Modifier::UNDERLINED), None),
            Role::Chosen => (Modifier::REVERSED, None),
            Role::Key => (Modifier::BOLD, Some(Color::Cyan)),
            Role::Watch => (Modifier::empty(), Some(Color::Yellow)),
            Role::Act => (Modifier::BOLD, Some(Color::Magenta)),
            Role::Urgent => (Modifier::BOLD.union(Modifier::REVERSED), Some(Color::Red)),
            Role::Good => (Modifier::empty(), Some(Color::Green)),
            Role::Pending => (Modifier::UNDERLINED, Some(Color::Yellow)),
            Role::Closed => (Modifier::BOLD.union(Modifier::UNDERLINED), Some(Color::Red)),
            Role::Label => (Modifier::empty(), Some(Color::Cyan)),
            Role::Struck => (Modifier::CROSSED_OUT, None),
            Role::Said => (Modifier::BOLD, None),
        };
        let style = style.add_modifier(modifier);
        match color {
            Some(color) if self.color => style.fg(color),
            _ => style,
        }
    }

    /// The swatch next to a roots digit, white to brown to black: only where colors are to be had.
    pub fn roots_swatch(self, score: u8) -> Option<Style> {
        let color = match score {
            0 => Color::White,
            1 => Color::LightYellow,
            2 => Color::Yellow,
            3 => Color::LightRed,
            4 => Color::Red,
            _ => Color::Black,
        };
        self.color.then(|| Style::new().bg(color))
    }
}
