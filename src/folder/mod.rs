//! A folder or stick as a carrier: pieces of streams that are ordinary journals with a checked end.
//!
//! A season lies in `FOLDER/benchwalk-<last 8 digits of its id>`, a stream there in pieces of at most 1,000 lines, each a file that is
//! written once, under the name of the laptop that wrote it (`name`), and whole or not there (`piece`). Every laptop reads all
//! files and writes and removes only its own. No clock, time of a file or lock is trusted, nor that a listing is complete: what
//! is cut, gone or not listed yet is less than there is, and is given again at the next exchange.
//!
//! A folder is as private as its permissions, and what can be written there can be anything: chains show damage, not forgery.

mod name;
mod piece;
#[cfg(test)]
mod tests;
mod way;

use crate::characters::in_one_line;
use crate::exchange::{Carrier, CarrierError, Chain, Head, Linked, Offered, Piece, Remark, Stream};
use crate::files;
use name::{Name, Writer};
use piece::{END_BYTES, HEAD_BYTES};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use uuid::Uuid;
use way::{Found, way};

/// The most lines of a piece.
const PIECE_LINES: u64 = 1_000;

/// The largest piece that is read, in bytes; a line takes about 300.
const PIECE_MOST: u64 = 70_000_000;

/// The most names of a folder that are looked at.
const NAMES_MOST: usize = 100_000;

/// What the folder of a season is named before the digits of its id.
const SEASON: &str = "benchwalk-";

/// The file that says which season a folder holds, and of which site.
const ABOUT: &str = "season.txt";

/// The largest of these that is read.
const ABOUT_MOST: u64 = 4_000;

/// Bytes of pieces whose lines are looked over when a folder is listed, besides the last piece of each stream. All of a season of
/// 50,000 lines, in about 50 ms; of larger ones the rest the next times.
const LOOKED_OVER: u64 = 16_000_000;

/// A folder or stick.
#[derive(Debug)]
pub struct Folder {
    root: PathBuf,
    writer: Writer,
    /// The season that was asked for last.
    season: Option<Uuid>,
    /// Files that were found whole, so that nothing is read twice; forgotten with another season.
    known: BTreeMap<Name, Known>,
    /// The pieces of each stream that follow one another from its first line on.
    ways: BTreeMap<Stream, Vec<Found>>,
    /// Files without a right end.
    cut: BTreeMap<String, Cut>,
    /// Names whose lines were found wrong, although their ends are right.
    wrong: BTreeSet<Name>,
    /// The piece read last.
    loaded: Option<(Name, Vec<Linked>)>,
    /// Only whole pieces count; a test shows what happens otherwise.
    whole_only: bool,
}

/// A file that was found whole.
#[derive(Debug, Clone)]
struct Known {
    /// Its length: a file that was cut may have been written again under its name.
    length: u64,
    found: Found,
    laptop: Option<String>,
    /// True once its lines were looked over.
    looked_over: bool,
}

/// A file without a right end.
#[derive(Debug, Clone)]
struct Cut {
    name: Name,
    laptop: Option<String>,
}

impl Folder {
    /// A folder, which need not be there now; `writer` is the stream of this laptop, after which its files are named.
    pub fn open(root: PathBuf, writer: Stream) -> Self {
        Self {
            root,
            writer: Writer::of(writer),
            season: None,
            known: BTreeMap::new(),
            ways: BTreeMap::new(),
            cut: BTreeMap::new(),
            wrong: BTreeSet::new(),
            loaded: None,
            whole_only: true,
        }
    }

    /// Where the pieces of a season lie.
    fn place(&self, season: Uuid) -> PathBuf {
        // The digits at the end of an id are always random, those at its start are often a time, or nothing.
        let id = season.simple().to_string();
        self.root.join(format!("{SEASON}{}", id.get(24..).unwrap_or(&id)))
    }

    /// Makes the folder of a season where it is missing.
    fn make_place(&self, season: Uuid) -> Result<PathBuf, CarrierError> {
        self.is_there()?;
        let place = self.place(season);
        match fs::create_dir(&place) {
            Ok(()) => sync(&self.root)?,
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(cannot("written", &place, &error)),
        }
        Ok(place)
    }

    fn place_of(&self, name: &Name) -> PathBuf {
        self.place(self.season.unwrap_or_default()).join(name.to_string())
    }

    /// Starts with what is known of another season.
    fn of_season(&mut self, season: Uuid) {
        if self.season.replace(season) != Some(season) {
            self.known.clear();
            self.ways.clear();
            self.cut.clear();
            self.wrong.clear();
            self.loaded = None;
        }
    }

