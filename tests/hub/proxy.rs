//! A line between two sockets that is cut after so many bytes, and that may kill the server at that moment.

use std::io::{ErrorKind, Read, Write};
use std::net::Shutdown;
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Arc, Mutex};
use tempfile::TempDir;

/// What happens on the line.
#[derive(Clone, Default)]
pub(crate) struct Trouble {
    /// After so many bytes, in whichever direction they go; `None` for never.
    pub(crate) after: Option<usize>,
    /// The process that is killed then, instead of cutting the line.
    pub(crate) kill: Option<String>,
}

pub(crate) struct Proxy {
    folder: TempDir,
    trouble: Arc<Mutex<Trouble>>,
}

impl Proxy {
    pub(crate) fn new(server: &Path, port: u16) -> Self {
        let folder = tempfile::Builder::new().prefix("bw").tempdir_in("/tmp").unwrap();
        let name = format!(".s.PGSQL.{port}");
        let listener = UnixListener::bind(folder.path().join(&name)).unwrap();
        let trouble = Arc::new(Mutex::new(Trouble::default()));
        let (shared, server) = (Arc::clone(&trouble), server.join(name));
        std::thread::spawn(move || accept(&listener, &server, &shared));
        Self { folder, trouble }
    }

    pub(crate) fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// From now on this; gives what there was, and has not happened.
    pub(crate) fn set(&self, trouble: Trouble) -> Trouble {
        std::mem::replace(&mut *self.trouble.lock().unwrap(), trouble)
    }
}

fn accept(listener: &UnixListener, server: &PathBuf, trouble: &Arc<Mutex<Trouble>>) {
    for client in listener.incoming() {
        let Ok(client) = client else { return };
        let Ok(server) = UnixStream::connect(server) else { continue };
        for (from, to) in [(&client, &server), (&server, &client)] {
            let (from, to, trouble) = (from.try_clone().unwrap(), to.try_clone().unwrap(), Arc::clone(trouble));
            std::thread::spawn(move || {
                pump(&from, &to, &trouble);
                for end in [from, to] {
                    end.shutdown(Shutdown::Both).unwrap_or_default();
                }
            });
        }
    }
}

/// Carries bytes until an end is reached, or the line is cut.
fn pump(mut from: &UnixStream, mut to: &UnixStream, trouble: &Mutex<Trouble>) {
    let mut bytes = vec![0; 65_536];
    loop {
        let many = match from.read(&mut bytes) {
            Ok(0) => return,
            Ok(many) => many,
            Err(error) if error.kind() == ErrorKind::Interrupted => continue,
            Err(_) => return,
        };
        let (goes, cut) = look(many, &mut trouble.lock().unwrap());
        if to.write_all(&bytes[..goes]).is_err() || cut {
            return;
        }
    }
}

/// How many of these bytes go through, and whether the line is cut after them.
fn look(many: usize, trouble: &mut Trouble) -> (usize, bool) {
    let Some(after) = &mut trouble.after else { return (many, false) };
    if many < *after {
        *after -= many;
        return (many, false);
    }
    let goes = *after;
    *after = 0;
    match trouble.kill.take() {
        Some(process) => {
            Command::new("kill").args(["-9", &process]).status().unwrap();
            trouble.after = None;
            (many, false)
        }
        None => (goes, true),
    }
}
