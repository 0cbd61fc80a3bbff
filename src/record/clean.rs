//! Text made safe to keep, to show on a terminal and to put in a table: nothing in it that moves a cursor, turns the
//! reading direction or hides.
//!
//! Text that is **typed** is cleaned as it comes in. Text in a **file** that cleaning would change is refused by name
//! instead: a record is never silently other than what was sent. Which characters these are is said in [`crate::characters`].

use crate::characters::{Fate, fates};

/// The longest text kept anywhere, in characters.
pub const LONGEST: usize = 2000;

/// Strips control characters, marks of direction and what cannot be seen, turns tabs and line breaks into spaces, takes the spaces off both
/// ends and cuts at [`LONGEST`] characters. Cleaning twice is cleaning once.
///
/// ```
/// use benchwalk::record::clean;
/// assert_eq!(clean(" wilted\tat \u{1b}[31mnoon\u{202e}\n"), "wilted at [31mnoon");
/// ```
pub fn clean(text: &str) -> String {
    let kept: String = fates(None, text)
        .filter_map(|(c, fate)| match fate {
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
    for (i, (c, fate)) in fates(None, text).enumerate() {
        match fate {
            Fate::Keep => {}
            Fate::Space if c == '\t' => return Some(format!("character {} is a tab; put a space there", i + 1)),
            Fate::Space if c == '\u{2800}' => {
                return Some(format!("character {} is an empty Braille cell (U+2800); put a space there", i + 1));
            }
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