    /// The names of files in the folder of a season; none where it is not there although the folder is.
    fn list(&self, season: Uuid) -> Result<Vec<String>, CarrierError> {
        let place = self.place(season);
        match fs::read_dir(&place) {
            Ok(found) => names(found, &place),
            Err(error) if error.kind() == ErrorKind::NotFound => self.is_there().map(|()| Vec::new()),
            Err(error) => Err(cannot("read", &place, &error)),
        }
    }

    /// That the folder is there and is one.
    fn is_there(&self) -> Result<(), CarrierError> {
        match fs::metadata(&self.root) {
            Ok(about) if about.is_dir() => Ok(()),
            Ok(_) => Err(cannot("read", &self.root, &io::Error::from(ErrorKind::NotADirectory))),
            Err(error) if error.kind() == ErrorKind::NotFound => {
                Err(CarrierError::NotThere { place: files::shown(&self.root) })
            }
            Err(error) => Err(cannot("read", &self.root, &error)),
        }
    }

    /// Lists the folder and finds the way of each stream, or of one.
    fn look(&mut self, season: Uuid, only: Option<Stream>) -> Result<(), CarrierError> {
        self.of_season(season);
        let mut listed: BTreeMap<Stream, Vec<(Name, bool)>> = BTreeMap::new();
        for file in self.list(season)? {
            if let Some((name, part)) = Name::parse(&file).filter(|(name, _)| only.is_none_or(|s| s == name.stream)) {
                listed.entry(name.stream).or_default().push((name, part));
            }
        }
        let mine = |stream: &Stream| only.is_none_or(|only| only == *stream);
        self.known.retain(|name, _| !mine(&name.stream) || listed.contains_key(&name.stream));
        self.ways.retain(|stream, _| !mine(stream));
        self.cut.retain(|_, cut| !mine(&cut.name.stream));
        for (stream, names) in listed {
            let mut found = Vec::new();
            for (name, part) in names {
                let known = if part { None } else { self.look_at(&name, season) };
                match known {
                    Some(known) => found.push(known.found),
                    None => self.note_cut(name, part),
                }
            }
            self.ways.insert(stream, way(&found));
        }
        Ok(())
    }

    /// Looks at the two ends of a file, where that was not done before; `None` where it is not whole, or of another season.
    fn look_at(&mut self, name: &Name, season: Uuid) -> Option<Known> {
        let path = self.place_of(name);
        // A link is no piece: what it leads to may be anything.
        let length = fs::symlink_metadata(&path).ok().filter(fs::Metadata::is_file)?.len();
        if length > PIECE_MOST || self.wrong.contains(name) {
            return None;
        }
        if let Some(known) = self.known.get(name).filter(|known| known.length == length) {
            return Some(known.clone());
        }
        self.known.remove(name);
        let (start, rest) = both_ends(&path, length).ok()?;
        let head = piece::head(&start)?;
        let whole = (head.season, head.stream, head.first) == (season, name.stream, name.first);
        let end = piece::end(&rest).filter(|end| end.lines == name.lines());
        let chain = match end {
            Some(end) if whole => end.chain,
            _ if self.whole_only || !whole => return None,
            _ => {
                let text = String::from_utf8_lossy(&fs::read(&path).ok()?).into_owned();
                piece::lines(&text, head.before).last()?.chain
            }
        };
        let found = Found { name: name.clone(), before: head.before, chain };
        let known = Known { length, found, laptop: head.laptop, looked_over: false };
        self.known.insert(name.clone(), known.clone());
        Some(known)
    }

    /// Keeps in mind that a file is not whole.
    fn note_cut(&mut self, name: Name, part: bool) {
        let path =
            if part { self.place(self.season.unwrap_or_default()).join(name.part()) } else { self.place_of(&name) };
        let start = both_ends(&path, 0).map(|(start, _)| start).unwrap_or_default();
        let laptop = piece::head(&start).and_then(|head| head.laptop);
        self.cut.insert(if part { name.part() } else { name.to_string() }, Cut { name, laptop });
    }

