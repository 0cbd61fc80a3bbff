//! A bench's code in large letters, each drawn with its own character so that it is legible on every terminal and in a plain dump.

/// Bits across a shape.
const WIDE: usize = 5;

/// Rows of five bits, top first, for the characters of a code.
#[rustfmt::skip]
const SHAPES: [(char, [u8; 5]); 38] = [
    ('0', [0b01110, 0b10001, 0b10001, 0b10001, 0b01110]), ('1', [0b00100, 0b01100, 0b00100, 0b00100, 0b01110]),
    ('2', [0b11110, 0b00001, 0b01110, 0b10000, 0b11111]), ('3', [0b11110, 0b00001, 0b00110, 0b00001, 0b11110]),
    ('4', [0b10010, 0b10010, 0b11111, 0b00010, 0b00010]), ('5', [0b11111, 0b10000, 0b11110, 0b00001, 0b11110]),
    ('6', [0b01110, 0b10000, 0b11110, 0b10001, 0b01110]), ('7', [0b11111, 0b00010, 0b00100, 0b01000, 0b01000]),
    ('8', [0b01110, 0b10001, 0b01110, 0b10001, 0b01110]), ('9', [0b01110, 0b10001, 0b01111, 0b00001, 0b01110]),
    ('A', [0b01110, 0b10001, 0b11111, 0b10001, 0b10001]), ('B', [0b11110, 0b10001, 0b11110, 0b10001, 0b11110]),
    ('C', [0b01111, 0b10000, 0b10000, 0b10000, 0b01111]), ('D', [0b11110, 0b10001, 0b10001, 0b10001, 0b11110]),
    ('E', [0b11111, 0b10000, 0b11110, 0b10000, 0b11111]), ('F', [0b11111, 0b10000, 0b11110, 0b10000, 0b10000]),
    ('G', [0b01111, 0b10000, 0b10011, 0b10001, 0b01111]), ('H', [0b10001, 0b10001, 0b11111, 0b10001, 0b10001]),
    ('I', [0b01110, 0b00100, 0b00100, 0b00100, 0b01110]), ('J', [0b00111, 0b00010, 0b00010, 0b10010, 0b01100]),
    ('K', [0b10010, 0b10100, 0b11000, 0b10100, 0b10010]), ('L', [0b10000, 0b10000, 0b10000, 0b10000, 0b11111]),
    ('M', [0b10001, 0b11011, 0b10101, 0b10001, 0b10001]), ('N', [0b10001, 0b11001, 0b10101, 0b10011, 0b10001]),
    ('O', [0b01110, 0b10001, 0b10001, 0b10001, 0b01110]), ('P', [0b11110, 0b10001, 0b11110, 0b10000, 0b10000]),
    ('Q', [0b01110, 0b10001, 0b10001, 0b10011, 0b01111]), ('R', [0b11110, 0b10001, 0b11110, 0b10010, 0b10001]),
    ('S', [0b01111, 0b10000, 0b01110, 0b00001, 0b11110]), ('T', [0b11111, 0b00100, 0b00100, 0b00100, 0b00100]),
    ('U', [0b10001, 0b10001, 0b10001, 0b10001, 0b01110]), ('V', [0b10001, 0b10001, 0b01010, 0b01010, 0b00100]),
    ('W', [0b10001, 0b10001, 0b10101, 0b11011, 0b10001]), ('X', [0b10001, 0b01010, 0b00100, 0b01010, 0b10001]),
    ('Y', [0b10001, 0b01010, 0b00100, 0b00100, 0b00100]), ('Z', [0b11111, 0b00010, 0b00100, 0b01000, 0b11111]),
    ('-', [0b00000, 0b00000, 0b01110, 0b00000, 0b00000]), ('.', [0b00000, 0b00000, 0b00000, 0b00100, 0b00100]),
];

/// How large letters are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Letters {
    /// Rows of the shape, top first; one that stands twice makes the letter taller.
    rows: &'static [usize],
    /// Cells of each of its bits.
    cells: usize,
    /// Blanks between two letters.
    gap: usize,
}

impl Letters {
    /// Five rows: where the window is low.
    pub const LOW: Self = Self { rows: &[0, 1, 2, 3, 4], cells: 1, gap: 2 };
    /// Seven rows, narrow: for codes of many letters.
    pub const SLIM: Self = Self { rows: &[0, 1, 1, 2, 3, 3, 4], cells: 1, gap: 2 };
    /// Seven rows and twice as wide: legible at arm's length.
    pub const TALL: Self = Self { rows: &[0, 1, 1, 2, 3, 3, 4], cells: 2, gap: 3 };

    /// Rows of a code in these letters.
    pub const fn height(self) -> usize {
        self.rows.len()
    }

    /// Cells that so many letters take.
    const fn width(self, letters: usize) -> usize {
        letters.saturating_mul(WIDE.saturating_mul(self.cells).saturating_add(self.gap)).saturating_sub(self.gap)
    }

    /// A code in these letters, a line each row, or `None` where it is too long for the width or has a character without a
    /// shape: it is then shown in bold.
    pub fn code(self, code: &str, cells: usize) -> Option<Vec<String>> {
        let letters: Vec<char> = code.chars().collect();
        if letters.is_empty() || self.width(letters.len()) > cells {
            return None;
        }
        let shape = |c: &char| Some((*c, SHAPES.iter().find(|(s, _)| *s == c.to_ascii_uppercase())?.1));
        let shapes = letters.iter().map(shape).collect::<Option<Vec<_>>>()?;
        let line = |row: &usize| {
            let mut line = String::new();
            for (letter, shape) in &shapes {
                let bits = shape.get(*row).copied().unwrap_or(0);
                let bit = |bit: usize| if bits >> bit & 1 == 1 { *letter } else { ' ' };
                line.extend((0..WIDE).rev().flat_map(|at| std::iter::repeat_n(bit(at), self.cells)));
                line.extend(std::iter::repeat_n(' ', self.gap));
            }
            line.trim_end().to_owned()
        };
        Some(self.rows.iter().map(line).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_built_of_its_own_letters() {
        let lines = Letters::LOW.code("E1", 40).unwrap();
        assert_eq!(lines, ["EEEEE    1", "E       11", "EEEE     1", "E        1", "EEEEE   111"]);
        assert_eq!(Letters::LOW.code("a-code-of-16-xyz", 80), None);
        assert_eq!(Letters::LOW.code("", 80), None);
    }

    #[test]
    fn tall_letters_are_seven_rows_and_twice_as_wide() {
        let lines = Letters::TALL.code("E1", 40).unwrap();
        assert_eq!(lines.len(), 7);
        assert_eq!([&lines[0], &lines[2]], ["EEEEEEEEEE       11", "EE             1111"]);
        assert_eq!(Letters::TALL.code("E1", 22), None);
        assert_eq!(Letters::SLIM.code("E1", 22).unwrap().len(), 7);
    }
}
