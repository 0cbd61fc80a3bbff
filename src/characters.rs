//! Which characters a text may hold to be kept, printed or shown: none that moves a cursor, turns the reading direction or
//! cannot be seen.
//!
//! The characters that cannot be seen are those of the Unicode property `Default_Ignorable_Code_Point`. Two groups of them are
//! needed in real text and stay where they belong: variation selectors (emoji, ideographs, Mongolian letters) and the joiners
//! U+200C and U+200D (emoji, Arabic and Indic scripts).

use std::fmt::Write as _;

/// What becomes of one character.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It stays.
    Keep,
    /// A space takes its place.
    Space,
    /// It is left out.
    Drop,
}

/// First and last of each range of `Default_Ignorable_Code_Point`: Unicode Character Database 16.0.0, file
/// DerivedCoreProperties.txt, 4,174 code points.
const IGNORABLE: [(char, char); 16] = [
    ('\u{ad}', '\u{ad}'),
    ('\u{34f}', '\u{34f}'),
    ('\u{61c}', '\u{61c}'),
    ('\u{115f}', '\u{1160}'),
    ('\u{17b4}', '\u{17b5}'),
    ('\u{180b}', '\u{180f}'),
    ('\u{200b}', '\u{200f}'),
    ('\u{202a}', '\u{202e}'),
    ('\u{2060}', '\u{206f}'),
    ('\u{3164}', '\u{3164}'),
    ('\u{fe00}', '\u{fe0f}'),
    ('\u{feff}', '\u{feff}'),
    ('\u{ffa0}', '\u{ffa0}'),
    ('\u{fff0}', '\u{fff8}'),
    ('\u{1bca0}', '\u{1bca3}'),
    ('\u{1d173}', '\u{1d17a}'),
];

fn is_ignorable(c: char) -> bool {
    // The whole plane of tags and ideographic variation selectors, assigned or not.
    ('\u{e0000}'..='\u{e0fff}').contains(&c) || IGNORABLE.iter().any(|(first, last)| (*first..=*last).contains(&c))
}

/// Chooses a form of the character before it.
const fn is_selector(c: char) -> bool {
    matches!(c, '\u{180b}'..='\u{180d}' | '\u{180f}' | '\u{fe00}'..='\u{fe0f}' | '\u{e0100}'..='\u{e01ef}')
}

/// Joins or parts the characters beside it.
const fn is_joiner(c: char) -> bool {
    matches!(c, '\u{200c}' | '\u{200d}')
}

/// A character outside ASCII that can be seen: letters of other scripts, emoji. ASCII letters are never joined.
fn is_base(c: char) -> bool {
    !c.is_ascii() && !c.is_whitespace() && !is_selector(c) && !is_joiner(c)
}

/// The fate of a character by those that stand beside it; `before` is the last one that was kept.
fn fate(c: char, before: Option<char>, after: Option<char>) -> Fate {
    match c {
        '\t' | '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Fate::Space,
        // The Braille cell without dots: no space by its property, and yet nothing can be seen.
        '\u{2800}' => Fate::Space,
        c if c.is_control() || matches!(c, '\u{fff9}'..='\u{fffb}') => Fate::Drop,
        c if is_joiner(c) && before.is_some_and(|b| is_base(b) || is_selector(b)) => Fate::Keep,
        c if is_selector(c) && before.is_some_and(is_base) => Fate::Keep,
        // A keycap: 1, the selector, and the key around it.
        '\u{fe0f}' if after == Some('\u{20e3}') && before.is_some_and(is_on_a_keycap) => Fate::Keep,
        c if is_ignorable(c) => Fate::Drop,
        _ => Fate::Keep,
    }
}

const fn is_on_a_keycap(c: char) -> bool {
    matches!(c, '0'..='9' | '#' | '*')
}

/// Each character of a text with its fate. `before` is what stands before the text, where it is to be put into another one.
pub fn fates(before: Option<char>, text: &str) -> impl Iterator<Item = (char, Fate)> + '_ {
    let mut before = before;
    let mut rest = text.chars();
    std::iter::from_fn(move || {
        let c = rest.next()?;
        let fate = fate(c, before, rest.clone().next());
        match fate {
            Fate::Keep => before = Some(c),
            Fate::Space => before = Some(' '),
            Fate::Drop => {}
        }
        Some((c, fate))
    })
}

