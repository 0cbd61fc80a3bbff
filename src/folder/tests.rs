//! A folder as laptops find it: cut, copied back, full of other things; and random lives over it.

use super::*;
use crate::exchange::memory::{Disk, Hub, Laptop};
use crate::exchange::{Batches, Exchanged, Replica, Stopped, exchange};
use crate::stats::Draw;
use tempfile::TempDir;

const SEASON_ID: Uuid = Uuid::from_u128(0x8000_0000_0000_0000_5eed_5eed);

fn stream(n: u64) -> Stream {
    Stream(Uuid::from_u64_pair(n << 32, 1))
}

/// Lines `from` to `to` of a stream, the number of the stream in each.
fn lines(of: u64, from: u64, to: u64) -> Vec<Linked> {
    let mut chain = Chain::START;
    let link = |n: u64| {
        let text = format!("{{\"n\":{n},\"of\":{of}}}");
        chain = chain.link(&text);
        Linked { text, chain }
    };
    (1..=to).map(link).skip(usize::try_from(from - 1).unwrap()).collect()
}

fn give(folder: &mut Folder, of: u64, from: u64, to: u64) -> Head {
    let before = lines(of, 1, from - 1).last().map_or(Chain::START, |line| line.chain);
    let lines = lines(of, from, to);
    let piece = Piece { stream: stream(of), laptop: Some("ann-2"), after: from - 1, before, lines: &lines };
    folder.give(SEASON_ID, &piece).unwrap()
}

/// The files of the season, without the part of their names that says which stream.
fn files_of(root: &Path) -> Vec<String> {
    let place = root.join("benchwalk-5eed5eed");
    let found = fs::read_dir(place).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut files: Vec<String> = found.map(|name| name.split_once('.').unwrap().1.to_owned()).collect();
    files.sort();
    files
}

fn only_file(root: &Path) -> PathBuf {
    let mut found = fs::read_dir(root.join("benchwalk-5eed5eed")).unwrap().map(|entry| entry.unwrap().path());
    let one = found.next().unwrap();
    assert!(found.next().is_none());
    one
}

fn last(folder: &mut Folder) -> Vec<u64> {
    folder.heads(SEASON_ID).unwrap().iter().map(|head| head.last).collect()
}

fn ann(root: &Path) -> Folder {
    Folder::open(root.to_owned(), stream(0xa))
}

fn bob(root: &Path) -> Folder {
    Folder::open(root.to_owned(), stream(0xb))
}

#[test]
fn what_was_given_is_read_by_all_in_pieces_of_a_thousand_lines() {
    let root = tempfile::tempdir().unwrap();
    let (mut ann, mut bob) = (ann(root.path()), bob(root.path()));
    assert_eq!(ann.heads(SEASON_ID).unwrap(), []);
    assert_eq!(give(&mut ann, 1, 1, 300).last, 300);
    assert_eq!(files_of(root.path()), ["0000001-0000300.0000000a.jsonl"]);
    assert_eq!(give(&mut ann, 1, 301, 800).last, 800);
    assert_eq!(files_of(root.path()), ["0000001-0000800.0000000a.jsonl"], "the shorter piece is gone");
    assert_eq!(give(&mut ann, 1, 801, 1300).last, 1300);
    let both = ["0000001-0001000.0000000a.jsonl", "0001001-0001300.0000000a.jsonl"];
    assert_eq!(files_of(root.path()), both);
    let all = lines(1, 1, 1300);
    let head =
        Head { stream: stream(1), last: 1300, chain: all[1299].chain, laptop: Some("ann-2".to_owned()), seen: None };
    assert_eq!(bob.heads(SEASON_ID).unwrap(), [head]);
    assert_eq!(bob.read(stream(1), 0, 200).unwrap(), all[..200]);
    assert_eq!(bob.read(stream(1), 900, 200).unwrap(), all[900..1000], "one piece at a time");
    assert_eq!(bob.read(stream(1), 1000, 2000).unwrap(), all[1000..]);
    assert_eq!(bob.read(stream(1), 1300, 9).unwrap(), []);
    for n in [1, 999, 1000, 1001, 1300] {
        let at = usize::try_from(n).unwrap() - 1;
        assert_eq!(bob.chain_at(stream(1), n).unwrap(), Some(all[at].chain), "{n}");
    }
    assert_eq!(bob.chain_at(stream(1), 0).unwrap(), Some(Chain::START));
    assert_eq!(bob.chain_at(stream(1), 1301).unwrap(), None);
    // Bob carries Ann's lines on; what Ann wrote stays for Ann to remove.
    assert_eq!(give(&mut bob, 1, 1301, 1310).last, 1310);
    assert_eq!(files_of(root.path())[1..], ["0001001-0001300.0000000a.jsonl", "0001001-0001310.0000000b.jsonl"]);
    assert_eq!(give(&mut ann, 1, 1311, 1311).last, 1311);
    assert_eq!(files_of(root.path())[1..], ["0001001-0001310.0000000b.jsonl", "0001001-0001311.0000000a.jsonl"]);
}

