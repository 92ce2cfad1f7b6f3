//! The review of a board on a tablet: at a glance without sideways scroll, odd ones first, and all of it by keys.
use provenohm_tests::{Job, Opening, Trouble, Window};
use serde_json::{Value, json};
use std::path::PathBuf;

const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";

/// A board of twelve circuits of ten pairs each, all read; one is far below the others, one below its limit.
async fn read_board(window: &Window) -> Result<Job, Trouble> {
    let three_phase = json!({ "nominal": "400", "to_earth": "230", "measure": "none", "conductors": "three_phase_n" });
    let job = Job::with(window, &[(12, three_phase)]).await?;
    job.prove_tester(window).await?;
    window.call("set_volts", json!({ "board": job.board, "volts": 500 })).await?;
    let mut run = window.call("run", json!({ "board": job.board })).await?;
    let mut count = 0;
    while let Value::String(slot) = &run["slot"] {
        count += 1;
        let typed = |text: &str| json!({ "typed": { "text": text, "comparator": "exact", "unit": "m" } });
        let indication = match count {
            17 => typed("0.62"),
            58 => typed("2.10"),
            _ if count % 3 == 0 => typed("487"),
            _ => json!("over_range"),
        };
        let asked = json!({ "board": job.board, "slot": slot, "indication": indication });
        run = window.call("save_reading", asked).await?["run"].clone();
    }
    assert_eq!(count, 120);
    Ok(job)
}

async fn seen(window: &Window, name: &str) -> Result<(), Trouble> {
    if let Some(folder) = std::env::var_os("PROVENOHM_PICTURES") {
        window.picture(&PathBuf::from(folder).join(name)).await?;
    }
    assert_eq!(window.serious_barriers().await?, [] as [String; 0], "{name}");
    Ok(())
}

/// Tab until the focus is where it says.
async fn tab_to(window: &Window, what: &str) -> Result<(), Trouble> {
    let there = format!("const it = document.activeElement; return {what}");
    for _ in 0..40 {
        if window.ask(&there, &[]).await? == json!(true) {
            return Ok(());
        }
        window.type_keys(TAB).await?;
    }
    Err(Trouble::NotShown(format!("no Tab leads to {what}")))
}

/// How much wider the board is than its box, whether circuit and pairs stay in sight when it is scrolled, and the lowest row.
const BOARD: &str = "
    const box = document.querySelector('[role=region]');
    const [head, side] = [box.querySelector('thead th:nth-child(2)'), box.querySelector('tbody th')];
    box.scrollTop = 120;
    box.scrollLeft = 120;
    const at = box.getBoundingClientRect();
    const sticks = head.getBoundingClientRect().top - at.top < 4 && side.getBoundingClientRect().left - at.left < 4;
    box.scrollTop = box.scrollLeft = 0;
    const rows = [...box.querySelectorAll('tbody button')].map((one) => one.getBoundingClientRect().height);
    return [box.scrollWidth - box.clientWidth, sticks, Math.min(...rows)]";

#[tokio::test]
async fn a_board_of_ten_pairs_by_twelve_circuits_is_one_glance_on_a_tablet() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening { size: (1024, 768), ..Opening::phone(record.path()) }).await?;
    let job = read_board(&window).await?;
    window.go(&format!("#/look/{}", job.job)).await?;
    window.until_shown("2 things to look at").await?;
    seen(&window, "review-1024.png").await?;
    window.tap("filter-all").await?;
    window.until("the board is shown", "return document.querySelectorAll('tbody tr').length === 12", &[]).await?;
    seen(&window, "review-board-1024.png").await?;
    let board = window.ask(BOARD, &[]).await?;
    assert_eq!((&board[0], &board[1]), (&json!(0), &json!(true)), "{board}");
    assert!(board[2].as_f64().is_some_and(|height| height >= 40.0), "{board}");
    Ok(())
}

