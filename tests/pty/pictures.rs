//! The pictures of the README: each is the screen of the built program on the demo season, at 80 columns and 24 rows.
//!
//! `BENCHWALK_README=1 cargo test --test pty pictures` writes them anew.

use crate::terminal::Pty;
use std::path::Path;

/// Title in the README, keys from the Round, and what stands on the screen when it is there.
const PICTURES: [(&str, &str, &str); 3] = [
    ("Round", "", "walked 3 of 2"),
    ("Walk card", "w", "[water _]"),
    // The comparison with the day before comes when the hands rest.
    ("Evening review", "e", "(ongoing)"),
];

/// The screen without trailing blanks, the time of day always the same.
fn picture(text: &str) -> String {
    let mut lines: Vec<String> = text.lines().map(|l| l.trim_end().to_owned()).collect();
    if let Some(first) = lines.first_mut()
        && let Some(colon) = first.rfind(':')
        && colon >= 2
    {
        first.replace_range(colon - 2..colon + 3, "09:10");
    }
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    lines.join("\n")
}

/// The picture of a title as the README has it.
fn readme_of<'a>(readme: &'a str, title: &str) -> &'a str {
    let head = format!("### {title}\n\n```text\n");
    let start = readme.find(&head).unwrap_or_else(|| panic!("README.md has no picture '{title}'")) + head.len();
    &readme[start..start + readme[start..].find("\n```").unwrap()]
}

#[test]
fn the_pictures_of_the_readme_are_what_the_program_shows() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let mut readme = std::fs::read_to_string(&path).unwrap();
    let anew = std::env::var_os("BENCHWALK_README").is_some();
    for (title, keys, there) in PICTURES {
        let mut pty = Pty::demo();
        pty.send(keys);
        // A frame is whole when its synchronized update has ended.
        pty.wait_out(title, |out| out.raw.ends_with(b"\x1b[?2026l") && out.screen.screen().contents().contains(there));
        let shown = picture(&pty.text());
        if shown.contains("closed") && !readme_of(&readme, title).contains("closed") {
            // The program has the real time of day, and the demo closes a bench until 08:15 of its day.
            println!("the picture '{title}' is compared after 08:15 at the demo's place");
            continue;
        }
        if anew {
            readme = readme.replacen(readme_of(&readme, title), &shown, 1);
        } else {
            assert_eq!(
                readme_of(&readme, title),
                shown,
                "README picture '{title}'; BENCHWALK_README=1 writes them anew"
            );
        }
    }
    if anew {
        std::fs::write(&path, readme).unwrap();
    }
}