#[test]
fn lines_that_do_not_follow_change_nothing_and_the_head_is_given() {
    let root = tempfile::tempdir().unwrap();
    let mut ann = ann(root.path());
    give(&mut ann, 1, 1, 10);
    assert_eq!(give(&mut ann, 1, 12, 20).last, 10);
    assert_eq!(give(&mut ann, 1, 5, 20).last, 10);
    let other =
        Piece { stream: stream(1), laptop: None, after: 10, before: Chain::START.link("x"), lines: &lines(1, 11, 12) };
    assert_eq!(ann.give(SEASON_ID, &other).unwrap().last, 10);
    assert_eq!(files_of(root.path()), ["0000001-0000010.0000000a.jsonl"]);
    for odd in ["", "{}\n{}", "{}\r", "# benchwalk piece end: 1 lines"] {
        let line = [Linked { text: odd.to_owned(), chain: Chain::START.link(odd) }];
        let piece = Piece { stream: stream(2), laptop: None, after: 0, before: Chain::START, lines: &line };
        assert!(matches!(ann.give(SEASON_ID, &piece), Err(CarrierError::Odd(_))), "{odd:?}");
    }
}

#[test]
fn a_cut_piece_is_passed_over_and_said_and_written_again_by_its_laptop() {
    let root = tempfile::tempdir().unwrap();
    let (mut ann, mut bob) = (ann(root.path()), bob(root.path()));
    give(&mut ann, 1, 1, 300);
    let file = only_file(root.path());
    let text = fs::read(&file).unwrap();
    fs::write(&file, &text[..text.len() / 2]).unwrap();
    assert_eq!(last(&mut bob), [0_u64; 0]);
    assert_eq!(bob.remarks(), [Remark::Cut { laptop: Some("ann-2".to_owned()), pieces: 1 }]);
    // Under the name of a file that is being written, and with nothing in it.
    fs::rename(&file, file.with_extension("part")).unwrap();
    fs::write(&file, "").unwrap();
    assert_eq!(last(&mut bob), [0_u64; 0]);
    let one_each = [None, Some("ann-2".to_owned())].map(|laptop| Remark::Cut { laptop, pieces: 1 });
    assert_eq!(bob.remarks(), one_each);
    assert_eq!(give(&mut ann, 1, 1, 305).last, 305);
    assert_eq!(files_of(root.path()), ["0000001-0000305.0000000a.jsonl"], "what was cut is gone");
    assert_eq!((last(&mut bob), bob.remarks()), (vec![305], vec![]));
}

#[test]
fn a_piece_with_right_ends_and_wrong_lines_is_not_there() {
    let root = tempfile::tempdir().unwrap();
    let (mut ann, mut bob) = (ann(root.path()), bob(root.path()));
    give(&mut ann, 1, 1, 1000);
    give(&mut ann, 1, 1001, 1100);
    let place = root.path().join("benchwalk-5eed5eed");
    let file = fs::read_dir(&place)
        .unwrap()
        .map(|e| e.unwrap().path())
        .find(|p| p.to_string_lossy().contains(".0000001-"))
        .unwrap();
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("{\"n\":500,", "{\"n\":5O0,")).unwrap();
    assert_eq!(last(&mut bob), [0_u64; 0]);
    assert_eq!(bob.remarks(), [Remark::Cut { laptop: Some("ann-2".to_owned()), pieces: 1 }]);
    // Bob has the lines: he gives them, and what follows is there again.
    assert_eq!(give(&mut bob, 1, 1, 500).last, 500);
    assert_eq!(give(&mut bob, 1, 501, 1000).last, 1100);
    assert_eq!(last(&mut bob), [1100]);
    // It is found again while it is read, too.
    let mut other = Folder::open(root.path().to_owned(), stream(0xc));
    assert_eq!(last(&mut other), [1100]);
    fs::remove_file(&file).unwrap();
    assert_eq!(other.read(stream(1), 0, 5000).unwrap(), lines(1, 1, 1000));
}

