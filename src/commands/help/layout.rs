//! Topics laid out for a terminal and for the manual page.
//!
//! The Markdown of a topic is kept to what both can show: a title line, `##` headings, paragraphs, `-` items and fenced
//! blocks. A fenced block is shown exactly as written.

/// One piece of a topic.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Block {
    /// A `##` heading.
    Heading(String),
    /// A paragraph, which may be refilled.
    Paragraph(Vec<String>),
    /// A `-` item, without its mark.
    Item(Vec<String>),
    /// A fenced block.
    Literal(Vec<String>),
}

/// The title and the pieces of a topic.
fn read(markdown: &str) -> (String, Vec<Block>) {
    let mut lines = markdown.lines();
    let title = lines.next().unwrap_or_default().trim_start_matches("# ").to_owned();
    let mut blocks = Vec::new();
    let mut open = false;
    while let Some(line) = lines.next() {
        if line.starts_with("```") {
            let literal = lines.by_ref().take_while(|line| *line != "```").map(str::to_owned).collect();
            blocks.push(Block::Literal(literal));
            open = false;
        } else if let Some(heading) = line.strip_prefix("## ") {
            blocks.push(Block::Heading(heading.to_owned()));
            open = false;
        } else if let Some(item) = line.strip_prefix("- ") {
            blocks.push(Block::Item(vec![item.to_owned()]));
            open = true;
        } else if line.trim().is_empty() {
            open = false;
        } else if let (true, Some(Block::Paragraph(more) | Block::Item(more))) = (open, blocks.last_mut()) {
            more.push(line.trim().to_owned());
        } else {
            blocks.push(Block::Paragraph(vec![line.to_owned()]));
            open = true;
        }
    }
    (title, blocks)
}

/// Plain text for a terminal: lines as they stand in the file, headings in capitals, code fences left out.
pub(super) fn terminal(markdown: &str) -> String {
    let (title, blocks) = read(markdown);
    let mut text = format!("{title}\n");
    let mut in_list = false;
    for block in blocks {
        let item = matches!(block, Block::Item(_));
        if !(item && in_list) {
            text.push('\n');
        }
        in_list = item;
        match block {
            Block::Heading(heading) => text.push_str(&format!("{}\n", heading.to_uppercase())),
            Block::Paragraph(lines) | Block::Literal(lines) => {
                for line in lines {
                    text.push_str(&line);
                    text.push('\n');
                }
            }
            Block::Item(lines) => {
                for (number, line) in lines.iter().enumerate() {
                    text.push_str(&format!("{} {line}\n", if number == 0 { "-" } else { " " }));
                }
            }
        }
    }
    text
}

/// A section of the manual page, in the requests of `man`.
pub(super) fn man(name: &str, markdown: &str) -> String {
    let (title, blocks) = read(markdown);
    let mut text = format!(".SH \"TOPIC {}\"\n{}\n", name.to_uppercase(), prose(&title));
    for block in blocks {
        match block {
            Block::Heading(heading) => text.push_str(&format!(".SS \"{}\"\n", escaped(&heading))),
            Block::Paragraph(lines) => text.push_str(&format!(".PP\n{}\n", prose(&lines.join("\n")))),
            Block::Item(lines) => text.push_str(&format!(".IP \\(bu 2\n{}\n", prose(&lines.join("\n")))),
            Block::Literal(lines) => {
                text.push_str(".PP\n.nf\n");
                for line in lines {
                    text.push_str(&guarded(&escaped(&line)));
                    text.push('\n');
                }
                text.push_str(".fi\n");
            }
        }
    }
    text
}

/// Characters that `troff` would read as its own: backslashes, and hyphens that must stay ASCII to be copied.
fn escaped(line: &str) -> String {
    line.replace('\\', "\\e").replace('-', "\\-").replace('"', "\\(dq")
}

/// A line that begins like a request is kept text by a zero-width character before it.
fn guarded(line: &str) -> String {
    if line.starts_with(['.', '\'']) { format!("\\&{line}") } else { line.to_owned() }
}

/// Filled text, with what stands between backquotes in bold.
fn prose(text: &str) -> String {
    let mut bold = false;
    let mut out = String::new();
    for (number, piece) in text.split('`').enumerate() {
        if number > 0 {
            bold = !bold;
            out.push_str(if bold { "\\fB" } else { "\\fR" });
        }
        out.push_str(&escaped(piece));
    }
    out.lines().map(guarded).collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    const TOPIC: &str =
        "# About\n\nOne `x-y`\ntwo.\n\n## Part\n\n- a\n  b\n- c\n\n```console\n$ say\n\n.dot \\ 'q'\n```\n";

    #[test]
    fn a_terminal_gets_the_text_without_the_markup() {
        let shown = "About\n\nOne `x-y`\ntwo.\n\nPART\n\n- a\n  b\n- c\n\n$ say\n\n.dot \\ 'q'\n";
        assert_eq!(terminal(TOPIC), shown);
    }

    #[test]
    fn the_manual_gets_requests_and_escapes() {
        let shown = ".SH \"TOPIC ABOUT\"\nAbout\n.PP\nOne \\fBx\\-y\\fR\ntwo.\n.SS \"Part\"\n.IP \\(bu 2\na\nb\n.IP \\(bu 2\nc\n\
                     .PP\n.nf\n$ say\n\n\\&.dot \\e 'q'\n.fi\n";
        assert_eq!(man("about", TOPIC), shown);
    }
}
