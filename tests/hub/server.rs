//! A PostgreSQL server that nobody else uses, in a temporary folder; it ends with the process of the tests, however that ends.

use benchwalk::exchange::{Carrier, CarrierError};
use benchwalk::hub::{self, Surroundings};
use chrono::{DateTime, TimeDelta, Utc};
use std::io::Write;
use std::net::TcpListener;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, Command, Output, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::mpsc::channel;
use std::sync::{Mutex, OnceLock};
use std::time::Duration;

/// The user that the server runs as where the tests run as root, which it refuses.
const USER: &str = "postgres";

/// Logins of laptops, and what they are in.
const LOGINS: [(&str, &str); 4] = [("ann", "wrenby_hill"), ("bob", "wrenby_hill"), ("cyd", "bw_user"), ("dan", "")];

pub(crate) struct Server {
    bin: PathBuf,
    folder: PathBuf,
    pub(crate) port: u16,
    databases: AtomicU32,
    first: Mutex<Option<Child>>,
    /// Closed when the process of the tests ends: then the server ends, and its folder goes.
    _watch: ChildStdin,
}

/// The server that the tests share; `None`, which is said, where there is no PostgreSQL.
pub(crate) fn shared() -> Option<&'static Server> {
    static SHARED: OnceLock<Option<Server>> = OnceLock::new();
    SHARED.get_or_init(Server::new).as_ref()
}

fn is_root() -> bool {
    let id = Command::new("id").arg("-u").output().unwrap();
    id.stdout == b"0\n"
}

fn programs() -> Option<PathBuf> {
    let version =
        |path: &PathBuf| path.parent().and_then(Path::file_name).and_then(|n| n.to_str()?.parse::<f32>().ok());
    let folders = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten();
    let mut all: Vec<PathBuf> = folders.filter_map(|entry| Some(entry.ok()?.path().join("bin"))).collect();
    all.sort_by(|a, b| version(b).partial_cmp(&version(a)).unwrap());
    let on_path = std::env::var_os("PATH").map(|path| std::env::split_paths(&path).collect::<Vec<_>>());
    all.into_iter().chain(on_path.into_iter().flatten()).find(|folder| folder.join("initdb").exists())
}

impl Server {
    /// Makes and starts one, with the logins and a database `template` that is a hub.
    pub(crate) fn new() -> Option<Self> {
        let Some(bin) = programs() else {
            assert!(
                std::env::var("BENCHWALK_HUB").as_deref() != Ok("required"),
                "BENCHWALK_HUB=required, and there is no PostgreSQL"
            );
            println!("passed over: there is no PostgreSQL here");
            return None;
        };
        // Short: the path of a socket has at most 107 bytes.
        let folder = tempfile::Builder::new().prefix("bw").tempdir_in("/tmp").unwrap().keep();
        let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        std::fs::write(folder.join("password"), "pw-hub\n").unwrap();
        own(&folder, 0o700);
        own(&folder.join("password"), 0o600);
        let server = Self {
            _watch: watch(&bin, &folder),
            bin,
            folder,
            port,
            databases: AtomicU32::new(0),
            first: Mutex::default(),
        };
        let data = server.folder.join("data");
        let made = server
            .run("initdb")
            .args(["-U", "hub", "--auth=scram-sha-256", "-E", "UTF8", "--locale=C.UTF-8", "-N", "-D"])
            .arg(&data)
            .arg(format!("--pwfile={}", server.folder.join("password").display()))
            .output()
            .unwrap();
        assert!(made.status.success(), "{}", said(&made));
        assert!(server.start(), "the server does not start");
        server.fill();
        Some(server)
    }

    /// Logins, and the hub that others are copied from.
    fn fill(&self) {
        self.sql("postgres", "CREATE DATABASE template");
        let made = self.psql("template", "hub", hub::script());
        assert!(made.status.success(), "{}", said(&made));
        let mut logins = "CREATE ROLE wrenby_hill NOLOGIN; GRANT bw_user TO wrenby_hill;".to_owned();
        for (login, group) in LOGINS {
            logins += &format!("CREATE ROLE {login} LOGIN PASSWORD 'pw-{login}';");
            if !group.is_empty() {
                logins += &format!("GRANT {group} TO {login};");
            }
        }
        self.sql("postgres", &logins);
    }

    /// One of PostgreSQL's programs, as the server's user.
    fn run(&self, program: &str) -> Command {
        let mut command = if is_root() {
            let mut command = Command::new("setpriv");
            command.args([&format!("--reuid={USER}"), &format!("--regid={USER}"), "--init-groups"]);
            command.arg(self.bin.join(program));
            command
        } else {
            Command::new(self.bin.join(program))
        };
        command.current_dir("/").env("LC_ALL", "C.UTF-8");
        command
    }

    /// False where it does not start now, such as while processes of one that was killed are still there.
    fn start(&self) -> bool {
        let log = std::fs::OpenOptions::new().create(true).append(true).open(self.folder.join("log")).unwrap();
        let folder = self.folder.display();
        let mut start = self.run("postgres");
        start.arg("-D").arg(self.folder.join("data")).args([
            "-c",
            "listen_addresses=localhost",
            "-c",
            "max_connections=60",
        ]);
        start.args(["-c", &format!("port={}", self.port), "-c", &format!("unix_socket_directories={folder}")]);
        start.args(["-c", "shared_buffers=32MB"]).stdout(Stdio::null()).stderr(log);
        let mut first = start.spawn().unwrap();
        let ready = || {
            let mut ask = Command::new(self.bin.join("pg_isready"));
            ask.arg("-h").arg(&self.folder).args(["-p", &self.port.to_string()]).stdout(Stdio::null());
            ask.status().unwrap().success()
        };
        while first.try_wait().unwrap().is_none() {
            if ready() {
                *self.first.lock().unwrap() = Some(first);
                return true;
            }
            pause();
        }
        false
    }

