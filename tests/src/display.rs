//! A display of one's own for each window, so that no desktop changes its size and no test sees another's.
use std::collections::HashSet;
use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Stdio};

use tempfile::TempDir;

use crate::Trouble;

/// Large enough for the widest screen that is checked.
const WIDTH: usize = 1600;
const HEIGHT: usize = 1200;

/// A virtual display; it ends when this is dropped.
pub(crate) struct Display {
    server: Child,
    name: String,
    screen: TempDir,
}

impl Display {
    /// Starts one on the first free number.
    pub(crate) fn start() -> Result<Self, Trouble> {
        let screen = tempfile::tempdir().map_err(Trouble::system("a folder for the screen"))?;
        let mut server = Command::new("Xvfb")
            .arg("-fbdir")
            .arg(screen.path())
            .args(["-displayfd", "1", "-screen", "0", &format!("{WIDTH}x{HEIGHT}x24"), "-nolisten", "tcp"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Trouble::system("Xvfb"))?;
        let mut number = String::new();
        if let Some(told) = server.stdout.take() {
            BufReader::new(told).read_line(&mut number).map_err(Trouble::system("Xvfb"))?;
        }
        let name = format!(":{}", number.trim());
        Ok(Self { server, name, screen })
    }

    /// As `DISPLAY` wants it.
    pub(crate) fn name(&self) -> &str {
        &self.name
    }

    /// Whether something is painted: the smoothed edges of letters alone have more shades than an empty window.
    pub(crate) fn is_painted(&self) -> Result<bool, Trouble> {
        let file = self.screen.path().join("Xvfb_screen0");
        let bytes = std::fs::read(&file).map_err(Trouble::system("the screen"))?;
        // The picture ends the file; before it stands a table of colours.
        let picture = bytes.get(bytes.len().saturating_sub(WIDTH * HEIGHT * 4)..).unwrap_or_default();
        let mut shades: HashSet<&[u8]> = HashSet::new();
        let mut last: &[u8] = &[];
        for shade in picture.chunks_exact(4) {
            // Most of a screen is one colour beside the same: looking must not take the time that is measured.
            if shade != last && shades.insert(shade) && shades.len() > 64 {
                return Ok(true);
            }
            last = shade;
        }
        Ok(false)
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        stop(&mut self.server);
    }
}

/// Ends a program of ours that is no longer needed; that it has ended already is no trouble.
pub(crate) fn stop(program: &mut Child) {
    if program.kill().is_ok() {
        let _already_gone = program.wait();
    }
}
