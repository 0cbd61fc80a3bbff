//! Roles and their styles. Meaning is always in a word or a sign; weight and color only add to it.
//!
//! Three weights carry importance: bold for what is asked now and for what is wrong, plain for readings, dim for labels, units
//! and what is done. Cyan is for keys alone.

use crate::input::{Look, Palette};
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier, Style};

/// The role of a piece of text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Plain text: readings.
    Plain,
    /// Labels, units, headings of regions, rules, and what is done.
    Dim,
    /// The title of a page, and what is asked now.
    Title,
    /// The heads of columns.
    Head,
    /// The row under the cursor.
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
        let (modifier, color) = match self.palette {
            Palette::Usual => usual(role),
            Palette::Sunlight => (sunlight(role), None),
            Palette::Night => night(role),
        };
        let style = Style::new().add_modifier(modifier);
        match color {
            Some(color) if self.color => style.fg(color),
            _ => style,
        }
    }

    /// The style of a water reading: soaked and dry stand out of a row of digits without any color.
    pub fn digit(self, level: u8) -> Style {
        Style::new().add_modifier(match level {
            1 => Modifier::BOLD.union(Modifier::UNDERLINED),
            5 => Modifier::BOLD.union(Modifier::REVERSED),
            _ => Modifier::empty(),
        })
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
        (self.color && self.palette == Palette::Usual).then(|| Style::new().bg(color))
    }

    /// What the palette does to a whole frame, after everything is drawn: the ground, and text that has no role of its own.
    pub fn finish(self, buffer: &mut Buffer) {
        for cell in &mut buffer.content {
            match self.palette {
                Palette::Usual => {}
                Palette::Sunlight => self.in_sunlight(cell),
                Palette::Night => self.at_night(cell),
            }
        }
    }

    /// Black on white; what is dim elsewhere is plain, all else is bold.
    fn in_sunlight(self, cell: &mut Cell) {
        let dim = cell.modifier.contains(Modifier::DIM);
        cell.modifier.remove(Modifier::DIM);
        cell.modifier.set(Modifier::BOLD, !dim);
        if self.color {
            cell.set_fg(Color::Black).set_bg(Color::White);
        }
    }

    /// On black; every weight is a step darker: bold is plain, plain is dim, and dim is dark gray.
    fn at_night(self, cell: &mut Cell) {
        let (bold, dim) = (cell.modifier.contains(Modifier::BOLD), cell.modifier.contains(Modifier::DIM));
        let accent = cell.fg == Color::Red;
        cell.modifier.remove(Modifier::BOLD);
        // Dark gray made dim as well could not be read on many terminals.
        cell.modifier.set(Modifier::DIM, if self.color { !(bold || dim || accent) } else { !bold });
        if self.color {
            let gray = if dim { Color::DarkGray } else { Color::Gray };
            cell.set_fg(if accent { Color::Red } else { gray }).set_bg(Color::Black);
        }
    }
}

/// The terminal's own background; levels also by color.
fn usual(role: Role) -> (Modifier, Option<Color>) {
    match role {
        Role::Plain => (Modifier::empty(), None),
        Role::Dim | Role::Good | Role::Label => (Modifier::DIM, None),
        Role::Title | Role::Said => (Modifier::BOLD, None),
        Role::Head => (Modifier::DIM.union(Modifier::UNDERLINED), None),
        Role::Chosen => (Modifier::REVERSED, None),
        Role::Key => (Modifier::BOLD, Some(Color::Cyan)),
        Role::Watch => (Modifier::empty(), Some(Color::Yellow)),
        Role::Act => (Modifier::BOLD, Some(Color::Yellow)),
        Role::Urgent => (Modifier::BOLD.union(Modifier::REVERSED), Some(Color::Red)),
        Role::Pending => (Modifier::UNDERLINED, Some(Color::Yellow)),
        Role::Closed => (Modifier::BOLD.union(Modifier::UNDERLINED), Some(Color::Red)),
        Role::Struck => (Modifier::CROSSED_OUT, None),
    }
}

/// Black on white: no color, no dim; what is dim elsewhere is plain, all else is bold.
fn sunlight(role: Role) -> Modifier {
    match role {
        Role::Act | Role::Urgent => Modifier::BOLD.union(Modifier::REVERSED),
        Role::Watch => Modifier::BOLD.union(Modifier::UNDERLINED),
        other => usual(other).0,
    }
}

/// Dim text on black: no area larger than a word is reversed, so that nothing shines; red is the one accent, for what is wrong.
fn night(role: Role) -> (Modifier, Option<Color>) {
    match role {
        Role::Chosen => (Modifier::BOLD.union(Modifier::UNDERLINED), None),
        Role::Act => (Modifier::BOLD, Some(Color::Red)),
        Role::Urgent | Role::Closed => (Modifier::BOLD.union(Modifier::UNDERLINED), Some(Color::Red)),
        other => (usual(other).0, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A frame with one cell of each role.
    fn frame(palette: Palette, color: bool) -> Buffer {
        let look = Look { color, ascii: false, palette };
        let mut buffer = Buffer::empty(ratatui::layout::Rect::new(0, 0, 20, 1));
        let roles =
            [Role::Plain, Role::Dim, Role::Title, Role::Chosen, Role::Key, Role::Watch, Role::Act, Role::Urgent];
        for (cell, role) in buffer.content.iter_mut().zip(roles) {
            cell.set_style(look.style(role));
        }
        look.finish(&mut buffer);
        buffer
    }

    #[test]
    fn sunlight_is_black_on_white_and_night_has_one_accent() {
        for cell in &frame(Palette::Sunlight, true).content {
            assert_eq!((cell.fg, cell.bg), (Color::Black, Color::White));
            assert!(!cell.modifier.contains(Modifier::DIM));
        }
        for cell in &frame(Palette::Night, true).content {
            assert!(matches!(cell.fg, Color::Red | Color::Gray | Color::DarkGray), "{cell:?}");
            assert_eq!(cell.bg, Color::Black);
            assert!(!cell.modifier.intersects(Modifier::BOLD.union(Modifier::REVERSED)), "{cell:?}");
        }
    }

    #[test]
    fn without_color_no_palette_brings_any() {
        for palette in [Palette::Usual, Palette::Sunlight, Palette::Night] {
            for cell in &frame(palette, false).content {
                assert_eq!((cell.fg, cell.bg), (Color::Reset, Color::Reset));
            }
        }
    }
}
