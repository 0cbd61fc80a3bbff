//! One evening review over many season files.

use crate::{Laptop, SMALL, Said, arg, water};
use serde_json::Value;
use std::path::PathBuf;
use std::sync::OnceLock;

/// Benches that are scored wet from a day on.
struct Wet {
    bench: &'static str,
    from: u8,
    to: u8,
}

/// The journal of an invented site: three benches, walked in the morning up to a day, some of them wet.
fn site(name: &str, zone: &str, offset: &str, walked: u8, wet: &[Wet]) -> String {
    let mut text = SMALL.replace("Thistlecot", name).replace("America/New_York", zone);
    for bench in ["E2", "E3"] {
        text.push_str(&format!(
            r#"{{"type":"bench","bench":"{bench}","house":"East","order":{},"area_m2":12}}"#,
            &bench[1..]
        ));
        text.push_str(&format!(
            "\n{{\"type\":\"placement\",\"bench\":\"{bench}\",\"lot\":\"R1\",\"pots\":80,\"from\":\"2026-08-17\"}}\n"
        ));
    }
    for day in 1..=walked {
        for bench in ["E1", "E2", "E3"] {
            let is_wet = wet.iter().any(|wet| wet.bench == bench && (wet.from..=wet.to).contains(&day));
            let line = water(day, if is_wet { 5 } else { 3 }).replace("E1", bench).replace("-04:00", offset);
            text.push_str(&line);
            text.push('\n');
        }
    }
    text
}

const NAMES: [&str; 3] = ["ash.db", "birch.db", "quillby.db"];

/// The three files, made once.
static FILES: OnceLock<[Vec<u8>; 3]> = OnceLock::new();

/// A folder of three sites on one laptop: one heard of today, one silent for days, one in another zone where it is the next
/// day already.
struct Many {
    laptop: Laptop,
    folder: PathBuf,
}

impl Many {
    fn new() -> Self {
        let laptop = Laptop::new();
        // Six in the evening in New York; in Auckland it is the next day.
        laptop.clock.set("2026-10-12T22:00:00Z".parse().unwrap());
        let folder = laptop.path("sites");
        std::fs::create_dir(&folder).unwrap();
        let many = Self { laptop, folder };
        let files = FILES.get_or_init(|| many.made());
        for (name, bytes) in NAMES.iter().zip(files) {
            std::fs::write(many.folder.join(name), bytes).unwrap();
        }
        many
    }

    /// The three files, made by import.
    fn made(&self) -> [Vec<u8>; 3] {
        let wet = |bench, from, to| Wet { bench, from, to };
        let roots = water(12, 3).replace("E1", "E3").replace("-04:00", "+13:00");
        let roots = roots.replace(r#""kind":"water","level":3"#, r#""kind":"roots","score":3,"pots":3"#);
        let quillby = site("Quillby Rise", "Pacific/Auckland", "+13:00", 13, &[wet("E1", 8, 13)]);
        let journals = [
            site("Ash Corner", "America/New_York", "-04:00", 12, &[wet("E2", 4, 12)]),
            site("Birch Flat", "America/New_York", "-04:00", 8, &[wet("E3", 2, 8)]),
            format!("{quillby}{roots}\n"),
        ];
        for (name, journal) in NAMES.iter().zip(&journals) {
            self.add(name, journal);
        }
        NAMES.map(|name| std::fs::read(self.folder.join(name)).unwrap())
    }

    /// Makes a season file in the folder.
    fn add(&self, name: &str, journal: &str) {
        let head = r#"{"type":"journal","version":1}"#;
        let text = if journal.starts_with(head) { journal.to_owned() } else { format!("{head}\n{journal}") };
        let from = self.laptop.file("lines.jsonl", &text);
        self.laptop.done(&["import", "--season", arg(&self.folder.join(name)), arg(&from)]);
    }

    fn run(&self, more: &[&str]) -> Said {
        self.laptop.run(&[&["review", "--all", arg(&self.folder)], more].concat())
    }

    fn json(&self, more: &[&str]) -> Value {
        serde_json::from_str(&self.run(&[more, &["--format", "json"]].concat()).out).unwrap()
    }

    /// Damages, truncates or makes newer.
    fn spoil(&self) {
        let ash = std::fs::read(self.folder.join("ash.db")).unwrap();
        std::fs::write(self.folder.join("cut.db"), &ash[..ash.len() / 2]).unwrap();
        let mut flipped = ash.clone();
        for byte in &mut flipped[4096..4096 * 6] {
            *byte ^= 0x5a;
        }
        std::fs::write(self.folder.join("damaged.db"), flipped).unwrap();
        let mut newer = ash;
        newer[60..64].copy_from_slice(&999_u32.to_be_bytes());
        std::fs::write(self.folder.join("newer.db"), newer).unwrap();
        std::fs::write(self.folder.join("note.db"), "no database").unwrap();
    }
}

/// What is in brackets after `is damaged`, and the newest version, depend on the schema.
fn without_detail(text: &str) -> String {
    let text = text.replace(&format!("knows {}", benchwalk::store::NEWEST), "knows [newest]");
    let mut parts = text.split("is damaged (");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |out, part| format!("{out}is damaged ([detail]){}", part.split_once(')').unwrap().1))
}