#[tokio::test]
async fn what_is_odd_comes_first_and_is_reviewed_by_keys_alone() -> Result<(), Trouble> {
    let record = tempfile::tempdir().unwrap();
    let window = Window::open(&Opening { size: (768, 1024), ..Opening::phone(record.path()) }).await?;
    let job = read_board(&window).await?;
    window.go(&format!("#/look/{}", job.job)).await?;
    window.until_shown("2 things to look at").await?;
    tab_to(&window, "it.closest('#look-items') !== null").await?;
    window.type_keys(ENTER).await?;
    window.until_shown("1 of 2").await?;
    window.until_shown("0.62").await?;
    seen(&window, "review-sheet-768.png").await?;
    tab_to(&window, "it.id === 'act-accept'").await?;
    window.type_keys(&format!("{ENTER}an old heating cable{ENTER}")).await?;
    window.until_shown("Accepted: DB-2").await?;
    // The list is one shorter, and the next one is the first of it.
    window.until_shown("1 of 1").await?;
    tab_to(&window, "it.id === 'act-ask'").await?;
    window.type_keys(ENTER).await?;
    window.until("the reason has the focus", "return document.activeElement.id === 'act-reason'", &[]).await?;
    seen(&window, "review-reason-768.png").await?;
    window.type_keys(&format!("far below its neighbours{ENTER}")).await?;
    window.until("the sheet is closed", "return document.querySelector('dialog') === null", &[]).await?;
    window.until_shown("1 thing to look at").await?;
    window.until_shown("1 new reading asked for").await?;
    seen(&window, "review-asked-768.png").await?;
    window.tap("filter-accepted").await?;
    window.until_shown("an old heating cable").await?;
    seen(&window, "review-accepted-768.png").await?;

    // On Run the pair that is asked for comes next, though all are filled.
    window.go(&format!("#/run/{}", job.board)).await?;
    window.until_shown("A. Recorder asks for a new reading: far below its neighbours").await?;
    seen(&window, "review-run-768.png").await?;
    window.go(&format!("#/job/{}", job.job)).await?;
    window.until_shown("1 new reading asked for").await?;
    Ok(())
}

#[tokio::test]
async fn the_review_fits_a_phone_and_a_desk() -> Result<(), Trouble> {
    for size in [(390, 844), (1280, 800)] {
        let record = tempfile::tempdir().unwrap();
        let window = Window::open(&Opening { size, ..Opening::phone(record.path()) }).await?;
        let job = read_board(&window).await?;
        let look = window.call("look", json!({ "job": job.job })).await?;
        for (act, at, reason) in [("accept", 0, "an old heating cable"), ("ask_reading", 1, "far below its neighbours")]
        {
            let slot = &look["items"][at]["slot"];
            window.call(act, json!({ "board": job.board, "slot": slot, "reason": reason })).await?;
        }
        window.go(&format!("#/look/{}", job.job)).await?;
        window.until_shown("1 accepted with a reason").await?;
        seen(&window, &format!("review-{}.png", size.0)).await?;
        window.ask("document.querySelector('#look-items button').click()", &[]).await?;
        window.until_shown("far below its neighbours").await?;
        seen(&window, &format!("review-sheet-{}.png", size.0)).await?;
        let wide = "const it = document.querySelector('dialog'); return it.scrollWidth > it.clientWidth";
        assert_eq!(window.ask(wide, &[]).await?, json!(false), "{size:?}");
        window.type_keys("\u{e00c}").await?;
        window.tap("filter-all").await?;
        window.until("the board is shown", "return document.querySelectorAll('tbody tr').length === 12", &[]).await?;
        seen(&window, &format!("review-board-{}.png", size.0)).await?;
        window.go(&format!("#/run/{}", job.board)).await?;
        window.until_shown("asks for a new reading").await?;
        seen(&window, &format!("review-run-{}.png", size.0)).await?;
    }
    Ok(())
}
