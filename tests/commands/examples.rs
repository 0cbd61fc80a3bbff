//! The examples of the README and of the help topics: each is run, and what stands below it is what the program prints.
//!
//! `BENCHWALK_README=1 cargo test --test commands examples` writes the answers again.

use crate::Laptop;
use rusqlite::types::ValueRef;
use std::path::{Path, PathBuf};

/// The README and every topic.
fn pages() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let topics = std::fs::read_dir(root.join("src/commands/help")).unwrap().map(|file| file.unwrap().path());
    let mut pages: Vec<PathBuf> = topics.filter(|path| path.extension().is_some_and(|e| e == "md")).collect();
    pages.sort();
    pages.insert(0, root.join("README.md"));
    pages
}

/// The words of a command line, quoted ones kept together.
fn words(line: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (i, piece) in line.split('\'').enumerate() {
        if i % 2 == 1 {
            all.push(piece.to_owned());
        } else {
            all.extend(piece.split_whitespace().map(str::to_owned));
        }
    }
    all
}

/// A page with every `$ benchwalk …` answered by `run`, and how many there are. A command may go on over lines that end
/// with a backslash.
fn answered(page: &str, mut run: impl FnMut(&str) -> String) -> (String, usize) {
    let mut out = String::new();
    let mut shown = 0;
    let mut rest = page;
    while let Some(found) = rest.find("$ benchwalk ") {
        let (before, example) = rest.split_at(found);
        let block = &example[..example.find("```").unwrap()];
        let mut end = block.find('\n').unwrap();
        while block[..end].ends_with('\\') {
            end += 1 + block[end + 1..].find('\n').unwrap();
        }
        let next = block[end..].find("\n$ ").map_or(block.len(), |at| end + at + 1);
        let command = block["$ benchwalk ".len()..end].replace("\\\n", " ");
        out.push_str(before);
        out.push_str(&block[..=end]);
        out.push_str(&run(&command));
        rest = &example[next..];
        shown += 1;
    }
    out.push_str(rest);
    (out, shown)
}

/// A page with every SQL block followed by a block of what it answers, and how many there are.
fn queried(page: &str, mut run: impl FnMut(&str) -> String) -> (String, usize) {
    let mut out = String::new();
    let mut shown = 0;
    let mut rest = page;
    while let Some(found) = rest.find("```sql\n") {
        let (before, block) = rest.split_at(found);
        let end = "```sql\n".len() + block["```sql\n".len()..].find("```\n").unwrap();
        let query = &block["```sql\n".len()..end];
        out.push_str(before);
        out.push_str(&block[..end + "```\n".len()]);
        out.push_str(&format!("\n```text\n{}```\n", run(query)));
        rest = &block[end + "```\n".len()..];
        if let Some(answer) = rest.strip_prefix("\n```text\n") {
            rest = &answer[answer.find("```\n").unwrap() + "```\n".len()..];
        }
        shown += 1;
    }
    out.push_str(rest);
    (out, shown)
}

/// Compares a page with itself as the program would have it, or writes it.
fn hold(path: &Path, old: &str, new: &str) {
    if std::env::var_os("BENCHWALK_README").is_some() {
        std::fs::write(path, new).unwrap();
    } else {
        assert!(old == new, "{}; BENCHWALK_README=1 writes the answers again:\n{new}", path.display());
    }
}

#[test]
fn examples_of_commands_print_what_the_pages_show() {
    let laptop = Laptop::new();
    let mut all = String::new();
    for path in pages() {
        let page = std::fs::read_to_string(&path).unwrap();
        let (new, _) = answered(&page, |command| {
            all.push_str(command);
            let arguments = words(command);
            laptop.done(&arguments.iter().map(String::as_str).collect::<Vec<_>>())
        });
        hold(&path, &page, &new);
    }
    for command in ["night ", "calendar ", "climate ", "mix nutrient ", "mix feed "] {
        assert!(all.contains(command), "no page shows `benchwalk {command}`");
    }
}

/// What `sqlite3` prints in its list mode, the names of the columns first.
fn rows(season: &Path, query: &str) -> String {
    let file = rusqlite::Connection::open_with_flags(season, rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    let mut statement = file.prepare(query).unwrap();
    let mut text = format!("{}\n", statement.column_names().collect::<Vec<_>>().join("|"));
    let columns = statement.column_count();
    let mut rows = statement.query([]).unwrap();
    while let Some(row) = rows.next().unwrap() {
        let cell = |at| match row.get_ref(at).unwrap() {
            ValueRef::Null => String::new(),
            ValueRef::Integer(number) => number.to_string(),
            ValueRef::Real(number) => format!("{number:?}"),
            ValueRef::Text(text) => String::from_utf8(text.to_vec()).unwrap(),
            ValueRef::Blob(_) => panic!("a view shows text and numbers"),
        };
        text.push_str(&(0..columns).map(cell).collect::<Vec<_>>().join("|"));
        text.push('\n');
    }
    text
}

#[test]
fn examples_of_sql_answer_what_the_pages_show_of_the_demo() {
    let laptop = Laptop::new();
    let season = laptop.path("demo.db");
    laptop.done(&["--season", crate::arg(&season), "demo", "--no-open"]);
    let mut shown = 0;
    for path in pages() {
        let page = std::fs::read_to_string(&path).unwrap();
        let (new, queries) = queried(&page, |query| {
            let answer = rows(&season, query);
            assert!(answer.lines().count() > 1, "an example that answers nothing: {query}");
            answer
        });
        hold(&path, &page, &new);
        shown += queries;
    }
    assert!(shown >= 5, "{shown} queries");
}

#[test]
fn examples_of_journals_are_imported() {
    let mut shown = 0;
    for path in pages() {
        let page = std::fs::read_to_string(&path).unwrap();
        for block in page.split("```jsonl\n").skip(1) {
            // Broken for reading: a line that begins with a blank goes on.
            let journal = block[..block.find("```").unwrap()].replace("\n  ", "");
            let laptop = Laptop::new();
            let said = laptop.done(&["import", crate::arg(&laptop.file("example.jsonl", &journal))]);
            assert!(said.ends_with(&format!("{} records imported\n", journal.lines().count() - 1)), "{said}");
            shown += 1;
        }
    }
    assert!(shown >= 1, "the topic on journals shows one");
}

#[test]
fn examples_are_found_where_they_stand() {
    let page = "a\n```console\n$ benchwalk x \\\n    y\nold\n\nold\n$ benchwalk z\n```\nb\n";
    let (new, shown) = answered(page, |command| format!("[{}]\n", words(command).join(" ")));
    assert_eq!(new, "a\n```console\n$ benchwalk x \\\n    y\n[x y]\n$ benchwalk z\n[z]\n```\nb\n");
    assert_eq!(shown, 2);
    let page = "```sql\nSELECT 1;\n```\n\n```text\nold\n```\nb\n```sql\nSELECT 2;\n```\n\n```console\nc\n```\n";
    let (new, shown) = queried(page, str::to_lowercase);
    let wanted = "```sql\nSELECT 1;\n```\n\n```text\nselect 1;\n```\nb\n```sql\nSELECT 2;\n```\n\n```text\nselect 2;\n```\n\n\
                  ```console\nc\n```\n";
    assert_eq!((new.as_str(), shown), (wanted, 2));
}
