//! A board by the keyboard alone: typed into cell by cell, a figure taken back, a table pasted, looked at, taken and taken
//! back, and one that stands replaced with a reason.
use crate::login::{PASSWORD, enter, picture};
use provenohm_tests::{Hub, Job, Trouble, Window, single_phase};
use serde_json::{Value, json};

const DESK: (u32, u32) = (1440, 900);
const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";
const ESCAPE: &str = "\u{e00c}";

/// Tab until this holds of what has the focus.
async fn tab_until(window: &Window, what: &str) -> Result<(), Trouble> {
    let there = format!("const at = document.activeElement; return Boolean({what})");
    for _ in 0..60 {
        if window.ask(&there, &[]).await? == json!(true) {
            return Ok(());
        }
        window.type_keys(TAB).await?;
    }
    Err(Trouble::NotShown(format!("no Tab stop of which {what}")))
}

async fn focused(window: &Window) -> Result<Value, Trouble> {
    window.ask("return document.activeElement.dataset.slot ?? document.activeElement.id", &[]).await
}

async fn said(window: &Window, words: &str) -> Result<(), Trouble> {
    let script =
        "return document.getElementById('grid-said').innerText.replaceAll('\\u00a0', ' ').includes(arguments[0])";
    window.until(&format!("“{words}” to be said"), script, &[json!(words)]).await
}

async fn shown(window: &Window, board: &str) -> Result<Vec<Value>, Trouble> {
    let view = window.call("grid", json!({ "board": board })).await?;
    let rows = view["rows"].as_array().cloned().unwrap_or_default();
    let cells = rows.iter().flat_map(|row| row["cells"].as_array().cloned().unwrap_or_default());
    Ok(cells.map(|cell| cell["shown"].clone()).filter(|shown| !shown.is_null()).collect())
}

/// Puts a text on the page's clipboard as a spreadsheet would, then presses Ctrl and V where the focus is.
async fn paste(window: &Window, text: &str) -> Result<(), Trouble> {
    let script = "const held = new DataTransfer();
        held.setData('text/plain', arguments[0]);
        document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: held, bubbles: true, cancelable: true }))";
    window.ask(script, &[json!(text)]).await?;
    Ok(())
}

async fn no_barriers(window: &Window) -> Result<(), Trouble> {
    assert_eq!(window.serious_barriers().await?, Vec::<String>::new());
    Ok(())
}

