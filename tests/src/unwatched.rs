//! The app with no driver at its window. A driver ends the app when its page is killed, so this is how to see it return.
use std::{
    process::{Child, Command, Stdio},
    time::Duration,
};

use crate::{Opening, Trouble, display, display::Display, kill, opening};

/// The running app; it ends when this is dropped.
pub struct Unwatched {
    app: Child,
    display: Display,
}

impl Unwatched {
    /// Starts the app and waits until it shows a page.
    pub async fn open(opening: &Opening) -> Result<Self, Trouble> {
        let display = Display::start()?;
        let app = Command::new(opening::program("provenohm")?)
            .envs(opening.environment(&display))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Trouble::system("provenohm"))?;
        let window = Self { app, display };
        window.until("something painted", || window.display.is_painted()).await?;
        Ok(window)
    }

    /// Kills the process that shows the page, as a phone does when memory is short, and waits for another one.
    pub async fn kill_page(&self) -> Result<(), Trouble> {
        let before = kill::started_by(self.app.id(), kill::PAGE)?;
        kill::kill(self.app.id(), kill::PAGE)?;
        let another = || {
            let now = kill::started_by(self.app.id(), kill::PAGE)?;
            Ok(now.iter().any(|page| !before.contains(page)))
        };
        self.until("another process that shows the page", another).await
    }

    async fn until(&self, what: &str, holds: impl Fn() -> Result<bool, Trouble>) -> Result<(), Trouble> {
        for _ in 0..1000 {
            if holds()? {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
        Err(Trouble::NotShown(format!("waited in vain for {what}")))
    }
}

impl Drop for Unwatched {
    fn drop(&mut self) {
        display::stop(&mut self.app);
    }
}
