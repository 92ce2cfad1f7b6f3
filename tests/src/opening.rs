//! How the app is started for a check.
use std::path::{Path, PathBuf};

use crate::{Trouble, display::Display};

/// How a window is opened.
#[derive(Debug, Clone)]
pub struct Opening {
    /// Where its record lies.
    pub record: PathBuf,
    /// Width and height of the page in CSS pixels.
    pub size: (u32, u32),
    /// Whether an empty record starts with the invented demo job.
    pub demo: bool,
    /// Whether the window stays empty: what a cold start is measured beside.
    pub blank: bool,
}

impl Opening {
    /// A phone held upright, on this record.
    pub fn phone(record: &Path) -> Self {
        Self { record: record.to_owned(), size: (390, 844), demo: false, blank: false }
    }

    /// What tells the app so.
    pub(crate) fn environment(&self, display: &Display) -> Vec<(&'static str, String)> {
        let (width, height) = self.size;
        let mut environment = vec![
            ("DISPLAY", display.name().to_owned()),
            ("GDK_BACKEND", "x11".to_owned()),
            ("PROVENOHM_DATA", self.record.display().to_string()),
            ("PROVENOHM_WINDOW", format!("{width}x{height}")),
        ];
        if self.demo {
            environment.push(("PROVENOHM_DEMO", "1".to_owned()));
        }
        if self.blank {
            environment.push(("PROVENOHM_BLANK", "1".to_owned()));
        }
        environment
    }
}

/// A program of the workspace, beside the check that runs.
///
/// # Errors
/// [`Trouble`] if it is not built.
pub fn program(name: &str) -> Result<PathBuf, Trouble> {
    let this = std::env::current_exe().map_err(Trouble::system("this program"))?;
    let folders = this.ancestors().skip(1).take(2);
    let found = folders.map(|folder| folder.join(name)).find(|file| file.is_file());
    found.ok_or_else(|| Trouble::NotShown(format!("{name} is not built; run `cargo build --workspace --bins` first")))
}
