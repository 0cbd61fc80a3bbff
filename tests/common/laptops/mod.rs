//! Two laptops that keep one season, each with its own home, settings and state, both programs open in a terminal; and what they
//! live through together, whatever lies between them.
//!
//! Taken in by `#[path = "../common/laptops/mod.rs"] mod laptops;`, beside `season` and `terminal`.

#![allow(dead_code, reason = "each test takes what it needs")]

use crate::season;
use crate::terminal::{FOLDERS, Pty, Start, program, query};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

/// A laptop: a folder with everything of it.
pub(crate) struct Laptop {
    name: &'static str,
    folder: PathBuf,
    /// What else its programs find in their surroundings.
    env: Vec<(String, String)>,
}

/// Two of them with a season of ann's that is shared, and that bob's joined.
pub(crate) struct Two {
    pub(crate) ann: Laptop,
    pub(crate) bob: Laptop,
    _root: tempfile::TempDir,
}

impl Two {
    /// What lies between them is called `name`; `option` names it to the laptop of a login, such as `--folder DIR`.
    pub(crate) fn over(
        name: &str,
        option: impl Fn(&str) -> [String; 2],
        env: impl Fn(&str) -> Vec<(String, String)>,
    ) -> Self {
        Self::keeping(&season::journal(), name, option, env)
    }

    /// The same with the season of this journal.
    pub(crate) fn keeping(
        journal: &str,
        name: &str,
        option: impl Fn(&str) -> [String; 2],
        env: impl Fn(&str) -> Vec<(String, String)>,
    ) -> Self {
        let root = tempfile::tempdir().unwrap();
        let [ann, bob] = ["ann", "bob"].map(|laptop| Laptop::new(root.path(), laptop, env(laptop)));
        ann.import(journal);
        for (laptop, how) in [(&ann, "on"), (&bob, "join")] {
            let [option, place] = option(laptop.name);
            laptop.done(&["share", how, &option, &place, "--name", name]);
        }
        Self { ann, bob, _root: root }
    }
}

impl Laptop {
    fn new(root: &Path, name: &'static str, env: Vec<(String, String)>) -> Self {
        let folder = root.join(name);
        let config = folder.join("config/benchwalk");
        std::fs::create_dir_all(&config).unwrap();
        std::fs::write(config.join("config.toml"), format!("by = \"{name}\"\nlaptop = \"{name}\"\n")).unwrap();
        Self { name, folder, env }
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(program());
        if !arguments.contains(&"--season") {
            command.args(["--season", "season.db"]);
        }
        command.args(arguments).current_dir(&self.folder);
        for (name, sub) in FOLDERS {
            command.env(name, self.folder.join(sub));
        }
        command.envs(self.env.iter().map(|(name, value)| (name, value)));
        command
    }

    /// A command that is not waited for.
    pub(crate) fn begin(&self, arguments: &[&str]) -> Child {
        let mut command = self.command(arguments);
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        command.spawn().unwrap()
    }

    /// Imports a journal.
    pub(crate) fn import(&self, journal: &str) {
        std::fs::write(self.folder.join("season.jsonl"), journal).unwrap();
        self.done(&["import", "season.jsonl"]);
    }

    /// A command that comes to its end; gives what it printed.
    pub(crate) fn done(&self, arguments: &[&str]) -> String {
        let output = self.command(arguments).output().unwrap();
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(output.status.success(), "{arguments:?}: {text}{}", String::from_utf8_lossy(&output.stderr));
        text
    }

    /// A command that fails; gives what it said.
    pub(crate) fn fails(&self, arguments: &[&str]) -> String {
        let output = self.command(arguments).output().unwrap();
        assert_eq!(output.status.code(), Some(1), "{arguments:?}");
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    }

    /// Nothing is exchanged but by hand, however long a test takes.
    fn by_hand(&self) {
        let config = self.folder.join("config/benchwalk/config.toml");
        let text = std::fs::read_to_string(&config).unwrap();
        assert!(text.contains("[[share]]"), "{text}");
        std::fs::write(config, text + "every = 0\n").unwrap();
    }

    /// Opens the screens.
    pub(crate) fn open(&self) -> Pty {
        self.open_file(Path::new("season.db"))
    }

