//! WebKit's own driver, one for each window.
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::{Trouble, display};

/// The running driver; it ends when this is dropped, and its window with it.
pub(crate) struct Driver {
    program: Child,
    port: u16,
}

impl Driver {
    /// Starts the driver on a free port. The window it will open gets this environment.
    pub(crate) async fn start(environment: &[(&str, String)]) -> Result<Self, Trouble> {
        let port = free_port().map_err(Trouble::system("a free port"))?;
        let program = Command::new("WebKitWebDriver")
            .arg(format!("--port={port}"))
            // Without it the app opens a window that no driver may touch, and the session waits for ever.
            .env("TAURI_WEBVIEW_AUTOMATION", "true")
            .envs(environment.iter().map(|(name, value)| (name, value)))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Trouble::system("WebKitWebDriver"))?;
        let driver = Self { program, port };
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

    async fn listens(&self) -> Result<(), Trouble> {
        for _ in 0..200 {
            if TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).is_ok() {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err(Trouble::NotShown("WebKitWebDriver did not start to listen".to_owned()))
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        display::stop(&mut self.program);
    }
}

fn free_port() -> std::io::Result<u16> {
    Ok(TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port())
}
