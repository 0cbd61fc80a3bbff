//! `benchwalk help`: commands and topics in one namespace, and the same text in the manual page and the completions.

use crate::Laptop;

const TOPICS: [&str; 12] = [
    "journal",
    "sql",
    "mixing",
    "trials",
    "rules",
    "dates",
    "backups",
    "spreadsheets",
    "loggers",
    "scanning",
    "last-year",
    "share",
];

#[test]
fn help_lists_commands_and_topics_and_so_does_the_option() {
    let laptop = Laptop::new();
    let help = laptop.done(&["help"]);
    for name in ["review", "mix", "import", "help"].iter().chain(&TOPICS) {
        assert!(help.lines().any(|line| line.trim_start().starts_with(&format!("{name} "))), "{name} in {help}");
    }
    assert_eq!(help, laptop.done(&["--help"]));
}

#[test]
fn a_command_is_explained_as_by_its_own_option() {
    let laptop = Laptop::new();
    for command in [&["review"][..], &["mix"], &["mix", "growth-regulator"], &["help"]] {
        let by_name = laptop.done(&[&["help"], command].concat());
        assert_eq!(by_name, laptop.done(&[command, &["--help"]].concat()), "{command:?}");
        assert!(by_name.contains("Usage: benchwalk"), "{by_name}");
    }
}

#[test]
fn a_topic_prints_its_page_also_without_a_season() {
    let laptop = Laptop::new();
    laptop.file("data/season.db", "not a season");
    for topic in TOPICS {
        let page = laptop.done(&["help", topic]);
        assert!(page.lines().count() > 20, "{page}");
    }
    assert!(laptop.done(&["help", "journal"]).contains("\n  level*            "), "fields come from the table");
    assert!(
        laptop.done(&["help", "mixing"]).contains("\n- A certified or licensed applicator, or someone they supervise")
    );
}

#[test]
fn an_unknown_name_is_refused_with_those_that_are_known() {
    let laptop = Laptop::new();
    let refused = |names: &[&str]| {
        let said = laptop.run(&[&["help"], names].concat());
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{names:?}");
        said.err
    };
    let top = refused(&["jurnal"]);
    assert!(top.starts_with("benchwalk: help: there is no 'jurnal'; known are demo, import, "), "{top}");
    assert!(top.contains(", journal, sql, mixing, trials, rules, dates, backups, spreadsheets, loggers"), "{top}");
    assert_eq!(
        refused(&["mix", "paint"]),
        "benchwalk: help mix: there is no 'paint'; known are growth-regulator, nutrient, feed\n"
    );
    assert_eq!(
        refused(&["night", "sky"]),
        "benchwalk: help night: 'night' has no parts, so there is no 'sky' to explain\n"
    );
    assert!(refused(&["sql", "views"]).contains("'sql' is a topic"), "{}", refused(&["sql", "views"]));
}

/// The words of a text, in order; signs of layout left out.
fn words(text: &str) -> Vec<String> {
    text.split_whitespace().map(|word| word.trim_matches('`').to_lowercase()).filter(|word| !word.is_empty()).collect()
}

/// The manual page as `man` shows it, as far as words go: requests and escapes taken out.
fn shown(man: &str) -> String {
    let mut text = String::new();
    for line in man.lines() {
        let line = line.strip_prefix("\\&").unwrap_or(line);
        let kept = match line.strip_prefix('.') {
            Some(request) if request.starts_with("SH ") || request.starts_with("SS ") => request[3..].trim_matches('"'),
            Some(request) if request.starts_with("IP ") => "-",
            Some(_) => "",
            None => line,
        };
        let kept = kept.replace("\\fB", "`").replace("\\fR", "`").replace("\\-", "-").replace("\\(dq", "\"");
        text.push_str(&kept.replace("\\e", "\\"));
        text.push('\n');
    }
    text
}

#[test]
fn the_manual_page_has_every_topic_word_for_word() {
    let laptop = Laptop::new();
    let man = laptop.done(&["man"]);
    for topic in TOPICS {
        let start = man.find(&format!(".SH \"TOPIC {}\"", topic.to_uppercase())).unwrap();
        let section = man[start..].split_once('\n').unwrap().1;
        let section = section.split("\n.SH ").next().unwrap();
        // `'` at the start of a line is a request too.
        assert!(section.lines().all(|line| !line.starts_with('\'')), "{topic}");
        assert_eq!(words(&shown(section)), words(&laptop.done(&["help", topic])), "{topic}");
    }
    assert!(man.contains(".SH \"COMMAND REVIEW\""), "commands stay in the page");
}

#[test]
fn completions_offer_commands_and_topics_after_help() {
    let laptop = Laptop::new();
    for shell in ["bash", "zsh", "fish"] {
        let text = laptop.done(&["completions", shell]);
        for name in ["journal", "sql", "mixing", "rules", "dates", "review"] {
            assert!(text.contains(name), "{name} in {shell}");
        }
    }
}

#[test]
fn the_readme_stays_short_and_names_every_command_and_topic() {
    let readme = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/README.md")).unwrap();
    assert!(readme.lines().count() <= 250, "{} lines: what is longer is a topic", readme.lines().count());
    let laptop = Laptop::new();
    let help = laptop.done(&["help"]);
    let commands = help.split_once("Commands:\n").unwrap().1.split_once("\n\n").unwrap().0;
    // A name begins a line after two blanks; what goes on below it is further in.
    let names = commands.lines().filter_map(|line| line.strip_prefix("  ")).filter(|line| !line.starts_with(' '));
    let names: Vec<&str> = names.filter_map(|line| line.split_whitespace().next()).collect();
    assert!(names.len() > 12, "{names:?}");
    for name in names {
        assert!(readme.contains(&format!("`benchwalk {name}")) || readme.contains(&format!("`{name}`")), "{name}");
    }
    for topic in TOPICS {
        assert!(readme.contains(&format!("`benchwalk help {topic}`")), "{topic}");
    }
}
