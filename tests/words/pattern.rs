//! A text to look for, and whether a piece of the program holds it.

/// Where a text may stand to count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Where {
    /// Anywhere, as words of its own.
    Anywhere,
    /// Only as a whole literal, cell or column head.
    Label,
    /// Only as a whole cell or column head of a page.
    Cell,
    /// As `Anywhere`, and upper and lower case are two things.
    Exact,
    /// As `Anywhere`, also in the sources of the tests.
    AlsoTests,
}

/// A text to look for.
#[derive(Clone, Debug)]
pub(crate) struct Pattern {
    /// As the list has it.
    pub(crate) text: String,
    /// Where it may stand.
    pub(crate) place: Where,
    /// What lies between its placeholders, in lower case unless case counts.
    parts: Vec<String>,
    /// Whether any ending of the last word counts.
    open_end: bool,
    /// Its longest whole word in lower case: a piece without it cannot hold the text.
    pub(crate) word: Option<String>,
}

/// How many bytes a value may take in the place of `{}`.
const VALUE: usize = 60;

impl Pattern {
    /// Reads a line of the list.
    pub(crate) fn new(line: &str) -> Self {
        let places = [
            ("label: ", Where::Label),
            ("cell: ", Where::Cell),
            ("exact: ", Where::Exact),
            ("everywhere: ", Where::AlsoTests),
        ];
        let (place, text) = places
            .iter()
            .find_map(|(mark, place)| line.strip_prefix(mark).map(|text| (*place, text)))
            .unwrap_or((Where::Anywhere, line));
        let (bare, open_end) = text.strip_suffix('*').map_or((text, false), |bare| (bare, true));
        let bare = if matches!(place, Where::Exact | Where::Label | Where::Cell) {
            bare.to_owned()
        } else {
            bare.to_ascii_lowercase()
        };
        let word =
            words(&text.to_ascii_lowercase().replace("{}", " ")).max_by_key(|word| word.len()).map(str::to_owned);
        Self {
            text: text.to_owned(),
            place,
            // A value at either end says nothing.
            parts: bare.trim_start_matches("{}").trim_end_matches("{}").split("{}").map(str::to_owned).collect(),
            open_end,
            word: word.filter(|_| !open_end),
        }
    }

    /// The byte at which the text stands in a piece for the first time; `lower` is the piece in lower case.
    pub(crate) fn find(&self, text: &str, lower: &str) -> Option<usize> {
        let hay = if self.place == Where::Exact { text } else { lower };
        let (first, rest) = self.parts.split_first()?;
        hay.match_indices(first.as_str()).map(|(at, _)| at).find(|at| {
            let ends = end_of(hay, rest, at + first.len());
            starts_a_word(hay, *at)
                && ends.is_some_and(|end| (self.open_end || ends_a_word(hay, end)) && !is_told_apart(hay, end))
        })
    }

    /// Whether a whole literal or cell is this text.
    pub(crate) fn is(&self, cell: &str) -> bool {
        self.parts
            .first()
            .is_some_and(|part| part == cell.trim_start_matches(['▸', '>', ' ']).trim_end_matches(['.', ':', '*']))
    }
}

/// Whether a text that ends here goes on as `told apart`, what a trial says of its treatments.
fn is_told_apart(hay: &str, end: usize) -> bool {
    hay[..end].ends_with("told") && hay[end..].trim_start().starts_with("apart")
}

/// Where the text ends whose first part ends at `from`.
fn end_of(hay: &str, rest: &[String], from: usize) -> Option<usize> {
    rest.iter().try_fold(from, |end, part| {
        let mut reach = (end + VALUE + part.len()).min(hay.len());
        while !hay.is_char_boundary(reach) {
            reach += 1;
        }
        let at = hay.get(end..reach)?.find(part.as_str())?;
        // Something has to stand in the place of the value; at the end of the text anything does.
        (at > 0 || part.is_empty()).then_some(end + at + part.len())
    })
}

/// The words of a text.
pub(crate) fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

/// Whether a character goes on with a word or the name of a field.
fn in_a_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Whether a text that begins here begins a word, or begins with none.
fn starts_a_word(hay: &str, at: usize) -> bool {
    let first = hay[at..].chars().next().is_none_or(|c| !c.is_alphanumeric());
    first || !hay[..at].ends_with(in_a_word)
}

/// Whether a text that ends here ends a word (a hyphen goes on with it), or ends with none.
fn ends_a_word(hay: &str, end: usize) -> bool {
    let rest = &hay[end..];
    let goes_on = rest.strip_prefix('-').unwrap_or(rest).starts_with(in_a_word);
    !hay[..end].ends_with(char::is_alphanumeric) || !goes_on
}
