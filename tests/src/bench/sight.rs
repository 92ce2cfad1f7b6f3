//! From the save of a reading on one device to its sight on another that has the job open, beside a second.
use std::path::Path;
use std::time::Duration;

use provenohm_tests::{Hub, Job, Opening, Trouble, Window, single_phase};
use serde_json::{Value, json};

use crate::Broken;
use crate::figure::{Pairs, Row};

const READINGS: u64 = 12;
const DESK: (u32, u32) = (1280, 900);
const PASSWORD: &str = "correct horse";

/// Notes when these words are on the page, as the clock of this machine says, in milliseconds.
const WATCH: &str = "
    window.seenAt = null;
    const look = () => {
        if (window.seenAt === null && document.body.innerText.replaceAll('\\u00a0', ' ').includes(arguments[0])) window.seenAt = Date.now();
    };
    new MutationObserver(look).observe(document.body, { childList: true, subtree: true, characterData: true });
    look()";

pub(crate) async fn rows() -> Result<Vec<Row>, Broken> {
    let there = tempfile::tempdir()?;
    let mut hub = Hub::serve(there.path())?;
    let office = logged_in(&hub.first_link()?).await?;
    let job = Job::with(&office, &[(20, single_phase())]).await?;
    let other = logged_in(&hub.address).await?;
    let (one, two) = (tempfile::tempdir()?, tempfile::tempdir()?);
    let (one, two) = (phone(&office, one.path(), &job).await?, phone(&office, two.path(), &job).await?);
    Ok(vec![
        row("from one browser to another at a hub", &office, &other, &job).await?,
        row("from a phone to a browser at its hub", &one, &office, &job).await?,
        row("from one phone to another at a hub", &one, &two, &job).await?,
    ])
}

/// A reading is saved on one and seen on the other, which shows the job.
async fn row(what: &str, one: &Window, other: &Window, job: &Job) -> Result<Row, Broken> {
    other.go(&format!("#/job/{}", job.job)).await?;
    other.until_shown_in("screen-job").await?;
    let mut pairs = Pairs::default();
    for _ in 0..READINGS {
        let done = in_step(one, other, job).await?;
        other.until_shown(&format!("{done} of")).await?;
        other.ask(WATCH, &[json!(format!("{} of", done + 1))]).await?;
        let run = one.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
        let indication = json!({ "typed": { "text": "487", "comparator": "exact", "unit": "m" } });
        let saved = millis(&one.ask("return Date.now()", &[]).await?)?;
        one.call("save_reading", json!({ "board": job.board, "slot": run["slot"], "indication": indication })).await?;
        other.until("the reading", "return window.seenAt !== null", &[]).await?;
        let seen = millis(&other.ask("return window.seenAt", &[]).await?)?;
        pairs.add(Duration::from_millis(seen.saturating_sub(saved)), Duration::from_secs(1));
    }
    Ok(pairs.row(format!("a reading saved until it is seen, {what}"), "a second"))
}

/// How many readings both have.
async fn in_step(one: &Window, other: &Window, job: &Job) -> Result<u64, Trouble> {
    for _ in 0..400 {
        let ((done, _), (there, _)) = (job.done(one).await?, job.done(other).await?);
        if done == there {
            return Ok(done);
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    Err(Trouble::NotShown("both in step".to_owned()))
}

fn millis(told: &Value) -> Result<u64, Trouble> {
    told.as_u64().ok_or_else(|| Trouble::NotShown(format!("no instant but {told}")))
}

async fn logged_in(address: &str) -> Result<Window, Trouble> {
    let window = Window::browse(address, DESK).await?;
    window.fill_id("login-name", "A. Office").await?;
    window.fill_id("login-password", PASSWORD).await?;
    window.tap("login-enter").await?;
    window.until_shown_in("screen-jobs").await?;
    Ok(window)
}

/// A phone that is enrolled and has the job.
async fn phone(office: &Window, record: &Path, job: &Job) -> Result<Window, Trouble> {
    office.go("#/phones").await?;
    office.tap("phones-enrol").await?;
    let (address, code) = (office.text("enrol-address").await?, office.text("enrol-code").await?);
    office.tap_named("Close").await?;
    let phone = Window::open(&Opening::phone(record)).await?;
    phone.go("#/office").await?;
    for (field, text) in [("office-address", address.as_str()), ("office-code", &code), ("office-name", "A phone")] {
        phone.fill_id(field, text).await?;
    }
    phone.tap("office-enrol").await?;
    phone.until_shown("In step with the office").await?;
    phone.call("fetch_job", json!({ "job": job.job })).await?;
    let here = "const [job] = arguments;
        return window.__TAURI_INTERNALS__.invoke('call', { operation: 'jobs', input: {} }).then((told) => told.jobs.some((one) => one.id === job))";
    phone.until("the job", here, &[json!(job.job)]).await?;
    let person = json!({ "job": job.job, "name": "A. Recorder", "role": "" });
    phone.call("add_person", person).await?;
    phone.call("confirm_cautions", json!({ "job": job.job })).await?;
    Ok(phone)
}