#[test]
fn many_sites_are_one_review_the_silent_ones_first() {
    let many = Many::new();
    let said = many.run(&[]);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{said:?}");
    assert!(said.out.lines().all(|line| line.chars().count() <= 80), "{}", said.out);
    insta::assert_snapshot!("sites", said.out);
    let said = many.run(&["--format", "json"]);
    assert_eq!(said.code, 0);
    insta::assert_snapshot!("sites-json", said.out);
}

#[test]
fn what_is_flagged_is_the_union_of_what_each_file_flags_by_itself() {
    let many = Many::new();
    let all = many.json(&[]);
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    let flagged = all["flagged"].as_array().unwrap();
    let mut listed: Vec<String> = flagged
        .iter()
        .map(|f| {
            let level = text(&f["level"]).to_uppercase();
            format!(
                "{}: {} · {level} · {} · {}",
                text(&f["file"]),
                text(&f["place"]),
                text(&f["title"]),
                text(&f["change"])
            )
        })
        .collect();
    let mut own = Vec::new();
    for site in all["sites"].as_array().unwrap() {
        let file = many.laptop.path(text(&site["file"]).trim_start_matches("[root]/"));
        let alone = many.laptop.done(&["review", "--season", arg(&file), "--format", "json"]);
        assert_eq!(site["review"], serde_json::from_str::<Value>(&alone).unwrap(), "{file:?}: not its own review");
        let alone = many.laptop.done(&["review", "--season", arg(&file)]);
        let blocks = alone.lines().filter(|line| line.contains(" · ACT · ") || line.contains(" · URGENT · "));
        own.extend(blocks.map(|line| format!("{}: {}", text(&site["file"]), line.replace(" (R1)", ""))));
    }
    assert!(own.len() >= 3, "{own:?}");
    let levels: Vec<String> = flagged.iter().map(|f| text(&f["level"])).collect();
    assert!(levels.is_sorted_by_key(|level| level != "urgent"), "worst first: {levels:?}");
    listed.sort();
    own.sort();
    assert_eq!(listed, own);
}

#[test]
fn a_file_that_cannot_be_reviewed_is_a_line_and_the_others_go_on() {
    let many = Many::new();
    let (whole, before) = (many.run(&[]), many.json(&[]));
    many.spoil();
    let nowhere = many.laptop.path("sites/nowhere.db");
    let empty = many.laptop.path("none");
    std::fs::create_dir(&empty).unwrap();
    let more = [arg(&nowhere), arg(&empty)];
    let said = many.run(&more);
    assert_eq!((said.code, said.err.as_str()), (1, "benchwalk: 6 files were not reviewed; the review says why\n"));
    assert!(said.out.lines().all(|line| line.chars().count() <= 80), "{}", said.out);
    let lines = |text: &str| text.split_once("\nFlagged").unwrap().1.to_owned();
    assert_eq!(lines(&said.out), lines(&whole.out));
    let (refused, _) = said.out.split_once("\nFlagged").unwrap();
    insta::assert_snapshot!("sites-not-reviewed", without_detail(&refused.replace("\n      ", " ")));
    let all = many.json(&more);
    assert_eq!(all["sites"], before["sites"]);
    assert_eq!(all["not_reviewed"].as_array().unwrap().len(), 6);
}

