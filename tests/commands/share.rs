//! A season on two laptops over a folder: begun, joined, walked, revised, cut, put back, lost.

use crate::{Laptop, SMALL, Said, named};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder that both laptops reach.
struct Desk {
    stick: TempDir,
    ann: Laptop,
    bob: Laptop,
}

/// A laptop of this name.
fn laptop(name: &str) -> Laptop {
    let laptop = Laptop::new();
    laptop.file("config/config.toml", &format!("laptop = \"{name}\" # me\nby = \"{name}\"\n"));
    laptop
}

/// The small season with a second bench.
fn base() -> String {
    format!("{SMALL}{}\n", r#"{"type":"bench","bench":"E2","house":"East","order":2}"#)
}

fn entry(at: &str, by: &str, rest: &str) -> String {
    format!(r#"{{"type":"entry","at":"2026-10-{at}:00-04:00","by":"{by}","bench":"E1",{rest}}}"#)
}

/// Imports lines of version 2.
fn write(laptop: &Laptop, lines: &[String]) {
    let text = format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", lines.join("\n"));
    let journal = laptop.file("lines.jsonl", &text);
    laptop.done(&["import", journal.to_str().unwrap()]);
}

fn water(laptop: &Laptop, by: &str, at: &str, level: u8) {
    write(laptop, &[entry(at, by, &format!("\"kind\":\"water\",\"level\":{level}"))]);
}

impl Desk {
    /// Ann has the season, and Bob nothing.
    fn new() -> Self {
        let desk = Self { stick: tempfile::tempdir().unwrap(), ann: laptop("ann"), bob: laptop("bob") };
        let journal = desk.ann.file("base.jsonl", &base());
        desk.ann.done(&["import", journal.to_str().unwrap()]);
        desk
    }

    fn folder(&self) -> String {
        let path = self.stick.path().join("BENCH");
        fs::create_dir_all(&path).unwrap();
        path.display().to_string()
    }

    /// Without the paths of this run.
    fn plain(&self, text: &str) -> String {
        plain(&named(text, self.stick.path(), "[stick]"))
    }

    /// Both share it.
    fn shared() -> Self {
        let desk = Self::new();
        let folder = desk.folder();
        desk.ann.done(&["share", "on", "--folder", &folder, "--name", "stick"]);
        desk.bob.done(&["share", "join", "--folder", &folder, "--name", "stick"]);
        desk
    }

    /// Both exchange until nothing is left.
    fn exchange(&self) {
        for laptop in [&self.ann, &self.bob, &self.ann] {
            laptop.done(&["share"]);
        }
    }

    fn is_one(&self) -> String {
        let exported = self.ann.done(&["export"]);
        assert_eq!(exported, self.bob.done(&["export"]), "byte for byte");
        exported
    }

    fn pieces(&self) -> Vec<PathBuf> {
        pieces(Path::new(&self.folder()))
    }
}

fn pieces(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for season in fs::read_dir(folder).unwrap() {
        for file in fs::read_dir(season.unwrap().path()).unwrap() {
            let path = file.unwrap().path();
            if path.extension().is_some_and(|end| end == "jsonl") {
                all.push(path);
            }
        }
    }
    all.sort();
    all
}

/// Ids of streams and seasons are of this run.
fn plain(text: &str) -> String {
    let id = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_ascii_alphanumeric() && c != '-');
        (word.len() == 36 && word.matches('-').count() == 4).then(|| word.to_owned())
    };
    let ids: Vec<String> = text.split([' ', '\n', '"']).filter_map(id).collect();
    ids.iter().fold(text.to_owned(), |text, id| text.replace(id, "[id]"))
}

fn fails(said: &Said) -> String {
    assert_eq!((said.code, said.out.as_str()), (1, ""), "{said:?}");
    said.err.clone()
}

