//! Journals in and out.

use crate::rng::Rng;
use crate::{Laptop, SMALL, arg, water};
use benchwalk::journal;
use benchwalk::record::{Line, Plan, codec};
use benchwalk::season::Season;
use benchwalk::units::System;
use std::fs;

#[test]
fn what_goes_in_comes_out_and_again_changes_nothing() {
    let laptop = Laptop::new();
    let text = format!("{SMALL}{}\n{}\n", water(11, 3), water(12, 4));
    let journal = laptop.file("season.jsonl", &text);
    assert_eq!(laptop.done(&["import", arg(&journal)]), "[root]/data/season.db: 6 records imported\n");
    assert_eq!(
        laptop.done(&["import", arg(&journal)]),
        "[root]/data/season.db: nothing new, 6 records already there\n"
    );
    let first = laptop.done(&["export"]);
    let copy = laptop.file("copy.jsonl", &first);
    let other = laptop.path("other.db");
    laptop.done(&["--season", arg(&other), "import", arg(&copy)]);
    assert_eq!(laptop.done(&["export", "--season", arg(&other)]), first);
    let more = format!("{SMALL}{}\n", water(13, 4));
    let said = laptop.run_with(&["import", "-"], &more);
    assert_eq!(said.out, "[root]/data/season.db: 1 record imported, 4 already there\n");
}

#[test]
fn every_fault_is_told_and_nothing_is_written() {
    let laptop = Laptop::new();
    let text = format!("{SMALL}{}\n{}\nnonsense\n", water(11, 7), water(12, 4).replace("level", "depth"));
    let journal = laptop.file("season.jsonl", &text);
    let said = laptop.run(&["import", arg(&journal)]);
    assert_eq!((said.code, said.out.as_str()), (1, ""));
    for line in ["nothing was written, 4 errors in [root]/season.jsonl:", "line 6, level:", "line 7, depth:", "line 8"]
    {
        assert!(said.err.contains(line), "{line} in {}", said.err);
    }
    assert!(!laptop.path("data").exists(), "no season file was begun");

    // What a good line names is looked up all the same.
    let text = format!("{SMALL}{}\n{}\n", water(11, 7), water(12, 4).replace("E1", "E9"));
    let both = laptop.file("both.jsonl", &text);
    let said = laptop.run(&["import", arg(&both)]);
    assert!(said.err.contains("line 6, level:") && said.err.contains("line 7, bench:"), "{}", said.err);
    // But not where the plan line it names may be the one that is no good.
    let text = format!("{}{}\n", SMALL.replace("\"order\":1", "\"order\":\"first\""), water(12, 4));
    let plan = laptop.file("plan.jsonl", &text);
    let said = laptop.run(&["import", arg(&plan)]);
    assert!(said.err.contains("line 4, order:") && !said.err.contains("line 6"), "{}", said.err);

    // The same over a season that is there.
    let good = laptop.file("good.jsonl", SMALL);
    laptop.done(&["import", arg(&good)]);
    let before = laptop.done(&["export"]);
    assert_eq!(laptop.run(&["import", arg(&journal)]).code, 1);
    assert_eq!(laptop.done(&["export"]), before);
}

#[test]
fn rules_across_records_name_the_line_too() {
    let laptop = Laptop::new();
    let text = format!("{SMALL}\n# a comment\n{}\n", water(11, 3).replace("E1", "E9"));
    let journal = laptop.file("season.jsonl", &text);
    let said = laptop.run(&["import", arg(&journal)]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("line 8"), "{}", said.err);
    assert!(said.err.contains("E9"), "{}", said.err);
    let journal = laptop.file("empty.jsonl", "{\"type\":\"journal\",\"version\":1}\n");
    let said = laptop.run(&["import", arg(&journal)]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("site"), "{}", said.err);
}

