//! Programs that are killed in the middle of an exchange, a hub that was set up again, and mirrors of a hub.

use crate::laptop::water;
use crate::laptops::{self, Laptop};
use crate::server::{pause, shared};
use crate::stories::two;
use crate::terminal::query;
use benchwalk::record::codec;

/// Lines of one laptop: enough that an exchange takes many steps.
const LINES: u128 = 6_000;

/// How often a program is killed at most.
const KILLS: usize = 8;

/// Runs `share` again and again, and kills it once `lines` has grown, until it comes to its end; gives how often it was killed.
fn share_killed(laptop: &Laptop, lines: impl Fn() -> usize) -> usize {
    let mut killed = 0;
    loop {
        let before = lines();
        let mut child = laptop.begin(&["share"]);
        while (killed == KILLS || lines() == before) && child.try_wait().unwrap().is_none() {
            pause();
        }
        if child.try_wait().unwrap().is_some() {
            let done = child.wait().unwrap();
            assert!(done.success(), "{done}");
            return killed;
        }
        child.kill().unwrap();
        // One that ended in the last moment was not killed.
        killed += usize::from(child.wait().unwrap().code().is_none());
    }
}

#[test]
fn a_program_killed_while_it_gives_or_takes_loses_and_doubles_nothing() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let both = two(server, &database);
    let text: String = (1..=LINES).map(|n| codec::line_text(&water(1 + n as usize % 3, n << 8, "")) + "\n").collect();
    both.ann.import(&format!("{{\"type\":\"journal\",\"version\":2}}\n{text}"));
    let counts = || server.sql(&database, "SELECT count(*), count(DISTINCT body) FROM benchwalk.line");
    let on_hub = || counts().split('|').next().unwrap().parse::<usize>().unwrap();
    let given = share_killed(&both.ann, on_hub);
    let log = "SELECT count(*) FROM log";
    let at_bob = || query(&both.bob.file(), log)[0].parse::<usize>().unwrap();
    let taken = share_killed(&both.bob, at_bob);
    println!("killed {given} times while it gave, {taken} times while it took; on the hub {}", counts());
    assert!(given > 0 && taken > 0, "killed {given} and {taken} times");
    let all = query(&both.ann.file(), log)[0].clone();
    assert_eq!(counts(), format!("{all}|{all}"));
    assert_eq!(query(&both.bob.file(), "PRAGMA integrity_check"), ["ok"]);
    laptops::same(&both.ann, &both.bob);
}

#[test]
fn a_hub_that_was_set_up_again_gets_the_season_again_by_what_the_failure_says() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let both = two(server, &database);
    both.bob.done(&["share"]);
    server.sql("postgres", &format!("DROP DATABASE {database}"));
    server.sql("postgres", &format!("CREATE DATABASE {database} TEMPLATE template"));
    let said = both.ann.fails(&["share"]);
    assert!(
        said.contains("does not hold this season") && said.contains("begin it there with 'benchwalk share on'"),
        "{said}"
    );
    let words = server.words(&database, "ann");
    let said = both.ann.done(&["share", "on", "--hub", &words]);
    assert!(said.contains("begins there"), "{said}");
    both.bob.done(&["share"]);
    let lines = query(&both.ann.file(), "SELECT count(*) FROM log")[0].clone();
    assert_eq!(server.sql(&database, "SELECT count(*) FROM benchwalk.line"), lines);
    laptops::same(&both.ann, &both.bob);
}

#[test]
fn a_mirror_of_a_hub_holds_every_season_and_its_screens_take_nothing() {
    let Some(server) = shared() else { return };
    let database = server.hub();
    let both = two(server, &database);
    let words = server.words(&database, "bob");
    let mirror = ["share", "mirror", "--hub", &words, "mirror"];
    let lines = query(&both.ann.file(), "SELECT count(*) FROM log")[0].clone();
    let said = both.bob.done(&mirror);
    assert!(said.contains(&format!("{lines} lines came: ")), "{said}");
    both.ann.import(&format!("{{\"type\":\"journal\",\"version\":2}}\n{}\n", codec::line_text(&water(1, 256, ""))));
    both.ann.done(&["share"]);
    let said = both.bob.done(&mirror);
    assert!(said.contains("1 line came: "), "{said}");
    let file = said.trim_end().rsplit(": ").next().unwrap().to_owned();
    let file = both.bob.path(&file);
    // It says what the laptop says, and nothing was given for it.
    let of_mirror = both.bob.done(&["review", "--season", file.to_str().unwrap(), "--format", "json"]);
    assert_eq!(of_mirror, both.ann.done(&["review", "--format", "json"]));
    let streams = "SELECT count(*) FROM benchwalk.stream WHERE last > 0";
    assert_eq!(server.sql(&database, streams), "1");
    let before = std::fs::read(&file).unwrap();
    let mut screens = both.bob.open_file(&file);
    let round = screens.text();
    assert!(round.contains("read only") || round.contains("read-only"), "{round}");
    screens.send("w");
    let card =
        screens.wait("the card, or why there is none", |text| !text.starts_with("Round") || text.contains("read"));
    screens.send("3");
    screens.send("q");
    assert!(!card.contains("saved"), "{card}");
    drop(screens);
    assert!(std::fs::read(&file).unwrap() == before, "nothing is written to a mirror");
}
