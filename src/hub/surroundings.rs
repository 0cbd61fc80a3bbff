//! What of the user's machine says how a hub is reached: variables and the folder of the user.

use std::collections::BTreeMap;
use std::ffi::OsString;
#[cfg(feature = "hub")]
use std::path::{Path, PathBuf};

/// The variables that are looked at, and nothing else of the process.
const VARIABLES: [&str; 18] = [
    "APPDATA",
    "HOME",
    "LOGNAME",
    "PGCHANNELBINDING",
    "PGCONNECT_TIMEOUT",
    "PGDATABASE",
    "PGHOST",
    "PGHOSTADDR",
    "PGPASSFILE",
    "PGPASSWORD",
    "PGPORT",
    "PGSERVICE",
    "PGSERVICEFILE",
    "PGSSLROOTCERT",
    "PGSYSCONFDIR",
    "PGUSER",
    "USER",
    "USERNAME",
];

/// Variables by name; an empty one is as good as none, as with every PostgreSQL client.
#[derive(Clone, Default)]
pub struct Surroundings(BTreeMap<String, OsString>);

impl Surroundings {
    /// Those of this process.
    pub fn of_process() -> Self {
        Self::of(VARIABLES.into_iter().filter_map(|name| Some((name, std::env::var_os(name)?))))
    }

    /// These alone.
    pub fn of<V: Into<OsString>>(variables: impl IntoIterator<Item = (&'static str, V)>) -> Self {
        let given = variables.into_iter().map(|(name, value)| (name.to_owned(), value.into()));
        Self(given.filter(|(_, value)| !value.is_empty()).collect())
    }
}

#[cfg(feature = "hub")]
impl Surroundings {
    pub(super) fn text(&self, name: &str) -> Option<String> {
        self.0.get(name).map(|value| value.to_string_lossy().into_owned())
    }

    pub(super) fn path(&self, name: &str) -> Option<PathBuf> {
        self.0.get(name).map(PathBuf::from)
    }

    /// The login of the user on this machine, which is the login at the server where nothing else is said.
    pub(super) fn user(&self) -> Option<String> {
        ["USER", "LOGNAME", "USERNAME"].into_iter().find_map(|name| self.text(name))
    }

    /// A file of PostgreSQL in the user's folder: `~/.pgpass`, or its name in the folder for settings on Windows.
    pub(super) fn own_file(&self, unix: &str, windows: &str) -> Option<PathBuf> {
        if cfg!(windows) {
            self.path("APPDATA").map(|folder| folder.join("postgresql").join(windows))
        } else {
            self.path("HOME").map(|home| home.join(unix))
        }
    }

    /// A path for a message, with `~` for the user's folder.
    pub(super) fn shown(&self, path: &Path) -> String {
        match self.path("HOME").and_then(|home| path.strip_prefix(home).ok().map(Path::to_path_buf)) {
            Some(inside) => crate::files::shown(&Path::new("~").join(inside)),
            None => crate::files::shown(path),
        }
    }
}

impl std::fmt::Debug for Surroundings {
    /// Names only: a password may be among the values.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_set().entries(self.0.keys()).finish()
    }
}
