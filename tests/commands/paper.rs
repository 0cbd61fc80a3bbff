//! The round on paper, the manual and the completions.

use crate::{Laptop, SMALL, arg, water};

#[test]
fn the_sheet_asks_what_is_due_and_says_how_to_type_it_in() {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n", water(11, 3)));
    laptop.done(&["import", arg(&journal)]);
    let text = laptop.done(&["sheet"]);
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let bench = text.lines().find(|l| l.starts_with("[ ] E1")).unwrap();
    assert!(bench.contains("R1") && bench.contains("crop wk 9") && bench.contains("water 1 2 3 4 5"), "{text}");
    assert!(text.contains("roots 0 1 2 3 4 5") && text.contains("whitefly ___ of 20"), "{text}");
    assert!(text.contains("--on 2026-10-12"), "{text}");
    let html = laptop.done(&["sheet", "--format", "html", "--on", "2026-09-01"]);
    assert!(html.contains("<b>E1</b>") && html.contains("Tue Sep 1, 2026") && html.contains("class=\"box\""), "{html}");
}

#[test]
fn a_closed_bench_has_no_boxes_on_the_sheet() {
    let laptop = Laptop::new();
    let spray = r#"{"type":"entry","at":"2026-10-11T18:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":0.1}],"how":"drench","rei_h":24}"#;
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{spray}\n"));
    laptop.done(&["import", arg(&journal)]);
    let text = laptop.done(&["sheet"]);
    assert!(text.contains("CLOSED (REI) until Mon Oct 12 18:00") && !text.contains("water 1 2 3"), "{text}");
    assert!(text.contains("follow the posted sign"), "{text}");
}

#[test]
fn tomorrows_jobs_go_on_paper_closed_benches_first() {
    let laptop = Laptop::new();
    let spray = r#"{"type":"entry","at":"2026-10-12T18:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":0.1}],"how":"drench","rei_h":24}"#;
    let wet: Vec<String> = (5..=12).map(|day| water(day, 5)).collect();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n{spray}\n", wet.join("\n")));
    laptop.done(&["import", arg(&journal)]);
    let text = laptop.done(&["sheet", "--tomorrow"]);
    assert!(text.starts_with("Thistlecot: jobs for Tue Oct 13, 2026     crew ______\n"), "{text}");
    let at = |words: &str| text.find(words).unwrap_or_else(|| panic!("{words}\n{text}"));
    assert!(at("E1 until Tue Oct 13 18:00") < at("[ ] E1: Do not water until it reads 2."), "{text}");
    assert!(at("HOLD") < at("CHECK") && text.contains("[ ] E1: Knock out three pots and score the roots."), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let html = laptop.done(&["sheet", "--tomorrow", "--format", "html"]);
    assert!(html.contains("class=\"large\"") && html.contains("<h2>Closed</h2>"), "{html}");
    assert!(html.contains("<span class=\"box\"></span>E1: Do not water until it reads 2."), "{html}");
}

#[test]
fn the_manual_and_the_completions_name_every_command() {
    let laptop = Laptop::new();
    let help = laptop.done(&["--help"]);
    let commands: Vec<&str> = help
        .lines()
        .skip_while(|l| *l != "Commands:")
        .skip(1)
        .take_while(|l| !l.is_empty())
        .filter_map(|l| l.strip_prefix("  ").filter(|l| !l.starts_with(' '))?.split_whitespace().next())
        .collect();
    assert!(commands.len() > 10, "{help}");
    let (manual, bash) = (laptop.done(&["man"]), laptop.done(&["completions", "bash"]));
    for command in commands.iter().filter(|c| **c != "help") {
        assert!(manual.contains(&format!("COMMAND {}", command.to_uppercase())), "{command}");
        assert!(bash.contains(command), "{command}");
    }
    assert_eq!(laptop.run(&["completions", "no-such-shell"]).code, 2);
}

#[test]
fn entries_go_to_a_spreadsheet() {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n", water(11, 3)));
    laptop.done(&["import", arg(&journal)]);
    let csv = laptop.done(&["export", "--format", "csv"]);
    assert!(csv.starts_with("id,day,at,by,place,code,plot,kind"), "{csv}");
    assert!(csv.lines().nth(1).unwrap().contains(",2026-10-11,"), "{csv}");
}

#[test]
fn the_lines_of_a_trial_and_entries_of_its_plots_go_out_and_in_again() {
    let laptop = Laptop::new();
    let trial = [
        r#"{"type":"trial","trial":"T1","lot":"R1","question":"rate","treatments":["0 g","8 g"],"rates":[0,8],"rate_unit":"g per pot","control":"0 g","design":"randomized-blocks","seed":"48213907","drawn":2,"reads":["height"],"from":"2026-10-11","guard":true}"#,
        r#"{"type":"plot","plot":"T1.1","trial":"T1","bench":"E1","row":1,"column":1,"block":1,"treatment":"8 g","pots":1}"#,
        r#"{"type":"plot","plot":"T1.2","trial":"T1","bench":"E1","row":1,"column":2,"block":1,"treatment":"0 g","pots":1}"#,
        r#"{"type":"entry","at":"2026-10-11T07:20:00-04:00","by":"kt","bench":"E1","plot":"T1.2","kind":"greenness","class":4,"spad":41.5}"#,
    ];
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n{}\n", water(11, 3), trial.join("\n")));
    laptop.done(&["import", arg(&journal)]);
    let csv = laptop.done(&["export", "--format", "csv"]);
    let rows: Vec<&str> = csv.lines().filter(|row| row.contains(",E1,")).collect();
    assert!(rows[0].contains(",bench,E1,,water,") && rows[1].contains(",bench,E1,T1.2,greenness,"), "{csv}");
    let exported = laptop.done(&["export"]);
    for line in &trial[..3] {
        assert!(exported.lines().any(|found| found == *line), "{line}\n{exported}");
    }
    let other = Laptop::new();
    other.done(&["import", arg(&other.file("again.jsonl", &exported))]);
    assert_eq!(other.done(&["export"]), exported);
    assert!(other.done(&["import", arg(&other.file("again.jsonl", &exported))]).contains("nothing new"));
}