#[tokio::test]
async fn a_board_is_recorded_and_a_table_taken_by_the_keyboard_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let mut hub = Hub::serve(record.path())?;
    let office = Window::browse(&hub.first_link()?, DESK).await?;
    office.until_shown("First password of this hub").await?;
    enter(&office, PASSWORD).await?;
    office.until_shown_in("screen-jobs").await?;
    let job = Job::with(&office, &[(4, single_phase())]).await?;
    job.prove_tester(&office).await?;
    office.go(&format!("#/circuits/{}", job.board)).await?;
    office.until_shown_in("screen-circuits").await?;
    tab_until(&office, "at.id === 'grid'").await?;
    office.type_keys(ENTER).await?;
    office.until_shown_in("screen-grid").await?;
    office.until_shown("Tester A").await?;
    tab_until(&office, "at.dataset.slot").await?;
    no_barriers(&office).await?;

    // Nothing is saved before it is said how the tester is set, and Enter saves nothing.
    office.type_keys("4").await?;
    office.until_shown("Tester set to 500 V").await?;
    office.type_keys("m").await?;
    said(&office, "Say first how the tester is set").await?;
    no_barriers(&office).await?;
    picture(&office, "grid-volts").await?;
    office.type_keys("t").await?;
    let set = "return document.getElementById('grid-set-volts') === null";
    office.until("the tester to be set", set, &[]).await?;
    office.type_keys("87").await?;
    office.type_keys(ENTER).await?;
    said(&office, "Press k, m or g").await?;
    office.type_keys("m").await?;
    said(&office, "487 MΩ").await?;
    office.type_keys(">999m").await?;
    said(&office, "> 999 MΩ").await?;
    assert_eq!(shown(&office, &job.board).await?, [json!("487\u{a0}MΩ"), json!(">\u{a0}999\u{a0}MΩ")]);
    let third = focused(&office).await?;
    office.type_with_control('z').await?;
    said(&office, "999 MΩ").await?;
    office
        .until("the place it was taken from", "return document.activeElement.dataset.slot !== arguments[0]", &[third])
        .await?;
    assert_eq!(shown(&office, &job.board).await?, [json!("487\u{a0}MΩ")]);
    // Typed and left: nothing of it is saved.
    office.type_keys("12").await?;
    office.type_keys(ESCAPE).await?;
    said(&office, "12 was not saved").await?;

    let at = "MΩ\t500\tTester A\t2026-11-25 09:10";
    let head = "circuit\tpair\tstage\tcomparator\treading\tunit\ttest_voltage_v\ttester\ttime";
    let table =
        format!("{head}\n2\tL–N\tbefore\t\t1.20\t{at}\n2\tL–PE\tbefore\t>\t999\t{at}\n3\tL–N\tbefore\t\t0,85\t{at}");
    paste(&office, &format!("{table}\n9\tL–N\tbefore\t\t487\t\t500\tTester A\t")).await?;
    office.until_shown("In 4 = new 3 + same 0 + not taken 1").await?;
    office.until_shown("Line 5: Write the unit: kΩ, MΩ or GΩ").await?;
    no_barriers(&office).await?;
    picture(&office, "grid-complaints").await?;
    office.type_keys(ESCAPE).await?;
    office.until("the sheet to close", "return document.querySelector('dialog') === null", &[]).await?;
    paste(&office, &table).await?;
    office.until_shown("In 3 = new 3 + same 0 + not taken 0").await?;
    picture(&office, "grid-preview").await?;
    tab_until(&office, "at.id === 'import-take'").await?;
    office.type_keys(ENTER).await?;
    office.until_shown("Took 3 readings from the table").await?;
    assert_eq!(shown(&office, &job.board).await?.len(), 4);
    no_barriers(&office).await?;
    picture(&office, "grid-1440").await?;
    assert_eq!(focused(&office).await?, json!("undo"));
    office.type_keys(ENTER).await?;
    office.until_shown("Taken back").await?;
    assert_eq!(shown(&office, &job.board).await?, [json!("487\u{a0}MΩ")]);

    // By the browser's own clipboard: the board's readings copied, and pasted where they stand already.
    tab_until(&office, "at.dataset.slot").await?;
    office.type_with_control('c').await?;
    said(&office, "The readings are on the clipboard").await?;
    office.type_with_control('v').await?;
    office.until_shown("In 1 = new 0 + same 1 + not taken 0").await?;
    office.type_keys(ESCAPE).await?;
    office.until("the sheet to close", "return document.querySelector('dialog') === null", &[]).await?;

    // What stands there gives way only with a reason.
    tab_until(&office, "at.dataset.slot").await?;
    office.type_keys("\u{e011}").await?;
    office.type_keys("478m").await?;
    office.until_shown("Why another reading?").await?;
    no_barriers(&office).await?;
    picture(&office, "grid-why").await?;
    office.type_keys("1").await?;
    said(&office, "478 MΩ").await?;
    assert_eq!(shown(&office, &job.board).await?, [json!("478\u{a0}MΩ")]);

    // Interface rule O7.
    let boxes = "const high = (one) => one.getBoundingClientRect().height;
        const rows = [...document.querySelectorAll('[data-row]')].map(high);
        const hits = [...document.querySelectorAll('#screen-grid button')].map(high);
        const size = parseFloat(getComputedStyle(document.querySelector('[data-slot]')).fontSize);
        return rows.every((one) => one >= 28 && one <= 32) && hits.every((one) => one >= 24) && size >= 14 && size <= 15";
    assert_eq!(office.ask(boxes, &[]).await?, json!(true));

    for (size, name) in [((1024, 768), "grid-1024"), ((390, 844), "grid-390")] {
        let other = Window::browse(&hub.address, size).await?;
        other.until_shown("Log in to the office").await?;
        enter(&other, PASSWORD).await?;
        other.go(&format!("#/grid/{}", job.board)).await?;
        other.until_shown_in("screen-grid").await?;
        other.until_shown("478 MΩ").await?;
        no_barriers(&other).await?;
        let fits = "return document.documentElement.scrollWidth <= window.innerWidth";
        assert_eq!(other.ask(fits, &[]).await?, json!(true), "{name}");
        picture(&other, name).await?;
    }
    Ok(())
}
