//! Care cards for the pots that are sold, in the grower's own words.

use super::Paper;
use super::sheet::{self, Cut};
use crate::report::html::escape;

/// The words until a grower writes others: common advice for poinsettias in the home, from memory, no source.
pub const WORDS: &str = "\
Poinsettia
Let the top of the mix dry between waterings; then water until it drains. Empty the saucer or the wrap: no wet feet.
Bright light, out of hot noon sun.
Keep it warm: normal room temperature, away from cold drafts and hot air. Do not let it stand in the cold on the way home.
The milky sap may irritate skin and eyes and mark furniture: wash it off. For looking at, not for eating; keep it away from \
children and pets that chew.
";

/// The most lines of a card, and the most characters of a line and of all: what fits a card in readable letters.
const MOST: (usize, usize, usize) = (10, 200, 560);

/// The words of a card: its title, and the lines below it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    title: String,
    lines: Vec<String>,
}

/// Why a file gives no card.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CardFault {
    /// There is nothing in it.
    #[error("there are no words in it; the first line is the title, each line below it a paragraph")]
    Empty,
    /// There are too many lines.
    #[error("line {0}: a card has at most {most} lines; put two together or leave one out", most = MOST.0)]
    Lines(usize),
    /// A line is too long.
    #[error("line {0} has {1} characters; at most {most} fit", most = MOST.1)]
    Long(usize, usize),
    /// All is too long.
    #[error("the card has {0} characters; at most {most} fit", most = MOST.2)]
    All(usize),
}

impl Card {
    /// Reads the words: the first line is the title, each further one a paragraph; empty lines and lines that begin with `#` are
    /// left out.
    ///
    /// # Errors
    /// The first line that does not fit.
    pub fn read(text: &str) -> Result<Self, CardFault> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let lines: Vec<(usize, String)> = (1..)
            .zip(text.lines())
            .filter(|(_, line)| !line.trim().is_empty() && !line.trim_start().starts_with('#'))
            .map(|(n, line)| (n, crate::record::clean(line.trim())))
            .collect();
        let count = |line: &str| line.chars().count();
        if let Some((n, _)) = lines.get(MOST.0) {
            return Err(CardFault::Lines(*n));
        }
        if let Some((n, line)) = lines.iter().find(|(_, line)| count(line) > MOST.1) {
            return Err(CardFault::Long(*n, count(line)));
        }
        let all = lines.iter().map(|(_, line)| count(line)).sum();
        if all > MOST.2 {
            return Err(CardFault::All(all));
        }
        let mut lines = lines.into_iter().map(|(_, line)| line);
        let title = lines.next().ok_or(CardFault::Empty)?;
        Ok(Self { title, lines: lines.collect() })
    }
}

/// So many cards on sheets of two columns and four rows, with the name of the site.
pub fn html(card: &Card, (count, site): (usize, &str), paper: Paper) -> String {
    let lines = card.lines.iter().fold(String::new(), |out, line| format!("{out}<p>{}</p>\n", escape(line)));
    let site = if site.is_empty() { String::new() } else { format!("<p class=\"site\">{}</p>", escape(site)) };
    let one = format!("<h2>{}</h2>\n{lines}{site}", escape(&card.title));
    sheet::html("Care cards", &vec![one; count], (paper, Cut::Cards))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_a_card_are_read_and_what_does_not_fit_is_refused_by_its_line() {
        let card = Card::read("\u{feff}# ours\n\nEast House reds\nKeep warm.\n").unwrap();
        assert_eq!((card.title.as_str(), card.lines.as_slice()), ("East House reds", &["Keep warm.".to_owned()][..]));
        assert!(Card::read(WORDS).is_ok());
        assert_eq!(Card::read("\n# only a remark\n"), Err(CardFault::Empty));
        assert_eq!(Card::read(&"a\n".repeat(11)), Err(CardFault::Lines(11)));
        assert_eq!(Card::read(&format!("a\n{}", "b".repeat(201))), Err(CardFault::Long(2, 201)));
        assert_eq!(Card::read(&format!("{}\n", "b".repeat(199)).repeat(3)), Err(CardFault::All(597)));
    }
}