    /// Starts it again after it was killed.
    pub(crate) fn start_again(&self) {
        // Its number stands in a file of the data, and is free once it was waited for.
        let killed = self.first.lock().unwrap().take().unwrap().wait().unwrap();
        assert!(!killed.success());
        for _ in 0..500 {
            if self.start() {
                return;
            }
            pause();
        }
        panic!("the server does not start again: {}", std::fs::read_to_string(self.folder.join("log")).unwrap());
    }

    /// The number of the server's first process.
    pub(crate) fn process(&self) -> String {
        self.first.lock().unwrap().as_ref().unwrap().id().to_string()
    }

    /// SQL by a login; what it printed, or said.
    pub(crate) fn psql(&self, database: &str, login: &str, sql: &str) -> Output {
        let mut command = Command::new(self.bin.join("psql"));
        command.args(["-X", "-q", "-A", "-t", "-h"]).arg(&self.folder).args(["-p", &self.port.to_string()]);
        command.args(["-U", login, "-d", database]).env("PGPASSWORD", format!("pw-{login}")).env("LC_ALL", "C.UTF-8");
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        child.stdin.take().unwrap().write_all(sql.as_bytes()).unwrap();
        child.wait_with_output().unwrap()
    }

    /// The same in one line, errors too.
    pub(crate) fn says(&self, database: &str, login: &str, sql: &str) -> String {
        said(&self.psql(database, login, sql))
    }

    /// SQL by the owner, which must go well.
    pub(crate) fn sql(&self, database: &str, sql: &str) -> String {
        let done = self.psql(database, "hub", &format!("\\set ON_ERROR_STOP on\n{sql}"));
        assert!(done.status.success(), "{sql}: {}", said(&done));
        said(&done)
    }

    /// A hub without seasons.
    pub(crate) fn hub(&self) -> String {
        let name = format!("hub{}", self.databases.fetch_add(1, Ordering::Relaxed));
        self.sql("postgres", &format!("CREATE DATABASE {name} TEMPLATE template"));
        name
    }

    /// A program of PostgreSQL that asks the server as its owner.
    pub(crate) fn tool(&self, program: &str, arguments: &[&str]) {
        let mut command = Command::new(self.bin.join(program));
        command.arg("-h").arg(&self.folder).args(["-p", &self.port.to_string(), "-U", "hub"]).args(arguments);
        let done = command.env("PGPASSWORD", "pw-hub").output().unwrap();
        assert!(done.status.success(), "{program}: {}", said(&done));
    }

    pub(crate) fn socket_folder(&self) -> &Path {
        &self.folder
    }

    /// A file in the server's folder that the server may read.
    pub(crate) fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        own(&path, 0o600);
        path
    }

    /// The key words of a database over the socket.
    pub(crate) fn words(&self, database: &str, login: &str) -> String {
        format!("host={} port={} dbname={database} user={login}", self.folder.display(), self.port)
    }
}

/// Between two looks at something that comes by itself.
pub(crate) fn pause() {
    let (_never, wait) = channel::<()>();
    assert!(wait.recv_timeout(Duration::from_millis(20)).is_err());
}

/// Gives a path to the server's user.
fn own(path: &Path, mode: u32) {
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    if is_root() {
        let done = Command::new("chown").arg(format!("{USER}:")).arg(path).status().unwrap();
        assert!(done.success());
    }
}

/// A shell that waits for its input to end, and then for the server.
fn watch(bin: &Path, folder: &Path) -> ChildStdin {
    let script = "trap '' INT HUP TERM; read -r never; \
                  if [ -e \"$2/data/postmaster.pid\" ]; then kill -QUIT \"$(head -n 1 \"$2/data/postmaster.pid\")\"; fi; \
                  while [ -e \"$2/data/postmaster.pid\" ] && kill -0 \"$(head -n 1 \"$2/data/postmaster.pid\")\" 2>/dev/null; do sleep 0.05; done; \
                  rm -rf \"$2\"";
    let mut shell = Command::new("sh");
    shell.args(["-c", script, "watch"]).arg(bin).arg(folder);
    shell.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null());
    shell.spawn().unwrap().stdin.take().unwrap()
}

/// What a program printed, in one line.
pub(crate) fn said(output: &Output) -> String {
    let text = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    text.trim().lines().collect::<Vec<_>>().join(" | ")
}

/// Surroundings that know the password of a login and nothing else.
pub(crate) fn knows(login: &str) -> Surroundings {
    Surroundings::of([("HOME", "/nonexistent".to_owned()), ("PGPASSWORD", format!("pw-{login}"))])
}

/// The present instant, so much later.
pub(crate) fn clock(later: TimeDelta) -> hub::Now {
    Box::new(move || DateTime::<Utc>::from(std::time::UNIX_EPOCH) + TimeDelta::from_std(since_1970()).unwrap() + later)
}

#[expect(clippy::disallowed_methods, reason = "the hub compares with the real time")]
fn since_1970() -> Duration {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap()
}

pub(crate) fn open(words: &str, login: &str) -> Box<dyn Carrier + Send> {
    hub::open(words, knows(login), clock(TimeDelta::zero())).unwrap()
}

/// What an answer that should be a failure says.
pub(crate) fn failure<T: std::fmt::Debug>(answer: Result<T, CarrierError>) -> String {
    answer.unwrap_err().to_string()
}