#[test]
fn two_files_of_one_season_are_reviewed_once_and_named() {
    let many = Many::new();
    std::fs::copy(many.folder.join("ash.db"), many.folder.join("copy.db")).unwrap();
    let text = many.run(&[]).out.replace("\n      ", " ");
    assert!(
        text.contains("[root]/sites/copy.db: the same season as [root]/sites/ash.db; all of it is in that"),
        "{text}"
    );
    // The copy goes another way: the file with more is read, and what the other has beside it is said.
    many.add("copy.db", &[water(11, 4), water(12, 4)].map(|line| line.replace("07:10", "08:10") + "\n").concat());
    many.add("ash.db", &(water(12, 2).replace("07:10", "08:20") + "\n"));
    let text = many.run(&[]).out.replace("\n      ", " ");
    let said =
        "[root]/sites/ash.db: the same season as [root]/sites/copy.db; 1 record of it is not in that, join the two";
    assert!(text.contains(said), "{text}");
    let all = many.json(&[arg(&many.folder.join("ash.db"))]);
    assert_eq!(all["sites"].as_array().unwrap().len(), 3, "a file that is named twice is one");
    assert_eq!(all["same_season"][0]["lacking"], 1);
}

#[test]
fn two_years_of_a_site_are_two_seasons_and_named_by_their_files() {
    let many = Many::new();
    // As this year's, the lines of the plan are not dated: the seasons have one id.
    let last = site("Ash Corner", "America/New_York", "-04:00", 12, &[]).replace("2026-", "2025-");
    many.add("ash-2025.db", &last);
    let all = many.json(&[]);
    let names: Vec<&str> = all["sites"].as_array().unwrap().iter().map(|s| s["site"].as_str().unwrap()).collect();
    assert_eq!(names, ["Ash Corner (ash-2025.db)", "Ash Corner (ash.db)", "Birch Flat", "Quillby Rise"]);
    assert!(all["same_season"].as_array().unwrap().is_empty(), "{all}");
    // In folders of their own even the files have one name.
    let other = many.laptop.path("other");
    std::fs::create_dir(&other).unwrap();
    std::fs::rename(many.folder.join("ash-2025.db"), other.join("ash.db")).unwrap();
    let all = many.json(&[arg(&other)]);
    assert_eq!(all["sites"][0]["site"], "Ash Corner ([root]/other/ash.db)");
}

#[test]
fn a_day_is_each_sites_own() {
    let many = Many::new();
    let days = |all: &Value| -> Vec<(String, Value)> {
        let sites = all["sites"].as_array().unwrap().iter();
        sites.map(|s| (s["review"]["on"].as_str().unwrap().to_owned(), s["heard_today"].clone())).collect()
    };
    let heard = |day: &str, today: bool| (day.to_owned(), Value::from(today));
    let today = [heard("2026-10-12", true), heard("2026-10-12", false), heard("2026-10-13", true)];
    assert_eq!(days(&many.json(&[])), today);
    // The day asked for is that of all; what is known reaches beyond it.
    let before = days(&many.json(&["--on", "2026-10-08"]));
    assert_eq!(before, [heard("2026-10-08", true), heard("2026-10-08", true), heard("2026-10-08", true)]);
    // Of a day to come nothing is known, but for what is written for it.
    let after = days(&many.json(&["--on", "2026-10-13"]));
    assert_eq!(after, [heard("2026-10-13", false), heard("2026-10-13", false), heard("2026-10-13", true)]);
}