#[test]
fn a_file_that_is_not_text_or_not_there_is_said() {
    let laptop = Laptop::new();
    let path = laptop.path("latin.jsonl");
    fs::write(&path, b"{\"type\":\"journal\",\"version\":1}\n{\"type\":\"site\",\"name\":\"caf\xe9\"}\n").unwrap();
    let said = laptop.run(&["import", arg(&path)]);
    assert!(said.err.contains("line 2: is not UTF-8"), "{}", said.err);
    let said = laptop.run(&["import", arg(&laptop.path("none.jsonl"))]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("none.jsonl"), "{}", said.err);
}

#[test]
fn export_never_writes_over_something_else() {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", SMALL);
    laptop.done(&["import", arg(&journal)]);
    let out = laptop.path("out.jsonl");
    laptop.done(&["export", arg(&out)]);
    assert_eq!(fs::read_to_string(&out).unwrap(), laptop.done(&["export"]));
    // The same content is as good as written.
    laptop.done(&["export", arg(&out)]);
    fs::write(&out, "mine").unwrap();
    let said = laptop.run(&["export", arg(&out)]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("already exists"), "{}", said.err);
    assert_eq!(fs::read_to_string(&out).unwrap(), "mine");
}

#[test]
fn reading_commands_make_no_season() {
    let laptop = Laptop::new();
    for command in ["export", "review"] {
        let said = laptop.run(&[command]);
        assert_eq!(said.code, 1, "{command}");
        assert!(said.err.contains("there is no season file"), "{command}: {}", said.err);
    }
    assert!(!laptop.path("data").exists());
}

#[test]
fn two_laptops_agree_after_exchanging_journals() {
    let (one, other) = (Laptop::new(), Laptop::new());
    let write = |laptop: &Laptop, days: &[u8]| {
        let entries: Vec<String> = days.iter().map(|d| water(*d, 3)).collect();
        let journal = laptop.file("in.jsonl", &format!("{SMALL}{}\n", entries.join("\n")));
        laptop.done(&["import", arg(&journal)]);
    };
    write(&one, &[1, 2, 3]);
    write(&other, &[3, 4]);
    let (ones, others) = (one.done(&["export"]), other.done(&["export"]));
    assert_eq!(one.run_with(&["import", "-"], &others).code, 0);
    assert_eq!(other.run_with(&["import", "-"], &ones).code, 0);
    assert_eq!(one.done(&["export"]), other.done(&["export"]));
}