    /// The lines of a piece that was found whole; `None` where they are not right after all, or it is gone.
    fn load(&mut self, found: &Found) -> Option<&[Linked]> {
        let name = &found.name;
        if self.loaded.as_ref().is_none_or(|(loaded, _)| loaded != name) {
            let lines = self.read_piece(found);
            if let Some(known) = self.known.get_mut(name) {
                known.looked_over = true;
            }
            let Some(lines) = lines else {
                self.known.remove(name);
                if self.place_of(name).exists() {
                    self.wrong.insert(name.clone());
                    self.note_cut(name.clone(), false);
                }
                return None;
            };
            self.loaded = Some((name.clone(), lines));
        }
        self.loaded.as_ref().map(|(_, lines)| lines.as_slice())
    }

    fn read_piece(&self, found: &Found) -> Option<Vec<Linked>> {
        let bytes = files::read(&self.place_of(&found.name), PIECE_MOST, files::FILE).ok()?;
        if !self.whole_only {
            return Some(piece::lines(&String::from_utf8_lossy(&bytes), found.before));
        }
        let (head, lines) = piece::read(&bytes)?;
        let same = head.before == found.before && lines.last().is_some_and(|line| line.chain == found.chain);
        same.then_some(lines)
    }

    /// Looks over the lines of the last pieces, and of others up to a number of bytes; those found wrong are not there.
    fn look_over(&mut self, season: Uuid) -> Result<(), CarrierError> {
        loop {
            let mut left = LOOKED_OVER;
            let mut wrong = BTreeSet::new();
            let ways: Vec<Vec<Found>> = self.ways.values().cloned().collect();
            let last = ways.iter().filter_map(|way| way.last());
            let others = ways.iter().flat_map(|way| way.iter().rev().skip(1));
            for (at, found) in last.chain(others).enumerate() {
                let Some(known) = self.known.get(&found.name).filter(|known| !known.looked_over) else { continue };
                let length = known.length;
                if at >= ways.len() && length > left {
                    break;
                }
                left = left.saturating_sub(length);
                if self.load(found).is_none() {
                    wrong.insert(found.name.stream);
                }
            }
            if wrong.is_empty() {
                return Ok(());
            }
            for stream in wrong {
                self.look(season, Some(stream))?;
            }
        }
    }

    fn head(&self, stream: Stream) -> Head {
        let last = self.ways.get(&stream).and_then(|way| way.last());
        let laptop = last.and_then(|found| self.known.get(&found.name)).and_then(|known| known.laptop.clone());
        let (last, chain) = last.map_or((0, Chain::START), |found| (found.name.last, found.chain));
        Head { stream, last, chain, laptop, seen: None }
    }

    /// The piece of a stream that has a line.
    fn piece_with(&self, stream: Stream, n: u64) -> Option<Found> {
        let way = self.ways.get(&stream)?;
        way.iter().find(|found| (found.name.first..=found.name.last).contains(&n)).cloned()
    }

    /// At most so many lines of a stream from a number on, all of one piece. A piece that went meanwhile may have been replaced by a
    /// longer one.
    fn lines_from(&mut self, stream: Stream, n: u64, most: usize) -> Result<Vec<Linked>, CarrierError> {
        for _ in 0..3 {
            let Some(found) = self.piece_with(stream, n) else { break };
            let skip = usize::try_from(n.saturating_sub(found.name.first)).unwrap_or(usize::MAX);
            if let Some(lines) = self.load(&found) {
                return Ok(lines.iter().skip(skip).take(most).cloned().collect());
            }
            let Some(season) = self.season else { break };
            self.look(season, Some(stream))?;
        }
        Ok(Vec::new())
    }

    /// Writes a piece that is not there yet and reads it back.
    fn write_piece(&mut self, name: &Name, about: &piece::Head, lines: &[Linked]) -> Result<bool, CarrierError> {
        let place = self.make_place(about.season)?;
        write_whole(&place, &name.to_string(), &name.part(), piece::write(about, lines).as_bytes())?;
        self.wrong.remove(name);
        self.known.remove(name);
        let Some(known) = self.look_at(name, about.season) else { return Ok(false) };
        self.loaded = None;
        Ok(self.load(&known.found).is_some())
    }

    /// Removes what this laptop wrote of a stream and a longer piece holds now, and what it left half written. What cannot be removed
    /// stays: it does no harm.
    fn remove_shorter(&mut self, season: Uuid, longer: &Name, lines: &[Linked]) {
        let Ok(listed) = self.list(season) else { return };
        for file in listed {
            let Some((name, part)) = Name::parse(&file) else { continue };
            let own = (name.stream, &name.writer) == (longer.stream, &self.writer);
            let within = name.first >= longer.first && name.last <= longer.last && (part || name != *longer);
            if !own || !within {
                continue;
            }
            let last = usize::try_from(name.last.saturating_sub(longer.first)).ok().and_then(|at| lines.get(at));
            // One that is whole and goes another way holds what this piece does not.
            let other = |known: Known| last.is_none_or(|line| line.chain != known.found.chain);
            if part || !self.look_at(&name, season).is_some_and(other) {
                fs::remove_file(self.place(season).join(&file)).ok();
                self.known.remove(&name);
                self.cut.remove(&file);
            }
        }
    }
}

