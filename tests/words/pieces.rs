//! Pieces of text: literals and comments of a source, a page as it is printed; each knows its file and its lines.

/// A run of text in which gaps are one blank wide, with the line each byte stands on.
#[derive(Debug)]
pub(crate) struct Piece {
    /// The file, or the command that prints it.
    pub(crate) path: String,
    /// The text with gaps of one blank.
    pub(crate) text: String,
    /// The same in lower case (ASCII).
    pub(crate) lower: String,
    /// Where each line begins in the text, and its number.
    lines: Vec<(usize, usize)>,
    /// Whether it is a page rather than a literal or a comment.
    pub(crate) printed: bool,
    /// Whether it stands in the sources of tests: what a test types or plants is not what the program says.
    pub(crate) of_tests: bool,
    /// What can be a label: the whole literal, or each cell of a page, with its line.
    pub(crate) cells: Vec<(usize, String)>,
}

/// What frames and parts the cells of a page.
const RULES: [char; 14] = ['│', '─', '┌', '┐', '└', '┘', '├', '┤', '┬', '┴', '┼', '|', '║', '═'];

impl Piece {
    /// A page: its cells lie between rules, gaps of two blanks and the ends of its lines.
    pub(crate) fn page(path: &str, text: &str) -> Self {
        let mut piece = Self::empty(path);
        piece.printed = true;
        for (number, line) in (1..).zip(text.lines()) {
            let bare = line.replace(RULES, "  ");
            let cells = bare.split("  ").map(str::trim).filter(|cell| !cell.is_empty());
            piece.cells.extend(cells.map(|cell| (number, cell.to_owned())));
            piece.push(&bare, number);
            piece.push("\n", number);
        }
        piece.finish()
    }

    /// A literal or a comment that begins on this line: it is a label as a whole.
    pub(crate) fn whole(path: &str, line: usize, text: &str) -> Self {
        let mut piece = Self::empty(path);
        piece.cells.push((line, text.trim().to_owned()));
        for (number, part) in (line..).zip(text.split('\n')) {
            piece.push(part, number);
            piece.push("\n", number);
        }
        piece.finish()
    }

    /// The same, of the sources of tests.
    pub(crate) fn in_tests(mut self) -> Self {
        self.of_tests = true;
        self
    }

    fn empty(path: &str) -> Self {
        Self {
            path: path.to_owned(),
            text: String::new(),
            lower: String::new(),
            lines: Vec::new(),
            printed: false,
            of_tests: false,
            cells: Vec::new(),
        }
    }

    fn push(&mut self, text: &str, line: usize) {
        self.lines.push((self.text.len(), line));
        if text.starts_with(char::is_whitespace) {
            self.gap();
        }
        for word in text.split_whitespace() {
            self.text.push_str(word);
            self.gap();
        }
        if !text.ends_with(char::is_whitespace) {
            self.text.truncate(self.text.trim_end().len());
        }
    }

    /// Ends with one blank.
    fn gap(&mut self) {
        if !self.text.ends_with(' ') {
            self.text.push(' ');
        }
    }

    fn finish(mut self) -> Self {
        self.lower = self.text.to_ascii_lowercase();
        self
    }

    /// The line a byte of the text stands on.
    pub(crate) fn line(&self, at: usize) -> usize {
        self.lines.iter().rev().find(|(start, _)| *start <= at).map_or(0, |(_, line)| *line)
    }
}

/// The string literals of a Rust source, put together across `\` at the end of a line, and the runs of `///` where asked for.
pub(crate) fn of_source(path: &str, source: &str, comments: bool) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut reader = Reader { rest: source, line: 1 };
    let mut run: Option<(usize, String)> = None;
    while let Some(token) = reader.next_token() {
        match token {
            Token::Comment(line, text) => {
                if let Some(doc) = text.strip_prefix("///").filter(|_| comments) {
                    let (_, run) = run.get_or_insert_with(|| (line, String::new()));
                    run.push_str(doc);
                    run.push('\n');
                }
                continue;
            }
            Token::Literal(line, text) => pieces.push(Piece::whole(path, line, &text)),
            Token::Code => {}
        }
        pieces.extend(run.take().map(|(line, text)| Piece::whole(path, line, &text)));
    }
    pieces.extend(run.map(|(line, text)| Piece::whole(path, line, &text)));
    pieces
}

