//! Over a network: the connection is protected and the certificate checked, or it is said why not.

use crate::laptop::SEASON;
use crate::server::{Server, clock, failure, knows, pause, shared};
use benchwalk::exchange::Remark;
use benchwalk::hub;
use chrono::TimeDelta;
use std::path::Path;
use std::process::Command;

const NO_TLS: &str =
    "the server does not offer TLS; ask for it to be switched on, or write sslmode=disable if the line is private";

fn openssl(folder: &Path, arguments: &str) {
    let done = Command::new("openssl").args(arguments.split(' ')).current_dir(folder).output();
    let done = done.expect("openssl makes the certificates of this test");
    assert!(done.status.success(), "openssl {arguments}: {}", String::from_utf8_lossy(&done.stderr));
}

/// Two authorities, and certificates of the server signed by the first: for localhost, and for no host.
fn make(folder: &Path) {
    for authority in ["ca", "other"] {
        openssl(
            folder,
            &format!(
                "req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 2 -subj /CN={authority} -keyout {authority}.key -out {authority}.crt"
            ),
        );
    }
    std::fs::write(folder.join("named.ext"), "subjectAltName=DNS:localhost\n").unwrap();
    std::fs::write(folder.join("bare.ext"), "keyUsage=digitalSignature\n").unwrap();
    for name in ["named", "bare"] {
        openssl(
            folder,
            &format!(
                "req -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -subj /CN=localhost -keyout {name}.key -out {name}.csr"
            ),
        );
        openssl(
            folder,
            &format!(
                "x509 -req -in {name}.csr -CA ca.crt -CAkey ca.key -CAcreateserial -days 2 -extfile {name}.ext -out {name}.crt"
            ),
        );
    }
}

/// The server offers TLS with a certificate from now on.
fn offer(server: &Server, folder: &Path, name: &str) {
    let [certificate, key] = ["crt", "key"].map(|kind| {
        let bytes = std::fs::read(folder.join(format!("{name}.{kind}"))).unwrap();
        server.file(&format!("{name}.{kind}"), &bytes).display().to_string()
    });
    for (setting, value) in [("ssl_cert_file", certificate.as_str()), ("ssl_key_file", &key), ("ssl", "on")] {
        server.sql("postgres", &format!("ALTER SYSTEM SET {setting} = '{value}'"));
    }
    server.sql("postgres", "SELECT pg_reload_conf()");
    for _ in 0..200 {
        if server.sql("postgres", "SELECT current_setting('ssl_cert_file')") == certificate {
            return;
        }
        pause();
    }
    panic!("the server does not take {name}");
}

#[test]
fn over_a_network_the_certificate_and_its_name_are_checked() {
    let Some(server) = shared() else { return };
    let folder = tempfile::tempdir().unwrap();
    make(folder.path());
    let database = server.hub();
    let words = |host: &str, more: &str| format!("host={host} port={} dbname={database} user=ann {more}", server.port);
    let ca = format!("sslrootcert={}", folder.path().join("ca.crt").display());
    let other = format!("sslrootcert={}", folder.path().join("other.crt").display());
    let said = |words: &str| {
        failure(hub::open(words, knows("ann"), clock(TimeDelta::zero())).and_then(|mut hub| hub.seasons()))
    };
    let remarks = |words: &str| {
        let mut hub = hub::open(words, knows("ann"), clock(TimeDelta::zero())).unwrap();
        hub.begin(SEASON, "Wrenby Hill").unwrap();
        hub.heads(SEASON).unwrap();
        hub.remarks()
    };
    assert_eq!(said(&words("localhost", &ca)), NO_TLS);
    assert_eq!(remarks(&words("localhost", "sslmode=disable")), [Remark::InClear]);
    // Over a socket nothing is said: nobody is between.
    assert_eq!(remarks(&server.words(&database, "ann")), []);

    offer(server, folder.path(), "named");
    assert_eq!(remarks(&words("localhost", &ca)), []);
    assert_eq!(remarks(&words("localhost", &format!("{ca} sslmode=require channel_binding=require"))), []);
    let mut open = hub::open(&words("localhost", &ca), knows("ann"), clock(TimeDelta::zero())).unwrap();
    open.heads(SEASON).unwrap();
    let protected =
        "SELECT bool_and(ssl) FROM pg_stat_ssl JOIN pg_stat_activity USING (pid) WHERE client_addr IS NOT NULL";
    assert_eq!(server.sql(&database, protected), "t");
    drop(open);
    assert_eq!(
        said(&words("127.0.0.1", &ca)),
        "its certificate is for 'localhost', not '127.0.0.1'; use that name as host"
    );
    let unknown = "its certificate is not signed by a known authority; name its file as sslrootcert in the line 'hub' of config.toml";
    assert_eq!(said(&words("localhost", &other)), unknown);
    assert_eq!(said(&words("localhost", "")), unknown);
    let (missing, junk) = (folder.path().join("missing.crt"), folder.path().join("named.ext"));
    assert_eq!(
        said(&words("localhost", &format!("sslrootcert={}", missing.display()))),
        format!(
            "{}, sslrootcert in the line 'hub' of config.toml, cannot be read: No such file or directory",
            missing.display()
        )
    );
    assert_eq!(
        said(&words("localhost", &format!("sslrootcert={}", junk.display()))),
        format!(
            "{}, sslrootcert in the line 'hub' of config.toml, is not a certificate; give the authority's as PEM",
            junk.display()
        )
    );

    offer(server, folder.path(), "bare");
    assert_eq!(
        said(&words("localhost", &ca)),
        "its certificate was not taken: it names no host; it needs one as subjectAltName"
    );
    offer(server, folder.path(), "ca");
    assert_eq!(
        said(&words("localhost", &ca)),
        "its certificate was not taken: it is an authority's own; the server needs one of its own, signed by that authority"
    );
}