#[test]
fn two_laptops_begin_join_walk_and_come_to_the_same_export() {
    let desk = Desk::new();
    let folder = desk.folder();
    let on = desk.ann.done(&["share", "on", "--folder", &folder, "--name", "stick"]);
    let join = desk.bob.done(&["share", "join", "--folder", &folder]);
    insta::assert_snapshot!(desk.plain(&format!("{on}---\n{join}")));
    let config = fs::read_to_string(desk.ann.path("config/config.toml")).unwrap();
    assert!(config.starts_with("laptop = \"ann\" # me\nby = \"ann\"\n\n[[share]]\nseason = \""), "{config}");
    desk.is_one();
    // Both walk the same morning and both revise one lot.
    let lot = |id: u32, by: &str, change: &str| {
        format!(
            r#"{{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural",{change},"id":"0199a000-0000-7000-8000-{id:012}","at":"2026-10-12T09:0{id}:00-04:00","by":"{by}","replaces":["{}"]}}"#,
            id_of_lot()
        )
    };
    water(&desk.ann, "ann", "12T07:01", 2);
    write(&desk.ann, &[lot(1, "ann", r#""ready_by":"2026-11-20""#)]);
    water(&desk.bob, "bob", "12T07:02", 5);
    write(&desk.bob, &[lot(2, "bob", r#""ready_by":"2026-11-27","height_high_cm":38"#)]);
    let first = desk.ann.done(&["share"]);
    let second = desk.bob.done(&["share"]);
    let third = desk.ann.done(&["share"]);
    let rest = desk.bob.done(&["share"]);
    assert_eq!(
        [first, second, third, rest],
        ["stick: 2 sent\n", "bench: 2 came, 2 sent\n", "stick: 2 came\n", "bench: nothing new\n"].map(str::to_owned)
    );
    let exported = desk.is_one();
    for held in ["\"level\":2", "\"level\":5", "2026-11-20", "\"height_high_cm\":38"] {
        assert!(exported.contains(held), "{held}");
    }
    let review = desk.ann.done(&["review", "--on", "2026-10-12"]);
    assert!(review.contains("To settle") && review.contains("lot R1:"), "{review}");
    // On both laptops it is said which other laptop wrote what.
    let state = desk.ann.done(&["share", "state"]);
    insta::assert_snapshot!(desk.plain(&state));
    let json: serde_json::Value =
        serde_json::from_str(&desk.bob.done(&["share", "state", "--format", "json"])).unwrap();
    assert_eq!((&json["laptop"], &json["laptops"][1]["name"]), (&"bob".into(), &"ann".into()), "{json:#}");
    assert_eq!(json["carriers"][0]["to_send"], 0);
}

fn id_of_lot() -> String {
    let line = base().lines().find(|line| line.starts_with("{\"type\":\"lot\"")).unwrap().to_owned();
    benchwalk::record::codec::decode(&line, 1).unwrap().id().to_string()
}

#[test]
fn a_piece_is_a_journal_that_import_takes_and_a_cut_one_is_refused() {
    let desk = Desk::shared();
    water(&desk.ann, "ann", "12T07:01", 2);
    desk.ann.done(&["share"]);
    let pieces = desk.pieces();
    assert_eq!(pieces.len(), 1, "{pieces:?}");
    let other = laptop("cyd");
    let said = other.done(&["import", pieces[0].to_str().unwrap()]);
    assert!(said.ends_with("6 records imported\n"), "{said}");
    assert_eq!(other.done(&["export"]), desk.ann.done(&["export"]));
    let text = fs::read_to_string(&pieces[0]).unwrap();
    let cut: String = text.split_inclusive('\n').take(6).collect();
    let cut = other.file("cut.jsonl", &cut);
    let said = fails(&other.run(&["import", cut.to_str().unwrap()]));
    assert!(said.contains("the file was cut short"), "{said}");
}

#[test]
fn a_pulled_stick_is_said_and_mended_by_its_laptop() {
    let desk = Desk::shared();
    water(&desk.ann, "ann", "12T07:01", 2);
    desk.ann.done(&["share"]);
    let piece = desk.pieces().remove(0);
    let text = fs::read(&piece).unwrap();
    fs::write(&piece, &text[..text.len() * 3 / 4]).unwrap();
    let said = desk.bob.done(&["share"]);
    assert!(said.starts_with("stick: 5 sent\nstick: had less than before"), "{said}");
    assert!(said.contains("stick: 1 piece of ann's is incomplete and was skipped"), "{said}");
    assert!(!desk.bob.done(&["export"]).contains("\"level\":2"));
    // Bob carried on what he had of Ann's lines; Ann gives the rest.
    let said = desk.ann.done(&["share"]);
    assert!(said.starts_with("stick: 1 sent\n") && said.ends_with("; 1 line was given again\n"), "{said}");
    assert_eq!(desk.bob.done(&["share"]), "stick: 1 came\n");
    assert!(desk.is_one().contains("\"level\":2"));
    // The one new line of Bob's is cut, and nobody else has it.
    water(&desk.bob, "bob", "12T07:02", 3);
    desk.bob.done(&["share"]);
    let own = desk.pieces().into_iter().find(|path| fs::read_to_string(path).unwrap().contains("laptop bob")).unwrap();
    let text = fs::read(&own).unwrap();
    fs::write(&own, &text[..text.len() - 40]).unwrap();
    let said = desk.ann.done(&["share"]);
    assert!(said.contains("stick: 1 piece of bob's is incomplete and was skipped"), "{said}");
    desk.exchange();
    desk.is_one();
}

#[test]
fn a_folder_that_is_not_there_is_no_failure_and_one_that_cannot_be_read_is() {
    let desk = Desk::shared();
    water(&desk.ann, "ann", "12T07:01", 2);
    let (folder, away) = (desk.folder(), desk.stick.path().join("away"));
    fs::rename(&folder, &away).unwrap();
    assert_eq!(desk.plain(&desk.ann.done(&["share"])), "stick is not there ([stick]/BENCH); 1 to send\n");
    fs::write(&folder, "a file").unwrap();
    let said = desk.ann.run(&["share"]);
    assert_eq!(said.code, 1);
    assert!(desk.plain(&said.out).starts_with("stick: cannot be read ([stick]/BENCH"), "{said:?}");
    assert!(said.err.starts_with("benchwalk: not exchanged with stick\n"), "{said:?}");
    let state = desk.plain(&desk.ann.done(&["share", "state"]));
    assert!(state.contains("stick ([stick]/BENCH): shared just now, 1 to send\n    stick: cannot be read"), "{state}");
    fs::remove_file(&folder).unwrap();
    fs::rename(&away, &folder).unwrap();
    assert_eq!(desk.ann.done(&["share"]), "stick: 1 sent\n");
}

#[test]
fn a_hub_that_cannot_be_reached_fails_alone() {
    let desk = Desk::shared();
    let season: String = {
        let config = fs::read_to_string(desk.ann.path("config/config.toml")).unwrap();
        config.lines().find(|line| line.starts_with("season = ")).unwrap().to_owned()
    };
    let config = fs::read_to_string(desk.ann.path("config/config.toml")).unwrap();
    // Nobody listens there.
    let hub = "host=127.0.0.1 port=1 user=ann dbname=hub sslmode=disable";
    let hub = format!("\n[[share]]\n{season}\nname = \"office\"\nhub = \"{hub}\"\n");
    desk.ann.file("config/config.toml", &format!("{config}{hub}"));
    water(&desk.ann, "ann", "12T07:01", 2);
    let said = desk.ann.run(&["share"]);
    assert_eq!(said.code, 1, "{said:?}");
    let out = desk.plain(&said.out);
    assert!(out.starts_with("stick: 1 sent\noffice: "), "{out}");
    assert!(out.ends_with("; 6 to send; walking and saving go on\n"), "{out}");
    assert!(said.err.starts_with("benchwalk: not exchanged with office; the others were done\n"), "{said:?}");
}

#[test]
fn the_script_of_a_hub_is_printed() {
    let script = laptop("ann").done(&["share", "hub-sql"]);
    assert!(script.contains("CREATE SCHEMA") && script.contains("ROW LEVEL SECURITY"), "{script}");
    assert_eq!(script, benchwalk::hub::script());
}

#[test]
fn a_season_put_back_from_a_copy_goes_on_in_a_stream_of_its_own_and_nothing_is_lost() {
    let desk = Desk::shared();
    water(&desk.ann, "ann", "12T07:01", 2);
    let copy = desk.ann.path("copy.db");
    desk.ann.done(&["backup", copy.to_str().unwrap()]);
    water(&desk.ann, "ann", "12T07:02", 3);
    desk.exchange();
    let season = desk.ann.path("data/season.db");
    for ending in ["", "-wal", "-shm"] {
        fs::remove_file(format!("{}{ending}", season.display())).ok();
    }
    fs::copy(&copy, &season).unwrap();
    // Written before it is exchanged again: it goes into a new stream.
    water(&desk.ann, "ann", "12T07:03", 4);
    let said = desk.ann.done(&["share"]);
    assert!(said.starts_with("stick: 1 came, 1 sent"), "{said}");
    desk.exchange();
    let exported = desk.is_one();
    assert_eq!(exported.matches("\"kind\":\"water\"").count(), 3, "{exported}");
    let state = desk.bob.done(&["share", "state"]);
    assert_eq!(state.lines().filter(|line| line.starts_with("ann ")).count(), 1, "one laptop: {state}");
}

#[test]
fn a_file_copied_to_another_laptop_begins_a_stream_of_its_own() {
    let desk = Desk::shared();
    let cyd = laptop("cyd");
    fs::create_dir_all(cyd.path("data")).unwrap();
    fs::copy(desk.ann.path("data/season.db"), cyd.path("data/season.db")).unwrap();
    cyd.done(&["share", "on", "--folder", &desk.folder()]);
    water(&desk.ann, "ann", "12T07:01", 2);
    water(&cyd, "cyd", "12T07:02", 3);
    for laptop in [&desk.ann, &cyd, &desk.ann, &desk.bob] {
        laptop.done(&["share"]);
    }
    assert_eq!(desk.is_one(), cyd.done(&["export"]));
    let state = desk.bob.done(&["share", "state"]);
    for name in ["bob (this one)", "ann", "cyd"] {
        assert!(state.contains(&format!("\n{name} ")), "{name} in {state}");
    }
}

#[test]
fn the_same_initials_on_two_laptops_are_told_apart_by_the_laptop() {
    let desk = Desk::shared();
    water(&desk.bob, "ann", "12T07:02", 5);
    desk.bob.done(&["share"]);
    desk.ann.done(&["share"]);
    let exported = desk.is_one();
    let line = exported.lines().find(|line| line.contains("\"kind\":\"water\"")).unwrap();
    let json: serde_json::Value = serde_json::from_str(line).unwrap();
    let id = json["id"]
        .as_str()
        .map_or_else(|| benchwalk::record::codec::decode(line, 2).unwrap().id().to_string(), str::to_owned);
    let said = desk.ann.done(&["share", "who", &id[..13]]);
    let plain = desk.plain(&said);
    assert_eq!(plain, "[id]\n  bench E1: water 5, Mon Oct 12 07:02, by ann\n  written on bob: line 1 of stream [id]\n");
    assert!(desk.bob.done(&["share", "who", &id]).contains("written on bob (this one): line 1"));
    let said = desk.ann.run(&["share", "who", "xyz"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("share who: 'xyz' is not the id of an entry"), "{said:?}");
    assert!(desk.ann.run(&["share", "who", "ffffffff"]).err.contains("no entry of this season begins with 'ffffffff'"));
}

#[test]
fn what_is_not_shared_says_how_to_begin() {
    let desk = Desk::new();
    for arguments in [&["share"][..], &["share", "state"], &["share", "off", "stick"], &["share", "who", "0199"]] {
        let said = fails(&desk.ann.run(arguments));
        assert_eq!(
            said,
            "benchwalk: this season is kept on this laptop alone: [root]/data/season.db; 'benchwalk share on --folder DIR' shares it (see 'benchwalk help share')\n"
        );
    }
    let said = desk.plain(&fails(&desk.bob.run(&["share", "on", "--folder", &desk.folder()])));
    assert!(
        said.starts_with("benchwalk: there is no season file yet: [root]/data/season.db; begin the season, or make"),
        "{said}"
    );
    let said = desk.plain(&fails(&desk.bob.run(&["share", "join", "--folder", &desk.folder()])));
    assert_eq!(
        said,
        "benchwalk: no season lies in [stick]/BENCH; begin one on the laptop that has it: benchwalk share on\n"
    );
    let said = desk.plain(&fails(&desk.ann.run(&["share", "on", "--folder", &format!("{}/none", desk.folder())])));
    assert_eq!(said, "benchwalk: [stick]/BENCH/none is not there; put the stick in, or make the folder first\n");
    assert_eq!(desk.ann.run(&["share", "on"]).code, 2);
    // Nothing was changed by all that.
    assert!(fails(&desk.ann.run(&["share", "state"])).contains("alone"));
}

#[test]
fn a_folder_is_named_once_and_taken_away_again() {
    let desk = Desk::shared();
    let said = desk.plain(&desk.ann.done(&["share", "on", "--folder", &desk.folder()]));
    assert!(said.starts_with("Thistlecot: shared over stick ([stick]/BENCH), goes on with what lies there."), "{said}");
    let config = fs::read_to_string(desk.ann.path("config/config.toml")).unwrap();
    assert_eq!(config.matches("[[share]]").count(), 1, "{config}");
    let said = desk.ann.run(&["share", "on", "--folder", &desk.folder(), "--name", "office"]);
    assert_eq!(said.code, 2);
    let reason = "this season is shared over it already, as stick; 'benchwalk share off stick' first";
    assert!(said.err.contains(reason), "{said:?}");
    let other = desk.stick.path().join("other");
    fs::create_dir(&other).unwrap();
    let other = other.display().to_string();
    let said = desk.ann.run(&["share", "on", "--folder", &other, "--name", "stick"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("--name: another folder or hub of this season is called 'stick'"), "{said:?}");
    desk.ann.done(&["share", "on", "--folder", &other, "--name", "shed"]);
    assert_eq!(desk.ann.done(&["share"]), "stick: nothing new\nshed: nothing new\n");
    let said = fails(&desk.ann.run(&["share", "off", "office"]));
    assert!(said.contains("'office' is no folder or hub of this season; known: stick, shed"), "{said}");
    let said = desk.plain(&desk.ann.done(&["share", "off", "stick"]));
    assert!(said.starts_with("stick: no longer used by this laptop. What lies in [stick]/BENCH stays there"), "{said}");
    assert_eq!(desk.ann.done(&["share"]), "shed: nothing new\n");
    desk.ann.done(&["share", "off", "shed"]);
    assert!(fails(&desk.ann.run(&["share"])).contains("no folder or hub is named for this season on this laptop"));
    let config = fs::read_to_string(desk.ann.path("config/config.toml")).unwrap();
    assert_eq!(config, "laptop = \"ann\" # me\nby = \"ann\"\n");
}

#[test]
fn a_season_begun_by_itself_joins_the_other_one_when_it_is_asked_to() {
    let desk = Desk::shared();
    let cyd = laptop("cyd");
    // The same site typed once more, with other coordinates: another season by its id.
    let own = base().replace("44.1,", "44.2,");
    let journal = cyd.file("base.jsonl", &own);
    cyd.done(&["import", journal.to_str().unwrap()]);
    water(&cyd, "cyd", "12T07:05", 4);
    let said = desk.plain(&fails(&cyd.run(&["share", "on", "--folder", &desk.folder()])));
    assert_eq!(
        said,
        "benchwalk: [stick]/BENCH holds a season of the same site that was begun by itself: Thistlecot ([id]). To make \
         [root]/data/season.db one with it, add --join [id]; to begin another season next to it, add --new\n"
    );
    let said = desk.plain(&cyd.done(&["share", "on", "--folder", &desk.folder(), "--join", "thistlecot"]));
    assert!(said.contains("All of [root]/data/season.db is in [root]/data/season-shared.db now"), "{said}");
    let shared = cyd.path("data/season-shared.db");
    desk.ann.done(&["share"]);
    desk.bob.done(&["share"]);
    let exported = desk.is_one();
    assert!(exported.contains("\"level\":4"), "{exported}");
    assert_eq!(exported, cyd.done(&["export", "--season", shared.to_str().unwrap()]));
    // The file it was made of is as it was.
    assert!(fails(&cyd.run(&["share", "state"])).contains("alone"));
}

#[test]
fn the_season_of_another_site_is_not_joined_and_several_are_listed() {
    let desk = Desk::shared();
    let cyd = laptop("cyd");
    let journal = cyd.file("base.jsonl", &base().replace("Thistlecot", "Birch Flat"));
    cyd.done(&["import", journal.to_str().unwrap()]);
    let folder = desk.folder();
    let said = desk.plain(&fails(&cyd.run(&["share", "on", "--folder", &folder, "--join", "Thistlecot"])));
    assert!(
        said.starts_with("benchwalk: Thistlecot ([id]) in [stick]/BENCH is the season of another site than [root]/data/season.db, which holds Birch Flat; "),
        "{said}"
    );
    let said = desk.plain(&fails(&cyd.run(&["share", "on", "--folder", &folder, "--join", "0123456789"])));
    assert_eq!(said, "benchwalk: '0123456789' does not lie in [stick]/BENCH; there is: Thistlecot ([id])\n");
    let said = desk.plain(&cyd.done(&["share", "on", "--folder", &folder]));
    assert!(said.contains("There lies also: Thistlecot ([id])"), "{said}");
    let new = cyd.path("new.db");
    let new = new.to_str().unwrap();
    let said = desk.plain(&fails(&cyd.run(&["share", "join", "--folder", &folder, "--season", new])));
    assert!(said.starts_with("benchwalk: several seasons lie in [stick]/BENCH; name one: there are: "), "{said}");
    let said = cyd.done(&["share", "join", "--folder", &folder, "thistlecot", "--season", new]);
    assert!(said.contains("[root]/new.db: Thistlecot, 5 lines. This laptop is cyd."), "{said}");
    assert_eq!(cyd.done(&["export", "--season", new]), desk.ann.done(&["export"]));
    let said = fails(&cyd.run(&["share", "join", "--folder", &folder, "--season", new]));
    assert!(said.starts_with("benchwalk: there is a season file already: [root]/new.db; name a new one"), "{said}");
}

#[test]
fn settings_of_sharing_that_are_wrong_say_what_is_right() {
    for (text, said) in [
        (
            "laptop = \"a name of too many characters\"\n",
            "laptop: 'a name of too many characters' is not a name of 1 to 20",
        ),
        (
            "\n[[share]]\nseason = \"x\"\nname = \"stick\"\nfolder = \"/x\"\n",
            "line 2: season: 'x' is not the id of a season",
        ),
        ("[[share]]\nname = \"stick\"\n", "line 1: missing field `season`"),
    ] {
        let laptop = Laptop::new();
        laptop.file("config/config.toml", text);
        let error = fails(&laptop.run(&["share"]));
        assert!(error.starts_with(&format!("benchwalk: {said}")), "{error}");
    }
}

#[test]
fn what_is_to_settle_says_who_wrote_it_and_on_which_laptop_in_words_and_as_json() {
    let desk = Desk::shared();
    let sold = "\"kind\":\"sold\",\"pots\":20";
    write(&desk.ann, &[entry("12T09:00", "ann", sold)]);
    write(
        &desk.bob,
        &[entry("12T09:05", "bob", sold), entry("12T09:06", "bob", "\"kind\":\"moved\",\"to\":\"E2\",\"pots\":50")],
    );
    desk.exchange();
    let on = |laptop: &Laptop, more: &[&str]| laptop.done(&[&["review", "--on", "2026-10-12"], more].concat());
    let review = on(&desk.ann, &[]);
    let flat = review.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("E1, Mon Oct 12: sold 20 pots, logged twice? ann 09:00, bob (bob) 09:05"), "{flat}");
    assert!(flat.contains("moved off bench E1"), "{flat}");
    let json: serde_json::Value = serde_json::from_str(&on(&desk.ann, &["--format", "json"])).unwrap();
    let what = |what: &str| json["to_settle"].as_array().unwrap().iter().find(|one| one["what"] == what).unwrap();
    let twins = what("logged twice");
    assert_eq!(twins["day"], "2026-10-12");
    assert_eq!(twins["entries"].as_array().unwrap().len(), 2);
    assert_eq!(
        twins["writers"],
        serde_json::json!([
            {"by": "ann", "at": "2026-10-12T09:00:00-04:00"},
            {"by": "bob", "at": "2026-10-12T09:05:00-04:00", "laptop": "bob"}
        ])
    );
    let pots = what("pots on bench E1");
    assert_eq!((&pots["bench"], &pots["day"]), (&"E1".into(), &"2026-10-12".into()));
    assert_eq!(pots["writers"][0]["laptop"], "bob");
    // Seen from bob's laptop it is ann's that was written elsewhere.
    let json: serde_json::Value = serde_json::from_str(&on(&desk.bob, &["--format", "json"])).unwrap();
    let writers =
        &json["to_settle"].as_array().unwrap().iter().find(|one| one["what"] == "logged twice").unwrap()["writers"];
    assert_eq!((&writers[0]["laptop"], &writers[1]["laptop"]), (&"ann".into(), &serde_json::Value::Null));
}
