//! A real window of the app, with everything a person can do to it.
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use serde_json::{Value, json};
use tempfile::TempDir;
use thirtyfour::session::handle::SessionHandle;
use thirtyfour::{By, Capabilities, Key, WebDriver, WebElement};

use crate::{Opening, Trouble, display::Display, driver::Driver, kill, opening::program};

/// An open window. Dropping it closes the app the hard way.
pub struct Window {
    page: Arc<SessionHandle>,
    driver: Driver,
    kept: Kept,
}

/// What a window needs as long as it is open.
enum Kept {
    /// The app's display.
    Display(#[expect(dead_code, reason = "held until the window is dropped")] Display),
    /// The browser's profile: a new one for each, so that none knows another's login.
    Profile(TempDir),
}

/// What a browser is asked to leave alone: it would look for its maker's hosts, and a check needs none.
const BROWSER: [&str; 8] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// A desk has a mouse, which a browser without a window does not see by itself: pointer and hover are as it says.
const MOUSE: &str =
    "--blink-settings=primaryPointerType=4,availablePointerTypes=4,primaryHoverType=2,availableHoverTypes=2";

/// Where a browser puts what it saves, in its profile.
const SAVED: &str = "saved";

/// Wider than this is a desk, CSS pixels; a tablet is not.
const TABLET: u32 = 1024;

impl Window {
    /// Starts the app and waits for its page.
    pub async fn open(opening: &Opening) -> Result<Self, Trouble> {
        let display = Display::start()?;
        let driver = Driver::start("WebKitWebDriver", &opening.environment(&display)).await?;
        let mut wish = Capabilities::new();
        wish.set("webkitgtk:browserOptions", json!({ "binary": program("provenohm")?, "args": [] }))?;
        Self::driven(driver, wish, Kept::Display(display)).await
    }

    /// Opens an address in a browser of its own, this wide and high in CSS pixels.
    pub async fn browse(address: &str, (width, height): (u32, u32)) -> Result<Self, Trouble> {
        let profile = tempfile::tempdir().map_err(Trouble::system("a folder for the browser"))?;
        let driver = Driver::start("chromedriver", &[]).await?;
        let own = format!("--user-data-dir={}", profile.path().display());
        let mouse = (width > TABLET).then_some(MOUSE);
        let arguments: Vec<&str> = BROWSER.into_iter().chain([own.as_str()]).chain(mouse).collect();
        // A window of its own is never as narrow as a phone's.
        let metrics = json!({ "width": width, "height": height, "pixelRatio": 1.0, "mobile": false, "touch": false });
        let mut wish = Capabilities::new();
        let saved = profile.path().join(SAVED);
        let options = json!({
            "args": arguments,
            "mobileEmulation": { "deviceMetrics": metrics },
            "prefs": { "download.default_directory": saved },
        });
        wish.set("goog:chromeOptions", options)?;
        let window = Self::driven(driver, wish, Kept::Profile(profile)).await?;
        window.page.goto(address).await?;
        Ok(window)
    }

    async fn driven(driver: Driver, wish: Capabilities, kept: Kept) -> Result<Self, Trouble> {
        // The driver's client wants one at hand even where it encrypts nothing; only the first that asks is the first.
        drop(rustls::crypto::ring::default_provider().install_default());
        let session = WebDriver::builder(driver.address(), wish)
            .keep_alive(true)
            .request_timeout(Duration::from_secs(60))
            .await?;
        let page = Arc::clone(session.handle());
        // The window is closed by ending its driver; asking the driver to close it first waits for ever.
        session.leak().map_err(|error| Trouble::NotShown(error.to_string()))?;
        page.set_script_timeout(Duration::from_secs(30)).await?;
        Ok(Self { page, driver, kept })
    }

