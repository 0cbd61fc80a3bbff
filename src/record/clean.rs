//! Text made safe to keep, to show on a terminal and to put in a table: nothing in it that moves a cursor, turns the
//! reading direction or hides.
//!
//! Text that is **typed** is cleaned as it comes in. Text in a **file** that cleaning would change is refused by name
//! instead: a record is never silently other than what was sent.

/// The longest text kept anywhere, in characters.
pub const LONGEST: usize = 2000;

/// What becomes of one character.
enum Fate {
    Keep,
    Space,
    Drop,
}

fn fate(c: char) -> Fate {
    match c {
        '\t' | '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Fate::Space,
        // Marks and overrides of direction, characters without width, and tags: none can be seen, all can mislead.
        '\u{61c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' => {
            Fate::Drop
        }
        '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}' => Fate::Drop,
        c if c.is_control() => Fate::Drop,
        _ => Fate::Keep,
    }
}

/// Strips control characters and marks of direction, turns tabs and line breaks into spaces, takes the spaces off both
/// ends and cuts at [`LONGEST`] characters. Cleaning twice is cleaning once.
///
/// ```
/// use benchwalk::record::clean;
/// assert_eq!(clean(" wilted\tat \u{1b}[31mnoon\u{202e}\n"), "wilted at [31mnoon");
/// ```
pub fn clean(text: &str) -> String {
    let kept: String = text
        .chars()
        .filter_map(|c| match fate(c) {
            Fate::Keep => Some(c),
            Fate::Space => Some(' '),
            Fate::Drop => None,
        })
        .collect();
    let cut: String = kept.trim().chars().take(LONGEST).collect();
    cut.trim_end().to_owned()
}

/// What in a text cleaning would change, said so that it can be mended; `None` when the text is clean.
pub(crate) fn unclean(text: &str) -> Option<String> {
    for (i, c) in text.chars().enumerate() {
        match fate(c) {
            Fate::Keep => {}
            Fate::Space if c == '\t' => return Some(format!("character {} is a tab; put a space there", i + 1)),
            Fate::Space => return Some(format!("character {} is a line break; put a space there", i + 1)),
            Fate::Drop => {
                return Some(format!(
                    "character {} is U+{:04X}, which cannot be seen; take it out",
                    i + 1,
                    u32::from(c)
                ));
            }
        }
    }
    (text.trim() != text).then(|| "take off the spaces at its start or end".to_owned())
}

#[cfg(test)]
mod tests {
    use super::{LONGEST, clean, unclean};
    use proptest::prelude::*;

    #[test]
    fn what_is_kept_is_short_enough() {
        assert_eq!(clean(&"x".repeat(LONGEST + 5)).chars().count(), LONGEST);
        assert_eq!(clean("  größer – 5 °C  "), "größer – 5 °C");
    }

    proptest! {
        #[test]
        fn clean_text_stays_and_nothing_unclean_is_left(text in ".{0,60}") {
            let once = clean(&text);
            prop_assert_eq!(&clean(&once), &once);
            prop_assert_eq!(unclean(&once), None);
            prop_assert_eq!(unclean(&text).is_none(), once == text);
        }
    }
}
