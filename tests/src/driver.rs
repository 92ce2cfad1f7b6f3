//! The web view's own driver, or the browser's: one for each window.
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

use crate::{Trouble, display};

/// The running driver; it ends when this is dropped, and its window with it.
pub(crate) struct Driver {
    program: Child,
    name: &'static str,
    port: u16,
}

impl Driver {
    /// Starts this driver on a free port. The window it will open gets this environment.
    pub(crate) async fn start(name: &'static str, environment: &[(&str, String)]) -> Result<Self, Trouble> {
        let port = free_port().ok_or_else(|| Trouble::NotShown(format!("no port is free for {name}")))?;
        let program = Command::new(name)
            .arg(format!("--port={port}"))
            // Without it the app opens a window that no driver may touch, and the session waits for ever.
            .env("TAURI_WEBVIEW_AUTOMATION", "true")
            .envs(environment.iter().map(|(name, value)| (name, value)))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Trouble::system(name))?;
        let mut driver = Self { program, name, port };
        driver.listens().await?;
        Ok(driver)
    }

    pub(crate) fn address(&self) -> String {
        format!("http://{}:{}", Ipv4Addr::LOCALHOST, self.port)
    }

    /// The driver's process id; the app is started by it.
    pub(crate) fn id(&self) -> u32 {
        self.program.id()
    }

    async fn listens(&mut self) -> Result<(), Trouble> {
        for _ in 0..200 {
            // Another program may listen where a driver that ended could not.
            if let Ok(Some(ended)) = self.program.try_wait() {
                return Err(Trouble::NotShown(format!("{} ended: {ended}", self.name)));
            }
            if TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_ok() {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err(Trouble::NotShown(format!("{} did not start to listen", self.name)))
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        display::stop(&mut self.program);
    }
}

/// A port below those the system gives to outgoing connections, so that none of them takes it before the driver does.
fn free_port() -> Option<u16> {
    static TRIED: AtomicU32 = AtomicU32::new(0);
    let tried = std::iter::repeat_with(|| TRIED.fetch_add(1, Ordering::Relaxed)).take(1000);
    let ports = tried.filter_map(|nth| u16::try_from(20_000 + (std::process::id() * 16 + nth) % 12_000).ok());
    ports.into_iter().find(|port| TcpListener::bind((Ipv4Addr::LOCALHOST, *port)).is_ok())
}