    /// Opens the screens on another file.
    pub(crate) fn open_file(&self, file: &Path) -> Pty {
        let env: Vec<_> = self.env.iter().map(|(name, value)| (name.as_str(), Some(value.as_str()))).collect();
        let start = Start { folder: Some(&self.folder), env: &env, ..Start::default() };
        let mut pty = Pty::start_as(start, &["--season", file.to_str().unwrap()]);
        pty.wait_round();
        pty
    }

    /// Opens the screens and waits until they have exchanged by themselves: the Share page says when they do so next.
    fn open_and_exchange(&self) -> Pty {
        let mut pty = self.open();
        pty.send("@");
        let done = |line: &str| {
            line.contains(" just now ") && [" in 4 min", " in 5 min"].iter().any(|next| line.contains(next))
        };
        pty.wait("the first exchange", |text| text.starts_with("Share") && text.lines().any(done));
        pty
    }

    pub(crate) fn file(&self) -> PathBuf {
        self.path("season.db")
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }
}

/// Exchanges by the Share page, comes back to the Round, and gives what was said.
fn exchange(pty: &mut Pty) -> String {
    pty.send("@");
    pty.wait("the Share page", |text| text.starts_with("Share"));
    pty.send("\r");
    let text = pty.wait("what came of it", |text| text.contains("Shared: "));
    let said = text.lines().find(|line| line.starts_with("Shared: ")).unwrap().trim_end().to_owned();
    pty.send("r");
    pty.wait("the Round", |text| text.starts_with("Round"));
    said
}

/// Scores a bench on the card that `w` opens.
fn walk(pty: &mut Pty, bench: &str, digit: &str) {
    pty.send("w");
    pty.wait("the card", |text| text.starts_with(&format!("Walk  {bench}")));
    pty.send(digit);
    pty.wait("the save", |text| text.contains(&format!("saved: {bench} water {digit}")));
    pty.send("r");
    pty.wait("the Round", |text| text.starts_with("Round"));
}

fn leave(mut pty: Pty) -> String {
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    pty.drain();
    pty.raw()
}

/// Both export the same.
pub(crate) fn same(ann: &Laptop, bob: &Laptop) {
    let [of_ann, of_bob] = [ann, bob].map(|laptop| laptop.done(&["export"]));
    assert!(of_ann == of_bob, "{} and {} differ:\n{of_ann}\n{of_bob}", ann.name, bob.name);
}

fn count(file: &Path, sql: &str) -> i64 {
    query(file, sql)[0].parse().unwrap()
}

const WATERS: &str = "SELECT count(*) FROM water";

/// Both walk the same morning, and look at one bench.
pub(crate) fn both_walk_the_same_morning(Two { ann, bob, .. }: &Two) {
    ann.by_hand();
    bob.by_hand();
    let before = count(&ann.file(), WATERS);
    let (mut at_ann, mut at_bob) = (ann.open(), bob.open());
    walk(&mut at_ann, "E1", "3");
    walk(&mut at_bob, "E1", "4");
    assert_eq!(exchange(&mut at_ann), "Shared: 1 sent.");
    assert_eq!(exchange(&mut at_bob), "Shared: 1 came, 1 sent. 1 entry from ann loaded.");
    assert_eq!(exchange(&mut at_ann), "Shared: 1 came. 1 entry from bob loaded.");
    let round = at_ann.text();
    // The bench is begun once, not twice, though both looked at it.
    assert!(round.contains("1 partly done"), "{round}");
    assert_eq!(exchange(&mut at_ann), "Shared: nothing new.");
    for pty in [at_ann, at_bob] {
        assert!(!leave(pty).contains("to send; "), "everything is sent");
    }
    same(ann, bob);
    for laptop in [ann, bob] {
        assert_eq!(count(&laptop.file(), WATERS), before + 2, "{}", laptop.name);
    }
}

