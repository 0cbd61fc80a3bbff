//! A bench's code in large letters, each drawn with its own character so that it is legible on every terminal and in a plain dump.

/// Rows of a large code.
pub const BIG_HEIGHT: u16 = 5;
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

/// A code in large letters as [`BIG_HEIGHT`] lines, or `None` where it is too long for the width: it is then shown in bold.
pub fn big_text(code: &str, cells: usize) -> Option<Vec<String>> {
    let letters: Vec<char> = code.chars().collect();
    if letters.is_empty() || letters.len().saturating_mul(WIDE.saturating_add(2)) > cells {
        return None;
    }
    let shapes: Option<Vec<(char, [u8; 5])>> = letters
        .iter()
        .map(|c| {
            let shape = SHAPES.iter().find(|(s, _)| *s == c.to_ascii_uppercase())?;
            Some((*c, shape.1))
        })
        .collect();
    let shapes = shapes?;
    let mut lines = Vec::new();
    for row in 0..usize::from(BIG_HEIGHT) {
        let mut line = String::new();
        for (letter, shape) in &shapes {
            let bits = shape.get(row).copied().unwrap_or(0);
            line.extend((0..WIDE).rev().map(|bit| if bits >> bit & 1 == 1 { *letter } else { ' ' }));
            line.push_str("  ");
        }
        lines.push(line.trim_end().to_owned());
    }
    Some(lines)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_built_of_its_own_letters() {
        let lines = big_text("E1", 40).unwrap();
        assert_eq!(lines, ["EEEEE    1", "E       11", "EEEE     1", "E        1", "EEEEE   111"]);
        assert_eq!(big_text("a-code-of-16-xyz", 80), None);
        assert_eq!(big_text("", 80), None);
    }
}