impl Carrier for Folder {
    fn seasons(&mut self) -> Result<Vec<Offered>, CarrierError> {
        self.is_there()?;
        let found = fs::read_dir(&self.root).map_err(|error| cannot("read", &self.root, &error))?;
        let mut seasons: Vec<Offered> = names(found, &self.root)?
            .into_iter()
            .filter(|name| name.starts_with(SEASON))
            .filter_map(|name| offered(&self.root.join(name)))
            .collect();
        seasons.sort_by_key(|offered| offered.season);
        seasons.dedup_by_key(|offered| offered.season);
        Ok(seasons)
    }

    fn begin(&mut self, season: Uuid, name: &str) -> Result<(), CarrierError> {
        let place = self.make_place(season)?;
        if about(&place).is_some_and(|(there, _)| there == season) {
            return Ok(());
        }
        let text = format!("season {season}\nsite {}\nend\n", in_one_line(name));
        write_whole(&place, ABOUT, &format!("season.{}.part", self.writer.id()), text.as_bytes())
    }

    fn heads(&mut self, season: Uuid) -> Result<Vec<Head>, CarrierError> {
        self.wrong.clear();
        self.look(season, None)?;
        self.look_over(season)?;
        let streams: Vec<Stream> = self.ways.keys().copied().collect();
        Ok(streams.into_iter().map(|stream| self.head(stream)).filter(|head| head.last > 0).collect())
    }

    fn read(&mut self, stream: Stream, after: u64, most: usize) -> Result<Vec<Linked>, CarrierError> {
        self.lines_from(stream, after.saturating_add(1), most)
    }

    fn chain_at(&mut self, stream: Stream, n: u64) -> Result<Option<Chain>, CarrierError> {
        if n == 0 {
            return Ok(Some(Chain::START));
        }
        if let Some(found) = self.piece_with(stream, n).filter(|found| found.name.last == n) {
            return Ok(Some(found.chain));
        }
        Ok(self.lines_from(stream, n, 1)?.first().map(|line| line.chain))
    }

    fn give(&mut self, season: Uuid, new: &Piece<'_>) -> Result<Head, CarrierError> {
        self.look(season, Some(new.stream))?;
        let head = self.head(new.stream);
        if (head.last, head.chain) != (new.after, new.before) {
            return Ok(head);
        }
        if let Some(bad) = new.lines.iter().position(|line| !piece::fits(&line.text)) {
            let n = new.after.saturating_add(u64::try_from(bad).unwrap_or(0)).saturating_add(1);
            return Err(CarrierError::Odd(format!("line {n} of stream {} is no line of a journal", new.stream)));
        }
        // A piece that is not full yet goes on in a longer one from the same first line.
        let last = self.ways.get(&new.stream).and_then(|way| way.last()).cloned();
        let last = last.filter(|found| found.name.lines() < PIECE_LINES);
        let (mut first, mut before) = (new.after.saturating_add(1), new.before);
        let mut lines = Vec::new();
        if let Some(found) = last {
            let Some(there) = self.load(&found) else {
                self.look(season, Some(new.stream))?;
                return Ok(self.head(new.stream));
            };
            lines.extend_from_slice(there);
            (first, before) = (found.name.first, found.before);
        }
        lines.extend_from_slice(new.lines);
        for lines in lines.chunks(usize::try_from(PIECE_LINES).unwrap_or(usize::MAX)) {
            let last = first.saturating_add(u64::try_from(lines.len()).unwrap_or(0)).saturating_sub(1);
            let name = Name { stream: new.stream, first, last, writer: self.writer.clone() };
            let laptop = new.laptop.map(str::to_owned);
            let about = piece::Head { season, stream: new.stream, first, before, laptop };
            if !self.write_piece(&name, &about, lines)? {
                break;
            }
            self.remove_shorter(season, &name, lines);
            first = last.saturating_add(1);
            before = lines.last().map_or(before, |line| line.chain);
        }
        self.look(season, Some(new.stream))?;
        Ok(self.head(new.stream))
    }

