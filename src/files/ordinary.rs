//! Ordinary files only: a pipe, a device or a socket may never end, or never begin, so it is refused before it is opened.

use super::names;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Read};
use std::path::Path;

/// A million bytes.
const MB: u64 = 1_000_000;

/// The largest journal or list read, in bytes. An entry takes about 160 bytes in a journal, so this is 200 benches walked daily
/// for twenty years.
pub const RECORDS_MOST: u64 = 256 * MB;

/// The largest limits file or settings file read, in bytes. The commented limits file has about 20,000.
pub const SETTINGS_MOST: u64 = MB;

/// What to do where only a file will do.
pub const FILE: &str = "give an ordinary file";

/// What to do where standard input will do as well.
pub const FILE_OR_STDIN: &str = "give an ordinary file, or - to read standard input";

/// What to do where standard output will do as well.
pub const FILE_OR_STDOUT: &str = "give an ordinary file, or no file to write to standard output";

/// Looks at a path without opening it; a link is followed.
///
/// # Errors
/// What the system says; for anything but an ordinary file [`ErrorKind::InvalidInput`] with what it is and the advice.
pub fn look(path: &Path, advice: &str) -> io::Result<Metadata> {
    if let Some(what) = by_name(path) {
        return Err(refused(what, advice));
    }
    let about = fs::metadata(path)?;
    must_be_ordinary(&about, advice)?;
    Ok(about)
}

/// What stands at a path where it is no ordinary file, in words (`a pipe`); `None` for an ordinary file, a link to one, or nothing.
/// Nothing is opened.
pub fn other_kind(path: &Path) -> Option<&'static str> {
    by_name(path).or_else(|| fs::metadata(path).ok().filter(|about| !about.is_file()).map(|about| kind(&about)))
}

/// Opens an ordinary file for reading, without waiting for anybody.
///
/// # Errors
/// As [`look`].
pub fn open(path: &Path, advice: &str) -> io::Result<File> {
    look(path, advice)?;
    let mut how = OpenOptions::new();
    how.read(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        // A pipe may take the path's place in between; opening one would wait for its writer.
        how.custom_flags(rustix::fs::OFlags::NONBLOCK.bits().cast_signed());
    }
    let file = how.open(path)?;
    must_be_ordinary(&file.metadata()?, advice)?;
    Ok(file)
}

/// Reads an ordinary file of at most so many bytes.
///
/// # Errors
/// As [`look`]; [`ErrorKind::FileTooLarge`] where it is larger, then nothing of it is kept.
pub fn read(path: &Path, most: u64, advice: &str) -> io::Result<Vec<u8>> {
    let mut file = open(path, advice)?;
    let length = file.metadata()?.len();
    if length > most {
        return Err(too_large(most));
    }
    read_stream(&mut file, most)
}

/// Makes sure that an ordinary file is there to be read, of at most so many bytes.
///
/// # Errors
/// As [`read`].
pub fn must_fit(path: &Path, most: u64, advice: &str) -> io::Result<()> {
    if open(path, advice)?.metadata()?.len() > most { Err(too_large(most)) } else { Ok(()) }
}

/// Reads a stream to its end, at most so many bytes.
///
/// # Errors
/// What the system says; [`ErrorKind::FileTooLarge`] where more comes.
pub fn read_stream(input: &mut dyn Read, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > most { Err(too_large(most)) } else { Ok(bytes) }
}

/// Reads an ordinary text file of at most so many bytes.
///
/// # Errors
/// As [`read`]; [`ErrorKind::InvalidData`] where it is not UTF-8.
pub fn text(path: &Path, most: u64, advice: &str) -> io::Result<String> {
    String::from_utf8(read(path, most, advice)?).map_err(|error| {
        let good = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or_default();
        let line = good.split(|byte| *byte == b'\n').count();
        io::Error::new(ErrorKind::InvalidData, format!("line {line} is not UTF-8 text; save the file as UTF-8"))
    })
}