#[test]
fn a_piece_that_went_was_replaced_by_a_longer_one() {
    let root = tempfile::tempdir().unwrap();
    let (mut ann, mut bob) = (ann(root.path()), bob(root.path()));
    give(&mut ann, 1, 1, 100);
    assert_eq!(last(&mut bob), [100]);
    bob.loaded = None;
    give(&mut ann, 1, 101, 200);
    assert_eq!(bob.read(stream(1), 0, 5000).unwrap(), lines(1, 1, 200));
    bob.loaded = None;
    fs::remove_file(only_file(root.path())).unwrap();
    assert_eq!(bob.read(stream(1), 0, 5000).unwrap(), [], "less than there was");
}

#[test]
fn a_folder_that_is_not_there_is_no_failure_and_one_without_the_season_is_empty() {
    let root = tempfile::tempdir().unwrap();
    let mut gone = ann(&root.path().join("stick"));
    let place = root.path().join("stick").display().to_string();
    assert_eq!(gone.heads(SEASON_ID), Err(CarrierError::NotThere { place: place.clone() }));
    assert_eq!(gone.seasons(), Err(CarrierError::NotThere { place: place.clone() }));
    assert_eq!(gone.begin(SEASON_ID, "Wrenby Hill"), Err(CarrierError::NotThere { place: place.clone() }));
    fs::write(root.path().join("stick"), "a file").unwrap();
    let error = gone.heads(SEASON_ID).unwrap_err().to_string();
    assert!(error.starts_with(&format!("cannot be read ({place}")), "{error}");
    let mut there = ann(root.path());
    assert_eq!((there.heads(SEASON_ID).unwrap(), there.seasons().unwrap()), (vec![], vec![]));
}

#[test]
fn the_seasons_that_lie_there_are_listed_with_their_sites() {
    let root = tempfile::tempdir().unwrap();
    let mut ann = ann(root.path());
    ann.begin(SEASON_ID, "Wrenby Hill").unwrap();
    ann.begin(SEASON_ID, "Wrenby Hill").unwrap();
    let other = Uuid::from_u128(0x77);
    let lines = lines(1, 1, 2);
    ann.give(other, &Piece { stream: stream(1), laptop: None, after: 0, before: Chain::START, lines: &lines }).unwrap();
    fs::create_dir(root.path().join("benchwalk-x")).unwrap();
    fs::create_dir(root.path().join("photos")).unwrap();
    let offered = |season, name: Option<&str>| Offered { season, name: name.map(str::to_owned), may_write: true };
    assert_eq!(ann.seasons().unwrap(), [offered(other, None), offered(SEASON_ID, Some("Wrenby Hill"))]);
    // A name that was cut is written again.
    fs::write(root.path().join("benchwalk-5eed5eed/season.txt"), format!("season {SEASON_ID}\nsite Ald")).unwrap();
    assert_eq!(ann.seasons().unwrap(), [offered(other, None)]);
    ann.begin(SEASON_ID, "Wrenby Hill").unwrap();
    assert_eq!(ann.seasons().unwrap().len(), 2);
}

