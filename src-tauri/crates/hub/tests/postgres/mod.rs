//! A PostgreSQL server of a test's own: Debian's programs, on a free port of this machine, gone with the test.
// Each test file uses a part of it.
#![allow(dead_code)]

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use tempfile::TempDir;

/// A running server.
pub(crate) struct Postgres {
    server: Child,
    pub(crate) url: String,
    _data: TempDir,
}

impl Postgres {
    /// Makes an empty database and serves it.
    pub(crate) fn start() -> Self {
        Self::serving(None)
    }

    /// The same, reached by encrypted connections alone, with this certificate and key (PEM).
    pub(crate) fn encrypted(certificate: &str, key: &str) -> Self {
        Self::serving(Some([("server.crt", certificate), ("server.key", key)]))
    }

    fn serving(encrypted: Option<[(&str, &str); 2]>) -> Self {
        let data = TempDir::new().unwrap();
        let port = std::net::TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        if is_root() {
            // It refuses to run as root, and has a user of its own for that.
            done(Command::new("chown").arg("postgres").arg(data.path()));
        }
        let folder = data.path().join("data");
        done(
            as_its_user("initdb")
                .args(["--auth=trust", "--username=office", "--encoding=UTF8", "--no-locale", "--no-sync", "-D"])
                .arg(&folder)
                .stdout(Stdio::null()),
        );
        for (name, text) in encrypted.into_iter().flatten() {
            let file = folder.join(name);
            std::fs::write(&file, text).unwrap();
            done(Command::new("chmod").arg("600").arg(&file));
            if is_root() {
                done(Command::new("chown").arg("postgres").arg(&file));
            }
        }
        let asked: &[&str] = if encrypted.is_some() {
            let who = folder.join("pg_hba.conf");
            let only = std::fs::read_to_string(&who).unwrap().replace("host  ", "hostssl");
            std::fs::write(&who, only).unwrap();
            &["-c", "ssl=on"]
        } else {
            &[]
        };
        let server = as_its_user("postgres")
            .args(asked)
            .args(["-h", "127.0.0.1", "-p", &port.to_string(), "-k"])
            .arg(data.path())
            .arg("-D")
            .arg(&folder)
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let url = format!("postgres://office@127.0.0.1:{port}/postgres");
        let running = Self { server, url, _data: data };
        for _ in 0..200 {
            if ready(port) {
                return running;
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        panic!("PostgreSQL does not answer");
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        drop(self.server.kill());
        drop(self.server.wait());
    }
}

fn ready(port: u16) -> bool {
    let asked = Command::new(program("pg_isready")).args(["-q", "-h", "127.0.0.1", "-p", &port.to_string()]).status();
    asked.is_ok_and(|status| status.success())
}

fn is_root() -> bool {
    std::fs::metadata("/proc/self").is_ok_and(|own| std::os::unix::fs::MetadataExt::uid(&own) == 0)
}

fn as_its_user(name: &str) -> Command {
    if !is_root() {
        return Command::new(program(name));
    }
    let mut command = Command::new("setpriv");
    command.args(["--reuid=postgres", "--regid=postgres", "--clear-groups", "--pdeathsig=KILL"]).arg(program(name));
    command
}

/// Debian keeps the server's programs in a folder of its version.
fn program(name: &str) -> PathBuf {
    let versions = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten().flatten();
    let found = versions.map(|version| version.path().join("bin").join(name)).find(|path| path.is_file());
    found.unwrap_or_else(|| Path::new(name).to_owned())
}

fn done(command: &mut Command) {
    let status = command.status().unwrap();
    assert!(status.success(), "{command:?}: {status}");
}
