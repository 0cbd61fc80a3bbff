//! A canvas of cells: Braille dots (eight to a cell) or ASCII signs, with a role for each cell.

use crate::input::Look;
use crate::ui::Role;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Fine dots across and down a cell.
pub(super) const ACROSS: i32 = 2;
pub(super) const DOWN: i32 = 4;

/// The bit of each fine dot of a cell, by column and row.
const BITS: [[u8; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];

#[derive(Debug, Clone, Copy, Default)]
struct Cell {
    dots: u8,
    sign: Option<char>,
    role: Option<Role>,
    /// A water reading: its weight is that of its level.
    water: Option<u8>,
}

/// The grid.
#[derive(Debug)]
pub(super) struct Grid {
    width: i32,
    height: i32,
    ascii: bool,
    cells: Vec<Cell>,
}

impl Grid {
    /// An empty grid.
    pub(super) fn new(width: u16, height: u16, ascii: bool) -> Self {
        let cells = vec![Cell::default(); usize::from(width).saturating_mul(usize::from(height))];
        Self { width: i32::from(width), height: i32::from(height), ascii, cells }
    }

    /// Fine dots across and down the whole grid.
    pub(super) const fn fine(&self) -> (i32, i32) {
        (self.width.saturating_mul(ACROSS), self.height.saturating_mul(DOWN))
    }

    fn cell(&mut self, column: i32, row: i32) -> Option<&mut Cell> {
        if !(0..self.width).contains(&column) || !(0..self.height).contains(&row) {
            return None;
        }
        let at = row.checked_mul(self.width)?.checked_add(column)?;
        usize::try_from(at).ok().and_then(|i| self.cells.get_mut(i))
    }

    /// Sets a fine dot, counted from the top left; in ASCII the sign in its place.
    pub(super) fn dot(&mut self, x: i32, y: i32, sign: char, role: Role) {
        if x < 0 || y < 0 {
            return;
        }
        let ascii = self.ascii;
        let (column, bit_x) = (x / ACROSS, usize::try_from(x % ACROSS).unwrap_or(0));
        let (row, bit_y) = (y / DOWN, usize::try_from(y % DOWN).unwrap_or(0));
        let bit = BITS.get(bit_x).and_then(|b| b.get(bit_y)).copied().unwrap_or(0);
        if let Some(cell) = self.cell(column, row) {
            if ascii {
                cell.sign = Some(sign);
            }
            cell.dots |= bit;
            cell.role = Some(role);
        }
    }

    /// Puts a sign in the cell of a fine dot; it hides what is under it.
    pub(super) fn sign(&mut self, x: i32, y: i32, sign: char, role: Role) {
        if x < 0 || y < 0 {
            return;
        }
        if let Some(cell) = self.cell(x / ACROSS, y / DOWN) {
            cell.sign = Some(sign);
            cell.role = Some(role);
            cell.water = None;
        }
    }

    /// Puts a water reading in the cell of a fine dot.
    pub(super) fn water(&mut self, x: i32, y: i32, level: u8) {
        self.sign(x, y, char::from(b'0'.saturating_add(level)), Role::Plain);
        if let Some(cell) = self.cell(x / ACROSS, y / DOWN) {
            cell.water = Some(level);
        }
    }

    /// The rows as lines, top first.
    pub(super) fn lines(&self, look: Look) -> Vec<Line<'static>> {
        let width = usize::try_from(self.width).unwrap_or(0).max(1);
        self.cells.chunks(width).map(|row| Line::from(row.iter().map(|c| span(*c, look)).collect::<Vec<_>>())).collect()
    }
}

fn span(cell: Cell, look: Look) -> Span<'static> {
    let style = match cell.water {
        Some(level) => look.digit(level),
        None => cell.role.map_or_else(Style::new, |r| look.style(r)),
    };
    let sign = cell.sign.unwrap_or_else(|| braille(cell.dots));
    Span::styled(sign.to_string(), style)
}

fn braille(dots: u8) -> char {
    if dots == 0 { ' ' } else { char::from_u32(0x2800 | u32::from(dots)).unwrap_or(' ') }
}