#[cfg(unix)]
#[test]
fn other_files_links_pipes_and_pieces_of_other_seasons_are_passed_over() {
    let root = tempfile::tempdir().unwrap();
    let (mut ann, mut bob) = (ann(root.path()), bob(root.path()));
    give(&mut ann, 1, 1, 10);
    let place = root.path().join("benchwalk-5eed5eed");
    let file = only_file(root.path());
    let named = |of: u64, first: u64, to: u64| {
        let writer = Writer::of(stream(0xa));
        place.join(Name { stream: stream(of), first, last: to, writer }.to_string())
    };
    std::os::unix::fs::symlink(&file, named(2, 1, 10)).unwrap();
    std::os::unix::fs::symlink("/dev/zero", named(3, 1, 10)).unwrap();
    fs::create_dir(named(4, 1, 10)).unwrap();
    fs::copy(&file, named(5, 1, 10)).unwrap();
    fs::copy(&file, named(1, 11, 20)).unwrap();
    fs::write(place.join("IMG_0001.jpg"), [0xff; 4000]).unwrap();
    fs::write(named(6, 1, 10), [b'\n'; 4000]).unwrap();
    File::create(named(7, 1, 10)).unwrap().set_len(PIECE_MOST + 1).unwrap();
    let other = Uuid::from_u128((1 << 100) | 0x5eed_5eed);
    let same_place = lines(8, 1, 3);
    ann.give(other, &Piece { stream: stream(8), laptop: None, after: 0, before: Chain::START, lines: &same_place })
        .unwrap();
    assert_eq!(
        bob.heads(SEASON_ID).unwrap().iter().map(|head| (head.stream, head.last)).collect::<Vec<_>>(),
        [(stream(1), 10)]
    );
    assert_eq!(
        bob.heads(other).unwrap().iter().map(|head| (head.stream, head.last)).collect::<Vec<_>>(),
        [(stream(8), 3)]
    );
    for n in 0..3_000 {
        File::create(place.join(format!("junk-{n}.jsonl"))).unwrap();
    }
    assert_eq!(last(&mut bob), [10]);
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_says_so_and_nothing_is_left_behind() {
    let root = tempfile::tempdir().unwrap();
    fs::write(root.path().join("benchwalk-5eed5eed"), "a file in its place").unwrap();
    let mut ann = ann(root.path());
    let lines = lines(1, 1, 2);
    let piece = Piece { stream: stream(1), laptop: None, after: 0, before: Chain::START, lines: &lines };
    let error = ann.give(SEASON_ID, &piece).unwrap_err().to_string();
    assert!(error.starts_with("cannot be read (") && error.contains("benchwalk-5eed5eed: "), "{error}");
}

/// Prints how long it takes to find nothing new in a large folder: `LARGE=1 cargo test --release --lib folder -- --nocapture`.
#[test]
fn a_large_folder_is_looked_through() {
    let (streams, full) = if std::env::var_os("LARGE").is_some() { (10, 100) } else { (2, 2) };
    let root = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir()).unwrap();
    let mut ann = ann(root.path());
    let place = root.path().join("benchwalk-5eed5eed");
    for of in 1..=streams {
        give(&mut ann, of, 1, 1);
        let lines = lines(of, 1, full * PIECE_LINES);
        let mut before = Chain::START;
        for (n, lines) in (0_u64..).zip(lines.chunks(1_000)) {
            let (first, last) = (n * PIECE_LINES + 1, (n + 1) * PIECE_LINES);
            let about = piece::Head { season: SEASON_ID, stream: stream(of), first, before, laptop: None };
            let name = Name { stream: stream(of), first, last, writer: Writer::of(stream(0xa)) };
            fs::write(place.join(name.to_string()), piece::write(&about, lines)).unwrap();
            before = lines.last().unwrap().chain;
        }
    }
    for (what, folder) in [("first", &mut bob(root.path())), ("again", &mut ann)] {
        if what == "again" {
            folder.heads(SEASON_ID).unwrap();
        }
        let start = std::time::Instant::now();
        let heads = folder.heads(SEASON_ID).unwrap();
        println!("{what} look at {streams} streams of {full} pieces: {:?}", start.elapsed());
        assert!(heads.iter().all(|head| head.last == full * PIECE_LINES) && heads.len() as u64 == streams);
    }
}

/// What a folder holds, to be put back.
fn copy_of(root: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    for place in fs::read_dir(root).unwrap() {
        for file in fs::read_dir(place.unwrap().path()).unwrap() {
            let path = file.unwrap().path();
            all.insert(path.clone(), fs::read(&path).unwrap());
        }
    }
    all
}

