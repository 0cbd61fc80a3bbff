//! Text made safe to keep, to show on a terminal and to put in a table: nothing in it that moves a cursor, turns the
//! reading direction or hides.
//!
//! Text that is **typed** is cleaned as it comes in. Text in a **file** that cleaning would change is refused by name
//! instead: a record is never silently other than what was sent. Which characters these are is said in [`crate::characters`].

use crate::characters::{Fate, fates};
use std::borrow::Cow;

/// The longest text kept anywhere, in characters.
pub const LONGEST: usize = 2000;

/// The longest code, in characters.
const LONGEST_CODE: usize = 16;

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

/// Text of a file that another program may have written to, made safe to show and to export: as [`clean`], but `U+FFFD` stands
/// in the place of each character that is dropped. Clean text stays as it is.
pub(crate) fn marked(text: &str) -> Cow<'_, str> {
    if unclean(text).is_none() && (text.len() <= LONGEST || text.chars().count() <= LONGEST) {
        return Cow::Borrowed(text);
    }
    let visible = |(c, fate): (char, Fate)| match fate {
        Fate::Keep => c,
        Fate::Space => ' ',
        Fate::Drop => char::REPLACEMENT_CHARACTER,
    };
    let marked = clean(&fates(None, text).take(2 * LONGEST).map(visible).collect::<String>());
    Cow::Owned(if marked.is_empty() { char::REPLACEMENT_CHARACTER.to_string() } else { marked })
}

/// The same of a code: what no code has becomes a hyphen, and a long one is cut.
pub(crate) fn marked_code(text: &str) -> Cow<'_, str> {
    let fits = |c: char| c.is_alphanumeric() || c == '-' || c == '.';
    if !text.is_empty() && text.chars().all(fits) && text.chars().count() <= LONGEST_CODE {
        return Cow::Borrowed(text);
    }
    let code: String = text.chars().take(LONGEST_CODE).map(|c| if fits(c) { c } else { '-' }).collect();
    Cow::Owned(if code.is_empty() { "-".to_owned() } else { code })
}

/// What in a text cleaning would change, said so that it can be mended; `None` when the text is clean.
pub(crate) fn unclean(text: &str) -> Option<String> {
    // Most texts are of these characters alone, of which each stays.
    let plain = text.bytes().all(|byte| matches!(byte, b' '..=b'~'));
    for (i, (c, fate)) in fates(None, if plain { "" } else { text }).enumerate() {
        match fate {
            Fate::Keep => {}
            Fate::Space if c == '\t' => return Some(format!("character {} is a tab; put a space there", i + 1)),
            Fate::Space if c == '\u{2800}' => {
                return Some(format!("character {} is an empty Braille cell (U+2800); put a space there", i + 1));
            }
            Fate::Space => return Some(format!("character {} is a line break; put a space there", i + 1)),
            Fate::Drop => {
                return Some(format!("character {} is U+{:04X}, which is invisible; remove it", i + 1, u32::from(c)));
            }
        }
    }
    (text.trim() != text).then(|| "remove the spaces at its start or end".to_owned())
}

#[cfg(test)]
mod tests {
    use super::{LONGEST, clean, marked, marked_code, unclean};
    use proptest::prelude::*;

    #[test]
    fn what_is_kept_is_short_enough() {
        assert_eq!(clean(&"x".repeat(LONGEST + 5)).chars().count(), LONGEST);
        assert_eq!(clean("  größer – 5 °C  "), "größer – 5 °C");
    }

    #[test]
    fn what_another_program_wrote_is_marked_where_it_cannot_be_shown() {
        assert_eq!(marked("dry corner"), "dry corner");
        assert_eq!(marked("\u{1b}]0;x\u{7}\tnoon "), "\u{fffd}]0;x\u{fffd} noon");
        assert_eq!(marked(" "), "\u{fffd}");
        assert_eq!(marked(&"x".repeat(LONGEST + 5)).len(), LONGEST);
        assert_eq!(marked_code("E-1.2"), "E-1.2");
        assert_eq!(marked_code("<b>\u{1b}[2J"), "-b---2J");
        assert_eq!(marked_code(&"9".repeat(40)).len(), 16);
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