    fn remarks(&mut self) -> Vec<Remark> {
        let heads: BTreeMap<Stream, Head> =
            self.cut.values().map(|cut| (cut.name.stream, self.head(cut.name.stream))).collect();
        let mut many: BTreeMap<Option<String>, usize> = BTreeMap::new();
        for cut in self.cut.values() {
            let head = heads.get(&cut.name.stream);
            // What another piece holds too is not missed.
            if head.is_none_or(|head| head.last < cut.name.last) {
                let laptop = cut.laptop.clone().or_else(|| head.and_then(|head| head.laptop.clone()));
                *many.entry(laptop).or_default() += 1;
            }
        }
        many.into_iter().map(|(laptop, pieces)| Remark::Cut { laptop, pieces }).collect()
    }
}

fn cannot(what: &'static str, place: &Path, error: &io::Error) -> CarrierError {
    CarrierError::Folder { what, place: files::shown(place), why: error.to_string() }
}

/// The names in a folder that are texts.
fn names(found: fs::ReadDir, place: &Path) -> Result<Vec<String>, CarrierError> {
    let mut names = Vec::new();
    for entry in found {
        let entry = entry.map_err(|error| cannot("read", place, &error))?;
        if names.len() >= NAMES_MOST {
            let why = format!("it holds more than {NAMES_MOST} files");
            return Err(CarrierError::Folder { what: "read", place: files::shown(place), why });
        }
        names.extend(entry.file_name().into_string());
    }
    Ok(names)
}

/// The first and the last bytes of a file.
fn both_ends(path: &Path, length: u64) -> io::Result<(Vec<u8>, Vec<u8>)> {
    let mut file = files::open(path, files::FILE)?;
    let mut start = Vec::new();
    Read::by_ref(&mut file).take(u64::try_from(HEAD_BYTES).unwrap_or(0)).read_to_end(&mut start)?;
    let ends = u64::try_from(END_BYTES).unwrap_or(0);
    file.seek(SeekFrom::Start(length.saturating_sub(ends)))?;
    let mut rest = Vec::new();
    file.take(ends).read_to_end(&mut rest)?;
    Ok((start, rest))
}

/// Writes a file whole: under another name, synced, renamed, and the folder synced.
fn write_whole(place: &Path, name: &str, part: &str, content: &[u8]) -> Result<(), CarrierError> {
    let (part, path) = (place.join(part), place.join(name));
    let written = write_new(&part, content).and_then(|()| fs::rename(&part, &path));
    if let Err(error) = written {
        fs::remove_file(&part).ok();
        return Err(cannot("written", &path, &error));
    }
    sync(place)
}

/// Writes a file of this laptop that is new, or that a killed run left.
fn write_new(part: &Path, content: &[u8]) -> io::Result<()> {
    match fs::remove_file(part) {
        Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    let mut file: File = OpenOptions::new().write(true).create_new(true).open(part)?;
    file.write_all(content)?;
    file.sync_all()
}

/// Syncs the names in a folder, where its file system can do that.
fn sync(place: &Path) -> Result<(), CarrierError> {
    match files::sync_folder(place) {
        Err(error) if !matches!(error.kind(), ErrorKind::InvalidInput | ErrorKind::Unsupported) => {
            Err(cannot("written", place, &error))
        }
        _ => Ok(()),
    }
}

/// The season that a folder says it holds, and the name of its site.
fn about(place: &Path) -> Option<(Uuid, String)> {
    let text = files::text(&place.join(ABOUT), ABOUT_MOST, files::FILE).ok()?;
    let mut lines = text.lines();
    let season = Uuid::try_parse(lines.next()?.strip_prefix("season ")?).ok()?;
    let site = lines.next()?.strip_prefix("site ")?;
    (lines.next()? == "end").then(|| (season, in_one_line(site)))
}

/// The season of a folder: as it says, else as one of its pieces says.
fn offered(place: &Path) -> Option<Offered> {
    if let Some((season, name)) = about(place) {
        return Some(Offered { season, name: Some(name), may_write: true });
    }
    let files = names(fs::read_dir(place).ok()?, place).ok()?;
    let of = |file: &String| {
        let (_, part) = Name::parse(file)?;
        let (start, _) = both_ends(&place.join(file), 0).ok().filter(|_| !part)?;
        Some(piece::head(&start)?.season)
    };
    let season = files.iter().find_map(of)?;
    Some(Offered { season, name: None, may_write: true })
}