enum Token {
    /// A comment to the end of its line.
    Comment(usize, String),
    /// A string literal as the program has it.
    Literal(usize, String),
    /// A character of code.
    Code,
}

struct Reader<'a> {
    rest: &'a str,
    line: usize,
}

impl Reader<'_> {
    /// The next comment, literal or character that is no blank.
    fn next_token(&mut self) -> Option<Token> {
        while self.rest.starts_with(char::is_whitespace) {
            self.take(1);
        }
        let line = self.line;
        let raw = self.rest.trim_start_matches('b');
        let hashes = raw.strip_prefix('r').map(|after| after.len() - after.trim_start_matches('#').len());
        let prefix = self.rest.len() - raw.len();
        if self.rest.starts_with("//") {
            let text = self.until("\n");
            return Some(Token::Comment(line, text));
        }
        if self.rest.starts_with("/*") {
            self.until("*/");
        } else if let Some(hashes) = hashes.filter(|n| raw[1 + n..].starts_with('"') && prefix < 2) {
            self.take(prefix + hashes + 2);
            let end = format!("\"{}", "#".repeat(hashes));
            let text = self.until(&end);
            self.take(end.len());
            return Some(Token::Literal(line, text));
        } else if self.rest.starts_with('"') {
            self.take(1);
            return Some(Token::Literal(line, self.quoted()));
        } else if let Some(after) = self.rest.strip_prefix('\'') {
            // A character, or else the mark of a lifetime.
            let length = match after.strip_prefix('\\') {
                Some(escape) => escape.char_indices().skip(1).find(|(_, c)| *c == '\'').map(|(at, _)| at + 2),
                None => after.chars().next().filter(|c| after[c.len_utf8()..].starts_with('\'')).map(|_| 2),
            };
            self.take_chars(length.unwrap_or(1));
        } else if self.rest.starts_with(|c: char| c.is_alphanumeric() || c == '_') {
            let word = self.rest.len() - self.rest.trim_start_matches(|c: char| c.is_alphanumeric() || c == '_').len();
            self.rest = &self.rest[word..];
        } else {
            self.rest.chars().next()?;
            self.take(1);
        }
        Some(Token::Code)
    }

    /// Passes this many characters.
    fn take(&mut self, count: usize) {
        for c in self.rest.chars().take(count) {
            self.line += usize::from(c == '\n');
        }
        let end = self.rest.char_indices().nth(count).map_or(self.rest.len(), |(at, _)| at);
        self.rest = &self.rest[end..];
    }

    fn take_chars(&mut self, count: usize) {
        self.take(count);
    }

    /// What stands before a mark; the mark itself is left.
    fn until(&mut self, mark: &str) -> String {
        let text = &self.rest[..self.rest.find(mark).unwrap_or(self.rest.len())];
        let text = text.to_owned();
        self.take(text.chars().count());
        text
    }

    /// The rest of a literal in plain quotes, its escapes read.
    fn quoted(&mut self) -> String {
        let mut text = String::new();
        while let Some(c) = self.rest.chars().next() {
            self.take(1);
            match c {
                '"' => break,
                '\\' => {
                    let escaped = self.rest.chars().next().unwrap_or(' ');
                    self.take(1);
                    match escaped {
                        '\n' => {
                            while self.rest.starts_with(char::is_whitespace) {
                                self.take(1);
                            }
                        }
                        'n' | 't' | 'r' => text.push(' '),
                        'u' => {
                            let code = self.until("}");
                            self.take(1);
                            let code = u32::from_str_radix(code.trim_start_matches('{'), 16).unwrap_or(0);
                            text.push(char::from_u32(code).unwrap_or(' '));
                        }
                        other => text.push(other),
                    }
                }
                other => text.push(other),
            }
        }
        text
    }
}
