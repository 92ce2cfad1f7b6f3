//! A real hub process on a record, as an office starts it.
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, ExitStatus, Stdio};

use crate::{Trouble, display::stop, program};

/// A running hub; dropping it ends it the hard way.
#[derive(Debug)]
pub struct Hub {
    program: Child,
    told: BufReader<ChildStdout>,
    /// Where it answers.
    pub address: String,
}

impl Hub {
    /// Starts `provenohm-office serve` on a record and a free port, and waits until it says where it answers.
    ///
    /// # Errors
    /// [`Trouble`] if it is not built or says something else.
    pub fn serve(record: &Path) -> Result<Self, Trouble> {
        Self::serve_over(record, "127.0.0.1:0", None)
    }

    /// The same at an address and port, over a database if one is named, `postgres://…`.
    ///
    /// # Errors
    /// [`Trouble`] if it is not built or says something else.
    pub fn serve_over(record: &Path, listen: &str, store: Option<&str>) -> Result<Self, Trouble> {
        let mut program = Command::new(program("provenohm-office")?)
            .args(["serve", "--listen", listen, "--record"])
            .arg(record)
            .args(store.iter().flat_map(|url| ["--store", url]))
            .stdout(Stdio::piped())
            // What it tells its log is for whoever runs it.
            .stderr(Stdio::null())
            .spawn()
            .map_err(Trouble::system("provenohm-office"))?;
        let told = program.stdout.take().ok_or_else(|| Trouble::NotShown("a hub without output".to_owned()))?;
        let mut hub = Self { program, told: BufReader::new(told), address: String::new() };
        hub.address = hub.line_after("Provenohm answers at ")?;
        Ok(hub)
    }

    /// The link for the first password, which a hub that has none prints next.
    ///
    /// # Errors
    /// [`Trouble`] if it printed something else.
    pub fn first_link(&mut self) -> Result<String, Trouble> {
        self.line_after("Set the first password here, once: ")
    }

    /// Asks it to end, as the system does; what it said last and how it ended.
    ///
    /// # Errors
    /// [`Trouble`] if it cannot be asked.
    pub fn end(mut self) -> Result<(String, ExitStatus), Trouble> {
        let id = self.program.id().to_string();
        Command::new("kill").args(["-TERM", &id]).status().map_err(Trouble::system("kill"))?;
        let last = self.line_after("")?;
        let ended = self.program.wait().map_err(Trouble::system("provenohm-office"))?;
        Ok((last, ended))
    }

    fn line_after(&mut self, beginning: &str) -> Result<String, Trouble> {
        let mut line = String::new();
        self.told.read_line(&mut line).map_err(Trouble::system("provenohm-office"))?;
        let rest = line.trim_end().strip_prefix(beginning);
        rest.map(str::to_owned).ok_or_else(|| Trouble::NotShown(format!("the hub says: {line}")))
    }
}

impl Drop for Hub {
    fn drop(&mut self) {
        stop(&mut self.program);
    }
}