#[test]
fn a_line_ahead_of_the_clock_is_no_news_of_a_site() {
    let many = Many::new();
    many.add("birch.db", &(water(30, 3) + "\n"));
    let all = many.json(&[]);
    let birch = &all["sites"][1];
    assert_eq!((&birch["heard_today"], &birch["heard"]), (&false.into(), &"2026-10-08T07:10:00-04:00".into()));
    assert_eq!(birch["ahead_of_clock"], "2026-10-30T07:10:00-04:00");
    let text = many.run(&[]).out;
    assert!(text.contains("Birch Flat: last heard Thu Oct 8 07:10"), "{text}");
    let line = text.split("\nsite ").nth(1).unwrap().replace(['\n', ' '], "");
    assert!(line.contains("ThuOct807:10;alineisaheadoftheclock(FriOct3007:10):NOTHEARDTODAY"), "{text}");
}

#[test]
fn the_files_stay_as_they_were_and_nothing_is_left_beside_them() {
    let many = Many::new();
    let names = || {
        let mut names: Vec<_> = std::fs::read_dir(&many.folder).unwrap().map(|e| e.unwrap().file_name()).collect();
        names.sort();
        names
    };
    let bytes = || NAMES.map(|name| std::fs::read(many.folder.join(name)).unwrap());
    let before = (names(), bytes());
    many.run(&[]);
    assert!(before == (names(), bytes()));
}

#[test]
fn as_html_each_site_is_behind_a_link_in_one_page() {
    let many = Many::new();
    let page = many.run(&["--format", "html"]).out;
    assert!(page.starts_with("<!DOCTYPE html>"), "{page}");
    for number in 1..=3 {
        assert!(page.contains(&format!("href=\"#site-{number}\"")), "{number}");
        assert_eq!(page.matches(&format!("id=\"site-{number}\"")).count(), 1, "{number}");
    }
    let (first, rest) = page.split_once("<h2>").unwrap();
    assert!(rest.starts_with("Not heard today</h2>"), "what is not known comes first: {first}");
    assert!(rest.contains("<h2>Flagged, worst first</h2>") && rest.contains("all sites"), "{rest}");
    // The page by itself has the same review.
    let alone = many.laptop.done(&["review", "--season", arg(&many.folder.join("birch.db")), "--format", "html"]);
    let (_, below) = alone.split_once("</h1>\n").unwrap();
    assert!(page.contains(below.split_once("</main>").unwrap().0), "{below}");
}

/// Laptops of two sites that share their seasons over one folder, and the head grower who mirrors them.
struct Shared {
    sites: Vec<Laptop>,
    head: Laptop,
}

impl Shared {
    fn new() -> Self {
        let head = Laptop::new();
        head.clock.set("2026-10-12T22:00:00Z".parse().unwrap());
        let place = head.path("stick");
        std::fs::create_dir(&place).unwrap();
        let mut sites = Vec::new();
        for (name, walked) in [("Ash Corner", 12), ("Birch Flat", 8)] {
            let laptop = Laptop::new();
            laptop.clock.set("2026-10-12T22:00:00Z".parse().unwrap());
            laptop.file("config/config.toml", &format!("laptop = \"{}\"\n", &name[..3].to_lowercase()));
            let text = site(name, "America/New_York", "-04:00", walked, &[Wet { bench: "E2", from: 4, to: walked }]);
            let journal = laptop.file("lines.jsonl", &text);
            laptop.done(&["import", arg(&journal)]);
            laptop.done(&["share", "on", "--folder", arg(&place)]);
            sites.push(laptop);
        }
        Self { sites, head }
    }

    fn mirror(&self) -> Said {
        let (place, to) = (self.head.path("stick"), self.head.path("mirror"));
        self.head.run(&["share", "mirror", "--folder", arg(&place), arg(&to)])
    }

