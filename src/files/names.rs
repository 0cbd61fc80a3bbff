//! Names that Windows takes for something else than a file, or keeps otherwise than they were given. A file made under one would be
//! found by nobody, or a write to it would go to a device.

use std::io::{self, ErrorKind};
use std::path::Path;

/// A name of a device, with or without something after a dot.
const DEVICE: &str = "a device of Windows (CON, NUL, COM1 and the like)";
/// Windows leaves these off, so that two names would be one file.
const ENDING: &str = "a name that Windows does not keep (with a dot or a space at its end)";
/// `:` would write into a stream hidden behind another file.
const SIGN: &str = "a name that Windows does not take (with one of < > : \" | ? *)";

/// Makes sure that a file could have this path, before the system is asked about it: of a device Windows says only that a parameter
/// is wrong.
///
/// # Errors
/// [`ErrorKind::InvalidFilename`] with what it is.
pub fn must_be_fit(path: &Path) -> io::Result<()> {
    match unfit(path) {
        Some(what) => Err(io::Error::new(ErrorKind::InvalidFilename, format!("it is {what}; give another name"))),
        None => Ok(()),
    }
}

/// Why no file can have this path, as a noun; `None` where one can. Elsewhere than on Windows every name is as good as another.
pub(super) fn unfit(path: &Path) -> Option<&'static str> {
    use std::path::{Component, Prefix};
    if !cfg!(windows) {
        return None;
    }
    path.components().find_map(|part| match part {
        Component::Prefix(prefix) => matches!(prefix.kind(), Prefix::DeviceNS(_)).then_some(DEVICE),
        Component::Normal(name) => unfit_name(&name.to_string_lossy()),
        _ => None,
    })
}

/// The same of one name in a path.
fn unfit_name(name: &str) -> Option<&'static str> {
    // Of `NUL.txt` and `NUL .db` Windows looks at what stands before the dot.
    let device = name.split('.').next().unwrap_or_default().trim_end_matches(' ');
    if names_a_device(device) {
        Some(DEVICE)
    } else if name.ends_with(['.', ' ']) {
        Some(ENDING)
    } else if name.contains(|c: char| c.is_control() || "<>:\"|?*".contains(c)) {
        Some(SIGN)
    } else {
        None
    }
}

fn names_a_device(name: &str) -> bool {
    let name = name.to_ascii_uppercase();
    if ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"].contains(&name.as_str()) {
        return true;
    }
    let port = name.strip_prefix("COM").or_else(|| name.strip_prefix("LPT"));
    let mut number = port.unwrap_or_default().chars();
    // The raised digits count as digits there.
    matches!((number.next(), number.next()), (Some('0'..='9' | '¹' | '²' | '³'), None))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn devices_are_known_in_every_spelling() {
        for name in ["CON", "nul", "Nul.txt", "aux .db", "COM1", "com9.jsonl", "LPT³", "conin$", "prn.a.b", "NUL."] {
            assert_eq!(unfit_name(name), Some(DEVICE), "{name}");
        }
        for name in ["CONE", "null", "season.nul", "COM", "COM10", "LPTX", "a NUL", "console.db"] {
            assert_eq!(unfit_name(name), None, "{name}");
        }
    }

    #[test]
    fn names_that_would_be_kept_as_others_are_refused() {
        for name in ["season.", "season.db ", "a. ", ".. ."] {
            assert_eq!(unfit_name(name), Some(ENDING), "{name:?}");
        }
        for name in ["season.db:hidden", "a?b", "a*", "a|b", "<a>", "say \"a\"", "a\tb"] {
            assert_eq!(unfit_name(name), Some(SIGN), "{name:?}");
        }
        for name in ["season.db", ".hidden", "a b.c", "café", "season (2).db"] {
            assert_eq!(unfit_name(name), None, "{name:?}");
        }
    }

    #[test]
    fn only_windows_refuses_them() {
        let refused = |path: &str| unfit(Path::new(path)).is_some();
        for path in ["NUL", "folder/CON/season.db", "season.db."] {
            assert_eq!(refused(path), cfg!(windows), "{path}");
        }
        assert!(!refused("./../season.db"));
        #[cfg(windows)]
        {
            for path in [r"C:\seasons\season.db", r"\\server\share\season.db", r"\\?\C:\season.db", "season.db"] {
                assert!(!refused(path), "{path}");
            }
            for path in [r"\\.\COM1", r"\\.\pipe\season", r"C:\a.\season.db", r"C:\season.db:two"] {
                assert!(refused(path), "{path}");
            }
        }
    }
}
