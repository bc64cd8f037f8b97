//! A folder of one's own to run the program in.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};

/// A job of measuring alone; the example that comes with the program grows with it.
pub(crate) const EXAMPLE: &str = include_str!("measured.toml");

pub(crate) struct Bench {
    folder: tempfile::TempDir,
}

/// How a run ended and what it printed.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Ended {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Bench {
    pub(crate) fn new() -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    /// A bench with the example as `job.toml`.
    pub(crate) fn with_example() -> Self {
        let bench = Self::new();
        bench.write("job.toml", EXAMPLE);
        bench
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn write(&self, name: &str, text: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path().join(name);
        std::fs::write(&path, text).unwrap();
        path
    }

    /// The program with a data folder here and nobody's settings.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_pumpwright"));
        command
            .args(arguments)
            .current_dir(self.path())
            .env("HOME", self.path())
            .env("XDG_DATA_HOME", self.path().join("data"))
            .stdin(Stdio::null());
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Ended {
        let Output {
            status,
            stdout,
            stderr,
        } = self.command(arguments).output().unwrap();
        Ended {
            code: status.code(),
            out: String::from_utf8(stdout).unwrap(),
            err: String::from_utf8(stderr).unwrap(),
        }
    }

    /// Runs what must be answered, and gives the answer.
    pub(crate) fn answer(&self, arguments: &[&str]) -> String {
        let ended = self.run(arguments);
        assert_eq!(
            (ended.code, ended.err.as_str()),
            (Some(0), ""),
            "{arguments:?}"
        );
        ended.out
    }

    /// Runs what must be refused, and gives the reason.
    pub(crate) fn refusal(&self, arguments: &[&str]) -> String {
        let ended = self.run(arguments);
        assert_eq!(
            (ended.code, ended.out.as_str()),
            (Some(1), ""),
            "{arguments:?}"
        );
        ended.err
    }
}

/// The bench open, ended with its test.
pub(crate) struct Open {
    pub(crate) child: Child,
    pub(crate) lines: Vec<String>,
}

impl Open {
    pub(crate) fn new(bench: &Bench, arguments: &[&str]) -> Self {
        let arguments = [&["serve", "--no-open", "--port", "0"], arguments].concat();
        let mut child = bench
            .command(&arguments)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let lines = out.lines().take(3).map(Result::unwrap).collect();
        Self { child, lines }
    }

    /// The host and the path of the printed link.
    pub(crate) fn link(&self) -> (&str, &str) {
        let link = self.lines[0].strip_prefix("Bench open at http://").unwrap();
        link.split_once('/').unwrap()
    }

    /// Where it listens.
    pub(crate) fn host(&self) -> &str {
        self.link().0
    }

    /// Asks for the page of the printed link; status line and body.
    pub(crate) fn page(&self) -> String {
        self.get(self.link().1)
    }

    /// Asks for a page; status line and body.
    pub(crate) fn get(&self, path: &str) -> String {
        let (host, _) = self.link();
        let mut stream = TcpStream::connect(host).unwrap();
        write!(
            stream,
            "GET /{path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        )
        .unwrap();
        let mut page = String::new();
        stream.read_to_string(&mut page).unwrap();
        page
    }
}

impl Drop for Open {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