    /// The names of the files in a folder.
    fn names(&self, folder: &str) -> Vec<String> {
        let all = std::fs::read_dir(self.head.path(folder)).unwrap();
        let mut names: Vec<String> = all.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

#[test]
fn every_season_of_a_folder_is_mirrored_and_reviewed() {
    let shared = Shared::new();
    let pieces = || {
        let folders = shared.names("stick").into_iter();
        folders.map(|folder| shared.names(&format!("stick/{folder}"))).collect::<Vec<_>>()
    };
    let before = pieces();
    let said = shared.mirror();
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{said:?}");
    let lines: Vec<&str> = said.out.lines().collect();
    assert_eq!(lines.len(), 2, "{said:?}");
    assert!(said.out.contains("Ash Corner: 44 lines came: [root]/mirror/ash-corner-"), "{said:?}");
    assert!(said.out.contains("Birch Flat: 32 lines came: [root]/mirror/birch-flat-"), "{said:?}");
    let again = shared.mirror();
    assert_eq!((again.code, again.out.matches(": nothing new: ").count()), (0, 2), "{again:?}");
    assert_eq!(pieces(), before, "a mirror gives nothing");
    // What is written at a site comes with the next time.
    let birch = &shared.sites[1];
    let more = birch.file("more.jsonl", &format!("{{\"type\":\"journal\",\"version\":1}}\n{}\n", water(12, 3)));
    birch.done(&["import", arg(&more)]);
    birch.done(&["share"]);
    assert!(shared.mirror().out.contains("Birch Flat: 1 line came: "));
    let review = shared.head.done(&["review", "--all", arg(&shared.head.path("mirror"))]);
    assert!(review.contains("2 sites, 4 of 6 benches walked") && !review.contains("NOT HEARD"), "{review}");
    let file = shared.head.path("mirror").join(&shared.names("mirror")[0]);
    assert_eq!(
        shared.head.done(&["review", "--season", arg(&file)]),
        shared.sites[0].done(&["review"]),
        "the mirror says what the laptop says"
    );
}

#[test]
fn nothing_is_typed_into_a_mirror_and_no_other_file_becomes_one() {
    let shared = Shared::new();
    shared.mirror();
    let name = shared.names("mirror")[0].clone();
    let file = shared.head.path("mirror").join(&name);
    let journal =
        shared.head.file("more.jsonl", &format!("{{\"type\":\"journal\",\"version\":1}}\n{}\n", water(12, 3)));
    let bytes = std::fs::read(&file).unwrap();
    for command in [&["import", arg(&journal)][..], &["share", "on", "--folder", arg(&shared.head.path("stick"))]] {
        let said = shared.head.run(&[&["--season", arg(&file)], command].concat());
        assert_eq!(said.code, 1, "{command:?}");
        assert!(said.err.contains("a mirror of what the laptops of this season share, to be read only"), "{said:?}");
    }
    assert!(std::fs::read(&file).unwrap() == bytes);
    // In the place of one mirror lies a season of its own, which stays; the other is brought up to date.
    let own = shared.sites[0].path("data/season.db");
    std::fs::copy(&own, &file).unwrap();
    let said = shared.mirror();
    assert_eq!((said.code, said.err.as_str()), (1, "benchwalk: 1 season is not up to date; the others are\n"));
    assert!(said.out.contains("Birch Flat: nothing new: "), "{said:?}");
    let refused = format!("Ash Corner: NOT UP TO DATE: [root]/mirror/{name}: a season file of its own, not a mirror");
    assert!(said.out.contains(&refused), "{said:?}");
    assert!(std::fs::read(&file).unwrap() == std::fs::read(&own).unwrap());
}

#[test]
fn laptops_of_a_shared_season_that_are_silent_are_named() {
    let shared = Shared::new();
    let (ash, stick) = (&shared.sites[0], shared.head.path("stick"));
    let bob = Laptop::new();
    bob.clock.set("2026-10-12T22:00:00Z".parse().unwrap());
    bob.file("config/config.toml", "laptop = \"bob\"\n");
    bob.done(&["share", "join", "--folder", arg(&stick), "Ash Corner"]);
    let line = water(10, 3).replace("07:10", "09:30");
    let more = bob.file("more.jsonl", &format!("{{\"type\":\"journal\",\"version\":1}}\n{line}\n"));
    bob.done(&["import", arg(&more)]);
    bob.done(&["share"]);
    ash.done(&["share"]);
    let text = ash.done(&["review", "--all", arg(&ash.path("data/season.db"))]);
    assert!(text.contains("Ash Corner  3 of 3        1       0       0  07:10; bob Sat Oct 10 09:30"), "{text}");
}