#[test]
fn a_list_of_benches_joins_the_season() {
    let laptop = Laptop::new();
    let list = laptop.file("benches.csv", "bench,house,lot,pots\nW1,West,R1,40\nW2,West,,\n");
    let said = laptop.run(&["import", arg(&list)]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("no site yet"), "{}", said.err);
    assert!(!laptop.path("data").exists(), "no season file was begun");

    let journal = laptop.file("season.jsonl", SMALL);
    laptop.done(&["import", arg(&journal)]);
    assert!(laptop.done(&["import", arg(&list)]).ends_with("3 records imported\n"));
    assert!(laptop.done(&["import", arg(&list)]).contains("nothing new"));
    assert!(laptop.done(&["export"]).contains(r#"{"type":"bench","bench":"W2","house":"West","order":3,"id":"#));

    let bad = laptop.file("bad.csv", "bench,house,lot,pots\nW3,West,V2,40\nW4,,,\n");
    let said = laptop.run(&["import", arg(&bad)]);
    assert!(said.err.contains("line 2, lot:") && said.err.contains("line 3, house:"), "{}", said.err);
    assert!(!laptop.done(&["export"]).contains("W3"));
}

#[test]
fn an_export_that_will_not_import_again_says_which_lines_and_why() {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n{}\n", water(11, 3), water(12, 4)));
    laptop.done(&["import", arg(&journal)]);
    assert_eq!(laptop.run(&["export"]).err, "", "nothing to say of what was saved here");
    // Another program, or a failing disk: what Benchwalk would have refused.
    let change = |sql: &str| {
        let file = rusqlite::Connection::open(laptop.path("data/season.db")).unwrap();
        file.execute_batch(&format!("PRAGMA ignore_check_constraints = ON; {sql}")).unwrap();
    };
    let faults =
        |said: &str| said.lines().filter(|line| line.starts_with("  line ")).map(str::to_owned).collect::<Vec<_>>();
    // An import of what was written says the same of the same lines.
    let not_again = |options: &[&str]| {
        let said = laptop.run(options);
        assert_eq!(said.code, 0, "{}", said.err);
        let import = ["--season", &laptop.path("again.db").to_string_lossy(), "import", "-"].map(str::to_owned);
        let refused = laptop.run_with(&import.each_ref().map(String::as_str), &said.out);
        assert_eq!(refused.code, 1, "{}", refused.err);
        let told = faults(&said.err);
        assert_eq!(told, faults(&refused.err), "{}", said.err);
        (told, said.out)
    };
    let at = |out: &str, part: &str| out.lines().position(|line| line.contains(part)).unwrap() + 1;

    change("DROP TRIGGER lot_line_no_update; UPDATE lot_line SET height_high_cm = 4e9;");
    for options in [&["export"][..], &["export", "--salvage"]] {
        let (told, out) = not_again(options);
        let wanted = format!("  line {}, height_high_cm: is 4000000000; give", at(&out, "4000000000"));
        assert!(matches!(told.as_slice(), [one] if one.starts_with(&wanted)), "{wanted} in {told:?}");
    }
    let tables = laptop.run(&["export", "--format", "csv"]);
    assert_eq!((tables.code, tables.err.as_str()), (0, ""), "no import reads them");

    // What the file itself forbids is damage.
    change("DROP TRIGGER entry_no_update; UPDATE entry SET fields = json_set(fields, '$.level', 7) WHERE seq = 2;");
    let said = laptop.run(&["export"]);
    assert!(said.code == 1 && said.err.contains("'benchwalk export --salvage'"), "{}", said.err);
    let (told, out) = not_again(&["export", "--salvage"]);
    let wanted = format!("  line {}, level: is 7; give", at(&out, "\"level\":7"));
    assert!(told.len() == 2 && told.iter().any(|one| one.starts_with(&wanted)), "{wanted} in {told:?}");
}

#[test]
fn a_newer_file_is_exported_but_never_imported_into() {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n", water(12, 4)));
    laptop.done(&["import", arg(&journal)]);
    let text = laptop.done(&["export"]);
    let path = laptop.path("data/season.db");
    rusqlite::Connection::open(&path).unwrap().pragma_update(None, "user_version", 99).unwrap();
    let before = fs::read(&path).unwrap();
    assert_eq!(laptop.done(&["export"]), text);
    let said = laptop.run(&["import", arg(&journal)]);
    assert_eq!(said.code, 1);
    let newest = format!("file version 99, this program knows {}", benchwalk::store::NEWEST);
    assert!(said.err.contains(&newest), "{}", said.err);
    assert!(fs::read(&path).unwrap() == before);
}

#[test]
fn a_list_with_more_pots_of_a_lot_than_it_has_is_taken_only_when_confirmed() {
    let laptop = Laptop::new();
    laptop.done(&["import", arg(&laptop.file("a.jsonl", SMALL))]);
    let list = laptop.file("benches.csv", "bench,house,lot,pots\nE1,East,R1,80\nE2,East,R1,500\n");
    let said = laptop.run(&["import", arg(&list)]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(
        said.err.contains("is 500, which makes 580 of lot R1, but it has 240; correct it, or import with --confirm"),
        "{said:?}"
    );
    assert!(laptop.done(&["import", arg(&list), "--confirm"]).contains("imported"));
}

/// The demo's journal with some of its lines twice, gone, in another place, or changed; more often than not it is still sound.
fn changed(lines: &[&str], rng: &mut Rng) -> String {
    let mut lines: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
    let ids: Vec<_> = lines.iter().filter_map(|line| codec::decode(line, 2).ok()).map(|line| line.id()).collect();
    for _ in 0..=rng.below(3) {
        let at = rng.below(lines.len());
        match rng.below(7) {
            // Twice, often before what it names.
            0 | 1 => lines.insert(rng.below(lines.len()), lines[at].clone()),
            2 => drop(lines.remove(at)),
            3 => drop(lines.remove(rng.below(lines.len().min(40)))),
            4 => rng.shuffle(&mut lines),
            5 => {
                // One id with two contents.
                let line = codec::decode(&lines[at], 2).unwrap();
                let Line::Entry(mut entry) = line else { continue };
                lines.push(codec::encode(&Line::Entry(entry.clone())));
                entry.by = "zz".into();
                lines.push(codec::encode(&Line::Entry(entry)));
            }
            _ => {
                // A strike of any line, right where it names an entry of its own place.
                let Ok(Line::Entry(entry)) = codec::decode(&lines[at], 2) else { continue };
                let id = if rng.chance(0.7) { entry.id } else { *rng.pick(&ids) };
                let bench = format!("\"{}\":\"{}\"", entry.place.field(), entry.place.code());
                lines.push(format!(
                    "{{\"type\":\"entry\",\"at\":\"2026-11-20T08:00:00-05:00\",\"by\":\"kt\",{bench},\"kind\":\"strike\",\
                     \"entry\":\"{id}\",\"why\":\"wrong bench\"}}"
                ));
            }
        }
    }
    let named = if rng.chance(0.3) { ",\"season\":\"0190163d-8694-739b-aea5-966c26f8ad91\"" } else { "" };
    format!("{{\"type\":\"journal\",\"version\":2{named}}}\n{}\n", lines.join("\n"))
}

/// The records of a journal, without its first line and its end.
fn records(journal: &str) -> Vec<&str> {
    journal.lines().filter(|line| line.starts_with('{')).skip(1).collect()
}

#[test]
fn a_journal_that_is_read_line_by_line_is_judged_as_one_that_is_read_whole() {
    let demo = records(include_str!("../../demo-data/demo.jsonl"));
    // Part of the entries is enough, and all of the plan.
    let (entries, plan): (Vec<&str>, Vec<&str>) =
        demo.into_iter().partition(|line| line.contains("\"type\":\"entry\""));
    let lines: Vec<&str> = plan.into_iter().chain(entries.into_iter().step_by(9)).collect();
    let (mut rng, mut taken) = (Rng::new(18), 0);
    for _ in 0..40 {
        let text = changed(&lines, &mut rng);
        let laptop = Laptop::new();
        let file = laptop.file("season.jsonl", &text);
        let said = laptop.run(&["import", arg(&file)]);
        let reading = journal::read_all(&text);
        let new: Vec<&Line> = reading.lines.iter().map(|numbered| &numbered.line).collect();
        let sound = reading.faults.is_empty()
            && match reading.header.and_then(|header| header.season) {
                Some(_) => Season::default().check_join(&new).is_empty(),
                None => Season::default().admit_each(&new, System::Metric).is_ok(),
            };
        assert_eq!((said.code, said.out.is_empty()), (u8::from(!sound), !sound), "{said:?}\n{text}");
        if !sound {
            assert!(!laptop.path("data").exists());
            continue;
        }
        taken += 1;
        assert_eq!(said.out, format!("[root]/data/season.db: {} records imported\n", new.len()));
        let mut plan = Plan::default();
        let mut entries: Vec<_> = new.into_iter().cloned().filter_map(|line| plan.keep(line)).collect();
        entries.sort_by_key(benchwalk::record::Entry::order);
        let wanted = journal::write(None, &plan, &entries);
        assert_eq!(records(&laptop.done(&["export"])), records(&wanted));
        // Once more, in another order.
        let mut again = records(&text);
        rng.shuffle(&mut again);
        let again = laptop.file("again.jsonl", &format!("{}\n{}\n", text.lines().next().unwrap(), again.join("\n")));
        let known = format!("[root]/data/season.db: nothing new, {} records already there\n", reading.lines.len());
        assert_eq!(laptop.done(&["import", arg(&again)]), known);
    }
    assert!((5..36).contains(&taken), "{taken} of 40 were taken");
}