/// Both revise one lot, and one of them settles it.
pub(crate) fn both_revise_one_lot_and_one_settles_it(Two { ann, bob, .. }: &Two) {
    ann.by_hand();
    bob.by_hand();
    let (mut at_ann, mut at_bob) = (ann.open(), bob.open());
    let low = format!("gj\r{}12 in\r", "\t".repeat(12));
    let high = format!("gj\r{}18 in\r", "\t".repeat(13));
    for (pty, keys) in [(&mut at_ann, low), (&mut at_bob, high)] {
        pty.send(&keys);
        pty.wait("the revision", |text| text.contains("saved: lot L1"));
        pty.send("r");
        pty.wait("the Round", |text| text.starts_with("Round"));
        exchange(pty);
    }
    at_bob.wait("what is open", |text| text.contains("1 to settle"));
    exchange(&mut at_ann);
    let round = at_ann.wait("what is open", |text| text.contains("1 to settle"));
    assert!(round.lines().nth(2).unwrap().ends_with(", 1 to settle"), "{round}");
    at_ann.send("!");
    at_ann.wait("the form", |text| text.contains("To settle, 1 of 1: lot L1 was written twice"));
    at_ann.send("\r");
    at_ann.wait("that it is settled", |text| text.contains("saved: lot L1") && !text.contains("to settle"));
    exchange(&mut at_ann);
    assert_eq!(exchange(&mut at_bob), "Shared: 1 came. ann changed the plan; it is loaded.");
    at_bob.wait("that it is settled", |text| text.starts_with("Round") && !text.contains("to settle"));
    leave(at_ann);
    leave(at_bob);
    same(ann, bob);
    let held = "SELECT height_low_cm, height_high_cm FROM lot WHERE lot = 'L1'";
    assert_eq!(query(&ann.file(), held), ["30.48 45.72"], "both changes hold");
}

/// One sprays a house while the other stands in it.
pub(crate) fn one_sprays_a_house_while_the_other_walks_it(Two { ann, bob, .. }: &Two) {
    ann.by_hand();
    bob.by_hand();
    let (mut at_ann, mut at_bob) = (ann.open(), bob.open());
    at_bob.send("w");
    at_bob.wait("the card", |text| text.starts_with("Walk  E1") && text.contains("[water _]"));
    // Three benches of the house, marked, and one form for all. A mark goes on to the next bench.
    at_ann.send(" jk jk af");
    at_ann.wait("the form", |text| text.contains("Sprayed"));
    at_ann.send("soap\tmites\ta\t12\tnow\r");
    at_ann.wait("the save", |text| text.contains("saved: E1 E2 E3"));
    assert_eq!(exchange(&mut at_ann), "Shared: 3 sent.");
    // Bob is at the bench: the exchange is begun, and his card is what he sees while it goes on.
    at_bob.send("@\r\u{1b}");
    let card = at_bob.wait("the card to close", |text| text.starts_with("Walk  E1") && text.contains("CLOSED UNTIL"));
    assert!(card.contains("Stay out"), "{card}");
    at_bob.send("3");
    at_bob.wait("that nothing is taken", |text| text.contains("Not logged: E1 is closed"));
    leave(at_ann);
    leave(at_bob);
    same(ann, bob);
}

/// One walks while what lies between them is away; what waits goes out once it is back.
pub(crate) fn one_walks_while_it_is_away(Two { ann, bob, .. }: &Two, away: impl FnOnce(), back: impl FnOnce()) {
    away();
    let mut at_ann = ann.open();
    at_ann.send("w");
    for (n, bench, digit) in [(1, "E1", "3"), (2, "E2", "4"), (3, "E3", "2")] {
        at_ann.wait("the card", |text| text.starts_with(&format!("Walk  {bench}")) && text.contains("[water _]"));
        at_ann.send(digit);
        let waits = format!("{n} to send");
        at_ann.wait("the save, and what waits", |text| {
            text.contains(&format!("saved: {bench} water {digit}")) && text.lines().next().unwrap().contains(&waits)
        });
        at_ann.send("\t");
    }
    at_ann.send("r");
    at_ann.wait("the Round", |text| text.starts_with("Round") && text.lines().nth(2).unwrap().ends_with("3 to send"));
    let said = leave(at_ann);
    assert!(said.contains("3 to send; they go out the next time"), "{said}");
    back();
    let at_ann = ann.open_and_exchange();
    assert!(!at_ann.text().contains("3 to send"), "{}", at_ann.text());
    leave(at_ann);
    leave(bob.open_and_exchange());
    same(ann, bob);
}