/// True for characters that may stand nowhere on a screen, whatever is beside them.
pub fn hidden(c: char) -> bool {
    let needed_somewhere = is_joiner(c) || is_selector(c);
    !needed_somewhere
        && (c.is_control() || is_ignorable(c) || matches!(c, '\u{2028}' | '\u{2029}' | '\u{fff9}'..='\u{fffb}'))
}

/// A text of several lines with everything that may not be printed written out as `\u{1b}`; line feeds stay.
///
/// ```
/// use benchwalk::characters::printable;
/// assert_eq!(printable("no such file: a\u{1b}[2J\n"), "no such file: a\\u{1b}[2J\n");
/// ```
pub fn printable(text: &str) -> String {
    written_out(text, |c| c == '\n')
}

/// The same for a name that stands in one line, such as a path: line feeds are written out too.
pub fn in_one_line(text: &str) -> String {
    written_out(text, |_| false)
}

/// As [`in_one_line`], cut after `most` characters.
pub fn short(text: &str, most: usize) -> String {
    let mut start: String = text.chars().take(most).collect();
    if start.len() < text.len() {
        start.push('…');
    }
    in_one_line(&start)
}

fn written_out(text: &str, stays: impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(text.len());
    for (c, fate) in fates(None, text) {
        if fate == Fate::Keep || stays(c) {
            out.push(c);
        } else {
            // Writing to a string cannot fail.
            write!(out, "\\u{{{:x}}}", u32::from(c)).ok();
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kept(text: &str) -> String {
        fates(None, text).filter(|(_, fate)| *fate == Fate::Keep).map(|(c, _)| c).collect()
    }

    #[test]
    fn the_list_has_as_many_code_points_as_the_property() {
        assert_eq!(('\0'..=char::MAX).filter(|c| is_ignorable(*c)).count(), 4174);
    }

    #[test]
    fn what_cannot_be_seen_is_dropped() {
        for c in [
            '\u{ad}',
            '\u{34f}',
            '\u{115f}',
            '\u{1160}',
            '\u{17b4}',
            '\u{17b5}',
            '\u{180e}',
            '\u{200b}',
            '\u{202e}',
            '\u{2066}',
            '\u{3164}',
            '\u{feff}',
            '\u{ffa0}',
            '\u{fff9}',
            '\u{e0001}',
            '\u{1b}',
            '\u{9b}',
            '\0',
        ] {
            assert_eq!(kept(&format!("a{c}b")), "ab", "{:x}", u32::from(c));
            assert!(hidden(c), "{:x}", u32::from(c));
        }
        let spaces = fates(None, "\u{2800}\t\n").filter(|(_, fate)| *fate == Fate::Space).count();
        assert_eq!(spaces, 3);
    }

    #[test]
    fn emoji_and_scripts_keep_what_they_need() {
        for text in ["👩‍🌾", "🏳️‍🌈", "❤️", "1️⃣ and #️⃣", "می‌خواهم", "ක්‍ර", "葛\u{e0100}", "❤︎"]
        {
            assert_eq!(kept(text), text);
            assert!(!text.chars().any(hidden), "{text}");
        }
    }

    #[test]
    fn joiners_and_selectors_that_belong_to_nothing_are_dropped() {
        for (text, wanted) in [
            ("M1\u{200d}", "M1"),
            ("\u{fe0f}M1", "M1"),
            ("a\u{fe0f}b", "ab"),
            ("1\u{fe0f}2", "12"),
            (" \u{200c}x", " x"),
            ("❤\u{fe0f}\u{fe0f}\u{fe0e}", "❤\u{fe0f}"),
            ("é\u{200d}\u{200d}", "é\u{200d}"),
        ] {
            assert_eq!(kept(text), wanted, "{text:?}");
        }
        let first: String =
            fates(Some('👩'), "\u{200d}").filter(|(_, fate)| *fate == Fate::Keep).map(|(c, _)| c).collect();
        assert_eq!(first, "\u{200d}", "typed by itself after an emoji");
    }

    #[test]
    fn what_may_not_be_printed_is_written_out() {
        assert_eq!(printable("a\u{202e}b\nc\u{9b}31m\r\n"), "a\\u{202e}b\nc\\u{9b}31m\\u{d}\n");
        assert_eq!(in_one_line("a\nb"), "a\\u{a}b");
        assert_eq!(short("abcdef", 3), "abc…");
        assert_eq!(short("abc", 3), "abc");
        assert_eq!(printable("größer 👩‍🌾"), "größer 👩‍🌾");
    }
}