/// Puts a copy back: as a restore does, or, where `over`, as copying it over what is there.
fn put_back(root: &Path, copy: &BTreeMap<PathBuf, Vec<u8>>, over: bool) {
    if !over {
        for path in copy_of(root).into_keys() {
            fs::remove_file(path).unwrap();
        }
    }
    for (path, bytes) in copy {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}

struct World {
    dice: Draw,
    whole_only: bool,
    root: TempDir,
    copy: Option<BTreeMap<PathBuf, Vec<u8>>>,
    hub: Option<Hub>,
    laptops: Vec<Laptop>,
    copies: Vec<(usize, Disk)>,
    wrote: BTreeSet<String>,
    /// What only a file that was put back had.
    lost: BTreeSet<String>,
    counts: Counts,
}

#[derive(Debug, Default)]
struct Counts {
    pulled: usize,
    vanished: usize,
    put_back: usize,
    lines: usize,
}

/// A stick that is pulled: what the last writes were is left half written, under the last name or the one before.
fn pull(dice: &mut Draw, root: &Path, before: &BTreeMap<PathBuf, Vec<u8>>) -> bool {
    let new: Vec<PathBuf> = copy_of(root).into_keys().filter(|path| !before.contains_key(path)).collect();
    let Some(path) = new.last() else { return false };
    let bytes = fs::read(path).unwrap();
    let cut = &bytes[..dice.below(bytes.len())];
    if dice.below(100) < 50 {
        fs::write(path, cut).unwrap();
    } else {
        fs::remove_file(path).unwrap();
        fs::write(path.with_extension("part"), cut).unwrap();
    }
    // A file that was removed may be there again.
    for (path, bytes) in before.iter().filter(|(path, _)| !path.exists()) {
        if dice.below(100) < 70 {
            fs::write(path, bytes).unwrap();
        }
    }
    true
}

impl World {
    fn new(seed: u64, whole_only: bool) -> Self {
        let mut dice = Draw::new("folder", &seed.to_string(), "life");
        let laptops = (0..2 + dice.below(4)).map(|n| Laptop::new(dice.number() ^ n as u64, Disk::default())).collect();
        let hub = (dice.below(100) < 50).then(Hub::default);
        // Where there is a disk in memory nothing waits for a real one to sync.
        let root = tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir()).unwrap();
        Self {
            dice,
            whole_only,
            root,
            copy: None,
            hub,
            laptops,
            copies: Vec::new(),
            wrote: BTreeSet::new(),
            lost: BTreeSet::new(),
            counts: Counts::default(),
        }
    }

    fn with_folder(&mut self, laptop: usize, batches: Batches) -> Exchanged {
        let replica = &mut self.laptops[laptop];
        replica.own().unwrap();
        let own = replica.branches().unwrap().into_iter().find(|branch| branch.own).unwrap();
        let mut folder = Folder::open(self.root.path().to_owned(), own.stream);
        folder.whole_only = self.whole_only;
        let mut did = Exchanged::default();
        exchange(replica, &mut folder, SEASON_ID, batches, &mut did).unwrap();
        did
    }

    fn with_hub(&mut self, laptop: usize, batches: Batches, left: Option<u32>) {
        let Some(hub) = &mut self.hub else { return };
        hub.left = left;
        let mut did = Exchanged::default();
        let done = exchange(&mut self.laptops[laptop], hub, SEASON_ID, batches, &mut did);
        hub.left = None;
        assert!(left.is_some() || !matches!(done, Err(Stopped::Carrier(_))));
    }

    fn step(&mut self) {
        let laptop = self.dice.below(self.laptops.len());
        let most = [1, 3, 7][self.dice.below(3)];
        let batches = Batches { take: most, give: most };
        match self.dice.below(100) {
            0..50 => {
                let text = if self.dice.below(100) < 85 {
                    format!("entry {laptop} {:x}", self.dice.number())
                } else {
                    format!("lot {} {}", self.dice.below(3), self.dice.below(9))
                };
                self.laptops[laptop].write(&text);
                self.wrote.insert(text);
            }
            50..75 => {
                let before = copy_of(self.root.path());
                self.with_folder(laptop, batches);
                if self.dice.below(100) < 50 {
                    self.counts.pulled += usize::from(pull(&mut self.dice, self.root.path(), &before));
                }
            }
            75..85 => {
                let left = (self.dice.below(100) < 50).then(|| u32::try_from(self.dice.below(26)).unwrap());
                self.with_hub(laptop, batches, left);
            }
            85..88 => {
                let all: Vec<PathBuf> = copy_of(self.root.path()).into_keys().collect();
                if !all.is_empty() {
                    fs::remove_file(&all[self.dice.below(all.len())]).unwrap();
                    self.counts.vanished += 1;
                }
            }
            88..92 => match &self.copy {
                Some(copy) if self.dice.below(100) < 60 => {
                    put_back(self.root.path(), copy, self.dice.below(100) < 50);
                    self.counts.put_back += 1;
                }
                _ => self.copy = Some(copy_of(self.root.path())),
            },
            92..94 => self.copies.push((laptop, self.laptops[laptop].disk.clone())),
            94..96 if !self.copies.is_empty() => {
                let (laptop, disk) = self.copies[self.dice.below(self.copies.len())].clone();
                let gone = self.laptops[laptop].disk.set.difference(&disk.set).cloned().collect::<Vec<_>>();
                self.lost.extend(gone);
                self.laptops[laptop].disk = disk;
            }
            96..98 if self.laptops.len() < 8 => {
                let seat = self.dice.number();
                self.laptops.push(Laptop::new(seat, self.laptops[laptop].disk.clone()));
            }
            _ => {}
        }
    }

    fn round(&mut self) -> usize {
        let mut moved = 0;
        for laptop in 0..self.laptops.len() {
            let did = self.with_folder(laptop, Batches::default());
            moved += did.taken + did.given + did.written_again + did.damaged.len();
            self.with_hub(laptop, Batches::default(), None);
        }
        moved
    }

    fn live(&mut self) -> Result<(), String> {
        for _ in 0..90 {
            self.step();
        }
        for _ in 0..4 {
            self.round();
        }
        let all = self.laptops[0].disk.set.clone();
        if let Some(other) = self.laptops.iter().position(|laptop| laptop.disk.set != all) {
            return Err(format!(
                "laptop {other} has {} lines, the first {}",
                self.laptops[other].disk.set.len(),
                all.len()
            ));
        }
        if let Some(missing) = self.wrote.difference(&all).find(|line| !self.lost.contains(*line)) {
            return Err(format!("'{missing}' is gone"));
        }
        if let Some(odd) = all.difference(&self.wrote).next() {
            return Err(format!("nobody wrote '{odd}'"));
        }
        self.counts.lines = all.len();
        // A laptop that comes new to the folder finds everything there.
        self.laptops.push(Laptop::new(u64::MAX, Disk::default()));
        self.with_folder(self.laptops.len() - 1, Batches::default());
        if self.laptops.last().is_some_and(|new| new.disk.set != all) {
            return Err("the folder does not hold all".to_owned());
        }
        self.laptops.pop();
        let before = copy_of(self.root.path());
        let moved = self.round();
        if moved == 0 && copy_of(self.root.path()) == before {
            Ok(())
        } else {
            Err(format!("no rest: {moved} lines moved"))
        }
    }
}

fn runs() -> u64 {
    let asked = std::env::var("RUNS").ok().and_then(|runs| runs.parse().ok());
    asked.unwrap_or(if cfg!(debug_assertions) { 12 } else { 200 })
}

#[test]
fn pulled_sticks_vanished_files_and_folders_put_back_come_to_one_set_and_to_rest() {
    let mut all = Counts::default();
    for seed in 0..runs() {
        let mut world = World::new(seed, true);
        if let Err(why) = world.live() {
            panic!("life {seed}: {why}");
        }
        let c = world.counts;
        all.pulled += c.pulled;
        all.vanished += c.vanished;
        all.put_back += c.put_back;
        all.lines += c.lines;
    }
    println!("{} lives converge: {all:?}", runs());
    assert!(all.pulled > 0 && all.vanished > 0 && all.put_back > 0, "{all:?}");
}

#[test]
fn an_end_line_that_is_not_looked_at_is_missed() {
    assert!((0..30).any(|seed| World::new(seed, false).live().is_err()));
}