    /// Waits until the browser has saved so many files; they in order of their names.
    pub async fn until_saved(&self, count: usize) -> Result<Vec<PathBuf>, Trouble> {
        for _ in 0..200 {
            let saved = self.saved()?;
            if saved.len() >= count {
                return Ok(saved);
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        Err(Trouble::NotShown(format!("{count} files saved, but {:?}", self.saved()?)))
    }

    /// The files that the browser has saved by now, whole, in order of their names.
    fn saved(&self) -> Result<Vec<PathBuf>, Trouble> {
        let Kept::Profile(profile) = &self.kept else { return Ok(Vec::new()) };
        let folder = profile.path().join(SAVED);
        let found = match std::fs::read_dir(&folder) {
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
            found => found.map_err(Trouble::system(folder.display().to_string()))?,
        };
        let mut files = found
            .map(|file| Ok(file?.path()))
            .collect::<std::io::Result<Vec<_>>>()
            .map_err(Trouble::system(folder.display().to_string()))?;
        files.retain(|file| file.extension().is_none_or(|ending| ending != "crdownload"));
        files.sort();
        Ok(files)
    }

    /// Goes to a screen by its place, as `#/jobs`.
    pub async fn go(&self, place: &str) -> Result<(), Trouble> {
        self.ask("location.hash = arguments[0]", &[json!(place)]).await?;
        Ok(())
    }

    /// Taps the middle of the element with this id, as a finger or a mouse does.
    pub async fn tap(&self, id: &str) -> Result<(), Trouble> {
        self.element(id).await?.click().await?;
        Ok(())
    }

    /// Taps the button, link or tab that is called so.
    pub async fn tap_named(&self, name: &str) -> Result<(), Trouble> {
        self.named(name).await?.click().await?;
        Ok(())
    }

    /// Presses a pointer at a point of the page and holds it.
    pub async fn hold(&self, (x, y): (i64, i64)) -> Result<(), Trouble> {
        self.page.action_chain().move_to(x, y).click_and_hold().perform().await?;
        Ok(())
    }

    /// Moves a held pointer there.
    pub async fn move_to(&self, (x, y): (i64, i64)) -> Result<(), Trouble> {
        self.page.action_chain().move_to(x, y).perform().await?;
        Ok(())
    }

    /// Lets a held pointer go there.
    pub async fn let_go(&self, (x, y): (i64, i64)) -> Result<(), Trouble> {
        self.page.action_chain().move_to(x, y).release().perform().await?;
        Ok(())
    }

    /// What the element with this id says, its no-break spaces as plain ones.
    pub async fn text(&self, id: &str) -> Result<String, Trouble> {
        Ok(self.element(id).await?.text().await?.replace('\u{a0}', " ").trim().to_owned())
    }

    /// Types on the hardware keyboard, wherever the focus is.
    pub async fn type_keys(&self, keys: &str) -> Result<(), Trouble> {
        self.page.action_chain().send_keys(keys).perform().await?;
        Ok(())
    }

    /// Presses a key of the hardware keyboard while Ctrl is held.
    pub async fn type_with_control(&self, key: char) -> Result<(), Trouble> {
        let keys = self.page.action_chain().key_down(Key::Control).key_down(key);
        keys.key_up(key).key_up(Key::Control).perform().await?;
        Ok(())
    }

    /// Types into the field with this id, in place of what stands there.
    pub async fn fill_id(&self, id: &str, text: &str) -> Result<(), Trouble> {
        let field = self.element(id).await?;
        field.clear().await?;
        field.send_keys(text).await?;
        Ok(())
    }

    /// Chooses what has this value in the list with this id.
    pub async fn choose(&self, id: &str, value: &str) -> Result<(), Trouble> {
        let list = self.element(id).await?;
        // The driver brings a clicked element into view, but not the list of a choice.
        list.scroll_into_view().await?;
        let choice = list.find(By::Css(format!("option[value='{value}']"))).await?;
        choice.click().await?;
        Ok(())
    }

    /// Runs a script in the page and gives what it returns.
    pub async fn ask(&self, script: &str, words: &[Value]) -> Result<Value, Trouble> {
        Ok(self.page.execute(script, words.to_vec()).await?.json().clone())
    }

    /// Runs a script that answers later, by calling its last argument.
    pub(crate) async fn ask_later(&self, script: &str) -> Result<Value, Trouble> {
        Ok(self.page.execute_async(script, Vec::new()).await?.json().clone())
    }

    /// Asks the core for an operation, through the same door as the screens. Refused: its words.
    pub async fn call(&self, operation: &str, input: Value) -> Result<Value, Trouble> {
        // A page of a hub is told of its session what it has to say with every request.
        let script = "const [operation, input, done] = arguments;
            const post = async (path, asked, page) => {
                const answer = await fetch(path, { method: 'POST', headers: { 'x-provenohm-page': page }, body: JSON.stringify(asked) });
                if (!answer.ok) throw await answer.json();
                return answer.json();
            };
            const ofHub = async () => post('/call', { operation, input }, (await post('/session', {}, '')).page);
            const told = window.__TAURI_INTERNALS__ ? window.__TAURI_INTERNALS__.invoke('call', { operation, input }) : ofHub();
            told.then((told) => done({ told }), (failure) => done({ failure }))";
        let answer = self.page.execute_async(script, vec![json!(operation), input]).await?;
        match answer.json() {
            Value::Object(fields) if fields.contains_key("told") => Ok(fields["told"].clone()),
            other => Err(Trouble::NotShown(format!("{operation} was refused: {other}"))),
        }
    }

    /// Waits until the script returns true. What is waited for goes into the failure.
    pub async fn until(&self, what: &str, script: &str, words: &[Value]) -> Result<(), Trouble> {
        for _ in 0..200 {
            if self.ask(script, words).await? == Value::Bool(true) {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        let shown = self.ask("return document.body.innerText", &[]).await?;
        Err(Trouble::NotShown(format!(
            "waited in vain for {what}; the window shows:\n{}",
            shown.as_str().unwrap_or_default()
        )))
    }

    /// Waits until the page shows these words somewhere.
    pub async fn until_shown(&self, words: &str) -> Result<(), Trouble> {
        let script = "return document.body.innerText.replaceAll('\\u00a0', ' ').includes(arguments[0])";
        self.until(&format!("“{words}”"), script, &[json!(words)]).await
    }

    /// Waits until the screen with this id is there and filled.
    pub async fn until_shown_in(&self, screen: &str) -> Result<(), Trouble> {
        let filled = "return (document.getElementById(arguments[0])?.innerText.length ?? 0) > 40";
        self.until(screen, filled, &[json!(screen)]).await
    }

    /// Leaves a picture of the page, after it was painted.
    pub async fn picture(&self, file: &Path) -> Result<(), Trouble> {
        // One frame may still be the one before.
        self.ask_later(
            "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done(true)))",
        )
        .await?;
        let png = self.page.screenshot_as_png().await?;
        if let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder).map_err(Trouble::system(folder.display().to_string()))?;
        }
        std::fs::write(file, png).map_err(Trouble::system(file.display().to_string()))
    }

    /// Kills the app as power loss or the system would: without a word beforehand.
    pub fn kill(self) -> Result<(), Trouble> {
        kill::kill(self.driver.id(), kill::APP)
    }

    async fn element(&self, id: &str) -> Result<WebElement, Trouble> {
        self.until(&format!("#{id}"), "return document.getElementById(arguments[0]) !== null", &[json!(id)]).await?;
        Ok(self.page.find(By::Id(id)).await?)
    }

    /// By accessible name, as a screen reader would say it.
    async fn named(&self, name: &str) -> Result<WebElement, Trouble> {
        let script = format!("{NAMED}; return named(arguments[0]) !== null");
        self.until(&format!("something called “{name}”"), &script, &[json!(name)]).await?;
        let script = format!("{NAMED}; return named(arguments[0])");
        Ok(self.page.execute(script, vec![json!(name)]).await?.element()?)
    }
}

/// Finds what can be seen and used by its name: `aria-label`, its `label`, or its own words.
const NAMED: &str = "
    const named = (name) => {
        const plain = (text) => (text ?? '').replace(/\\s+/g, ' ').trim();
        const all = document.querySelectorAll('button, a[href], input, select, textarea, summary, [role]');
        const names = (one) => [one.getAttribute('aria-label'), ...[...(one.labels ?? [])].map((label) => label.innerText), one.innerText];
        const seen = (one) => one.checkVisibility() && !one.closest('[inert]');
        return [...all].find((one) => seen(one) && names(one).some((text) => plain(text) === name)) ?? null;
    }";