fn too_large(most: u64) -> io::Error {
    io::Error::new(ErrorKind::FileTooLarge, format!("it is larger than {} MB, the most that is read", most / MB))
}

fn must_be_ordinary(about: &Metadata, advice: &str) -> io::Result<()> {
    if about.is_file() { Ok(()) } else { Err(refused(kind(about), advice)) }
}

fn refused(what: &str, advice: &str) -> io::Error {
    io::Error::new(ErrorKind::InvalidInput, format!("it is {what}, not an ordinary file; {advice}"))
}

fn kind(about: &Metadata) -> &'static str {
    if about.is_dir() {
        return "a folder";
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        let kind = about.file_type();
        if kind.is_fifo() {
            return "a pipe";
        } else if kind.is_socket() {
            return "a socket";
        } else if kind.is_char_device() || kind.is_block_device() {
            return "a device";
        }
    }
    "something else"
}

/// What a path stands for by its name alone, where that is no ordinary file.
fn by_name(path: &Path) -> Option<&'static str> {
    if names_a_stream(path) { Some("a stream") } else { names::unfit(path) }
}

/// A name for a stream of the program itself, whatever stands behind it now: `/dev/stdin`, `/dev/fd/63`, `/proc/self/fd/0`.
fn names_a_stream(path: &Path) -> bool {
    let Some(path) = path.to_str().filter(|_| cfg!(unix)) else { return false };
    let number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let parts: Vec<&str> = path.split('/').filter(|part| !part.is_empty() && *part != ".").collect();
    path.starts_with('/')
        && match parts.as_slice() {
            ["dev", "stdin" | "stdout" | "stderr"] => true,
            ["dev", "fd", of] => number(of),
            ["proc", process, "fd", of] => number(of) && (number(process) || ["self", "thread-self"].contains(process)),
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ordinary_files_are_read_up_to_the_cap() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.jsonl");
        fs::write(&path, "abc").unwrap();
        assert_eq!(read(&path, 3, FILE).unwrap(), b"abc");
        let error = read(&path, 2, FILE).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::FileTooLarge);
        let error = read_stream(&mut io::repeat(b'x'), SETTINGS_MOST).unwrap_err();
        assert_eq!(error.to_string(), "it is larger than 1 MB, the most that is read");
        assert_eq!(
            read(folder.path(), 9, FILE).unwrap_err().to_string(),
            "it is a folder, not an ordinary file; give an ordinary file"
        );
        assert_eq!(look(&folder.path().join("none"), FILE).unwrap_err().kind(), ErrorKind::NotFound);
        fs::write(&path, b"a\nb\xff").unwrap();
        assert!(text(&path, 9, FILE).unwrap_err().to_string().starts_with("line 2 is not UTF-8"));
    }

    #[cfg(unix)]
    #[test]
    fn links_to_ordinary_files_are_fine_and_other_things_are_named() {
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("a"), folder.path().join("link"));
        fs::write(&path, "abc").unwrap();
        std::os::unix::fs::symlink(&path, &link).unwrap();
        assert_eq!(read(&link, 9, FILE).unwrap(), b"abc");
        let socket = folder.path().join("socket");
        let _listener = std::os::unix::net::UnixListener::bind(&socket).unwrap();
        let said = |path: &Path| look(path, FILE_OR_STDIN).unwrap_err().to_string();
        assert_eq!(
            said(&socket),
            "it is a socket, not an ordinary file; give an ordinary file, or - to read standard input"
        );
        assert!(said(Path::new("/dev/null")).starts_with("it is a device"));
        for stream in ["/dev/stdin", "/dev/stdout", "/dev/fd/0", "/proc/self/fd/1", "//proc/12/fd/./7"] {
            assert!(said(Path::new(stream)).starts_with("it is a stream"), "{stream}");
        }
        for other in ["/dev/stdinx", "dev/stdin", "/proc/self/fdinfo/1", "/dev/fd"] {
            assert!(!names_a_stream(Path::new(other)), "{other}");
        }
    }
}
